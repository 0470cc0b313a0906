#include "sizes.h"

#include "complain.h"
#include "csv.h"
#include "nearest.h"
#include "text_in.h"

#include <errno.h>
#include <ini.h>
#include <math.h>
#include <sha2.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <tailorgeom/order.h>

enum { COLUMNS_MOST = TAILOR_FIELD_COUNT + 2 };

/* A table being read. */
typedef struct reading {
    sizes *to;
    const char *text;
    size_t bytes, at;
    int line;              /* of the next record */
    size_t cells;          /* that every record has */
    long size, fit;        /* their columns, -1 for none */
    int field[COLUMNS_MOST]; /* of each column, 0 for size and fit */
    double *values;
    size_t room;
} reading;

static const char *name_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
}

/* ---- the companion */

static int on_about(void *user, const char *section, const char *key, const char *typed)
{
    sizes *t = user;
    const struct {
        const char *key;
        char *text;
    } wanted[] = {{"title", t->title}, {"source", t->source_told}, {"provenance", t->provenance}};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        if (strcmp(section, "table") == 0 && strcmp(key, wanted[i].key) == 0)
            snprintf(wanted[i].text, SIZE_LINE, "%s", typed);
    return 1;
}

static bool read_about(sizes *t, const char *source, const char *text)
{
    int wrong = ini_parse_string(text, on_about, t);
    if (wrong)
        complain_at(source, wrong > 0 ? wrong : 0,
                    "a line is a section in brackets, or a key, an equals sign and a text");
    return !wrong;
}

/* ---- the table */

static int next_record(reading *r, csv_cell cells[COLUMNS_MOST])
{
    csv_found found;
    while (r->at < r->bytes && (r->text[r->at] == '\n' || r->text[r->at] == '\r')) /* lines without anything */
        r->line += r->text[r->at++] == '\n';
    if (r->at >= r->bytes)
        return CSV_MORE;
    int outcome = csv_record(r->text + r->at, r->bytes - r->at, true, cells, COLUMNS_MOST, &found);
    if (outcome != CSV_RECORD) {
        complain_at(r->to->source, r->line, "%s", found.trouble);
        return CSV_MALFORMED;
    }
    if ((r->cells && found.cells != r->cells) || found.cells > COLUMNS_MOST) {
        complain_at(r->to->source, r->line, "%zu cells where the header has %zu", found.cells,
                    r->cells ? r->cells : (size_t)COLUMNS_MOST);
        return CSV_MALFORMED;
    }
    r->cells = found.cells;
    r->line++;
    r->at += found.used;
    return CSV_RECORD;
}

static bool say(const reading *r, csv_cell cell, char text[SIZE_LINE])
{
    if (cell.length < SIZE_LINE) {
        csv_say(cell, text);
        return true;
    }
    complain_at(r->to->source, r->line - 1, "a cell has %zu bytes: too many for a size table", cell.length);
    return false;
}

static bool take_column(reading *r, size_t column, const char *name)
{
    sizes *t = r->to;
    long *named = strcmp(name, "size") == 0 ? &r->size : strcmp(name, "fit") == 0 ? &r->fit : NULL;
    int field = named ? 0 : tailor_table_find(tailor_field_table(), name);
    bool twice = named && *named >= 0;
    for (size_t i = 0; i < t->columns; i++)
        twice |= field && t->fields[i] == field;
    if (twice) {
        complain_at(t->source, 1, "the column %s is there twice", name);
        return false;
    }
    if (!named && (!field || field >= TAILOR_FIELD_COUNT)) {
        int near = tailor_table_suggest(tailor_field_table(), name);
        complain_at(t->source, 1, "unknown column %s%s%s%s", name,
                    near ? ": did you mean " : ": a size table has size, fit and fields, parted by commas",
                    near ? name_of(near) : "", near ? "?" : "");
        return false;
    }
    if (named)
        *named = (long)column;
    else
        t->fields[t->columns++] = field;
    r->field[column] = field;
    return true;
}

static bool read_header(reading *r)
{
    csv_cell cells[COLUMNS_MOST];
    char name[SIZE_LINE];
    int outcome = next_record(r, cells);
    if (outcome == CSV_MORE)
        complain_at(r->to->source, 0, "the table is empty");
    if (outcome != CSV_RECORD)
        return false;
    for (size_t i = 0; i < r->cells; i++)
        if (!say(r, cells[i], name) || !take_column(r, i, name))
            return false;
    if (!r->to->columns)
        complain_at(r->to->source, 1, "there is no field among the columns");
    return r->to->columns > 0;
}

/* The number of a fit, new or not; 0 when it was refused. */
static int32_t take_fit(reading *r, const char *name)
{
    sizes *t = r->to;
    for (int i = 0; i < t->fit_count; i++)
        if (strcmp(t->fits[i], name) == 0)
            return i + 1;
    snprintf(t->fits[t->fit_count++], SIZE_TEXT, "%.*s", SIZE_TEXT - 1, name);
    return t->fit_count;
}

static bool take_row(reading *r, const csv_cell *cells)
{
    sizes *t = r->to;
    char text[SIZE_LINE];
    size_t row = t->rows++, column = 0;
    t->lines[row] = r->line - 1;
    snprintf(t->names[row], SIZE_TEXT, "%zu", row + 1);
    t->fit_of[row] = r->fit < 0 ? take_fit(r, "regular") : 0;
    for (size_t i = 0; i < r->cells; i++) {
        double *value = &r->values[row * t->columns + column];
        tailor_fault fault;
        if (!say(r, cells[i], text))
            return false;
        if (!r->field[i] && (!text[0] || strlen(text) >= SIZE_TEXT)) {
            complain_at(t->source, r->line - 1, "the name of a size or fit has 1 to %d bytes", SIZE_TEXT - 1);
            return false;
        }
        if ((long)i == r->size)
            snprintf(t->names[row], SIZE_TEXT, "%.*s", SIZE_TEXT - 1, text);
        if ((long)i == r->fit)
            t->fit_of[row] = take_fit(r, text);
        if (!r->field[i])
            continue;
        *value = NAN;
        column++;
        if (text[0] && tailor_value_read(tailor_field_table(), r->field[i], text, value, &fault) != TAILOR_OK) {
            complain_at(t->source, r->line - 1, "%s (typed: %s)", fault.sentence, text);
            return false;
        }
    }
    for (size_t i = 0; i < row; i++)
        if (t->fit_of[i] == t->fit_of[row] && strcmp(t->names[i], t->names[row]) == 0) {
            complain_at(t->source, r->line - 1, "size %s of this fit stands already on line %d", t->names[row],
                        t->lines[i]);
            return false;
        }
    return true;
}

static bool read_rows(reading *r)
{
    sizes *t = r->to;
    csv_cell cells[COLUMNS_MOST];
    for (int outcome; (outcome = next_record(r, cells)) != CSV_MORE;) {
        if (outcome == CSV_MALFORMED)
            return false;
        if (t->rows == SIZES_MOST) {
            complain_at(t->source, r->line - 1, "more than %d sizes are no size table", SIZES_MOST);
            return false;
        }
        if (!take_row(r, cells))
            return false;
    }
    if (!t->rows)
        complain_at(t->source, 0, "there are no sizes in it");
    return t->rows > 0;
}

/* Where the library names a row by its place, its line goes before. */
static bool make_table(reading *r)
{
    sizes *t = r->to;
    tailor_fault fault;
    if (tailor_size_table_make(t->fields, t->columns, r->values, t->rows, t->columns, t->fit_of, NULL, &t->table,
                               &fault) == TAILOR_OK)
        return true;
    size_t row = fault.place > 0 ? (size_t)fault.place : 0;
    complain_at(t->source, row >= 1 && row <= t->rows ? t->lines[row - 1] : 0, "%s", fault.sentence);
    return false;
}

static bool read_table(sizes *t, const char *text, size_t bytes)
{
    reading r = {.to = t, .text = text, .bytes = bytes, .line = 1, .size = -1, .fit = -1};
    if (bytes >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) /* byte-order mark */
        r.at = 3;
    t->names = malloc(SIZES_MOST * sizeof *t->names);
    t->fit_of = malloc(SIZES_MOST * sizeof *t->fit_of);
    t->lines = malloc(SIZES_MOST * sizeof *t->lines);
    r.values = malloc(SIZES_MOST * TAILOR_FIELD_COUNT * sizeof *r.values);
    SHA256Data((const uint8_t *)text, bytes, t->hash);
    bool memory = t->names && t->fit_of && t->lines && r.values;
    if (!memory)
        complain("out of memory");
    bool good = memory && read_header(&r) && read_rows(&r) && make_table(&r);
    free(r.values);
    return good;
}

static bool read_file(sizes *t, const char *path)
{
    static char beside[4096]; /* the source of its messages */
    size_t length = 0, stem = strlen(path);
    struct stat found;
    char *text = text_read(path, &length);
    bool good = text && read_table(t, text, length);
    free(text);
    if (!good || stem < 4 || strcmp(path + stem - 4, ".csv") != 0 || stem >= sizeof beside)
        return good;
    snprintf(beside, sizeof beside, "%.*s.ini", (int)(stem - 4), path);
    if (stat(beside, &found) != 0)
        return true;
    text = text_read(beside, &length);
    good = text && read_about(t, beside, text);
    free(text);
    return good;
}

bool sizes_read(sizes *t, const char *operand)
{
    const char *names[64];
    size_t count = 0;
    memset(t, 0, sizeof *t);
    t->source = text_source(operand);
    if (strcmp(operand, "-") == 0 || strchr(operand, '/') || strchr(operand, '.'))
        return read_file(t, operand);
    for (size_t i = 0; i < size_text_count && i < 64; i++) {
        names[count++] = size_texts[i].name;
        if (strcmp(size_texts[i].name, operand) == 0)
            return read_table(t, size_texts[i].table, strlen(size_texts[i].table)) &&
                   read_about(t, operand, size_texts[i].about);
    }
    const char *near = nearest_name(operand, names, count);
    complain("there is no size table %s%s%s%s", operand, near ? ": did you mean " : ": the file of one ends with .csv; "
             "by name there are", near ? near : "", near ? "?" : "");
    if (!near)
        for (size_t i = 0; i < count; i++)
            complain("    %s", names[i]);
    return false;
}

void sizes_free(sizes *t)
{
    tailor_size_table_free(t->table);
    free(t->names);
    free(t->fit_of);
    free(t->lines);
    t->table = NULL;
    t->names = NULL;
    t->fit_of = NULL;
    t->lines = NULL;
}

int sizes_fit(const sizes *t, const char *name)
{
    const char *names[SIZES_MOST];
    const char *wanted = name ? name : "regular";
    for (int i = 0; i < t->fit_count; i++) {
        names[i] = t->fits[i];
        if (strcmp(t->fits[i], wanted) == 0)
            return i + 1;
    }
    if (!name)
        return 1;
    const char *near = nearest_name(name, names, (size_t)t->fit_count);
    complain_at(t->source, 0, "there is no fit %s in this table: did you mean %s?", name, near ? near : t->fits[0]);
    return 0;
}

long sizes_row(const sizes *t, int fit, const char *size)
{
    for (size_t i = 0; i < t->rows; i++)
        if (t->fit_of[i] == fit && strcmp(t->names[i], size) == 0)
            return (long)i;
    return -1;
}

long sizes_find(const sizes *t, const char *size, const char *fit, const char **why)
{
    int wanted = 0;
    const char *name = *fit ? fit : t->fit_count == 1 ? t->fits[0] : "regular";
    for (int i = 0; i < t->fit_count && !wanted; i++)
        wanted = strcmp(t->fits[i], name) == 0 ? i + 1 : 0;
    long row = wanted ? sizes_row(t, wanted, size) : -1;
    *why = wanted ? "the size table has no such size"
           : *fit ? "the size table has no such fit"
                  : "the size table has several fits: name one";
    return row;
}

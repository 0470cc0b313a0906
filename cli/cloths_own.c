/* A file of cloths: a CSV with the columns name and the properties of a cloth; use and source may stand beside them,
 * and any others. Refused whole, with line and column, when anything in it is not as it should be. */
#include "cloths_own.h"

#include "complain.h"
#include "csv_in.h"
#include "nearest.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME, USE, SOURCE, WORDS, COLUMNS = WORDS + TAILOR_CLOTH_COUNT, OWN_MOST = 1000, TYPED_MOST = 40 };
static const char *const words[WORDS] = {"name", "use", "source"};

/* The program's one table of its own: rows and their texts live until it ends. */
static struct {
    const char *file;
    cloth_row *rows;
    size_t count;
} own;

size_t cloths_own_count(void) { return own.count; }
const cloth_row *cloths_own_at(size_t place) { return &own.rows[place]; }
const char *cloths_file(void) { return own.file; }

const cloth_row *cloths_own(const char *name)
{
    for (size_t i = 0; i < own.count; i++)
        if (strcmp(own.rows[i].name, name) == 0)
            return &own.rows[i];
    return NULL;
}

/* ---- reading */

typedef struct reading {
    csv_in in;
    csv_line line;
    csv_cell *cells; /* of one line */
    size_t cell_count;
    int column_of[COLUMNS]; /* from 1: of the words, then of each property; 0 for none */
} reading;

static const char *property_name(int property)
{
    return tailor_table_text(tailor_cloth_table(), property, TAILOR_COLUMN_NAME);
}

static bool refuse(const reading *r, int column, const char *sentence, const char *more)
{
    complain_at(r->in.source, r->line.line, "column %d: %s%s", column, sentence, more);
    return false;
}

static bool no_memory(void)
{
    complain("out of memory");
    return false;
}

/* What a cell of the line says; the caller's to keep. NULL when memory has run out. */
static char *said(const reading *r, int column)
{
    csv_cell cell = r->cells[column - 1];
    char *text = malloc(cell.length + 1);
    if (text)
        csv_say(cell, text);
    return text;
}

static const char *column_name(int column)
{
    return column < WORDS ? words[column] : property_name(column - WORDS);
}

static bool take_heading(reading *r, int at)
{
    char *name = said(r, at);
    if (!name)
        return no_memory();
    int column = 0; /* a property 0 there is not */
    while (column < COLUMNS && (column == WORDS || strcmp(column_name(column), name) != 0))
        column++;
    bool twice = column < COLUMNS && r->column_of[column];
    if (column < COLUMNS)
        r->column_of[column] = at;
    free(name);
    return !twice || refuse(r, at, column_name(column), " stands already");
}

static bool take_header(reading *r)
{
    csv_found found;
    csv_record(r->line.text, r->line.length, true, NULL, 0, &found);
    r->cell_count = found.cells;
    r->cells = calloc(found.cells, sizeof *r->cells);
    if (!r->cells)
        return no_memory();
    csv_record(r->line.text, r->line.length, true, r->cells, r->cell_count, &found);
    for (size_t at = 1; at <= r->cell_count; at++)
        if (!take_heading(r, (int)at))
            return false;
    for (int column = 0; column < COLUMNS; column++) {
        if (r->column_of[column] || column == USE || column == SOURCE || column == WORDS)
            continue;
        complain_at(r->in.source, r->line.line, "there is no column %s: a file of cloths has the columns name and the "
                    "properties that `tailorgeom cloth show` lists, with commas between", column_name(column));
        return false;
    }
    return true;
}

static bool take_property(const reading *r, int property, cloth_row *row)
{
    int column = r->column_of[WORDS + property];
    char *typed = said(r, column), text[TYPED_MOST + 64];
    if (!typed)
        return no_memory();
    bool plain = typed[0] && !typed[strspn(typed, "0123456789.")] && strlen(typed) <= TYPED_MOST;
    char *end = typed;
    row->properties[property] = plain ? strtod(typed, &end) : 0; /* the program never sets a locale */
    snprintf(text, sizeof text, "%s%.*s%s", typed[0] ? " (typed: " : "", TYPED_MOST, typed, typed[0] ? ")" : "");
    bool good = plain && !*end && end > typed;
    free(typed);
    if (good)
        return true;
    char sentence[160];
    snprintf(sentence, sizeof sentence, "%s is a plain number in %s, with a point", property_name(property),
             tailor_table_text(tailor_cloth_table(), property, TAILOR_COLUMN_UNIT));
    return refuse(r, column, sentence, text);
}

static bool take_words(const reading *r, char *said_words[WORDS], cloth_row *row)
{
    const char **into[WORDS] = {&row->name, &row->use, &row->source};
    for (int i = 0; i < WORDS; i++) {
        if (!r->column_of[i])
            continue;
        said_words[i] = said(r, r->column_of[i]);
        if (!said_words[i])
            return no_memory();
        *into[i] = said_words[i];
    }
    if (!row->name[0])
        return refuse(r, r->column_of[NAME], "a cloth has a name", "");
    if (cloths_own(row->name))
        return refuse(r, r->column_of[NAME], "this name stands already: ", row->name);
    return true;
}

static bool take_properties(const reading *r, cloth_row *row)
{
    tailor_fault fault;
    for (int property = 1; property < TAILOR_CLOTH_COUNT; property++)
        if (!take_property(r, property, row))
            return false;
    if (tailor_cloth_check(row->properties, TAILOR_CLOTH_COUNT, &fault) == TAILOR_OK)
        return true;
    bool one = fault.table == TAILOR_TABLE_CLOTH && fault.index > 0 && fault.index < TAILOR_CLOTH_COUNT;
    return refuse(r, r->column_of[one ? WORDS + fault.index : NAME], fault.sentence, "");
}

static bool take_cloth(reading *r)
{
    csv_found found;
    csv_record(r->line.text, r->line.length, true, r->cells, r->cell_count, &found);
    if (own.count == OWN_MOST)
        return refuse(r, 1, "more than 1000 cloths", "");
    char *said_words[WORDS] = {NULL};
    cloth_row row = {.name = "", .use = "", .source = ""};
    if (take_words(r, said_words, &row) && take_properties(r, &row)) {
        own.rows[own.count++] = row;
        return true;
    }
    for (int i = 0; i < WORDS; i++)
        free(said_words[i]);
    return false;
}

bool cloths_read(const char *path)
{
    reading r = {.cells = NULL};
    own.rows = calloc(OWN_MOST, sizeof *own.rows);
    if (!own.rows)
        return no_memory();
    if (!csv_in_open(&r.in, path))
        return false;
    own.file = r.in.source;
    int got = csv_in_next(&r.in, &r.line);
    bool good = got == CSV_IN_LINE && take_header(&r);
    if (got == CSV_IN_END)
        complain_at(r.in.source, 0, "holds nothing: its first line is to name the columns");
    while (good && (got = csv_in_next(&r.in, &r.line)) == CSV_IN_LINE)
        good = take_cloth(&r);
    free(r.cells);
    csv_in_close(&r.in);
    return good && got == CSV_IN_END;
}

void cloths_bytes(buffer *bytes)
{
    for (size_t i = 0; i < own.count; i++) {
        buffer_add(bytes, own.rows[i].name, strlen(own.rows[i].name) + 1);
        buffer_add(bytes, (const char *)own.rows[i].properties, sizeof own.rows[i].properties);
    }
}

#include "size_names.h"

#include "complain.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS_MOST = 200, CELL_MOST = 120 };
enum { SIZE = -1, FIT = -2 };

typedef struct reading {
    size_names *to;
    csv_in in;
    int columns[COLUMNS_MOST]; /* each a field, or SIZE or FIT */
    int32_t fields[COLUMNS_MOST];
    size_t column_count, field_count;
    double *values; /* field_count a row */
    int32_t *fits;  /* one a row */
    size_t room;
} reading;

static bool refuse(const reading *r, int line, const char *name, const char *why)
{
    complain_at(r->in.source, line, "%s: %s", name, why);
    return false;
}

static bool cell_text(const reading *r, int line, csv_cell cell, char text[CELL_MOST])
{
    if (cell.length >= CELL_MOST)
        return refuse(r, line, "a cell", "too long for a size table");
    csv_say(cell, text);
    return true;
}

static bool take_column(reading *r, int line, const char *name)
{
    int column = strcmp(name, "size") == 0  ? SIZE
                 : strcmp(name, "fit") == 0 ? FIT
                                            : tailor_table_find(tailor_field_table(), name);
    if (column == 0 || column >= TAILOR_FIELD_COUNT)
        return refuse(r, line, name, "no such field: a size table has size, fit and fields");
    for (size_t i = 0; i < r->column_count; i++)
        if (r->columns[i] == column)
            return refuse(r, line, name, "there is such a column already");
    r->columns[r->column_count++] = column;
    if (column > 0)
        r->fields[r->field_count++] = column;
    return true;
}

static bool read_header(reading *r, const csv_line *line)
{
    csv_cell cells[COLUMNS_MOST];
    csv_found found;
    char name[CELL_MOST];
    csv_record(line->text, line->length, true, cells, COLUMNS_MOST, &found);
    if (found.cells > COLUMNS_MOST)
        return refuse(r, line->line, "the header", "too many columns for a size table");
    for (size_t i = 0; i < found.cells; i++)
        if (!cell_text(r, line->line, cells[i], name) || !take_column(r, line->line, name))
            return false;
    return r->field_count > 0 || refuse(r, line->line, "the header", "there is no field in it");
}

static bool out_of_memory(void)
{
    complain("out of memory");
    return false;
}

static bool make_room(reading *r)
{
    size_names *s = r->to;
    if (s->row_count < r->room)
        return true;
    size_t room = 2 * r->room + 64;
    struct size_row *rows = realloc(s->rows, room * sizeof *rows);
    s->rows = rows ? rows : s->rows;
    double *values = realloc(r->values, room * r->field_count * sizeof *values);
    r->values = values ? values : r->values;
    int32_t *fits = realloc(r->fits, room * sizeof *fits);
    r->fits = fits ? fits : r->fits;
    if (!rows || !values || !fits)
        return out_of_memory();
    r->room = room;
    return true;
}

/* Its number, from 1; a new one's when it has not been seen. */
static bool take_fit(reading *r, int line, const char *name, int *fit)
{
    size_names *s = r->to;
    for (*fit = 1; *fit <= s->fit_count; ++*fit)
        if (strcmp(s->fits[*fit - 1], name) == 0)
            return true;
    if (s->fit_count == FITS_MOST || strlen(name) >= SIZE_NAME_MOST)
        return refuse(r, line, "fit", "too many fits, or too long a name");
    strcpy(s->fits[s->fit_count++], name);
    return true;
}

static bool take_cell(reading *r, int line, int column, const char *typed, struct size_row *row, double **value)
{
    tailor_fault fault;
    if (column == SIZE) {
        if (!*typed || strlen(typed) >= SIZE_NAME_MOST)
            return refuse(r, line, "size", "a size has a name of 39 bytes at most");
        strcpy(row->size, typed);
        return true;
    }
    if (column == FIT)
        return take_fit(r, line, typed, &row->fit);
    double *to = (*value)++;
    *to = NAN;
    if (!*typed || tailor_field_read(column, typed, to, &fault) == TAILOR_OK)
        return true;
    complain_at(r->in.source, line, "%s (typed: %s)", fault.sentence, typed);
    return false;
}

static bool read_row(reading *r, const csv_line *line)
{
    csv_cell cells[COLUMNS_MOST];
    csv_found found;
    char typed[CELL_MOST];
    if (!make_room(r))
        return false;
    struct size_row *row = &r->to->rows[r->to->row_count];
    double *value = r->values + r->to->row_count * r->field_count;
    *row = (struct size_row){.fit = 0};
    csv_record(line->text, line->length, true, cells, r->column_count, &found);
    for (size_t i = 0; i < r->column_count; i++)
        if (!cell_text(r, line->line, cells[i], typed) ||
            !take_cell(r, line->line, r->columns[i], typed, row, &value))
            return false;
    if (row->fit == 0 && !take_fit(r, line->line, "regular", &row->fit))
        return false;
    r->fits[r->to->row_count++] = row->fit;
    return true;
}

static bool read_lines(reading *r)
{
    csv_line line;
    int got = csv_in_next(&r->in, &line);
    if (got == CSV_IN_END)
        return refuse(r, 0, "the file", "holds nothing: its first line is to name the columns");
    if (got == CSV_IN_FAILED || !read_header(r, &line))
        return false;
    while ((got = csv_in_next(&r->in, &line)) == CSV_IN_LINE)
        if (!read_row(r, &line))
            return false;
    csv_in_hash(&r->in, r->to->hash);
    return got == CSV_IN_END && (r->to->row_count > 0 || refuse(r, 0, "the file", "there are no sizes in it"));
}

bool size_names_read(size_names *s, const char *path)
{
    reading r = {.to = s};
    tailor_fault fault;
    *s = (size_names){.table = NULL};
    bool good = csv_in_open(&r.in, path) && read_lines(&r);
    if (good && tailor_size_table_make(r.fields, r.field_count, r.values, s->row_count, r.field_count, r.fits, NULL,
                                       &s->table, &fault) != TAILOR_OK) {
        complain_at(r.in.source, 0, "%s", fault.sentence);
        good = false;
    }
    csv_in_close(&r.in);
    free(r.values);
    free(r.fits);
    return good;
}

void size_names_free(size_names *s)
{
    tailor_size_table_free(s->table);
    free(s->rows);
    *s = (size_names){.table = NULL};
}

int size_names_find(const size_names *s, const char *size, const char *fit, const char **why)
{
    int number = 0;
    if (!*fit && s->fit_count == 1)
        number = 1;
    for (int i = 0; !number && i < s->fit_count; i++)
        if (strcmp(s->fits[i], *fit ? fit : "regular") == 0)
            number = i + 1;
    *why = number ? "the size table has no such size" : *fit ? "the size table has no such fit"
                                                             : "the size table has several fits: name one";
    for (size_t i = 0; number && i < s->row_count; i++)
        if (s->rows[i].fit == number && strcmp(s->rows[i].size, size) == 0)
            return (int)i;
    return -1;
}

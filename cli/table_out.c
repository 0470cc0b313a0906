#include "table_out.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool table_begin(table_out *t, size_t columns, size_t heads)
{
    *t = (table_out){.columns = columns, .heads = heads};
    return true;
}

bool table_row(table_out *t)
{
    if (t->rows == t->capacity) {
        size_t capacity = t->capacity ? 2 * t->capacity : 32;
        void *cells = realloc(t->cells, capacity * t->columns * sizeof *t->cells);
        if (!cells)
            return false;
        t->cells = cells;
        t->capacity = capacity;
    }
    memset(t->cells[t->rows * t->columns], 0, t->columns * sizeof *t->cells);
    t->rows++;
    return true;
}

void table_cell(table_out *t, size_t column, const char *text)
{
    snprintf(t->cells[(t->rows - 1) * t->columns + column], TABLE_CELL, "%s", text);
}

static int width(const table_out *t, size_t column)
{
    size_t widest = 0;
    for (size_t row = 0; row < t->rows; row++) {
        size_t length = strlen(t->cells[row * t->columns + column]);
        widest = length > widest ? length : widest;
    }
    return (int)widest;
}

static void print_row(const table_out *t, size_t row, size_t from, size_t to)
{
    size_t last = 0; /* nothing is printed after the last cell that holds text */
    const char(*cells)[TABLE_CELL] = (const char(*)[TABLE_CELL])t->cells + row * t->columns;
    for (size_t column = 0; column < to; column++)
        if ((column < t->heads || column >= from) && cells[column][0])
            last = column;
    for (size_t column = 0; column <= last; column++) {
        if (column >= t->heads && column < from)
            continue;
        if (column < t->heads)
            printf("%s%-*s", column ? "  " : "", column == last ? 0 : width(t, column), cells[column]);
        else
            printf("  %*s", width(t, column), cells[column]);
    }
    putchar('\n');
}

void table_end(table_out *t)
{
    int head_width = 0;
    for (size_t column = 0; column < t->heads; column++)
        head_width += width(t, column) + 2;
    for (size_t from = t->heads; from < t->columns;) {
        int used = head_width;
        size_t to = from;
        do
            used += width(t, to++) + 2;
        while (to < t->columns && used + width(t, to) + 2 <= TABLE_WIDTH + 2);
        if (from > t->heads)
            putchar('\n');
        for (size_t row = 0; row < t->rows; row++)
            print_row(t, row, from, to);
        from = to;
    }
    free(t->cells);
    *t = (table_out){0};
}

/* table_out: rows of text under column heads, no wider than a terminal.
 *
 * The first column is flush left, the others flush right. Where the columns do not fit beside each other the table is
 * printed in several parts, each with the first columns repeated. */
#ifndef CLI_TABLE_OUT_H
#define CLI_TABLE_OUT_H

#include <stdbool.h>
#include <stddef.h>

enum { TABLE_WIDTH = 100, TABLE_CELL = 32 };

typedef struct table_out {
    size_t columns, rows, capacity;
    size_t heads;            /* columns repeated in every part */
    char (*cells)[TABLE_CELL];
} table_out;

/** False when memory ran out. */
bool table_begin(table_out *t, size_t columns, size_t heads);
/** A new row of empty cells; false when memory ran out. */
bool table_row(table_out *t);
/** Text into a cell of the last row, cut where it is too long. */
void table_cell(table_out *t, size_t column, const char *text);
/** Print and forget. */
void table_end(table_out *t);

#endif

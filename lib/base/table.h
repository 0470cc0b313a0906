/* The inside of a tailor_table. The tables themselves are written by generate_tables.py. */
#ifndef TAILOR_IN_TABLE_H
#define TAILOR_IN_TABLE_H

#include <stdint.h>
#include <tailorgeom/base.h>

enum { TAILOR_IN_MOST_TRAITS = 8 };

/* One row. What validating an order asks of each stands together. */
typedef struct tailor_in_row {
    double low, high;                          /* NaN where there is none */
    const tailor_table *choices;               /* NULL for a number */
    const char *texts[TAILOR_COLUMN_SYNONYMS]; /* by TAILOR_COLUMN_, from 1; a number without a row has NULLs */
    int field;                                 /* checks: the field to blame when it fails, 0 if none */
    int sense;                                 /* checks: +1 value at most limit, -1 value at least limit */
    signed char traits[TAILOR_IN_MOST_TRAITS]; /* choices: what the code asks of them, see order/traits.h */
} tailor_in_row;

struct tailor_table {
    const tailor_in_row *rows;    /* indexed by number */
    const int16_t *reading_order; /* numbers in the order of group and rank */
    int size;                     /* highest number + 1 */
    int count;                    /* rows there are */
    int kind;                     /* TAILOR_TABLE_ */
};

/* Row of a number, or NULL if the table is NULL or has no such row. Inline: validating an order asks for each row. */
static inline const tailor_in_row *tailor_in_table_row(const tailor_table *table, int number)
{
    return !table || number < 1 || number >= table->size || !table->rows[number].texts[0] ? NULL : &table->rows[number];
}

#endif

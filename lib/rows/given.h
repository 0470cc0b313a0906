/* What is done once for all rows of a call: the house's values made ready, the columns sorted out. */
#ifndef TAILOR_IN_ROWS_GIVEN_H
#define TAILOR_IN_ROWS_GIVEN_H

#include <tailorgeom/rows.h>

typedef struct tailor_in_column {
    int field;
    size_t place; /* in the row of an order */
} tailor_in_column;

typedef struct tailor_in_given {
    double house[TAILOR_FIELD_COUNT];            /* where a row of orders begins: NaN where the house gives nothing */
    double constants[TAILOR_CONSTANT_COUNT];     /* the house's or the default: accepted */
    tailor_in_column column[TAILOR_FIELD_COUNT]; /* by field number, the order in which the scalar call looks at them */
    int column_count;
} tailor_in_given;

tailor_status tailor_in_given_house(tailor_in_given *given, const double *house, size_t house_count,
                                    const double *house_constants, size_t house_constant_count, tailor_fault *fault);
tailor_status tailor_in_given_columns(tailor_in_given *given, const int32_t *columns, size_t count,
                                      tailor_fault *fault);

/** A row of orders resolved: tailor_order_resolve's own steps, without what was done once. */
tailor_status tailor_in_given_resolve(const tailor_in_given *given, const double *order, double *fields,
                                      tailor_fault *fault);

/** Where the value of a field came from in a row: a TAILOR_ORIGIN_. `value` is the one that was found. */
int tailor_in_given_origin(const tailor_in_given *given, const double *order, int field, double value);

#endif

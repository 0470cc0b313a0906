/* The inside of a plan for rows: the house's values made ready, the columns sorted out. */
#ifndef TAILOR_IN_ROWS_PLAN_H
#define TAILOR_IN_ROWS_PLAN_H

#include <tailorgeom/rows.h>

#include "../order/house.h"

typedef struct tailor_in_column {
    int field;
    size_t place; /* in the row of an order */
} tailor_in_column;

struct tailor_rows {
    tailor_house house;                          /* its fields are where a row of orders begins */
    int32_t origins[TAILOR_FIELD_COUNT];         /* of the house's fields */
    tailor_in_column column[TAILOR_FIELD_COUNT]; /* by field number, the order in which tailor_coat_new looks at them */
    int column_count;
    int extent; /* of the coats */
    size_t wanted_count;
    int32_t wanted[]; /* as the caller counts them */
};

/** A row of orders resolved: tailor_order_resolve's own steps, without what was done once. */
tailor_status tailor_in_rows_resolve(const tailor_rows *rows, const double *order, double *fields, int32_t *origins,
                                     tailor_fault *fault);

#endif

/* The inside of a house: rows of the tables' own lengths, checked once. */
#ifndef TAILOR_IN_ORDER_HOUSE_H
#define TAILOR_IN_ORDER_HOUSE_H

#include <tailorgeom/order.h>

struct tailor_house {
    tailor_allocator allocator;              /* of the house, and of what is made from it */
    double fields[TAILOR_FIELD_COUNT];       /* NaN where the house gives nothing */
    double constants[TAILOR_CONSTANT_COUNT]; /* the house's or the default */
};

/* A copy to work with; of NULL the house that gives nothing. */
void tailor_in_house_copy(const tailor_house *house, tailor_house *copy);

/* Allocator of a house, malloc for NULL. */
tailor_allocator tailor_in_house_allocator(const tailor_house *house);

/* tailor_order_resolve into rows of the tables' own lengths; `house` is not NULL, `origins` may be. */
tailor_status tailor_in_house_resolve(const tailor_house *house, const double *client, size_t client_count,
                                      double *fields, int32_t *origins, tailor_fault *fault);

/* A resolved row as it stands, into rows of the table's own length: what is newer than the row comes from the house or
 * its rule, and *newer is how many such fields there are. `house` is not NULL; `given_origins` NULL: all the client's.
 *  */
tailor_status tailor_in_house_accept(const tailor_house *house, const double *fields, const int32_t *given_origins,
                                     size_t count, double *row, int32_t *origins, int *newer, tailor_fault *fault);

#endif

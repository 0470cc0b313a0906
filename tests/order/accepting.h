/* The predicate that a resolved row passes at the door of the floors above: what resolving accepts, they accept. */
#ifndef TESTS_ORDER_ACCEPTING_H
#define TESTS_ORDER_ACCEPTING_H

#include "../../lib/order/house.h"

static inline tailor_status accept_row(const double *fields, size_t count, tailor_fault *fault)
{
    tailor_house nobody;
    double row[TAILOR_FIELD_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
    int newer;
    tailor_in_house_copy(NULL, &nobody);
    return tailor_in_house_accept(&nobody, fields, NULL, count, row, origins, &newer, fault);
}

/* Resolve once, with a house of these fields. */
static inline tailor_status resolve_with(const double *house_fields, const double *client, double *fields,
                                         int32_t *origins, tailor_fault *fault)
{
    tailor_house *house = NULL;
    tailor_status status = tailor_house_new(house_fields, TAILOR_FIELD_COUNT, NULL, 0, NULL, &house, fault);
    if (status == TAILOR_OK)
        status = tailor_order_resolve(house, client, TAILOR_FIELD_COUNT, fields, origins, TAILOR_FIELD_COUNT, fault);
    tailor_house_free(house);
    return status;
}

#endif

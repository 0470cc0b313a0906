/* The one body that measures a coat, for the scalar and the rows calls alike. */
#ifndef TAILOR_IN_MEASURE_BODY_H
#define TAILOR_IN_MEASURE_BODY_H

#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>

/** The line of the roll's section: room for it, or NULL and 0; `count` is how many points were written. */
struct tailor_in_section {
    tailor_point *points;
    size_t room, count;
};

/** Measure a coat of accepted rows: q, value and limit have the tables' own lengths and are filled unless the status is
 * TAILOR_BAD_ARGUMENT. The section of the roll is NaN where `section` is NULL. */
tailor_status tailor_in_measure_coat(const tailor_pattern *pattern, const double *f, const double *k,
                                     struct tailor_in_section *section, double *q, double *value, double *limit,
                                     tailor_fault *fault);

#endif

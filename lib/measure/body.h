/* The one body that measures a coat, for the scalar and the rows calls alike. */
#ifndef TAILOR_IN_MEASURE_BODY_H
#define TAILOR_IN_MEASURE_BODY_H

#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>

/** Measure a coat drafted from accepted rows (tailor_in_order_accept): q, value and limit have the tables' own lengths
 * and are filled unless the status is TAILOR_BAD_ARGUMENT. The section of the roll is NaN unless it is asked for. */
tailor_status tailor_in_measure_coat(const tailor_pattern *pattern, const double *f, const double *k, int with_section,
                                     double *q, double *value, double *limit, tailor_fault *fault);

#endif

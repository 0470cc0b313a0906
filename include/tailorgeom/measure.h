/* libtailorgeom: measure -- quantities and checks of a finished coat.
 *
 *     double q[TAILOR_QUANTITY_COUNT], value[TAILOR_CHECK_COUNT], limit[TAILOR_CHECK_COUNT];
 *     status = tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT,
 *                                  q, TAILOR_QUANTITY_COUNT, value, limit, TAILOR_CHECK_COUNT, &fault);
 *     printf("%.1f mm of chest covered\n", q[TAILOR_QUANTITY_COVERAGE_SCYE]);
 */
#ifndef TAILORGEOM_MEASURE_H
#define TAILORGEOM_MEASURE_H

#include <tailorgeom/coat.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Measure a coat: all quantities, and every check with its value and limit. Quantities and checks that do not
 *  exist for this coat are NaN. Returns TAILOR_CHECK_FAILED, with the first failing check in the fault and all
 *  outputs written nonetheless, when a check does not hold. Each output may be NULL with count 0. */
TAILOR_API tailor_status tailor_coat_measure(const tailor_pattern *pattern,
                                             const double *fields, size_t field_count,
                                             const double *constants, size_t constant_count,
                                             double *quantities, size_t quantity_count,
                                             double *check_values, double *check_limits, size_t check_count,
                                             tailor_fault *fault);

/** A check is either "value at most limit" or "value at least limit": +1 at most, -1 at least, 0 no such check. */
TAILOR_API int tailor_check_sense(int check);
/** 1 the check holds, 0 it does not, -1 it does not exist for this coat (NaN value). */
TAILOR_API int tailor_check_passes(int check, double value, double limit);

#ifdef __cplusplus
}
#endif
#endif

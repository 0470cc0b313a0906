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

/** Measure a coat: all quantities, and every check with its value and limit, read off the finished pieces.
 *
 *  `fields` and `constants` are the full rows that the coat was drafted from. `quantities` is indexed by
 *  TAILOR_QUANTITY_, `check_values` and `check_limits` by TAILOR_CHECK_; of each the first min(count, known) entries
 *  are written and the rest set to NaN; each may be NULL with count 0. NaN: not in this coat.
 *
 *  Returns TAILOR_CHECK_FAILED when a check does not hold: the outputs are written nonetheless, and the fault tells the
 *  first failing check in the order of the table, its value and its limit; its table row names the field to look at.
 *  Other errors: those of tailor_order_validate(), and TAILOR_BAD_ARGUMENT for a NULL or a pattern that lacks a piece
 *  of the coat; then nothing is written. Cost: some 15 us, twice that where the sides differ, and some 40 us
 *  more where quantity_count takes in TAILOR_QUANTITY_ROLL_HEIGHT, for the section of the roll; about 100 KB of stack,
 *  no allocation. @since 0.1.0 */
TAILOR_API tailor_status tailor_coat_measure(const tailor_pattern *pattern, const double *fields, size_t field_count,
                                             const double *constants, size_t constant_count, double *quantities,
                                             size_t quantity_count, double *check_values, double *check_limits,
                                             size_t check_count, tailor_fault *fault);

/** What a check demands of its value: +1 at most the limit, -1 at least the limit, 0 no such check. @since 0.1.0 */
TAILOR_API int tailor_check_sense(int check);
/** Whether a check holds: 1 it does, 0 it does not, -1 it does not exist for this coat (NaN) or at all. @since 0.1.0 */
TAILOR_API int tailor_check_passes(int check, double value, double limit);

#ifdef __cplusplus
}
#endif
#endif

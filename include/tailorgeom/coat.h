/* libtailorgeom: coat -- the draft: from a resolved order to a pattern; and the fold of any forepart.
 *
 *     tailor_pattern *coat = NULL;
 *     status = tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, &fault);
 *     ...
 *     tailor_pattern_free(coat);
 *
 * The fold functions at the end are pure functions on the caller's own points and paths: whoever has another
 * forepart can ask for its break line, its lapel turned over, and how much of the chest it covers.
 */
#ifndef TAILORGEOM_COAT_H
#define TAILORGEOM_COAT_H

#include <tailorgeom/pattern.h>
#include <tailorgeom/order.h>

#ifdef __cplusplus
extern "C" {
#endif

TAILOR_API tailor_status tailor_coat_draft(const double *fields, size_t field_count,
                                           const double *constants, size_t constant_count,
                                           const tailor_allocator *allocator, tailor_pattern **pattern, tailor_fault *fault);

/* ---- fold: pure functions on the caller's own forepart */
/** Stand point: on the shoulder line run on beyond the neck point, `stand` from it. */
TAILOR_API tailor_status tailor_fold_stand_point(tailor_point shoulder_end, tailor_point neck_point, double stand, tailor_point *point);
/** Angle of the break line from plumb, deg, positive leaning toward the neck. */
TAILOR_API double tailor_fold_angle(tailor_point stand_point, tailor_point break_point);
/** Turn a lapel (any path) over the break line. */
TAILOR_API tailor_status tailor_fold_turn(const tailor_cubic *lapel, size_t count, tailor_point stand_point, tailor_point break_point, tailor_cubic *turned);
/** Horizontal distance at a level from the front of the scye to the break line, or to the front edge below the break point. */
TAILOR_API tailor_status tailor_fold_coverage(tailor_point stand_point, tailor_point break_point, double scye_front_x,
                                              const tailor_cubic *front_edge, size_t count, double level, double *coverage);

#ifdef __cplusplus
}
#endif
#endif

/* libtailorgeom: fold -- the break line of any forepart, and how much of the chest the front covers.
 *
 * Pure functions on the caller's own points and paths, in any unit of length, x toward the centre front and y up. A
 * lapel is turned over its break line by tailor_path_reflect(): widths square to the break line, lengths and areas
 * stay what they are.
 *
 *     tailor_fold_stand_point(shoulder_end, neck_point, 22, &stand);
 *     double lean = tailor_fold_angle(stand, break_point);
 *     tailor_fold_coverage(stand, break_point, scye_front_x, front_edge, count, level, &covered);
 *     tailor_path_reflect(lapel, lapel_count, stand, break_point, turned);
 *
 * No function allocates or has a fault; infinities and NaN give TAILOR_NOT_FINITE or NaN. Any number of threads may
 * call them.
 */
#ifndef TAILORGEOM_FOLD_H
#define TAILORGEOM_FOLD_H

#include <tailorgeom/geom.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Stand point of a break line: on the shoulder line run on beyond the neck point, `stand` from it. TAILOR_DEGENERATE
 *  when shoulder end and neck point are one. Common practice; the coat's own draft takes the collar stand less 8 mm.
 *  @since 0.1.0 */
TAILOR_API tailor_status tailor_fold_stand_point(tailor_point shoulder_end, tailor_point neck_point, double stand,
                                                 tailor_point *point);
/** Angle of a break line from plumb, deg: positive when it leans back toward the neck, as a break line does.
 *  @since 0.1.0 */
TAILOR_API double tailor_fold_angle(tailor_point stand_point, tailor_point break_point);
/** How much of the chest a front covers at a level: the horizontal distance from the front of the scye (`scye_front_x`)
 *  to the break line or, below the break point, to the front edge (`count` cubics; the farthest crossing counts).
 *  TAILOR_NO_SOLUTION above the stand point and where the front edge does not reach the level; TAILOR_DEGENERATE when
 *  the break line does not rise. Common practice. @since 0.1.0 */
TAILOR_API tailor_status tailor_fold_coverage(tailor_point stand_point, tailor_point break_point, double scye_front_x,
                                              const tailor_cubic *front_edge, size_t count, double level,
                                              double *coverage);

#ifdef __cplusplus
}
#endif
#endif

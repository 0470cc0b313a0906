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

/** Draft a coat: back, sidebody, forepart, topsleeve, undersleeve and under collar, net, with edges, points, marks and
 *  seams. Where the figure's sides differ, a piece that is not alike on both is there twice, "back_right" and
 *  "back_left", each to be cut once.
 *
 *  `fields` and `constants` are the full rows that tailor_order_resolve() writes; they are validated again. `allocator`
 *  gives the one block that the pattern is (NULL: malloc), and must live as long as the pattern. On success `*pattern`
 *  is the caller's, to be given back with tailor_pattern_free().
 *
 *  Errors, each with a sentence that names the field and what would do: those of tailor_order_validate(); a status of
 *  the 300 class when no coat closes on a row whose values are each sound; TAILOR_NO_MEMORY. Nothing is written then. A
 *  coat that could be drafted still wants its checks looked at: tailor_coat_measure().
 *
 *  The same row gives the same coat within an edition (tailor_edition()), in any thread. The recipe is common practice
 *  where the tables of fields and constants do not name another source. Cost: some 10 to 30 us, twice that where the
 *  sides differ; about 100 KB of stack, one allocation. @since 0.1.0 */
TAILOR_API tailor_status tailor_coat_draft(const double *fields, size_t field_count, const double *constants,
                                           size_t constant_count, const tailor_allocator *allocator,
                                           tailor_pattern **pattern, tailor_fault *fault);

/** Draft a coat and all that its make needs: the pieces of tailor_coat_draft(), and facing, top collar, linings, pocket
 *  pieces, canvases, bridle and edge tape, each saying what it is cut from, how often, and whether half of them are
 *  mirrored. The draft's own pieces are the same, bit for bit; whatever tailor_coat_draft() drafts can be made. Where
 *  the figure's sides differ, a piece that is not alike on both is there twice, "forepart_right" and "forepart_left".
 *
 *  Arguments, errors and ownership as in tailor_coat_draft(). Cost: some two and a half times as much. @since 0.2.0 */
TAILOR_API tailor_status tailor_coat_make(const double *fields, size_t field_count, const double *constants,
                                          size_t constant_count, const tailor_allocator *allocator,
                                          tailor_pattern **pattern, tailor_fault *fault);

/* ---- fold: pure functions on the caller's own forepart, in any unit of length, x toward the centre front and y up.
 *      No allocation, no fault; infinities and NaN answer TAILOR_NOT_FINITE or NaN. */

/** Stand point of a break line: on the shoulder line run on beyond the neck point, `stand` from it. TAILOR_DEGENERATE
 *  when shoulder end and neck point are one. Common practice; the coat's own draft takes the collar stand less 8 mm.
 *  @since 0.1.0 */
TAILOR_API tailor_status tailor_fold_stand_point(tailor_point shoulder_end, tailor_point neck_point, double stand,
                                                 tailor_point *point);
/** Angle of a break line from plumb, deg: positive when it leans back toward the neck, as a break line does.
 *  @since 0.1.0 */
TAILOR_API double tailor_fold_angle(tailor_point stand_point, tailor_point break_point);
/** Turn a lapel over its break line: `count` cubics in, as many out, their direction kept; `turned` may be `lapel`.
 *  Widths square to the break line, lengths and areas stay what they are; turning twice gives the lapel back.
 *  TAILOR_DEGENERATE when both points are one. @since 0.1.0 */
TAILOR_API tailor_status tailor_fold_turn(const tailor_cubic *lapel, size_t count, tailor_point stand_point,
                                          tailor_point break_point, tailor_cubic *turned);
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

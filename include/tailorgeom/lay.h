/* libtailorgeom: lay -- placing shapes on a strip of cloth of fixed width, so that the length used is short.
 *
 * The strip is the cloth as it lies on the table: it runs along x from 0, its width along y from 0, its warp along x.
 * Shapes are closed outlines of cubics; each is laid at a fixed angle to the warp, as drawn or turned end for end
 * where that is allowed, and moved. A lay is made, filled, begun, and then improved step by step:
 *
 *     tailor_lay_new(750, 5, 0.25, 0, NULL, &lay, &fault);
 *     tailor_lay_add(lay, outline, count, 45, 1, 1, 1, &fault);   // at 45 deg; one as drawn and one mirrored
 *     tailor_lay_begin(lay, 1, &fault);                           // a first lay, good enough to cut
 *     while (patience)
 *         tailor_lay_step(lay, 50);                               // never worse
 *     tailor_lay_place(lay, 0, &shape, &mirrored, &turned, &at);
 *
 * What holds for every lay that is handed out:
 *   * No two outlines are nearer to one another than the gap, and all lie within the strip. This is proved for each
 *     lay by a predicate that has nothing to do with the search (tailor_lay_overlap_free), in whole numbers, exactly.
 *   * Outlines are read to a grid of whole numbers; its step is told by tailor_lay_step_of_grid: 2^-22 of the width
 *     of the strip or of the largest piece, whichever is more, that raised to a power of two (0.0005 mm for cloth of
 *     1500 mm). Places are points of that grid, so that adding them to outlines that lie on it rounds nothing.
 *     A shape of straight lines is laid as it is read. A shape with curves is replaced by a polygon from which no
 *     point of the shape is farther than the tolerance, and such polygons are held apart by the gap and twice the
 *     tolerance: so the true curves are never nearer than the gap. (A chord polygon with the arcs' convex hulls within
 *     the tolerance of their chords: what of the shape is not in the polygon lies between an arc and its chord, hence
 *     within the tolerance of the polygon.) With a tolerance above 0 polygons of many points lose points in the same
 *     way.
 *   * The same calls give the same bits, and step(n) then step(m) is step(n + m). Time plays no part.
 *
 * Lengths are in mm, or in any other unit as long as all share it; angles in degrees. A lay serves one thread at a
 * time; different lays know nothing of one another. Memory comes from the allocator given at the start; stepping and
 * asking allocate nothing. NULL for the lay itself: the calls answer TAILOR_BAD_ARGUMENT, 0 or NaN.
 */
#ifndef TAILORGEOM_LAY_H
#define TAILORGEOM_LAY_H

#include <tailorgeom/geom.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Most places in one lay, and most points of one outline once it is a polygon. */
#define TAILOR_LAY_PLACES_MOST 1000
#define TAILOR_LAY_POINTS_MOST 1000

/** A lay: shapes, strip, and the best placing so far. Opaque. */
typedef struct tailor_lay tailor_lay;

/* ---- making one --------------------------------------------------------------------------------- */

/** An empty lay.
 *  @param width of the cloth, above 0. @param gap least distance between any two outlines, 0 or more; the edges of
 *  the cloth need none (make the width smaller to stay clear of the selvedges).
 *  @param tolerance how far a polygon may be from the curve it stands for; 0 lays shapes of straight lines only.
 *  0.25 mm is fine enough for canvas and lets the search be quick.
 *  @param doubled not 0: the cloth lies folded lengthwise, right sides together, so the strip is half the width and
 *  every place cuts a piece and its mirror image: each shape must then be wanted as often mirrored as not.
 *  @param allocator NULL for malloc. @param lay to be freed with tailor_lay_free.
 *  @return TAILOR_BAD_ARGUMENT, TAILOR_NOT_FINITE, TAILOR_NO_MEMORY. @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_new(double width, double gap, double tolerance, int doubled,
                                        const tailor_allocator *allocator, tailor_lay **lay, tailor_fault *fault);

/** Free a lay and all that belongs to it; NULL is allowed. @since 0.2.0 */
TAILOR_API void tailor_lay_free(tailor_lay *lay);

/** Add a shape; shapes are numbered from 0 in the order of these calls. The outline is copied.
 *  @param outline a closed path, in either direction; an open one is closed by a straight line. It may not cross or
 *  touch itself. Its coordinates are its own; they may be up to a million widths from their origin.
 *  @param angle by which the shape is turned counter-clockwise, about its origin, before it is laid: that between the
 *  x axis of the drawing and the warp. Multiples of 90 are exact.
 *  @param half_turn not 0: each copy may lie end for end, as cloth without nap or pattern allows.
 *  @param copies how many as drawn. @param mirrored how many mirrored in a line along the warp, after turning: the
 *  other half of a pair, whose warp then runs mirrored too. Copies whose warp shall run alike are two shapes.
 *  @return TAILOR_BAD_ARGUMENT for an empty or broken path, negative counts or none at all, or a lay that has begun;
 *  TAILOR_NOT_FINITE, TAILOR_OUT_OF_RANGE for more than TAILOR_LAY_PLACES_MOST places, TAILOR_NO_MEMORY. The lay is
 *  then as it was. The fault's `place` is the shape, from 1. @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_add(tailor_lay *lay, const tailor_cubic *outline, size_t count, double angle,
                                        int half_turn, int copies, int mirrored, tailor_fault *fault);

/** Make polygons of the shapes and lay them a first time: largest first, each as far to the left as it will go, in the
 *  best of several orders. From then on there is a lay to be cut, and shapes can no more be added.
 *  @param seed of the search: other seeds find other lays. Several lays with different seeds, a thread each, are the
 *  way to use several cores.
 *  @return TAILOR_OUT_OF_RANGE when a piece is wider than the strip (the fault's `place` is the shape, from 1, its
 *  value the width needed, its high the width there is), when a shape takes too many points or lies too far from its
 *  origin; TAILOR_DEGENERATE when an outline has no area, or crosses or touches itself; TAILOR_BAD_ARGUMENT for a lay
 *  without shapes, or curves with a tolerance too small for the grid; TAILOR_NO_MEMORY. The lay can then be freed only.
 *  Cost: some tenths of a second for one coat's canvas, more for a hundred pieces. @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_begin(tailor_lay *lay, uint64_t seed, tailor_fault *fault);

/** Search on: an iteration moves each piece that overlaps another once. The strip is made shorter, overlaps are
 *  allowed and then worked off, with weights that grow where they persist (guided local search); whenever none is
 *  left there is a better lay. The best is kept, so more iterations never do harm.
 *  @param iterations 0 or more. @return TAILOR_BAD_ARGUMENT when the lay has not begun; TAILOR_INTERNAL should a lay
 *  fail its proof. Cost: a millisecond or two an iteration for ten pieces.
 *  @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_step(tailor_lay *lay, int64_t iterations);

/* ---- the best so far ---------------------------------------------------------------------------- */

/** How many iterations were made. @since 0.2.0 */
TAILOR_API int64_t tailor_lay_iterations(const tailor_lay *lay);

/** How many places the lay has: all copies, or half of them on doubled cloth. 0 before it has begun. @since 0.2.0 */
TAILOR_API int tailor_lay_place_count(const tailor_lay *lay);

/** Which shape lies at a place, and where. Any result may be NULL.
 *  @param place from 0; the shapes in their order, each first as drawn, then mirrored.
 *  @param shape its number. @param mirrored 1 for a mirror image. @param turned 1 if it lies end for end.
 *  @param at where the origin of the shape's drawing comes to lie. @return TAILOR_BAD_ARGUMENT for no such place.
 *  @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_place(const tailor_lay *lay, int place, int *shape, int *mirrored, int *turned,
                                          tailor_point *at);

/** The map that lays the drawing at its place, for tailor_path_affine: turn by the angle, mirror, turn end for end,
 *  move. @return TAILOR_BAD_ARGUMENT for no such place. @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_matrix(const tailor_lay *lay, int place, double matrix[6]);

/** The polygon that was laid at a place, counter-clockwise, the first point not repeated.
 *  @return TAILOR_BAD_ARGUMENT for no such place, TAILOR_TOO_SMALL. @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_polygon(const tailor_lay *lay, int place, tailor_point *points, size_t capacity,
                                            size_t *needed);

/** Length of cloth used, from 0 to the end of the last outline; NaN before the lay has begun. @since 0.2.0 */
TAILOR_API double tailor_lay_length(const tailor_lay *lay);

/** Area of all outlines that lie on the strip (of one ply, if it is doubled), of the true curves. @since 0.2.0 */
TAILOR_API double tailor_lay_area(const tailor_lay *lay);

/** Area by width times length used: 1 would leave no waste. @since 0.2.0 */
TAILOR_API double tailor_lay_yield(const tailor_lay *lay);

/** A length that no lay of these shapes can be shorter than: area by width, or the longest piece. @since 0.2.0 */
TAILOR_API double tailor_lay_length_bound(const tailor_lay *lay);

/** Step of the grid; NaN before the lay has begun. @since 0.2.0 */
TAILOR_API double tailor_lay_step_of_grid(const tailor_lay *lay);

/** The proof: are these places free of overlap, the gap kept, and within the strip up to `length`? It looks at the
 *  polygons edge by edge, in whole numbers of up to 128 bits, shares no code with the search, and is what every lay
 *  has passed.
 *  @param at, turned one for each place, as tailor_lay_place tells them; both NULL: the best so far.
 *  @param length of the strip, NaN for that of the best so far.
 *  @return TAILOR_OK; TAILOR_OVERLAP (the sentence names the two places, from 1; the fault's `place` is the first) or
 *  TAILOR_OUT_OF_RANGE when a piece sticks out; TAILOR_BAD_ARGUMENT for a point that is none of the grid, or a half
 *  turn that is not allowed. Cost: the product of the points of each pair of neighbours, some 5 ns each.
 *  @since 0.2.0 */
TAILOR_API tailor_status tailor_lay_overlap_free(const tailor_lay *lay, const tailor_point *at, const int *turned,
                                                 double length, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif

/* libtailorgeom: geom -- points, lines, cubic Bezier curves and paths.
 *
 * A curve is a tailor_cubic; a straight line is one too (tailor_cubic_line). A path is an array of cubics
 * with its count, each beginning where the one before it ends; an outline is a closed path. Curves stay
 * curves: area, length and bounds are those of the curve, not of a polyline. Any unit will do, as long as
 * all of one call's numbers share it; tolerances are in that unit. Angles are in degrees.
 * NaN in gives NaN out of the functions that return a number. Nothing here allocates, and every function
 * may be called from any number of threads.
 *
 *     tailor_cubic seam = tailor_cubic_hermite(a, leave_a, b, arrive_b);
 *     double length = tailor_cubic_length(&seam);
 *
 * Said once for all of this header:
 *   * Degenerate curves are curves. Coincident points, zero handles and zero length are allowed everywhere;
 *     where an answer then needs a convention, the function states it. Coordinates may be of any size from
 *     1e-9 to 1e9: what is called small is small against the curve's own size, unless a tolerance is taken.
 *   * A function that returns a tailor_status refuses NaN and infinite coordinates with TAILOR_NOT_FINITE,
 *     and NULL, an empty path or a tolerance that is not positive with TAILOR_BAD_ARGUMENT. On failure it
 *     writes nothing, but for TAILOR_TOO_SMALL: then the count is told, and the array may be filled in part.
 *   * A result of unknown length goes to an array of the caller's: (array, capacity, count out). NULL with
 *     capacity 0 asks for the count alone; an array that is too small is answered TAILOR_TOO_SMALL, the
 *     count told. Results may not overlap inputs unless the function says so.
 *   * Every loop and recursion is bounded, whatever the input.
 *   * Costs are those of one core of a 2024 server without vector extensions beyond SSE2.
 */
#ifndef TAILORGEOM_GEOM_H
#define TAILORGEOM_GEOM_H

#include <tailorgeom/base.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A point or a vector. Final. @since 0.1.0 */
typedef struct tailor_point {
    double x, y;
} tailor_point;
/** A cubic Bezier curve: start, two handles' ends, end. Final. @since 0.1.0 */
typedef struct tailor_cubic {
    tailor_point p[4];
} tailor_cubic;

/* ---- making curves ------------------------------------------------------------------------------ */

/** The straight line from a to b, its handles at the thirds, so that equal steps of the parameter are equal
 *  lengths. A line from a point to itself is that point. @since 0.1.0 */
TAILOR_API tailor_cubic tailor_cubic_line(tailor_point a, tailor_point b);

/** The curve from a to b with the handles a + leave and b - arrive: both vectors point along the way, and
 *  carry the handles' lengths. Zero vectors are allowed. @since 0.1.0 */
TAILOR_API tailor_cubic tailor_cubic_hermite(tailor_point a, tailor_point leave, tailor_point b, tailor_point arrive);

/** An arc of a circle, from one angle to another, in degrees counter-clockwise from the x axis; from > to runs
 *  clockwise. |to - from| <= 90, else every coordinate is NaN: compose longer arcs. Its ends lie on the circle
 *  to rounding, exactly at the quarter turns; between them it is up to 2.8e-4 radii outside at 90 degrees,
 *  4.3e-6 at 45 (the usual tangent construction: handles 4/3 tan(sweep/4) radii). @since 0.1.0 */
TAILOR_API tailor_cubic tailor_cubic_arc(tailor_point centre, double radius, double from, double to);

/** The smooth curve through points, in their order: count - 1 cubics with continuous direction and curvature,
 *  the draughtsman's batten with free ends (a natural cubic spline on the chord lengths). Two points give
 *  their line. Affine maps carry it along only if they keep the ratios of the chords.
 *  @param path room for count - 1 cubics.
 *  @return TAILOR_BAD_ARGUMENT for less than two points, TAILOR_DEGENERATE for neighbours that coincide.
 *  Cost about 20 ns a point. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_smooth(const tailor_point *points, size_t count, tailor_cubic *path);

/** The curve through points whose y only rises or only falls, with x a function of y that never overshoots:
 *  between two points x stays between theirs, and where the points turn back in x the curve turns there. A
 *  seam drawn through its levels. count - 1 cubics, direction continuous. Slopes by the weighted harmonic mean
 *  of Fritsch and Butland (SIAM J. Sci. Stat. Comput. 5, 1984), ends by the three-point rule held monotone.
 *  @param path room for count - 1 cubics.
 *  @return TAILOR_BAD_ARGUMENT for less than two points, TAILOR_DEGENERATE if y is not strictly monotone.
 *  Cost about 15 ns a point. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_monotone(const tailor_point *points, size_t count, tailor_cubic *path);

/* ---- one curve ---------------------------------------------------------------------------------- */
/* The parameter t runs from 0 at the start to 1 at the end. Values outside are allowed where nothing is said:
 * the curve runs on as its polynomial does. */

/** The point at t; at 0 and 1 the end points themselves. @since 0.1.0 */
TAILOR_API tailor_point tailor_cubic_point(const tailor_cubic *c, double t);
/** The points at many parameters, in their order. @since 0.1.0 */
TAILOR_API void tailor_cubic_points(const tailor_cubic *c, const double *parameters, size_t count,
                                    tailor_point *points);
/** The derivative by t, in length per unit of t. May be the zero vector. @since 0.1.0 */
TAILOR_API tailor_point tailor_cubic_derivative(const tailor_cubic *c, double t);
/** The unit tangent. At an end whose handle has no length, the direction to (from) the next control point that
 *  is not the end itself; at a cusp inside the curve, the direction in which it leaves; (0, 0) for a curve
 *  that is one point. @since 0.1.0 */
TAILOR_API tailor_point tailor_cubic_direction(const tailor_cubic *c, double t);
/** The signed curvature, 1 / radius: positive where the curve turns left. 0 where it is straight or a point;
 *  infinite at a cusp or at a zero handle, where the radius shrinks to nothing. @since 0.1.0 */
TAILOR_API double tailor_cubic_curvature(const tailor_cubic *c, double t);
/** Cut at t. Both parts are exact and share the point at t. Either result may be NULL, or c itself. @since 0.1.0 */
TAILOR_API void tailor_cubic_split(const tailor_cubic *c, double t, tailor_cubic *first, tailor_cubic *second);
/** The part from t0 to t1; t0 > t1 gives it reversed. At 0 and 1 its ends are the curve's own. @since 0.1.0 */
TAILOR_API tailor_cubic tailor_cubic_part(const tailor_cubic *c, double t0, double t1);
/** The same curve run backward. @since 0.1.0 */
TAILOR_API tailor_cubic tailor_cubic_reverse(const tailor_cubic *c);
/** The smallest upright box round the curve (not round its handles): x low, y low, x high, y high. All four are
 *  NaN if a coordinate is. @since 0.1.0 */
TAILOR_API void tailor_cubic_bounds(const tailor_cubic *c, double box[4]);

/** The arc length, to some 1e-14 of itself for every curve, cusps and loops included: the rule is chosen from
 *  the roots of the curve's speed, known beforehand, and halves toward them. Cost 20 to 30 ns for curves as
 *  patterns have them, some microseconds at a near-cusp. @since 0.1.0 */
TAILOR_API double tailor_cubic_length(const tailor_cubic *c);
/** The length from the start to t; t is clipped to 0 .. 1. @since 0.1.0 */
TAILOR_API double tailor_cubic_length_to(const tailor_cubic *c, double t);
/** The parameter at a length from the start; 0 for lengths below 0, 1 beyond the end, 0 on a curve without
 *  length. The length up to it is the one asked for within 1e-15 of the whole, or the next double. Cost about
 *  150 ns. @since 0.1.0 */
TAILOR_API double tailor_cubic_at_length(const tailor_cubic *c, double length);
/** The parameter of the nearest point, over the whole curve; of several equally near ones, any. `distance` may
 *  be NULL. NaN for coordinates that are not finite. Cost about 150 ns. @since 0.1.0 */
TAILOR_API double tailor_cubic_nearest(const tailor_cubic *c, tailor_point from, double *distance);

/* ---- paths -------------------------------------------------------------------------------------- */
/* A place on a path is one number: cubic index + parameter, 0 .. count. Places outside are clipped. An empty path
 * has length and area 0 and no points: NaN. */

/** Arc length of the whole. @since 0.1.0 */
TAILOR_API double tailor_path_length(const tailor_cubic *path, size_t count);
/** Arc length of each cubic into `lengths` (count of them); returns their sum. @since 0.1.0 */
TAILOR_API double tailor_path_lengths(const tailor_cubic *path, size_t count, double *lengths);
/** The area, exact (Green's theorem on the cubics), signed: positive counter-clockwise. An open path is closed
 *  by its chord. Where the path goes round twice the area counts twice. Cost some 2 ns a cubic. @since 0.1.0 */
TAILOR_API double tailor_path_area(const tailor_cubic *path, size_t count);
/** The centre of the area. @return TAILOR_DEGENERATE when the area is nothing against the path's size squared.
 *  @since 0.1.0 */
TAILOR_API tailor_status tailor_path_centroid(const tailor_cubic *path, size_t count, tailor_point *centroid);
/** Area and its moments about the origin, exact: area, integrals of x, y, x x, x y, y y over it. Signed as the
 *  area is. @since 0.1.0 */
TAILOR_API void tailor_path_moments(const tailor_cubic *path, size_t count, double moments[6]);
/** The smallest upright box round the path: x low, y low, x high, y high. NaN for an empty path. @since 0.1.0 */
TAILOR_API void tailor_path_bounds(const tailor_cubic *path, size_t count, double box[4]);

/** The point at a place. @since 0.1.0 */
TAILOR_API tailor_point tailor_path_point(const tailor_cubic *path, size_t count, double place);
/** The points at many places. @since 0.1.0 */
TAILOR_API void tailor_path_points(const tailor_cubic *path, size_t count, const double *places, size_t place_count,
                                   tailor_point *points);
/** The unit tangent at a place; at a joint that of the cubic which begins there. As tailor_cubic_direction.
 *  @since 0.1.0 */
TAILOR_API tailor_point tailor_path_direction(const tailor_cubic *path, size_t count, double place);
/** The place at a length from the start, clipped to the path. @since 0.1.0 */
TAILOR_API double tailor_path_at_length(const tailor_cubic *path, size_t count, double length);
/** The places at many lengths. Any order; ascending lengths measure each cubic once. @since 0.1.0 */
TAILOR_API void tailor_path_at_lengths(const tailor_cubic *path, size_t count, const double *lengths,
                                       size_t length_count, double *places);
/** The length from the start to a place. @since 0.1.0 */
TAILOR_API double tailor_path_length_to(const tailor_cubic *path, size_t count, double place);
/** The place of the nearest point, over the whole path. `distance` may be NULL. NaN for coordinates that are not
 *  finite. Cost about 0.3 us for an outline of eight cubics. @since 0.1.0 */
TAILOR_API double tailor_path_nearest(const tailor_cubic *path, size_t count, tailor_point from, double *distance);
/** The same from many points. `places` or `distances` may be NULL. @since 0.1.0 */
TAILOR_API void tailor_path_nearests(const tailor_cubic *path, size_t count, const tailor_point *from,
                                     size_t from_count, double *places, double *distances);
/** How many times the path, closed by its chord, goes round a point counter-clockwise: 0 outside of a simple
 *  outline, 1 inside of a counter-clockwise one. On the curve itself it is that of either side. @since 0.1.0 */
TAILOR_API int tailor_path_winding(const tailor_cubic *path, size_t count, tailor_point p);
/** The same for many points. @since 0.1.0 */
TAILOR_API void tailor_path_windings(const tailor_cubic *path, size_t count, const tailor_point *points,
                                     size_t point_count, int *windings);

/* ---- meeting ------------------------------------------------------------------------------------ */

/** Where the path meets the whole line through a and b: places, ascending. A touch is one place, a joint on the
 *  line is one place (on a closed path the closing joint is place 0). None is no fault: *found is 0.
 *  @return TAILOR_DEGENERATE when a and b coincide, TAILOR_OVERLAP when a whole cubic lies along the line.
 *  Cost about 0.1 us for each cubic that meets it. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_cross_line(const tailor_cubic *path, size_t count, tailor_point a, tailor_point b,
                                                double *places, size_t capacity, size_t *found);

/** Where two paths meet: pairs of places, ascending along p. Crossings are found to rounding; places where the
 *  paths come within `tolerance` without crossing (touches, ends that just miss) are reported too, one for each
 *  such approach, and nothing that is farther apart than `tolerance` is. Meetings nearer to one another than four
 *  tolerances are told as one. None is no fault.
 *  @param found pairs found; with TAILOR_TOO_SMALL a capacity that is enough.
 *  @return TAILOR_OVERLAP when the paths share a stretch, TAILOR_NOT_CONVERGED when they lie so near one another
 *  over so long a way that the bounded search ended. Cost 1 to 2 us for a pair of cubics that meet. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_cross_path(const tailor_cubic *p, size_t np, const tailor_cubic *q, size_t nq,
                                                double tolerance, double *p_places, double *q_places, size_t capacity,
                                                size_t *found);

/** Does the path cross, touch (within `tolerance`) or run back over itself? Neighbours may meet at their joint,
 *  and a closed path at its closing joint; a loop smaller than `tolerance` does not count.
 *  @param crosses 1 or 0. @param places where, if it does: two places, the lower first; may be NULL.
 *  @since 0.1.0 */
TAILOR_API tailor_status tailor_path_crosses_itself(const tailor_cubic *path, size_t count, double tolerance,
                                                    int *crosses, double places[2]);

/* ---- cutting, joining, turning ------------------------------------------------------------------ */

/** The part from one place to another. On a closed path from > to runs through the closing joint.
 *  @return TAILOR_DEGENERATE for from = to, TAILOR_BAD_ARGUMENT for from > to on an open path. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_part(const tailor_cubic *path, size_t count, double from, double to,
                                          tailor_cubic *part, size_t capacity, size_t *part_count);
/** The same path run backward. `reversed` may be `path`. @since 0.1.0 */
TAILOR_API void tailor_path_reverse(const tailor_cubic *path, size_t count, tailor_cubic *reversed);
/** The widest gap between the end of a cubic and the start of the next, and from the last to the first if
 *  `closed` is not 0. 0 when all are joined. @since 0.1.0 */
TAILOR_API double tailor_path_gap(const tailor_cubic *path, size_t count, int closed);
/** One path after another. Ends up to `tolerance` (0 allowed) apart are moved to their middle, handles with
 *  them. @param joined room for first_count + second_count cubics; may be `first`, and may hold `second` at its
 *  final place. @return TAILOR_NO_SOLUTION when the ends are farther apart. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_join(const tailor_cubic *first, size_t first_count, const tailor_cubic *second,
                                          size_t second_count, double tolerance, tailor_cubic *joined, size_t capacity);
/** Close a path in place: ends up to `tolerance` (0 allowed) apart are moved to their middle, wider gaps get a
 *  straight line, one cubic more. @param capacity cubics that `path` has room for. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_close(tailor_cubic *path, size_t count, double tolerance, size_t capacity,
                                           size_t *closed_count);

/** Map a path: x' = m0 x + m2 y + m4, y' = m1 x + m3 y + m5. `moved` may be `path`. @since 0.1.0 */
TAILOR_API void tailor_path_affine(const tailor_cubic *path, size_t count, const double matrix[6], tailor_cubic *moved);
/** Map points in the same way. `moved` may be `points`. @since 0.1.0 */
TAILOR_API void tailor_points_affine(const tailor_point *points, size_t count, const double matrix[6],
                                     tailor_point *moved);
/** The mirror image of a point in the line through a and b; NaN when a and b coincide. @since 0.1.0 */
TAILOR_API tailor_point tailor_point_reflect(tailor_point p, tailor_point a, tailor_point b);
/** The mirror images of many points. `reflected` may be `points`. @since 0.1.0 */
TAILOR_API void tailor_points_reflect(const tailor_point *points, size_t count, tailor_point a, tailor_point b,
                                      tailor_point *reflected);
/** The mirror image of a path in the line through a and b. It is run in the same order, so an outline turns
 *  clockwise: reverse it if it shall stay counter-clockwise. `reflected` may be `path`.
 *  @return TAILOR_DEGENERATE when a and b coincide. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_reflect(const tailor_cubic *path, size_t count, tailor_point a, tailor_point b,
                                             tailor_cubic *reflected);

/** Points along the path, its chords within `tolerance` of the curve: start, then each cubic's points to its end,
 *  in equal steps of the parameter (Wang's bound on the second derivative). A line takes one chord.
 *  @return TAILOR_OUT_OF_RANGE when a cubic would take more than a million. Cost 1 ns a point. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_flatten(const tailor_cubic *path, size_t count, double tolerance,
                                             tailor_point *points, size_t capacity, size_t *needed);

/* ---- offset ------------------------------------------------------------------------------------- */
/* Both calls take paths of up to 256 cubics and make offsets of up to 512 before trimming (TAILOR_OUT_OF_RANGE beyond),
 * and use some 100 KB of stack. TAILOR_NOT_CONVERGED: what is left after trimming does not join up, which happens to
 * paths that cross themselves. Lines stay lines. */

/** What an outward corner of an offset outline gets. */
enum {
    TAILOR_CORNER_MITRE = 1, /**< the sides run on to their crossing; beyond the mitre limit, as bevel */
    TAILOR_CORNER_ROUND = 2, /**< an arc about the corner; between unequal distances, as mitre */
    TAILOR_CORNER_BEVEL = 3  /**< a straight cut from the end of one side to the start of the next */
};

/** The parallel of an edge at a distance to the right of its direction, which is the outside of a counter-clockwise
 *  outline; to the left if negative. It runs the edge's way, keeps the distance within `tolerance`, and what a bend
 *  tighter than the distance would turn back is cut away. Corners inside the edge are rounded. If cutting leaves
 *  several parts, the longest is returned.
 *  @return TAILOR_DEGENERATE for a path without length, TAILOR_NO_SOLUTION when nothing of the parallel is left.
 *  Cost about 0.5 us a cubic at a tolerance of 0.01 mm. @since 0.1.0 */
TAILOR_API tailor_status tailor_path_offset(const tailor_cubic *path, size_t count, double distance, double tolerance,
                                            tailor_cubic *offset, size_t capacity, size_t *needed);

/** The outline at a distance outside of a closed path (inside if negative), a distance for each cubic: seam
 *  allowances as they are cut. Where the distance changes along a smooth edge, or at a corner too blunt for its
 *  sides to meet in a mitre, a straight step leads across.
 *  The result runs the path's way, crosses itself nowhere, and is nowhere nearer to a cubic than that cubic's distance
 *  less `tolerance` (but for cut corners). Past the inradius nothing is left: TAILOR_OK with *needed = 0. If it
 *  falls into several parts, the largest is returned; holes are not. For a path that crosses itself nothing is
 *  promised: ask tailor_path_crosses_itself before.
 *  @param distances count of them; 0 leaves an edge where it is. @param corner a TAILOR_CORNER_.
 *  @param mitre_limit longest mitre from the corner, in distances (of the larger one); 1 or more, 4 is usual.
 *  @return TAILOR_BAD_ARGUMENT when the ends of the path are farther apart than `tolerance`, TAILOR_DEGENERATE when
 *  it has no area. Cost about 12 us for an outline of eight cubics and eight corners at 0.01 mm. @since 0.1.0 */
TAILOR_API tailor_status tailor_outline_offset(const tailor_cubic *path, size_t count, const double *distances,
                                               int corner, double mitre_limit, double tolerance, tailor_cubic *offset,
                                               size_t capacity, size_t *needed);

#ifdef __cplusplus
}
#endif
#endif

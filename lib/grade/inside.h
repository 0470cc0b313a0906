/* The inside of a grade, and what its files call of one another. */
#ifndef TAILOR_IN_GRADE_INSIDE_H
#define TAILOR_IN_GRADE_INSIDE_H

#include <tailorgeom/grade.h>

#include "../geom/kernel.h"
#include "../pattern/build.h"

enum { TAILOR_IN_MOST_AXES = 8 };

/** What is known of an outline's cubic: it is a straight line; it goes on from the one before it without a corner; it
 * is a straight line that runs on into a curve at either end. */
enum { TAILOR_IN_STRAIGHT = 1, TAILOR_IN_SMOOTH = 2, TAILOR_IN_STIFF = 4 };

/* How each control point of a base moves per step of each axis. Arrays lie behind the struct in the same block; those
 * by axis have the axis outermost. Cubics are counted as in the base's own array: outlines and marks. */
struct tailor_grade {
    tailor_allocator allocator;
    int axes;
    tailor_pattern *base;
    tailor_point *move;       /* [axis][cubic][4] */
    tailor_point *point_move; /* [axis][point] */
    double *ease_move;        /* [axis][seam] */
    double *gap_move;         /* [axis][seam]: of how much longer side 0 really is */
    double *bound_move;       /* [axis][stretch][2] */
    double *bound;            /* [stretch][2]: from and to of every seam's stretches as places on their edges */
    double *gap;              /* [seam]: how much longer side 0 of the base is */
    double *residual;         /* [cubic][4], mm */
    double *point_residual;   /* [point] */
    double *place;        /* [cubic][4]: of a mark's control point on its piece's outline, -1 if it lies elsewhere */
    double *point_place;  /* [point]: likewise */
    unsigned char *known; /* [cubic] of a mark, then [point]: 1 when its move is given and not to be carried */
    unsigned char *flags; /* [cubic] of an outline: TAILOR_IN_STRAIGHT and its kin */
};

#define TAILOR_IN_PIECE(p, i) (TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + (i))
#define TAILOR_IN_EDGE(p, i) (TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES) + (i))
#define TAILOR_IN_POINT(p, i) (TAILOR_IN_SEE(p, struct tailor_in_named_point, TAILOR_IN_POINTS) + (i))
#define TAILOR_IN_MARK(p, i) (TAILOR_IN_SEE(p, struct tailor_in_mark, TAILOR_IN_MARKS) + (i))
#define TAILOR_IN_SEAM(p, i) (TAILOR_IN_SEE(p, struct tailor_in_seam, TAILOR_IN_SEAMS) + (i))
#define TAILOR_IN_STRETCH(p, i) (TAILOR_IN_SEE(p, tailor_stretch, TAILOR_IN_STRETCHES) + (i))
#define TAILOR_IN_CUBIC(p, i) (TAILOR_IN_SEE(p, tailor_cubic, TAILOR_IN_CUBICS) + (i))

/* ---- grade.c */

/** A grade of a base that it takes over (freed with it, and on failure too); everything at rest, flags and places
 * found. NULL when there is no memory. */
tailor_grade *tailor_in_grade_new(tailor_pattern *base, int axes, tailor_allocator memory);
/** Find the stiff ones among the straight. */
void tailor_in_grade_stiffen(tailor_grade *g);
/** The edge that a stretch, counted as in the pattern's own array, is of. */
const struct tailor_in_edge *tailor_in_edge_of_stretch(const tailor_pattern *p, int stretch);
/** Places of a stretch's two bounds on its edge. */
void tailor_in_bounds_of(const tailor_pattern *p, int stretch, double bound[2]);
/** How much longer side 0 of a seam is, its stretches reaching from and to the places `bound`, two for each stretch of
 * the pattern. */
double tailor_in_gap_of(const tailor_pattern *p, int seam, const double *bound);
/** Where a name of a piece leads: a point (its index in the pattern), or a control point of an outline: cubic and 0 or
 * 3. `point` is -1 for the latter. 0 when it leads nowhere. */
int tailor_in_locate(const tailor_pattern *p, int piece, const char *name, int *point, int *cubic, int *corner);

/* ---- recut.c */

struct tailor_in_cut {
    int edge;     /* as counted in the pattern's own array */
    double place; /* on the edge, not at a joint */
};
/** The same shape with more joints. Cuts in the order of edge and place. NULL when there is no memory. */
tailor_pattern *tailor_in_recut(const tailor_pattern *p, const struct tailor_in_cut *cuts, size_t count,
                                tailor_allocator memory);

/* ---- conform.c */

/** Copies of patterns whose edges have the same number of curves, piece for piece and edge for edge as the first has
 * them; `conformed` takes `count` of them. */
tailor_status tailor_in_conform(const tailor_pattern *const *patterns, size_t count, tailor_allocator memory,
                                tailor_pattern **conformed, tailor_fault *fault);

/* ---- carry.c */

struct tailor_in_control {
    int joint; /* index of the cubic that begins there, in its outline */
    tailor_point move[TAILOR_IN_MOST_AXES];
};
/** Moves of an outline's curves from those of some of its joints, ascending. Scratch: `at` takes one more double than
 * there are cubics, `scratch` three points a cubic. */
void tailor_in_carry_outline(tailor_grade *g, int piece, const struct tailor_in_control *control, int count, double *at,
                             tailor_point *scratch);
/** Moves of what is not known of points and marks, from those of the outlines. TAILOR_NO_MEMORY or TAILOR_OK. */
tailor_status tailor_in_carry_inside(tailor_grade *g);

/* ---- equalise.c */

/** Both handles at a smooth joint along one line: the mean of their directions, lengths kept. A straight curve has the
 * say over its neighbour. */
void tailor_in_smooth_joint(tailor_cubic *before, int flags_before, tailor_cubic *after, int flags_after);

/** Bring every seam's sides to the lengths that differ by `gap`, one a seam, moving joints of outlines as little as
 * possible; `bound` as tailor_in_gap_of() takes it.
 * Returns the index of the seam that does not come right, -1 when all do, -2 when there is no memory. */
int tailor_in_equalise(const tailor_grade *g, tailor_pattern *p, const double *bound, const double *gap,
                       tailor_allocator memory);

#endif

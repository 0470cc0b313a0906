/* What the files of lay share: shapes on the grid, tables of forbidden moves, and the search's state.
 *
 * All coordinates of the search are whole numbers (grid steps), held in doubles. A piece is at most 2^22 steps in size
 * and its points are told from the middle of its box, so that every product and sum by which the search decides whether
 * two pieces overlap stays below 2^53 and is exact. */
#ifndef TAILOR_IN_LAY_STRIP_H
#define TAILOR_IN_LAY_STRIP_H

#include <stdbool.h>
#include <tailorgeom/lay.h>
#include "../base/fault.h"

typedef struct tailor_in_spot {
    int64_t x, y;
} tailor_in_spot;

/** One shape as it was given. */
typedef struct tailor_in_shape {
    struct tailor_in_shape *next;
    tailor_cubic *outline;
    size_t count;
    double angle;
    int half_turn, copies, mirrored;
} tailor_in_shape;

/** A shape or its mirror image, turned to its angle, as a polygon on the grid. */
typedef struct tailor_in_kind {
    int shape, mirrored, half_turn;
    int copies;
    int count;               /* points, counter-clockwise */
    tailor_in_spot *points;  /* from the middle of the box */
    tailor_in_spot middle;   /* where that is in the turned drawing */
    tailor_in_spot low, high; /* box of the true outline, from the middle */
    double area;             /* of the true outline, square steps */
    int part_count;          /* convex parts that cover the polygon */
    int *part_first;         /* part_count + 1 of them: where each part's points begin */
    tailor_in_spot *part_points;
} tailor_in_kind;

/** An edge of a convex polygon of forbidden moves: (c - nx x - ny y) * scale is how deep a move is inside of it. */
typedef struct tailor_in_side {
    double nx, ny, c, scale;
} tailor_in_side;

typedef struct tailor_in_box4 {
    double x0, y0, x1, y1;
} tailor_in_box4;

/** Moves d of a second kind against a first by which they overlap: the union of convex polygons, open. */
typedef struct tailor_in_forbidden {
    tailor_in_box4 box;
    int part_count;
    tailor_in_box4 *boxes;
    int *first; /* part_count + 1 */
    tailor_in_side *sides;
} tailor_in_forbidden;

/** Where a piece lies: the middle of its box. */
typedef struct tailor_in_lie {
    double x, y;
    int turned;
} tailor_in_lie;

struct tailor_lay {
    tailor_allocator allocator;
    struct tailor_in_block *blocks; /* all memory, the latest first */
    double width, gap, tolerance;
    int doubled, begun, dead;
    int shape_count, place_count;
    tailor_in_shape *shapes, *last_shape;

    double step; /* of the grid */
    int64_t grid_width, apart; /* apart: how far polygons are kept from each other */
    int kind_count;
    tailor_in_kind *kinds;
    int *kind_of; /* for each place */
    tailor_in_forbidden *forbidden; /* [first kind][second kind][relative half turn], first <= second */

    tailor_in_lie *best;
    int64_t best_length;
    int64_t iterations;
    struct tailor_in_search *search;
};

/* memory.c */
/** Zeroed memory that lives as long as the lay, or NULL. */
void *tailor_in_lay_memory(tailor_lay *lay, size_t count, size_t size);
/** Give back all that was taken since `mark`, which was the value of lay->blocks. */
void tailor_in_lay_release(tailor_lay *lay, struct tailor_in_block *mark);

/* lay.c */
/** A refusal that names a shape. */
tailor_status tailor_in_lay_refuse(tailor_fault *fault, tailor_status status, int number, double value, double high,
                                   const char *sentence);

/* outline.c */
/** Make kind `k` of a shape. `deviation` is raised to how far the polygon is from the curves, in steps. */
tailor_status tailor_in_lay_outline(tailor_lay *lay, const tailor_in_shape *shape, int number, tailor_in_kind *k,
                                    double *deviation, tailor_fault *fault);
/** The mirror image of a kind. */
tailor_status tailor_in_lay_mirror(tailor_lay *lay, const tailor_in_kind *from, tailor_in_kind *k, tailor_fault *fault);
/** The turn of a shape: c, s, exact for multiples of 90 degrees. */
void tailor_in_lay_turn(double angle, double *c, double *s);

/* convex.c */
tailor_status tailor_in_lay_convex(tailor_lay *lay, tailor_in_kind *k);

/* forbidden.c */
tailor_status tailor_in_lay_forbid(tailor_lay *lay);

/* exact.c: predicates on whole numbers, |coordinate| < 2^28 */
/** Twice the signed area of a b c. */
int64_t tailor_in_lay_turn_of(tailor_in_spot a, tailor_in_spot b, tailor_in_spot c);
/** Does a polygon touch or cross itself? */
bool tailor_in_lay_simple(const tailor_in_spot *p, int n);
/** Are the polygon a and the polygon b (times `sign`, moved by d) free of common inner points, and nowhere nearer to
 *  each other than `apart`? */
bool tailor_in_lay_apart(const tailor_in_spot *a, int na, const tailor_in_spot *b, int nb, int64_t sign,
                         tailor_in_spot d, int64_t apart);

/* lie.c: how pieces lie, exactly, as the search sees it */
static inline int tailor_in_lay_kind(const tailor_lay *lay, int place) { return lay->kind_of[place]; }
/** Where the middle of a kind may lie on a strip of a length. */
tailor_in_box4 tailor_in_lay_room(const tailor_lay *lay, int kind, int turned, double length);
/** The forbidden moves of kind b, turned or not, against kind a; `sign` is what a move is to be multiplied by. */
const tailor_in_forbidden *tailor_in_lay_table(const tailor_lay *lay, int a, int turned_a, int b, int turned_b,
                                               double *sign);
/** How deep a move lies within the forbidden ones; 0 where it is allowed. */
double tailor_in_lay_depth(const tailor_in_forbidden *f, double x, double y);
/** The same, with the direction of the shortest way out of the part in which it lies deepest. */
double tailor_in_lay_way_out(const tailor_in_forbidden *f, double x, double y, double out[2]);
/** Length of strip that pieces use. */
int64_t tailor_in_lay_used(const tailor_lay *lay, const tailor_in_lie *lies);

/* start.c */
tailor_status tailor_in_lay_start(tailor_lay *lay);

/* search.c */
tailor_status tailor_in_lay_search_new(tailor_lay *lay, uint64_t seed);
void tailor_in_lay_pass(tailor_lay *lay);

/* proof.c */
tailor_status tailor_in_lay_prove(const tailor_lay *lay, const tailor_in_lie *lies, int64_t length,
                                  tailor_fault *fault);

#endif

/* Vector words shared by the files of geom, and what they call of one another.
 *
 * The inline functions are the whole vector algebra of the library. Kernels take square roots of sums of
 * squares rather than hypot, which is ten times dearer and guards a range no pattern has. */
#ifndef TAILOR_IN_GEOM_KERNEL_H
#define TAILOR_IN_GEOM_KERNEL_H

#include <math.h>
#include <stdbool.h>
#include <tailorgeom/geom.h>

#define TAILOR_IN_PI 3.14159265358979323846

/** Sizes below this share of a curve's own size count as nothing. */
#define TAILOR_IN_TINY 1e-13

static inline tailor_point tailor_in_add(tailor_point a, tailor_point b)
{
    return (tailor_point){a.x + b.x, a.y + b.y};
}
static inline tailor_point tailor_in_sub(tailor_point a, tailor_point b)
{
    return (tailor_point){a.x - b.x, a.y - b.y};
}
static inline tailor_point tailor_in_scale(tailor_point a, double k) { return (tailor_point){a.x * k, a.y * k}; }
static inline double tailor_in_dot(tailor_point a, tailor_point b) { return a.x * b.x + a.y * b.y; }
static inline double tailor_in_cross(tailor_point a, tailor_point b) { return a.x * b.y - a.y * b.x; }
static inline double tailor_in_norm(tailor_point a) { return sqrt(a.x * a.x + a.y * a.y); }
static inline double tailor_in_distance(tailor_point a, tailor_point b) { return tailor_in_norm(tailor_in_sub(a, b)); }

/** a + k d */
static inline tailor_point tailor_in_along(tailor_point a, tailor_point d, double k)
{
    return (tailor_point){a.x + d.x * k, a.y + d.y * k};
}

/** a at t = 0, b at t = 1, both exactly. */
static inline tailor_point tailor_in_mix(tailor_point a, tailor_point b, double t)
{
    const double s = 1 - t;
    return (tailor_point){a.x * s + b.x * t, a.y * s + b.y * t};
}

/** A quarter turn to the right: the outside of a counter-clockwise outline. */
static inline tailor_point tailor_in_right(tailor_point a) { return (tailor_point){a.y, -a.x}; }

static inline double tailor_in_min(double a, double b) { return a < b ? a : b; }
static inline double tailor_in_max(double a, double b) { return a > b ? a : b; }

static inline bool tailor_in_same(tailor_point a, tailor_point b) { return a.x == b.x && a.y == b.y; }
static inline bool tailor_in_finite(tailor_point a) { return isfinite(a.x) && isfinite(a.y); }
bool tailor_in_path_finite(const tailor_cubic *path, size_t count);

/** A box round the control points: never smaller than the curve, and four comparisons a side. */
typedef struct tailor_in_box {
    double x0, y0, x1, y1;
} tailor_in_box;
static inline bool tailor_in_boxes_apart(const tailor_in_box *a, const tailor_in_box *b, double slack)
{
    return a->x0 > b->x1 + slack || b->x0 > a->x1 + slack || a->y0 > b->y1 + slack || b->y0 > a->y1 + slack;
}
/** Squared distance from a point to a box, 0 inside. */
static inline double tailor_in_box_distance2(const tailor_in_box *b, tailor_point p)
{
    const double dx = tailor_in_max(tailor_in_max(b->x0 - p.x, p.x - b->x1), 0);
    const double dy = tailor_in_max(tailor_in_max(b->y0 - p.y, p.y - b->y1), 0);
    return dx * dx + dy * dy;
}

/** Boxes of runs of so many following cubics, so that what is far away can be passed over a run at a time. Returns the
 *  cubics of a run: 1 for a path of up to as many as there are boxes. */
enum { TAILOR_IN_RUNS = 64 };
size_t tailor_in_run_boxes(const tailor_cubic *path, size_t count, tailor_in_box boxes[TAILOR_IN_RUNS]);

double tailor_in_path_size(const tailor_cubic *path, size_t count);

/** Move both ends of a joint to their middle, handles with them, so that directions keep. */
void tailor_in_weld(tailor_cubic *before, tailor_cubic *after);

/** A place split into the cubic's index and its parameter; clipped to the path. */
size_t tailor_in_place_split(size_t count, double place, double *t);

/** Roots in [0, 1] of the cubic polynomial with Bernstein coefficients b. Values within `zero` of 0 count as 0:
 *  a touch is one root. Returns the number of roots, ascending; -1 when the whole polynomial lies within `zero`. */
int tailor_in_cubic_roots(const double b[4], double zero, double roots[4]);

/** Value of the polynomial with Bernstein coefficients b. */
double tailor_in_value_at(const double b[4], double t);
/** Parameters in (0, 1), ascending, where its slope changes sign. */
int tailor_in_turning_points(const double b[4], double turns[2]);
/** Its root in a monotone stretch whose end values have opposite signs. */
double tailor_in_root_between(const double b[4], double t0, double t1, bool rising);

/** Parameters inside (0, 1), ascending, where a cubic stands still: its cusps. */
int tailor_in_cusps(const tailor_cubic *c, double at[2]);

/** Length of a part of a cubic. */
double tailor_in_length_between(const tailor_cubic *c, double from, double to);

#include "curve.h"

#endif

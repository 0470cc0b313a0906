/* Small vector arithmetic for the draft. */
#ifndef TAILOR_IN_COAT_VECTOR_H
#define TAILOR_IN_COAT_VECTOR_H

#include <math.h>

#include "../geom/kernel.h"

#define TAILOR_IN_RADIANS (3.14159265358979323846 / 180.0)

static inline tailor_point at(double x, double y) { return (tailor_point){x, y}; }
static inline tailor_point add(tailor_point a, tailor_point b) { return at(a.x + b.x, a.y + b.y); }
static inline tailor_point sub(tailor_point a, tailor_point b) { return at(a.x - b.x, a.y - b.y); }
static inline tailor_point times(tailor_point a, double s) { return at(a.x * s, a.y * s); }
static inline tailor_point along(tailor_point from, tailor_point direction, double distance)
{
    return add(from, times(direction, distance));
}
static inline double dot(tailor_point a, tailor_point b) { return a.x * b.x + a.y * b.y; }
static inline double cross(tailor_point a, tailor_point b) { return a.x * b.y - a.y * b.x; }
static inline double norm(tailor_point a) { return sqrt(dot(a, a)); }
static inline double distance(tailor_point a, tailor_point b) { return norm(sub(b, a)); }
static inline tailor_point unit(tailor_point a) { return times(a, 1.0 / norm(a)); }
static inline tailor_point left_of(tailor_point a) { return at(-a.y, a.x); }
static inline tailor_point right_of(tailor_point a) { return at(a.y, -a.x); }

/** The direction `d`, turned as `from` must turn to become `to` (all unit vectors): how a line runs on across a seam
 *  whose edge has the direction `from` on one piece and `to` on the other. */
static inline tailor_point carry(tailor_point d, tailor_point from, tailor_point to)
{
    double c = dot(from, to), s = cross(from, to);
    return at(c * d.x - s * d.y, s * d.x + c * d.y);
}

static inline double clamp(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

#endif

/* The small steps that every floor takes thousands of times, inline: a cubic made, evaluated and boxed. The public
 * functions of the same meaning are these. Included by kernel.h. */
#ifndef TAILOR_IN_GEOM_CURVE_H
#define TAILOR_IN_GEOM_CURVE_H

#include "kernel.h"

static inline tailor_cubic tailor_in_line(tailor_point a, tailor_point b)
{
    return (tailor_cubic){{a, tailor_in_mix(a, b, 1.0 / 3), tailor_in_mix(a, b, 2.0 / 3), b}};
}

static inline tailor_cubic tailor_in_hermite(tailor_point a, tailor_point leave, tailor_point b, tailor_point arrive)
{
    return (tailor_cubic){{a, tailor_in_add(a, leave), tailor_in_sub(b, arrive), b}};
}

static inline tailor_point tailor_in_point(const tailor_cubic *c, double t)
{
    const double s = 1 - t;
    const double w0 = s * s * s, w1 = 3 * s * s * t, w2 = 3 * s * t * t, w3 = t * t * t;
    return (tailor_point){
        w0 * c->p[0].x + w1 * c->p[1].x + w2 * c->p[2].x + w3 * c->p[3].x,
        w0 * c->p[0].y + w1 * c->p[1].y + w2 * c->p[2].y + w3 * c->p[3].y,
    };
}

static inline tailor_point tailor_in_derivative(const tailor_cubic *c, double t)
{
    const double s = 1 - t;
    const double w0 = 3 * s * s, w1 = 6 * s * t, w2 = 3 * t * t;
    const tailor_point *p = c->p;
    return (tailor_point){
        w0 * (p[1].x - p[0].x) + w1 * (p[2].x - p[1].x) + w2 * (p[3].x - p[2].x),
        w0 * (p[1].y - p[0].y) + w1 * (p[2].y - p[1].y) + w2 * (p[3].y - p[2].y),
    };
}

/** Second derivative. */
static inline tailor_point tailor_in_second(const tailor_cubic *c, double t)
{
    const double s = 6 * (1 - t), u = 6 * t;
    const tailor_point *p = c->p;
    return (tailor_point){
        s * (p[0].x - 2 * p[1].x + p[2].x) + u * (p[1].x - 2 * p[2].x + p[3].x),
        s * (p[0].y - 2 * p[1].y + p[2].y) + u * (p[1].y - 2 * p[2].y + p[3].y),
    };
}

/** Third derivative: the same everywhere. */
static inline tailor_point tailor_in_third(const tailor_cubic *c)
{
    const tailor_point *p = c->p;
    return (tailor_point){
        6 * (p[3].x - p[0].x + 3 * (p[1].x - p[2].x)),
        6 * (p[3].y - p[0].y + 3 * (p[1].y - p[2].y)),
    };
}

/** A box round the control points. */
static inline tailor_in_box tailor_in_hull_box(const tailor_cubic *c)
{
    const tailor_point *p = c->p;
    return (tailor_in_box){
        tailor_in_min(tailor_in_min(p[0].x, p[1].x), tailor_in_min(p[2].x, p[3].x)),
        tailor_in_min(tailor_in_min(p[0].y, p[1].y), tailor_in_min(p[2].y, p[3].y)),
        tailor_in_max(tailor_in_max(p[0].x, p[1].x), tailor_in_max(p[2].x, p[3].x)),
        tailor_in_max(tailor_in_max(p[0].y, p[1].y), tailor_in_max(p[2].y, p[3].y)),
    };
}

/** The larger side of the control box: what "relative to the curve's size" means. */
static inline double tailor_in_size(const tailor_cubic *c)
{
    const tailor_in_box b = tailor_in_hull_box(c);
    return tailor_in_max(b.x1 - b.x0, b.y1 - b.y0);
}

#endif

/* One cubic: made, evaluated, cut, turned round, boxed. */
#include "kernel.h"

tailor_cubic tailor_cubic_line(tailor_point a, tailor_point b)
{
    return (tailor_cubic){{a, tailor_in_mix(a, b, 1.0 / 3), tailor_in_mix(a, b, 2.0 / 3), b}};
}

tailor_cubic tailor_cubic_hermite(tailor_point a, tailor_point leave, tailor_point b, tailor_point arrive)
{
    return (tailor_cubic){{a, tailor_in_add(a, leave), tailor_in_sub(b, arrive), b}};
}

/** Cosine and sine of degrees, exact at the quarter turns. */
static tailor_point turn(double degrees)
{
    const double quarters = nearbyint(degrees / 90);
    const double rest = (degrees - quarters * 90) * (TAILOR_IN_PI / 180);
    const double c = cos(rest), s = sin(rest);
    const int quarter = (int)fmod(quarters, 4);
    switch (quarter < 0 ? quarter + 4 : quarter) {
    case 1: return (tailor_point){-s, c};
    case 2: return (tailor_point){-c, -s};
    case 3: return (tailor_point){s, -c};
    default: return (tailor_point){c, s};
    }
}

tailor_cubic tailor_cubic_arc(tailor_point centre, double radius, double from, double to)
{
    const double sweep = to - from;
    if (!(fabs(sweep) <= 90.0 * (1 + 1e-12)) || !isfinite(from)) {
        const tailor_point none = {NAN, NAN};
        return (tailor_cubic){{none, none, none, none}};
    }
    const double handle = 4.0 / 3 * tan(sweep * (TAILOR_IN_PI / 720));
    const tailor_point u = turn(from), v = turn(to);
    return (tailor_cubic){{
        tailor_in_along(centre, u, radius),
        tailor_in_along(centre, (tailor_point){u.x - u.y * handle, u.y + u.x * handle}, radius),
        tailor_in_along(centre, (tailor_point){v.x + v.y * handle, v.y - v.x * handle}, radius),
        tailor_in_along(centre, v, radius),
    }};
}

tailor_point tailor_cubic_point(const tailor_cubic *c, double t)
{
    const double s = 1 - t;
    const double w0 = s * s * s, w1 = 3 * s * s * t, w2 = 3 * s * t * t, w3 = t * t * t;
    return (tailor_point){
        w0 * c->p[0].x + w1 * c->p[1].x + w2 * c->p[2].x + w3 * c->p[3].x,
        w0 * c->p[0].y + w1 * c->p[1].y + w2 * c->p[2].y + w3 * c->p[3].y,
    };
}

void tailor_cubic_points(const tailor_cubic *c, const double *parameters, size_t count, tailor_point *points)
{
    for (size_t i = 0; i < count; i++) points[i] = tailor_cubic_point(c, parameters[i]);
}

tailor_point tailor_cubic_derivative(const tailor_cubic *c, double t)
{
    const double s = 1 - t;
    const double w0 = 3 * s * s, w1 = 6 * s * t, w2 = 3 * t * t;
    const tailor_point *p = c->p;
    return (tailor_point){
        w0 * (p[1].x - p[0].x) + w1 * (p[2].x - p[1].x) + w2 * (p[3].x - p[2].x),
        w0 * (p[1].y - p[0].y) + w1 * (p[2].y - p[1].y) + w2 * (p[3].y - p[2].y),
    };
}

tailor_point tailor_in_second(const tailor_cubic *c, double t)
{
    const double s = 6 * (1 - t), u = 6 * t;
    const tailor_point *p = c->p;
    return (tailor_point){
        s * (p[0].x - 2 * p[1].x + p[2].x) + u * (p[1].x - 2 * p[2].x + p[3].x),
        s * (p[0].y - 2 * p[1].y + p[2].y) + u * (p[1].y - 2 * p[2].y + p[3].y),
    };
}

tailor_point tailor_in_third(const tailor_cubic *c)
{
    const tailor_point *p = c->p;
    return (tailor_point){
        6 * (p[3].x - p[0].x + 3 * (p[1].x - p[2].x)),
        6 * (p[3].y - p[0].y + 3 * (p[1].y - p[2].y)),
    };
}

/** v / |v| without overflow or underflow on the way. */
static tailor_point unit(tailor_point v)
{
    const double largest = tailor_in_max(fabs(v.x), fabs(v.y));
    if (!(largest > 0) || isinf(largest)) return (tailor_point){v.x - v.x, v.y - v.y}; /* (0, 0), or NaN */
    const tailor_point w = {v.x / largest, v.y / largest};
    const double n = tailor_in_norm(w);
    return (tailor_point){w.x / n, w.y / n};
}

static bool counts(tailor_point v, double size)
{
    return fabs(v.x) > size * TAILOR_IN_TINY || fabs(v.y) > size * TAILOR_IN_TINY;
}

tailor_point tailor_cubic_direction(const tailor_cubic *c, double t)
{
    const double size = tailor_in_size(c);
    const tailor_point d = tailor_cubic_derivative(c, t);
    if (t > 0 && t < 1) {
        if (counts(d, size)) return unit(d);
        /* a cusp: the way out of it */
        const tailor_point d2 = tailor_in_second(c, t);
        return unit(counts(d2, size) ? d2 : counts(tailor_in_third(c), size) ? tailor_in_third(c) : (tailor_point){0, 0});
    }
    if (t == 0 || t == 1) {
        const int end = t == 0 ? 0 : 3, step = t == 0 ? 1 : -1;
        for (int k = 1; k <= 3; k++) {
            tailor_point v = tailor_in_sub(c->p[end + step * k], c->p[end]);
            if (step < 0) v = tailor_in_scale(v, -1);
            if (counts(v, size)) return unit(v);
        }
    }
    return isnan(d.x + d.y) ? (tailor_point){NAN, NAN} : counts(d, size) ? unit(d) : (tailor_point){0, 0};
}

double tailor_cubic_curvature(const tailor_cubic *c, double t)
{
    const tailor_point d = tailor_cubic_derivative(c, t), d2 = tailor_in_second(c, t);
    const double speed = tailor_in_norm(d), size = tailor_in_size(c);
    if (isnan(speed) || isnan(size)) return NAN;
    if (speed > size * TAILOR_IN_TINY) return tailor_in_cross(d, d2) / (speed * speed * speed);
    /* at a cusp or a zero handle the curvature runs to infinity, unless all is straight */
    const double side = tailor_in_cross(d2, tailor_in_third(c));
    return fabs(side) <= size * size * TAILOR_IN_TINY ? 0 : side > 0 ? INFINITY : -INFINITY;
}

void tailor_cubic_split(const tailor_cubic *c, double t, tailor_cubic *first, tailor_cubic *second)
{
    const tailor_cubic whole = *c; /* first or second may be c itself */
    const tailor_point a = tailor_in_mix(whole.p[0], whole.p[1], t);
    const tailor_point b = tailor_in_mix(whole.p[1], whole.p[2], t);
    const tailor_point d = tailor_in_mix(whole.p[2], whole.p[3], t);
    const tailor_point ab = tailor_in_mix(a, b, t), bd = tailor_in_mix(b, d, t);
    const tailor_point middle = tailor_in_mix(ab, bd, t);
    if (first) *first = (tailor_cubic){{whole.p[0], a, ab, middle}};
    if (second) *second = (tailor_cubic){{middle, bd, d, whole.p[3]}};
}

/** The blossom: the symmetric three-argument form whose values at (t, t, t) are the curve's points. */
static tailor_point blossom(const tailor_cubic *c, double r, double s, double t)
{
    const tailor_point a = tailor_in_mix(c->p[0], c->p[1], r);
    const tailor_point b = tailor_in_mix(c->p[1], c->p[2], r);
    const tailor_point d = tailor_in_mix(c->p[2], c->p[3], r);
    return tailor_in_mix(tailor_in_mix(a, b, s), tailor_in_mix(b, d, s), t);
}

tailor_cubic tailor_cubic_part(const tailor_cubic *c, double t0, double t1)
{
    return (tailor_cubic){{blossom(c, t0, t0, t0), blossom(c, t0, t0, t1), blossom(c, t0, t1, t1), blossom(c, t1, t1, t1)}};
}

tailor_cubic tailor_cubic_reverse(const tailor_cubic *c)
{
    return (tailor_cubic){{c->p[3], c->p[2], c->p[1], c->p[0]}};
}

tailor_in_box tailor_in_hull_box(const tailor_cubic *c)
{
    const tailor_point *p = c->p;
    return (tailor_in_box){
        tailor_in_min(tailor_in_min(p[0].x, p[1].x), tailor_in_min(p[2].x, p[3].x)),
        tailor_in_min(tailor_in_min(p[0].y, p[1].y), tailor_in_min(p[2].y, p[3].y)),
        tailor_in_max(tailor_in_max(p[0].x, p[1].x), tailor_in_max(p[2].x, p[3].x)),
        tailor_in_max(tailor_in_max(p[0].y, p[1].y), tailor_in_max(p[2].y, p[3].y)),
    };
}

double tailor_in_size(const tailor_cubic *c)
{
    const tailor_in_box b = tailor_in_hull_box(c);
    return tailor_in_max(b.x1 - b.x0, b.y1 - b.y0);
}

/** Widen [low, high] to one coordinate of the curve, given by its four Bernstein values. */
static void widen(double a, double b, double c, double d, double *low, double *high)
{
    *low = tailor_in_min(a, d);
    *high = tailor_in_max(a, d);
    if (b >= *low && b <= *high && c >= *low && c <= *high) return; /* handles inside: so is the curve */
    const double u = b - a, v = c - b, w = d - c; /* the derivative's Bernstein values, over 3 */
    const double qa = u - 2 * v + w, qb = v - u, disc = qb * qb - qa * u;
    if (!(disc >= 0)) return;
    const double q = qb >= 0 ? -(qb + sqrt(disc)) : sqrt(disc) - qb;
    const double roots[2] = {q / qa, u / q};
    for (int i = 0; i < 2; i++) {
        const double t = roots[i], s = 1 - t;
        if (!(t > 0 && t < 1)) continue;
        const double value = s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
        *low = tailor_in_min(*low, value);
        *high = tailor_in_max(*high, value);
    }
}

void tailor_cubic_bounds(const tailor_cubic *c, double box[4])
{
    const tailor_point *p = c->p;
    for (int k = 0; k < 4; k++)
        if (isnan(p[k].x + p[k].y)) {
            box[0] = box[1] = box[2] = box[3] = NAN;
            return;
        }
    widen(p[0].x, p[1].x, p[2].x, p[3].x, &box[0], &box[2]);
    widen(p[0].y, p[1].y, p[2].y, p[3].y, &box[1], &box[3]);
}

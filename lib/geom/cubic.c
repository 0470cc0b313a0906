/* One cubic: made, evaluated, cut, turned round, boxed. */
#include "kernel.h"

tailor_cubic tailor_cubic_line(tailor_point a, tailor_point b) { return tailor_in_line(a, b); }

tailor_cubic tailor_cubic_hermite(tailor_point a, tailor_point leave, tailor_point b, tailor_point arrive)
{
    return tailor_in_hermite(a, leave, b, arrive);
}

tailor_point tailor_cubic_point(const tailor_cubic *c, double t) { return tailor_in_point(c, t); }

tailor_point tailor_cubic_derivative(const tailor_cubic *c, double t) { return tailor_in_derivative(c, t); }

/** Cosine and sine of degrees, exact at the quarter turns. */
static tailor_point turn(double degrees)
{
    const double quarters = nearbyint(degrees / 90);
    const double rest = (degrees - quarters * 90) * (TAILOR_IN_PI / 180);
    const double c = cos(rest), s = sin(rest);
    const int quarter = (int)fmod(quarters, 4);
    switch (quarter < 0 ? quarter + 4 : quarter) {
    case 1:
        return (tailor_point){-s, c};
    case 2:
        return (tailor_point){-c, -s};
    case 3:
        return (tailor_point){s, -c};
    default:
        return (tailor_point){c, s};
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

void tailor_cubic_points(const tailor_cubic *c, const double *parameters, size_t count, tailor_point *points)
{
    for (size_t i = 0; i < count; i++) points[i] = tailor_in_point(c, parameters[i]);
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
    const tailor_point d = tailor_in_derivative(c, t);
    if (t > 0 && t < 1) {
        if (counts(d, size)) return unit(d);
        /* a cusp: the way out of it */
        const tailor_point d2 = tailor_in_second(c, t);
        return unit(counts(d2, size)                   ? d2
                    : counts(tailor_in_third(c), size) ? tailor_in_third(c)
                                                       : (tailor_point){0, 0});
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
    const tailor_point d = tailor_in_derivative(c, t), d2 = tailor_in_second(c, t);
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
    return (tailor_cubic){
        {blossom(c, t0, t0, t0), blossom(c, t0, t0, t1), blossom(c, t0, t1, t1), blossom(c, t1, t1, t1)}};
}

tailor_cubic tailor_cubic_reverse(const tailor_cubic *c)
{
    return (tailor_cubic){{c->p[3], c->p[2], c->p[1], c->p[0]}};
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

/* Curves through points: the draughtsman's batten, and the curve that never overshoots. */
#include "kernel.h"

/* A natural C2 cubic spline on the chord lengths. The slopes d solve a tridiagonal system
 *     d[i-1]/h[i-1] + 2 (1/h[i-1] + 1/h[i]) d[i] + d[i+1]/h[i] = 3 (step[i-1]/h[i-1]^2 + step[i]/h[i]^2)
 * by elimination; what it must keep on the way is kept in the cubics that it fills, so nothing is allocated. */
tailor_status tailor_path_smooth(const tailor_point *points, size_t count, tailor_cubic *path)
{
    if (!points || !path || count < 2) return TAILOR_BAD_ARGUMENT;
    const size_t last = count - 1;
    for (size_t i = 0; i < count; i++)
        if (!tailor_in_finite(points[i])) return TAILOR_NOT_FINITE;
    for (size_t i = 0; i < last; i++)
        if (!(tailor_in_distance(points[i], points[i + 1]) > 0)) return TAILOR_DEGENERATE;

    /* forward: row i reads d[i] = right[i] - upper[i] d[i+1]; right is kept in p[1], upper in p[2].x, h in p[2].y */
    double before = 0;          /* 1 / h[i-1] */
    tailor_point pull = {0, 0}; /* 3 step[i-1] / h[i-1]^2 */
    double upper = 0;
    tailor_point right = {0, 0};
    for (size_t i = 0; i < last; i++) {
        const double h = tailor_in_distance(points[i], points[i + 1]), inverse = 1 / h;
        const tailor_point next_pull = tailor_in_scale(tailor_in_sub(points[i + 1], points[i]), 3 * inverse * inverse);
        const double pivot = 2 * (before + inverse) - before * upper;
        right =
            tailor_in_scale(tailor_in_sub(tailor_in_add(pull, next_pull), tailor_in_scale(right, before)), 1 / pivot);
        upper = inverse / pivot;
        path[i].p[1] = right;
        path[i].p[2] = (tailor_point){upper, h};
        before = inverse;
        pull = next_pull;
    }
    const double pivot = 2 * before - before * upper;
    tailor_point slope = tailor_in_scale(tailor_in_sub(pull, tailor_in_scale(right, before)), 1 / pivot);
    for (size_t i = last; i-- > 0;) {
        const double third = path[i].p[2].y / 3;
        const tailor_point own = tailor_in_sub(path[i].p[1], tailor_in_scale(slope, path[i].p[2].x));
        path[i] =
            tailor_in_hermite(points[i], tailor_in_scale(own, third), points[i + 1], tailor_in_scale(slope, third));
        slope = own;
    }
    return TAILOR_OK;
}

/** Slope dx/dy at an inner point between secants m0 (over h0) and m1 (over h1): the weighted harmonic mean. */
static double inner_slope(double h0, double m0, double h1, double m1)
{
    if (!(m0 * m1 > 0)) return 0;
    const double w0 = 2 * h1 + h0, w1 = h1 + 2 * h0;
    return (w0 + w1) / (w0 / m0 + w1 / m1);
}

/** Slope at an end: the three-point estimate, held to the secant's sign and to three times its size. */
static double end_slope(double h0, double m0, double h1, double m1)
{
    const double slope = ((2 * h0 + h1) * m0 - h0 * m1) / (h0 + h1);
    if (!(slope * m0 > 0)) return 0;
    return m0 * m1 < 0 && fabs(slope) > 3 * fabs(m0) ? 3 * m0 : slope;
}

tailor_status tailor_path_monotone(const tailor_point *points, size_t count, tailor_cubic *path)
{
    if (!points || !path || count < 2) return TAILOR_BAD_ARGUMENT;
    const size_t last = count - 1;
    for (size_t i = 0; i < count; i++)
        if (!tailor_in_finite(points[i])) return TAILOR_NOT_FINITE;
    const bool up = points[1].y > points[0].y;
    for (size_t i = 0; i < last; i++)
        if (up ? !(points[i + 1].y > points[i].y) : !(points[i + 1].y < points[i].y)) return TAILOR_DEGENERATE;

    double slope = 0; /* dx/dy at points[i] */
    for (size_t i = 0; i < last; i++) {
        const double h = points[i + 1].y - points[i].y, m = (points[i + 1].x - points[i].x) / h;
        double far = m;
        if (count == 2)
            slope = m;
        else if (i + 1 < last) {
            const double h1 = points[i + 2].y - points[i + 1].y, m1 = (points[i + 2].x - points[i + 1].x) / h1;
            if (i == 0) slope = end_slope(h, m, h1, m1);
            far = inner_slope(h, m, h1, m1);
        } else {
            const double h0 = points[i].y - points[i - 1].y, m0 = (points[i].x - points[i - 1].x) / h0;
            far = end_slope(h, m, h0, m0);
        }
        path[i] = tailor_in_hermite(points[i], (tailor_point){slope * h / 3, h / 3}, points[i + 1],
                                    (tailor_point){far * h / 3, h / 3});
        slope = far;
    }
    return TAILOR_OK;
}

/* Curves to points, at a stated tolerance. */
#include "kernel.h"

enum { MOST_SEGMENTS = 1 << 20 };

/** Equal steps of parameter that keep a cubic's chords within a tolerance of it: Wang's bound on the second
 *  derivative (G.-Z. Wang 1984). 0 if it would take too many. */
static size_t segments(const tailor_cubic *c, double tolerance)
{
    const tailor_point *p = c->p;
    const tailor_point u = {p[0].x - 2 * p[1].x + p[2].x, p[0].y - 2 * p[1].y + p[2].y};
    const tailor_point v = {p[1].x - 2 * p[2].x + p[3].x, p[1].y - 2 * p[2].y + p[3].y};
    const double bend = sqrt(tailor_in_max(tailor_in_dot(u, u), tailor_in_dot(v, v)));
    const double n = ceil(sqrt(0.75 * bend / tolerance));
    return n > MOST_SEGMENTS ? 0 : n > 1 ? (size_t)n : 1;
}

tailor_status tailor_path_flatten(const tailor_cubic *path, size_t count, double tolerance, tailor_point *points,
                                  size_t capacity, size_t *needed)
{
    if (!path || !needed || count == 0 || (!points && capacity) || !(tolerance > 0)) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    size_t total = 1;
    for (size_t i = 0; i < count; i++) {
        const size_t n = segments(&path[i], tolerance);
        if (n == 0) return TAILOR_OUT_OF_RANGE;
        total += n;
    }
    *needed = total;
    if (!points) return TAILOR_OK;
    if (capacity < total) return TAILOR_TOO_SMALL;
    tailor_point *next = points;
    *next++ = path[0].p[0];
    for (size_t i = 0; i < count; i++) {
        const tailor_point *p = path[i].p;
        const size_t n = segments(&path[i], tolerance);
        /* powers of t about the start: short, and vectorises; the end is set exactly */
        const tailor_point a = {p[3].x - p[0].x + 3 * (p[1].x - p[2].x), p[3].y - p[0].y + 3 * (p[1].y - p[2].y)};
        const tailor_point b = {3 * (p[0].x - 2 * p[1].x + p[2].x), 3 * (p[0].y - 2 * p[1].y + p[2].y)};
        const tailor_point c = {3 * (p[1].x - p[0].x), 3 * (p[1].y - p[0].y)};
        const double step = 1 / (double)n;
        for (int k = 1; k < (int)n; k++) {
            const double t = k * step;
            next[k - 1] =
                (tailor_point){((a.x * t + b.x) * t + c.x) * t + p[0].x, ((a.y * t + b.y) * t + c.y) * t + p[0].y};
        }
        next[n - 1] = p[3];
        next += n;
    }
    return TAILOR_OK;
}

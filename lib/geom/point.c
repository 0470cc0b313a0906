/* Points, and the maps that carry them. */
#include "kernel.h"

tailor_point tailor_point_reflect(tailor_point p, tailor_point a, tailor_point b)
{
    const tailor_point u = tailor_in_sub(b, a);
    const double length2 = tailor_in_dot(u, u);
    if (!(length2 > 0)) return (tailor_point){NAN, NAN};
    /* p - 2 (distance to the line) * normal: a point on the line stays within a rounding of itself */
    const double k = 2 * tailor_in_cross(u, tailor_in_sub(p, a)) / length2;
    return (tailor_point){p.x + u.y * k, p.y - u.x * k};
}

void tailor_points_reflect(const tailor_point *points, size_t count, tailor_point a, tailor_point b,
                           tailor_point *reflected)
{
    for (size_t i = 0; i < count; i++) reflected[i] = tailor_point_reflect(points[i], a, b);
}

static tailor_point affine(tailor_point p, const double m[6])
{
    return (tailor_point){m[0] * p.x + m[2] * p.y + m[4], m[1] * p.x + m[3] * p.y + m[5]};
}

void tailor_points_affine(const tailor_point *points, size_t count, const double matrix[6], tailor_point *moved)
{
    for (size_t i = 0; i < count; i++) moved[i] = affine(points[i], matrix);
}

void tailor_path_affine(const tailor_cubic *path, size_t count, const double matrix[6], tailor_cubic *moved)
{
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++) moved[i].p[k] = affine(path[i].p[k], matrix);
}

tailor_status tailor_path_reflect(const tailor_cubic *path, size_t count, tailor_point a, tailor_point b,
                                  tailor_cubic *reflected)
{
    if (!path || !reflected) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_finite(a) || !tailor_in_finite(b) || !tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    if (!(tailor_in_distance(a, b) > 0)) return TAILOR_DEGENERATE;
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++) reflected[i].p[k] = tailor_point_reflect(path[i].p[k], a, b);
    return TAILOR_OK;
}

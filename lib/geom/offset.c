/* Offset of an edge and of an outline: the two calls. */
#include "offset.h"

/** Take up the path's cubics, but for those that are a point. False if there are too many. */
static bool take_sides(tailor_in_offset *w, const tailor_cubic *path, size_t count, const double *distances,
                       double distance, double sign)
{
    const double nothing = TAILOR_IN_TINY * tailor_in_path_size(path, count);
    w->path = path;
    w->count = count;
    w->side_count = w->piece_count = 0;
    w->full = false;
    w->least = INFINITY;
    for (size_t i = 0; i < count; i++) {
        if (!(tailor_in_size(&path[i]) > nothing)) continue;
        if (w->side_count == TAILOR_IN_MOST_SIDES) return false;
        const double d = sign * (distances ? distances[i] : distance);
        w->least = tailor_in_min(w->least, fabs(d));
        w->side[w->side_count++] = (tailor_in_side){&path[i],
                                                    d,
                                                    tailor_in_hull_box(&path[i]),
                                                    tailor_cubic_direction(&path[i], 0),
                                                    tailor_cubic_direction(&path[i], 1),
                                                    tailor_in_offset_plain(&path[i], d),
                                                    0,
                                                    path[i].p[3],
                                                    0};
    }
    return true;
}

static tailor_status offset_of(tailor_in_offset *w, tailor_cubic *offset, size_t capacity, size_t *needed)
{
    for (int i = 0; i < w->side_count; i++) {
        tailor_in_offset_parallel(w, i);
        const int next = i + 1 < w->side_count ? i + 1 : 0;
        if (next == 0 && !w->closed) break;
        tailor_in_offset_corner(w, i, next);
    }
    return w->full ? TAILOR_OUT_OF_RANGE : tailor_in_offset_trim(w, offset, capacity, needed);
}

tailor_status tailor_path_offset(const tailor_cubic *path, size_t count, double distance, double tolerance,
                                 tailor_cubic *offset, size_t capacity, size_t *needed)
{
    if (!path || !needed || count == 0 || (!offset && capacity) || !(tolerance > 0)) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_path_finite(path, count) || !isfinite(distance)) return TAILOR_NOT_FINITE;
    tailor_in_offset w;
    if (!take_sides(&w, path, count, NULL, distance, 1)) return TAILOR_OUT_OF_RANGE;
    if (w.side_count == 0) return TAILOR_DEGENERATE;
    w.closed = false;
    w.winding = 0;
    w.corner = TAILOR_CORNER_ROUND;
    w.mitre_limit = 1;
    w.tolerance = tailor_in_tolerance(0.75 * tolerance, path, count);
    size_t n = 0;
    const tailor_status status = offset_of(&w, offset, capacity, &n);
    if (status == TAILOR_OK && n == 0) return TAILOR_NO_SOLUTION;
    if (status == TAILOR_OK || status == TAILOR_TOO_SMALL) *needed = n;
    return status;
}

tailor_status tailor_outline_offset(const tailor_cubic *path, size_t count, const double *distances, int corner,
                                    double mitre_limit, double tolerance, tailor_cubic *offset, size_t capacity,
                                    size_t *needed)
{
    if (!path || !distances || !needed || count == 0 || (!offset && capacity) || !(tolerance > 0))
        return TAILOR_BAD_ARGUMENT;
    if (corner < TAILOR_CORNER_MITRE || corner > TAILOR_CORNER_BEVEL || !(mitre_limit >= 1)) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    for (size_t i = 0; i < count; i++)
        if (!isfinite(distances[i])) return TAILOR_NOT_FINITE;
    if (tailor_in_distance(path[0].p[0], path[count - 1].p[3]) > tolerance) return TAILOR_BAD_ARGUMENT;
    const double area = tailor_path_area(path, count), size = tailor_in_path_size(path, count);
    if (!(fabs(area) > 1e-12 * size * size)) return TAILOR_DEGENERATE;
    tailor_in_offset w;
    if (!take_sides(&w, path, count, distances, 0, area > 0 ? 1 : -1)) return TAILOR_OUT_OF_RANGE;
    w.closed = true;
    w.winding = area > 0 ? 1 : -1;
    w.corner = corner;
    w.mitre_limit = mitre_limit;
    w.tolerance = tailor_in_tolerance(0.75 * tolerance, path, count);
    return offset_of(&w, offset, capacity, needed);
}

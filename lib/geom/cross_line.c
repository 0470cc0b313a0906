/* Where a path meets a line. */
#include "kernel.h"

tailor_status tailor_path_cross_line(const tailor_cubic *path, size_t count, tailor_point a, tailor_point b,
                                     double *places, size_t capacity, size_t *found)
{
    if (!path || !found || count == 0 || (!places && capacity)) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_finite(a) || !tailor_in_finite(b) || !tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    const tailor_point along = tailor_in_sub(b, a);
    const double length = tailor_in_norm(along);
    if (!(length > 0)) return TAILOR_DEGENERATE;
    const tailor_point u = tailor_in_scale(along, 1 / length);
    const tailor_in_box start = {a.x, a.y, a.x, a.y};
    double reach = 0; /* how far the path is from a: rounding of a distance to the line is a share of that */
    for (size_t i = 0; i < count; i++) {
        const tailor_in_box box = tailor_in_hull_box(&path[i]);
        reach = tailor_in_max(reach, tailor_in_max(tailor_in_max(box.x1 - start.x0, start.x0 - box.x0),
                                                   tailor_in_max(box.y1 - start.y0, start.y0 - box.y0)));
    }
    const double zero = TAILOR_IN_TINY * reach;
    const bool closed = tailor_in_same(path[count - 1].p[3], path[0].p[0]);

    size_t n = 0;
    double last = -1;
    bool at_start = false;
    for (size_t i = 0; i < count; i++) {
        double side[4];
        for (int k = 0; k < 4; k++) side[k] = tailor_in_cross(u, tailor_in_sub(path[i].p[k], a));
        const double low = tailor_in_min(tailor_in_min(side[0], side[1]), tailor_in_min(side[2], side[3]));
        const double high = tailor_in_max(tailor_in_max(side[0], side[1]), tailor_in_max(side[2], side[3]));
        if (low > zero || high < -zero) continue;
        double roots[4];
        const int met = tailor_in_cubic_roots(side, zero, roots);
        if (met < 0) return TAILOR_OVERLAP;
        for (int k = 0; k < met; k++) {
            const double place = (double)i + roots[k];
            if (place == last) continue; /* the end of one cubic is the start of the next */
            if (place == 0) at_start = true;
            if (place == (double)count && closed && at_start) continue;
            last = place;
            if (n < capacity) places[n] = place;
            n++;
        }
    }
    *found = n;
    return !places || n <= capacity ? TAILOR_OK : TAILOR_TOO_SMALL;
}

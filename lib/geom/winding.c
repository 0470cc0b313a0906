/* How often a path goes round a point. */
#include "kernel.h"

/** What a stretch monotone in y adds: +1 for going up on the right of the point, -1 for going down. Half-open
 *  in y, so that a joint or a turning point counts once. */
static int stretch_winding(const tailor_cubic *c, tailor_point p, const double y[4], double t0, double y0, double t1,
                           double y1)
{
    if ((y0 > 0) == (y1 > 0)) return 0;
    const bool up = y1 > 0;
    if (!(tailor_in_point(c, tailor_in_root_between(y, t0, t1, up)).x > p.x)) return 0;
    return up ? 1 : -1;
}

int tailor_path_winding(const tailor_cubic *path, size_t count, tailor_point p)
{
    if (count == 0) return 0;
    int winding = 0;
    for (size_t i = 0; i <= count; i++) {
        const tailor_cubic chord = {{path[count - 1].p[3], path[count - 1].p[3], path[0].p[0], path[0].p[0]}};
        const tailor_cubic *c = i < count ? &path[i] : &chord;
        const tailor_in_box box = tailor_in_hull_box(c);
        if (!(box.y1 > p.y) || box.y0 > p.y || !(box.x1 > p.x)) continue; /* a ray to the right misses it */
        const double y[4] = {c->p[0].y - p.y, c->p[1].y - p.y, c->p[2].y - p.y, c->p[3].y - p.y};
        if (box.x0 > p.x) { /* wholly to the right: only its ends matter */
            winding += (y[3] > 0) - (y[0] > 0);
            continue;
        }
        double turns[2], t0 = 0, y0 = y[0];
        const int n = tailor_in_turning_points(y, turns);
        for (int k = 0; k <= n; k++) {
            const double t1 = k < n ? turns[k] : 1, y1 = k < n ? tailor_in_value_at(y, t1) : y[3];
            winding += stretch_winding(c, p, y, t0, y0, t1, y1);
            t0 = t1;
            y0 = y1;
        }
    }
    return winding;
}

void tailor_path_windings(const tailor_cubic *path, size_t count, const tailor_point *points, size_t point_count,
                          int *windings)
{
    for (size_t k = 0; k < point_count; k++) windings[k] = tailor_path_winding(path, count, points[k]);
}

/* Where two paths meet, and where one meets itself. */
#include "meet.h"

/** Are two pairs of places the same meeting: near on both paths, across joints and across a closing joint? */
static bool near_place(const tailor_cubic *path, size_t count, double a, double b, double reach)
{
    const double away = fabs(a - b);
    if (away > 0.5 && !(away >= (double)count - 0.5 && tailor_in_same(path[0].p[0], path[count - 1].p[3])))
        return false;
    return tailor_in_distance(tailor_path_point(path, count, a), tailor_path_point(path, count, b)) <= reach;
}

static bool usable(const tailor_cubic *p, size_t np, double tolerance)
{
    return p && np && tolerance > 0 && tolerance < INFINITY;
}

tailor_status tailor_path_cross_path(const tailor_cubic *p, size_t np, const tailor_cubic *q, size_t nq,
                                     double tolerance, double *p_places, double *q_places, size_t capacity,
                                     size_t *found)
{
    if (!usable(p, np, tolerance) || !usable(q, nq, tolerance) || !found) return TAILOR_BAD_ARGUMENT;
    if (capacity && (!p_places || !q_places)) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_path_finite(p, np) || !tailor_in_path_finite(q, nq)) return TAILOR_NOT_FINITE;
    tolerance = tailor_in_tolerance(tailor_in_tolerance(tolerance, p, np), q, nq);
    const double reach = 4 * tolerance;
    size_t n = 0, kept = 0;
    for (size_t i = 0; i < np; i++) {
        const tailor_in_box box = tailor_in_hull_box(&p[i]);
        for (size_t j = 0; j < nq; j++) {
            const tailor_in_box other = tailor_in_hull_box(&q[j]);
            if (tailor_in_boxes_apart(&box, &other, tolerance)) continue;
            tailor_in_meeting met[TAILOR_IN_MOST_MEETINGS];
            int count;
            const tailor_status status = tailor_in_cubics_meet(&p[i], &q[j], tolerance, met, &count);
            if (status != TAILOR_OK) return status;
            for (int k = 0; k < count; k++) {
                const double a = (double)i + 0.5 * (met[k].p_from + met[k].p_to),
                             b = (double)j + 0.5 * (met[k].q_from + met[k].q_to);
                bool known = false;
                for (size_t m = 0; m < kept && !known; m++)
                    known = near_place(p, np, p_places[m], a, reach) && near_place(q, nq, q_places[m], b, reach);
                if (known) continue;
                n++;
                if (kept == capacity) continue;
                size_t m = kept++;
                for (; m > 0 && p_places[m - 1] > a; m--) {
                    p_places[m] = p_places[m - 1];
                    q_places[m] = q_places[m - 1];
                }
                p_places[m] = a;
                q_places[m] = b;
            }
        }
    }
    *found = n;
    return n <= capacity || !p_places ? TAILOR_OK : TAILOR_TOO_SMALL;
}

/** Is a meeting of cubics i and j (i < j) only their common joint? */
static bool only_joint(const tailor_in_meeting *m, bool follows, bool closes)
{
    const double end = 1e-9; /* a joint may be found a rounding error beside itself */
    return (follows && m->p_to >= 1 - end && m->q_from <= end) || (closes && m->p_from <= end && m->q_to >= 1 - end);
}

/** Does a cubic whose control points lie on one line run back over itself? */
static bool runs_back(const tailor_cubic *c, double tolerance, double at[2])
{
    const tailor_in_box box = tailor_in_hull_box(c);
    const tailor_point far = {box.x1 - box.x0, box.y1 - box.y0};
    const double size = tailor_in_norm(far);
    if (size <= tolerance) return false;
    /* a glance: a handle well off the chord is no line */
    if (fabs(tailor_in_cross(tailor_in_sub(c->p[3], c->p[0]), tailor_in_sub(c->p[1], c->p[0]))) > 8 * tolerance * size)
        return false;
    double stray = 0;
    tailor_point u = {0, 0};
    double longest = 0;
    for (int k = 1; k < 4; k++) {
        const tailor_point v = tailor_in_sub(c->p[k], c->p[0]);
        if (tailor_in_norm(v) > longest) {
            longest = tailor_in_norm(v);
            u = tailor_in_scale(v, 1 / longest);
        }
    }
    double along[4];
    for (int k = 0; k < 4; k++) {
        const tailor_point v = tailor_in_sub(c->p[k], c->p[0]);
        stray = tailor_in_max(stray, fabs(tailor_in_cross(u, v)));
        along[k] = tailor_in_dot(u, v);
    }
    if (stray > tolerance) return false;
    double turns[2];
    const int n = tailor_in_turning_points(along, turns);
    for (int k = 0; k < n; k++) {
        const double top = tailor_in_value_at(along, turns[k]);
        const double before = k ? tailor_in_value_at(along, turns[0]) : along[0];
        const double after = k + 1 < n ? tailor_in_value_at(along, turns[1]) : along[3];
        if (fabs(top - before) > tolerance && fabs(top - after) > tolerance) {
            at[0] = at[1] = turns[k];
            return true;
        }
    }
    return false;
}

static bool too_small(const tailor_in_box *box, double tolerance)
{
    return box->x1 - box->x0 <= tolerance && box->y1 - box->y0 <= tolerance;
}

tailor_status tailor_path_crosses_itself(const tailor_cubic *path, size_t count, double tolerance, int *crosses,
                                         double places[2])
{
    if (!usable(path, count, tolerance) || !crosses) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    tolerance = tailor_in_tolerance(tolerance, path, count);
    const bool closed = tailor_in_distance(path[0].p[0], path[count - 1].p[3]) <= tolerance;
    for (size_t i = 0; i < count; i++) {
        double at[2];
        bool found = tailor_in_cubic_loop(&path[i], at) && !(count == 1 && at[0] < 1e-9 && at[1] > 1 - 1e-9);
        if (found) { /* a loop that is smaller than the tolerance does not count */
            const tailor_cubic loop = tailor_cubic_part(&path[i], at[0], at[1]);
            found = tailor_in_size(&loop) > tolerance;
        }
        if (found || runs_back(&path[i], tolerance, at)) {
            *crosses = 1;
            if (places) places[0] = (double)i + at[0], places[1] = (double)i + at[1];
            return TAILOR_OK;
        }
    }
    tailor_in_box boxes[TAILOR_IN_RUNS];
    const size_t run = tailor_in_run_boxes(path, count, boxes);
    /* A cubic smaller than the tolerance is a point of the path: its neighbours follow one another. */
    size_t first = 0, last = count - 1;
    while (first < last && tailor_in_size(&path[first]) <= tolerance) first++;
    while (last > first && tailor_in_size(&path[last]) <= tolerance) last--;
    for (size_t i = first; i < last; i++) {
        const tailor_in_box box = run == 1 ? boxes[i] : tailor_in_hull_box(&path[i]);
        if (too_small(&box, tolerance)) continue;
        bool next = true; /* nothing but points so far behind cubic i */
        for (size_t j = i + 1; j <= last; j++) {
            if (run > 1 && j % run == 0 && tailor_in_boxes_apart(&box, &boxes[j / run], tolerance)) {
                next = false; /* what follows i touches it, and would not be so far away */
                j += run - 1;
                continue;
            }
            const tailor_in_box other = run == 1 ? boxes[j] : tailor_in_hull_box(&path[j]);
            if (too_small(&other, tolerance)) continue;
            const bool follows = next, closes = closed && i == first && j == last;
            next = false;
            if (tailor_in_boxes_apart(&box, &other, tolerance)) continue;
            if ((follows && tailor_in_run_on(&path[i], &path[j])) || (closes && tailor_in_run_on(&path[j], &path[i])))
                continue;
            tailor_in_meeting met[TAILOR_IN_MOST_MEETINGS];
            int n;
            const tailor_status status = tailor_in_cubics_meet(&path[i], &path[j], tolerance, met, &n);
            if (status == TAILOR_NOT_CONVERGED) return status;
            for (int k = 0; k < n; k++) {
                if (status == TAILOR_OK && only_joint(&met[k], follows, closes)) continue;
                *crosses = 1;
                if (places) {
                    places[0] = (double)i + 0.5 * (met[k].p_from + met[k].p_to);
                    places[1] = (double)j + 0.5 * (met[k].q_from + met[k].q_to);
                }
                return TAILOR_OK;
            }
        }
    }
    *crosses = 0;
    return TAILOR_OK;
}

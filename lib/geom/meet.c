/* Where two cubics meet.
 *
 * First the four ends: does one lie on the other curve? Two that do, with all between them on the curve too, are
 * a shared stretch: such pairs have no isolated crossings and must never reach the search, which would not end.
 * Then halving: pairs of pieces are dropped when their boxes, upright or along a chord, lie apart. When all
 * directions of one piece lie to one side of all directions of the other, the pieces cross at most once, and
 * Newton's method finds it. Pieces that stay within the tolerance of one another are an approach. */
#include "meet.h"

/** A piece of each curve, and its range of parameters. */
typedef struct pair {
    tailor_cubic p, q;
    double p0, p1, q0, q1;
    bool transversal; /* crosses at most once */
} pair;

enum { DEEPEST = 120, MOST_PAIRS = 4000 };

double tailor_in_tolerance(double tolerance, const tailor_cubic *path, size_t count)
{
    double largest = 0;
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++)
            largest = tailor_in_max(largest, tailor_in_max(fabs(path[i].p[k].x), fabs(path[i].p[k].y)));
    return tailor_in_max(tolerance, largest * 1e-14);
}

/** Is piece b outside the strip and ends of piece a along a's chord? Also tells how far b strays from that chord. */
static bool apart_along_chord(const tailor_cubic *a, const tailor_cubic *b, double slack, double *stray)
{
    const tailor_point chord = tailor_in_sub(a->p[3], a->p[0]);
    const double length = tailor_in_norm(chord);
    if (!(length > 0)) {
        *stray = INFINITY;
        return false;
    }
    const tailor_point u = tailor_in_scale(chord, 1 / length);
    double side[2][2] = {{0, 0}, {INFINITY, -INFINITY}}, along[2][2] = {{0, length}, {INFINITY, -INFINITY}};
    for (int k = 1; k <= 2; k++) {
        const tailor_point v = tailor_in_sub(a->p[k], a->p[0]);
        const double x = tailor_in_dot(u, v), y = tailor_in_cross(u, v);
        along[0][0] = tailor_in_min(along[0][0], x);
        along[0][1] = tailor_in_max(along[0][1], x);
        side[0][0] = tailor_in_min(side[0][0], y);
        side[0][1] = tailor_in_max(side[0][1], y);
    }
    for (int k = 0; k <= 3; k++) {
        const tailor_point v = tailor_in_sub(b->p[k], a->p[0]);
        const double x = tailor_in_dot(u, v), y = tailor_in_cross(u, v);
        along[1][0] = tailor_in_min(along[1][0], x);
        along[1][1] = tailor_in_max(along[1][1], x);
        side[1][0] = tailor_in_min(side[1][0], y);
        side[1][1] = tailor_in_max(side[1][1], y);
    }
    *stray = tailor_in_max(tailor_in_max(side[0][1], side[1][1]), -tailor_in_min(side[0][0], side[1][0]));
    return side[1][0] > side[0][1] + slack || side[1][1] < side[0][0] - slack || along[1][0] > along[0][1] + slack ||
           along[1][1] < along[0][0] - slack;
}

/** Do all directions of one piece lie strictly on one side of all directions of the other? Handles without length
 *  have no direction and do not matter. */
static bool directions_apart(const tailor_cubic *p, const tailor_cubic *q)
{
    int side = 0;
    for (int i = 0; i < 3; i++) {
        const tailor_point u = tailor_in_sub(p->p[i + 1], p->p[i]);
        if (u.x == 0 && u.y == 0) continue;
        for (int k = 0; k < 3; k++) {
            const tailor_point v = tailor_in_sub(q->p[k + 1], q->p[k]);
            if (v.x == 0 && v.y == 0) continue;
            const double turn = tailor_in_cross(u, v);
            const int here = (turn > 0) - (turn < 0);
            if (here == 0 || here == -side) return false;
            side = here;
        }
    }
    return side != 0;
}

/** Newton's method from where the chords cross. True if it ends within the pieces. */
static bool crossing_of(const tailor_cubic *p, const tailor_cubic *q, const pair *n, tailor_in_meeting *meeting)
{
    const tailor_point u = tailor_in_sub(n->p.p[3], n->p.p[0]), v = tailor_in_sub(n->q.p[3], n->q.p[0]);
    const tailor_point gap = tailor_in_sub(n->q.p[0], n->p.p[0]);
    const double turn = tailor_in_cross(u, v);
    double s = tailor_in_cross(gap, v) / turn, t = tailor_in_cross(gap, u) / turn;
    s = n->p0 + (n->p1 - n->p0) * (s > 0 ? tailor_in_min(s, 1) : 0);
    t = n->q0 + (n->q1 - n->q0) * (t > 0 ? tailor_in_min(t, 1) : 0);
    const double room_p = 0.5 * (n->p1 - n->p0), room_q = 0.5 * (n->q1 - n->q0);
    for (int i = 0; i < 12; i++) {
        const tailor_point f = tailor_in_sub(tailor_in_point(p, s), tailor_in_point(q, t));
        const tailor_point dp = tailor_in_derivative(p, s), dq = tailor_in_derivative(q, t);
        const double det = tailor_in_cross(dp, dq);
        const double ds = -tailor_in_cross(f, dq) / det, dt = -tailor_in_cross(f, dp) / det;
        s += ds;
        t += dt;
        if (!(s >= n->p0 - room_p && s <= n->p1 + room_p && t >= n->q0 - room_q && t <= n->q1 + room_q)) return false;
        if (fabs(ds) < 1e-9 && fabs(dt) < 1e-9) {
            const double slack = 1e-12;
            if (s < n->p0 - slack || s > n->p1 + slack || t < n->q0 - slack || t > n->q1 + slack) return false;
            s = tailor_in_max(0, tailor_in_min(s, 1));
            t = tailor_in_max(0, tailor_in_min(t, 1));
            *meeting = (tailor_in_meeting){s, s, t, t, TAILOR_IN_CROSSING};
            return true;
        }
    }
    return false;
}

/** Put a meeting in its order along p. False if there is no room. */
static bool add(tailor_in_meeting *list, int *count, tailor_in_meeting m)
{
    if (*count == TAILOR_IN_MOST_MEETINGS) return false;
    int i = (*count)++;
    for (; i > 0 && list[i - 1].p_from > m.p_from; i--) list[i] = list[i - 1];
    list[i] = m;
    return true;
}

/** Ends of p on q and of q on p. */
static void ends_on(const tailor_cubic *p, const tailor_cubic *q, double tolerance, tailor_in_meeting *list, int *count)
{
    const tailor_in_box boxes[2] = {tailor_in_hull_box(p), tailor_in_hull_box(q)};
    for (int which = 0; which < 2; which++)
        for (int end = 0; end < 2; end++) {
            const tailor_point from = (which ? q : p)->p[3 * end];
            if (tailor_in_box_distance2(&boxes[!which], from) > tolerance * tolerance) continue;
            double distance;
            const double on = tailor_cubic_nearest(which ? p : q, from, &distance), at = end;
            if (!(distance <= tolerance)) continue;
            add(list, count,
                which ? (tailor_in_meeting){on, on, at, at, TAILOR_IN_END}
                      : (tailor_in_meeting){at, at, on, on, TAILOR_IN_END});
        }
}

/** Does all of p between two parameters lie on q? */
static bool runs_along(const tailor_cubic *p, double from, double to, const tailor_cubic *q, double tolerance)
{
    enum { STEPS = 9 }; /* two different cubics have at most nine points in common */
    for (int i = 1; i < STEPS; i++) {
        double distance;
        /* the middle first: it tells most pairs apart */
        const double t = from + (to - from) * ((i * 4) % STEPS) / STEPS;
        tailor_cubic_nearest(q, tailor_in_point(p, t), &distance);
        if (!(distance <= tolerance)) return false;
    }
    return true;
}

/** Length of the polygon through a few points of a part: enough to tell it from nothing. */
static double rough_length(const tailor_cubic *c, double from, double to)
{
    double sum = 0;
    for (int i = 0; i < 4; i++)
        sum += tailor_in_distance(tailor_in_point(c, from + (to - from) * i / 4),
                                  tailor_in_point(c, from + (to - from) * (i + 1) / 4));
    return sum;
}

/** The widest stretch between two ends of the list that runs along both curves. */
static bool shared_stretch(const tailor_cubic *p, const tailor_cubic *q, double tolerance, tailor_in_meeting *list,
                           int count)
{
    for (int wide = count - 1; wide > 0; wide--)
        for (int i = 0; i + wide < count; i++) {
            const tailor_in_meeting a = list[i], b = list[i + wide];
            if (!(rough_length(p, a.p_from, b.p_from) > 4 * tolerance)) continue;
            if (!runs_along(p, a.p_from, b.p_from, q, tolerance)) continue;
            list[0] = (tailor_in_meeting){a.p_from, b.p_from, tailor_in_min(a.q_from, b.q_from),
                                          tailor_in_max(a.q_from, b.q_from), TAILOR_IN_APPROACH};
            return true;
        }
    return false;
}

/** Are two neighbours in the list one meeting? Crossings are told twice when they lie where pieces were cut;
 *  anything else is one with its neighbour if the curves stay together between them. */
static bool one_meeting(const tailor_cubic *p, const tailor_cubic *q, double tolerance, const tailor_in_meeting *a,
                        const tailor_in_meeting *b)
{
    if (a->kind == TAILOR_IN_CROSSING && b->kind == TAILOR_IN_CROSSING)
        return b->p_from - a->p_to < 1e-8 && fabs(b->q_from - a->q_to) < 1e-8;
    const double gap_q = tailor_in_max(b->q_from - a->q_to, a->q_from - b->q_to);
    if (b->p_from <= a->p_to + 1e-12 && gap_q <= 1e-12) return true;
    double distance;
    const double middle = 0.5 * (a->p_to + b->p_from);
    const double on = tailor_cubic_nearest(q, tailor_in_point(p, middle), &distance);
    const double low = tailor_in_min(a->q_from, b->q_from) - 1e-9, high = tailor_in_max(a->q_to, b->q_to) + 1e-9;
    return distance <= tolerance && on >= low && on <= high && runs_along(p, a->p_to, b->p_from, q, tolerance);
}

/** Of two tellings of one meeting, does the second stand for both? A crossing is surer than an end, an end than
 *  an approach; but a crossing in an end, to the tolerance, is that end. */
static bool stands_for_both(const tailor_cubic *p, double tolerance, const tailor_in_meeting *a,
                            const tailor_in_meeting *b)
{
    const bool end_and_crossing = a->kind != b->kind && a->kind != TAILOR_IN_APPROACH && b->kind != TAILOR_IN_APPROACH;
    if (end_and_crossing &&
        tailor_in_distance(tailor_in_point(p, a->p_from), tailor_in_point(p, b->p_from)) <= tolerance)
        return b->kind == TAILOR_IN_END;
    return b->kind > a->kind;
}

static void merge(const tailor_cubic *p, const tailor_cubic *q, double tolerance, tailor_in_meeting *list, int *count)
{
    int kept = 0;
    for (int i = 1; i < *count; i++) {
        tailor_in_meeting *a = &list[kept], b = list[i];
        if (!one_meeting(p, q, tolerance, a, &b)) {
            list[++kept] = b;
            continue;
        }
        if (a->kind == TAILOR_IN_APPROACH && b.kind == TAILOR_IN_APPROACH) {
            a->p_to = tailor_in_max(a->p_to, b.p_to);
            a->q_from = tailor_in_min(a->q_from, b.q_from);
            a->q_to = tailor_in_max(a->q_to, b.q_to);
        } else if (stands_for_both(p, tolerance, a, &b))
            *a = b;
    }
    if (*count) *count = kept + 1;
}

/** Bring each approach to where the curves are nearest, and drop it if that is farther than the tolerance. */
static void settle_approaches(const tailor_cubic *p, const tailor_cubic *q, double tolerance, tailor_in_meeting *list,
                              int *count)
{
    int kept = 0;
    for (int i = 0; i < *count; i++) {
        tailor_in_meeting m = list[i];
        if (m.kind == TAILOR_IN_APPROACH) {
            const tailor_cubic part_p = tailor_cubic_part(p, m.p_from, m.p_to),
                               part_q = tailor_cubic_part(q, m.q_from, m.q_to);
            double s = 0.5, t = 0.5, distance = INFINITY;
            for (int step = 0; step < 8 && !(distance <= 0.1 * tolerance); step++) {
                t = tailor_cubic_nearest(&part_q, tailor_in_point(&part_p, s), NULL);
                s = tailor_cubic_nearest(&part_p, tailor_in_point(&part_q, t), &distance);
            }
            if (!(distance <= tolerance)) continue;
            m.p_from = m.p_to = m.p_from + (m.p_to - m.p_from) * s;
            m.q_from = m.q_to = m.q_from + (m.q_to - m.q_from) * t;
        }
        list[kept++] = m;
    }
    *count = kept;
}

tailor_status tailor_in_cubics_meet(const tailor_cubic *p, const tailor_cubic *q, double tolerance,
                                    tailor_in_meeting list[TAILOR_IN_MOST_MEETINGS], int *count)
{
    *count = 0;
    const tailor_in_box whole_p = tailor_in_hull_box(p), whole_q = tailor_in_hull_box(q);
    if (tailor_in_boxes_apart(&whole_p, &whole_q, tolerance)) return TAILOR_OK;
    ends_on(p, q, tolerance, list, count);
    if (shared_stretch(p, q, tolerance, list, *count)) {
        *count = 1;
        return TAILOR_OVERLAP;
    }
    pair todo[DEEPEST];
    int top = -1;
    if (tailor_in_size(p) > tolerance && tailor_in_size(q) > tolerance) todo[++top] = (pair){*p, *q, 0, 1, 0, 1, false};
    for (int done = 0; top >= 0; done++) {
        if (done == MOST_PAIRS) return TAILOR_NOT_CONVERGED;
        pair n = todo[top--];
        double slack = n.transversal ? 0 : tolerance;
        const tailor_in_box bp = tailor_in_hull_box(&n.p), bq = tailor_in_hull_box(&n.q);
        if (tailor_in_boxes_apart(&bp, &bq, slack)) continue;
        tailor_in_meeting met;
        if (n.transversal || directions_apart(&n.p, &n.q)) {
            n.transversal = true;
            slack = 0;
            if (crossing_of(p, q, &n, &met)) {
                if (!add(list, count, met)) return TAILOR_NOT_CONVERGED;
                continue;
            }
        }
        double stray_p, stray_q;
        if (apart_along_chord(&n.p, &n.q, slack, &stray_p) || apart_along_chord(&n.q, &n.p, slack, &stray_q)) continue;
        const double size_p = tailor_in_max(bp.x1 - bp.x0, bp.y1 - bp.y0),
                     size_q = tailor_in_max(bq.x1 - bq.x0, bq.y1 - bq.y0);
        const bool small = size_p <= tolerance && size_q <= tolerance;
        if (small || (!n.transversal && (stray_p <= tolerance || stray_q <= tolerance))) {
            met = (tailor_in_meeting){n.p0, n.p1, n.q0, n.q1, TAILOR_IN_APPROACH};
            if (!add(list, count, met)) return TAILOR_NOT_CONVERGED;
            continue;
        }
        if (top + 2 >= DEEPEST) return TAILOR_NOT_CONVERGED;
        pair *first = &todo[top + 2], *second = &todo[top + 1];
        top += 2;
        *first = *second = n;
        if (size_p >= size_q) {
            tailor_cubic_split(&n.p, 0.5, &first->p, &second->p);
            first->p1 = second->p0 = 0.5 * (n.p0 + n.p1);
        } else {
            tailor_cubic_split(&n.q, 0.5, &first->q, &second->q);
            first->q1 = second->q0 = 0.5 * (n.q0 + n.q1);
        }
    }
    merge(p, q, tolerance, list, count);
    settle_approaches(p, q, tolerance, list, count);
    return TAILOR_OK;
}

bool tailor_in_run_on(const tailor_cubic *a, const tailor_cubic *b)
{
    const tailor_point whole = tailor_in_sub(b->p[3], a->p[0]);
    for (int k = 0; k < 6; k++) {
        const tailor_point *p = k < 3 ? &a->p[k] : &b->p[k - 3];
        const tailor_point handle = tailor_in_sub(p[1], p[0]);
        if (!(tailor_in_dot(whole, handle) > 0) && !(handle.x == 0 && handle.y == 0)) return false;
    }
    return true;
}

bool tailor_in_cubic_loop(const tailor_cubic *c, double at[2])
{
    /* c(s) = c(t), divided by s - t; u = s + t, v = st:  a (u^2 - v) + b u + d = 0 in powers a t^3 + b t^2 + d t */
    const tailor_point a = tailor_in_scale(tailor_in_third(c), 1.0 / 6);
    const tailor_point b = tailor_in_scale(tailor_in_second(c, 0), 0.5), d = tailor_in_derivative(c, 0);
    const double turn = tailor_in_cross(a, b), aa = tailor_in_dot(a, a);
    if (turn == 0 || aa == 0) return false;
    const double u = -tailor_in_cross(a, d) / turn;
    const double v = u * u + (tailor_in_dot(a, b) * u + tailor_in_dot(a, d)) / aa;
    const double disc = u * u - 4 * v;
    if (!(disc > 0)) return false;
    at[0] = 0.5 * (u - sqrt(disc));
    at[1] = 0.5 * (u + sqrt(disc));
    return at[0] >= 0 && at[1] <= 1;
}

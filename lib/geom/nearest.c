/* The nearest point of a curve, over all of it.
 *
 * Where the distance is least inside the curve, (c - p).c' rises through 0. That is a polynomial of degree 5;
 * its Bernstein coefficients bound it, so a stretch whose coefficients keep one sign holds no such place, and
 * one whose coefficients change sign once, from - to +, holds exactly one. Others are halved. */
#include "kernel.h"

typedef struct stretch {
    double t0, t1, f[6];
} stretch;

/** Bernstein coefficients of (c - p).c' / 3. */
static void foot_polynomial(const tailor_cubic *c, tailor_point p, double f[6])
{
    tailor_point q[4], e[3];
    for (int i = 0; i < 4; i++) q[i] = tailor_in_sub(c->p[i], p);
    for (int i = 0; i < 3; i++) e[i] = tailor_in_sub(c->p[i + 1], c->p[i]);
    f[0] = tailor_in_dot(q[0], e[0]);
    f[1] = (2 * tailor_in_dot(q[0], e[1]) + 3 * tailor_in_dot(q[1], e[0])) / 5;
    f[2] = (tailor_in_dot(q[0], e[2]) + 6 * tailor_in_dot(q[1], e[1]) + 3 * tailor_in_dot(q[2], e[0])) / 10;
    f[3] = (3 * tailor_in_dot(q[1], e[2]) + 6 * tailor_in_dot(q[2], e[1]) + tailor_in_dot(q[3], e[0])) / 10;
    f[4] = (3 * tailor_in_dot(q[2], e[2]) + 2 * tailor_in_dot(q[3], e[1])) / 5;
    f[5] = tailor_in_dot(q[3], e[2]);
}

/** How often the coefficients change sign, zeros left out; *last is the sign they end with. */
static int sign_changes(const double f[6], double *last)
{
    int changes = 0;
    *last = 0;
    for (int i = 0; i < 6; i++) {
        if (f[i] == 0) continue;
        changes += *last != 0 && (f[i] > 0) != (*last > 0);
        *last = f[i];
    }
    return changes;
}

static void halve(const stretch *whole, stretch *first, stretch *second)
{
    double f[6];
    for (int i = 0; i < 6; i++) f[i] = whole->f[i];
    for (int i = 0; i < 6; i++) {
        first->f[i] = f[0];
        second->f[5 - i] = f[5 - i];
        for (int k = 0; k < 5 - i; k++) f[k] = 0.5 * (f[k] + f[k + 1]);
    }
    first->t0 = whole->t0;
    first->t1 = second->t0 = 0.5 * (whole->t0 + whole->t1);
    second->t1 = whole->t1;
}

/** The foot in a stretch where (c - p).c' rises through 0 once. */
static double foot(const tailor_cubic *c, tailor_point p, const stretch *s)
{
    double low = s->t0, high = s->t1;
    /* by the secant, but never next to an end: there may be nothing but rounding there to tell the side of the foot */
    const double share = s->f[0] < 0 && s->f[5] > 0 ? s->f[0] / (s->f[0] - s->f[5]) : 0.5;
    double t = low + (high - low) * tailor_in_max(0.05, tailor_in_min(share, 0.95));
    for (int i = 0; i < 60; i++) {
        const tailor_point q = tailor_in_sub(tailor_cubic_point(c, t), p), d = tailor_cubic_derivative(c, t);
        const double value = tailor_in_dot(q, d),
                     slope = tailor_in_dot(d, d) + tailor_in_dot(q, tailor_in_second(c, t));
        if (value == 0) break;
        if (value > 0)
            high = t;
        else
            low = t;
        double next = t - value / slope;
        if (!(next > low && next < high)) next = 0.5 * (low + high);
        const double moved = fabs(next - t);
        t = next;
        if (moved <= 1e-9) break; /* quadratic: the next step would be below rounding */
    }
    return t;
}

enum { DEEPEST = 46, MOST_STRETCHES = 400 };

/** The nearest so far. */
typedef struct best {
    double t, distance2;
} best;

static void consider(best *b, const tailor_cubic *c, tailor_point p, double t)
{
    const tailor_point q = tailor_in_sub(t == 0 ? c->p[0] : t == 1 ? c->p[3] : tailor_cubic_point(c, t), p);
    const double distance2 = tailor_in_dot(q, q);
    if (distance2 < b->distance2) *b = (best){t, distance2};
}

/** Improve on *best2, the least squared distance so far. Returns the parameter, or -1 if there is nothing nearer. */
static double nearest_than(const tailor_cubic *c, tailor_point p, double *best2)
{
    best b = {-1, *best2};
    consider(&b, c, p, 0);
    consider(&b, c, p, 1);
    stretch todo[DEEPEST + 2];
    int top = 0;
    todo[0].t0 = 0;
    todo[0].t1 = 1;
    foot_polynomial(c, p, todo[0].f);
    for (int done = 0; top >= 0 && done < MOST_STRETCHES; done++) {
        const stretch s = todo[top--];
        double last;
        const int changes = sign_changes(s.f, &last);
        if (changes == 0 || (changes == 1 && last < 0)) continue; /* none, or the farthest point */
        if (changes == 1) {
            consider(&b, c, p, foot(c, p, &s));
            continue;
        }
        const double middle = 0.5 * (s.t0 + s.t1);
        if (top + 2 > DEEPEST || s.t1 - s.t0 < 1e-13) {
            consider(&b, c, p, middle);
            continue;
        }
        halve(&s, &todo[top + 2], &todo[top + 1]);
        top += 2;
        if (todo[top].f[5] == 0) consider(&b, c, p, middle); /* a foot where the halves meet shows in neither */
    }
    /* The coefficients carry rounding that near a cusp moves their roots; the curve itself knows better. */
    for (int i = 0; i < 8 && b.t > 0 && b.t < 1; i++) {
        const tailor_point q = tailor_in_sub(tailor_cubic_point(c, b.t), p), d = tailor_cubic_derivative(c, b.t);
        const double step = -tailor_in_dot(q, d) / (tailor_in_dot(d, d) + tailor_in_dot(q, tailor_in_second(c, b.t)));
        if (!(fabs(step) > 1e-11)) break;
        const double before = b.distance2;
        consider(&b, c, p, tailor_in_max(0, tailor_in_min(b.t + step, 1)));
        if (!(b.distance2 < before)) break;
    }
    *best2 = b.distance2;
    return b.t;
}

double tailor_cubic_nearest(const tailor_cubic *c, tailor_point from, double *distance)
{
    return tailor_path_nearest(c, 1, from, distance);
}

double tailor_path_nearest(const tailor_cubic *path, size_t count, tailor_point from, double *distance)
{
    if (count == 0 || !tailor_in_finite(from) || !tailor_in_path_finite(path, count)) {
        if (distance) *distance = NAN;
        return NAN;
    }
    double place = 0, best2 = INFINITY;
    for (size_t i = 0; i < count; i++) { /* the joints first: then most cubics are out of the running by their boxes */
        const tailor_point q = tailor_in_sub(path[i].p[0], from);
        const double d2 = tailor_in_dot(q, q);
        if (d2 < best2) {
            best2 = d2;
            place = (double)i;
        }
    }
    for (size_t i = 0; i < count; i++) {
        const tailor_in_box box = tailor_in_hull_box(&path[i]);
        if (tailor_in_box_distance2(&box, from) >= best2) continue;
        const double t = nearest_than(&path[i], from, &best2);
        if (t >= 0) place = (double)i + t;
    }
    if (distance) *distance = sqrt(best2);
    return place;
}

void tailor_path_nearests(const tailor_cubic *path, size_t count, const tailor_point *from, size_t from_count,
                          double *places, double *distances)
{
    for (size_t k = 0; k < from_count; k++) {
        const double place = tailor_path_nearest(path, count, from[k], distances ? &distances[k] : NULL);
        if (places) places[k] = place;
    }
}

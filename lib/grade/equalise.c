/* Seam pairs brought back to lengths that differ as they should.
 *
 * What moves are the joints of outlines, handles with them, so that no direction changes: a cubic whose ends move by a
 * and b changes its length by b.w - a.w to first order, w the mean of its tangent weighted by 6 t (1 - t). Of all moves
 * that mend every seam the smallest is taken (least sum of squares, the normal equations of the seams by Cholesky), and
 * that repeated with the lengths as they then are: a Newton iteration whose matrix is kept while it serves. Where a
 * straight line runs on into a curve, a move across the line counts tenfold: it would turn the line, and the curve's
 * handle with it. */
#include "inside.h"

#include <string.h>

enum { ROUNDS = 24 };
static const double CLOSE = 1e-8, ACROSS = 0.1;

struct pull { /* how a seam's gap grows when a joint moves */
    int joint;
    tailor_point by;
};

struct seams {
    const tailor_grade *g;
    tailor_pattern *p;
    const double *bound;
    int count;
    int *first; /* of each seam's pulls, and their end */
    struct pull *pull;
    tailor_point *sum; /* a pull a joint: one seam spread out */
    tailor_point *off; /* how far each joint has been moved */
    double *matrix, *right;
};

/** Mean tangent of a part of a cubic, weighted by 6 t (1 - t): four points of Gauss are near enough for a direction. */
static tailor_point mean_tangent(const tailor_cubic *c, double from, double to)
{
    static const double at[4] = {0.06943184420297371, 0.33000947820757187, 0.6699905217924281, 0.9305681557970262},
                        weight[4] = {0.17392742256872692, 0.3260725774312731, 0.3260725774312731, 0.17392742256872692};
    tailor_point sum = {0, 0}, d0 = tailor_in_sub(c->p[1], c->p[0]), d1 = tailor_in_sub(c->p[2], c->p[1]),
                 d2 = tailor_in_sub(c->p[3], c->p[2]);
    for (int i = 0; i < 4; i++) {
        double t = from + (to - from) * at[i], r = 1 - t;
        tailor_point way = {r * r * d0.x + 2 * r * t * d1.x + t * t * d2.x,
                            r * r * d0.y + 2 * r * t * d1.y + t * t * d2.y};
        double speed = tailor_in_norm(way);
        if (speed > 0)
            sum = tailor_in_along(sum, way, (to - from) * weight[i] * 6 * t * r / speed);
    }
    return sum;
}

/** A move of the joint between two cubics, as far as lines that must not turn let it be: across them by a tenth. */
static tailor_point held(const struct seams *s, int last, int here, tailor_point by)
{
    const int cubic[2] = {last, here};
    for (int i = 0; i < 2; i++) {
        if (!(s->g->flags[cubic[i]] & TAILOR_IN_STIFF))
            continue;
        const tailor_cubic *line = TAILOR_IN_CUBIC(s->p, cubic[i]);
        tailor_point way = tailor_in_sub(line->p[3], line->p[0]);
        double length2 = tailor_in_dot(way, way);
        if (length2 > 0)
            by = tailor_in_mix(by, tailor_in_scale(way, tailor_in_dot(by, way) / length2), 1 - ACROSS);
    }
    return by;
}

/** Pulls of a stretch, times `sign`. */
static struct pull *add_stretch(const struct seams *s, int stretch, double sign, struct pull *to_pull)
{
    const struct tailor_in_piece *piece = TAILOR_IN_PIECE(s->p, TAILOR_IN_STRETCH(s->p, stretch)->piece);
    const struct tailor_in_edge *edge = tailor_in_edge_of_stretch(s->p, stretch);
    const double *bound = s->bound + 2 * stretch;
    double low = tailor_in_min(bound[0], bound[1]), high = tailor_in_max(bound[0], bound[1]);
    for (int i = (int)low; i < edge->cubic_count && i < high; i++) {
        int cubic = edge->first_cubic + i, k = cubic - piece->first_cubic, n = piece->cubic_count;
        int last = piece->first_cubic + (k + n - 1) % n, next = piece->first_cubic + (k + 1) % n;
        tailor_point w =
            mean_tangent(TAILOR_IN_CUBIC(s->p, cubic), tailor_in_max(low - i, 0), tailor_in_min(high - i, 1));
        *to_pull++ = (struct pull){cubic, held(s, last, cubic, tailor_in_scale(w, -sign))};
        *to_pull++ = (struct pull){next, held(s, cubic, next, tailor_in_scale(w, sign))};
    }
    return to_pull;
}

static void spread(const struct seams *s, int seam, int clear)
{
    for (const struct pull *q = s->pull + s->first[seam]; q < s->pull + s->first[seam + 1]; q++)
        s->sum[q->joint] = clear ? (tailor_point){0, 0} : tailor_in_add(s->sum[q->joint], q->by);
}

/** Normal equations of the seams, and their Cholesky factor in place. A seam that nothing can move, or that repeats
 * others, gets a pivot of no weight and is left as it is. */
static void factor(const struct seams *s)
{
    int n = s->count;
    double *m = s->matrix;
    for (int i = 0; i < n; i++) {
        spread(s, i, 0);
        for (int k = 0; k <= i; k++) {
            double sum = 0;
            for (const struct pull *q = s->pull + s->first[k]; q < s->pull + s->first[k + 1]; q++)
                sum += tailor_in_dot(s->sum[q->joint], q->by);
            m[i * n + k] = sum;
        }
        spread(s, i, 1);
    }
    for (int i = 0; i < n; i++)
        for (int k = 0; k <= i; k++) {
            double sum = m[i * n + k];
            for (int j = 0; j < k; j++)
                sum -= m[i * n + j] * m[k * n + j];
            if (k < i)
                m[i * n + k] = sum / m[k * n + k];
            else
                m[i * n + i] = sum > 1e-9 ? sqrt(sum) : 1e30;
        }
}

static void solve(const struct seams *s)
{
    int n = s->count;
    const double *m = s->matrix;
    double *x = s->right;
    for (int i = 0; i < n; i++) {
        for (int k = 0; k < i; k++)
            x[i] -= m[i * n + k] * x[k];
        x[i] /= m[i * n + i];
    }
    for (int i = n - 1; i >= 0; i--) {
        for (int k = i + 1; k < n; k++)
            x[i] -= m[k * n + i] * x[k];
        x[i] /= m[i * n + i];
    }
}

void tailor_in_smooth_joint(tailor_cubic *before, int flags_before, tailor_cubic *after, int flags_after)
{
    int line_before = flags_before & TAILOR_IN_STRAIGHT, line_after = flags_after & TAILOR_IN_STRAIGHT;
    tailor_point in = tailor_in_sub(before->p[3], before->p[2]), out = tailor_in_sub(after->p[1], after->p[0]);
    double a = tailor_in_norm(in), b = tailor_in_norm(out);
    if (!(a > 0 && b > 0) || (line_before && line_after))
        return;
    tailor_point way =
        tailor_in_add(tailor_in_scale(in, line_after ? 0 : 1 / a), tailor_in_scale(out, line_before ? 0 : 1 / b));
    double length = tailor_in_norm(way);
    if (!(length > 0))
        return;
    way = tailor_in_scale(way, 1 / length);
    if (!line_before)
        before->p[2] = tailor_in_along(before->p[3], way, -a);
    if (!line_after)
        after->p[1] = tailor_in_along(after->p[0], way, b);
}

/** Move the joints by what the solution says, the handles with them; straight lines are drawn anew. */
static void move_joints(const struct seams *s)
{
    tailor_pattern *p = s->p;
    tailor_cubic *c = TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS);
    for (int i = 0; i < s->count; i++)
        for (const struct pull *q = s->pull + s->first[i]; q < s->pull + s->first[i + 1]; q++)
            s->sum[q->joint] = tailor_in_along(s->sum[q->joint], q->by, -s->right[i]);
    for (int i = 0; i < p->count[TAILOR_IN_PIECES]; i++) {
        const struct tailor_in_piece *piece = TAILOR_IN_PIECE(p, i);
        for (int k = 0; k < piece->cubic_count; k++) {
            int here = piece->first_cubic + k,
                before = piece->first_cubic + (k + piece->cubic_count - 1) % piece->cubic_count;
            if (s->sum[here].x == 0 && s->sum[here].y == 0)
                continue;
            tailor_point by = held(s, before, here, s->sum[here]);
            c[here].p[0] = c[before].p[3] = tailor_in_add(c[here].p[0], by);
            c[here].p[1] = tailor_in_add(c[here].p[1], by);
            c[before].p[2] = tailor_in_add(c[before].p[2], by);
            s->off[here] = tailor_in_add(s->off[here], by);
        }
        for (int k = piece->first_cubic; k < piece->first_cubic + piece->cubic_count; k++) /* straight ones anew */
            if (s->g->flags[k] & TAILOR_IN_STRAIGHT) {
                c[k].p[1] = tailor_in_mix(c[k].p[0], c[k].p[3], 1 / 3.0);
                c[k].p[2] = tailor_in_mix(c[k].p[0], c[k].p[3], 2 / 3.0);
            }
        for (int k = 0; k < piece->cubic_count; k++) {
            int here = piece->first_cubic + k,
                last = piece->first_cubic + (k + piece->cubic_count - 1) % piece->cubic_count;
            if ((s->g->flags[here] & TAILOR_IN_SMOOTH) &&
                ((s->g->flags[here] ^ s->g->flags[last]) & TAILOR_IN_STRAIGHT))
                tailor_in_smooth_joint(&c[last], s->g->flags[last], &c[here], s->g->flags[here]);
        }
    }
    memset(s->sum, 0, (size_t)p->count[TAILOR_IN_CUBICS] * sizeof *s->sum);
}

/** What lies on the outline goes with it. */
static tailor_point moved_along(const struct seams *s, const struct tailor_in_piece *piece, double place)
{
    double t;
    int i = (int)tailor_in_place_split((size_t)piece->cubic_count, place, &t), cubic = piece->first_cubic + i;
    tailor_point a = s->off[cubic], b = s->off[piece->first_cubic + (i + 1) % piece->cubic_count];
    double share = s->g->flags[cubic] & TAILOR_IN_STRAIGHT ? t : t * t * (3 - 2 * t);
    return tailor_in_add(a, tailor_in_scale(tailor_in_sub(b, a), share));
}

static void take_along(const struct seams *s)
{
    tailor_pattern *p = s->p;
    tailor_cubic *c = TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS);
    struct tailor_in_named_point *points = TAILOR_IN_AT(p, struct tailor_in_named_point, TAILOR_IN_POINTS);
    for (int i = 0; i < p->count[TAILOR_IN_PIECES]; i++) {
        const struct tailor_in_piece *piece = TAILOR_IN_PIECE(p, i);
        for (int k = piece->first_point; k < piece->first_point + piece->point_count; k++)
            if (s->g->point_place[k] >= 0)
                points[k].at = tailor_in_add(points[k].at, moved_along(s, piece, s->g->point_place[k]));
        for (int k = piece->first_mark; k < piece->first_mark + piece->mark_count; k++) {
            const struct tailor_in_mark *mark = TAILOR_IN_MARK(p, k);
            for (int m = mark->first_cubic; m < mark->first_cubic + mark->cubic_count; m++)
                for (int corner = 0; corner < 4; corner++)
                    if (s->g->place[4 * m + corner] >= 0)
                        c[m].p[corner] =
                            tailor_in_add(c[m].p[corner], moved_along(s, piece, s->g->place[4 * m + corner]));
        }
    }
}

/** How far each seam is off; returns the one that is off most. */
static int look(const struct seams *s, const double *gap, double *worst)
{
    int at = -1;
    *worst = 0;
    for (int i = 0; i < s->count; i++) {
        s->right[i] = tailor_in_gap_of(s->p, i, s->bound) - gap[i];
        if (!(fabs(s->right[i]) <= *worst)) {
            *worst = fabs(s->right[i]);
            at = i;
        }
    }
    return at;
}

static void gather(struct seams *s)
{
    struct pull *to = s->pull;
    for (int i = 0; i < s->count; i++) {
        const struct tailor_in_seam *seam = TAILOR_IN_SEAM(s->p, i);
        s->first[i] = (int)(to - s->pull);
        for (int side = 0; side < 2; side++)
            for (int k = seam->first[side]; k < seam->first[side] + seam->count[side]; k++)
                to = add_stretch(s, k, side ? -1 : 1, to);
    }
    s->first[s->count] = (int)(to - s->pull);
}

int tailor_in_equalise(const tailor_grade *g, tailor_pattern *p, const double *bound, const double *gap,
                       tailor_allocator memory)
{
    size_t n = (size_t)p->count[TAILOR_IN_SEAMS], cubics = (size_t)p->count[TAILOR_IN_CUBICS], pulls = 0;
    for (int i = 0; i < p->count[TAILOR_IN_STRETCHES]; i++)
        pulls += 2 * (size_t)tailor_in_edge_of_stretch(p, i)->cubic_count;
    if (!n)
        return -1;
    size_t bytes = 2 * cubics * sizeof(tailor_point) + (n * n + n) * sizeof(double) + pulls * sizeof(struct pull) +
                   (n + 1) * sizeof(int);
    tailor_point *block = memory.allocate(memory.user, bytes);
    if (!block)
        return -2;
    struct seams s = {g, p, bound, (int)n, NULL, NULL, block, block + cubics, NULL, NULL};
    s.matrix = (double *)(void *)(s.off + cubics);
    s.right = s.matrix + n * n;
    s.pull = (struct pull *)(void *)(s.right + n);
    s.first = (int *)(void *)(s.pull + pulls);
    memset(block, 0, 2 * cubics * sizeof(tailor_point));
    double worst, before = INFINITY;
    int at = look(&s, gap, &worst), moved = 0;
    for (int round = 0; round < ROUNDS && worst > CLOSE && isfinite(worst); round++) {
        if (!moved || worst > 0.2 * before) { /* the matrix is kept while it serves */
            gather(&s);
            factor(&s);
        }
        moved = 1;
        before = worst;
        solve(&s);
        move_joints(&s);
        at = look(&s, gap, &worst);
    }
    if (moved)
        take_along(&s);
    memory.release(memory.user, block);
    return worst <= 1e-6 ? -1 : at;
}

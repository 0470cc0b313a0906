/* Carrying moves from a few points to everything: along the outline, then inside it. */
#include "inside.h"

#include "monotone.h"

static const double CORNER = 0.05; /* sine of the turn, some 3 deg, from which a joint counts as a corner */

#define MOVE(g, axis, cubic)                                                                                           \
    ((g)->move + ((size_t)(axis) * (size_t)(g)->base->count[TAILOR_IN_CUBICS] + (size_t)(cubic)) * 4)

/** Slope (before and after) of the move at a control: across a corner each side has its own, else one for both. A side
 * that is a straight line hands its own on, so that the line stays straight and the curve stays tangent to it. */
static void slopes_at(double h0, tailor_point m0, int straight0, double h1, tailor_point m1, int straight1, int corner,
                      tailor_point *before, tailor_point *after)
{
    *before = m0;
    *after = m1;
    if (corner || (straight0 && straight1))
        return;
    if (straight0)
        *after = m0;
    else if (straight1)
        *before = m1;
    else {
        before->x = tailor_in_slope_inner(h0, m0.x, h1, m1.x);
        before->y = tailor_in_slope_inner(h0, m0.y, h1, m1.y);
        *after = *before;
    }
}

/** Move and its slope at the share t of a stretch between two controls. */
static void between(double h, tailor_point u0, tailor_point d0, tailor_point u1, tailor_point d1, double t,
                    tailor_point *move, tailor_point *slope)
{
    double s = 1 - t, rise = 6 * t * s / h, a = s * (1 - 3 * t), b = t * (3 * t - 2);
    move->x = tailor_in_hermite_value(h, u0.x, d0.x, u1.x, d1.x, t);
    move->y = tailor_in_hermite_value(h, u0.y, d0.y, u1.y, d1.y, t);
    slope->x = rise * (u1.x - u0.x) + a * d0.x + b * d1.x;
    slope->y = rise * (u1.y - u0.y) + a * d0.y + b * d1.y;
}

struct run { /* an outline on its way round */
    const tailor_cubic *c;
    const unsigned char *flags;
    const double *at; /* length from the start to each joint, and the whole */
    int n;
};

static int is_corner(const struct run *r, int joint)
{
    tailor_point before = tailor_cubic_direction(&r->c[(joint + r->n - 1) % r->n], 1),
                 after = tailor_cubic_direction(&r->c[joint], 0);
    return fabs(tailor_in_cross(before, after)) > CORNER || tailor_in_dot(before, after) < 0;
}

static int straight(const struct run *r, int cubic) { return r->flags[(cubic + r->n) % r->n] & TAILOR_IN_STRAIGHT; }

/** Moves at the joints of the stretch from control `i` to the next, `u` before and `d` slopes: u[2 j] on leaving joint
 * j, d[2 j] its slope there, d[2 j + 1] the slope on arriving at it. */
static void carry_stretch(const struct run *r, const struct tailor_in_control *control, int count, int i, int axis,
                          tailor_point *u, tailor_point *d)
{
    const struct tailor_in_control *c[4];
    double h[3];
    tailor_point m[3], before, after, unused;
    for (int k = 0; k < 4; k++)
        c[k] = &control[(i + k - 1 + count) % count];
    for (int k = 0; k < 3; k++) {
        h[k] = r->at[c[k + 1]->joint] - r->at[c[k]->joint];
        if (h[k] <= 0)
            h[k] += r->at[r->n];
        m[k] = tailor_in_scale(tailor_in_sub(c[k + 1]->move[axis], c[k]->move[axis]), 1 / h[k]);
    }
    int from = c[1]->joint, to = c[2]->joint;
    slopes_at(h[0], m[0], straight(r, from - 1), h[1], m[1], straight(r, from), is_corner(r, from), &unused, &after);
    slopes_at(h[1], m[1], straight(r, to - 1), h[2], m[2], straight(r, to), is_corner(r, to), &before, &unused);
    u[from] = c[1]->move[axis];
    d[2 * from] = after;
    d[2 * to + 1] = before;
    for (int joint = (from + 1) % r->n; joint != to; joint = (joint + 1) % r->n) {
        double along = r->at[joint] - r->at[from];
        if (along < 0)
            along += r->at[r->n];
        between(h[1], c[1]->move[axis], after, c[2]->move[axis], before, along / h[1], &u[joint], &d[2 * joint]);
        d[2 * joint + 1] = d[2 * joint];
    }
}

/** Where a curve runs on from a straight line, its handle turns as the line does. */
static void follow_lines(const struct run *r, const tailor_point *u, tailor_point *d)
{
    for (int joint = 0; joint < r->n; joint++) {
        int before = (joint + r->n - 1) % r->n, line_before = straight(r, before), line_after = straight(r, joint);
        if (is_corner(r, joint) || !line_before == !line_after)
            continue;
        int line = line_before ? before : joint;
        double length = r->at[line + 1] - r->at[line];
        tailor_point slope = tailor_in_scale(tailor_in_sub(u[(line + 1) % r->n], u[line]), length > 0 ? 1 / length : 0);
        d[2 * joint + (line_before ? 0 : 1)] = slope;
    }
}

void tailor_in_carry_outline(tailor_grade *g, int index, const struct tailor_in_control *control, int count, double *at,
                             tailor_point *scratch)
{
    const struct tailor_in_piece *piece = TAILOR_IN_PIECE(g->base, index);
    int n = piece->cubic_count, first = piece->first_cubic;
    struct run r = {TAILOR_IN_CUBIC(g->base, first), g->flags + first, at, n};
    tailor_point *u = scratch, *d = scratch + n;
    at[0] = 0;
    for (int i = 0; i < n; i++)
        at[i + 1] = at[i] + tailor_cubic_length(&r.c[i]);
    for (int axis = 0; axis < g->axes && count; axis++) {
        for (int i = 0; i < n && count == 1; i++) {
            u[i] = control->move[axis];
            d[2 * i] = d[2 * i + 1] = (tailor_point){0, 0};
        }
        for (int i = 0; i < count && count > 1; i++)
            carry_stretch(&r, control, count, i, axis, u, d);
        follow_lines(&r, u, d);
        for (int i = 0; i < n; i++) {
            tailor_point *move = MOVE(g, axis, first + i), start = u[i], end = u[(i + 1) % n];
            const tailor_point *p = r.c[i].p;
            move[0] = start;
            move[3] = end;
            if (straight(&r, i)) {
                move[1] = tailor_in_mix(start, end, 1 / 3.0);
                move[2] = tailor_in_mix(start, end, 2 / 3.0);
            } else {
                move[1] = tailor_in_along(start, d[2 * i], tailor_in_distance(p[0], p[1]));
                move[2] = tailor_in_along(end, d[2 * ((i + 1) % n) + 1], -tailor_in_distance(p[2], p[3]));
            }
        }
    }
}

/* ---- inside: mean value coordinates (Floater 2003; Hormann and Floater 2006, for any polygon and any place) over the
 *      polygon of the outline's joints and middles. They give affine moves exactly. */

struct ring {
    tailor_point *v;
    double *weight;
    int n; /* corners: two for each cubic */
};

static void weights_of(const struct ring *ring, tailor_point x)
{
    int n = ring->n;
    double sum = 0;
    for (int i = 0; i < n; i++)
        ring->weight[i] = 0;
    for (int i = 0; i < n; i++) {
        int j = (i + 1) % n;
        tailor_point a = tailor_in_sub(ring->v[i], x), b = tailor_in_sub(ring->v[j], x);
        double ra = tailor_in_norm(a), rb = tailor_in_norm(b), lies = ra * rb + tailor_in_dot(a, b);
        if (ra <= 1e-9 || lies <= 1e-12 * ra * rb) { /* at a corner, or on a side: only its ends count */
            for (int k = 0; k < n; k++)
                ring->weight[k] = 0;
            ring->weight[i] = ra <= 1e-9 ? 1 : rb / (ra + rb);
            ring->weight[j] += ra <= 1e-9 ? 0 : ra / (ra + rb);
            return;
        }
        if (rb <= 1e-9)
            continue;                               /* the next round meets it */
        double half = tailor_in_cross(a, b) / lies; /* tangent of half the angle in which the side is seen */
        ring->weight[i] += half / ra;
        ring->weight[j] += half / rb;
    }
    for (int i = 0; i < n; i++)
        sum += ring->weight[i];
    for (int i = 0; i < n; i++)
        ring->weight[i] = sum != 0 ? ring->weight[i] / sum : 1.0 / n;
}

static tailor_point bernstein(const tailor_point p[4], double t)
{
    double s = 1 - t, b0 = s * s * s, b1 = 3 * s * s * t, b2 = 3 * s * t * t, b3 = t * t * t;
    return (tailor_point){b0 * p[0].x + b1 * p[1].x + b2 * p[2].x + b3 * p[3].x,
                          b0 * p[0].y + b1 * p[1].y + b2 * p[2].y + b3 * p[3].y};
}

/** Move of a place: on the outline that of the curve there, elsewhere by the weights, which are found when asked. */
static tailor_point moved(const tailor_grade *g, const struct tailor_in_piece *piece, const struct ring *ring,
                          double place, int axis)
{
    if (place >= 0) {
        double t;
        int i = (int)tailor_in_place_split((size_t)piece->cubic_count, place, &t);
        return bernstein(MOVE(g, axis, piece->first_cubic + i), t);
    }
    tailor_point sum = {0, 0};
    for (int i = 0; i < ring->n; i++) {
        const tailor_point *move = MOVE(g, axis, piece->first_cubic + i / 2);
        sum = tailor_in_along(sum, i % 2 ? bernstein(move, 0.5) : move[0], ring->weight[i]);
    }
    return sum;
}

static void carry_point(tailor_grade *g, const struct tailor_in_piece *piece, const struct ring *ring, int point)
{
    size_t points = (size_t)g->base->count[TAILOR_IN_POINTS];
    if (g->point_place[point] < 0)
        weights_of(ring, TAILOR_IN_POINT(g->base, point)->at);
    for (int axis = 0; axis < g->axes; axis++)
        g->point_move[(size_t)axis * points + (size_t)point] = moved(g, piece, ring, g->point_place[point], axis);
}

/** What keeps its shape goes as a whole: buttons and holes with their middle, the grain too; a notch with its foot,
 * turning as the outline does there. */
static void carry_whole(tailor_grade *g, const struct tailor_in_piece *piece, const struct ring *ring,
                        const struct tailor_in_mark *mark)
{
    const tailor_cubic *c = TAILOR_IN_CUBIC(g->base, mark->first_cubic);
    double box[4], place = mark->kind == TAILOR_MARK_NOTCH ? g->place[4 * mark->first_cubic] : -1;
    tailor_path_bounds(c, (size_t)mark->cubic_count, box);
    tailor_point middle = place >= 0 ? c->p[0] : (tailor_point){(box[0] + box[2]) / 2, (box[1] + box[3]) / 2};
    if (place < 0)
        weights_of(ring, middle);
    for (int axis = 0; axis < g->axes; axis++) {
        tailor_point whole = moved(g, piece, ring, place, axis);
        double turn = 0;
        if (place >= 0) {
            double t;
            int i = (int)tailor_in_place_split((size_t)piece->cubic_count, place, &t);
            const tailor_point *p = TAILOR_IN_CUBIC(g->base, piece->first_cubic + i)->p,
                               *u = MOVE(g, axis, piece->first_cubic + i);
            tailor_cubic moves = {{u[0], u[1], u[2], u[3]}}, shape = {{p[0], p[1], p[2], p[3]}};
            tailor_point way = tailor_cubic_derivative(&shape, t), bend = tailor_cubic_derivative(&moves, t);
            double speed2 = tailor_in_dot(way, way);
            turn = speed2 > 0 ? tailor_in_cross(way, bend) / speed2 : 0;
        }
        for (int i = 0; i < mark->cubic_count; i++)
            for (int k = 0; k < 4; k++) {
                tailor_point off = tailor_in_sub(c[i].p[k], middle);
                MOVE(g, axis, mark->first_cubic + i)
                [k] = (tailor_point){whole.x - turn * off.y, whole.y + turn * off.x};
            }
    }
}

static void carry_mark(tailor_grade *g, const struct tailor_in_piece *piece, const struct ring *ring,
                       const struct tailor_in_mark *mark)
{
    if (mark->kind >= TAILOR_MARK_NOTCH && mark->kind <= TAILOR_MARK_HOLE) {
        carry_whole(g, piece, ring, mark);
        return;
    }
    for (int i = mark->first_cubic; i < mark->first_cubic + mark->cubic_count; i++) {
        const tailor_cubic *c = TAILOR_IN_CUBIC(g->base, i);
        const double line = tailor_in_distance(c->p[0], c->p[3]) / 3;
        const int straight = fabs(tailor_in_distance(c->p[0], c->p[1]) - line) <= 1e-6 * line &&
                             fabs(tailor_in_distance(c->p[2], c->p[3]) - line) <= 1e-6 * line &&
                             fabs(tailor_in_distance(c->p[1], c->p[2]) - line) <= 1e-6 * line;
        for (int k = 0; k < 4; k += straight ? 3 : 1) {
            double place = k == 0 || k == 3 ? g->place[4 * i + k] : -1;
            if (place < 0)
                weights_of(ring, c->p[k]);
            for (int axis = 0; axis < g->axes; axis++)
                MOVE(g, axis, i)[k] = moved(g, piece, ring, place, axis);
        }
        for (int axis = 0; axis < g->axes && straight; axis++) {
            tailor_point *move = MOVE(g, axis, i);
            move[1] = tailor_in_mix(move[0], move[3], 1 / 3.0);
            move[2] = tailor_in_mix(move[0], move[3], 2 / 3.0);
        }
    }
}

tailor_status tailor_in_carry_inside(tailor_grade *g)
{
    const tailor_pattern *p = g->base;
    int most = 0, cubics = p->count[TAILOR_IN_CUBICS];
    for (int i = 0; i < p->count[TAILOR_IN_PIECES]; i++)
        most = TAILOR_IN_PIECE(p, i)->cubic_count > most ? TAILOR_IN_PIECE(p, i)->cubic_count : most;
    tailor_point *scratch = g->allocator.allocate(g->allocator.user, (size_t)most * 2 * 3 * sizeof(double));
    if (!scratch)
        return TAILOR_NO_MEMORY;
    struct ring ring = {scratch, (double *)(void *)(scratch + 2 * most), 0};
    for (int i = 0; i < p->count[TAILOR_IN_PIECES]; i++) {
        const struct tailor_in_piece *piece = TAILOR_IN_PIECE(p, i);
        ring.n = 2 * piece->cubic_count;
        for (int k = 0; k < ring.n; k++)
            ring.v[k] = bernstein(TAILOR_IN_CUBIC(p, piece->first_cubic + k / 2)->p, k % 2 ? 0.5 : 0);
        for (int k = piece->first_point; k < piece->first_point + piece->point_count; k++)
            if (!g->known[cubics + k])
                carry_point(g, piece, &ring, k);
        for (int k = piece->first_mark; k < piece->first_mark + piece->mark_count; k++)
            if (!g->known[TAILOR_IN_MARK(p, k)->first_cubic])
                carry_mark(g, piece, &ring, TAILOR_IN_MARK(p, k));
    }
    g->allocator.release(g->allocator.user, scratch);
    return TAILOR_OK;
}

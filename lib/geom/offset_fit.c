/* The parallel of one cubic, as cubics.
 *
 * A parallel keeps the directions of its curve, so a piece of it is known but for the lengths of its two handles.
 * They are found by Gauss-Newton so that the piece keeps the distance at three places, and it is then measured
 * at six others: a piece that strays is halved. Distances are taken to the foot on the curve, not at equal
 * parameters, so what is measured is the distance that a ruler would show. */
#include "offset.h"

/** A cubic in powers of t, from its start: half the arithmetic of the Bernstein form. */
typedef struct powers {
    tailor_point p0, a1, a2, a3;
} powers;

static powers powers_of(const tailor_cubic *c)
{
    const tailor_point *p = c->p;
    return (powers){
        p[0],
        {3 * (p[1].x - p[0].x), 3 * (p[1].y - p[0].y)},
        {3 * (p[0].x - 2 * p[1].x + p[2].x), 3 * (p[0].y - 2 * p[1].y + p[2].y)},
        {p[3].x - p[0].x + 3 * (p[1].x - p[2].x), p[3].y - p[0].y + 3 * (p[1].y - p[2].y)},
    };
}

static tailor_point power_point(const powers *c, double t)
{
    return (tailor_point){((c->a3.x * t + c->a2.x) * t + c->a1.x) * t + c->p0.x,
                          ((c->a3.y * t + c->a2.y) * t + c->a1.y) * t + c->p0.y};
}

static tailor_point power_slope(const powers *c, double t)
{
    return (tailor_point){(3 * c->a3.x * t + 2 * c->a2.x) * t + c->a1.x, (3 * c->a3.y * t + 2 * c->a2.y) * t + c->a1.y};
}

/** Signed distance of x to the right of the curve, at the foot near t. Newton's method, until what x lies off the
 *  normal is less than `aside` (squared): that enters the distance by its square only. */
static double distance_right(const powers *c, tailor_point x, double low, double high, double t, double aside,
                             tailor_point *normal)
{
    double speed2 = 0;
    tailor_point q = {0, 0}, d1 = {0, 0};
    for (int step = 0; step < 6; step++) {
        q = tailor_in_sub(x, power_point(c, t));
        d1 = power_slope(c, t);
        speed2 = tailor_in_dot(d1, d1);
        const double along = tailor_in_dot(q, d1);
        if (along * along <= aside * speed2) break;
        const tailor_point d2 = {6 * c->a3.x * t + 2 * c->a2.x, 6 * c->a3.y * t + 2 * c->a2.y};
        const double slope = speed2 - tailor_in_dot(q, d2), before = t;
        t = tailor_in_max(low, tailor_in_min(t + along / (slope > 0 ? slope : speed2), high));
        if (t == before) break;
    }
    if (!(speed2 > 0)) {
        *normal = (tailor_point){0, 0};
        return NAN;
    }
    *normal = tailor_in_scale(tailor_in_right(d1), 1 / sqrt(speed2));
    return tailor_in_dot(q, *normal);
}

/** An end of a piece: where it is on the curve, which way it goes, how fast the parallel runs there. */
typedef struct end {
    double t, speed;
    tailor_point way, at;
} end;

static end end_at(const tailor_cubic *c, const powers *power, double t, double d)
{
    const tailor_point d1 = power_slope(power, t);
    const double speed = tailor_in_norm(d1);
    if (t == 0 || t == 1 || !(speed > 1e-6 * tailor_in_size(c))) {
        const tailor_point way = tailor_cubic_direction(c, t);
        return (end){t, speed + d * tailor_cubic_curvature(c, t) * speed, way,
                     tailor_in_along(tailor_cubic_point(c, t), tailor_in_right(way), d)};
    }
    const tailor_point d2 = {6 * power->a3.x * t + 2 * power->a2.x, 6 * power->a3.y * t + 2 * power->a2.y};
    const tailor_point way = tailor_in_scale(d1, 1 / speed);
    return (end){t, speed + d * tailor_in_cross(d1, d2) / (speed * speed), way,
                 tailor_in_along(power_point(power, t), tailor_in_right(way), d)};
}

/** Fit one piece between two ends. False if it strays by more than the tolerance. */
static bool fit(const powers *c, double d, const end *from, const end *to, double tolerance, tailor_cubic *piece)
{
    const double chord = tailor_in_distance(from->at, to->at), range = to->t - from->t,
                 aside = 0.05 * tolerance * fabs(d);
    if (!(tailor_in_dot(from->way, to->way) > 0) || !(chord > 0)) return false;
    /* to begin with, the parallel's own speeds: the cubic of Hermite */
    double leave = from->speed * range / 3, arrive = to->speed * range / 3;
    if (!(leave > 0.05 * chord && leave < chord)) leave = chord / 3;
    if (!(arrive > 0.05 * chord && arrive < chord)) arrive = chord / 3;
    for (int round = 0; round < 3; round++) {
        static const double place[9] = {0.25, 0.5, 0.75, 0.05, 0.95, 0.13, 0.87, 0.37, 0.63};
        *piece = (tailor_cubic){
            {from->at, tailor_in_along(from->at, from->way, leave), tailor_in_along(to->at, to->way, -arrive), to->at}};
        const powers shape = powers_of(piece);
        /* normal equations for the two lengths, with a touch of damping for pieces that are straight */
        double m00 = 1e-10, m01 = 0, m11 = 1e-10, r0 = 0, r1 = 0, worst = 0;
        for (int k = 0; k < 3; k++) {
            const double s = place[k], w1 = 3 * (1 - s) * (1 - s) * s, w2 = 3 * (1 - s) * s * s;
            tailor_point normal;
            const double miss =
                distance_right(c, power_point(&shape, s), from->t, to->t, from->t + range * s, aside, &normal) - d;
            const double by_leave = w1 * tailor_in_dot(normal, from->way),
                         by_arrive = -w2 * tailor_in_dot(normal, to->way);
            m00 += by_leave * by_leave;
            m01 += by_leave * by_arrive;
            m11 += by_arrive * by_arrive;
            r0 -= by_leave * miss;
            r1 -= by_arrive * miss;
            worst = tailor_in_max(worst, fabs(miss));
            if (!(worst < INFINITY)) return false;
        }
        if (worst <= tolerance) {
            bool good = true;
            for (int k = 3; k < 9 && good; k++) {
                tailor_point normal;
                const double miss = distance_right(c, power_point(&shape, place[k]), from->t, to->t,
                                                   from->t + range * place[k], aside, &normal) -
                                    d;
                /* and how fast it grows: so that nothing hides between the places */
                good = fabs(miss) <= tolerance &&
                       0.025 * fabs(tailor_in_dot(power_slope(&shape, place[k]), normal)) <= tolerance;
            }
            if (good) return true;
        }
        /* a round of Gauss-Newton gains a factor of some thirty, but not a thousand */
        if (worst > (round == 0 ? 1000 : 8) * tolerance) return false;
        const double det = m00 * m11 - m01 * m01;
        leave += (r0 * m11 - r1 * m01) / det;
        arrive += (r1 * m00 - r0 * m01) / det;
        if (!(leave > 0 && leave < 2 * chord && arrive > 0 && arrive < 2 * chord)) return false;
    }
    return false;
}

/** The curve's cross product c' x c'' over 18, as quadratic Bernstein values; it has the curvature's sign. */
static void bend_of(const tailor_cubic *c, tailor_point e[3], double bend[3])
{
    for (int k = 0; k < 3; k++) e[k] = tailor_in_sub(c->p[k + 1], c->p[k]);
    bend[0] = tailor_in_cross(e[0], e[1]);
    bend[1] = 0.5 * tailor_in_cross(e[0], e[2]);
    bend[2] = tailor_in_cross(e[1], e[2]);
}

bool tailor_in_offset_plain(const tailor_cubic *c, double d)
{
    tailor_point e[3];
    double bend[3];
    bend_of(c, e, bend);
    const tailor_point chord = tailor_in_sub(c->p[3], c->p[0]);
    const double length = tailor_in_norm(chord);
    double slowest = INFINITY, worst = 0;
    for (int k = 0; k < 3; k++) {
        slowest = tailor_in_min(slowest, tailor_in_dot(e[k], chord) / length);
        worst = tailor_in_max(worst, -d * bend[k]);
    }
    /* curvature <= 18 bend / (3 slowest)^3 */
    return slowest > 0 && worst * (2.0 / 3) < slowest * slowest * slowest;
}

/** 1 + curvature * d, times |c'|^3: negative where the parallel turns back. */
static double keeps_on(const tailor_cubic *c, double t, double d)
{
    const tailor_point d1 = tailor_cubic_derivative(c, t);
    const double speed = tailor_in_norm(d1);
    return speed * speed * speed + d * tailor_in_cross(d1, tailor_in_second(c, t));
}

/** The end at a cusp of the curve, where its own direction turns about. */
static end end_at_cusp(const tailor_cubic *c, const powers *power, double t, double d, bool leaving)
{
    end e = end_at(c, power, t, d);
    const tailor_point d2 = {6 * power->a3.x * t + 2 * power->a2.x, 6 * power->a3.y * t + 2 * power->a2.y};
    const double bend = tailor_in_norm(d2);
    if (!(bend > 1e-6 * tailor_in_size(c))) return e; /* it stands, but runs on as before */
    e.way = tailor_in_scale(d2, leaving ? 1 / bend : -1 / bend);
    e.speed = 0;
    e.at = tailor_in_along(power_point(power, t), tailor_in_right(e.way), d);
    return e;
}

/** Add the parallel between two ends in which it does not turn back. */
static void add_between(tailor_in_offset *w, int side, const powers *power, end from, end last)
{
    enum { DEEPEST = 22 };
    const tailor_cubic *c = w->side[side].c;
    const double d = w->side[side].d;
    end to[DEEPEST + 1];
    int depth = 0;
    to[0] = last;
    while (depth >= 0 && !w->full) {
        const end stop = to[depth];
        tailor_cubic piece;
        if (fit(power, d, &from, &stop, w->tolerance, &piece))
            tailor_in_offset_add(w, piece, side, -1);
        else if (depth < DEEPEST) {
            to[depth + 1] = end_at(c, power, 0.5 * (from.t + stop.t), d);
            depth++;
            continue;
        } else
            tailor_in_offset_add(w, tailor_cubic_line(from.at, stop.at), side, -1);
        from = stop;
        depth--;
    }
}

/** Add the parallel between two ends, but for where it turns back: there it lies nearer to the curve than its
 *  distance, and is left out from the start. */
static void add_forward(tailor_in_offset *w, int side, const powers *power, end first, end last)
{
    enum { STEPS = 32 };
    const tailor_cubic *c = w->side[side].c;
    const double d = w->side[side].d, range = last.t - first.t;
    end from = first;
    double low_known = first.t;
    bool on = keeps_on(c, first.t + 1e-9 * range, d) > 0;
    for (int k = 1; k <= STEPS; k++) {
        const double t = first.t + range * k / STEPS;
        if ((keeps_on(c, k == STEPS ? last.t - 1e-9 * range : t, d) > 0) != on) {
            double low = low_known, high = t;
            for (int i = 0; i < 50; i++) {
                const double middle = 0.5 * (low + high);
                if ((keeps_on(c, middle, d) > 0) == on)
                    low = middle;
                else
                    high = middle;
            }
            if (on)
                add_between(w, side, power, from, end_at(c, power, low, d));
            else
                from = end_at(c, power, high, d);
            on = !on;
        }
        low_known = t;
    }
    if (on) add_between(w, side, power, from, last);
}

static bool is_straight(const tailor_cubic *c)
{
    const tailor_point chord = tailor_in_sub(c->p[3], c->p[0]);
    const double limit = TAILOR_IN_TINY * tailor_in_dot(chord, chord);
    for (int k = 1; k <= 2; k++) {
        const tailor_point v = tailor_in_sub(c->p[k], c->p[0]);
        if (!(fabs(tailor_in_cross(chord, v)) <= limit) || tailor_in_dot(chord, v) < 0 ||
            tailor_in_dot(chord, v) > tailor_in_dot(chord, chord))
            return false;
    }
    return true;
}

void tailor_in_offset_parallel(tailor_in_offset *w, int side)
{
    const tailor_in_side *s = &w->side[side];
    const tailor_cubic *c = s->c;
    if (s->d == 0) {
        tailor_in_offset_add(w, *c, side, -1);
        return;
    }
    if (is_straight(c)) {
        const tailor_point move = tailor_in_scale(tailor_in_right(s->in), s->d);
        tailor_in_offset_add(w, tailor_cubic_line(tailor_in_add(c->p[0], move), tailor_in_add(c->p[3], move)), side,
                             -1);
        return;
    }
    const powers power = powers_of(c);
    end from = end_at(c, &power, 0, s->d);
    const end last = end_at(c, &power, 1, s->d);
    if (s->plain) {
        add_between(w, side, &power, from, last);
        return;
    }
    double cusp[2];
    const int cusps = tailor_in_cusps(c, cusp);
    for (int k = 0; k < cusps; k++) {
        const end to = end_at_cusp(c, &power, cusp[k], s->d, false), on = end_at_cusp(c, &power, cusp[k], s->d, true);
        const tailor_point tip = tailor_cubic_point(c, cusp[k]);
        add_forward(w, side, &power, from, to);
        if (tailor_in_dot(to.way, on.way) < 0) /* round the tip, on the way ahead */
            tailor_in_offset_arc(w, tip, tailor_in_sub(to.at, tip), tailor_in_sub(on.at, tip), s->d > 0, side, -1);
        from = on;
    }
    add_forward(w, side, &power, from, last);
}

/* Arc length of a cubic, and the parameter at a length.
 *
 * The speed |c'(t)| is the modulus of a complex quadratic in t (take x + iy). It is analytic but for the
 * quadratic's two complex roots and their conjugates, so the error of an n-point Gauss-Legendre rule falls
 * like rho^(-2n), where rho tells how far the nearest root keeps from the interval: it lies outside the
 * ellipse with foci at the interval's ends and half axes (rho + 1/rho)/2 and (rho - 1/rho)/2. Knowing the
 * two roots therefore tells beforehand, for any interval, whether a rule is good to rounding. A near-cusp
 * is a root near the interval: there the interval is cut at the root and halved toward it.
 * (Trefethen, Approximation Theory and Approximation Practice, ch. 19, for the bound.) */
#include "kernel.h"

/* Nodes come in pairs +-x; weights are halved, so they sum to 1/2 over the positive nodes. */
static const double node16[8] = {0.09501250983763744051, 0.28160355077925891543, 0.45801677765722736968,
                                 0.61787624440264377057, 0.75540440835500299865, 0.86563120238783175520,
                                 0.94457502307323260027, 0.98940093499164993851};
static const double square16[8] = {0.00902737702564715069, 0.07930055981148664834, 0.20977936861551008119,
                                   0.38177105339711553400, 0.57063582016217218040, 0.74931737854740332327,
                                   0.89222197421379789706, 0.97891421016235113939};
static const double weight16[8] = {0.09472530522753425108, 0.09130170752246179189, 0.08457825969750126793,
                                   0.07479799440828836798, 0.06231448562776693845, 0.04757925584124639284,
                                   0.03112676196932394682, 0.01357622970587704821};

/* The ellipse outside of which 16 points err by less than some 1e-15 of the length: rho = 2.7. Four points do from
 * rho = 75, where the ellipse is as good as a circle. */
#define AXIS_X 1.5351851851851852
#define AXIS_Y 1.1648148148148149
#define AXIS_SHORT 37.5

/** c'(t) over an interval, as m + b s + a s^2 with s in [-1, 1]. */
typedef struct speed {
    tailor_point m, b, a;
} speed;

static speed speed_on(const tailor_cubic *c, double from, double to)
{
    const double half = 0.5 * (to - from), middle = 0.5 * (from + to);
    return (speed){tailor_cubic_derivative(c, middle), tailor_in_scale(tailor_in_second(c, middle), half),
                   tailor_in_scale(tailor_in_third(c), 0.5 * half * half)};
}

/** The same over [0, 1], for the price of a few additions. */
static speed speed_whole(const tailor_cubic *c)
{
    const tailor_point *p = c->p;
    const tailor_point u = tailor_in_sub(p[1], p[0]), v = tailor_in_sub(p[2], p[1]), w = tailor_in_sub(p[3], p[2]);
    return (speed){
        {0.75 * (u.x + w.x) + 1.5 * v.x, 0.75 * (u.y + w.y) + 1.5 * v.y},
        {1.5 * (w.x - u.x), 1.5 * (w.y - u.y)},
        {0.75 * (u.x + w.x) - 1.5 * v.x, 0.75 * (u.y + w.y) - 1.5 * v.y},
    };
}

/* Four points, for the short steps of the inverse. */
static const double node4[2] = {0.33998104358485626, 0.86113631159405258};
static const double square4[2] = {0.11558710999704794, 0.74155574714580921};
static const double weight4[2] = {0.32607257743127307, 0.17392742256872693};

/* The mean speed. Nodes two by two and a fixed order of summation: the same bits however the compiler vectorises. */
static double rule16(const speed *z)
{
    double f[8];
    for (int k = 0; k < 8; k++) {
        const double ex = z->m.x + z->a.x * square16[k], ey = z->m.y + z->a.y * square16[k];
        const double ox = z->b.x * node16[k], oy = z->b.y * node16[k];
        const double px = ex + ox, py = ey + oy, qx = ex - ox, qy = ey - oy;
        f[k] = weight16[k] * (sqrt(px * px + py * py) + sqrt(qx * qx + qy * qy));
    }
    return ((f[0] + f[4]) + (f[2] + f[6])) + ((f[1] + f[5]) + (f[3] + f[7]));
}

static double rule4(const speed *z)
{
    double f[2];
    for (int k = 0; k < 2; k++) {
        const double ex = z->m.x + z->a.x * square4[k], ey = z->m.y + z->a.y * square4[k];
        const double ox = z->b.x * node4[k], oy = z->b.y * node4[k];
        const double px = ex + ox, py = ey + oy, qx = ex - ox, qy = ey - oy;
        f[k] = weight4[k] * (sqrt(px * px + py * py) + sqrt(qx * qx + qy * qy));
    }
    return f[0] + f[1];
}

/** The roots of m + b s + a s^2 as fractions n / d: (q, a) and (m, q). */
typedef struct roots {
    tailor_point n[2], d[2];
} roots;

static tailor_point times(tailor_point a, tailor_point b)
{
    return (tailor_point){a.x * b.x - a.y * b.y, a.x * b.y + a.y * b.x};
}

static roots roots_of(const speed *z)
{
    const tailor_point bb = times(z->b, z->b), am = times(z->a, z->m);
    const tailor_point disc = {bb.x - 4 * am.x, bb.y - 4 * am.y};
    /* complex square root, without branches: signs of curves are no pattern a processor could learn */
    const double modulus = tailor_in_norm(disc);
    const double re = sqrt(0.5 * tailor_in_max(modulus + disc.x, 0)),
                 im = sqrt(0.5 * tailor_in_max(modulus - disc.x, 0));
    tailor_point r = {re, copysign(im, disc.y)};
    r = tailor_in_scale(r, copysign(1, tailor_in_dot(z->b, r)));
    const tailor_point q = {-0.5 * (z->b.x + r.x), -0.5 * (z->b.y + r.y)};
    return (roots){{q, z->m}, {z->a, q}};
}

/** Is n / d outside the ellipse? Without division, so that d = 0 (no root) is outside. */
static bool outside(tailor_point n, tailor_point d)
{
    const double x = n.x * d.x + n.y * d.y, y = n.y * d.x - n.x * d.y, dd = tailor_in_dot(d, d);
    return x * x * (1 / (AXIS_X * AXIS_X)) + y * y * (1 / (AXIS_Y * AXIS_Y)) >= dd * dd;
}

/** Enough, and cheap: over the whole ellipse the speed keeps within a right angle of that in the middle. */
static bool turns_little(const speed *z, double axis_x, double axis_y)
{
    const double b_along = tailor_in_dot(z->m, z->b), b_across = tailor_in_cross(z->m, z->b);
    const double a_along = tailor_in_dot(z->m, z->a), a_across = tailor_in_cross(z->m, z->a);
    const double fall = fabs(b_along) * axis_x + fabs(b_across) * axis_y + fabs(a_across) * (axis_x * axis_y) +
                        tailor_in_max(a_along * (axis_y * axis_y), -a_along * (axis_x * axis_x));
    return tailor_in_dot(z->m, z->m) > fall;
}

#define DEEPEST 40

/** Where a root lies in t, or far away if it lies nowhere near. */
static tailor_point root_place(tailor_point n, tailor_point d, double middle, double half)
{
    const double dd = tailor_in_dot(d, d);
    const double x = n.x * d.x + n.y * d.y, y = n.y * d.x - n.x * d.y;
    if (!(fabs(x) < 1e6 * dd) || !(fabs(y) < 1e6 * dd)) return (tailor_point){1e6, 1e6};
    return (tailor_point){middle + half * (x / dd), half * fabs(y / dd)};
}

/** Is an interval free of a root? One that sits in an end, to nine digits, does no harm: up to that end the speed
 *  is analytic. */
static bool clear_of(tailor_point root, double from, double to)
{
    const double half = 0.5 * (to - from);
    const double x = (root.x - 0.5 * (from + to)) / half, y = root.y / half;
    if (x * x * (1 / (AXIS_X * AXIS_X)) + y * y * (1 / (AXIS_Y * AXIS_Y)) >= 1) return true;
    return y < 1e-9 && fabs(fabs(x) - 1) < 1e-9;
}

/** The guarded way: cut at the roots, halve toward them. At most some 250 rules, on a stack of fixed depth. */
static double length_guarded(const tailor_cubic *c, double from, double to, const tailor_point root[2])
{
    double cut[4] = {from, root[0].x, root[1].x, to};
    if (cut[1] > cut[2]) {
        const double swap = cut[1];
        cut[1] = cut[2];
        cut[2] = swap;
    }
    double total = 0, last = from;
    for (int i = 1; i < 4; i++) {
        const double stop = cut[i];
        if (!(stop > last) || stop > to) continue;
        double ends[DEEPEST + 1]; /* ends of the intervals still to do, nearest last */
        int depth = 0;
        ends[0] = stop;
        while (depth >= 0) {
            const double here = ends[depth], middle = 0.5 * (last + here);
            const bool deepest = depth == DEEPEST || !(middle > last && middle < here);
            if (deepest || (clear_of(root[0], last, here) && clear_of(root[1], last, here))) {
                const speed z = speed_on(c, last, here);
                total += rule16(&z) * (here - last);
                last = here;
                depth--;
            } else
                ends[++depth] = middle;
        }
    }
    return total;
}

int tailor_in_cusps(const tailor_cubic *c, double at[2])
{
    const speed z = speed_whole(c);
    const roots r = roots_of(&z);
    int n = 0;
    for (int k = 0; k < 2; k++) {
        const tailor_point root = root_place(r.n[k], r.d[k], 0.5, 0.5);
        if (!(root.y < 1e-7) || !(root.x > 1e-9 && root.x < 1 - 1e-9)) continue;
        if (tailor_in_norm(tailor_cubic_derivative(c, root.x)) > 1e-6 * tailor_in_size(c)) continue;
        if (n == 1 && fabs(at[0] - root.x) < 1e-6) continue;
        at[n++] = root.x;
    }
    if (n == 2 && at[0] > at[1]) {
        const double swap = at[0];
        at[0] = at[1];
        at[1] = swap;
    }
    return n;
}

double tailor_in_length_between(const tailor_cubic *c, double from, double to)
{
    const speed z = from == 0 && to == 1 ? speed_whole(c) : speed_on(c, from, to);
    if (turns_little(&z, AXIS_X, AXIS_Y)) return rule16(&z) * (to - from);
    const roots r = roots_of(&z);
    const int clear = (int)outside(r.n[0], r.d[0]) & (int)outside(r.n[1], r.d[1]);
    if (clear) return rule16(&z) * (to - from);
    const double half = 0.5 * (to - from), middle = 0.5 * (from + to);
    const tailor_point root[2] = {root_place(r.n[0], r.d[0], middle, half), root_place(r.n[1], r.d[1], middle, half)};
    if (isnan(z.m.x + z.m.y + z.b.x + z.b.y + z.a.x + z.a.y)) return NAN;
    return length_guarded(c, from, to, root);
}

double tailor_cubic_length(const tailor_cubic *c) { return tailor_in_length_between(c, 0, 1); }

double tailor_cubic_length_to(const tailor_cubic *c, double t)
{
    if (!(t > 0)) return isnan(t) ? NAN : 0 * tailor_cubic_length(c);
    return t >= 1 ? tailor_cubic_length(c) : tailor_in_length_between(c, 0, t);
}

/** Length of a part that is probably short. */
static double step_length(const tailor_cubic *c, double from, double to)
{
    const speed z = speed_on(c, from, to);
    return turns_little(&z, AXIS_SHORT, AXIS_SHORT) ? rule4(&z) * (to - from) : tailor_in_length_between(c, from, to);
}

/** A first guess for the parameter at a share of the length: the monotone cubic through both ends with the slopes
 *  the end speeds ask for, so far as those are finite. */
static double first_guess(const tailor_cubic *c, double total, double share)
{
    const double start = total / (3 * tailor_in_distance(c->p[0], c->p[1]));
    const double end = total / (3 * tailor_in_distance(c->p[2], c->p[3]));
    const double s = start < 3 ? start : 3, e = end < 3 ? end : 3, rest = 1 - share;
    return share * share * (3 - 2 * share) + share * rest * (s * rest - e * share);
}

double tailor_cubic_at_length(const tailor_cubic *c, double length)
{
    const double total = tailor_cubic_length(c);
    if (isnan(length) || isnan(total)) return NAN;
    if (!(length > 0) || !(total > 0)) return 0;
    if (length >= total) return 1;
    /* Halley's step on length(t) - length; each integrates only from the parameter before it. Bracketed, so that
     * where the speed vanishes it is bisection. */
    double low = 0, high = 1, t = first_guess(c, total, length / total);
    double reached = tailor_in_length_between(c, 0, t);
    const tailor_point d3 = tailor_in_third(c);
    for (int i = 0; i < 80; i++) {
        const double miss = reached - length;
        if (fabs(miss) <= 2e-16 * total) break;
        if (miss > 0)
            high = t;
        else
            low = t;
        const tailor_point d = tailor_cubic_derivative(c, t), d2 = tailor_in_second(c, t);
        const double v2 = tailor_in_dot(d, d), v = sqrt(v2);
        const double slope = v - 0.5 * miss * tailor_in_dot(d, d2) / v2;
        double next = slope > 0.25 * v ? t - miss / slope : t - miss / v;
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        else {
            /* what Halley leaves over is the step's cube times the speed's relative rates of change */
            const double step = fabs(next - t), rate2 = (fabs(d2.x) + fabs(d2.y)) / v,
                         rate3 = (fabs(d3.x) + fabs(d3.y)) / v;
            if (step * step * step * (rate2 * rate2 + rate3) < 1e-17) return next;
        }
        if (next == t || high - low <= 1e-16) break;
        reached += next > t ? step_length(c, t, next) : -step_length(c, next, t);
        t = next;
    }
    return t;
}

/* Predicates in whole numbers, without rounding. Nothing of the search is used here.
 *
 * Coordinates stay below 2^28, so a product of differences stays below 2^58; squares of those are compared in 128 bits
 * made of two halves. */
#include "strip.h"

typedef struct wide {
    uint64_t high, low;
} wide;

static wide product(uint64_t a, uint64_t b)
{
    const uint64_t a1 = a >> 32, a0 = a & 0xffffffffu, b1 = b >> 32, b0 = b & 0xffffffffu;
    const uint64_t low = a0 * b0, cross1 = a1 * b0 + (low >> 32), cross0 = a0 * b1 + (cross1 & 0xffffffffu);
    return (wide){a1 * b1 + (cross1 >> 32) + (cross0 >> 32), (cross0 << 32) | (low & 0xffffffffu)};
}

static bool less(wide a, wide b) { return a.high < b.high || (a.high == b.high && a.low < b.low); }

static int sign_of(int64_t v) { return (v > 0) - (v < 0); }
static uint64_t size_of(int64_t v) { return v < 0 ? (uint64_t)-v : (uint64_t)v; }

int64_t tailor_in_lay_turn_of(tailor_in_spot a, tailor_in_spot b, tailor_in_spot c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static int64_t along(tailor_in_spot a, tailor_in_spot b, tailor_in_spot p)
{
    return (b.x - a.x) * (p.x - a.x) + (b.y - a.y) * (p.y - a.y);
}

static bool same(tailor_in_spot a, tailor_in_spot b) { return a.x == b.x && a.y == b.y; }

/** Is p on the closed segment a b? */
static bool on(tailor_in_spot a, tailor_in_spot b, tailor_in_spot p)
{
    return tailor_in_lay_turn_of(a, b, p) == 0 && along(a, b, p) >= 0 && along(b, a, p) >= 0;
}

/** Do the segments cross in a point that is inner to both? */
static bool cross(tailor_in_spot a, tailor_in_spot b, tailor_in_spot c, tailor_in_spot d)
{
    return sign_of(tailor_in_lay_turn_of(a, b, c)) * sign_of(tailor_in_lay_turn_of(a, b, d)) < 0 &&
           sign_of(tailor_in_lay_turn_of(c, d, a)) * sign_of(tailor_in_lay_turn_of(c, d, b)) < 0;
}

bool tailor_in_lay_simple(const tailor_in_spot *p, int n)
{
    for (int i = 0; i < n; i++) {
        const tailor_in_spot a = p[i], b = p[(i + 1) % n], next = p[(i + 2) % n];
        if (tailor_in_lay_turn_of(a, b, next) == 0 && along(b, a, next) > 0) return false; /* runs back on itself */
        for (int j = i + 2; j < n; j++) {
            const tailor_in_spot c = p[j], d = p[(j + 1) % n];
            if (i == 0 && j == n - 1) continue; /* neighbours round the end */
            if (cross(a, b, c, d) || on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b)) return false;
        }
    }
    return n >= 3;
}

/** Two polygons, one of them multiplied by a sign and moved. Looked at from either side. */
typedef struct pair {
    const tailor_in_spot *a, *b;
    int na, nb;
    int64_t sign;
    tailor_in_spot d;
} pair;

static tailor_in_spot point_a(const pair *p, int i) { return p->a[i < p->na ? i : i - p->na]; }
static tailor_in_spot point_b(const pair *p, int i)
{
    const tailor_in_spot q = p->b[i < p->nb ? i : i - p->nb];
    return (tailor_in_spot){p->sign * q.x + p->d.x, p->sign * q.y + p->d.y};
}

/** Does the boundary of a run inside of b, or along an edge of b with both insides on the same side? Between the points
 *  of b that lie on an edge of a, that edge is all inside, all outside or all on the boundary of b, since nothing
 *  crosses: one look at the middle of each stretch decides. The middle of two points is whole after doubling. */
static bool runs_inside(const pair *p)
{
    for (int i = 0; i < p->na; i++) {
        const tailor_in_spot a = point_a(p, i), b = point_a(p, i + 1);
        int64_t done = 0;
        tailor_in_spot from = a;
        while (!same(from, b)) {
            tailor_in_spot to = b;
            int64_t reach = along(a, b, b);
            for (int j = 0; j < p->nb; j++) {
                const tailor_in_spot q = point_b(p, j);
                const int64_t at = along(a, b, q);
                if (at > done && at < reach && tailor_in_lay_turn_of(a, b, q) == 0) {
                    reach = at;
                    to = q;
                }
            }
            /* twice the middle, in the frame where b's own points are doubled and not moved */
            const tailor_in_spot middle = {from.x + to.x - 2 * p->d.x, from.y + to.y - 2 * p->d.y};
            int winding = 0;
            for (int j = 0; j < p->nb; j++) {
                const tailor_in_spot u = p->b[j], v = p->b[j + 1 < p->nb ? j + 1 : 0];
                const tailor_in_spot s = {2 * p->sign * u.x, 2 * p->sign * u.y}, e = {2 * p->sign * v.x,
                                                                                    2 * p->sign * v.y};
                if (s.y > middle.y && e.y > middle.y) continue;
                if (s.y < middle.y && e.y < middle.y) continue;
                const int64_t turn = tailor_in_lay_turn_of(s, e, middle);
                if (turn == 0 && on(s, e, middle)) {
                    /* a half turn keeps the direction round: both run counter-clockwise */
                    if (along((tailor_in_spot){0, 0}, (tailor_in_spot){e.x - s.x, e.y - s.y},
                              (tailor_in_spot){to.x - from.x, to.y - from.y}) > 0)
                        return true;
                    winding = 0;
                    break;
                }
                if (s.y <= middle.y && e.y > middle.y && turn > 0) winding++;
                if (s.y > middle.y && e.y <= middle.y && turn < 0) winding--;
            }
            if (winding != 0) return true;
            from = to;
            done = reach;
        }
    }
    return false;
}

/** Is p nearer to the segment a b than `apart`? */
static bool nearer(tailor_in_spot a, tailor_in_spot b, tailor_in_spot p, int64_t apart)
{
    const int64_t length = along(a, b, b), at = along(a, b, p);
    if (at <= 0) return along(a, p, p) < apart * apart;
    if (at >= length) return along(b, p, p) < apart * apart;
    const uint64_t turn = size_of(tailor_in_lay_turn_of(a, b, p));
    return less(product(turn, turn), product((uint64_t)length, (uint64_t)(apart * apart)));
}

bool tailor_in_lay_apart(const tailor_in_spot *a, int na, const tailor_in_spot *b, int nb, int64_t sign,
                         tailor_in_spot d, int64_t apart)
{
    const pair ab = {a, b, na, nb, sign, d};
    /* seen from b: b stands still and a is turned and moved back */
    const pair ba = {b, a, nb, na, sign, {-sign * d.x, -sign * d.y}};
    for (int i = 0; i < na; i++) {
        const tailor_in_spot a0 = point_a(&ab, i), a1 = point_a(&ab, i + 1);
        for (int j = 0; j < nb; j++) {
            const tailor_in_spot b0 = point_b(&ab, j), b1 = point_b(&ab, j + 1);
            if (cross(a0, a1, b0, b1)) return false;
            if (apart > 0 && (nearer(a0, a1, b0, apart) || nearer(b0, b1, a0, apart))) return false;
        }
    }
    return !runs_inside(&ab) && !runs_inside(&ba);
}

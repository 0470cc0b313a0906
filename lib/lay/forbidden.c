/* Forbidden moves: for two kinds, all d for which the second, moved by d, comes nearer to the first than allowed. For
 * convex parts p and q that is the Minkowski sum of p, -q and a disc; the disc is replaced by a sixteen-sided polygon
 * round it with corners on the grid, so all corners are whole, and the union over all pairs of parts is exact. */
#include <math.h>
#include <string.h>
#include "strip.h"

enum { DISC = 16, SIDES_MOST = 1 << 21, PRUNED_MOST = 1000 };

typedef struct ring {
    tailor_in_spot *p;
    int n;
} ring;

/** The sixteen-sided polygon round a disc, counter-clockwise, with sides along the axes at exactly the radius, so that
 *  straight pieces side by side lose nothing. Corners of a quadrant are rounded away from both axes: then the polygon
 *  holds the box between each true corner and its mirror images, hence the true one. For a radius of a few steps, where
 *  rounding could bend a side inward, a square. */
static int disc(int64_t radius, tailor_in_spot *p)
{
    /* corners at 11.25 and 33.75 degrees: tan 11.25, cos 33.75 / cos 11.25, sin 33.75 / cos 11.25 */
    const double r = (double)radius;
    const int64_t near = (int64_t)ceil(r * 0.19891236737965801) + 1, far = (int64_t)ceil(r * 0.84775906502257348) + 1,
                  low = (int64_t)ceil(r * 0.56645449735052178) + 1;
    const tailor_in_spot corners[4] = {{radius, near}, {far, low}, {low, far}, {near, radius}};
    if (radius == 0) {
        p[0] = (tailor_in_spot){0, 0};
        return 1;
    }
    const int n = radius < 64 ? 1 : 4;
    for (int i = 0; i < n; i++) {
        const tailor_in_spot q = n == 1 ? (tailor_in_spot){radius, radius} : corners[i];
        p[i] = q;
        p[i + n] = (tailor_in_spot){-q.y, q.x};
        p[i + 2 * n] = (tailor_in_spot){-q.x, -q.y};
        p[i + 3 * n] = (tailor_in_spot){q.y, -q.x};
    }
    return 4 * n;
}

static int lowest(const ring *a)
{
    int low = 0;
    for (int i = 1; i < a->n; i++)
        if (a->p[i].y < a->p[low].y || (a->p[i].y == a->p[low].y && a->p[i].x < a->p[low].x)) low = i;
    return low;
}

/** Minkowski sum of two convex polygons: their edges in the order of direction, both begun at the lowest point. */
static int sum(const ring *a, const ring *b, tailor_in_spot *out)
{
    const int ia = lowest(a), ib = lowest(b), na = a->n > 1 ? a->n : 0, nb = b->n > 1 ? b->n : 0;
    tailor_in_spot at = {a->p[ia].x + b->p[ib].x, a->p[ia].y + b->p[ib].y};
    int n = 0;
    for (int i = 0, j = 0; i < na || j < nb;) {
        const tailor_in_spot a0 = a->p[(ia + i) % a->n], a1 = a->p[(ia + i + 1) % a->n];
        const tailor_in_spot b0 = b->p[(ib + j) % b->n], b1 = b->p[(ib + j + 1) % b->n];
        const tailor_in_spot u = {a1.x - a0.x, a1.y - a0.y}, v = {b1.x - b0.x, b1.y - b0.y};
        const int64_t turn = i >= na ? -1 : j >= nb ? 1 : u.x * v.y - u.y * v.x;
        out[n++] = at;
        if (turn >= 0) {
            at.x += u.x;
            at.y += u.y;
            i++;
        }
        if (turn <= 0) {
            at.x += v.x;
            at.y += v.y;
            j++;
        }
    }
    return n;
}

static void make_sides(const tailor_in_spot *p, int n, tailor_in_side *side, tailor_in_box4 *box)
{
    *box = (tailor_in_box4){(double)p[0].x, (double)p[0].y, (double)p[0].x, (double)p[0].y};
    for (int i = 0; i < n; i++) {
        const double x = (double)p[i].x, y = (double)p[i].y;
        const double nx = (double)p[(i + 1) % n].y - y, ny = x - (double)p[(i + 1) % n].x;
        side[i] = (tailor_in_side){nx, ny, nx * x + ny * y, 1 / sqrt(nx * nx + ny * ny)};
        box->x0 = x < box->x0 ? x : box->x0;
        box->y0 = y < box->y0 ? y : box->y0;
        box->x1 = x > box->x1 ? x : box->x1;
        box->y1 = y > box->y1 ? y : box->y1;
    }
}

static bool box_within(const tailor_in_box4 *a, const tailor_in_box4 *b)
{
    return a->x0 >= b->x0 && a->y0 >= b->y0 && a->x1 <= b->x1 && a->y1 <= b->y1;
}

/** Tables under work: polygons of the parts, their sides and boxes. */
typedef struct bench {
    tailor_in_spot *points;
    tailor_in_side *sides;
    tailor_in_box4 *boxes;
    int *first;
    bool *within;
} bench;

/** Is part i within part j? Then it is never the deeper one. */
static bool part_within(const bench *b, int i, int j)
{
    if (!box_within(&b->boxes[i], &b->boxes[j])) return false;
    for (int k = b->first[i]; k < b->first[i + 1]; k++)
        for (int s = b->first[j]; s < b->first[j + 1]; s++) {
            const tailor_in_side *side = &b->sides[s];
            if (side->c - side->nx * (double)b->points[k].x - side->ny * (double)b->points[k].y < 0) return false;
        }
    return true;
}

/** Sides and box of part i go to their table; sides far from one another come first, so that a point outside is soon
 *  found to be so. */
static void keep_part(tailor_in_forbidden *f, const bench *b, int i, int at)
{
    const int n = b->first[i + 1] - b->first[i];
    int stride = (int)(0.382 * n);
    for (stride = stride < 1 ? 1 : stride;; stride++) {
        int x = n, y = stride;
        while (y != 0) {
            const int rest = x % y;
            x = y;
            y = rest;
        }
        if (x == 1) break; /* no common divisor: every side is met once */
    }
    for (int k = 0; k < n; k++) f->sides[f->first[at] + k] = b->sides[b->first[i] + (int)((int64_t)k * stride % n)];
    f->boxes[at] = b->boxes[i];
    f->first[at + 1] = f->first[at] + n;
}

static tailor_status table(tailor_lay *lay, const tailor_in_kind *a, const tailor_in_kind *b, int turned, bench *w,
                           const ring *round, tailor_in_forbidden *f)
{
    int parts = 0, kept = 0, sides = 0, points = 0;
    const int64_t sign = turned ? 1 : -1;
    tailor_in_spot minus[TAILOR_LAY_POINTS_MOST], both[2 * TAILOR_LAY_POINTS_MOST];
    w->first[0] = 0;
    for (int i = 0; i < a->part_count; i++)
        for (int j = 0; j < b->part_count; j++) {
            const ring p = {a->part_points + a->part_first[i], a->part_first[i + 1] - a->part_first[i]};
            const tailor_in_spot *q = b->part_points + b->part_first[j];
            const ring m = {minus, b->part_first[j + 1] - b->part_first[j]};
            for (int k = 0; k < m.n; k++) minus[k] = (tailor_in_spot){sign * q[k].x, sign * q[k].y};
            const ring pm = {both, sum(&p, &m, both)};
            const int n = sum(&pm, round, w->points + points);
            make_sides(w->points + points, n, w->sides + points, &w->boxes[parts]);
            points += n;
            w->first[++parts] = points;
        }
    /* a part within another goes; of two that are the same the later one */
    for (int i = 0; i < parts; i++) {
        w->within[i] = false;
        for (int j = 0; j < parts && parts <= PRUNED_MOST && !w->within[i]; j++)
            w->within[i] = i != j && part_within(w, i, j) && (j < i || !part_within(w, j, i));
        if (w->within[i]) continue;
        sides += w->first[i + 1] - w->first[i];
        kept++;
    }
    f->boxes = tailor_in_lay_memory(lay, (size_t)kept, sizeof *f->boxes);
    f->first = tailor_in_lay_memory(lay, (size_t)kept + 1, sizeof *f->first);
    f->sides = tailor_in_lay_memory(lay, (size_t)sides, sizeof *f->sides);
    if (!f->boxes || !f->first || !f->sides) return TAILOR_NO_MEMORY;
    f->box = w->boxes[0];
    for (int i = 0; i < parts; i++) {
        if (w->within[i]) continue;
        keep_part(f, w, i, f->part_count++);
        f->box.x0 = w->boxes[i].x0 < f->box.x0 ? w->boxes[i].x0 : f->box.x0;
        f->box.y0 = w->boxes[i].y0 < f->box.y0 ? w->boxes[i].y0 : f->box.y0;
        f->box.x1 = w->boxes[i].x1 > f->box.x1 ? w->boxes[i].x1 : f->box.x1;
        f->box.y1 = w->boxes[i].y1 > f->box.y1 ? w->boxes[i].y1 : f->box.y1;
    }
    return TAILOR_OK;
}

tailor_status tailor_in_lay_forbid(tailor_lay *lay)
{
    const int n = lay->kind_count;
    double total = 0, most_points = 0, most_parts = 0;
    tailor_in_spot round_points[DISC];
    for (int a = 0; a < n; a++)
        for (int b = a; b < n; b++) {
            const tailor_in_kind *p = &lay->kinds[a], *q = &lay->kinds[b];
            const double parts = (double)p->part_count * q->part_count;
            const double points = (double)p->part_first[p->part_count] * q->part_count +
                                  (double)q->part_first[q->part_count] * p->part_count + DISC * parts;
            total += 2 * points;
            most_points = points > most_points ? points : most_points;
            most_parts = parts > most_parts ? parts : most_parts;
        }
    if (total > SIDES_MOST) return TAILOR_OUT_OF_RANGE;
    lay->forbidden = tailor_in_lay_memory(lay, 2 * (size_t)n * (size_t)n, sizeof *lay->forbidden);
    bench w = {tailor_in_lay_memory(lay, (size_t)most_points, sizeof *w.points),
               tailor_in_lay_memory(lay, (size_t)most_points, sizeof *w.sides),
               tailor_in_lay_memory(lay, (size_t)most_parts, sizeof *w.boxes),
               tailor_in_lay_memory(lay, (size_t)most_parts + 1, sizeof *w.first),
               tailor_in_lay_memory(lay, (size_t)most_parts, sizeof *w.within)};
    if (!lay->forbidden || !w.within || !w.points || !w.sides || !w.boxes || !w.first) return TAILOR_NO_MEMORY;
    const ring round = {round_points, disc(lay->apart, round_points)};
    for (int a = 0; a < n; a++)
        for (int b = a; b < n; b++)
            for (int turned = 0; turned < 2; turned++) {
                if (turned && !lay->kinds[a].half_turn && !lay->kinds[b].half_turn) continue;
                tailor_in_forbidden *f = &lay->forbidden[2 * (a * n + b) + turned];
                const tailor_status status = table(lay, &lay->kinds[a], &lay->kinds[b], turned, &w, &round, f);
                if (status != TAILOR_OK) return status;
            }
    return TAILOR_OK;
}

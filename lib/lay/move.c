/* Moving one piece: what it costs where it lies, and finding where it costs less. */
#include <math.h>
#include "search.h"

enum { SAMPLES_WIDE = 20, SAMPLES_NEAR = 10, KEPT = 2 };

static uint64_t draw(tailor_in_search *s)
{
    /* splitmix64 (Steele, Lea and Flood 2014) */
    uint64_t z = s->random += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}
double tailor_in_lay_draw(tailor_in_search *s) { return (double)(draw(s) >> 11) * 0x1p-53; }
int tailor_in_lay_draw_below(tailor_in_search *s, int n) { return (int)(tailor_in_lay_draw(s) * n); }

static double clip(double v, double low, double high) { return v < low ? low : v > high ? high : v; }

static const tailor_in_facing *facings_of(const tailor_lay *lay, int place, int turned)
{
    return lay->search->facings + (size_t)(2 * lay->kind_of[place] + turned) * 2 * (size_t)lay->kind_count;
}

static double depth_between(const tailor_lay *lay, const tailor_in_facing *row, const tailor_in_lie *lie, int other)
{
    const tailor_in_lie *to = &lay->search->lies[other];
    const tailor_in_facing *f = &row[2 * lay->kind_of[other] + to->turned];
    const double dx = to->x - lie->x, dy = to->y - lie->y;
    if (dx <= f->box.x0 || dx >= f->box.x1 || dy <= f->box.y0 || dy >= f->box.y1) return 0;
    return tailor_in_lay_depth(f->moves, f->sign * dx, f->sign * dy);
}

/** Weighted overlap of a place if it lay so, with all others; gives up beyond `most`. */
static double cost(const tailor_lay *lay, int place, const tailor_in_lie *lie, double most)
{
    const tailor_in_search *s = lay->search;
    const int n = lay->place_count;
    const double *weights = s->weights + (size_t)place * (size_t)n;
    const tailor_in_facing *row = facings_of(lay, place, lie->turned);
    double sum = 0;
    for (int j = 0; j < n && sum < most; j++)
        if (j != place) sum += weights[j] * depth_between(lay, row, lie, j);
    return sum;
}

/** List the places that can be overlapped from within a reach of a lie. */
static void gather(tailor_lay *lay, int place, const tailor_in_lie *lie, double reach)
{
    tailor_in_search *s = lay->search;
    const tailor_in_facing *row = facings_of(lay, place, lie->turned);
    s->around_count = 0;
    for (int j = 0; j < lay->place_count; j++) {
        const tailor_in_facing *f = &row[2 * lay->kind_of[j] + s->lies[j].turned];
        const double dx = s->lies[j].x - lie->x, dy = s->lies[j].y - lie->y;
        if (j != place && dx > f->box.x0 - reach && dx < f->box.x1 + reach && dy > f->box.y0 - reach &&
            dy < f->box.y1 + reach)
            s->around[s->around_count++] = j;
    }
}

/** The same as cost, with those gathered. */
static double cost_around(const tailor_lay *lay, int place, const tailor_in_lie *lie, double most)
{
    const tailor_in_search *s = lay->search;
    const double *weights = s->weights + (size_t)place * (size_t)lay->place_count;
    const tailor_in_facing *row = facings_of(lay, place, lie->turned);
    double sum = 0;
    for (int k = 0; k < s->around_count && sum < most; k++)
        sum += weights[s->around[k]] * depth_between(lay, row, lie, s->around[k]);
    return sum;
}

typedef struct trial {
    tailor_in_lie lie;
    double cost;
} trial;

void tailor_in_lay_settle(const tailor_lay *lay, int place, tailor_in_lie *lie)
{
    const tailor_in_box4 room = tailor_in_lay_room(lay, lay->kind_of[place], lie->turned, lay->search->length);
    lie->x = clip(floor(lie->x + 0.5), room.x0, room.x1);
    lie->y = clip(floor(lie->y + 0.5), room.y0, room.y1);
}

/** Downhill along the axes and the diagonals, in steps that grow with success and shrink without. */
static void descend(tailor_lay *lay, int place, trial *t, double step, double least)
{
    static const double way[4][2] = {{1, 0}, {0, 1}, {0.7, 0.7}, {0.7, -0.7}};
    tailor_in_search *s = lay->search;
    double steps[2] = {step, step}, reach = 4 * step;
    tailor_in_lie centre = t->lie;
    if (t->cost > 0) gather(lay, place, &centre, reach);
    while (t->cost > 0 && (steps[0] > least || steps[1] > least)) {
        const double *w = way[tailor_in_lay_draw_below(s, 4)];
        bool better = false;
        const trial from = *t;
        for (int side = -1; side <= 1; side += 2) {
            trial next = from;
            next.lie.x += side * w[0] * steps[0];
            next.lie.y += side * w[1] * steps[1];
            tailor_in_lay_settle(lay, place, &next.lie);
            if (next.lie.x == from.lie.x && next.lie.y == from.lie.y) continue;
            if (fabs(next.lie.x - centre.x) > reach || fabs(next.lie.y - centre.y) > reach) {
                centre = next.lie;
                gather(lay, place, &centre, reach);
            }
            next.cost = cost_around(lay, place, &next.lie, t->cost);
            if (next.cost < t->cost) {
                *t = next;
                better = true;
            }
        }
        for (int axis = 0; axis < 2; axis++)
            if (w[axis] != 0) steps[axis] *= better ? 1.1 : 0.5;
    }
}

enum { PUSHES = 8 };

/** Push a piece out of what it overlaps: by the shortest way out of one other piece, or to where it just touches two.
 *  What touches does so exactly, which small steps would hardly find. */
static void push(tailor_lay *lay, int place, trial *t)
{
    tailor_in_search *s = lay->search;
    if (!(t->cost > 0)) return;
    const double reach = s->size[place] * 0.3;
    const tailor_in_lie centre = t->lie;
    gather(lay, place, &centre, reach);
    for (int round = 0; round < PUSHES && t->cost > 0; round++) {
        const tailor_in_facing *row = facings_of(lay, place, t->lie.turned);
        double nx[6], ny[6], d[6];
        int n = 0;
        for (int k = 0; k < s->around_count && n < 6; k++) {
            const tailor_in_lie *to = &s->lies[s->around[k]];
            const tailor_in_facing *f = &row[2 * lay->kind_of[s->around[k]] + to->turned];
            double out[2];
            const double depth = tailor_in_lay_way_out(f->moves, f->sign * (to->x - t->lie.x),
                                                       f->sign * (to->y - t->lie.y), out);
            if (depth > 0) {
                nx[n] = -f->sign * out[0];
                ny[n] = -f->sign * out[1];
                d[n++] = depth;
            }
        }
        trial best = *t;
        for (int k = 0; k < n; k++)
            for (int l = 0; l <= k; l++) {
                double x = nx[k] * d[k], y = ny[k] * d[k];
                if (l < k) {
                    const double det = nx[k] * ny[l] - ny[k] * nx[l];
                    if (fabs(det) < 0.05) continue;
                    x = (d[k] * ny[l] - d[l] * ny[k]) / det;
                    y = (d[l] * nx[k] - d[k] * nx[l]) / det;
                }
                trial next = *t;
                next.lie.x += x > 0 ? ceil(x) : floor(x);
                next.lie.y += y > 0 ? ceil(y) : floor(y);
                tailor_in_lay_settle(lay, place, &next.lie);
                if (fabs(next.lie.x - centre.x) > reach || fabs(next.lie.y - centre.y) > reach) continue;
                next.cost = cost_around(lay, place, &next.lie, best.cost);
                if (next.cost < best.cost) best = next;
            }
        if (best.cost >= t->cost) break;
        *t = best;
    }
}

/** Keep the cheapest trials, in order. One that is dearer than all of a full list is not offered. */
static void keep_trial(trial *kept, int *count, const trial *t)
{
    int at = *count < KEPT ? (*count)++ : KEPT - 1;
    for (; at > 0 && kept[at - 1].cost > t->cost; at--) kept[at] = kept[at - 1];
    kept[at] = *t;
}

void tailor_in_lay_move(tailor_lay *lay, int place)
{
    tailor_in_search *s = lay->search;
    const tailor_in_kind *k = &lay->kinds[lay->kind_of[place]];
    const double size = s->size[place];
    trial kept[KEPT], now = {s->lies[place], 0}, best;
    int count = 0;
    now.cost = cost(lay, place, &now.lie, 1e300);
    for (int i = 0; i < SAMPLES_WIDE + SAMPLES_NEAR; i++) {
        trial t = now;
        if (k->half_turn) t.lie.turned = (int)(draw(s) >> 63);
        const tailor_in_box4 room = tailor_in_lay_room(lay, lay->kind_of[place], t.lie.turned, s->length);
        if (i < SAMPLES_WIDE) {
            t.lie.x = room.x0 + (room.x1 - room.x0) * tailor_in_lay_draw(s);
            t.lie.y = room.y0 + (room.y1 - room.y0) * tailor_in_lay_draw(s);
        } else {
            t.lie.x += size * (tailor_in_lay_draw(s) - 0.5);
            t.lie.y += size * (tailor_in_lay_draw(s) - 0.5);
        }
        tailor_in_lay_settle(lay, place, &t.lie);
        const double most = count < KEPT ? 1e300 : kept[KEPT - 1].cost;
        t.cost = cost(lay, place, &t.lie, most);
        if (t.cost < most) keep_trial(kept, &count, &t);
        if (t.cost == 0) break;
    }
    best = now;
    for (int i = 0; i < count && best.cost > 0; i++) {
        descend(lay, place, &kept[i], size * 0.1, size * 0.01);
        if (kept[i].cost < best.cost) best = kept[i];
    }
    descend(lay, place, &now, size * 0.05, size * 0.01);
    if (now.cost < best.cost) best = now;
    push(lay, place, &best);
    descend(lay, place, &best, size * 0.01, size * 1e-4);
    push(lay, place, &best);
    s->lies[place] = best.lie;
}

double tailor_in_lay_overlap(const tailor_lay *lay, int a, int b)
{
    const tailor_in_lie *lie = &lay->search->lies[a];
    return depth_between(lay, facings_of(lay, a, lie->turned), lie, b);
}

bool tailor_in_lay_overlaps(const tailor_lay *lay, int place)
{
    return cost(lay, place, &lay->search->lies[place], 1e-300) > 0;
}

void tailor_in_lay_face(tailor_lay *lay)
{
    const int n = 2 * lay->kind_count;
    for (int a = 0; a < n; a++)
        for (int b = 0; b < n; b++) {
            tailor_in_facing *f = &lay->search->facings[a * n + b];
            f->moves = tailor_in_lay_table(lay, a / 2, a % 2, b / 2, b % 2, &f->sign);
            const tailor_in_box4 box = f->moves->box;
            f->box = f->sign > 0 ? box : (tailor_in_box4){-box.x1, -box.y1, -box.x0, -box.y0};
        }
}

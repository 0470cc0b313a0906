/* The search: overlap minimisation in a shrinking strip, guided by weights.
 *
 * The strip is made a little shorter than the best lay. Pieces that overlap are moved one after another to where the
 * weighted sum of their overlaps is least; after each pass the weights of pairs that still overlap grow, so that the
 * search leaves what it cannot mend by small moves (guided local search, Voudouris and Tsang 1999; for shapes on a strip
 * Egeblad, Nielsen and Odgaard 2007). Overlap is measured as the depth of a move in the table of forbidden ones. Where
 * it gets to nothing there is a better lay; where it does not, the search goes back to the best and shakes it. */
#include <math.h>
#include <string.h>
#include "strip.h"

enum { SAMPLES_WIDE = 20, SAMPLES_NEAR = 10, KEPT = 2, PASSES_WITHOUT_GAIN = 100, STRIKES = 2 };
static const double SHRINK_FIRST = 0.02, SHRINK_LEAST = 0.0004, SHRINK_AGAIN = 0.01;

/** A table of forbidden moves as it stands to one kind, turned or not, for another, turned or not. */
typedef struct facing {
    tailor_in_box4 box; /* of the moves, in the strip's directions */
    double sign;
    const tailor_in_forbidden *moves;
} facing;

typedef struct tailor_in_search {
    uint64_t random;
    double longest; /* piece: no strip is shorter */
    double length;  /* of the strip now */
    double shrink;  /* share by which it is made shorter next */
    double total;   /* overlap of all pairs */
    double kept_total;
    int without_gain, strikes, restarts;
    tailor_in_lie *lies, *kept;
    double *weights, *depths; /* [place][place] */
    int *order, *around; /* around: places near to one that is moved */
    int around_count;
    facing *facings; /* [2 kind + turned][2 kind + turned] */
    double *size; /* of a place's kind: the smaller side of its box */
} search;

static uint64_t draw(search *s)
{
    /* splitmix64 (Steele, Lea and Flood 2014) */
    uint64_t z = s->random += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}
static double draw_unit(search *s) { return (double)(draw(s) >> 11) * 0x1p-53; }
static int draw_below(search *s, int n) { return (int)(draw_unit(s) * n); }

static double clip(double v, double low, double high) { return v < low ? low : v > high ? high : v; }

static const facing *facings_of(const tailor_lay *lay, int place, int turned)
{
    return lay->search->facings + (size_t)(2 * lay->kind_of[place] + turned) * 2 * (size_t)lay->kind_count;
}

static double depth_between(const tailor_lay *lay, const facing *row, const tailor_in_lie *lie, int other)
{
    const tailor_in_lie *to = &lay->search->lies[other];
    const facing *f = &row[2 * lay->kind_of[other] + to->turned];
    const double dx = to->x - lie->x, dy = to->y - lie->y;
    if (dx <= f->box.x0 || dx >= f->box.x1 || dy <= f->box.y0 || dy >= f->box.y1) return 0;
    return tailor_in_lay_depth(f->moves, f->sign * dx, f->sign * dy);
}

/** Weighted overlap of a place if it lay so, with all others; gives up beyond `most`. */
static double cost(const tailor_lay *lay, int place, const tailor_in_lie *lie, double most)
{
    const search *s = lay->search;
    const int n = lay->place_count;
    const double *weights = s->weights + (size_t)place * (size_t)n;
    const facing *row = facings_of(lay, place, lie->turned);
    double sum = 0;
    for (int j = 0; j < n && sum < most; j++)
        if (j != place) sum += weights[j] * depth_between(lay, row, lie, j);
    return sum;
}

/** List the places that can be overlapped from within a reach of a lie. */
static void gather(tailor_lay *lay, int place, const tailor_in_lie *lie, double reach)
{
    search *s = lay->search;
    const facing *row = facings_of(lay, place, lie->turned);
    s->around_count = 0;
    for (int j = 0; j < lay->place_count; j++) {
        const facing *f = &row[2 * lay->kind_of[j] + s->lies[j].turned];
        const double dx = s->lies[j].x - lie->x, dy = s->lies[j].y - lie->y;
        if (j != place && dx > f->box.x0 - reach && dx < f->box.x1 + reach && dy > f->box.y0 - reach &&
            dy < f->box.y1 + reach)
            s->around[s->around_count++] = j;
    }
}

/** The same as cost, with those gathered. */
static double cost_around(const tailor_lay *lay, int place, const tailor_in_lie *lie, double most)
{
    const search *s = lay->search;
    const double *weights = s->weights + (size_t)place * (size_t)lay->place_count;
    const facing *row = facings_of(lay, place, lie->turned);
    double sum = 0;
    for (int k = 0; k < s->around_count && sum < most; k++)
        sum += weights[s->around[k]] * depth_between(lay, row, lie, s->around[k]);
    return sum;
}

typedef struct trial {
    tailor_in_lie lie;
    double cost;
} trial;

static void settle(const tailor_lay *lay, int place, tailor_in_lie *lie)
{
    const tailor_in_box4 room = tailor_in_lay_room(lay, lay->kind_of[place], lie->turned, lay->search->length);
    lie->x = clip(floor(lie->x + 0.5), room.x0, room.x1);
    lie->y = clip(floor(lie->y + 0.5), room.y0, room.y1);
}

/** Downhill along the axes and the diagonals, in steps that grow with success and shrink without. */
static void descend(tailor_lay *lay, int place, trial *t, double step, double least)
{
    static const double way[4][2] = {{1, 0}, {0, 1}, {0.7, 0.7}, {0.7, -0.7}};
    search *s = lay->search;
    double steps[2] = {step, step}, reach = 4 * step;
    tailor_in_lie centre = t->lie;
    if (t->cost > 0) gather(lay, place, &centre, reach);
    while (t->cost > 0 && (steps[0] > least || steps[1] > least)) {
        const double *w = way[draw_below(s, 4)];
        bool better = false;
        const trial from = *t;
        for (int side = -1; side <= 1; side += 2) {
            trial next = from;
            next.lie.x += side * w[0] * steps[0];
            next.lie.y += side * w[1] * steps[1];
            settle(lay, place, &next.lie);
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
    search *s = lay->search;
    if (!(t->cost > 0)) return;
    const double reach = s->size[place] * 0.3;
    const tailor_in_lie centre = t->lie;
    gather(lay, place, &centre, reach);
    for (int round = 0; round < PUSHES && t->cost > 0; round++) {
        const facing *row = facings_of(lay, place, t->lie.turned);
        double nx[6], ny[6], d[6];
        int n = 0;
        for (int k = 0; k < s->around_count && n < 6; k++) {
            const tailor_in_lie *to = &s->lies[s->around[k]];
            const facing *f = &row[2 * lay->kind_of[s->around[k]] + to->turned];
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
                settle(lay, place, &next.lie);
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

static void move(tailor_lay *lay, int place)
{
    search *s = lay->search;
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
            t.lie.x = room.x0 + (room.x1 - room.x0) * draw_unit(s);
            t.lie.y = room.y0 + (room.y1 - room.y0) * draw_unit(s);
        } else {
            t.lie.x += size * (draw_unit(s) - 0.5);
            t.lie.y += size * (draw_unit(s) - 0.5);
        }
        settle(lay, place, &t.lie);
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

/** Depths of all pairs, their sum, and the greatest of them. */
static double look(tailor_lay *lay)
{
    search *s = lay->search;
    const int n = lay->place_count;
    double greatest = 0;
    s->total = 0;
    for (int i = 0; i < n; i++)
        for (int j = 0; j < i; j++) {
            const double depth = depth_between(lay, facings_of(lay, i, s->lies[i].turned), &s->lies[i], j);
            s->depths[(size_t)i * (size_t)n + (size_t)j] = s->depths[(size_t)j * (size_t)n + (size_t)i] = depth;
            s->total += depth;
            greatest = depth > greatest ? depth : greatest;
        }
    return greatest;
}

static void weigh(tailor_lay *lay, double greatest)
{
    search *s = lay->search;
    const size_t n = (size_t)lay->place_count;
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < i; j++) {
            const double depth = s->depths[i * n + j];
            double w = s->weights[i * n + j];
            w = depth > 0 ? w * (1.05 + 0.45 * depth / greatest) : w > 1 / 0.95 ? w * 0.95 : 1;
            w = w < 1e100 ? w : 1e100;
            s->weights[i * n + j] = s->weights[j * n + i] = w;
        }
}

static void even_weights(tailor_lay *lay)
{
    for (size_t i = 0; i < (size_t)lay->place_count * (size_t)lay->place_count; i++) lay->search->weights[i] = 1;
}

static void copy(const tailor_lay *lay, tailor_in_lie *to, const tailor_in_lie *from)
{
    memcpy(to, from, (size_t)lay->place_count * sizeof *to);
}

/** Go on from the best lay with a shorter strip: what lies beyond a place drawn at random moves up. */
static void shorten(tailor_lay *lay)
{
    search *s = lay->search;
    const double best = (double)lay->best_length, most = best - s->longest;
    const double by = fmin(floor(best * s->shrink) + 1, most), cut = best * draw_unit(s);
    s->length = best - by;
    copy(lay, s->lies, lay->best);
    for (int i = 0; i < lay->place_count; i++) {
        if (s->lies[i].x > cut) s->lies[i].x -= by;
        settle(lay, i, &s->lies[i]);
    }
    even_weights(lay);
    s->strikes = s->without_gain = 0;
    (void)look(lay);
    s->kept_total = s->total;
    copy(lay, s->kept, s->lies);
}

/** Half way back toward the best lay: what was reached in the shorter strip is drawn out over a longer one. */
static void stretch(tailor_lay *lay)
{
    search *s = lay->search;
    const double before = s->length;
    s->length = fmax((double)lay->best_length - floor((double)lay->best_length * s->shrink) - 1, before);
    copy(lay, s->lies, s->kept);
    for (int i = 0; i < lay->place_count; i++) {
        s->lies[i].x *= s->length / before;
        settle(lay, i, &s->lies[i]);
    }
    even_weights(lay);
    (void)look(lay);
    s->kept_total = s->total;
    copy(lay, s->kept, s->lies);
}

/** Two pieces, the larger ones more likely, change places. */
static void shake(tailor_lay *lay)
{
    search *s = lay->search;
    int a = draw_below(s, lay->place_count), b = draw_below(s, lay->place_count);
    for (int i = 0; i < 2; i++) {
        const int c = draw_below(s, lay->place_count), d = draw_below(s, lay->place_count);
        if (lay->kinds[lay->kind_of[c]].area > lay->kinds[lay->kind_of[a]].area) a = c;
        if (lay->kinds[lay->kind_of[d]].area > lay->kinds[lay->kind_of[b]].area && lay->kind_of[d] != lay->kind_of[a])
            b = d;
    }
    const tailor_in_lie la = s->lies[a], lb = s->lies[b];
    s->lies[a].x = lb.x;
    s->lies[a].y = lb.y;
    s->lies[b].x = la.x;
    s->lies[b].y = la.y;
    settle(lay, a, &s->lies[a]);
    settle(lay, b, &s->lies[b]);
    (void)look(lay);
    s->kept_total = s->total;
    copy(lay, s->kept, s->lies);
}

static void found(tailor_lay *lay)
{
    search *s = lay->search;
    const int64_t used = tailor_in_lay_used(lay, s->lies);
    if (tailor_in_lay_prove(lay, s->lies, used, NULL) != TAILOR_OK) {
        lay->dead = 1;
        return;
    }
    if (used < lay->best_length) {
        lay->best_length = used;
        copy(lay, lay->best, s->lies);
    }
    shorten(lay);
}

void tailor_in_lay_pass(tailor_lay *lay)
{
    search *s = lay->search;
    const int n = lay->place_count;
    if ((double)lay->best_length <= s->longest) return; /* it cannot be shorter */
    for (int i = 0; i < n; i++) {
        const int j = draw_below(s, i + 1);
        s->order[i] = s->order[j];
        s->order[j] = i;
    }
    for (int k = 0; k < n; k++) {
        const int i = s->order[k];
        if (cost(lay, i, &s->lies[i], 1e-300) > 0) move(lay, i);
    }
    const double greatest = look(lay);
    if (s->total == 0) {
        found(lay);
        return;
    }
    weigh(lay, greatest);
    if (s->total < s->kept_total) {
        if (s->total < 0.98 * s->kept_total) s->without_gain = 0;
        s->kept_total = s->total;
        copy(lay, s->kept, s->lies);
    } else if (++s->without_gain >= PASSES_WITHOUT_GAIN) {
        s->without_gain = 0;
        if (++s->strikes < STRIKES) {
            copy(lay, s->lies, s->kept);
            even_weights(lay);
        } else {
            s->strikes = 0;
            if (s->shrink > SHRINK_LEAST) {
                s->shrink /= 2;
                stretch(lay);
            } else {
                s->shrink = SHRINK_AGAIN;
                shorten(lay);
                if (s->restarts++ % 2 == 1) shake(lay);
            }
        }
    }
}

static void face(tailor_lay *lay)
{
    const int n = 2 * lay->kind_count;
    for (int a = 0; a < n; a++)
        for (int b = 0; b < n; b++) {
            facing *f = &lay->search->facings[a * n + b];
            f->moves = tailor_in_lay_table(lay, a / 2, a % 2, b / 2, b % 2, &f->sign);
            const tailor_in_box4 box = f->moves->box;
            f->box = f->sign > 0 ? box : (tailor_in_box4){-box.x1, -box.y1, -box.x0, -box.y0};
        }
}

tailor_status tailor_in_lay_search_new(tailor_lay *lay, uint64_t seed)
{
    const size_t n = (size_t)lay->place_count;
    search *s = lay->search = tailor_in_lay_memory(lay, 1, sizeof *s);
    if (!s) return TAILOR_NO_MEMORY;
    s->random = seed;
    s->shrink = SHRINK_FIRST;
    s->lies = tailor_in_lay_memory(lay, n, sizeof *s->lies);
    s->kept = tailor_in_lay_memory(lay, n, sizeof *s->kept);
    s->weights = tailor_in_lay_memory(lay, n * n, sizeof *s->weights);
    s->depths = tailor_in_lay_memory(lay, n * n, sizeof *s->depths);
    s->order = tailor_in_lay_memory(lay, n, sizeof *s->order);
    s->around = tailor_in_lay_memory(lay, n, sizeof *s->around);
    s->size = tailor_in_lay_memory(lay, n, sizeof *s->size);
    s->facings = tailor_in_lay_memory(lay, 4 * (size_t)lay->kind_count * (size_t)lay->kind_count, sizeof *s->facings);
    if (!s->lies || !s->kept || !s->weights || !s->depths || !s->order || !s->around || !s->size || !s->facings)
        return TAILOR_NO_MEMORY;
    face(lay);
    for (size_t i = 0; i < n; i++) {
        const tailor_in_kind *k = &lay->kinds[lay->kind_of[i]];
        const double x = (double)(k->high.x - k->low.x), y = (double)(k->high.y - k->low.y);
        s->size[i] = x < y ? x : y;
        s->longest = x > s->longest ? x : s->longest;
    }
    shorten(lay);
    return TAILOR_OK;
}

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

enum { SAMPLES_WIDE = 40, SAMPLES_NEAR = 20, KEPT = 3, PASSES_WITHOUT_GAIN = 60, STRIKES = 3 };

typedef struct tailor_in_search {
    uint64_t random;
    double length;  /* of the strip now */
    double shrink;  /* share by which it is made shorter next */
    double total;   /* overlap of all pairs */
    double kept_total;
    int without_gain, strikes;
    tailor_in_lie *lies, *kept;
    double *weights, *depths; /* [place][place] */
    int *order;
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

static double pair_depth(const tailor_lay *lay, int a, const tailor_in_lie *la, int b, const tailor_in_lie *lb)
{
    double sign;
    const tailor_in_forbidden *f =
        tailor_in_lay_table(lay, lay->kind_of[a], la->turned, lay->kind_of[b], lb->turned, &sign);
    return tailor_in_lay_depth(f, sign * (lb->x - la->x), sign * (lb->y - la->y));
}

/** Weighted overlap of a place if it lay so; gives up beyond `most`. */
static double cost(const tailor_lay *lay, int place, const tailor_in_lie *lie, double most)
{
    const search *s = lay->search;
    const int n = lay->place_count;
    const double *weights = s->weights + (size_t)place * (size_t)n;
    double sum = 0;
    for (int j = 0; j < n; j++) {
        if (j == place) continue;
        const double depth = pair_depth(lay, place, lie, j, &s->lies[j]);
        if (depth > 0) {
            sum += depth * weights[j];
            if (sum >= most) return sum;
        }
    }
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
    double steps[2] = {step, step};
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
            next.cost = cost(lay, place, &next.lie, t->cost);
            if (next.cost < t->cost) {
                *t = next;
                better = true;
            }
        }
        for (int axis = 0; axis < 2; axis++)
            if (w[axis] != 0) steps[axis] *= better ? 1.1 : 0.5;
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
    descend(lay, place, &best, size * 0.01, size * 1e-4);
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
            const double depth = pair_depth(lay, i, &s->lies[i], j, &s->lies[j]);
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
            w = depth > 0 ? w * (1.2 + 0.8 * depth / greatest) : w > 1 / 0.95 ? w * 0.95 : 1;
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
    const double best = (double)lay->best_length, by = floor(best * s->shrink) + 1, cut = best * draw_unit(s);
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
            s->shrink = s->shrink > 0.0004 ? s->shrink / 2 : 0.002;
            shorten(lay);
            shake(lay);
        }
    }
}

tailor_status tailor_in_lay_search_new(tailor_lay *lay, uint64_t seed)
{
    const size_t n = (size_t)lay->place_count;
    search *s = lay->search = tailor_in_lay_memory(lay, 1, sizeof *s);
    if (!s) return TAILOR_NO_MEMORY;
    s->random = seed;
    s->shrink = 0.02;
    s->lies = tailor_in_lay_memory(lay, n, sizeof *s->lies);
    s->kept = tailor_in_lay_memory(lay, n, sizeof *s->kept);
    s->weights = tailor_in_lay_memory(lay, n * n, sizeof *s->weights);
    s->depths = tailor_in_lay_memory(lay, n * n, sizeof *s->depths);
    s->order = tailor_in_lay_memory(lay, n, sizeof *s->order);
    s->size = tailor_in_lay_memory(lay, n, sizeof *s->size);
    if (!s->lies || !s->kept || !s->weights || !s->depths || !s->order || !s->size) return TAILOR_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        const tailor_in_kind *k = &lay->kinds[lay->kind_of[i]];
        const double x = (double)(k->high.x - k->low.x), y = (double)(k->high.y - k->low.y);
        s->size[i] = x < y ? x : y;
    }
    shorten(lay);
    return TAILOR_OK;
}

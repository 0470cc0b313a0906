/* The search: overlap minimisation in a shrinking strip, guided by weights.
 *
 * The strip is made a little shorter than the best lay. Pieces that overlap are moved one after another to where the
 * weighted sum of their overlaps is least; after each pass the weights of pairs that still overlap grow, so that the
 * search leaves what it cannot mend by small moves (guided local search, Voudouris and Tsang 1999; for shapes on strips
 * Egeblad, Nielsen and Odgaard 2007). Overlap is measured as the depth of a move in the table of forbidden ones. Where
 * it gets to nothing there is a better lay; where it does not, the search goes back to the best and shakes it. */
#include <math.h>
#include <string.h>
#include "search.h"

enum { PASSES_WITHOUT_GAIN = 100, STRIKES = 2, SHAKEN = 20, SWAPS = 3 };
static const double SHRINK_FIRST = 0.02, SHRINK_LEAST = 0.0004, SHRINK_AGAIN = 0.01;

/** Depths of all pairs, their sum, and the greatest of them. */
static double look(tailor_lay *lay)
{
    tailor_in_search *s = lay->search;
    const int n = lay->place_count;
    double greatest = 0;
    s->total = 0;
    for (int i = 0; i < n; i++)
        for (int j = 0; j < i; j++) {
            const double depth = tailor_in_lay_overlap(lay, i, j);
            s->depths[(size_t)i * (size_t)n + (size_t)j] = s->depths[(size_t)j * (size_t)n + (size_t)i] = depth;
            s->total += depth;
            greatest = depth > greatest ? depth : greatest;
        }
    return greatest;
}

static void weigh(tailor_lay *lay, double greatest)
{
    tailor_in_search *s = lay->search;
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
    tailor_in_search *s = lay->search;
    const double best = (double)lay->best_length, most = best - s->longest;
    const double by = fmin(floor(best * s->shrink) + 1, most), cut = best * tailor_in_lay_draw(s);
    s->length = best - by;
    copy(lay, s->lies, lay->best);
    for (int i = 0; i < lay->place_count; i++) {
        if (s->lies[i].x > cut) s->lies[i].x -= by;
        tailor_in_lay_settle(lay, i, &s->lies[i]);
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
    tailor_in_search *s = lay->search;
    const double before = s->length;
    s->length = fmax((double)lay->best_length - floor((double)lay->best_length * s->shrink) - 1, before);
    copy(lay, s->lies, s->kept);
    for (int i = 0; i < lay->place_count; i++) {
        s->lies[i].x *= s->length / before;
        tailor_in_lay_settle(lay, i, &s->lies[i]);
    }
    even_weights(lay);
    (void)look(lay);
    s->kept_total = s->total;
    copy(lay, s->kept, s->lies);
}

/** Two pieces, the larger ones more likely, change places. */
static void shake(tailor_lay *lay)
{
    tailor_in_search *s = lay->search;
    int a = tailor_in_lay_draw_below(s, lay->place_count), b = tailor_in_lay_draw_below(s, lay->place_count);
    for (int i = 0; i < 2; i++) {
        const int c = tailor_in_lay_draw_below(s, lay->place_count), d = tailor_in_lay_draw_below(s, lay->place_count);
        if (lay->kinds[lay->kind_of[c]].area > lay->kinds[lay->kind_of[a]].area) a = c;
        if (lay->kinds[lay->kind_of[d]].area > lay->kinds[lay->kind_of[b]].area && lay->kind_of[d] != lay->kind_of[a])
            b = d;
    }
    const tailor_in_lie la = s->lies[a], lb = s->lies[b];
    s->lies[a].x = lb.x;
    s->lies[a].y = lb.y;
    s->lies[b].x = la.x;
    s->lies[b].y = la.y;
    tailor_in_lay_settle(lay, a, &s->lies[a]);
    tailor_in_lay_settle(lay, b, &s->lies[b]);
    (void)look(lay);
    s->kept_total = s->total;
    copy(lay, s->kept, s->lies);
}

static void found(tailor_lay *lay)
{
    tailor_in_search *s = lay->search;
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
    tailor_in_search *s = lay->search;
    const int n = lay->place_count;
    if ((double)lay->best_length <= s->longest) return; /* it cannot be shorter */
    for (int i = 0; i < n; i++) {
        const int j = tailor_in_lay_draw_below(s, i + 1);
        s->order[i] = s->order[j];
        s->order[j] = i;
    }
    for (int k = 0; k < n; k++) {
        const int i = s->order[k];
        if (tailor_in_lay_overlaps(lay, i)) tailor_in_lay_move(lay, i);
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
                /* many pieces find other ways by themselves; few want to be shaken each time */
                if (tailor_in_lay_draw_below(s, lay->place_count) < SHAKEN)
                    for (int i = 0; i < SWAPS; i++) shake(lay);
            }
        }
    }
}

tailor_status tailor_in_lay_search_new(tailor_lay *lay, uint64_t seed)
{
    const size_t n = (size_t)lay->place_count;
    tailor_in_search *s = lay->search = tailor_in_lay_memory(lay, 1, sizeof *s);
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
    tailor_in_lay_face(lay);
    for (size_t i = 0; i < n; i++) {
        const tailor_in_kind *k = &lay->kinds[lay->kind_of[i]];
        const double x = (double)(k->high.x - k->low.x), y = (double)(k->high.y - k->low.y);
        s->size[i] = x < y ? x : y;
        s->longest = x > s->longest ? x : s->longest;
    }
    shorten(lay);
    return TAILOR_OK;
}

/* The first lay: piece after piece, each as far to the left as it will go. The strip is looked at along lines of equal
 * y; on each, what is forbidden are intervals of x. Several orders of the pieces are tried. */
#include <math.h>
#include <string.h>
#include "strip.h"

enum { LINES = 48 };

typedef struct start {
    tailor_lay *lay;
    tailor_in_lie *lies;
    int *order;
    double *key;
    int placed;
    double *from, *to; /* forbidden intervals on the line */
} start;

/** Where a line of equal y passes through a convex part; false where it does not. */
static bool interval(const tailor_in_forbidden *f, int part, double y, double *from, double *to)
{
    double x0 = f->boxes[part].x0, x1 = f->boxes[part].x1;
    if (y <= f->boxes[part].y0 || y >= f->boxes[part].y1) return false;
    for (int s = f->first[part]; s < f->first[part + 1]; s++) {
        const tailor_in_side *side = &f->sides[s];
        const double rest = side->c - side->ny * y;
        if (side->nx > 0 && rest < side->nx * x1) x1 = rest / side->nx;
        if (side->nx < 0 && rest < side->nx * x0) x0 = rest / side->nx;
    }
    *from = x0;
    *to = x1;
    return x1 > x0;
}

static bool is_free(const start *s, int kind, int turned, double x, double y)
{
    for (int k = 0; k < s->placed; k++) {
        const tailor_in_lie *other = &s->lies[s->order[k]];
        double sign;
        const tailor_in_forbidden *f =
            tailor_in_lay_table(s->lay, s->lay->kind_of[s->order[k]], other->turned, kind, turned, &sign);
        if (tailor_in_lay_depth(f, sign * (x - other->x), sign * (y - other->y)) > 0) return false;
    }
    return true;
}

/** The smallest x of at least `least` that is free on a line; `most` or more when there is none below it. */
static double leftmost(start *s, int kind, int turned, double y, double least, double most)
{
    int count = 0;
    for (int k = 0; k < s->placed; k++) {
        const tailor_in_lie *other = &s->lies[s->order[k]];
        double sign;
        const tailor_in_forbidden *f =
            tailor_in_lay_table(s->lay, s->lay->kind_of[s->order[k]], other->turned, kind, turned, &sign);
        const double dy = sign * (y - other->y);
        if (dy <= f->box.y0 || dy >= f->box.y1) continue;
        for (int part = 0; part < f->part_count; part++) {
            double a, b;
            if (!interval(f, part, dy, &a, &b)) continue;
            s->from[count] = other->x + (sign > 0 ? a : -b);
            s->to[count] = other->x + (sign > 0 ? b : -a);
            if (s->to[count] > least) count++;
        }
    }
    double x = least;
    for (bool moved = true; moved && x < most;) {
        moved = false;
        for (int i = 0; i < count; i++)
            if (x > s->from[i] && x < s->to[i]) {
                x = ceil(s->to[i]);
                moved = true;
            }
    }
    /* the interval's end is rounded: the exact test has the last word */
    for (int k = 0; k < 4 && x < most && !is_free(s, kind, turned, x, y); k++) x += 1;
    return x < most && is_free(s, kind, turned, x, y) ? x : most;
}

/** Try one line; a place whose right end comes before the best one's is the best. */
static void try_line(start *s, int kind, int turned, double y, double *best_end, tailor_in_lie *best)
{
    const tailor_in_kind *k = &s->lay->kinds[kind];
    const tailor_in_box4 room = tailor_in_lay_room(s->lay, kind, turned, 0);
    const double right = turned ? -(double)k->low.x : (double)k->high.x;
    if (y < room.y0 || y > room.y1) return;
    const double x = leftmost(s, kind, turned, y, room.x0, *best_end - right);
    if (x + right < *best_end) {
        *best_end = x + right;
        *best = (tailor_in_lie){x, y, turned};
    }
}

static void put(start *s, int place, double end)
{
    const int kind = s->lay->kind_of[place];
    tailor_in_lie best = {0, 0, 0};
    for (int turned = 0; turned <= (s->lay->kinds[kind].half_turn ? 1 : 0); turned++) {
        const tailor_in_box4 room = tailor_in_lay_room(s->lay, kind, turned, 0);
        for (int line = 0; line <= LINES; line++)
            try_line(s, kind, turned, floor(room.y0 + (room.y1 - room.y0) * line / LINES), &end, &best);
        for (int k = 0; k < s->placed; k++) {
            const tailor_in_lie *other = &s->lies[s->order[k]];
            double sign;
            const tailor_in_forbidden *f =
                tailor_in_lay_table(s->lay, s->lay->kind_of[s->order[k]], other->turned, kind, turned, &sign);
            try_line(s, kind, turned, other->y + sign * f->box.y0, &end, &best);
            try_line(s, kind, turned, other->y + sign * f->box.y1, &end, &best);
        }
    }
    s->lies[place] = best;
    s->order[s->placed++] = place;
}

/** What pieces are ordered by, the larger first. */
static double key(const tailor_in_kind *k, int way)
{
    const double x = (double)(k->high.x - k->low.x), y = (double)(k->high.y - k->low.y);
    const double keys[4] = {k->area, x, y, x * y};
    return keys[way];
}

tailor_status tailor_in_lay_start(tailor_lay *lay)
{
    const int n = lay->place_count;
    struct tailor_in_block *keep;
    int most_parts = 0;
    double end = 1;
    for (int i = 0; i < 2 * lay->kind_count * lay->kind_count; i++)
        if (lay->forbidden[i].part_count > most_parts) most_parts = lay->forbidden[i].part_count;
    lay->best = tailor_in_lay_memory(lay, (size_t)n, sizeof *lay->best);
    keep = lay->blocks;
    start s = {lay, tailor_in_lay_memory(lay, (size_t)n, sizeof *s.lies),
               tailor_in_lay_memory(lay, (size_t)n, sizeof *s.order),
               tailor_in_lay_memory(lay, (size_t)n, sizeof *s.key), 0,
               tailor_in_lay_memory(lay, (size_t)n * (size_t)most_parts, sizeof *s.from),
               tailor_in_lay_memory(lay, (size_t)n * (size_t)most_parts, sizeof *s.to)};
    if (!lay->best || !s.lies || !s.order || !s.key || !s.from || !s.to) return TAILOR_NO_MEMORY;
    for (int i = 0; i < n; i++) {
        const tailor_in_kind *k = &lay->kinds[lay->kind_of[i]];
        end += (double)(k->high.x - k->low.x + lay->apart);
    }
    for (int way = 0; way < 4; way++) {
        int *todo = s.order; /* what is placed comes before what is not */
        for (int i = 0; i < n; i++) {
            int at = i;
            const double size = key(&lay->kinds[lay->kind_of[i]], way);
            for (; at > 0 && s.key[at - 1] < size; at--) {
                s.key[at] = s.key[at - 1];
                todo[at] = todo[at - 1];
            }
            s.key[at] = size;
            todo[at] = i;
        }
        for (s.placed = 0; s.placed < n;) put(&s, todo[s.placed], end);
        const int64_t used = tailor_in_lay_used(lay, s.lies);
        if (way == 0 || used < lay->best_length) {
            lay->best_length = used;
            memcpy(lay->best, s.lies, (size_t)n * sizeof *s.lies);
        }
    }
    tailor_in_lay_release(lay, keep);
    return TAILOR_OK;
}

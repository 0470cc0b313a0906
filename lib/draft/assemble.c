#include "assemble.h"

#include <string.h>

/* Arrays of a block: pieces, edges, points, marks, seams, stretches, cubics. Those of two sides, since they may
 * differ. */
static const int capacity[][TAILOR_IN_ARRAYS] = {
    [TAILOR_IN_NET] = {16, 96, 128, 176, 32, 80, 720},
    [TAILOR_IN_WHOLE] = {64, 320, 128, 288, 80, 200, 2000},
};
enum { MOST_PIECES = 64 };

size_t tailor_in_draft_bytes(int extent) { return tailor_in_pattern_bytes(capacity[extent]); }

static void add_side(tailor_pattern *p, const tailor_in_draft *d, int extent)
{
    static void (*const net[])(tailor_pattern *, const tailor_in_draft *) = {
        tailor_in_add_back, tailor_in_add_sidebody, tailor_in_add_forepart, tailor_in_add_sleeves,
        tailor_in_add_under_collar};
    static void (*const make[])(tailor_pattern *, const tailor_in_draft *) = {
        tailor_in_add_facing,       tailor_in_add_top_collar,    tailor_in_add_pocket_pieces, tailor_in_add_body_lining,
        tailor_in_add_sleeve_lining, tailor_in_add_canvas, tailor_in_add_stays};
    for (size_t i = 0; i < sizeof net / sizeof *net; i++)
        net[i](p, d);
    for (size_t i = 0; extent == TAILOR_IN_WHOLE && i < sizeof make / sizeof *make; i++)
        make[i](p, d);
}

/** Two sets of pieces, the right side's and the left's, become one: what is alike serves both sides, the rest stands
 *  side by side, each a piece of one side alone. */
static void pair_sides(tailor_pattern *p, int right_count)
{
    struct tailor_in_piece *pieces = TAILOR_IN_AT(p, struct tailor_in_piece, TAILOR_IN_PIECES), paired[MOST_PIECES];
    int total = p->count[TAILOR_IN_PIECES], count = 0;
    if (p->full)
        return;
    for (int right = 0, left = right_count; right < right_count; right++) {
        if (!pieces[right].mirrored && pieces[right].side == TAILOR_SIDE_LEFT) { /* the welt, which only the left has */
            paired[count++] = pieces[left++];
            continue;
        }
        int alike = left < total && tailor_in_piece_same(p, right, left);
        int counterpart = left < total && pieces[left].number == pieces[right].number;
        if (!alike && counterpart) {
            tailor_in_piece_set_side(p, right, TAILOR_SIDE_RIGHT);
            tailor_in_piece_set_side(p, left, TAILOR_SIDE_LEFT);
        }
        paired[count++] = pieces[right];
        if (!alike && counterpart)
            paired[count++] = pieces[left];
        left += counterpart;
    }
    memcpy(pieces, paired, (size_t)count * sizeof *pieces);
    p->count[TAILOR_IN_PIECES] = count;
}

static void sew(tailor_pattern *p, const tailor_in_draft *d, int side, int paired, int extent)
{
    tailor_in_sewing s = {p, d, side, paired};
    tailor_in_sew_body(&s);
    if (extent != TAILOR_IN_WHOLE)
        return;
    tailor_in_sew_facing(&s);
    tailor_in_sew_top_collar(&s);
    tailor_in_sew_body_lining(&s);
    tailor_in_sew_sleeve_lining(&s);
}

tailor_pattern *tailor_in_draft_assemble(const tailor_in_draft *right, const tailor_in_draft *left, int extent,
                                        void *block, tailor_allocator allocator)
{
    tailor_pattern *p = tailor_in_pattern_begin(block, capacity[extent], allocator);
    add_side(p, right, extent);
    if (left) {
        int right_count = p->count[TAILOR_IN_PIECES];
        add_side(p, left, extent);
        pair_sides(p, right_count);
    }
    sew(p, right, TAILOR_SIDE_RIGHT, left != NULL, extent);
    if (left)
        sew(p, left, TAILOR_SIDE_LEFT, 1, extent);
    return tailor_in_pattern_end(p) == TAILOR_OK ? p : NULL;
}

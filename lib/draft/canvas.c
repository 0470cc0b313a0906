/* All that is canvas; here the canvas of the under collar, which has the under collar's own net outline: the melton is
 * felled over it. */
#include "canvas.h"
#include "put.h"

static void add_collar_canvas(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_point neck_back = tailor_in_path_end(&d->collar_neck), leaf_back = tailor_in_path_end(&d->collar_leaf);
    tailor_cubic centre = tailor_in_line(leaf_back, neck_back), end = tailor_in_line(d->root, d->collar_point);
    tailor_in_add_piece(p, TAILOR_PIECE_COLLAR_CANVAS, 2, 1, TAILOR_SIDE_RIGHT, "canvas");
    tailor_in_add_edge(p, TAILOR_EDGE_CENTRE_BACK, &centre, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_NECK, &d->collar_neck);
    if (!tailor_in_shawl(d->f))
        tailor_in_add_edge(p, TAILOR_EDGE_END, &end, 1);
    tailor_in_add_path(p, TAILOR_EDGE_LEAF, &d->collar_leaf);

    tailor_point down = unit(sub(neck_back, leaf_back)), bias = unit(add(down, left_of(down)));
    if (bias.y < 0)
        bias = times(bias, -1);
    tailor_point middle = times(add(add(d->leaf_at_shoulder, d->neck_point), add(leaf_back, neck_back)), 0.25);
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, along(middle, bias, -24), along(middle, bias, 24));
    tailor_in_add_mark(p, TAILOR_MARKED_CREASE, TAILOR_MARK_FOLD, d->crease.c, d->crease.count);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_NECK, TAILOR_EDGE_NECK, 1);
}

void tailor_in_add_canvas(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_in_add_body_canvas(p, d);
    tailor_in_add_chest_pieces(p, d);
    add_collar_canvas(p, d);
}

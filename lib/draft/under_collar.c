#include "assemble.h"
#include "put.h"

void tailor_in_add_under_collar(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_point neck_back = tailor_in_path_end(&d->collar_neck), leaf_back = tailor_in_path_end(&d->collar_leaf);
    tailor_cubic centre = tailor_in_line(leaf_back, neck_back), end = tailor_in_line(d->root, d->collar_point);
    tailor_in_add_piece(p, TAILOR_PIECE_UNDER_COLLAR, 2, 1, TAILOR_SIDE_RIGHT, "melton");
    tailor_in_add_edge(p, TAILOR_EDGE_CENTRE_BACK, &centre, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_NECK, &d->collar_neck);
    if (!tailor_in_shawl(d->f)) /* its leaf edge runs on into the lapel's */
        tailor_in_add_edge(p, TAILOR_EDGE_END, &end, 1);
    tailor_in_add_path(p, TAILOR_EDGE_LEAF, &d->collar_leaf);

    tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, d->neck_point);
    tailor_in_add_point(p, TAILOR_POINT_STAND_POINT, d->stand_point);
    tailor_in_add_point(p, TAILOR_POINT_CREASE_BACK, tailor_in_path_end(&d->crease));
    tailor_in_add_point(p, TAILOR_POINT_COLLAR_POINT, d->collar_point);
    tailor_in_add_point(p, TAILOR_POINT_COLLAR_END, d->root);

    /* Grain at 45 degrees to the centre back: on the bias. */
    tailor_point along_back = unit(sub(neck_back, leaf_back)), bias = unit(add(along_back, left_of(along_back)));
    if (bias.y < 0)
        bias = times(bias, -1);
    tailor_point middle = times(add(add(d->leaf_at_shoulder, d->neck_point), add(leaf_back, neck_back)), 0.25);
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, along(middle, bias, -24), along(middle, bias, 24));
    tailor_in_add_mark(p, TAILOR_MARKED_CREASE, TAILOR_MARK_FOLD, d->crease.c, d->crease.count);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_NECK, TAILOR_EDGE_NECK, 1); /* the end of the arc */
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_GORGE, TAILOR_EDGE_NECK, 2);
}

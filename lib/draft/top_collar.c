/* Top collar: the under collar drafted again, wider by its turn over the crease and by what rolls under at the edge,
 * and bent a little more behind the neck so that its leaf edge is longer. In front it begins with the facing's gorge.
 */
#include "aside.h"
#include "assemble.h"
#include "facing.h"
#include "put.h"

/** Where the leaf edge behind the neck goes over into its front, as on the under collar. */
static const double LEAF_JOIN = 0.45;
/** How much more or less than the under collar the top collar may bend behind the neck. */
static const double BEND_MOST = 20 * TAILOR_IN_RADIANS;

double tailor_in_turn(const tailor_in_draft *d)
{
    double apart = d->f[TAILOR_FIELD_CLOTH_THICKNESS] + d->f[TAILOR_FIELD_CANVAS_THICKNESS] +
                   d->k[TAILOR_CONSTANT_PADDING_THICKNESS];
    return apart * TAILOR_IN_PI;
}

/** Width of the top collar at the centre back. */
static double top_width(const tailor_in_draft *d)
{
    return d->f[TAILOR_FIELD_COLLAR_STAND] + d->f[TAILOR_FIELD_COLLAR_FALL] + tailor_in_turn(d) +
           d->k[TAILOR_CONSTANT_TOP_COLLAR_EDGE];
}

struct bending {
    const tailor_in_draft *draft;
    tailor_point from, leaves;
    double length, back_neck, width;
};

static tailor_in_top_collar bent(const struct bending *with, double bend)
{
    const tailor_in_draft *d = with->draft;
    tailor_in_top_collar collar = {{0, {{{{0, 0}}}}}, {0, {{{{0, 0}}}}}};
    double b = fabs(bend) < 1e-9 ? 1e-9 : bend,
           share = 4.0 / 3 * tan(b / 4); /* a straight collar's radius is infinite */
    tailor_point heading = add(times(d->inward, sin(b)), times(d->up, cos(b))), outward = right_of(heading), end;
    double length = with->back_neck;
    tailor_cubic arc;
    for (int i = 0; i < 2; i++) { /* a cubic is not quite a circle: the second makes its length exact */
        end = add(along(d->neck_point, d->up, length * sin(b) / b), times(d->inward, length * (1 - cos(b)) / b));
        arc =
            tailor_in_hermite(d->neck_point, times(d->up, share * length / b), end, times(heading, share * length / b));
        if (i == 0)
            length *= with->back_neck / tailor_cubic_length(&arc);
    }
    tailor_in_append(&collar.neck, arc);

    double handle = share * (length / b + with->width);
    tailor_point shoulder = along(d->neck_point, d->inward, -with->width), back = along(end, outward, with->width);
    tailor_cubic behind = tailor_in_hermite(shoulder, times(d->up, handle), back, times(heading, handle));
    behind = tailor_cubic_part(&behind, LEAF_JOIN, 1);
    tailor_point join = behind.p[0], run_on = tailor_cubic_direction(&behind, 0), leaves = with->leaves;
    tailor_point chord = unit(sub(join, with->from));
    if (leaves.x == 0 && leaves.y == 0) /* halfway between the chord and the direction of an arc */
        leaves = unit(add(chord, sub(times(chord, 2 * dot(chord, run_on)), run_on)));
    double reach = distance(join, with->from);
    tailor_in_append(&collar.leaf,
                     tailor_in_hermite(with->from, times(leaves, 0.30 * reach), join, times(run_on, 0.36 * reach)));
    tailor_in_append(&collar.leaf, behind);
    return collar;
}

static double leaf_lacks(const void *with, double bend)
{
    const struct bending *bending = with;
    tailor_in_top_collar collar = bent(bending, bend);
    return tailor_in_length(&collar.leaf) - bending->length;
}

tailor_in_top_collar tailor_in_bend_top_collar(const tailor_in_draft *d, tailor_point from, tailor_point leaves,
                                               double length)
{
    struct bending with = {d, from, leaves, length, tailor_cubic_length(&d->back_neck), top_width(d)};
    double under = d->lay_over * TAILOR_IN_RADIANS;
    double bend = tailor_in_root(leaf_lacks, &with, under - BEND_MOST, under + BEND_MOST, 1e-10);
    if (isnan(bend))
        bend = leaf_lacks(&with, under) < 0 ? under + BEND_MOST : under - BEND_MOST;
    return bent(&with, bend);
}

void tailor_in_add_top_collar(tailor_pattern *p, const tailor_in_draft *d)
{
    if (tailor_in_shawl(d->f))
        return; /* grown on to the facing */
    /* The straight part of the neck edge is the facing's gorge. */
    double gorge = tailor_in_edge_length(p, TAILOR_PIECE_FACING, TAILOR_EDGE_GORGE, 0);
    double straight = gorge - tailor_cubic_length(&d->gorge.c[1]);
    tailor_point turned = along(d->root, d->inward, -tailor_in_turn(d));
    tailor_point root = along(d->gorge_corner, unit(sub(turned, d->gorge_corner)), straight);
    double edge = d->k[TAILOR_CONSTANT_TOP_COLLAR_EDGE];
    tailor_point rise = sub(d->collar_point, d->root), up = unit(rise);
    tailor_point point = along(along(add(root, rise), up, edge), right_of(up), edge);
    tailor_in_top_collar collar = tailor_in_bend_top_collar(
        d, point, at(0, 0), tailor_in_length(&d->collar_leaf) + d->k[TAILOR_CONSTANT_TOP_COLLAR_LONG]);

    tailor_in_path neck = {2, {tailor_in_line(root, d->gorge_corner), d->gorge.c[1]}};
    tailor_in_append(&neck, collar.neck.c[0]);
    tailor_point neck_back = tailor_in_path_end(&neck), leaf_back = tailor_in_path_end(&collar.leaf);
    tailor_cubic centre = tailor_in_line(leaf_back, neck_back), end = tailor_in_line(root, point);
    tailor_in_add_piece(p, TAILOR_PIECE_TOP_COLLAR, 1, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_edge(p, TAILOR_EDGE_CENTRE_BACK, &centre, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_NECK, &neck);
    tailor_in_add_edge(p, TAILOR_EDGE_END, &end, 1);
    tailor_in_add_path(p, TAILOR_EDGE_LEAF, &collar.leaf);

    tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, d->neck_point);
    tailor_in_add_point(p, TAILOR_POINT_COLLAR_POINT, point);
    tailor_in_add_point(p, TAILOR_POINT_COLLAR_END, root);

    /* The centre back is a fold on the straight grain, so that the stripes run on from the back. */
    tailor_point down = unit(sub(neck_back, leaf_back)), middle = along(leaf_back, down, 0.5 * top_width(d));
    middle = along(middle, right_of(down), -22);
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, along(middle, down, 24), along(middle, down, -24));
    tailor_in_add_line(p, TAILOR_MARKED_FOLD_LINE, TAILOR_MARK_FOLD, neck_back, leaf_back);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_NECK, TAILOR_EDGE_NECK, 1);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_GORGE, TAILOR_EDGE_NECK, 2);
}

#define SEWN(piece, edge, from, to)                                                                                    \
    (tailor_in_sewn) { TAILOR_PIECE_##piece, TAILOR_EDGE_##edge, from, to }

void tailor_in_sew_top_collar(const tailor_in_sewing *s)
{
    const tailor_in_draft *d = s->draft;
    double back_neck = tailor_cubic_length(&d->back_neck), end = -1;
    int shawl = tailor_in_shawl(d->f), grown = shawl ? TAILOR_PIECE_FACING : TAILOR_PIECE_TOP_COLLAR;
    double leaf =
        tailor_in_edge_length(s->pattern, grown, TAILOR_EDGE_LEAF, s->side) - tailor_in_length(&d->collar_leaf);
    tailor_in_sewn top_leaf = {grown, TAILOR_EDGE_LEAF, 0, end},
                   top_neck = {grown, TAILOR_EDGE_NECK, 0, shawl ? end : back_neck};
    tailor_in_sew(s, "top_collar_leaf", leaf, top_leaf, SEWN(UNDER_COLLAR, LEAF, 0, end));
    tailor_in_sew(s, "top_collar_neck", 0, top_neck, SEWN(BACK, NECK, end, 0));
    if (shawl)
        return;
    tailor_in_sew(s, "top_collar_gorge", 0, SEWN(TOP_COLLAR, NECK, back_neck, end), SEWN(FACING, GORGE, end, 0));
    double longer = tailor_in_edge_length(s->pattern, TAILOR_PIECE_TOP_COLLAR, TAILOR_EDGE_END, s->side) -
                    distance(d->root, d->collar_point);
    tailor_in_sew(s, "top_collar_end", longer, SEWN(TOP_COLLAR, END, 0, end), SEWN(UNDER_COLLAR, END, 0, end));
}

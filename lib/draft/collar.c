/* Under collar, laid on the forepart: its neck edge is the gorge itself, then an arc as long as the back neck, bent so
 * far that leaf edge and iron together meet the leaf condition. */
#include "draft.h"

/** Where the leaf edge behind the neck goes over into its front, as a part of the way from the shoulder to the centre
 * back. */
static const double LEAF_JOIN = 0.45;

tailor_status tailor_in_draft_collar(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    double stand = f[TAILOR_FIELD_COLLAR_STAND], fall = f[TAILOR_FIELD_COLLAR_FALL], width = stand + fall;
    double back_neck = tailor_cubic_length(&d->back_neck);

    /* Leaf condition: the leaf edge lies (fall - stand + cloth) outside the neck seam and is longer by that much for
     * each radian it turns. The iron gives a part, the cut the rest. */
    double turn = (d->neck_turn + k[TAILOR_CONSTANT_COLLAR_TURN_MORE]) * TAILOR_IN_RADIANS;
    double outside = fall - stand + k[TAILOR_CONSTANT_COLLAR_LAYERS] * f[TAILOR_FIELD_CLOTH_THICKNESS];
    double bend = fmax((outside * turn - k[TAILOR_CONSTANT_LEAF_STRETCH]) / width, 0.5 * TAILOR_IN_RADIANS);
    d->lay_over = bend / TAILOR_IN_RADIANS;
    if (d->lay_over > 45)
        return tailor_in_refuse(
            d, TAILOR_COLLAR_UNSOLVED, TAILOR_FIELD_COLLAR_FALL,
            "%n %v%u is so much more than collar_stand that the collar would have to bend over 45 deg");

    double radius = back_neck / bend;
    tailor_point outward = times(d->inward, -1), end, heading;
    tailor_cubic arc;
    for (int i = 0; i < 2; i++) { /* a cubic is not quite a circle: the second radius makes its length exact */
        tailor_point centre = along(d->neck_point, d->inward, radius);
        heading = add(times(d->inward, sin(bend)), times(d->up, cos(bend)));
        end = add(along(centre, d->inward, -radius * cos(bend)), times(d->up, radius * sin(bend)));
        double handle = 4.0 / 3 * tan(bend / 4) * radius;
        arc = tailor_in_hermite(d->neck_point, times(d->up, handle), end, times(heading, handle));
        if (i == 0)
            radius *= back_neck / tailor_cubic_length(&arc);
    }
    d->collar_neck = d->gorge;
    tailor_in_append(&d->collar_neck, arc);

    tailor_point outward_back = right_of(heading);
    tailor_point leaf_back = along(end, outward_back, width), crease_back = along(end, outward_back, stand);
    double leaf_handle = 4.0 / 3 * tan(bend / 4) * (radius + width);
    d->leaf_at_shoulder = along(d->neck_point, outward, width);

    /* Collar end: at the mouth's angle from the gorge, a little shorter than the step. */
    tailor_point gorge = times(tailor_in_direction_start(&d->gorge), -1);
    double mouth = k[TAILOR_CONSTANT_MOUTH] * TAILOR_IN_RADIANS;
    tailor_point rise = at(cos(mouth) * gorge.x - sin(mouth) * gorge.y, sin(mouth) * gorge.x + cos(mouth) * gorge.y);
    double step = k[TAILOR_CONSTANT_STEP_SHARE] * f[TAILOR_FIELD_LAPEL_WIDTH];
    int shawl = tailor_in_shawl(f);
    d->collar_point = shawl ? d->root : along(d->root, rise, step - k[TAILOR_CONSTANT_COLLAR_END_LESS]);
    if (dot(sub(d->leaf_at_shoulder, d->collar_point), d->up) < 10)
        return tailor_in_refuse(d, TAILOR_COLLAR_UNSOLVED, TAILOR_FIELD_GORGE_DEPTH,
                                "%n %v%u is too small for this lapel_width: the collar point comes above the shoulder");

    /* Leaf edge: behind the neck an arc about the neck edge's centre; from a place behind the shoulder one clean hollow
     * down to the collar point, which it leaves between the chord and the direction of an arc. Cut where it passes the
     * shoulder. */
    tailor_cubic behind =
        tailor_in_hermite(d->leaf_at_shoulder, times(d->up, leaf_handle), leaf_back, times(heading, leaf_handle));
    behind = tailor_cubic_part(&behind, LEAF_JOIN, 1);
    tailor_point join = behind.p[0], run_on = tailor_cubic_direction(&behind, 0);
    tailor_point chord = unit(sub(join, d->collar_point)),
                 arc_leaves = sub(times(chord, 2 * dot(chord, run_on)), run_on);
    double reach = distance(join, d->collar_point);
    tailor_point leaves = unit(add(chord, arc_leaves));
    if (shawl) { /* the lapel's edge, unfolded, runs on */
        tailor_cubic edge = d->worn_edge;
        tailor_path_reflect(&edge, 1, d->stand_point, d->break_point, &edge);
        leaves = times(tailor_cubic_direction(&edge, 0), -1);
    }
    tailor_cubic front =
        tailor_in_hermite(d->collar_point, times(leaves, 0.30 * reach), join, times(run_on, 0.36 * reach));
    double place[3];
    size_t found = 0;
    if (tailor_path_cross_line(&front, 1, d->neck_point, d->leaf_at_shoulder, place, 3, &found) != TAILOR_OK || !found)
        return tailor_in_refuse(d, TAILOR_COLLAR_UNSOLVED, TAILOR_FIELD_GORGE_DEPTH,
                                "%n %v%u puts the collar point behind the shoulder");
    d->collar_leaf.count = 2;
    tailor_cubic_split(&front, place[0], &d->collar_leaf.c[0], &d->collar_leaf.c[1]);
    tailor_in_append(&d->collar_leaf, behind);

    /* Crease: the break line produced, rising from the stand at the neck point to the full stand at the centre back. */
    double run = distance(d->stand_point, crease_back) / 3;
    d->crease.count = 0;
    tailor_in_append(&d->crease, tailor_in_line(d->gorge_crossing, d->stand_point));
    tailor_in_append(&d->crease,
                     tailor_in_hermite(d->stand_point, times(d->up, run), crease_back, times(heading, run)));
    return TAILOR_OK;
}

/* The fold line and the lapel. The lapel is drawn as it lies on the chest, inside the break line, and turned over it.
 */
#include <tailorgeom/fold.h>

#include "draft.h"

/** The back neck runs on from the gorge over the joined shoulder, and lies `lift` above the nape at 0.6 of its width.
 */
static void draw_back_neck(tailor_in_draft *d, tailor_point leaves_neck)
{
    tailor_point front = tailor_cubic_direction(&d->front_shoulder, 0),
                 back = tailor_cubic_direction(&d->back_shoulder, 0);
    tailor_point arrive = carry(leaves_neck, front, back);
    d->neck_turn = atan2(arrive.y, arrive.x) / TAILOR_IN_RADIANS;
    double width = d->back_neck_point.x, rise = d->back_neck_point.y, lift = d->k[TAILOR_CONSTANT_BACK_NECK_LIFT];
    /* The curve's middle (t = 1/2) is the place at 0.6 of the width: both handles follow. */
    double end = (4 * rise - 8 * lift) / (3 * arrive.y);
    double begin = (0.8 * width + 3 * end * arrive.x) / 3;
    d->back_neck = tailor_in_hermite(at(0, 0), at(begin, 0), d->back_neck_point, times(arrive, end));
}

/** The bridle lies behind the break line, from the neck seam down to above the break point. */
static void lay_bridle(tailor_in_draft *d, tailor_point unfolded, double across)
{
    double behind = d->k[TAILOR_CONSTANT_BRIDLE_INSIDE], inside = d->k[TAILOR_CONSTANT_GORGE_INSIDE];
    tailor_point start =
        along(along(d->break_point, d->up, d->k[TAILOR_CONSTANT_BRIDLE_ABOVE_BREAK]), d->inward, behind);
    tailor_point end = along(d->gorge_crossing, unfolded, -behind / across);
    double places[8];
    size_t found = 0;
    if (behind > inside &&
        tailor_path_cross_line(&d->gorge.c[1], 1, start, add(start, d->up), places, 8, &found) == TAILOR_OK &&
        found) /* so far behind that it meets the neck seam above the corner */
        end = tailor_in_point(&d->gorge.c[1], places[0]);
    d->bridle[0] = start;
    d->bridle[1] = along(start, d->up, dot(sub(end, start), d->up));
}

/** Unfolded gorge: straight from the step over the break line to its corner, then up to the neck point, where it is
 *  parallel to the break line so that the collar lies flat. */
static tailor_status draw_gorge(tailor_in_draft *d)
{
    double slope = d->f[TAILOR_FIELD_GORGE_SLOPE] * TAILOR_IN_RADIANS;
    double across = dot(at(-cos(slope), -sin(slope)), d->inward);
    tailor_point unfolded = unit(sub(d->root, d->gorge_crossing));
    d->gorge_corner = along(d->gorge_crossing, unfolded, -d->k[TAILOR_CONSTANT_GORGE_INSIDE] / across);
    tailor_point to_neck = sub(d->neck_point, d->gorge_corner);
    double upward = norm(to_neck);
    if (dot(to_neck, d->up) < 15)
        return tailor_in_refuse(d, TAILOR_FRONT_UNSOLVED, TAILOR_FIELD_GORGE_DEPTH,
                                "%n %v%u puts the gorge too near the neck point: give a greater gorge_depth");
    d->gorge.count = 0;
    tailor_in_append(&d->gorge, tailor_in_line(d->root, d->gorge_corner));
    tailor_in_append(&d->gorge, tailor_in_hermite(d->gorge_corner, times(to_neck, 0.36), d->neck_point,
                                                  times(d->up, 0.36 * upward)));
    lay_bridle(d, unfolded, across);
    return TAILOR_OK;
}

tailor_status tailor_in_draft_fold(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    double spacing = f[TAILOR_FIELD_BUTTON_SPACING];
    d->waist_button_y = d->waist + f[TAILOR_FIELD_WAIST_BUTTON_RISE];
    d->breaks_high = tailor_in_breaks_high(f);
    int holes_above =
        tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_ABOVE) - tailor_in_buttoning(f, TAILOR_IN_TRAIT_SHOW_ABOVE);
    d->break_y = d->waist_button_y + (d->breaks_high ? holes_above * spacing : 0) + f[TAILOR_FIELD_BREAK_RISE];

    double stand = f[TAILOR_FIELD_COLLAR_STAND] - k[TAILOR_CONSTANT_STAND_LESS_AT_NECK];
    /* The shoulder line here is the tangent at the neck point: what the cutter lays his rule to. */
    d->stand_point = along(d->neck_point, tailor_cubic_direction(&d->front_shoulder, 0), -stand);
    d->break_point = at(d->centre_front + d->edge_out + tailor_in_belly_at(d, d->break_y), d->break_y);
    double length = distance(d->break_point, d->stand_point);
    if (d->stand_point.y - d->break_y < f[TAILOR_FIELD_GORGE_DEPTH] + 120)
        return tailor_in_refuse(d, TAILOR_FRONT_UNSOLVED, TAILOR_FIELD_BUTTON_SPACING,
                                "%n %v%u puts the break point too near the gorge for a lapel: give a smaller "
                                "button_spacing or waist_button_rise, or fewer buttons");
    d->up = times(sub(d->stand_point, d->break_point), 1 / length);
    d->inward = left_of(d->up);
    d->gorge_crossing = along(d->stand_point, d->up, -f[TAILOR_FIELD_GORGE_DEPTH]);
    tailor_status status = tailor_in_draft_lapel(d);
    if (status == TAILOR_OK)
        status = draw_gorge(d);
    if (status == TAILOR_OK)
        draw_back_neck(d, times(d->up, -1));
    return status;
}

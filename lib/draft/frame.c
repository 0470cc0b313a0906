/* Frame: levels from the nape down, verticals from the centre back forward. The half girth on the scye line is half the
 * chest and half its ease, exactly; back, scye and front share the ease (common practice). */
#include "draft.h"

tailor_status tailor_in_draft_frame(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    double chest = f[TAILOR_FIELD_CHEST_GIRTH], ease = f[TAILOR_FIELD_CHEST_EASE] / 2;

    d->scye_line_measured = -(f[TAILOR_FIELD_SCYE_DEPTH] + f[TAILOR_FIELD_SCYE_DROP]);
    d->scye_line = d->scye_line_measured - d->deepened;
    d->scye_low = d->scye_line - tailor_in_scye_sinks(f);
    d->cross_back_level = d->scye_line / 2;
    d->waist = -f[TAILOR_FIELD_BACK_WAIST_LENGTH];
    d->seat = -f[TAILOR_FIELD_SEAT_LEVEL];
    d->back_hem = -f[TAILOR_FIELD_COAT_LENGTH];
    d->belly_level = -f[TAILOR_FIELD_BELLY_LEVEL];
    if (d->scye_line - d->waist < 70)
        return tailor_in_refuse(d, TAILOR_FRAME_UNSOLVED, TAILOR_FIELD_SCYE_DEPTH,
                                "%n %v%u leaves less than 70 mm between scye line and natural waist: "
                                "give a smaller scye_depth or scye_drop, or a longer back_waist_length");
    if (d->back_hem > d->seat - 10)
        return tailor_in_refuse(d, TAILOR_FRAME_UNSOLVED, TAILOR_FIELD_COAT_LENGTH,
                                "%n %v%u ends above the seat: give a longer coat_length");

    double half_back = f[TAILOR_FIELD_BACK_WIDTH] / 2, half_front = f[TAILOR_FIELD_CROSS_CHEST] / 2;
    double scye_width = chest / 2 - half_back - half_front;
    if (scye_width < chest / 10)
        return tailor_in_refuse(d, TAILOR_FRAME_UNSOLVED, TAILOR_FIELD_CROSS_CHEST,
                                "%n %v%u with this back_width leaves less than a tenth of the chest for the scye");

    /* The centre-back seam down to the scye line; suppression completes it. */
    double at_scye = k[TAILOR_CONSTANT_CENTRE_BACK_AT_SCYE];
    tailor_point upper[3] = {
        {0, 0}, {k[TAILOR_CONSTANT_CENTRE_BACK_AT_BLADES], 0.55 * d->scye_line}, {at_scye, d->scye_line}};
    tailor_in_path guide = {2, {{{{0, 0}}}}};
    tailor_path_monotone(upper, 3, guide.c);
    double at_cross_back = tailor_in_x_at(&guide, d->cross_back_level);

    d->back_width_line = at_cross_back + half_back + k[TAILOR_CONSTANT_EASE_SHARE_BACK] * ease;
    d->scye_front =
        d->back_width_line + scye_width + k[TAILOR_CONSTANT_EASE_SHARE_SCYE] * ease + (at_scye - at_cross_back);
    d->centre_front = at_scye + chest / 2 + ease;
    d->edge_out = tailor_in_double_breasted(f) ? f[TAILOR_FIELD_WRAP] : f[TAILOR_FIELD_BUTTON_STAND];
    d->front_width = d->centre_front - d->scye_front;
    d->back_seam_axis = d->back_width_line + k[TAILOR_CONSTANT_BACK_SEAM_BEYOND];
    d->front_seam_axis = d->scye_front - k[TAILOR_CONSTANT_FRONT_SEAM_INSET];
    return TAILOR_OK;
}

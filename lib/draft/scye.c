/* The scye: an egg that leaves both shoulders square, touches the back-width line at half its depth, is plumb in front
 * and lowest behind its middle, and runs on without a corner over every seam. */
#include "draft.h"

tailor_status tailor_in_draft_scye(tailor_in_draft *d)
{
    double low = d->scye_low;

    /* Back: shoulder end, plumb on the back-width line, out to the back seam. */
    tailor_point end = d->back_shoulder_end, middle = at(d->back_width_line, d->cross_back_level);
    tailor_point top = tailor_in_path_start(&d->back_seam_back);
    tailor_point square = right_of(tailor_cubic_direction(&d->back_shoulder, 1));
    tailor_point out = unit(at(0.28, -1));
    double upper = end.y - middle.y, lower = middle.y - top.y;
    if (upper < 30 || lower < 12)
        return tailor_in_refuse(
            d, TAILOR_SCYE_UNSOLVED, TAILOR_FIELD_SCYE_DEPTH,
            "%n %v%u leaves no room for the back of the scye: give a greater scye_depth or scye_drop, "
            "or a lower shoulder_slope");
    d->cross_back = middle;
    d->scye_back.count = 0;
    tailor_in_append(&d->scye_back, tailor_in_hermite(end, times(square, 0.40 * upper), middle, at(0, -0.38 * upper)));
    tailor_in_append(&d->scye_back, tailor_in_hermite(middle, at(0, -0.35 * lower), top, times(out, 0.30 * lower)));

    /* Sidebody: from the back seam under the arm to the front seam. */
    tailor_point side_top = tailor_in_path_start(&d->back_seam_side);
    tailor_point onward =
        carry(out, tailor_in_direction_start(&d->back_seam_back), tailor_in_direction_start(&d->back_seam_side));
    tailor_point bottom = at(d->scye_low_x, low), front = tailor_in_path_start(&d->front_seam_side);
    double rise = 2 * (front.y - bottom.y) / (front.x - bottom.x);
    tailor_point rising = unit(at(1, rise));
    double across = bottom.x - side_top.x, down = side_top.y - bottom.y, ahead = front.x - bottom.x;
    if (across < 15)
        return tailor_in_refuse(d, TAILOR_SCYE_UNSOLVED, TAILOR_FIELD_BACK_WIDTH,
                                "%n %v%u with this cross_chest leaves no room under the arm");
    d->scye_bottom = bottom;
    d->scye_side.count = 0;
    tailor_in_append(&d->scye_side,
                     tailor_in_hermite(side_top, times(onward, 0.55 * down), bottom, at(0.5 * across, 0)));
    tailor_in_append(&d->scye_side, tailor_in_hermite(bottom, at(ahead / 3, 0), front, times(rising, ahead / 3)));

    /* Forepart: shoulder end, plumb at the front of scye, turning under to the front seam. */
    tailor_point begin = d->front_shoulder_end,
                 plumb = at(d->scye_front, low + d->k[TAILOR_CONSTANT_SCYE_FRONT_SHARE] * -d->scye_line);
    tailor_point leave = left_of(tailor_cubic_direction(&d->front_shoulder, 1));
    tailor_point arrive = times(
        carry(rising, tailor_in_direction_start(&d->front_seam_side), tailor_in_direction_start(&d->front_seam_fore)),
        -1);
    double height = begin.y - plumb.y, turn = plumb.y - front.y, width = plumb.x - front.x;
    if (height < 60 || turn < 15)
        return tailor_in_refuse(
            d, TAILOR_SCYE_UNSOLVED, TAILOR_FIELD_SCYE_DEPTH,
            "%n %v%u leaves no room for the front of the scye: give a greater scye_depth or scye_drop");
    d->scye_plumb = plumb;
    d->scye_fore.count = 0;
    tailor_in_append(&d->scye_fore,
                     tailor_in_hermite(begin, times(leave, 0.40 * height), plumb, at(0, -0.42 * height)));
    tailor_in_append(&d->scye_fore, tailor_in_hermite(plumb, at(0, -0.58 * turn), front, times(arrive, 0.52 * width)));

    d->scye_length =
        tailor_in_length(&d->scye_back) + tailor_in_length(&d->scye_side) + tailor_in_length(&d->scye_fore);
    return TAILOR_OK;
}

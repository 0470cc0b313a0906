/* Hems: square to the centre back and to every seam, so that they run on across the seams; in front square to a
 * straight edge, or running on from a round one. */
#include "draft.h"

static tailor_cubic hem(tailor_point a, tailor_point from, tailor_point b, tailor_point to)
{
    double width = distance(a, b) / 3;
    return tailor_in_hermite(a, times(from, width), b, times(to, width));
}

tailor_status tailor_in_draft_hem(tailor_in_draft *d)
{
    /* The left of a downward edge is toward the front. */
    tailor_point centre = left_of(tailor_in_direction_end(&d->centre_back));
    d->hem_back = hem(tailor_in_path_end(&d->centre_back), centre, tailor_in_path_end(&d->back_seam_back),
                      left_of(tailor_in_direction_end(&d->back_seam_back)));
    d->hem_side = hem(tailor_in_path_end(&d->back_seam_side), left_of(tailor_in_direction_end(&d->back_seam_side)),
                      tailor_in_path_end(&d->front_seam_side), left_of(tailor_in_direction_end(&d->front_seam_side)));
    tailor_point edge = tailor_in_direction_start(&d->front_edge); /* upwards, or along the round */
    int square = (int)d->f[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_SQUARE;
    d->hem_fore = hem(tailor_in_path_end(&d->front_seam_fore), left_of(tailor_in_direction_end(&d->front_seam_fore)),
                      d->hem_front, square ? right_of(edge) : edge);
    return TAILOR_OK;
}

#include "assemble.h"
#include "make_marks.h"
#include "put.h"

void tailor_in_add_back(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_cubic shoulder = tailor_cubic_reverse(&d->back_shoulder), neck = tailor_cubic_reverse(&d->back_neck);
    tailor_in_add_piece(p, TAILOR_PIECE_BACK, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_path(p, TAILOR_EDGE_CENTRE_BACK, &d->centre_back);
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, &d->hem_back, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_BACK_SEAM, &d->back_seam_back);
    tailor_in_add_backwards(p, TAILOR_EDGE_SCYE, &d->scye_back);
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, &shoulder, 1);
    tailor_in_add_edge(p, TAILOR_EDGE_NECK, &neck, 1);

    tailor_in_add_point(p, TAILOR_POINT_NAPE, at(0, 0));
    tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, d->back_neck_point);
    tailor_in_add_point(p, TAILOR_POINT_SHOULDER_END, d->back_shoulder_end);
    tailor_in_add_point(p, TAILOR_POINT_CROSS_BACK, d->cross_back);
    tailor_in_add_point(p, TAILOR_POINT_BACK_PITCH, d->back_pitch);
    tailor_in_add_point(p, TAILOR_POINT_WAIST, at(tailor_in_x_at(&d->centre_back, d->waist), d->waist));
    tailor_in_add_point(p, TAILOR_POINT_SEAT, at(tailor_in_x_at(&d->centre_back, d->seat), d->seat));

    double x = 0.45 * d->back_width_line;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->back_hem + 90), at(x, d->scye_line + 40));
    tailor_in_add_level(p, TAILOR_MARKED_SCYE_LEVEL, d->scye_line, &d->centre_back, &d->back_seam_back);
    tailor_in_add_level(p, TAILOR_MARKED_WAIST_LEVEL, d->waist, &d->centre_back, &d->back_seam_back);
    tailor_in_add_level(p, TAILOR_MARKED_SEAT_LEVEL, d->seat, &d->centre_back, &d->back_seam_back);

    /* Edges that run upwards in the outline are counted from their other end. */
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_WAIST_BACK, TAILOR_EDGE_BACK_SEAM,
                        (double)d->back_seam_back.count - tailor_in_place_on_seam(&d->back_seam_back, d->waist));
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_BACK_PITCH, TAILOR_EDGE_SCYE,
                        (double)d->scye_back.count - d->back_pitch_place);
    tailor_in_add_hem_turn_up(p, d, &d->centre_back, &d->hem_back, &d->back_seam_back);
    tailor_in_add_back_vent(p, d);
}

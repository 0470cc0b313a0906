#include "assemble.h"
#include "make_marks.h"
#include "put.h"

void tailor_in_add_sidebody(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_in_add_piece(p, TAILOR_PIECE_SIDEBODY, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_path(p, TAILOR_EDGE_BACK_SEAM, &d->back_seam_side);
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, &d->hem_side, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_FRONT_SEAM, &d->front_seam_side);
    tailor_in_add_backwards(p, TAILOR_EDGE_SCYE, &d->scye_side);

    tailor_in_add_point(p, TAILOR_POINT_SCYE_BOTTOM, d->scye_bottom);
    tailor_in_add_point(p, TAILOR_POINT_WAIST, at(tailor_in_x_at(&d->back_seam_side, d->waist), d->waist));
    tailor_in_add_point(p, TAILOR_POINT_SEAT, at(tailor_in_x_at(&d->back_seam_side, d->seat), d->seat));

    double x = (d->back_seam_axis + d->front_seam_axis) / 2;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->back_hem + 125), at(x, d->scye_line - 50));
    tailor_in_add_level(p, TAILOR_MARKED_WAIST_LEVEL, d->waist, &d->back_seam_side, &d->front_seam_side);
    tailor_in_add_level(p, TAILOR_MARKED_SEAT_LEVEL, d->seat, &d->back_seam_side, &d->front_seam_side);
    if (d->pocket_crosses)
        tailor_in_add_mark(p, TAILOR_MARKED_HIP_POCKET, TAILOR_MARK_LINE, &d->pocket_side, 1);

    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_WAIST_BACK, TAILOR_EDGE_BACK_SEAM,
                        tailor_in_place_on_seam(&d->back_seam_side, d->waist));
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_WAIST_FRONT, TAILOR_EDGE_FRONT_SEAM,
                        (double)d->front_seam_side.count - tailor_in_place_on_seam(&d->front_seam_side, d->waist));
    /* The undersleeve's notch is set to the top of the back seam: no mark of its own is needed here. */
    tailor_in_add_hem_turn_up(p, d, &d->back_seam_side, &d->hem_side, &d->front_seam_side);
    tailor_in_add_sidebody_vent(p, d);
}

#include "assemble.h"
#include "make_marks.h"
#include "put.h"

/** The lapel as it lies on the chest: gorge from the break line to the tip, edge to the break point, break line. */
static void add_turned_lapel(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_point root = d->worn_root; /* a shawl has no step: any place of the gorge parts its line as well */
    if (tailor_in_shawl(d->f))
        root = times(add(d->gorge_crossing, d->worn_tip), 0.5);
    tailor_cubic lapel[4] = {tailor_in_line(d->gorge_crossing, root), tailor_in_line(root, d->worn_tip),
                             d->worn_edge, tailor_in_line(d->break_point, d->gorge_crossing)};
    tailor_in_add_mark(p, TAILOR_MARKED_LAPEL_TURNED, TAILOR_MARK_LINE, lapel, 4);

    /* The collar's leaf in front of the shoulder: end, leaf edge as far as the shoulder. */
    tailor_cubic leaf[2] = {tailor_in_line(d->root, d->collar_point), d->collar_leaf.c[0]};
    size_t from = tailor_in_shawl(d->f) ? 1 : 0;
    tailor_path_reflect(leaf, 2, d->stand_point, d->break_point, leaf);
    tailor_in_add_mark(p, TAILOR_MARKED_COLLAR_TURNED, TAILOR_MARK_LINE, leaf + from, 2 - from);
}

/** What the make may do: the fold runs on to the waist button, and the lapel with the edge below it turns over that
 * line. */
static void add_rolled_lapel(tailor_pattern *p, const tailor_in_draft *d, const tailor_cubic *lapel_edge)
{
    double place = tailor_in_place_at_level(&d->front_edge, d->waist_button_y + d->f[TAILOR_FIELD_BREAK_RISE]);
    tailor_in_path below = tailor_in_part(&d->front_edge, place, (double)d->front_edge.count),
                   rolled = {0, {{{{0, 0}}}}};
    tailor_point low = tailor_in_path_start(&below);
    below = tailor_in_reversed(&below);
    if (!tailor_in_shawl(d->f))
        tailor_in_append(&rolled, tailor_in_line(d->root, d->tip));
    tailor_in_append(&rolled, tailor_cubic_reverse(lapel_edge));
    for (size_t i = 0; i < below.count; i++)
        tailor_in_append(&rolled, below.c[i]);
    rolled = tailor_in_reflected(&rolled, d->stand_point, low);
    tailor_in_add_line(p, TAILOR_MARKED_ROLL_LINE, TAILOR_MARK_FOLD, low, d->stand_point);
    tailor_in_add_mark(p, TAILOR_MARKED_LAPEL_ROLLED, TAILOR_MARK_LINE, rolled.c, rolled.count);
}

static void add_fastening(tailor_pattern *p, const tailor_in_draft *d)
{
    const double *k = d->k;
    double diameter = d->f[TAILOR_FIELD_BUTTON_DIAMETER], thickness = d->f[TAILOR_FIELD_BUTTON_THICKNESS];
    double slit = diameter + (isnan(thickness) ? k[TAILOR_CONSTANT_HOLE_MORE] : thickness + 1);
    for (int i = 0; i < d->row_count; i++)
        tailor_in_add_circle(p, tailor_in_button_marks[i], TAILOR_MARK_BUTTON, d->button[i], diameter / 2);
    for (int i = d->first_hole; i < d->row_count; i++)
        tailor_in_add_line(p, tailor_in_hole_marks[i - d->first_hole], TAILOR_MARK_HOLE, d->eye[i],
                           at(d->eye[i].x - slit, d->eye[i].y));
}

static tailor_point centre_front(const tailor_in_draft *d, double level)
{
    return at(d->centre_front + tailor_in_belly_at(d, level), level);
}

/** A one-button coat's button stands so much lower than the waist button of the others (common practice): the level of
 * the three-button coat's top button is the same for every buttoning. */
static const double ONE_BUTTON_LOWER = 12;

static void add_points(tailor_pattern *p, const tailor_in_draft *d)
{
    int one = d->row_count == 1;
    tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, d->neck_point);
    tailor_in_add_point(p, TAILOR_POINT_SHOULDER_END, d->front_shoulder_end);
    tailor_in_add_point(p, TAILOR_POINT_FRONT_PITCH, d->front_pitch);
    tailor_in_add_point(p, TAILOR_POINT_SCYE_FRONT, at(d->scye_front, d->scye_line));
    tailor_in_add_point(p, TAILOR_POINT_SCYE_PLUMB, d->scye_plumb);
    tailor_in_add_point(p, TAILOR_POINT_STAND_POINT, d->stand_point);
    tailor_in_add_point(p, TAILOR_POINT_BREAK_POINT, d->break_point);
    tailor_in_add_point(p, TAILOR_POINT_GORGE_CORNER, d->gorge_corner);
    tailor_in_add_point(p, TAILOR_POINT_GORGE_CROSSING, d->gorge_crossing);
    tailor_in_add_point(p, TAILOR_POINT_COLLAR_END, d->root);
    tailor_in_add_point(p, TAILOR_POINT_TIP, d->tip);
    tailor_in_add_point(p, TAILOR_POINT_CENTRE_FRONT_SCYE, centre_front(d, d->scye_line));
    tailor_in_add_point(p, TAILOR_POINT_CENTRE_FRONT_WAIST, centre_front(d, d->waist));
    tailor_in_add_point(p, TAILOR_POINT_CENTRE_FRONT_BELLY, centre_front(d, d->belly_line.c[0].p[3].y));
    tailor_in_add_point(p, TAILOR_POINT_CENTRE_FRONT_SEAT, centre_front(d, d->seat));
    tailor_in_add_point(
        p, TAILOR_POINT_TOP_BUTTON_LEVEL,
        centre_front(d, d->waist_button_y + (one ? ONE_BUTTON_LOWER : 0) + d->f[TAILOR_FIELD_BUTTON_SPACING]));
    tailor_in_add_point(p, TAILOR_POINT_WAIST_BUTTON, centre_front(d, d->waist_button_y));
    tailor_in_add_point(p, TAILOR_POINT_FRONTS_PART, d->fronts_part);
    tailor_in_add_point(p, TAILOR_POINT_HEM_FRONT, d->hem_front);
}

void tailor_in_add_forepart(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_cubic lapel = d->worn_edge, step = tailor_in_line(d->tip, d->root);
    tailor_path_reflect(&lapel, 1, d->stand_point, d->break_point, &lapel);
    lapel = tailor_cubic_reverse(&lapel);
    tailor_in_add_piece(p, TAILOR_PIECE_FOREPART, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_path(p, TAILOR_EDGE_FRONT_SEAM, &d->front_seam_fore);
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, &d->hem_fore, 1);
    tailor_in_add_path(p, TAILOR_EDGE_FRONT_EDGE, &d->front_edge);
    tailor_in_add_edge(p, TAILOR_EDGE_LAPEL_EDGE, &lapel, 1);
    if (!tailor_in_shawl(d->f))
        tailor_in_add_edge(p, TAILOR_EDGE_LAPEL_STEP, &step, 1);
    tailor_in_add_path(p, TAILOR_EDGE_GORGE, &d->gorge);
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, &d->front_shoulder, 1);
    tailor_in_add_path(p, TAILOR_EDGE_SCYE, &d->scye_fore);
    add_points(p, d);

    double x = d->centre_front - 34, hem = d->front_hem + 130, front = centre_front(d, d->scye_line).x;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, hem), at(x, d->break_y - 60));
    tailor_in_add_line(p, TAILOR_MARKED_BREAK_LINE, TAILOR_MARK_FOLD, d->break_point, d->stand_point);
    tailor_in_add_line(p, TAILOR_MARKED_BRIDLE_LINE, TAILOR_MARK_LINE, d->bridle[0], d->bridle[1]);
    add_turned_lapel(p, d);
    if (tailor_in_buttoning(d->f, TAILOR_IN_TRAIT_ROLLS) == TAILOR_IN_ROLLS_MAKE)
        add_rolled_lapel(p, d, &lapel);
    tailor_in_add_line(p, TAILOR_MARKED_CENTRE_FRONT, TAILOR_MARK_LINE, centre_front(d, d->break_y),
                       centre_front(d, d->fronts_part.y));
    tailor_in_add_line(p, TAILOR_MARKED_SCYE_LEVEL, TAILOR_MARK_LINE,
                       at(tailor_in_x_at(&d->front_seam_fore, d->scye_line), d->scye_line), at(front, d->scye_line));
    double at_waist = tailor_in_x_at(&d->front_seam_fore, d->waist),
           at_seat = tailor_in_x_at(&d->front_seam_fore, d->seat);
    tailor_in_add_line(p, TAILOR_MARKED_WAIST_LEVEL, TAILOR_MARK_LINE, at(at_waist, d->waist),
                       centre_front(d, d->waist));
    tailor_in_add_line(p, TAILOR_MARKED_SEAT_LEVEL, TAILOR_MARK_LINE, at(at_seat, d->seat),
                       at(d->hem_front.x, d->seat));
    add_fastening(p, d);
    if (d->dart_shape.count)
        tailor_in_add_mark(p, TAILOR_MARKED_DART, TAILOR_MARK_DART, d->dart_shape.c, d->dart_shape.count);
    tailor_in_add_mark(p, TAILOR_MARKED_HIP_POCKET, TAILOR_MARK_LINE, &d->pocket_fore, 1);
    tailor_in_add_mark(p, TAILOR_MARKED_BREAST_WELT, TAILOR_MARK_LINE, d->welt.c, d->welt.count);
    if (d->belly_cut.count)
        tailor_in_add_mark(p, TAILOR_MARKED_BELLY_CUT, TAILOR_MARK_LINE, d->belly_cut.c, d->belly_cut.count);

    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_WAIST_FRONT, TAILOR_EDGE_FRONT_SEAM,
                        tailor_in_place_on_seam(&d->front_seam_fore, d->waist));
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FRONT_PITCH, TAILOR_EDGE_SCYE, d->front_pitch_place);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_COLLAR_END, TAILOR_EDGE_GORGE, 0);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_GORGE, TAILOR_EDGE_GORGE, 1);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_BREAK, TAILOR_EDGE_FRONT_EDGE, (double)d->front_edge.count);
    tailor_in_add_forepart_turn_up(p, d);
    tailor_in_add_pocket_mark(p, d);
}

/* Lining of the body. Each piece is its cloth piece with more length between waist and seat, more height under the arm
 * and a hem above the cloth's; the back with a pleat at its centre, the forepart from the facing on. The back is cut in
 * two halves with a seam, since its centre is hollow: a fold could not follow it. */
#include "assemble.h"
#include "lining.h"
#include "put.h"

/** The seams of the body lining, downwards. */
struct body {
    tailor_in_path centre_back, back_seam_back, back_seam_side, front_seam_side, front_seam_fore, inner;
    double raise, above; /* beyond the scye, hem above the cloth's */
};

/** A seam: longer than the cloth's by the ease and by what is raised at its top, and cut above the hem. */
static tailor_in_path seam(const tailor_in_draft *d, const tailor_in_path *cloth, double raise, double above)
{
    double ease = d->k[TAILOR_CONSTANT_LINING_SEAM_EASE];
    tailor_in_path path = tailor_in_stretched(cloth, d->waist, d->seat, ease);
    path = tailor_in_led_in(&path, raise);
    return tailor_in_cut_to(&path, tailor_in_length(cloth) + ease + raise - above);
}

/** The cloth's centre back, moved out by the pleat down to the scye line and back on it at the waist. */
static tailor_in_path pleated(const tailor_in_draft *d)
{
    tailor_point points[TAILOR_IN_PATH + 1];
    tailor_in_path path = {d->centre_back.count, {{{{0, 0}}}}};
    for (size_t i = 0; i <= path.count; i++) {
        points[i] = i ? d->centre_back.c[i - 1].p[3] : tailor_in_path_start(&d->centre_back);
        if (points[i].y > d->scye_line - 1)
            points[i].x -= d->k[TAILOR_CONSTANT_LINING_PLEAT];
    }
    tailor_path_monotone(points, path.count + 1, path.c);
    return path;
}

static struct body draw(const tailor_in_draft *d)
{
    struct body b = {.raise = tailor_in_lining_raise(d),
                     .above = tailor_in_lining_above(d, TAILOR_CONSTANT_HEM_TURN_UP)};
    tailor_in_path centre = pleated(d), inner = tailor_in_facing_line(d);
    b.centre_back = seam(d, &centre, 0, b.above);
    b.back_seam_back = seam(d, &d->back_seam_back, b.raise, b.above);
    b.back_seam_side = seam(d, &d->back_seam_side, b.raise, b.above);
    b.front_seam_side = seam(d, &d->front_seam_side, b.raise, b.above);
    b.front_seam_fore = seam(d, &d->front_seam_fore, b.raise, b.above);
    b.inner = seam(d, &inner, 0, b.above);
    return b;
}

/** A hem between two downward edges, square to the first and ending in a direction. */
static tailor_cubic hem(const tailor_in_path *from, const tailor_in_path *to, tailor_point arrive)
{
    tailor_point a = tailor_in_path_end(from), b = tailor_in_path_end(to);
    double width = distance(a, b) / 3;
    return tailor_in_hermite(a, times(left_of(tailor_in_direction_end(from)), width), b, times(arrive, width));
}

/** Part of a scye from the shoulder end down to a seam, led up to that seam's raised top from the pitch on. */
static tailor_in_path raised_from(const tailor_in_path *scye, double pitch, tailor_point top)
{
    tailor_in_path path = tailor_in_part(scye, 0, pitch), under = tailor_in_part(scye, pitch, (double)scye->count);
    tailor_point by = sub(top, tailor_in_path_end(scye)), none = at(0, 0);
    double whole = tailor_in_length(&under), so_far = 0;
    for (size_t i = 0; i < under.count; i++) {
        double next = i + 1 < under.count ? so_far + tailor_cubic_length(&under.c[i]) : whole;
        tailor_in_append(&path, tailor_in_shifted(under.c[i], i ? times(by, so_far / whole) : none,
                                                  i + 1 < under.count ? times(by, next / whole) : by));
        so_far = next;
    }
    return path;
}

static tailor_in_path scye_back(const tailor_in_draft *d, const struct body *b)
{
    return raised_from(&d->scye_back, d->back_pitch_place, tailor_in_path_start(&b->back_seam_back));
}

double tailor_in_lining_scye_back(const tailor_in_draft *d)
{
    struct body b = {.back_seam_back = tailor_in_led_in(&d->back_seam_back, tailor_in_lining_raise(d))};
    tailor_in_path scye = scye_back(d, &b);
    return tailor_in_length(&scye);
}

/** At waist and seat, above and below the ease. Seams that run upwards in the outline are counted from their other end.
 */
static void add_notches(tailor_pattern *p, const tailor_in_draft *d, int edge, const tailor_in_path *seam, int upwards)
{
    int behind = edge == TAILOR_EDGE_BACK_SEAM;
    double lower = d->seat - d->k[TAILOR_CONSTANT_LINING_SEAM_EASE];
    double place[2] = {tailor_in_place_on_seam(seam, d->waist), tailor_in_place_on_seam(seam, lower)};
    int mark[2] = {behind ? TAILOR_MARKED_NOTCH_WAIST_BACK : TAILOR_MARKED_NOTCH_WAIST_FRONT,
                   behind ? TAILOR_MARKED_NOTCH_SEAT_BACK : TAILOR_MARKED_NOTCH_SEAT_FRONT};
    for (int i = 0; i < 2; i++)
        tailor_in_add_notch(p, d, mark[i], edge, upwards ? (double)seam->count - place[i] : place[i]);
}

static void add_back(tailor_pattern *p, const tailor_in_draft *d, const struct body *b)
{
    tailor_cubic shoulder = tailor_cubic_reverse(&d->back_shoulder);
    tailor_cubic neck[2] = {tailor_cubic_reverse(&d->back_neck),
                            tailor_in_line(d->back_neck.p[0], tailor_in_path_start(&b->centre_back))};
    tailor_cubic bottom =
        hem(&b->centre_back, &b->back_seam_back, left_of(tailor_in_direction_end(&b->back_seam_back)));
    tailor_in_path scye = scye_back(d, b);
    tailor_in_add_piece(p, TAILOR_PIECE_LINING_BACK, 2, 1, TAILOR_SIDE_RIGHT, "lining");
    tailor_in_add_path(p, TAILOR_EDGE_CENTRE_BACK, &b->centre_back);
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, &bottom, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_BACK_SEAM, &b->back_seam_back);
    tailor_in_add_backwards(p, TAILOR_EDGE_SCYE, &scye);
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, &shoulder, 1);
    tailor_in_add_edge(p, TAILOR_EDGE_NECK, neck, 2);

    tailor_in_add_point(p, TAILOR_POINT_NAPE, d->back_neck.p[0]);
    tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, d->back_neck_point);
    tailor_in_add_point(p, TAILOR_POINT_SHOULDER_END, d->back_shoulder_end);
    double x = 0.45 * d->back_width_line;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->back_hem + 110), at(x, d->scye_line + 40));
    /* The pleat is folded on the coat's centre back and stitched at nape and waist. */
    tailor_in_path fold = tailor_in_part(&d->centre_back, 0, tailor_in_place_on_seam(&d->centre_back, d->waist));
    tailor_in_add_mark(p, TAILOR_MARKED_PLEAT, TAILOR_MARK_FOLD, fold.c, fold.count);
    add_notches(p, d, TAILOR_EDGE_BACK_SEAM, &b->back_seam_back, 1);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_BACK_PITCH, TAILOR_EDGE_SCYE,
                        (double)scye.count - ceil(d->back_pitch_place));
}

static void add_sidebody(tailor_pattern *p, const tailor_in_draft *d, const struct body *b)
{
    tailor_cubic bottom =
        hem(&b->back_seam_side, &b->front_seam_side, left_of(tailor_in_direction_end(&b->front_seam_side)));
    tailor_in_path scye = d->scye_side;
    size_t last = scye.count - 1;
    tailor_point up = at(0, b->raise), behind = sub(tailor_in_path_start(&b->back_seam_side), scye.c[0].p[0]),
                 before = sub(tailor_in_path_start(&b->front_seam_side), scye.c[last].p[3]);
    for (size_t i = 0; i <= last; i++)
        scye.c[i] = tailor_in_shifted(scye.c[i], i ? up : behind, i < last ? up : before);
    tailor_in_add_piece(p, TAILOR_PIECE_LINING_SIDEBODY, 2, 1, TAILOR_SIDE_RIGHT, "lining");
    tailor_in_add_path(p, TAILOR_EDGE_BACK_SEAM, &b->back_seam_side);
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, &bottom, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_FRONT_SEAM, &b->front_seam_side);
    tailor_in_add_backwards(p, TAILOR_EDGE_SCYE, &scye);

    double x = (d->back_seam_axis + d->front_seam_axis) / 2;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->back_hem + 110), at(x, d->scye_line - 50));
    add_notches(p, d, TAILOR_EDGE_BACK_SEAM, &b->back_seam_side, 0);
    add_notches(p, d, TAILOR_EDGE_FRONT_SEAM, &b->front_seam_side, 1);
}

/** The front dart is sewn in the lining too, unless the facing covers part of it. */
static int dart_in_lining(const tailor_in_draft *d, const tailor_in_path *inner)
{
    for (size_t i = 0; i < d->dart_shape.count; i++) {
        tailor_point place = d->dart_shape.c[i].p[0];
        if (place.x > tailor_in_x_at(inner, place.y) - 12)
            return 0;
    }
    return d->dart_shape.count > 0;
}

static void add_forepart(tailor_pattern *p, const tailor_in_draft *d, const struct body *b)
{
    tailor_in_path line = tailor_in_facing_line(d);
    double t = 0, hem_t = 0;
    t = tailor_cubic_nearest(&d->front_shoulder, tailor_in_path_start(&b->inner), NULL);
    hem_t = tailor_cubic_nearest(&d->hem_fore, tailor_in_path_end(&line), NULL);
    tailor_cubic bottom = hem(&b->front_seam_fore, &b->inner, tailor_cubic_direction(&d->hem_fore, hem_t));
    tailor_cubic shoulder = tailor_cubic_part(&d->front_shoulder, t, 1);
    shoulder.p[0] = tailor_in_path_start(&b->inner);
    tailor_in_path scye = raised_from(&d->scye_fore, d->front_pitch_place, tailor_in_path_start(&b->front_seam_fore));
    tailor_in_add_piece(p, TAILOR_PIECE_LINING_FOREPART, 2, 1, TAILOR_SIDE_RIGHT, "lining");
    tailor_in_add_path(p, TAILOR_EDGE_FRONT_SEAM, &b->front_seam_fore);
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, &bottom, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_INNER_EDGE, &b->inner);
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, &shoulder, 1);
    tailor_in_add_path(p, TAILOR_EDGE_SCYE, &scye);

    tailor_in_add_point(p, TAILOR_POINT_SHOULDER_END, d->front_shoulder_end);
    double x = (tailor_in_x_at(&b->front_seam_fore, d->waist) + tailor_in_x_at(&b->inner, d->waist)) / 2;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->back_hem + 110), at(x, d->scye_line - 50));
    if (dart_in_lining(d, &b->inner))
        tailor_in_add_mark(p, TAILOR_MARKED_DART, TAILOR_MARK_DART, d->dart_shape.c, d->dart_shape.count);
    tailor_cubic pocket = tailor_in_inside_pocket(d);
    double level = pocket.p[0].y, joint = tailor_in_x_at(&line, level);
    tailor_in_add_line(p, TAILOR_MARKED_INSIDE_POCKET, TAILOR_MARK_LINE, at(joint, level), pocket.p[3]);
    add_notches(p, d, TAILOR_EDGE_FRONT_SEAM, &b->front_seam_fore, 0);
    /* At the waist, as far from the shoulder as on the facing: the ease lies below. */
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_LINING, TAILOR_EDGE_INNER_EDGE,
                        (double)b->inner.count - tailor_in_place_on_seam(&b->inner, d->waist));
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FRONT_PITCH, TAILOR_EDGE_SCYE, ceil(d->front_pitch_place));
}

void tailor_in_add_body_lining(tailor_pattern *p, const tailor_in_draft *d)
{
    struct body b = draw(d);
    add_back(p, d, &b);
    add_sidebody(p, d, &b);
    add_forepart(p, d, &b);
}

#define SEWN(piece, edge, from, to)                                                                                    \
    (tailor_in_sewn) { TAILOR_PIECE_##piece, TAILOR_EDGE_##edge, from, to }

void tailor_in_sew_body_lining(const tailor_in_sewing *s)
{
    const tailor_in_draft *d = s->draft;
    const double *k = d->k, end = -1;
    tailor_in_path line = tailor_in_facing_line(d);
    double facing_shoulder = tailor_cubic_length_to(
        &d->front_shoulder, tailor_cubic_nearest(&d->front_shoulder, tailor_in_path_start(&line), NULL));
    double back_shoulder = tailor_cubic_length(&d->back_shoulder) - facing_shoulder;
    double above = tailor_in_lining_above(d, TAILOR_CONSTANT_HEM_TURN_UP);
    double felled = above > 0 ? tailor_in_length(&line) - above : end;
    tailor_in_sew(s, "lining_back_seam", k[TAILOR_CONSTANT_BLADE_EASE], SEWN(LINING_BACK, BACK_SEAM, 0, end),
                  SEWN(LINING_SIDEBODY, BACK_SEAM, end, 0));
    tailor_in_sew(s, "lining_front_seam", 0, SEWN(LINING_SIDEBODY, FRONT_SEAM, 0, end),
                  SEWN(LINING_FOREPART, FRONT_SEAM, end, 0));
    tailor_in_sew(s, "lining_shoulder", d->f[TAILOR_FIELD_SHOULDER_EASE], SEWN(LINING_BACK, SHOULDER, 0, back_shoulder),
                  SEWN(LINING_FOREPART, SHOULDER, end, 0));
    tailor_in_sew(s, "lining_shoulder_facing", 0, SEWN(LINING_BACK, SHOULDER, back_shoulder, end),
                  SEWN(FACING, SHOULDER, end, 0));
    tailor_in_sew(s, "lining_neck", 0, SEWN(LINING_BACK, NECK, 0, tailor_cubic_length(&d->back_neck)),
                  SEWN(BACK, NECK, 0, end));
    tailor_in_sew(s, "lining_facing", k[TAILOR_CONSTANT_LINING_SEAM_EASE], SEWN(LINING_FOREPART, INNER_EDGE, 0, end),
                  SEWN(FACING, INNER_EDGE, felled, 0));
}

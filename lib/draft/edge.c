/* Front edge below the break point, buttons. The edge is plumb (or follows the belly) to below the waist button; cut
 * round it then comes in to the centre front, takes the last button along, and rounds off into the hem. */
#include "draft.h"

/** Edge of the front at a level, as long as it has not begun to round. */
static tailor_point plumb_edge(const tailor_in_draft *d, double level)
{
    return at(d->centre_front + d->edge_out + tailor_in_belly_at(d, level), level);
}

/** The plumb part from below up to the break point; with a belly it is the belly's line moved out to the edge. */
static void append_plumb(tailor_in_draft *d, double from)
{
    if (d->belly <= 0) {
        tailor_in_append(&d->front_edge, tailor_in_line(plumb_edge(d, from), d->break_point));
        return;
    }
    /* Break point and start lie on different pieces of the belly's line: take what is between them. */
    double place_from = 0, place_to = 0;
    for (size_t i = 0; i < d->belly_line.count; i++) {
        const tailor_cubic *c = &d->belly_line.c[i];
        if (c->p[0].y >= d->break_y)
            place_to = (double)i + fmin((d->break_y - c->p[0].y) / (c->p[3].y - c->p[0].y), 1);
        if (c->p[0].y >= from)
            place_from = (double)i + fmin((from - c->p[0].y) / (c->p[3].y - c->p[0].y), 1);
    }
    tailor_in_path part = tailor_in_part(&d->belly_line, fmax(place_to, 0), place_from);
    double shift[6] = {1, 0, 0, 1, d->centre_front + d->edge_out, 0};
    tailor_path_affine(part.c, part.count, shift, part.c);
    part = tailor_in_reversed(&part);
    for (size_t i = 0; i < part.count; i++)
        tailor_in_append(&d->front_edge, part.c[i]);
    if (d->break_y > d->scye_line) /* the belly's line begins at the scye line; above it the edge is plumb */
        tailor_in_append(&d->front_edge, tailor_in_line(plumb_edge(d, d->scye_line), d->break_point));
    d->front_edge.c[d->front_edge.count - 1].p[3] = d->break_point;
}

/** dx/dy through a point between two chords: harmonic mean, so that the edge does not swing. */
static double between(double first, double second)
{
    return first * second > 0 ? 2 * first * second / (first + second) : 0;
}

static tailor_cubic fall(tailor_point a, double slope_a, tailor_point b, double slope_b)
{
    double third = (b.y - a.y) / 3;
    return (tailor_cubic){{a, at(a.x + slope_a * third, a.y + third), at(b.x - slope_b * third, b.y - third), b}};
}

static tailor_status cut_round(tailor_in_draft *d, double last_button)
{
    const double *k = d->k;
    double start = d->waist_button_y - k[TAILOR_CONSTANT_ROUND_START];
    double level = fmin(last_button, start - 40);
    double cross = fmin(d->front_hem + k[TAILOR_CONSTANT_ROUND_CROSS], level - 30);
    if (cross < d->front_hem + 110)
        return tailor_in_refuse(d, TAILOR_FRONT_UNSOLVED, TAILOR_FIELD_COAT_LENGTH,
                                "%n %v%u is too short for a round cut below the last button: "
                                "give a longer coat, a smaller button_spacing or front_cut square");
    tailor_point top = plumb_edge(d, start), in = plumb_edge(d, level);
    in.x -= k[TAILOR_CONSTANT_ROUND_AT_BUTTON];
    tailor_point centre = at(d->centre_front + tailor_in_belly_at(d, cross), cross);
    tailor_point hem =
        at(d->centre_front + tailor_in_belly_at(d, d->front_hem) - k[TAILOR_CONSTANT_ROUND_HEM], d->front_hem);
    double lean = (plumb_edge(d, start + 0.5).x - plumb_edge(d, start - 0.5).x);
    double first = (in.x - top.x) / (in.y - top.y), second = (centre.x - in.x) / (centre.y - in.y);
    double slope_in = between(first, second), slope_centre = fmin(0.36, 2.2 * second);
    double height = cross - d->front_hem, width = centre.x - hem.x;

    /* Upwards: hem, centre front, last button, start of the round. */
    tailor_cubic round = tailor_in_hermite(centre, at(-slope_centre * 0.46 * height, -0.46 * height), hem,
                                           at(-0.62 * width, -0.015 * width));
    tailor_in_append(&d->front_edge, tailor_cubic_reverse(&round));
    tailor_in_append(&d->front_edge, fall(centre, slope_centre, in, slope_in));
    tailor_in_append(&d->front_edge, fall(in, slope_in, top, lean));
    append_plumb(d, start);
    d->hem_front = hem;
    d->fronts_part = centre;
    return TAILOR_OK;
}

/** Buttons and the eyes of their holes. Single-breasted, a button stands on the centre front and the eye a little
 * before it; double-breasted, both are equally far from the centre front, so that the buttons mirror the holes. */
static void place_buttons(tailor_in_draft *d, int above, double last_button_in)
{
    const double *f = d->f, *k = d->k;
    int wrapped = tailor_in_double_breasted(f);
    double behind = wrapped ? f[TAILOR_FIELD_WRAP] - f[TAILOR_FIELD_BUTTON_STAND] : 0;
    double before = wrapped ? behind : k[TAILOR_CONSTANT_HOLE_BEYOND];
    for (int i = 0; i < d->row_count; i++) {
        double y = d->waist_button_y + (above - i) * f[TAILOR_FIELD_BUTTON_SPACING];
        double centre = d->centre_front + tailor_in_belly_at(d, y) - (i > above ? last_button_in : 0);
        d->button[i] = at(centre - behind, y);
        d->eye[i] = at(centre + before, y);
    }
}

tailor_status tailor_in_draft_edge(tailor_in_draft *d)
{
    const double *f = d->f;
    int round = (int)f[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_ROUND;
    double stand = f[TAILOR_FIELD_BUTTON_STAND];
    int above = tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_ABOVE),
        below = tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_BELOW);
    d->row_count = above + 1 + below;
    d->first_hole = tailor_in_buttoning(f, TAILOR_IN_TRAIT_SHOW_ABOVE);
    double last = d->waist_button_y - f[TAILOR_FIELD_BUTTON_SPACING], last_in = 0;

    d->front_edge.count = 0;
    if (round) {
        tailor_status status = cut_round(d, last);
        if (status != TAILOR_OK)
            return status;
        if (below) { /* the round takes the last button along */
            double place = tailor_in_place_at_level(&d->front_edge, last);
            last_in = plumb_edge(d, last).x - tailor_path_point(d->front_edge.c, d->front_edge.count, place).x;
        }
    } else {
        if (last < d->front_hem + 60)
            return tailor_in_refuse(
                d, TAILOR_FRONT_UNSOLVED, TAILOR_FIELD_COAT_LENGTH,
                "%n %v%u ends too near the last button: give a longer coat or a smaller button_spacing");
        d->hem_front = d->fronts_part = plumb_edge(d, d->front_hem);
        append_plumb(d, d->front_hem);
    }
    place_buttons(d, above, last_in);
    if (f[TAILOR_FIELD_BUTTON_DIAMETER] / 2 + 3 > stand)
        return tailor_in_refuse(d, TAILOR_FRONT_UNSOLVED, TAILOR_FIELD_BUTTON_STAND,
                                "%n %v%u is too small for the button_diameter: the button would stand over the edge");
    return TAILOR_OK;
}

#include "make_marks.h"

/* Own judgement: so far the turned-up hem runs on under the facing. */
static const double UNDER_FACING = 20;

/** A direction mirrored in another. */
static tailor_point mirrored_in(tailor_point u, tailor_point line) { return sub(times(line, 2 * dot(u, line)), u); }

/** What is turned up lies on the piece when it is folded at the net edge: its ends mirror the directions `left` and
 *  `right`, upwards, in which the piece runs on from there. */
static void add_turn_up(tailor_pattern *p, int mark, const tailor_cubic *net, tailor_point left, tailor_point right,
                        double depth)
{
    tailor_point start = times(mirrored_in(left, tailor_cubic_direction(net, 0)), depth),
                 end = times(mirrored_in(right, tailor_cubic_direction(net, 1)), depth);
    tailor_point chord = sub(net->p[3], net->p[0]);
    if (dot(add(chord, sub(end, start)), chord) < 0.3 * dot(chord, chord)) /* a piece that runs out nearly to a point */
        start = end = times(right_of(unit(chord)), depth);
    tailor_cubic outer = {{add(net->p[0], start), add(net->p[1], start), add(net->p[2], end), add(net->p[3], end)}};
    tailor_cubic path[4] = {tailor_in_line(net->p[0], outer.p[0]), outer, tailor_in_line(outer.p[3], net->p[3]),
                            tailor_cubic_reverse(net)};
    tailor_in_add_mark(p, mark, TAILOR_MARK_LINE, path, 4);
}

static tailor_point up(const tailor_in_path *seam) { return times(tailor_in_direction_end(seam), -1); }

void tailor_in_add_hem_turn_up(tailor_pattern *p, const tailor_in_draft *d, const tailor_in_path *behind,
                               const tailor_cubic *hem, const tailor_in_path *before)
{
    add_turn_up(p, TAILOR_MARKED_HEM_TURN_UP, hem, up(behind), up(before), d->k[TAILOR_CONSTANT_HEM_TURN_UP]);
}

void tailor_in_add_forepart_turn_up(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_in_path line = tailor_in_facing_line(d);
    double t = tailor_cubic_nearest(&d->hem_fore, tailor_in_path_end(&line), NULL);
    double length = tailor_cubic_length_to(&d->hem_fore, t) + UNDER_FACING;
    tailor_cubic net = tailor_cubic_part(&d->hem_fore, 0, tailor_cubic_at_length(&d->hem_fore, length));
    add_turn_up(p, TAILOR_MARKED_HEM_TURN_UP, &net, up(&d->front_seam_fore), left_of(tailor_cubic_direction(&net, 1)),
                d->k[TAILOR_CONSTANT_HEM_TURN_UP]);
}

void tailor_in_add_cuff_turn_up(tailor_pattern *p, const tailor_in_draft *d, const tailor_in_path *left,
                                const tailor_in_path *right)
{
    tailor_cubic net = tailor_in_line(tailor_in_path_end(left), tailor_in_path_end(right));
    add_turn_up(p, TAILOR_MARKED_CUFF_TURN_UP, &net, up(left), up(right), d->k[TAILOR_CONSTANT_CUFF_TURN_UP]);
}

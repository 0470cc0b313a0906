/* The inner edge of the facing on the forepart: facing, lining of the forepart and inside pocket share it. Downwards:
 * from the shoulder behind the break line, behind every hole and button, to the hem. */
#include "draft.h"

/* All own judgement: how far behind the break line over the chest; how far behind the end of a round cut at the hem;
 * and what is left of the forepart for its lining wherever a front is narrow. */
static const double BEHIND_BREAK = 62, PAST_ROUND = 40, LEFT_FOR_LINING = 50, LEFT_AT_SCYE = 20;

static double limited(const tailor_in_draft *d, double x, double level)
{
    return fmax(x, tailor_in_x_at(&d->front_seam_fore, level) + LEFT_FOR_LINING);
}

/** What lies farthest back of holes and buttons, where the facing must be under them. */
static double behind_fastening(const tailor_in_draft *d)
{
    double thickness = d->f[TAILOR_FIELD_BUTTON_THICKNESS], back = INFINITY;
    double slit =
        d->f[TAILOR_FIELD_BUTTON_DIAMETER] + (isnan(thickness) ? d->k[TAILOR_CONSTANT_HOLE_MORE] : thickness + 1);
    for (int i = d->first_hole; i < d->row_count; i++)
        back = fmin(back, fmin(d->eye[i].x - slit, d->button[i].x));
    return back - d->k[TAILOR_CONSTANT_FACING_PAST_HOLES];
}

/** Place on the hem of the forepart: the facing's width from the edge, a round one run on straight; at least what
 * covers the end of a round, and nowhere in front of what holes and buttons need. */
static tailor_point on_hem(const tailor_in_draft *d, double fastening)
{
    double edge = d->centre_front + d->edge_out + tailor_in_belly_at(d, d->front_hem);
    double x = fmin(edge - d->k[TAILOR_CONSTANT_FACING_HEM], fastening), places[4];
    if ((int)d->f[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_ROUND)
        x = fmin(x, d->hem_front.x - PAST_ROUND);
    double side = tailor_in_path_end(&d->front_seam_fore).x;
    x = fmin(fmax(x, side + LEFT_FOR_LINING), (side + 3 * d->hem_front.x) / 4);
    size_t found = 0;
    tailor_path_cross_line(&d->hem_fore, 1, at(x, 0), at(x, 1), places, 4, &found);
    return tailor_in_point(&d->hem_fore, found ? places[0] : 0.5);
}

tailor_in_path tailor_in_facing_line(const tailor_in_draft *d)
{
    double shoulder = fmin(d->k[TAILOR_CONSTANT_FACING_SHOULDER], 0.6 * tailor_cubic_length(&d->front_shoulder));
    double t = tailor_cubic_at_length(&d->front_shoulder, shoulder);
    double low = d->button[d->row_count - 1].y;
    tailor_point start = tailor_in_point(&d->front_shoulder, t), end = on_hem(d, behind_fastening(d));
    low = fmax(low, end.y + 30);
    double least = limited(d, behind_fastening(d), low), chest = fmax(d->scye_plumb.y, (start.y + low) / 2);
    double break_x = d->break_point.x + d->up.x / d->up.y * (chest - d->break_point.y);
    double at_chest = fmax(fmin(break_x - BEHIND_BREAK, least - 1), d->scye_front + LEFT_AT_SCYE);
    tailor_point points[4] = {start, at(at_chest, chest), at(fmax(least, at_chest), low), end};
    tailor_in_path line = {3, {{{{0, 0}}}}};
    tailor_path_monotone(points, 4, line.c);
    return line;
}

/* Own judgement: the mouth lies a hand's breadth under the scye, and so far on the facing that its front end is firm.
 */
static const double POCKET_BELOW_SCYE = 40, ON_FACING = 25, FROM_SEAM = 25;

tailor_cubic tailor_in_inside_pocket(const tailor_in_draft *d)
{
    tailor_in_path line = tailor_in_facing_line(d);
    double level = d->scye_line - POCKET_BELOW_SCYE, front = tailor_in_x_at(&line, level) + ON_FACING;
    double rear =
        fmax(front - d->k[TAILOR_CONSTANT_INSIDE_POCKET], tailor_in_x_at(&d->front_seam_fore, level) + FROM_SEAM);
    return tailor_in_line(at(front, level), at(rear, level));
}

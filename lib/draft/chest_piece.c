/* Chest piece and shoulder piece, both of haircloth: the one over the chest behind the break line, hair level; the
 * other over shoulder and upper chest, on the bias. Neither reaches a seam that is pressed open. */
#include "canvas.h"
#include "put.h"
#include "aside.h"

/* Own judgement: how far below the corner of the gorge the front of both pieces begins to bend back to the shoulder,
 * how far the chest piece stays from the neck there, and how far down the scye the shoulder piece goes. */
static const double BELOW_GORGE = 30, FROM_NECK = 18, DOWN_SCYE = 0.75;

/** The point so far inside the break line, at a height above the break point along it. */
static tailor_point behind_break(const tailor_in_draft *d, double inside, double height)
{
    return along(along(d->break_point, d->up, height), d->inward, inside);
}

static double height_of(const tailor_in_draft *d, tailor_point p) { return dot(sub(p, d->break_point), d->up); }

/** Front of a piece above a place: up along the break line, then back to the shoulder. */
static tailor_cubic bend_back(const tailor_in_draft *d, tailor_point from, tailor_point to)
{
    double reach = distance(from, to);
    return tailor_in_hermite(from, times(d->up, 0.4 * reach), to, times(unit(sub(to, from)), 0.3 * reach));
}

static void add_chest_piece(tailor_pattern *p, const tailor_in_draft *d)
{
    const double *k = d->k;
    double length = tailor_cubic_length(&d->front_shoulder), inside = k[TAILOR_CONSTANT_CHEST_PIECE_BEHIND_BREAK];
    double in = -fmin(k[TAILOR_CONSTANT_CHEST_PIECE_SHORT_OF_SCYE], 0.2 * fmin(length, d->front_width));
    double below = k[TAILOR_CONSTANT_CHEST_PIECE_BELOW_SCYE], low = d->scye_line - below;

    tailor_cubic whole = d->front_shoulder, upper = d->scye_fore.c[0];
    double t = tailor_cubic_at_length(&whole, fmin(FROM_NECK, 0.2 * length));
    tailor_point top = along(tailor_in_point(&whole, t), right_of(tailor_cubic_direction(&whole, t)), in);
    tailor_point end =
        tailor_in_corner_aside(whole.p[3], tailor_cubic_direction(&whole, 1), tailor_cubic_direction(&upper, 0), in);
    tailor_cubic shoulder = tailor_cubic_part(&whole, t, 1);
    shoulder = tailor_in_between(&shoulder, top, end);
    tailor_in_path scye = {0, {{{{0, 0}}}}}, bottom = scye, front = scye;
    tailor_point plumb = at(d->scye_plumb.x - in, d->scye_plumb.y), rear = at(plumb.x, d->scye_line - 0.3 * below);
    tailor_in_append(&scye, tailor_in_between(&upper, end, plumb));
    tailor_in_append(&scye, tailor_in_line(plumb, rear));

    double high = height_of(d, d->gorge_corner) - BELOW_GORGE;
    double start = fmax((low + 0.66 * below - d->break_point.y - d->inward.y * inside) / d->up.y, 25);
    start = fmin(start, high - 20);
    tailor_point from = behind_break(d, inside, start), bend = behind_break(d, inside, high);
    tailor_point lowest = at((rear.x + from.x) / 2, fmin(low, from.y - 20));
    double half = 0.55 * (lowest.x - rear.x), drop = 0.55 * (rear.y - lowest.y), rise = 0.55 * (from.y - lowest.y);
    tailor_in_append(&bottom, tailor_in_hermite(rear, at(0, -drop), lowest, at(half, 0)));
    tailor_in_append(&bottom, tailor_in_hermite(lowest, at(half, 0), from, times(d->up, rise)));
    tailor_in_append(&front, tailor_in_line(from, bend));
    tailor_in_append(&front, bend_back(d, bend, top));

    tailor_in_add_piece(p, TAILOR_PIECE_CHEST_PIECE, 2, 1, TAILOR_SIDE_RIGHT, "haircloth");
    tailor_in_add_path(p, TAILOR_EDGE_BREAK_EDGE, &front);
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, &shoulder, 1);
    tailor_in_add_path(p, TAILOR_EDGE_SCYE, &scye);
    tailor_in_add_path(p, TAILOR_EDGE_BOTTOM, &bottom);
    double level = d->scye_line + 30; /* the hair lies level: it springs from the scye to the front */
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(plumb.x + 15, level), at(plumb.x + 75, level));
}

static void add_shoulder_piece(tailor_pattern *p, const tailor_in_draft *d)
{
    const double *k = d->k;
    double length = tailor_cubic_length(&d->front_shoulder);
    double from_neck = fmin(k[TAILOR_CONSTANT_SHOULDER_PIECE_FROM_NECK], 0.4 * length);
    tailor_cubic shoulder =
        tailor_cubic_part(&d->front_shoulder, tailor_cubic_at_length(&d->front_shoulder, from_neck), 1);
    tailor_in_path scye = tailor_in_part(&d->scye_fore, 0, DOWN_SCYE);
    tailor_point rear = tailor_in_path_end(&scye), square = left_of(tailor_in_direction_end(&scye));
    tailor_point from = behind_break(d, k[TAILOR_CONSTANT_CHEST_PIECE_BEHIND_BREAK] + from_neck,
                                     height_of(d, d->gorge_corner) - BELOW_GORGE);
    double width = distance(rear, from);
    tailor_cubic bottom = tailor_in_hermite(rear, times(square, 0.5 * width), from, times(d->up, 0.4 * width));
    tailor_cubic front = bend_back(d, from, shoulder.p[0]);
    tailor_in_add_piece(p, TAILOR_PIECE_SHOULDER_PIECE, 2, 1, TAILOR_SIDE_RIGHT, "haircloth");
    tailor_in_add_edge(p, TAILOR_EDGE_BREAK_EDGE, &front, 1);
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, &shoulder, 1);
    tailor_in_add_path(p, TAILOR_EDGE_SCYE, &scye);
    tailor_in_add_edge(p, TAILOR_EDGE_BOTTOM, &bottom, 1);
    /* On the bias: half a right angle from the forepart's grain. */
    tailor_point middle = times(add(add(from, rear), add(shoulder.p[0], shoulder.p[3])), 0.25);
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, add(middle, at(-20, -20)), add(middle, at(20, 20)));
}

void tailor_in_add_chest_pieces(tailor_pattern *p, const tailor_in_draft *d)
{
    add_chest_piece(p, d);
    add_shoulder_piece(p, d);
}

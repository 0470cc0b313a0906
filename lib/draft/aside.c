#include "aside.h"

tailor_cubic tailor_in_between(const tailor_cubic *c, tailor_point start, tailor_point end)
{
    double was = distance(c->p[0], c->p[3]), is = distance(start, end), scale = was > 1e-9 ? is / was : 0;
    return tailor_in_hermite(start, times(sub(c->p[1], c->p[0]), scale), end, times(sub(c->p[3], c->p[2]), scale));
}

/** A cubic moved aside, its ends being given: through the parallel of its middle too, which settles how long both
 * handles are, unless they are so nearly parallel that it does not. */
static tailor_cubic parallel(const tailor_cubic *c, tailor_point start, tailor_point end, double by)
{
    tailor_cubic moved = tailor_in_between(c, start, end);
    tailor_point leave = sub(moved.p[1], start), arrive = sub(end, moved.p[2]);
    tailor_point middle = along(tailor_in_point(c, 0.5), right_of(tailor_cubic_direction(c, 0.5)), by);
    tailor_point wanted = times(sub(middle, times(add(start, end), 0.5)), 8.0 / 3); /* = a leave - b arrive */
    double area = cross(leave, arrive);
    if (fabs(area) < 0.1 * norm(leave) * norm(arrive))
        return moved;
    double a = cross(wanted, arrive) / area, b = cross(wanted, leave) / area;
    if (!(a > 0.5 && a < 2 && b > 0.5 && b < 2)) /* moved too far for such a bend */
        return moved;
    return tailor_in_hermite(start, times(leave, a), end, times(arrive, b));
}

tailor_in_path tailor_in_aside(const tailor_in_path *path, double by)
{
    tailor_in_path moved = {0, {{{{0, 0}}}}};
    tailor_point end = along(tailor_in_path_start(path), right_of(tailor_in_direction_start(path)), by);
    for (size_t i = 0; i < path->count; i++) {
        const tailor_cubic *c = &path->c[i];
        tailor_point start = end, arrive = tailor_cubic_direction(c, 1);
        if (distance(c->p[0], c->p[3]) < 0.5 * fabs(by)) /* too short to turn in: moved as it is */
            end = add(start, sub(c->p[3], c->p[0]));
        else if (i + 1 < path->count) /* a joint has one normal, even where its directions differ a little */
            end = tailor_in_corner_aside(c->p[3], arrive, tailor_cubic_direction(c + 1, 0), by);
        else
            end = along(c->p[3], right_of(arrive), by);
        tailor_in_append(&moved, parallel(c, start, end, by));
    }
    return moved;
}

tailor_point tailor_in_corner_aside(tailor_point corner, tailor_point arrive, tailor_point leave, double by)
{
    return along(corner, right_of(add(arrive, leave)), by / fmax(1 + dot(arrive, leave), 0.2));
}

double tailor_in_edge_length(const tailor_pattern *p, int number, int edge, int side)
{
    const struct tailor_in_piece *pieces = TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES);
    const struct tailor_in_edge *edges = TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES);
    for (int i = p->count[TAILOR_IN_PIECES] - 1; i >= 0; i--) {
        const struct tailor_in_piece *piece = &pieces[i];
        if (piece->number != number || (side && !piece->mirrored && piece->side != side))
            continue;
        for (int j = piece->first_edge; j < piece->first_edge + piece->edge_count; j++)
            if (edges[j].number == edge)
                return tailor_path_length(TAILOR_IN_SEE(p, tailor_cubic, TAILOR_IN_CUBICS) + edges[j].first_cubic,
                                          (size_t)edges[j].cubic_count);
    }
    return NAN;
}

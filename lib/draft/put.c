#include "put.h"

void tailor_in_add_path(tailor_pattern *p, int edge, const tailor_in_path *path)
{
    tailor_in_add_edge(p, edge, path->c, path->count);
}

void tailor_in_add_backwards(tailor_pattern *p, int edge, const tailor_in_path *path)
{
    tailor_in_path reversed = tailor_in_reversed(path);
    tailor_in_add_edge(p, edge, reversed.c, reversed.count);
}

void tailor_in_add_line(tailor_pattern *p, int mark, int kind, tailor_point a, tailor_point b)
{
    tailor_cubic line = tailor_in_line(a, b);
    tailor_in_add_mark(p, mark, kind, &line, 1);
}

void tailor_in_add_level(tailor_pattern *p, int mark, double level, const tailor_in_path *from,
                         const tailor_in_path *to)
{
    tailor_in_add_line(p, mark, TAILOR_MARK_LINE, at(tailor_in_x_at(from, level), level),
                       at(tailor_in_x_at(to, level), level));
}

void tailor_in_add_notch(tailor_pattern *p, const tailor_in_draft *d, int mark, int edge, double place)
{
    const struct tailor_in_piece *piece =
        TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + p->count[TAILOR_IN_PIECES] - 1;
    const struct tailor_in_edge *edges = TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES) + piece->first_edge;
    for (int i = 0; i < piece->edge_count; i++) {
        if (edges[i].number != edge)
            continue;
        const tailor_cubic *path = TAILOR_IN_SEE(p, tailor_cubic, TAILOR_IN_CUBICS) + edges[i].first_cubic;
        size_t count = (size_t)edges[i].cubic_count;
        tailor_point on = tailor_path_point(path, count, place), heading = tailor_path_direction(path, count, place);
        tailor_in_add_line(p, mark, TAILOR_MARK_NOTCH, on,
                           along(on, left_of(heading), d->k[TAILOR_CONSTANT_NOTCH_LENGTH]));
    }
}

void tailor_in_add_circle(tailor_pattern *p, int mark, int kind, tailor_point centre, double radius)
{
    /* Four quarters; the handle of a quarter circle is 4/3 (sqrt 2 - 1) of its radius. */
    static const double handle = 0.55228474983079339840;
    tailor_point ray = at(radius, 0);
    tailor_cubic circle[4];
    for (int i = 0; i < 4; i++) {
        tailor_point next = left_of(ray);
        circle[i] = (tailor_cubic){{add(centre, ray), add(centre, along(ray, next, handle)),
                                    add(centre, along(next, ray, handle)), add(centre, next)}};
        ray = next;
    }
    tailor_in_add_mark(p, mark, kind, circle, 4);
}

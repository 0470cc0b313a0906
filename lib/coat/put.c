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
    tailor_cubic line = tailor_cubic_line(a, b);
    tailor_in_add_mark(p, mark, kind, &line, 1);
}

void tailor_in_add_level(tailor_pattern *p, int mark, double level, const tailor_in_path *from, const tailor_in_path *to)
{
    tailor_in_add_line(p, mark, TAILOR_MARK_LINE, at(tailor_in_x_at(from, level), level), at(tailor_in_x_at(to, level), level));
}

void tailor_in_add_notch(tailor_pattern *p, const tailor_in_draft *d, int mark, int edge, double place)
{
    int piece = tailor_pattern_piece_count(p) - 1;
    for (int i = 0; i < tailor_piece_edge_count(p, piece); i++) {
        if (tailor_edge_number(p, piece, i) != edge)
            continue;
        size_t count;
        const tailor_cubic *path = tailor_edge_path(p, piece, i, &count);
        tailor_point on = tailor_path_point(path, count, place), heading = tailor_path_direction(path, count, place);
        tailor_in_add_line(p, mark, TAILOR_MARK_NOTCH, on, along(on, left_of(heading), d->k[TAILOR_CONSTANT_NOTCH_LENGTH]));
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

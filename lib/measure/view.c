#include "view.h"

#include <stddef.h>
#include <string.h>

#include "../pattern/block.h"

/** Is a number one of a table of that size? (0 stands for a name that no table has.) */
static int known(int number, int size) { return number > 0 && number < size; }

int tailor_in_serves(const struct tailor_in_view *v, int index)
{
    const struct tailor_in_piece *piece = TAILOR_IN_SEE(v->pattern, struct tailor_in_piece, TAILOR_IN_PIECES) + index;
    return piece->mirrored || piece->side == v->side;
}

static void turn_over(tailor_cubic *c)
{
    for (int i = 0; i < 4; i++)
        c->p[i].x = -c->p[i].x;
}

/** A path of the pattern as of the right side. A left piece's outline runs the other way there, its marks do not. */
static struct tailor_in_run run_of(struct tailor_in_view *v, const tailor_cubic *c, int count, int left, int outline)
{
    if (!left)
        return (struct tailor_in_run){c, (size_t)count};
    if (count > TAILOR_IN_MIRRORED - v->mirrored_count)
        return (struct tailor_in_run){NULL, 0};
    tailor_cubic *to = v->mirrored + v->mirrored_count;
    v->mirrored_count += count;
    for (int i = 0; i < count; i++) {
        to[i] = outline ? tailor_cubic_reverse(&c[count - 1 - i]) : c[i];
        turn_over(&to[i]);
    }
    return (struct tailor_in_run){to, (size_t)count};
}

static void view_piece(struct tailor_in_view *v, const struct tailor_in_piece *piece, int place)
{
    const tailor_pattern *pattern = v->pattern;
    int left = piece->side == TAILOR_SIDE_LEFT && !piece->mirrored;
    const tailor_cubic *cubics = TAILOR_IN_SEE(pattern, tailor_cubic, TAILOR_IN_CUBICS);
    const struct tailor_in_edge *edges =
        TAILOR_IN_SEE(pattern, struct tailor_in_edge, TAILOR_IN_EDGES) + piece->first_edge;
    for (const struct tailor_in_edge *edge = edges; edge < edges + piece->edge_count; edge++)
        if (tailor_in_net_edge[edge->number] > 0) {
            struct tailor_in_run run = run_of(v, cubics + edge->first_cubic, edge->cubic_count, left, 1);
            v->edge[place][tailor_in_net_edge[edge->number]] = run;
            v->length[place][tailor_in_net_edge[edge->number]] = tailor_path_length(run.c, run.count);
        }
    const struct tailor_in_mark *marks =
        TAILOR_IN_SEE(pattern, struct tailor_in_mark, TAILOR_IN_MARKS) + piece->first_mark;
    for (const struct tailor_in_mark *mark = marks; mark < marks + piece->mark_count; mark++)
        if (known(mark->number, TAILOR_MARKED_COUNT))
            v->mark[place][mark->number] = run_of(v, cubics + mark->first_cubic, mark->cubic_count, left, 0);
    const struct tailor_in_named_point *points =
        TAILOR_IN_SEE(pattern, struct tailor_in_named_point, TAILOR_IN_POINTS) + piece->first_point;
    for (const struct tailor_in_named_point *point = points; point < points + piece->point_count; point++)
        if (known(point->number, TAILOR_POINT_COUNT))
            v->point[place][point->number] = left ? (tailor_point){-point->at.x, point->at.y} : point->at;
}

tailor_status tailor_in_view_coat(struct tailor_in_view *v, const tailor_pattern *pattern, int side,
                                  const struct tailor_in_figure *figure, tailor_fault *fault)
{
    memset(v, 0, offsetof(struct tailor_in_view, mirrored)); /* runs of nothing */
    v->mirrored_count = 0;
    v->pattern = pattern;
    v->side = side;
    v->f = figure->f;
    v->k = figure->k;
    v->extra_pad = figure->extra_pad;
    for (int i = 0; i < TAILOR_IN_NET_PIECE_COUNT; i++) {
        v->piece[i] = -1;
        for (int j = 0; j < TAILOR_IN_NET_EDGE_COUNT; j++)
            v->length[i][j] = NAN;
        for (int j = 0; j < TAILOR_POINT_COUNT; j++)
            v->point[i][j] = (tailor_point){NAN, NAN};
    }
    const struct tailor_in_piece *pieces = TAILOR_IN_SEE(pattern, struct tailor_in_piece, TAILOR_IN_PIECES);
    for (int i = 0; i < pattern->count[TAILOR_IN_PIECES]; i++)
        if (tailor_in_net_piece[pieces[i].number] > 0 && tailor_in_serves(v, i)) {
            v->piece[tailor_in_net_piece[pieces[i].number]] = i;
            view_piece(v, &pieces[i], tailor_in_net_piece[pieces[i].number]);
        }
    return tailor_in_view_whole(v, fault);
}

double tailor_in_edge_x(const struct tailor_in_view *v, int piece, int edge, double level)
{
    struct tailor_in_run run = v->edge[piece][edge];
    /* Along the drafted seams the level is linear in the parameter: then no root has to be found. */
    for (size_t i = 0; i < run.count; i++) {
        double from = run.c[i].p[0].y, to = run.c[i].p[3].y, t = (level - from) / (to - from);
        if (!(t >= 0 && t <= 1))
            continue;
        tailor_point p = tailor_in_point(&run.c[i], t);
        if (fabs(p.y - level) < 1e-11)
            return p.x;
        break;
    }
    double places[8];
    size_t found = 0;
    tailor_status status = tailor_path_cross_line(run.c, run.count, (tailor_point){0, level},
                                                  (tailor_point){1000, level}, places, 8, &found);
    return status == TAILOR_OK && found ? tailor_path_point(run.c, run.count, places[0]).x : NAN;
}

tailor_point tailor_in_edge_start(const struct tailor_in_view *v, int piece, int edge)
{
    return tailor_cubic_direction(v->edge[piece][edge].c, 0);
}

tailor_point tailor_in_edge_end(const struct tailor_in_view *v, int piece, int edge)
{
    struct tailor_in_run run = v->edge[piece][edge];
    return tailor_cubic_direction(run.c + run.count - 1, 1);
}

double tailor_in_angle(tailor_point a, tailor_point b)
{
    return fabs(atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y)) * 180 / 3.14159265358979323846;
}

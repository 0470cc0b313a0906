#include "view.h"

int tailor_in_view_coat(struct tailor_in_view *v, const tailor_pattern *pattern, const double *fields, const double *constants)
{
    v->pattern = pattern;
    v->f = fields;
    v->k = constants;
    for (int i = 0; i < TAILOR_PIECE_COUNT; i++) {
        v->piece[i] = -1;
        for (int j = 0; j < TAILOR_EDGE_COUNT; j++) {
            v->edge[i][j] = (struct tailor_in_run){NULL, 0};
            v->length[i][j] = NAN;
        }
        for (int j = 0; j < TAILOR_MARKED_COUNT; j++)
            v->mark[i][j] = (struct tailor_in_run){NULL, 0};
        for (int j = 0; j < TAILOR_POINT_COUNT; j++)
            v->point[i][j] = (tailor_point){NAN, NAN};
    }
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++) {
        int number = tailor_piece_number(pattern, i);
        if (number <= 0 || number >= TAILOR_PIECE_COUNT)
            continue;
        v->piece[number] = i;
        for (int j = 0; j < tailor_piece_edge_count(pattern, i); j++) {
            struct tailor_in_run run;
            run.c = tailor_edge_path(pattern, i, j, &run.count);
            v->edge[number][tailor_edge_number(pattern, i, j)] = run;
            v->length[number][tailor_edge_number(pattern, i, j)] = tailor_path_length(run.c, run.count);
        }
        for (int j = 0; j < tailor_piece_mark_count(pattern, i); j++) {
            struct tailor_in_run run;
            run.c = tailor_mark_path(pattern, i, j, &run.count);
            v->mark[number][tailor_mark_number(pattern, i, j)] = run;
        }
        for (int j = 0; j < tailor_piece_point_count(pattern, i); j++)
            v->point[number][tailor_point_number(pattern, i, j)] = tailor_point_place(pattern, i, j);
    }
    for (int i = TAILOR_PIECE_BACK; i <= TAILOR_PIECE_UNDER_COLLAR; i++)
        if (v->piece[i] < 0)
            return 0;
    return 1;
}

double tailor_in_edge_x(const struct tailor_in_view *v, int piece, int edge, double level)
{
    struct tailor_in_run run = v->edge[piece][edge];
    double places[8];
    size_t found = 0;
    tailor_status status = tailor_path_cross_line(run.c, run.count, (tailor_point){0, level}, (tailor_point){1000, level},
                                                  places, 8, &found);
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

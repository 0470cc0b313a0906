/* A coat by the numbers of its tables: edges and points found once, then measured. */
#ifndef TAILOR_IN_MEASURE_VIEW_H
#define TAILOR_IN_MEASURE_VIEW_H

#include <math.h>

#include <tailorgeom/measure.h>

#include "../geom/kernel.h"

struct tailor_in_run { /* an edge or mark */
    const tailor_cubic *c;
    size_t count;
};

struct tailor_in_view {
    const tailor_pattern *pattern;
    const double *f, *k;           /* full rows */
    int piece[TAILOR_PIECE_COUNT]; /* index in the pattern, -1 if it has none */
    struct tailor_in_run edge[TAILOR_PIECE_COUNT][TAILOR_EDGE_COUNT];
    struct tailor_in_run mark[TAILOR_PIECE_COUNT][TAILOR_MARKED_COUNT];
    tailor_point point[TAILOR_PIECE_COUNT][TAILOR_POINT_COUNT]; /* NaN if there is none */
    double length[TAILOR_PIECE_COUNT][TAILOR_EDGE_COUNT];       /* of the edges */
};

/** Has the view every piece and edge that measuring looks at? */
int tailor_in_view_whole(const struct tailor_in_view *v);
/** Fill a view; 0 when a piece of the coat, or an edge or mark of one that is measured, is missing. */
int tailor_in_view_coat(struct tailor_in_view *v, const tailor_pattern *pattern, const double *fields,
                        const double *constants);

/** x of an edge at a level: the first crossing in outline direction; NaN when it does not reach the level. */
double tailor_in_edge_x(const struct tailor_in_view *v, int piece, int edge, double level);
/** Unit direction at an edge's start or end, in outline direction. */
tailor_point tailor_in_edge_start(const struct tailor_in_view *v, int piece, int edge);
tailor_point tailor_in_edge_end(const struct tailor_in_view *v, int piece, int edge);
/** Unsigned angle between two directions, deg. */
double tailor_in_angle(tailor_point a, tailor_point b);

void tailor_in_measure_quantities(const struct tailor_in_view *v, double *q);
/** Values and limits of the checks; q are the quantities measured before. */
void tailor_in_measure_checks(const struct tailor_in_view *v, const double *q, double *value, double *limit);
/** The part of the checks that is about seams, joins and outlines. */
void tailor_in_measure_joins(const struct tailor_in_view *v, double *value);
void tailor_in_measure_outlines(const struct tailor_in_view *v, double *value);

#endif

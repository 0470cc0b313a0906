/* A coat by the numbers of its tables: edges and points found once, then measured. */
#ifndef TAILOR_IN_MEASURE_VIEW_H
#define TAILOR_IN_MEASURE_VIEW_H

#include <math.h>

#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>

#include "../draft/figure.h"
#include "../geom/kernel.h"
#include "../pattern/net.h"
#include "body.h"

struct tailor_in_run { /* an edge or mark */
    const tailor_cubic *c;
    size_t count;
};

enum { TAILOR_IN_MIRRORED = 420 }; /* cubics of all of one side's pieces, marks included */

/** One side of a coat, as of the right: left pieces are turned back. Pieces and edges are those of the net draft, by
 *  their place among themselves (TAILOR_IN_NET_PIECE_, TAILOR_IN_NET_EDGE_); the rest is read off the pattern. */
struct tailor_in_view {
    const tailor_pattern *pattern;
    int side;                             /* TAILOR_SIDE_RIGHT or TAILOR_SIDE_LEFT */
    const double *f, *k;                  /* full rows of that side's figure */
    double extra_pad;                     /* of that side */
    int piece[TAILOR_IN_NET_PIECE_COUNT]; /* index in the pattern, -1 if it has none */
    struct tailor_in_run edge[TAILOR_IN_NET_PIECE_COUNT][TAILOR_IN_NET_EDGE_COUNT];
    struct tailor_in_run mark[TAILOR_IN_NET_PIECE_COUNT][TAILOR_MARKED_COUNT];
    tailor_point point[TAILOR_IN_NET_PIECE_COUNT][TAILOR_POINT_COUNT];  /* NaN if there is none */
    double length[TAILOR_IN_NET_PIECE_COUNT][TAILOR_IN_NET_EDGE_COUNT]; /* of the edges */
    tailor_cubic mirrored[TAILOR_IN_MIRRORED];
    int mirrored_count;
};

/** Has the view every piece and edge that measuring looks at? Else TAILOR_BAD_ARGUMENT, the fault naming what is
 *  missing. */
tailor_status tailor_in_view_whole(const struct tailor_in_view *v, tailor_fault *fault);
/** Fill a view of one side; TAILOR_BAD_ARGUMENT when a piece, an edge or a mark of the coat is missing. */
tailor_status tailor_in_view_coat(struct tailor_in_view *v, const tailor_pattern *pattern, int side,
                                  const struct tailor_in_figure *figure, tailor_fault *fault);
/** Does a piece of the pattern serve the view's side? */
int tailor_in_serves(const struct tailor_in_view *v, int piece);

/** x of an edge at a level: the first crossing in outline direction; NaN when it does not reach the level. */
double tailor_in_edge_x(const struct tailor_in_view *v, int piece, int edge, double level);
/** Unit direction at an edge's start or end, in outline direction. */
tailor_point tailor_in_edge_start(const struct tailor_in_view *v, int piece, int edge);
tailor_point tailor_in_edge_end(const struct tailor_in_view *v, int piece, int edge);
/** Unsigned angle between two directions, deg. */
double tailor_in_angle(tailor_point a, tailor_point b);

/** What only one front has: quantities of its fastening. */
void tailor_in_measure_fastening(const struct tailor_in_view *v, double *q);
/** How the lapel rolls; the section, which costs as much as the rest of a coat, only where it is asked for. */
void tailor_in_measure_rolling(const struct tailor_in_view *v, double *q, struct tailor_in_section *section);
void tailor_in_measure_quantities(const struct tailor_in_view *v, double *q, struct tailor_in_section *section);
/** Values and limits of the checks; q are the quantities measured before. */
void tailor_in_measure_checks(const struct tailor_in_view *v, const double *q, double *value, double *limit);
/** The part of the checks that is about seams, joins and outlines. */
void tailor_in_measure_joins(const struct tailor_in_view *v, double *value);
/** The part of the checks that is about pieces of the make; NaN stays where there are none. */
void tailor_in_measure_making(const struct tailor_in_view *v, double *value);
void tailor_in_measure_outlines(const struct tailor_in_view *v, double *value);

#endif

/* Edges moved aside: how the pieces of the make come from those of the draft. The parallel of a cubic is no cubic. Here
 * a single one takes its place, which has the parallel's ends, directions and middle: for what facing and canvas differ
 * from the forepart that is the parallel within a few hundredths of the distance, costs next to nothing, and cannot
 * cross itself where the edge bends tighter than it is moved. */
#ifndef TAILOR_IN_COAT_ASIDE_H
#define TAILOR_IN_COAT_ASIDE_H

#include "../pattern/build.h"
#include "draft.h"

/** A cubic with other ends; its handles keep their directions and grow with the chord. */
tailor_cubic tailor_in_between(const tailor_cubic *c, tailor_point start, tailor_point end);
/** A path moved by `by` to the right of its direction, the outside of a counter-clockwise outline. */
tailor_in_path tailor_in_aside(const tailor_in_path *path, double by);
/** Where two edges moved aside by `by` meet again: `arrive` and `leave` are their directions at their common end. */
tailor_point tailor_in_corner_aside(tailor_point corner, tailor_point arrive, tailor_point leave, double by);

/** Length of an edge of the piece of that number which serves a side; NaN if there is none. Of a piece just added,
 *  whose side is not settled yet, `side` is 0. */
double tailor_in_edge_length(const tailor_pattern *p, int piece, int edge, int side);

#endif

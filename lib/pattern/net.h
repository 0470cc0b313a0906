/* What is said of pieces, edges, points and findings in their tables besides what people read. */
#ifndef TAILOR_IN_PATTERN_NET_H
#define TAILOR_IN_PATTERN_NET_H

#include <tailorgeom/pattern_tables.h>

#include "net_tables.h"

/** Place of a piece's or edge's number among those of the net draft, which measuring looks at: a TAILOR_IN_NET_ number;
 *  -1 for what only the make has. 0, the number of a name that no table has, is 0 here too. */
extern const signed char tailor_in_net_piece[TAILOR_PIECE_COUNT], tailor_in_net_edge[TAILOR_EDGE_COUNT];

/** 1 for a piece that is drawn as half of what is cut, on the fold of the cloth. */
extern const signed char tailor_in_fold_piece[TAILOR_PIECE_COUNT];

/** 1 for a point that lies on the outline of every piece of the net draft that has it. */
extern const signed char tailor_in_outline_point[TAILOR_POINT_COUNT];

/** 1 for a finding that a pattern is refused for. */
extern const signed char tailor_in_finding_refuses[TAILOR_FINDING_COUNT];

#endif

/* The inside of a builder, and what adding and finishing share. */
#ifndef TAILOR_IN_PATTERN_BUILDER_H
#define TAILOR_IN_PATTERN_BUILDER_H

#include "build.h"

struct tailor_builder {
    tailor_allocator allocator;
    tailor_pattern *work; /* the pattern so far, in a block that is replaced by a larger one when it is full */
};

/** A gap between two curves up to this, mm, is what writing numbers down leaves: finishing closes it. */
#define TAILOR_IN_GAP_CLOSED 1e-3

/** Begin the sentence of a fault with "piece 2, edge 3: ", counted from 1 in the order of adding; parts at -1 are left
 * out. Names are the client's text, and sentences hold none. */
void tailor_in_builder_where(tailor_fault *fault, int piece, const char *part, int index);
/** The same for "seam 2, first side, stretch 3: "; side and stretch at -1 are left out. */
void tailor_in_builder_where_in_seam(tailor_fault *fault, int seam, int side, int stretch);

#endif

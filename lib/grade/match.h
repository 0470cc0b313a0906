/* Matching the curves of an edge in several sizes. */
#ifndef TAILOR_IN_GRADE_MATCH_H
#define TAILOR_IN_GRADE_MATCH_H

#include "inside.h"

enum { TAILOR_IN_MOST_PATTERNS = 64 };

struct tailor_in_match {
    const tailor_pattern *const *patterns; /* arranged alike */
    size_t count;
    int piece, edge;            /* edge as counted in the patterns' own array */
    struct tailor_in_cut *cuts; /* of pattern k from cuts + stride k on */
    int stride, *made;          /* made[k]: how many there are */
};

/** Cuts of one edge for every pattern, after which all have as many curves there. 0 when there are too many. */
int tailor_in_match_edge(const struct tailor_in_match *m);

#endif

/* Examining a pattern: what its files find, each in its part, and where it goes. */
#ifndef TAILOR_IN_PATTERN_EXAMINE_H
#define TAILOR_IN_PATTERN_EXAMINE_H

#include "block.h"

/** An examination in work: findings past `capacity` are counted and not kept; those that refuse stand first. */
struct tailor_in_examining {
    const tailor_pattern *pattern, *base;
    tailor_finding *findings;
    size_t capacity, found, refused;
};

/** A kind's limit, in its unit. */
double tailor_in_finding_limit(int kind);
/** Keep a finding, what refuses before what does not; its limit is filled in. */
void tailor_in_find(struct tailor_in_examining *x, tailor_finding finding);

/** Index of the edge, in its piece, that a place of the piece's outline lies on. */
int tailor_in_edge_at(const tailor_pattern *p, int piece, double place);

/** Crossings and turns of one outline. `*crosses` becomes 1 when it crosses itself: what is asked of it else has no
 *  answer. TAILOR_NOT_CONVERGED if that cannot be told. */
tailor_status tailor_in_examine_outline(struct tailor_in_examining *x, int piece, int *crosses);
/** The narrowest part of a piece whose outline does not cross itself. */
void tailor_in_examine_width(struct tailor_in_examining *x, int piece);
/** Points and marks of a piece. */
void tailor_in_examine_inside(struct tailor_in_examining *x, int piece);
void tailor_in_examine_seam(struct tailor_in_examining *x, int seam);

#endif

/* What facing and top collar have in common: the turn, and the collar behind the neck, which a shawl's facing has grown
 * on. */
#ifndef TAILOR_IN_COAT_FACING_H
#define TAILOR_IN_COAT_FACING_H

#include "draft.h"

/** What the outer of two layers needs more, square to a fold, to lie flat round the inner one: the distance of their
 *  mid-planes times the angle turned, half a turn (pi). Exact for layers that keep their length in their mid-planes.
 * The layers are facing and forepart, or top and under collar, with the canvas between; melton is counted as thick as
 * the cloth. */
double tailor_in_turn(const tailor_in_draft *d);

/** The top collar behind the gorge: neck edge and leaf edge, bent until the leaf is as long as wanted. */
typedef struct tailor_in_top_collar {
    tailor_in_path neck; /* neck point to centre back */
    tailor_in_path leaf; /* collar point to centre back */
} tailor_in_top_collar;

/** `from` and `leaves` are where the leaf edge begins and its direction there (0, 0: as the under collar's), `length`
 * is the leaf edge's. The neck edge is exactly as long as the back neck, the leaf edge as long as wanted within 1e-9 as
 *  long as that takes no more than 20 degrees of bend, else as near as it comes. */
tailor_in_top_collar tailor_in_bend_top_collar(const tailor_in_draft *d, tailor_point from, tailor_point leaves,
                                               double length);

#endif

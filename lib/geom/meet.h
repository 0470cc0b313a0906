/* Where two cubics meet: the search that crossings, self-crossing and offset share. */
#ifndef TAILOR_IN_GEOM_MEET_H
#define TAILOR_IN_GEOM_MEET_H

#include "kernel.h"

enum { TAILOR_IN_MOST_MEETINGS = 24 };

/** What a meeting is, the surer the greater. */
enum { TAILOR_IN_APPROACH = 0, TAILOR_IN_END = 1, TAILOR_IN_CROSSING = 2 };

/** A meeting of two cubics p and q, as parameters: a crossing is one point of each, an approach (within the
 *  tolerance) a stretch of each, an end that lies on the other curve a point. */
typedef struct tailor_in_meeting {
    double p_from, p_to, q_from, q_to;
    int kind;
} tailor_in_meeting;

/** All meetings of two cubics, ascending along p. Returns TAILOR_OK; TAILOR_OVERLAP when they share a stretch (told
 *  in meetings[0], *count = 1); or TAILOR_NOT_CONVERGED. */
tailor_status tailor_in_cubics_meet(const tailor_cubic *p, const tailor_cubic *q, double tolerance,
                                    tailor_in_meeting meetings[TAILOR_IN_MOST_MEETINGS], int *count);

/** The tolerance, but not below what coordinates of this size can resolve. */
double tailor_in_tolerance(double tolerance, const tailor_cubic *path, size_t count);

/** Do two curves, the second from the end of the first, run on within a half turn? Then they meet at their joint
 *  only. */
bool tailor_in_run_on(const tailor_cubic *a, const tailor_cubic *b);

/** Parameters of a cubic's own loop, the lower first; false if it has none within [0, 1]. */
bool tailor_in_cubic_loop(const tailor_cubic *c, double at[2]);

#endif

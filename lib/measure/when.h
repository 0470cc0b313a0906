/* Does a condition that a table writes hold for a coat? */
#ifndef TAILOR_IN_MEASURE_WHEN_H
#define TAILOR_IN_MEASURE_WHEN_H

#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>

#include "../pattern/when.h"

/** What conditions are asked of. */
typedef struct tailor_in_case {
    const tailor_pattern *pattern;
    int side;        /* TAILOR_SIDE_RIGHT or TAILOR_SIDE_LEFT: pieces that serve it */
    int sides;       /* left and right are not alike */
    const double *f; /* the order's full row */
    const double *q; /* quantities, as that side gives them */
} tailor_in_case;

int tailor_in_when_holds(const tailor_in_when *when, const tailor_in_case *of);

/** What the table of checks says otherwise fails, with an infinite value: a check that could not be measured where this
 *  coat has it, and one that was measured where it has not. */
void tailor_in_checks_judge(const tailor_in_case *coat, double *value);

#endif

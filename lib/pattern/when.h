/* Conditions on a coat, as tables write them: when a check has to hold. generate_tables.py says how they are written;
 * measure/when.h evaluates them. */
#ifndef TAILOR_IN_PATTERN_WHEN_H
#define TAILOR_IN_PATTERN_WHEN_H

#include <tailorgeom/pattern_tables.h>

enum {
    TAILOR_IN_WHEN_ALWAYS,
    TAILOR_IN_WHEN_GIVEN,  /* the order gives the field `number` */
    TAILOR_IN_WHEN_CHOICE, /* the field `number` has the choice `which` */
    TAILOR_IN_WHEN_TRAIT,  /* the choice that the field `number` has is `than` in the trait `which` */
    TAILOR_IN_WHEN_SIDES,  /* left and right are not alike */
    TAILOR_IN_WHEN_ABOVE,  /* the quantity `number` is greater than `than` */
    TAILOR_IN_WHEN_PIECE   /* the pattern has the piece `number` */
};

typedef struct tailor_in_when {
    int kind, number, which;
    double than;
} tailor_in_when;

extern const tailor_in_when tailor_in_check_when[TAILOR_CHECK_COUNT];

#endif

#include "when.h"

#include <math.h>

#include "../order/traits.h"
#include "../pattern/block.h"

static int has_piece(const tailor_in_case *of, int number)
{
    const struct tailor_in_piece *pieces = TAILOR_IN_SEE(of->pattern, struct tailor_in_piece, TAILOR_IN_PIECES);
    for (int i = 0; i < of->pattern->count[TAILOR_IN_PIECES]; i++)
        if (pieces[i].number == number && (pieces[i].mirrored || pieces[i].side == of->side))
            return 1;
    return 0;
}

int tailor_in_when_holds(const tailor_in_when *when, const tailor_in_case *of)
{
    switch (when->kind) {
    case TAILOR_IN_WHEN_GIVEN:
        return !isnan(of->f[when->number]);
    case TAILOR_IN_WHEN_CHOICE:
        return of->f[when->number] == when->which;
    case TAILOR_IN_WHEN_TRAIT:
        return tailor_in_trait(when->number, of->f[when->number], when->which) == when->than;
    case TAILOR_IN_WHEN_SIDES:
        return of->sides;
    case TAILOR_IN_WHEN_ABOVE:
        return of->q[when->number] > when->than;
    case TAILOR_IN_WHEN_PIECE:
        return has_piece(of, when->number);
    default:
        return 1;
    }
}

void tailor_in_checks_judge(const tailor_in_case *coat, double *value)
{
    for (int i = 1; i < TAILOR_CHECK_COUNT; i++) {
        const tailor_in_when *when = &tailor_in_check_when[i];
        int wanted = when->kind == TAILOR_IN_WHEN_ALWAYS || tailor_in_when_holds(when, coat);
        if ((isnan(value[i]) ? 0 : 1) != wanted && tailor_check_sense(i)) /* a number without a row has no sense */
            value[i] = tailor_check_sense(i) > 0 ? (double)INFINITY : -(double)INFINITY;
    }
}

/* Whether an outline crosses itself, and then how often it goes round. */
#include "examine.h"

#include "../geom/kernel.h"

/** Turns of a closed path, counter-clockwise: the angle that its direction goes through. A corner turns the shorter
 *  way. */
static double turns(const tailor_cubic *path, size_t count)
{
    enum { STEPS = 32 }; /* so that the direction hardly turns from one to the next, even round a loop */
    tailor_point first = {0, 0}, last = {0, 0};
    double turned = 0;
    for (size_t i = 0; i <= count; i++)
        for (int k = 0; k <= STEPS && (i < count || k == 0); k++) {
            const tailor_point here = i < count ? tailor_cubic_direction(&path[i], (double)k / STEPS) : first;
            if (here.x == 0 && here.y == 0)
                continue; /* a curve that is a point */
            if (first.x == 0 && first.y == 0)
                first = last = here;
            turned += atan2(tailor_in_cross(last, here), tailor_in_dot(last, here));
            last = here;
        }
    return round(turned / (2 * TAILOR_IN_PI));
}

static void find_wound(struct tailor_in_examining *x, int piece, double turned, tailor_point at)
{
    tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_WOUND,
                                       .piece = piece,
                                       .part = -1,
                                       .other = -1,
                                       .value = turned,
                                       .at = at});
}

tailor_status tailor_in_examine_outline(struct tailor_in_examining *x, int piece, int *crosses)
{
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(x->pattern, piece, &count);
    const double near = tailor_in_finding_limit(TAILOR_FINDING_CROSSING);
    double place[2];
    const tailor_status status = tailor_path_crosses_itself(outline, count, near, crosses, place);
    if (status != TAILOR_OK)
        return status;
    if (!*crosses) { /* then it turns once, one way or the other (Hopf, Compos. Math. 2, 1935) */
        if (!(tailor_path_area(outline, count) > 0))
            find_wound(x, piece, -1, outline->p[0]);
        return TAILOR_OK;
    }
    const tailor_point one = tailor_path_point(outline, count, place[0]),
                       two = tailor_path_point(outline, count, place[1]);
    tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_CROSSING,
                                       .piece = piece,
                                       .part = tailor_in_edge_at(x->pattern, piece, place[0]),
                                       .other = tailor_in_edge_at(x->pattern, piece, place[1]),
                                       .value = tailor_in_distance(one, two),
                                       .at = tailor_in_mix(one, two, 0.5)});
    const double turned = turns(outline, count);
    if (turned != 1)
        find_wound(x, piece, turned, outline->p[0]);
    return TAILOR_OK;
}

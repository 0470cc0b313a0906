/* Seams: sides that differ by something else than their ease, and an edge that is sewn to itself. */
#include "examine.h"

#include "../geom/kernel.h"

/** How much of two stretches is the same part of the same edge of a piece that is there once only. Of a piece that is
 *  cut twice, one is sewn to the other: the centre back. */
static double shared(const tailor_pattern *p, const tailor_stretch *a, const tailor_stretch *b)
{
    if (a->piece != b->piece || a->edge != b->edge || tailor_piece_copies(p, a->piece) > 1)
        return 0;
    return tailor_in_min(tailor_in_max(a->from, a->to), tailor_in_max(b->from, b->to)) -
           tailor_in_max(tailor_in_min(a->from, a->to), tailor_in_min(b->from, b->to));
}

static tailor_point place_of(const tailor_pattern *p, const tailor_stretch *sewn, double along)
{
    size_t count;
    const tailor_cubic *path = tailor_edge_path(p, sewn->piece, sewn->edge, &count);
    return tailor_path_point(path, count, tailor_path_at_length(path, count, along));
}

/** Every stretch of the first side against every one of the second: the most that is sewn to itself. */
static void examine_itself(struct tailor_in_examining *x, int seam)
{
    const tailor_pattern *p = x->pattern;
    tailor_stretch one, two, worst = {.piece = -1};
    double most = tailor_in_finding_limit(TAILOR_FINDING_SEWN_TO_ITSELF), middle = 0;
    for (int i = 0; tailor_seam_stretch(p, seam, 0, i, &one) == TAILOR_OK; i++)
        for (int k = 0; tailor_seam_stretch(p, seam, 1, k, &two) == TAILOR_OK; k++)
            if (shared(p, &one, &two) > most) {
                most = shared(p, &one, &two);
                worst = one;
                middle = most / 2 + tailor_in_max(tailor_in_min(one.from, one.to), tailor_in_min(two.from, two.to));
            }
    if (worst.piece >= 0)
        tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_SEWN_TO_ITSELF,
                                           .piece = worst.piece,
                                           .part = worst.edge,
                                           .other = seam,
                                           .value = most,
                                           .at = place_of(p, &worst, middle)});
}

void tailor_in_examine_seam(struct tailor_in_examining *x, int seam)
{
    const tailor_pattern *p = x->pattern;
    double length[2] = {0, 0};
    tailor_stretch sewn;
    for (int side = 0; side < 2; side++)
        for (int i = 0; tailor_seam_stretch(p, seam, side, i, &sewn) == TAILOR_OK; i++)
            length[side] += fabs(sewn.to - sewn.from);
    const double off = length[0] - length[1] - tailor_seam_ease(p, seam);
    examine_itself(x, seam);
    if (!(fabs(off) <= tailor_in_finding_limit(TAILOR_FINDING_SEAM_OFF)) &&
        tailor_seam_stretch(p, seam, 0, 0, &sewn) == TAILOR_OK)
        tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_SEAM_OFF,
                                           .piece = -1,
                                           .part = seam,
                                           .other = -1,
                                           .value = off,
                                           .at = place_of(p, &sewn, sewn.from)});
}

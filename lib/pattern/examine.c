/* Examining a pattern, piece by piece and seam by seam. */
#include "examine.h"

#include <math.h>
#include <string.h>

#include "../base/fault.h"

double tailor_in_finding_limit(int kind)
{
    double low = tailor_table_low(tailor_finding_table(), kind);
    return !isnan(low) ? low : tailor_table_high(tailor_finding_table(), kind);
}

void tailor_in_find(struct tailor_in_examining *x, tailor_finding finding)
{
    const int refuses = tailor_finding_refuses(finding.kind);
    const size_t at = refuses ? x->refused : x->found;
    size_t kept = x->found < x->capacity ? x->found : x->capacity;
    finding.limit = tailor_in_finding_limit(finding.kind);
    x->found++;
    x->refused += (size_t)refuses;
    if (at >= x->capacity)
        return;
    if (kept == x->capacity) /* a caution more or less: what refuses must not be missed */
        kept--;
    memmove(x->findings + at + 1, x->findings + at, (kept - at) * sizeof *x->findings);
    x->findings[at] = finding;
}

int tailor_in_edge_at(const tailor_pattern *p, int piece, double place)
{
    const struct tailor_in_piece *of = TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + piece;
    const struct tailor_in_edge *edges = TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES) + of->first_edge;
    int edge = 0;
    while (edge + 1 < of->edge_count && edges[edge + 1].first_cubic - of->first_cubic <= place)
        edge++;
    return edge;
}

/** Pieces of the base that have lost too much, and those that are not there at all. */
static void examine_area(struct tailor_in_examining *x, int of_base)
{
    size_t n, m = 0;
    const tailor_cubic *before = tailor_piece_outline(x->base, of_base, &n), *now = NULL;
    const int piece = tailor_pattern_find_piece(x->pattern, tailor_piece_name(x->base, of_base));
    if (piece >= 0)
        now = tailor_piece_outline(x->pattern, piece, &m);
    const double lost = 1 - (now ? tailor_path_area(now, m) / tailor_path_area(before, n) : 0);
    if (!(lost <= tailor_in_finding_limit(TAILOR_FINDING_AREA_LOST)))
        tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_AREA_LOST,
                                           .piece = piece,
                                           .part = -1,
                                           .other = of_base,
                                           .value = lost,
                                           .at = now ? now->p[0] : before->p[0]});
}

tailor_status tailor_pattern_examine(const tailor_pattern *pattern, const tailor_pattern *base,
                                     tailor_finding *findings, size_t capacity, size_t *needed, tailor_fault *fault)
{
    if (!pattern || (capacity && !findings) || !needed)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "pattern, findings or needed is NULL");
    struct tailor_in_examining x = {pattern, base, findings, capacity, 0, 0};
    for (int piece = 0; piece < tailor_pattern_piece_count(pattern); piece++) {
        int crosses = 0;
        const tailor_status status = tailor_in_examine_outline(&x, piece, &crosses);
        if (status != TAILOR_OK)
            return tailor_in_fault_at(fault,
                                      tailor_in_fault(fault, status, tailor_piece_table(),
                                                      tailor_piece_number(pattern, piece), piece + 1, (double)NAN,
                                                      (double)NAN,
                                                      "piece %v: whether its outline crosses itself cannot be told"),
                                      (size_t)piece);
        if (!crosses) {
            tailor_in_examine_width(&x, piece);
            tailor_in_examine_inside(&x, piece);
        }
    }
    for (int seam = 0; seam < tailor_pattern_seam_count(pattern); seam++)
        tailor_in_examine_seam(&x, seam);
    for (int piece = 0; piece < tailor_pattern_piece_count(base); piece++)
        examine_area(&x, piece);
    *needed = x.found;
    if (findings && x.found > capacity)
        return tailor_in_fault(fault, TAILOR_TOO_SMALL, NULL, 0, (double)x.found, (double)NAN, (double)capacity,
                               "%v findings, and room for %h");
    return TAILOR_OK;
}

/* Finishing a built pattern: outlines closed, counter-clockwise, with an area; then a block of its own. */
#include <math.h>

#include "../base/fault.h"
#include "../geom/kernel.h"
#include "builder.h"

static tailor_status refuse(tailor_fault *fault, tailor_status status, int number, int piece, int edge, double value,
                            const char *what)
{
    tailor_in_fault(fault, status, tailor_piece_table(), number, value, NAN, NAN, "");
    tailor_in_builder_where(fault, piece, edge < 0 ? NULL : "edge", edge);
    tailor_in_fault_say(fault, what);
    return status;
}

/** Edge of a piece that a cubic of its outline belongs to. */
static int edge_of(const tailor_pattern *p, const struct tailor_in_piece *piece, int cubic)
{
    const struct tailor_in_edge *edges = TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES) + piece->first_edge;
    int i = 0;
    while (i + 1 < piece->edge_count && edges[i + 1].first_cubic - piece->first_cubic <= cubic)
        i++;
    return i;
}

static tailor_status close_outline(tailor_pattern *p, int index, tailor_fault *fault)
{
    const struct tailor_in_piece *piece = TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + index;
    tailor_cubic *outline = TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS) + piece->first_cubic;
    int count = piece->cubic_count;
    if (!count)
        return refuse(fault, TAILOR_BAD_ARGUMENT, piece->number, index, -1, NAN, "it has no edges");
    for (int i = 0; i < count; i++) {
        tailor_cubic *before = &outline[(i + count - 1) % count];
        double gap = tailor_in_distance(before->p[3], outline[i].p[0]);
        if (gap > TAILOR_IN_GAP_CLOSED)
            return refuse(fault, TAILOR_BAD_ARGUMENT, piece->number, index, edge_of(p, piece, i), gap,
                          "a curve of it does not begin where the one before it ends");
        outline[i].p[0] = before->p[3];
    }
    double area = tailor_path_area(outline, (size_t)count);
    if (area < 0)
        return refuse(fault, TAILOR_BAD_ARGUMENT, piece->number, index, -1, area,
                      "its outline runs clockwise: give the edges in the other order, each reversed");
    if (!(area >= 1e-6))
        return refuse(fault, TAILOR_DEGENERATE, piece->number, index, -1, area, "its outline has no area");
    return TAILOR_OK;
}

/** Both sides of every seam have something to sew. */
static tailor_status look_at_seams(const tailor_pattern *p, tailor_fault *fault)
{
    for (int i = 0; i < p->count[TAILOR_IN_SEAMS]; i++)
        for (int side = 0; side < 2; side++)
            if (!tailor_seam_stretch_count(p, i, side)) {
                tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "");
                tailor_in_builder_where_in_seam(fault, i, side, -1);
                tailor_in_fault_say(fault, "it has no stretch to sew");
                return TAILOR_BAD_ARGUMENT;
            }
    return TAILOR_OK;
}

tailor_status tailor_builder_finish(const tailor_builder *builder, const tailor_allocator *allocator,
                                    tailor_pattern **pattern, tailor_fault *fault)
{
    if (!builder || !pattern)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder or pattern is NULL");
    int pieces = builder->work->count[TAILOR_IN_PIECES];
    if (!pieces)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "a pattern has at least one piece");
    tailor_pattern *made = tailor_in_pattern_copy(builder->work, builder->work->count, tailor_in_allocator(allocator));
    if (!made)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the pattern");
    tailor_status status = TAILOR_OK;
    for (int i = 0; i < pieces && status == TAILOR_OK; i++)
        status = close_outline(made, i, fault);
    if (status == TAILOR_OK)
        status = look_at_seams(made, fault);
    if (status != TAILOR_OK) {
        tailor_pattern_free(made);
        return status;
    }
    *pattern = made;
    return TAILOR_OK;
}

/* Patterns of one family, drafted with now one, now two curves to an edge, brought to the same number of curves. The
 * shapes stay what they are. */
#include "match.h"

#include <string.h>

#include "../base/fault.h"

static tailor_status refuse(tailor_fault *fault, int piece, int edge, size_t pattern, const char *what)
{
    tailor_in_fault(fault, TAILOR_CONTRADICTION, NULL, 0, (double)(pattern + 1), (double)NAN, (double)NAN,
                    "not one family: pattern %v differs from the first in piece ");
    tailor_in_fault_say_number(fault, piece + 1, "");
    if (edge >= 0) {
        tailor_in_fault_say(fault, ", edge ");
        tailor_in_fault_say_number(fault, edge + 1, "");
    }
    tailor_in_fault_say(fault, what);
    return tailor_in_fault_at(fault, TAILOR_CONTRADICTION, pattern);
}

/** A pattern with the pieces and edges of `base` in its order, so that the same index means the same thing. Points and
 * marks are base's, with their own places where this one has them, NaN where it has not. */
static tailor_pattern *arrange(const tailor_pattern *base, const tailor_pattern *p, tailor_allocator memory)
{
    int room[TAILOR_IN_ARRAYS];
    memcpy(room, base->count, sizeof room);
    room[TAILOR_IN_CUBICS] = base->count[TAILOR_IN_CUBICS] + p->count[TAILOR_IN_CUBICS];
    tailor_pattern *made = tailor_in_pattern_copy(base, room, memory);
    if (!made)
        return NULL;
    made->edition = p->edition;
    made->toile_only = p->toile_only;
    memcpy(made->style, p->style, sizeof made->style);
    struct tailor_in_piece *pieces = TAILOR_IN_AT(made, struct tailor_in_piece, TAILOR_IN_PIECES);
    tailor_cubic *to = TAILOR_IN_AT(made, tailor_cubic, TAILOR_IN_CUBICS);
    int at = 0;
    for (int i = 0; i < made->count[TAILOR_IN_PIECES]; i++) {
        struct tailor_in_piece *piece = &pieces[i];
        int own = tailor_pattern_find_piece(p, piece->name);
        piece->first_cubic = at;
        for (int k = 0; k < piece->edge_count; k++) {
            struct tailor_in_edge *edge =
                TAILOR_IN_AT(made, struct tailor_in_edge, TAILOR_IN_EDGES) + piece->first_edge + k;
            size_t n;
            const tailor_cubic *path = tailor_edge_path(p, own, tailor_piece_find_edge(p, own, edge->name), &n);
            memcpy(to + at, path, n * sizeof *path);
            edge->first_cubic = at;
            edge->cubic_count = (int)n;
            at += (int)n;
        }
        piece->cubic_count = at - piece->first_cubic;
        for (int k = 0; k < piece->point_count; k++) {
            struct tailor_in_named_point *point =
                TAILOR_IN_AT(made, struct tailor_in_named_point, TAILOR_IN_POINTS) + piece->first_point + k;
            point->at = tailor_point_place(p, own, tailor_piece_find_point(p, own, point->name));
        }
        for (int k = 0; k < piece->mark_count; k++) {
            struct tailor_in_mark *mark =
                TAILOR_IN_AT(made, struct tailor_in_mark, TAILOR_IN_MARKS) + piece->first_mark + k;
            size_t n;
            const tailor_cubic *path = tailor_mark_path(p, own, tailor_piece_find_mark(p, own, mark->name), &n);
            mark->first_cubic = at;
            for (int c = 0; c < mark->cubic_count; c++)
                for (int corner = 0; corner < 4; corner++)
                    to[at + c].p[corner] = path && n == (size_t)mark->cubic_count
                                               ? path[c].p[corner]
                                               : (tailor_point){(double)NAN, (double)NAN};
            at += mark->cubic_count;
        }
    }
    made->count[TAILOR_IN_CUBICS] = at;
    struct tailor_in_seam *seams = TAILOR_IN_AT(made, struct tailor_in_seam, TAILOR_IN_SEAMS);
    tailor_stretch *stretches = TAILOR_IN_AT(made, tailor_stretch, TAILOR_IN_STRETCHES);
    for (int i = 0; i < made->count[TAILOR_IN_SEAMS]; i++) {
        const struct tailor_in_seam *own = TAILOR_IN_SEAM(p, tailor_pattern_find_seam(p, seams[i].name));
        seams[i].ease = own->ease;
        for (int side = 0; side < 2; side++)
            for (int k = 0; k < own->count[side]; k++) {
                stretches[seams[i].first[side] + k].from = TAILOR_IN_STRETCH(p, own->first[side] + k)->from;
                stretches[seams[i].first[side] + k].to = TAILOR_IN_STRETCH(p, own->first[side] + k)->to;
            }
    }
    return made;
}

/** Is the base's stretch, on pieces and edges of the same names, one of the pattern's too? */
static int same_stretch(const tailor_pattern *base, const tailor_stretch *sewn, const tailor_pattern *p,
                        const tailor_stretch *own)
{
    return !strcmp(tailor_piece_name(p, own->piece), tailor_piece_name(base, sewn->piece)) && own->edge == sewn->edge;
}

static tailor_status same_seam(const tailor_pattern *base, int seam, const tailor_pattern *p, size_t pattern,
                               tailor_fault *fault)
{
    const struct tailor_in_seam *of = TAILOR_IN_SEAM(base, seam);
    int found = tailor_pattern_find_seam(p, of->name);
    const struct tailor_in_seam *own = found < 0 ? NULL : TAILOR_IN_SEAM(p, found);
    for (int side = 0; side < 2; side++)
        for (int k = 0; k < of->count[side]; k++) {
            const tailor_stretch *sewn = TAILOR_IN_STRETCH(base, of->first[side] + k);
            if (!own || own->count[side] != of->count[side] ||
                !same_stretch(base, sewn, p, TAILOR_IN_STRETCH(p, own->first[side] + k)))
                return refuse(fault, sewn->piece, sewn->edge, pattern, ": a seam is not there");
        }
    return TAILOR_OK;
}

static tailor_status same_make(const tailor_pattern *base, const tailor_pattern *p, size_t pattern, tailor_fault *fault)
{
    for (int i = 0; i < base->count[TAILOR_IN_PIECES]; i++) {
        int own = tailor_pattern_find_piece(p, TAILOR_IN_PIECE(base, i)->name);
        if (own < 0 || tailor_piece_edge_count(p, own) != tailor_piece_edge_count(base, i))
            return refuse(fault, i, -1, pattern, own < 0 ? ", which it has not" : ": another number of edges");
        for (int k = 0; k < tailor_piece_edge_count(base, i); k++)
            if (strcmp(tailor_edge_name(p, own, k), tailor_edge_name(base, i, k)))
                return refuse(fault, i, k, pattern, ": another name");
    }
    tailor_status status = TAILOR_OK;
    for (int i = 0; i < base->count[TAILOR_IN_SEAMS] && status == TAILOR_OK; i++)
        status = same_seam(base, i, p, pattern, fault);
    return status;
}

/** Cut every edge of the arranged patterns; they are replaced by the cut ones. */
static tailor_status cut_all(tailor_pattern **arranged, size_t count, tailor_allocator memory, tailor_fault *fault)
{
    const tailor_pattern *base = arranged[0];
    int made[TAILOR_IN_MOST_PATTERNS] = {0}, stride = 0;
    for (size_t k = 0; k < count; k++)
        stride += arranged[k]->count[TAILOR_IN_CUBICS];
    stride += base->count[TAILOR_IN_POINTS] + base->count[TAILOR_IN_MARKS] + 2 * base->count[TAILOR_IN_STRETCHES];
    struct tailor_in_cut *cuts = memory.allocate(memory.user, (size_t)stride * count * sizeof *cuts);
    if (!cuts)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
    tailor_status status = TAILOR_OK;
    for (int i = 0; i < base->count[TAILOR_IN_PIECES]; i++)
        for (int k = 0; k < TAILOR_IN_PIECE(base, i)->edge_count && status == TAILOR_OK; k++) {
            const struct tailor_in_match match = {(const tailor_pattern *const *)arranged,
                                                  count,
                                                  i,
                                                  TAILOR_IN_PIECE(base, i)->first_edge + k,
                                                  cuts,
                                                  stride,
                                                  made};
            if (!tailor_in_match_edge(&match))
                status = refuse(fault, i, k, count - 1, ": too many curves to match");
        }
    for (size_t k = 0; k < count && status == TAILOR_OK; k++) {
        tailor_pattern *cut = tailor_in_recut(arranged[k], cuts + (size_t)stride * k, (size_t)made[k], memory);
        if (!cut) {
            status = tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
            break;
        }
        tailor_pattern_free(arranged[k]);
        arranged[k] = cut;
        if (cut->count[TAILOR_IN_CUBICS] != arranged[0]->count[TAILOR_IN_CUBICS])
            status = tailor_in_fault_plain(fault, TAILOR_INTERNAL, "the sizes of a family do not match");
    }
    memory.release(memory.user, cuts);
    return status;
}

tailor_status tailor_in_conform(const tailor_pattern *const *patterns, size_t count, tailor_allocator memory,
                                tailor_pattern **conformed, tailor_fault *fault)
{
    tailor_status status = count <= TAILOR_IN_MOST_PATTERNS
                               ? TAILOR_OK
                               : tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, (double)count, 2,
                                                 TAILOR_IN_MOST_PATTERNS, "%v patterns: %l to %h are allowed");
    size_t made = 0;
    for (size_t k = 0; k < count && status == TAILOR_OK; k++)
        status = same_make(patterns[0], patterns[k], k, fault);
    for (; made < count && status == TAILOR_OK; made++) {
        conformed[made] = arrange(patterns[0], patterns[made], memory);
        if (!conformed[made]) {
            status = tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
            break;
        }
    }
    if (status == TAILOR_OK)
        status = cut_all(conformed, count, memory, fault);
    for (size_t k = 0; k < made && status != TAILOR_OK; k++)
        tailor_pattern_free(conformed[k]);
    return status;
}

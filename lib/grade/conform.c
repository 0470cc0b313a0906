/* Patterns of one family, drafted with now one, now two curves to an edge, brought to the same number of curves: where
 * one has a joint the others get one, at the same share of the edge's length. The shapes stay what they are. */
#include "inside.h"

#include <string.h>

#include "../base/fault.h"

enum { MOST_PATTERNS = 64, MOST_JOINTS = 256 };

struct joint {
    double share; /* of the edge's length */
    double place; /* on its own edge */
    int pattern;
};

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
    return TAILOR_CONTRADICTION;
}

/** The inner joints of one edge in all patterns, by their share of the length; -1 when there are too many. */
static int joints_of(const struct tailor_in_edge *const *edges, const tailor_pattern *const *patterns, size_t count,
                     struct joint *joint)
{
    int n = 0;
    for (size_t k = 0; k < count; k++) {
        const tailor_cubic *path = TAILOR_IN_CUBIC(patterns[k], edges[k]->first_cubic);
        double whole = tailor_path_length(path, (size_t)edges[k]->cubic_count), so_far = 0;
        for (int i = 1; i < edges[k]->cubic_count; i++) {
            so_far += tailor_cubic_length(&path[i - 1]);
            struct joint made = {whole > 0 ? so_far / whole : i / (double)edges[k]->cubic_count, i, (int)k};
            int at = n++;
            if (n > MOST_JOINTS)
                return -1;
            for (; at > 0 && joint[at - 1].share > made.share; at--)
                joint[at] = joint[at - 1];
            joint[at] = made;
        }
    }
    return n;
}

/** Group joints of different patterns that lie within `near` of one another; group[i] is the group of joint i. */
static int group_joints(const struct joint *joint, int n, double near, int *group)
{
    int groups = 0, first = 0;
    for (int i = 0; i < n; i++) {
        int same = i > first && joint[i].share - joint[first].share <= near;
        for (int k = first; same && k < i; k++)
            same = joint[k].pattern != joint[i].pattern;
        if (!same) {
            first = i;
            groups++;
        }
        group[i] = groups - 1;
    }
    return groups;
}

/** Places of one pattern's cuts on an edge, one a group in which it has no joint; -1 when they are out of order. */
static int cuts_of_pattern(const struct joint *joint, const int *group, int n, int pattern, const tailor_cubic *path,
                           int cubics, int edge, struct tailor_in_cut *cuts)
{
    double whole = tailor_path_length(path, (size_t)cubics), before = 0;
    int made = 0;
    for (int i = 0; i < n;) {
        double share = 0, own = -1;
        int first = i;
        for (; i < n && group[i] == group[first]; i++) {
            share += joint[i].share;
            own = joint[i].pattern == pattern ? joint[i].place : own;
        }
        double place = own >= 0 ? own : tailor_path_at_length(path, (size_t)cubics, whole * share / (i - first));
        if (!(place > before) || place >= cubics)
            return -1;
        if (own < 0)
            cuts[made++] = (struct tailor_in_cut){edge, place};
        before = place;
    }
    return made;
}

/** Cuts of one edge for every pattern. Joints that nearly agree are taken for one, unless that tangles them. */
static int cut_edge(const struct tailor_in_edge *const *edges, const tailor_pattern *const *patterns, size_t count,
                    int index, struct tailor_in_cut *cuts, int *made, int stride)
{
    struct joint joint[MOST_JOINTS];
    int group[MOST_JOINTS], n = joints_of(edges, patterns, count, joint), differ = 0;
    for (size_t k = 1; k < count; k++)
        differ |= edges[k]->cubic_count != edges[0]->cubic_count;
    if (n < 0 || !differ)
        return n >= 0;
    for (int attempt = 0; attempt < 2; attempt++) {
        int good = 1;
        group_joints(joint, n, attempt ? 0 : 0.03, group);
        for (size_t k = 0; k < count && good; k++) {
            struct tailor_in_cut *to = cuts + (size_t)stride * k + made[k];
            int more = cuts_of_pattern(joint, group, n, (int)k, TAILOR_IN_CUBIC(patterns[k], edges[k]->first_cubic),
                                       edges[k]->cubic_count, index, to);
            good = more >= 0;
            if (good)
                made[MOST_PATTERNS + k] = more;
        }
        if (good) {
            for (size_t k = 0; k < count; k++)
                made[k] += made[MOST_PATTERNS + k];
            return 1;
        }
    }
    return 0;
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
    for (int i = 0; i < made->count[TAILOR_IN_SEAMS]; i++) {
        const struct tailor_in_seam *own = TAILOR_IN_SEAM(p, tailor_pattern_find_seam(p, seams[i].name));
        seams[i].ease = own->ease;
        for (int k = 0; k < 2; k++) {
            seams[i].side[k].from = own->side[k].from;
            seams[i].side[k].to = own->side[k].to;
        }
    }
    return made;
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
    for (int i = 0; i < base->count[TAILOR_IN_SEAMS]; i++) {
        const struct tailor_in_seam *seam = TAILOR_IN_SEAM(base, i);
        int own = tailor_pattern_find_seam(p, seam->name);
        for (int k = 0; k < 2; k++)
            if (own < 0 ||
                strcmp(tailor_piece_name(p, TAILOR_IN_SEAM(p, own)->side[k].piece),
                       tailor_piece_name(base, seam->side[k].piece)) ||
                TAILOR_IN_SEAM(p, own)->side[k].edge != seam->side[k].edge)
                return refuse(fault, seam->side[k].piece, seam->side[k].edge, pattern, ": a seam is not there");
    }
    return TAILOR_OK;
}

/** Cut every edge of the arranged patterns; they are replaced by the cut ones. */
static tailor_status cut_all(tailor_pattern **arranged, size_t count, tailor_allocator memory, tailor_fault *fault)
{
    const tailor_pattern *const *patterns = (const tailor_pattern *const *)arranged;
    int made[2 * MOST_PATTERNS] = {0}, stride = 0;
    for (size_t k = 0; k < count; k++)
        stride += arranged[k]->count[TAILOR_IN_CUBICS];
    struct tailor_in_cut *cuts = memory.allocate(memory.user, (size_t)stride * count * sizeof *cuts);
    if (!cuts)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
    tailor_status status = TAILOR_OK;
    for (int i = 0; i < arranged[0]->count[TAILOR_IN_EDGES] && status == TAILOR_OK; i++) {
        const struct tailor_in_edge *edges[MOST_PATTERNS];
        for (size_t k = 0; k < count; k++)
            edges[k] = TAILOR_IN_EDGE(arranged[k], i);
        if (!cut_edge(edges, patterns, count, i, cuts, made, stride))
            status = tailor_in_fault(fault, TAILOR_CONTRADICTION, NULL, 0, i + 1, (double)NAN, (double)NAN,
                                     "not one family: the curves of edge %v, counted through all pieces, do not match");
    }
    for (size_t k = 0; k < count && status == TAILOR_OK; k++) {
        tailor_pattern *cut = tailor_in_recut(arranged[k], cuts + (size_t)stride * k, (size_t)made[k], memory);
        if (!cut) {
            status = tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
            break;
        }
        tailor_pattern_free(arranged[k]);
        arranged[k] = cut;
    }
    memory.release(memory.user, cuts);
    return status;
}

tailor_status tailor_in_conform(const tailor_pattern *const *patterns, size_t count, tailor_allocator memory,
                                tailor_pattern **conformed, tailor_fault *fault)
{
    tailor_status status = count <= MOST_PATTERNS
                               ? TAILOR_OK
                               : tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, (double)count, 2, MOST_PATTERNS,
                                                 "%v patterns: %l to %h are allowed");
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

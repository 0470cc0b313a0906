/* More joints in the same curves. */
#include "inside.h"

#include <string.h>

/** One edge's cubics with its cuts, written to `to`; returns how many. */
static int cut_edge(const tailor_cubic *path, int count, const struct tailor_in_cut *cuts, size_t cut_count,
                    tailor_cubic *to)
{
    int made = 0;
    for (int i = 0; i < count; i++) {
        double from = 0;
        int first = made;
        for (; cut_count && (cuts->place < i + 1 || i + 1 == count); cuts++, cut_count--) {
            to[made++] = tailor_cubic_part(&path[i], from, cuts->place - i);
            from = cuts->place - i;
        }
        to[made++] = from > 0 ? tailor_cubic_part(&path[i], from, 1) : path[i];
        for (int k = first + 1; k < made; k++)
            to[k].p[0] = to[k - 1].p[3];
    }
    return made;
}

tailor_pattern *tailor_in_recut(const tailor_pattern *p, const struct tailor_in_cut *cuts, size_t count,
                                tailor_allocator memory)
{
    int room[TAILOR_IN_ARRAYS];
    memcpy(room, p->count, sizeof room);
    room[TAILOR_IN_CUBICS] += (int)count;
    tailor_pattern *made = tailor_in_pattern_copy(p, room, memory);
    if (!made)
        return NULL;
    struct tailor_in_piece *pieces = TAILOR_IN_AT(made, struct tailor_in_piece, TAILOR_IN_PIECES);
    struct tailor_in_edge *edges = TAILOR_IN_AT(made, struct tailor_in_edge, TAILOR_IN_EDGES);
    struct tailor_in_mark *marks = TAILOR_IN_AT(made, struct tailor_in_mark, TAILOR_IN_MARKS);
    tailor_cubic *to = TAILOR_IN_AT(made, tailor_cubic, TAILOR_IN_CUBICS);
    int at = 0;
    for (int i = 0; i < made->count[TAILOR_IN_PIECES]; i++) {
        struct tailor_in_piece *piece = &pieces[i];
        piece->first_cubic = at;
        for (int k = piece->first_edge; k < piece->first_edge + piece->edge_count; k++) {
            size_t own = 0;
            while (own < count && cuts[own].edge == k)
                own++;
            const struct tailor_in_edge *from = TAILOR_IN_EDGE(p, k);
            edges[k].first_cubic = at;
            edges[k].cubic_count =
                cut_edge(TAILOR_IN_CUBIC(p, from->first_cubic), from->cubic_count, cuts, own, to + at);
            at += edges[k].cubic_count;
            cuts += own;
            count -= own;
        }
        piece->cubic_count = at - piece->first_cubic;
        for (int k = piece->first_mark; k < piece->first_mark + piece->mark_count; k++) {
            memcpy(to + at, TAILOR_IN_CUBIC(p, marks[k].first_cubic), (size_t)marks[k].cubic_count * sizeof *to);
            marks[k].first_cubic = at;
            at += marks[k].cubic_count;
        }
    }
    made->count[TAILOR_IN_CUBICS] = at;
    return made;
}

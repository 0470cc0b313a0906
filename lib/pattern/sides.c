/* Pieces of one side alone: mirror images, and telling whether two pieces differ at all. */
#include <math.h>
#include <string.h>

#include "build.h"

const char *tailor_in_side_suffix(int side)
{
    return side == TAILOR_SIDE_LEFT ? "_left" : "_right";
}

static void mirror(tailor_cubic *c)
{
    for (int i = 0; i < 4; i++)
        c->p[i].x = -c->p[i].x;
}

/** The mirror image of a closed path runs the other way: its cubics change places, and each its direction. */
static void mirror_outline(tailor_cubic *c, int count)
{
    for (int i = 0; i < count; i++) {
        mirror(&c[i]);
        c[i] = tailor_cubic_reverse(&c[i]);
    }
    for (int i = 0; i < count / 2; i++) {
        tailor_cubic swap = c[i];
        c[i] = c[count - 1 - i];
        c[count - 1 - i] = swap;
    }
}

static void mirror_edges(tailor_pattern *p, const struct tailor_in_piece *piece)
{
    struct tailor_in_edge *edges = TAILOR_IN_AT(p, struct tailor_in_edge, TAILOR_IN_EDGES) + piece->first_edge;
    mirror_outline(TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS) + piece->first_cubic, piece->cubic_count);
    int past = 2 * piece->first_cubic + piece->cubic_count;
    for (int i = 0; i < piece->edge_count; i++)
        edges[i].first_cubic = past - edges[i].first_cubic - edges[i].cubic_count;
    for (int i = 0; i < piece->edge_count / 2; i++) {
        struct tailor_in_edge swap = edges[i];
        edges[i] = edges[piece->edge_count - 1 - i];
        edges[piece->edge_count - 1 - i] = swap;
    }
}

void tailor_in_piece_set_side(tailor_pattern *p, int index, int side)
{
    struct tailor_in_piece *piece = TAILOR_IN_AT(p, struct tailor_in_piece, TAILOR_IN_PIECES) + index;
    const char *suffix = tailor_in_side_suffix(side);
    size_t length = strlen(piece->name), more = strlen(suffix);
    if (length + more >= TAILOR_IN_NAME) {
        p->full = 1;
        return;
    }
    memcpy(piece->name + length, suffix, more);
    piece->cut = piece->mirrored ? (piece->cut + 1) / 2 : piece->cut; /* half a piece on the fold is 1, mirrored */
    piece->mirrored = 0;
    piece->side = side;
    if (side != TAILOR_SIDE_LEFT)
        return;
    mirror_edges(p, piece);
    struct tailor_in_named_point *points =
        TAILOR_IN_AT(p, struct tailor_in_named_point, TAILOR_IN_POINTS) + piece->first_point;
    for (int i = 0; i < piece->point_count; i++)
        points[i].at.x = -points[i].at.x;
    const struct tailor_in_mark *marks = TAILOR_IN_SEE(p, struct tailor_in_mark, TAILOR_IN_MARKS) + piece->first_mark;
    tailor_cubic *cubics = TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS);
    for (int i = 0; i < piece->mark_count; i++)
        for (int j = 0; j < marks[i].cubic_count; j++)
            mirror(&cubics[marks[i].first_cubic + j]);
}

/** Two drafts come to the same place by sums in another order, so not always to the same bits. */
static int same_place(tailor_point a, tailor_point b) { return fabs(a.x - b.x) <= 1e-6 && fabs(a.y - b.y) <= 1e-6; }

static int same_paths(const tailor_pattern *p, int a, int b, int count)
{
    const tailor_cubic *c = TAILOR_IN_SEE(p, tailor_cubic, TAILOR_IN_CUBICS);
    for (int i = 0; i < count; i++)
        for (int k = 0; k < 4; k++)
            if (!same_place(c[a + i].p[k], c[b + i].p[k]))
                return 0;
    return 1;
}

int tailor_in_piece_same(const tailor_pattern *p, int a, int b)
{
    const struct tailor_in_piece *one = TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + a;
    const struct tailor_in_piece *two = TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + b;
    if (one->number != two->number || one->cut != two->cut || one->cubic_count != two->cubic_count ||
        one->edge_count != two->edge_count || one->point_count != two->point_count ||
        one->mark_count != two->mark_count || !same_paths(p, one->first_cubic, two->first_cubic, one->cubic_count))
        return 0;
    const struct tailor_in_edge *edges = TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES);
    for (int i = 0; i < one->edge_count; i++) {
        const struct tailor_in_edge *ea = edges + one->first_edge + i, *eb = edges + two->first_edge + i;
        if (ea->number != eb->number || ea->cubic_count != eb->cubic_count)
            return 0;
    }
    const struct tailor_in_named_point *points = TAILOR_IN_SEE(p, struct tailor_in_named_point, TAILOR_IN_POINTS);
    for (int i = 0; i < one->point_count; i++) {
        const struct tailor_in_named_point *pa = points + one->first_point + i, *pb = points + two->first_point + i;
        if (pa->number != pb->number || !same_place(pa->at, pb->at))
            return 0;
    }
    const struct tailor_in_mark *marks = TAILOR_IN_SEE(p, struct tailor_in_mark, TAILOR_IN_MARKS);
    for (int i = 0; i < one->mark_count; i++) {
        const struct tailor_in_mark *ma = marks + one->first_mark + i, *mb = marks + two->first_mark + i;
        if (ma->number != mb->number || ma->kind != mb->kind || ma->cubic_count != mb->cubic_count ||
            !same_paths(p, ma->first_cubic, mb->first_cubic, ma->cubic_count))
            return 0;
    }
    return 1;
}

/* Reading a pattern: every function bears any index and answers NULL, 0 or NaN for what is not there. */
#include "block.h"

#include <math.h>
#include <string.h>

static const struct tailor_in_piece *piece_at(const tailor_pattern *p, int piece)
{
    if (!p || piece < 0 || piece >= p->count[TAILOR_IN_PIECES])
        return NULL;
    return TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + piece;
}

static const struct tailor_in_edge *edge_at(const tailor_pattern *p, int piece, int edge)
{
    const struct tailor_in_piece *owner = piece_at(p, piece);
    if (!owner || edge < 0 || edge >= owner->edge_count)
        return NULL;
    return TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES) + owner->first_edge + edge;
}

static const struct tailor_in_named_point *point_at(const tailor_pattern *p, int piece, int point)
{
    const struct tailor_in_piece *owner = piece_at(p, piece);
    if (!owner || point < 0 || point >= owner->point_count)
        return NULL;
    return TAILOR_IN_SEE(p, struct tailor_in_named_point, TAILOR_IN_POINTS) + owner->first_point + point;
}

static const struct tailor_in_mark *mark_at(const tailor_pattern *p, int piece, int mark)
{
    const struct tailor_in_piece *owner = piece_at(p, piece);
    if (!owner || mark < 0 || mark >= owner->mark_count)
        return NULL;
    return TAILOR_IN_SEE(p, struct tailor_in_mark, TAILOR_IN_MARKS) + owner->first_mark + mark;
}

static const struct tailor_in_seam *seam_at(const tailor_pattern *p, int seam)
{
    if (!p || seam < 0 || seam >= p->count[TAILOR_IN_SEAMS])
        return NULL;
    return TAILOR_IN_SEE(p, struct tailor_in_seam, TAILOR_IN_SEAMS) + seam;
}

static const tailor_cubic *path_at(const tailor_pattern *p, int first, int path_count, size_t *count)
{
    if (count)
        *count = (size_t)path_count;
    return TAILOR_IN_SEE(p, tailor_cubic, TAILOR_IN_CUBICS) + first;
}

static const tailor_cubic *no_path(size_t *count)
{
    if (count)
        *count = 0;
    return NULL;
}

int tailor_pattern_piece_count(const tailor_pattern *p) { return p ? p->count[TAILOR_IN_PIECES] : 0; }

int tailor_pattern_find_piece(const tailor_pattern *p, const char *name)
{
    for (int i = 0; name && i < tailor_pattern_piece_count(p); i++)
        if (!strcmp(tailor_piece_name(p, i), name))
            return i;
    return -1;
}

const char *tailor_piece_name(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->name : NULL;
}

int tailor_piece_number(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->number : 0;
}

int tailor_piece_copies(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->cut : 0;
}

int tailor_piece_mirrored(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->mirrored : 0;
}

int tailor_piece_side(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->side : 0;
}

const char *tailor_piece_cloth(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->cloth : NULL;
}

const tailor_cubic *tailor_piece_outline(const tailor_pattern *p, int piece, size_t *count)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? path_at(p, at->first_cubic, at->cubic_count, count) : no_path(count);
}

int tailor_piece_edge_count(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->edge_count : 0;
}

int tailor_piece_find_edge(const tailor_pattern *p, int piece, const char *name)
{
    for (int i = 0; name && i < tailor_piece_edge_count(p, piece); i++)
        if (!strcmp(tailor_edge_name(p, piece, i), name))
            return i;
    return -1;
}

const char *tailor_edge_name(const tailor_pattern *p, int piece, int edge)
{
    const struct tailor_in_edge *at = edge_at(p, piece, edge);
    return at ? at->name : NULL;
}

int tailor_edge_number(const tailor_pattern *p, int piece, int edge)
{
    const struct tailor_in_edge *at = edge_at(p, piece, edge);
    return at ? at->number : 0;
}

const tailor_cubic *tailor_edge_path(const tailor_pattern *p, int piece, int edge, size_t *count)
{
    const struct tailor_in_edge *at = edge_at(p, piece, edge);
    return at ? path_at(p, at->first_cubic, at->cubic_count, count) : no_path(count);
}

int tailor_piece_point_count(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->point_count : 0;
}

int tailor_piece_find_point(const tailor_pattern *p, int piece, const char *name)
{
    for (int i = 0; name && i < tailor_piece_point_count(p, piece); i++)
        if (!strcmp(tailor_point_name(p, piece, i), name))
            return i;
    return -1;
}

const char *tailor_point_name(const tailor_pattern *p, int piece, int point)
{
    const struct tailor_in_named_point *at = point_at(p, piece, point);
    return at ? at->name : NULL;
}

int tailor_point_number(const tailor_pattern *p, int piece, int point)
{
    const struct tailor_in_named_point *at = point_at(p, piece, point);
    return at ? at->number : 0;
}

tailor_point tailor_point_place(const tailor_pattern *p, int piece, int point)
{
    const struct tailor_in_named_point *at = point_at(p, piece, point);
    return at ? at->at : (tailor_point){NAN, NAN};
}

int tailor_piece_mark_count(const tailor_pattern *p, int piece)
{
    const struct tailor_in_piece *at = piece_at(p, piece);
    return at ? at->mark_count : 0;
}

int tailor_piece_find_mark(const tailor_pattern *p, int piece, const char *name)
{
    for (int i = 0; name && i < tailor_piece_mark_count(p, piece); i++)
        if (!strcmp(tailor_mark_name(p, piece, i), name))
            return i;
    return -1;
}

const char *tailor_mark_name(const tailor_pattern *p, int piece, int mark)
{
    const struct tailor_in_mark *at = mark_at(p, piece, mark);
    return at ? at->name : NULL;
}

int tailor_mark_number(const tailor_pattern *p, int piece, int mark)
{
    const struct tailor_in_mark *at = mark_at(p, piece, mark);
    return at ? at->number : 0;
}

int tailor_mark_kind(const tailor_pattern *p, int piece, int mark)
{
    const struct tailor_in_mark *at = mark_at(p, piece, mark);
    return at ? at->kind : 0;
}

const tailor_cubic *tailor_mark_path(const tailor_pattern *p, int piece, int mark, size_t *count)
{
    const struct tailor_in_mark *at = mark_at(p, piece, mark);
    return at ? path_at(p, at->first_cubic, at->cubic_count, count) : no_path(count);
}

int tailor_pattern_seam_count(const tailor_pattern *p) { return p ? p->count[TAILOR_IN_SEAMS] : 0; }

int tailor_pattern_find_seam(const tailor_pattern *p, const char *name)
{
    for (int i = 0; name && i < tailor_pattern_seam_count(p); i++)
        if (!strcmp(tailor_seam_name(p, i), name))
            return i;
    return -1;
}

const char *tailor_seam_name(const tailor_pattern *p, int seam)
{
    const struct tailor_in_seam *at = seam_at(p, seam);
    return at ? at->name : NULL;
}

int tailor_seam_stretch_count(const tailor_pattern *p, int seam, int side)
{
    const struct tailor_in_seam *at = seam_at(p, seam);
    return at && (side == 0 || side == 1) ? at->count[side] : 0;
}

tailor_status tailor_seam_stretch(const tailor_pattern *p, int seam, int side, int place, tailor_stretch *stretch)
{
    if (!stretch || place < 0 || place >= tailor_seam_stretch_count(p, seam, side))
        return TAILOR_BAD_ARGUMENT;
    tailor_stretch sewn = TAILOR_IN_SEE(p, tailor_stretch, TAILOR_IN_STRETCHES)[seam_at(p, seam)->first[side] + place];
    if (sewn.from < 0 || sewn.to < 0) {
        size_t count;
        const tailor_cubic *path = tailor_edge_path(p, sewn.piece, sewn.edge, &count);
        double whole = tailor_path_length(path, count);
        sewn.from = sewn.from < 0 ? whole : sewn.from;
        sewn.to = sewn.to < 0 ? whole : sewn.to;
    }
    *stretch = sewn;
    return TAILOR_OK;
}

double tailor_seam_ease(const tailor_pattern *p, int seam)
{
    const struct tailor_in_seam *at = seam_at(p, seam);
    return at ? at->ease : NAN;
}

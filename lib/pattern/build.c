#include "build.h"

#include <string.h>

const size_t tailor_in_record_bytes[TAILOR_IN_ARRAYS] = {
    sizeof(struct tailor_in_piece), sizeof(struct tailor_in_edge), sizeof(struct tailor_in_named_point),
    sizeof(struct tailor_in_mark),  sizeof(struct tailor_in_seam), sizeof(tailor_stretch),
    sizeof(tailor_cubic)};

static size_t lay_out(const int capacity[TAILOR_IN_ARRAYS], size_t offset[TAILOR_IN_ARRAYS])
{
    size_t at = (sizeof(tailor_pattern) + 15) & ~(size_t)15;
    for (int i = 0; i < TAILOR_IN_ARRAYS; i++) {
        offset[i] = at;
        at = (at + tailor_in_record_bytes[i] * (size_t)capacity[i] + 15) & ~(size_t)15;
    }
    return at;
}

size_t tailor_in_pattern_bytes(const int capacity[TAILOR_IN_ARRAYS])
{
    size_t offset[TAILOR_IN_ARRAYS];
    return lay_out(capacity, offset);
}

tailor_pattern *tailor_in_pattern_begin(void *block, const int capacity[TAILOR_IN_ARRAYS], tailor_allocator allocator)
{
    tailor_pattern *p = block;
    memset(p, 0, sizeof *p);
    p->allocator = allocator;
    lay_out(capacity, p->offset);
    for (int i = 0; i < TAILOR_IN_ARRAYS; i++)
        p->capacity[i] = capacity[i];
    return p;
}

/** Index of `count` new records in an array, or -1 when there is no room. */
static int take(tailor_pattern *p, int array, size_t count)
{
    if (p->full || count > (size_t)(p->capacity[array] - p->count[array])) {
        p->full = 1;
        return -1;
    }
    int first = p->count[array];
    p->count[array] += (int)count;
    return first;
}

static void set_name(char *to, const char *from, const char *suffix)
{
    size_t length = strlen(from), more = strlen(suffix);
    if (length >= TAILOR_IN_NAME - more)
        length = TAILOR_IN_NAME - 1 - more;
    memset(to, 0, TAILOR_IN_NAME);
    memcpy(to, from, length);
    memcpy(to + length, suffix, more);
}

static struct tailor_in_piece *last_piece(tailor_pattern *p)
{
    return TAILOR_IN_AT(p, struct tailor_in_piece, TAILOR_IN_PIECES) + p->count[TAILOR_IN_PIECES] - 1;
}

/** Copy a path into the pattern's cubics: index of its first, -1 when there is no room. */
static int keep_path(tailor_pattern *p, const tailor_cubic *path, size_t count)
{
    int first = take(p, TAILOR_IN_CUBICS, count);
    if (first >= 0)
        memcpy(TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS) + first, path, count * sizeof *path);
    return first;
}

void tailor_in_add_piece(tailor_pattern *p, int number, int cut, int mirrored, int side, const char *cloth)
{
    int index = take(p, TAILOR_IN_PIECES, 1);
    if (index < 0)
        return;
    struct tailor_in_piece *piece = last_piece(p);
    memset(piece, 0, sizeof *piece);
    set_name(piece->name, tailor_table_text(tailor_piece_table(), number, TAILOR_COLUMN_NAME), "");
    set_name(piece->cloth, cloth, "");
    piece->number = number;
    piece->cut = cut;
    piece->mirrored = mirrored;
    piece->side = side;
    piece->first_cubic = p->count[TAILOR_IN_CUBICS];
    piece->first_edge = p->count[TAILOR_IN_EDGES];
    piece->first_point = p->count[TAILOR_IN_POINTS];
    piece->first_mark = p->count[TAILOR_IN_MARKS];
}

void tailor_in_add_edge(tailor_pattern *p, int number, const tailor_cubic *path, size_t count)
{
    int cubic = keep_path(p, path, count), index = take(p, TAILOR_IN_EDGES, 1);
    if (cubic < 0 || index < 0)
        return;
    struct tailor_in_edge *edge = TAILOR_IN_AT(p, struct tailor_in_edge, TAILOR_IN_EDGES) + index;
    set_name(edge->name, tailor_table_text(tailor_edge_table(), number, TAILOR_COLUMN_NAME), "");
    edge->number = number;
    edge->first_cubic = cubic;
    edge->cubic_count = (int)count;
    last_piece(p)->edge_count++;
    last_piece(p)->cubic_count += (int)count;
}

void tailor_in_add_point(tailor_pattern *p, int number, tailor_point at)
{
    int index = take(p, TAILOR_IN_POINTS, 1);
    if (index < 0)
        return;
    struct tailor_in_named_point *point = TAILOR_IN_AT(p, struct tailor_in_named_point, TAILOR_IN_POINTS) + index;
    set_name(point->name, tailor_table_text(tailor_point_table(), number, TAILOR_COLUMN_NAME), "");
    point->number = number;
    point->at = at;
    last_piece(p)->point_count++;
}

void tailor_in_add_mark(tailor_pattern *p, int number, int kind, const tailor_cubic *path, size_t count)
{
    int cubic = keep_path(p, path, count), index = take(p, TAILOR_IN_MARKS, 1);
    if (cubic < 0 || index < 0)
        return;
    struct tailor_in_mark *mark = TAILOR_IN_AT(p, struct tailor_in_mark, TAILOR_IN_MARKS) + index;
    set_name(mark->name, tailor_table_text(tailor_mark_table(), number, TAILOR_COLUMN_NAME), "");
    mark->number = number;
    mark->kind = kind;
    mark->first_cubic = cubic;
    mark->cubic_count = (int)count;
    last_piece(p)->mark_count++;
}

void tailor_in_add_seam(tailor_pattern *p, const char *name, const char *suffix, double ease)
{
    int index = take(p, TAILOR_IN_SEAMS, 1);
    if (index < 0)
        return;
    struct tailor_in_seam *seam = TAILOR_IN_AT(p, struct tailor_in_seam, TAILOR_IN_SEAMS) + index;
    memset(seam, 0, sizeof *seam);
    set_name(seam->name, name, suffix);
    seam->ease = ease;
    seam->first[0] = seam->first[1] = p->count[TAILOR_IN_STRETCHES];
}

void tailor_in_add_stretch(tailor_pattern *p, int side, tailor_stretch stretch)
{
    int last = p->count[TAILOR_IN_SEAMS] - 1;
    if (stretch.edge < 0)
        p->full = 1;
    if (last < 0 || take(p, TAILOR_IN_STRETCHES, 1) < 0)
        return;
    struct tailor_in_seam *seam = TAILOR_IN_AT(p, struct tailor_in_seam, TAILOR_IN_SEAMS) + last;
    tailor_stretch *at = TAILOR_IN_AT(p, tailor_stretch, TAILOR_IN_STRETCHES) + seam->first[side] + seam->count[side]++;
    if (side == 0) { /* the second side's make way */
        memmove(at + 1, at, (size_t)seam->count[1] * sizeof *at);
        seam->first[1]++;
    }
    *at = stretch;
}

tailor_status tailor_in_pattern_end(tailor_pattern *p) { return p->full ? TAILOR_INTERNAL : TAILOR_OK; }

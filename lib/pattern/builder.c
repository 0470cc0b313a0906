/* Building a pattern by name: every add is looked at by itself, and one that is refused changes nothing. */
#include "builder.h"

#include <math.h>
#include <string.h>

#include "../base/fault.h"
#include "../geom/kernel.h"

static const int first_capacity[TAILOR_IN_ARRAYS] = {8, 48, 64, 96, 16, 32, 256};
enum { MOST = 1 << 20 }; /* of any one thing in a pattern */
static const double FAR = TAILOR_IN_FARTHEST;

void tailor_in_builder_where(tailor_fault *fault, int piece, const char *part, int index)
{
    if (piece >= 0) {
        tailor_in_fault_say(fault, "piece ");
        tailor_in_fault_say_number(fault, piece + 1, "");
        tailor_in_fault_say(fault, part ? ", " : ": ");
    }
    if (part) {
        tailor_in_fault_say(fault, part);
        tailor_in_fault_say(fault, " ");
        tailor_in_fault_say_number(fault, index + 1, "");
        tailor_in_fault_say(fault, ": ");
    }
}

void tailor_in_builder_where_in_seam(tailor_fault *fault, int seam, int side, int stretch)
{
    tailor_in_fault_say(fault, "seam ");
    tailor_in_fault_say_number(fault, seam + 1, "");
    if (side == 0 || side == 1)
        tailor_in_fault_say(fault, side ? ", second side" : ", first side");
    if ((side == 0 || side == 1) && stretch >= 0) {
        tailor_in_fault_say(fault, ", stretch ");
        tailor_in_fault_say_number(fault, stretch + 1, "");
    }
    tailor_in_fault_say(fault, ": ");
}

tailor_status tailor_builder_begin(const tailor_allocator *allocator, tailor_builder **builder, tailor_fault *fault)
{
    if (!builder)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder is NULL: nowhere to put it");
    tailor_allocator memory = tailor_in_allocator(allocator);
    tailor_builder *made = memory.allocate(memory.user, sizeof *made);
    void *block = made ? memory.allocate(memory.user, tailor_in_pattern_bytes(first_capacity)) : NULL;
    if (!block) {
        if (made)
            memory.release(memory.user, made);
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for a builder");
    }
    made->allocator = memory;
    made->work = tailor_in_pattern_begin(block, first_capacity, memory);
    *builder = made;
    return TAILOR_OK;
}

void tailor_builder_free(tailor_builder *builder)
{
    if (!builder)
        return;
    tailor_pattern_free(builder->work);
    builder->allocator.release(builder->allocator.user, builder);
}

/** A fault of what is being added: where, then what. */
static tailor_status refuse(const tailor_builder *b, tailor_fault *fault, tailor_status status, const char *part,
                            int array, const char *what)
{
    const int *count = b->work->count, pieces = count[TAILOR_IN_PIECES];
    int index = array < 0 ? 0 : count[array];
    if (array == TAILOR_IN_EDGES || array == TAILOR_IN_POINTS || array == TAILOR_IN_MARKS) {
        const struct tailor_in_piece *last =
            TAILOR_IN_SEE(b->work, struct tailor_in_piece, TAILOR_IN_PIECES) + pieces - 1;
        index = !pieces                     ? 0
                : array == TAILOR_IN_EDGES  ? last->edge_count
                : array == TAILOR_IN_POINTS ? last->point_count
                                            : last->mark_count;
    }
    tailor_in_fault_plain(fault, status, "");
    int of_piece = array != TAILOR_IN_PIECES && array != TAILOR_IN_SEAMS && pieces;
    tailor_in_builder_where(fault, of_piece ? pieces - 1 : -1, part, index);
    tailor_in_fault_say(fault, what);
    return status;
}

/** Room for so many more records; the pattern moves to a block of twice the room where there is none. */
static tailor_status make_room(tailor_builder *b, int array, size_t more, tailor_fault *fault)
{
    tailor_pattern *p = b->work;
    if (more <= (size_t)(p->capacity[array] - p->count[array]))
        return TAILOR_OK;
    if (more > (size_t)(MOST - p->count[array]))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "a pattern holds at most 1048576 curves");
    int capacity[TAILOR_IN_ARRAYS];
    memcpy(capacity, p->capacity, sizeof capacity);
    while (more > (size_t)(capacity[array] - p->count[array]))
        capacity[array] *= 2;
    tailor_pattern *larger = tailor_in_pattern_copy(p, capacity, b->allocator);
    if (!larger)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for a larger pattern");
    tailor_pattern_free(p);
    b->work = larger;
    return TAILOR_OK;
}

static int good_name(const char *name)
{
    size_t length = name ? strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789_") : 0;
    return length > 0 && length < TAILOR_IN_NAME && !name[length] && name[0] >= 'a' && name[0] <= 'z';
}

static void set_name(char to[TAILOR_IN_NAME], const char *from)
{
    memset(to, 0, TAILOR_IN_NAME);
    memcpy(to, from, strlen(from));
}

/** Row of the piece table: that of the name, or of what comes before _left or _right, for a piece of one side. */
static int number_of_piece(const char *name, int side)
{
    const char *suffix = side == TAILOR_SIDE_LEFT ? "_left" : "_right";
    size_t length = strlen(name), more = strlen(suffix);
    int number = tailor_table_find(tailor_piece_table(), name);
    if (number || side == TAILOR_SIDE_BOTH || length <= more || strcmp(name + length - more, suffix))
        return number;
    char whole[TAILOR_IN_NAME] = "";
    memcpy(whole, name, length - more);
    return tailor_table_find(tailor_piece_table(), whole);
}

static const char BAD_NAME[] = "a name has 1 to 31 bytes: small letters, digits and _, a letter first",
                  NAME_TAKEN[] = "the name stands for another already",
                  NO_PIECE[] = "there is no piece yet to add it to",
                  TOO_FAR[] = "a coordinate is not finite or beyond 10 m of the origin";

static int near_enough(double v) { return fabs(v) <= FAR; } /* NaN is not */

static int path_sound(const tailor_cubic *path, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++)
            if (!near_enough(path[i].p[k].x) || !near_enough(path[i].p[k].y))
                return 0;
    return 1;
}

static struct tailor_in_piece *last_piece(tailor_builder *b)
{
    int count = b->work->count[TAILOR_IN_PIECES];
    return TAILOR_IN_AT(b->work, struct tailor_in_piece, TAILOR_IN_PIECES) + count - 1;
}

tailor_status tailor_builder_add_piece(tailor_builder *b, const char *name, int cut, int mirrored, int side,
                                       const char *cloth, tailor_fault *fault)
{
    if (!b)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder is NULL");
    const char *wrong = !good_name(name)                                     ? BAD_NAME
                        : tailor_pattern_find_piece(b->work, name) >= 0      ? NAME_TAKEN
                        : !good_name(cloth)                                  ? "the cloth's name is no name"
                        : cut < 1 || cut > 99                                ? "cut is 1 to 99"
                        : mirrored != 0 && mirrored != 1                     ? "mirrored is 0 or 1"
                        : side < TAILOR_SIDE_BOTH || side > TAILOR_SIDE_LEFT ? "side is no TAILOR_SIDE_"
                                                                             : NULL;
    if (wrong)
        return refuse(b, fault, TAILOR_BAD_ARGUMENT, "piece", TAILOR_IN_PIECES, wrong);
    tailor_status status = make_room(b, TAILOR_IN_PIECES, 1, fault);
    if (status != TAILOR_OK)
        return status;
    int *count = b->work->count;
    count[TAILOR_IN_PIECES]++;
    struct tailor_in_piece *piece = last_piece(b);
    memset(piece, 0, sizeof *piece);
    set_name(piece->name, name);
    set_name(piece->cloth, cloth);
    piece->number = number_of_piece(name, side);
    piece->cut = cut;
    piece->mirrored = mirrored;
    piece->side = side;
    piece->first_cubic = count[TAILOR_IN_CUBICS];
    piece->first_edge = count[TAILOR_IN_EDGES];
    piece->first_point = count[TAILOR_IN_POINTS];
    piece->first_mark = count[TAILOR_IN_MARKS];
    return TAILOR_OK;
}

/** What edges, points and marks have in common: a piece to go to, a free name, sound places, room. */
static tailor_status ready(tailor_builder *b, const char *part, int array, const char *name,
                           int (*find)(const tailor_pattern *, int, const char *), const tailor_cubic *path,
                           size_t count, tailor_fault *fault)
{
    if (!b)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder is NULL");
    int piece = b->work->count[TAILOR_IN_PIECES] - 1;
    const char *wrong = piece < 0                         ? NO_PIECE
                        : !good_name(name)                ? BAD_NAME
                        : find(b->work, piece, name) >= 0 ? NAME_TAKEN
                        : !path || !count                 ? "it has no curves"
                                                          : NULL;
    if (wrong)
        return refuse(b, fault, TAILOR_BAD_ARGUMENT, part, array, wrong);
    if (!path_sound(path, count))
        return refuse(b, fault, TAILOR_NOT_FINITE, part, array, TOO_FAR);
    tailor_status status = make_room(b, array, 1, fault);
    return status == TAILOR_OK && array != TAILOR_IN_POINTS ? make_room(b, TAILOR_IN_CUBICS, count, fault) : status;
}

static int keep_path(tailor_pattern *p, const tailor_cubic *path, size_t count)
{
    int first = p->count[TAILOR_IN_CUBICS];
    memcpy(TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS) + first, path, count * sizeof *path);
    p->count[TAILOR_IN_CUBICS] += (int)count;
    return first;
}

tailor_status tailor_builder_add_edge(tailor_builder *b, const char *name, const tailor_cubic *path, size_t count,
                                      tailor_fault *fault)
{
    tailor_status status = ready(b, "edge", TAILOR_IN_EDGES, name, tailor_piece_find_edge, path, count, fault);
    if (status != TAILOR_OK)
        return status;
    struct tailor_in_piece *piece = last_piece(b);
    if (piece->mark_count)
        return refuse(b, fault, TAILOR_BAD_ARGUMENT, "edge", TAILOR_IN_EDGES, "edges are added before marks");
    tailor_pattern *p = b->work;
    struct tailor_in_edge *edge = TAILOR_IN_AT(p, struct tailor_in_edge, TAILOR_IN_EDGES) + p->count[TAILOR_IN_EDGES]++;
    memset(edge, 0, sizeof *edge);
    set_name(edge->name, name);
    edge->number = tailor_table_find(tailor_edge_table(), name);
    edge->first_cubic = keep_path(p, path, count);
    edge->cubic_count = (int)count;
    piece->edge_count++;
    piece->cubic_count += (int)count;
    return TAILOR_OK;
}

tailor_status tailor_builder_add_point(tailor_builder *b, const char *name, tailor_point place, tailor_fault *fault)
{
    const tailor_cubic there = {{place, place, place, place}};
    tailor_status status = ready(b, "point", TAILOR_IN_POINTS, name, tailor_piece_find_point, &there, 1, fault);
    if (status != TAILOR_OK)
        return status;
    tailor_pattern *p = b->work;
    struct tailor_in_named_point *point =
        TAILOR_IN_AT(p, struct tailor_in_named_point, TAILOR_IN_POINTS) + p->count[TAILOR_IN_POINTS]++;
    memset(point, 0, sizeof *point);
    set_name(point->name, name);
    point->number = tailor_table_find(tailor_point_table(), name);
    point->at = place;
    last_piece(b)->point_count++;
    return TAILOR_OK;
}

tailor_status tailor_builder_add_mark(tailor_builder *b, const char *name, int kind, const tailor_cubic *path,
                                      size_t count, tailor_fault *fault)
{
    tailor_status status = ready(b, "mark", TAILOR_IN_MARKS, name, tailor_piece_find_mark, path, count, fault);
    if (status != TAILOR_OK)
        return status;
    if (kind < TAILOR_MARK_NOTCH || kind > TAILOR_MARK_FOLD)
        return refuse(b, fault, TAILOR_BAD_ARGUMENT, "mark", TAILOR_IN_MARKS, "kind is no TAILOR_MARK_");
    tailor_pattern *p = b->work;
    struct tailor_in_mark *mark = TAILOR_IN_AT(p, struct tailor_in_mark, TAILOR_IN_MARKS) + p->count[TAILOR_IN_MARKS]++;
    memset(mark, 0, sizeof *mark);
    set_name(mark->name, name);
    mark->number = tailor_table_find(tailor_mark_table(), name);
    mark->kind = kind;
    mark->first_cubic = keep_path(p, path, count);
    mark->cubic_count = (int)count;
    last_piece(b)->mark_count++;
    return TAILOR_OK;
}

tailor_status tailor_builder_add_seam(tailor_builder *b, const char *name, double ease, tailor_fault *fault)
{
    if (!b)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder is NULL");
    const char *wrong = !good_name(name)                               ? BAD_NAME
                        : tailor_pattern_find_seam(b->work, name) >= 0 ? NAME_TAKEN
                        : !near_enough(ease)                           ? "the ease is not finite"
                                                                       : NULL;
    if (wrong)
        return refuse(b, fault, TAILOR_BAD_ARGUMENT, "seam", TAILOR_IN_SEAMS, wrong);
    tailor_status status = make_room(b, TAILOR_IN_SEAMS, 1, fault);
    if (status == TAILOR_OK)
        tailor_in_add_seam(b->work, name, "", ease);
    return status;
}

/** A stretch by names; why not, or NULL. A bound at the edge's end is kept as the end, whatever its length becomes. */
static const char *find_stretch(const tailor_pattern *p, const char *piece, const char *edge, double from, double to,
                                tailor_stretch *stretch)
{
    int i = tailor_pattern_find_piece(p, piece), j = tailor_piece_find_edge(p, i, edge);
    if (i < 0 || j < 0)
        return i < 0 ? "there is no piece of that name" : "there is no edge of that name on its piece";
    size_t count;
    const tailor_cubic *path = tailor_edge_path(p, i, j, &count);
    double whole = tailor_path_length(path, count), bounds[2] = {from, to};
    for (int k = 0; k < 2; k++) {
        if (isnan(bounds[k]) || fabs(bounds[k] - whole) <= TAILOR_IN_GAP_CLOSED)
            bounds[k] = -1;
        else if (!(bounds[k] >= 0 && bounds[k] < whole))
            return "a bound lies beyond its edge";
    }
    *stretch = (tailor_stretch){i, j, bounds[0], bounds[1]};
    return NULL;
}

tailor_status tailor_builder_add_stretch(tailor_builder *b, int side, const char *piece, const char *edge, double from,
                                         double to, tailor_fault *fault)
{
    if (!b)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder is NULL");
    int seam = b->work->count[TAILOR_IN_SEAMS] - 1;
    if (seam < 0)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is no seam yet to add a stretch to");
    tailor_stretch stretch;
    const char *wrong = side != 0 && side != 1 ? "a side is 0 or 1"
                                               : find_stretch(b->work, piece, edge, from, to, &stretch);
    if (wrong) {
        tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "");
        tailor_in_builder_where_in_seam(fault, seam, side, tailor_seam_stretch_count(b->work, seam, side));
        tailor_in_fault_say(fault, wrong);
        return TAILOR_BAD_ARGUMENT;
    }
    tailor_status status = make_room(b, TAILOR_IN_STRETCHES, 1, fault);
    if (status == TAILOR_OK)
        tailor_in_add_stretch(b->work, side, stretch);
    return status;
}

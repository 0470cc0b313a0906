#include "piece.h"

#include "lettering.h"
#include "marks.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/** By how much to turn a piece so that its grain is upright: 0 as drafted, and for a grain that is upright but for
 *  rounding. */
static double upright(const tailor_pattern *pattern, int piece)
{
    for (int mark = 0; mark < tailor_piece_mark_count(pattern, piece); mark++) {
        size_t count;
        const tailor_cubic *path = tailor_mark_path(pattern, piece, mark, &count);
        if (tailor_mark_kind(pattern, piece, mark) != TAILOR_MARK_GRAIN || !count)
            continue;
        double x = path[count - 1].p[3].x - path[0].p[0].x, y = path[count - 1].p[3].y - path[0].p[0].y;
        if (y < 0) { /* either end up, whichever is nearer */
            x = -x;
            y = -y;
        }
        const double angle = atan2(x, y) * 180 / acos(-1);
        return fabs(angle) > 0.01 ? angle : 0;
    }
    return 0;
}

static void grow_by(double box[4], const tailor_cubic *path, size_t count, double angle)
{
    const double c = cos(angle * acos(-1) / 180), s = sin(angle * acos(-1) / 180), turn[6] = {c, s, -s, c, 0, 0};
    for (size_t i = 0; i < count; i++) {
        tailor_cubic turned;
        double more[4];
        tailor_path_affine(&path[i], 1, turn, &turned);
        tailor_cubic_bounds(&turned, more);
        for (int k = 0; k < 2; k++) {
            box[k] = fmin(box[k], more[k]);
            box[k + 2] = fmax(box[k + 2], more[k + 2]);
        }
    }
}

/** Bounds of a piece turned by an angle, marks included. */
static void bound(const tailor_pattern *pattern, int piece, double angle, double bounds[4])
{
    size_t count;
    const tailor_cubic *path = tailor_piece_outline(pattern, piece, &count);
    bounds[0] = bounds[1] = count ? INFINITY : 0;
    bounds[2] = bounds[3] = count ? -INFINITY : 0;
    grow_by(bounds, path, count, angle);
    for (int mark = 0; count && mark < tailor_piece_mark_count(pattern, piece); mark++) {
        size_t mark_count;
        path = tailor_mark_path(pattern, piece, mark, &mark_count);
        if (tailor_in_look_of_mark(pattern, piece, mark))
            grow_by(bounds, path, mark_count, angle);
    }
}

/** A plain name for a piece that no other piece of the pattern has. */
static void name_group(const tailor_pattern *pattern, int piece, char id[64])
{
    static const char *const sides[] = {"", "-right", "-left"};
    const char *name = tailor_piece_name(pattern, piece);
    const int side = tailor_piece_side(pattern, piece);
    int same = 0, bytes;
    for (int i = 0; i < piece; i++)
        same += tailor_piece_side(pattern, i) == side && !strcmp(tailor_piece_name(pattern, i), name);
    bytes = snprintf(id, 64, "%s%s", name, side == TAILOR_SIDE_RIGHT || side == TAILOR_SIDE_LEFT ? sides[side] : "");
    if (same)
        snprintf(id + bytes, 64 - (size_t)bytes, "-%d", same + 1);
}

static void begin_layer(struct tailor_in_drawing *d, const char *id, const char *piece, const char *layer)
{
    char own_id[96], title[96];
    snprintf(own_id, sizeof own_id, "%s-%s", id, layer);
    snprintf(title, sizeof title, "%s: %s", piece, layer);
    tailor_in_drawing_group(d, own_id, title);
}

static void name_edges(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                       int piece, int print)
{
    for (int edge = 0; edge < tailor_piece_edge_count(pattern, piece); edge++) {
        size_t count;
        const tailor_cubic *path = tailor_edge_path(pattern, piece, edge, &count);
        char name[40], length[48], text[96];
        tailor_in_words(tailor_edge_name(pattern, piece, edge), "", name, sizeof name);
        tailor_in_length_words(tailor_path_length(path, count), print, length);
        snprintf(text, sizeof text, "%s %s", name, length);
        if (!tailor_in_label_along(d, g, path, count, text, 6.5, 0.5, TAILOR_IN_LEFT))
            tailor_in_label_near(d, g, tailor_path_point(path, count, (double)count / 2), text, 5, 40);
    }
}

static void draw(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern, int piece,
                 tailor_point low, tailor_point high, int print)
{
    char words[64], id[64];
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(pattern, piece, &count);
    tailor_in_words(tailor_piece_name(pattern, piece), "", words, sizeof words);
    name_group(pattern, piece, id);
    tailor_in_ground_inside(g, d->place, outline, count);
    tailor_in_drawing_group(d, id, words);
    begin_layer(d, id, words, "outline");
    tailor_in_drawing_path(d, TAILOR_IN_OUTLINE, outline, count, 1);
    tailor_in_drawing_group_end(d);
    begin_layer(d, id, words, "marks");
    tailor_in_draw_marks(d, g, pattern, piece);
    tailor_in_drawing_group_end(d);
    begin_layer(d, id, words, "labels");
    tailor_in_label_piece(d, g, pattern, piece, low, high);
    name_edges(d, g, pattern, piece, print);
    tailor_in_name_marks(d, g, pattern, piece);
    tailor_in_drawing_group_end(d);
    tailor_in_drawing_group_end(d);
}

struct tailor_in_drawn_piece tailor_in_draw_piece(struct tailor_in_drawing *d, const tailor_pattern *pattern, int piece,
                                                  int print)
{
    /* of ground around the piece: as much as the widest label beside it may need */
    const double rim = fmax(130, 40 + tailor_in_text_width(tailor_piece_name(pattern, piece), 10, 1));
    const double shared = 17.5; /* so far may labels reach into what lies between two rooms */
    struct tailor_in_drawn_piece drawn = {.begin = tailor_in_drawing_now(d)};
    struct tailor_in_ground g;
    const double angle = upright(pattern, piece);
    double *room = drawn.room;
    bound(pattern, piece, angle, room);
    const double width = room[2] - room[0], height = room[3] - room[1];
    drawn.origin = (tailor_point){rim - room[0], rim + room[3]};
    if (!tailor_in_ground_begin(&g, &d->allocator, width + 2 * rim, height + 2 * rim)) {
        d->failed = 1;
        return drawn;
    }
    tailor_in_drawing_place_turned(d, drawn.origin.x, drawn.origin.y, angle);
    draw(d, &g, pattern, piece, (tailor_point){rim, rim}, (tailor_point){rim + width, rim + height}, print);
    tailor_in_drawing_place_page(d);
    room[0] = fmin(room[0], g.low_x + shared - drawn.origin.x);
    room[1] = fmin(room[1], drawn.origin.y - (g.high_y - shared));
    room[2] = fmax(room[2], g.high_x - shared - drawn.origin.x);
    room[3] = fmax(room[3], drawn.origin.y - (g.low_y + shared));
    drawn.end = tailor_in_drawing_now(d);
    tailor_in_ground_end(&g, &d->allocator);
    return drawn;
}

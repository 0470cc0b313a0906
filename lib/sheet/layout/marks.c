#include "marks.h"

#include "lettering.h"

#include <math.h>
#include <string.h>

/* The first row that fits a mark says how it is drawn: kind 0 is any kind; the name contains `part`. */
static const struct {
    int kind;
    const char *part;
    int drawn;
    struct tailor_in_mark_look look;
} looks[] = {
    {0, "collar_turned", 0, {0, 0, 0, 0, 0}}, /* belongs to the fronts picture */
    {0, "lapel_turned", 1, {TAILOR_IN_TURNED, 1, 6.5, 0.5, 1}},
    {0, "lapel_rolled", 1, {TAILOR_IN_TURNED, 1, 6.5, 0.6, 1}},
    {0, "roll_line", 1, {TAILOR_IN_TURNED, 1, 6.5, 0.35, 1}},
    {TAILOR_MARK_NOTCH, "", 1, {TAILOR_IN_NOTCH, 2, 6, 1, 1}},
    {TAILOR_MARK_GRAIN, "", 1, {TAILOR_IN_GRAIN, 0, 0, 0, 3}},
    {TAILOR_MARK_BUTTON, "", 1, {TAILOR_IN_BUTTON, 0, 0, 0, 2}},
    {TAILOR_MARK_HOLE, "", 1, {TAILOR_IN_HOLE, 0, 0, 0, 2}},
    {TAILOR_MARK_DART, "", 1, {TAILOR_IN_DART, 1, 6.5, 0.5, 1}},
    {TAILOR_MARK_LINE, "centre_front", 1, {TAILOR_IN_LEVEL, 1, 6.5, 0.5, 0}},
    {TAILOR_MARK_LINE, "_level", 1, {TAILOR_IN_LEVEL, 1, 6.5, 0.15, 0}},
    {TAILOR_MARK_LINE, "", 1, {TAILOR_IN_MARKED, 1, 6.5, 0.5, 1}},
    {TAILOR_MARK_FOLD, "", 1, {TAILOR_IN_FOLD, 1, 6.5, 0.5, 1}},
};

const struct tailor_in_mark_look *tailor_in_look_of_mark(const tailor_pattern *pattern, int piece, int mark)
{
    const int kind = tailor_mark_kind(pattern, piece, mark);
    const char *name = tailor_mark_name(pattern, piece, mark);
    for (size_t i = 0; i < sizeof looks / sizeof *looks; i++)
        if ((looks[i].kind == 0 || looks[i].kind == kind) && strstr(name, looks[i].part))
            return looks[i].drawn ? &looks[i].look : NULL;
    return NULL;
}

static void draw_arrows(struct tailor_in_drawing *d, const tailor_cubic *path, size_t count)
{
    const tailor_point a = path[0].p[0], b = path[count - 1].p[3];
    const double head = fmin(12, 0.35 * hypot(b.x - a.x, b.y - a.y)); /* small pieces have a short grain line */
    tailor_in_drawing_arrow_head(d, b, a, head);
    tailor_in_drawing_arrow_head(d, a, b, head);
}

/** A cross through the middle of a button: where its shank is sewn. */
static void draw_cross(struct tailor_in_drawing *d, const tailor_cubic *path, size_t count)
{
    double box[4];
    tailor_path_bounds(path, count, box);
    const double x = (box[0] + box[2]) / 2, y = (box[1] + box[3]) / 2, arm = (box[2] - box[0]) / 6;
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){x - arm, y}, (tailor_point){x + arm, y});
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){x, y - arm}, (tailor_point){x, y + arm});
}

static int is_closed(const tailor_cubic *path, size_t count)
{
    return hypot(path[count - 1].p[3].x - path[0].p[0].x, path[count - 1].p[3].y - path[0].p[0].y) < 0.01;
}

/** A man's coat has one breast welt, on the left. */
static int is_of_the_other_side(const tailor_pattern *pattern, int piece, int mark)
{
    return tailor_mark_number(pattern, piece, mark) == TAILOR_MARKED_BREAST_WELT &&
           tailor_piece_side(pattern, piece) == TAILOR_SIDE_RIGHT && !tailor_piece_mirrored(pattern, piece);
}

void tailor_in_draw_marks(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                          int piece)
{
    for (int mark = 0; mark < tailor_piece_mark_count(pattern, piece); mark++) {
        const struct tailor_in_mark_look *look = tailor_in_look_of_mark(pattern, piece, mark);
        size_t count;
        const tailor_cubic *path = tailor_mark_path(pattern, piece, mark, &count);
        if (!look || !count || is_of_the_other_side(pattern, piece, mark))
            continue;
        if (look->style == TAILOR_IN_TURNED && is_closed(path, count))
            count--; /* what closes a turned part is the fold, which is drawn as such */
        tailor_in_drawing_path(d, look->style, path, count, look->style == TAILOR_IN_BUTTON);
        tailor_in_ground_take(g, d->place, path, count, look->margin);
        if (look->style == TAILOR_IN_GRAIN)
            draw_arrows(d, path, count);
        if (look->style == TAILOR_IN_BUTTON)
            draw_cross(d, path, count);
    }
}

void tailor_in_name_marks(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                          int piece)
{
    for (int mark = 0; mark < tailor_piece_mark_count(pattern, piece); mark++) {
        const struct tailor_in_mark_look *look = tailor_in_look_of_mark(pattern, piece, mark);
        size_t count;
        const tailor_cubic *path = tailor_mark_path(pattern, piece, mark, &count);
        char words[64];
        if (!look || !count || !look->named || is_of_the_other_side(pattern, piece, mark))
            continue;
        tailor_in_words(tailor_mark_name(pattern, piece, mark), "notch_", words, sizeof words);
        if (tailor_mark_number(pattern, piece, mark) == TAILOR_MARKED_BREAST_WELT &&
            tailor_piece_mirrored(pattern, piece))
            tailor_in_words("breast_welt,_left_only", "", words, sizeof words);
        if (look->named == 1 &&
            tailor_in_label_along(d, g, path, count, words, look->size, look->prefer, TAILOR_IN_LEFT | TAILOR_IN_RIGHT))
            continue;
        tailor_in_label_near(d, g, tailor_path_point(path, count, look->prefer * (double)count), words, look->size, 20);
    }
}

/* The label that tells what a piece is: a block of lines in the piece, level if that can be; or one line along a strip;
 * or a block beside the piece, with a line that leads to it. */
#include "label.h"

#include "lettering.h"
#include "trail.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { TITLE = 4, LINES = TITLE + 3, LETTERS = 64 };
static const double TITLE_ROOM = 105; /* mm */
/* Sizes of the lines at full scale, in a block and in a row; the first is bold. */
static const double block_size[LINES] = {14, 7.5, 7.5, 7.5, 5.5, 5.5, 5.5};
static const double row_size[LINES] = {10, 7.5, 7.5, 7.5, 5.5, 5.5, 5.5};
static const double between = 8; /* texts of a row */

struct piece_label {
    char text[LINES][LETTERS];
};

/** Whose piece it is stands last: cut apart, the pieces of two clients must not be mixed up. */
static void say_piece(const struct tailor_in_drawing *d, const tailor_pattern *pattern, int piece,
                      struct piece_label *label)
{
    static const char *const sides[] = {"left and right", "right", "left"};
    const int cut = tailor_piece_copies(pattern, piece), side = tailor_piece_side(pattern, piece);
    tailor_in_words(tailor_piece_name(pattern, piece), "", label->text[0], sizeof label->text[0]);
    snprintf(label->text[1], sizeof label->text[1], "wearer's %s, face up",
             sides[side == TAILOR_SIDE_RIGHT || side == TAILOR_SIDE_LEFT ? side : 0]);
    snprintf(label->text[2], sizeof label->text[2], "cut %d%s", cut,
             tailor_piece_mirrored(pattern, piece) ? ", mirrored"
             : cut > 1                             ? ", not mirrored"
                                                   : "");
    tailor_in_words(tailor_piece_cloth(pattern, piece), "", label->text[3], sizeof label->text[3]);
    char *const title[] = {label->text[TITLE], label->text[TITLE + 1], label->text[TITLE + 2]};
    tailor_in_drawing_title_lines(d, block_size[TITLE], TITLE_ROOM, LETTERS, title);
}

/* ---- the two forms */

static struct tailor_in_box block_box(const struct piece_label *label, double scale)
{
    struct tailor_in_box box = {.width = 0};
    for (int i = 0; i < LINES; i++) {
        box.width = fmax(box.width, tailor_in_text_width(label->text[i], scale * block_size[i], i == 0));
        box.height += label->text[i][0] ? scale * block_size[i] * TAILOR_IN_LINE_HEIGHT : 0;
    }
    box.width += 3; /* another program's letters may run a little wider */
    return box;
}

static struct tailor_in_box row_box(const struct piece_label *label, double scale)
{
    struct tailor_in_box box = {.height = scale * row_size[0]};
    for (int i = 0; i < LINES; i++)
        if (label->text[i][0])
            box.width += tailor_in_text_width(label->text[i], scale * row_size[i], i == 0) + (i ? scale * between : 0);
    return box;
}

/** A text of a label, `along` and `down` from the middle of its box as the text runs. */
static void write_part(struct tailor_in_drawing *d, struct tailor_in_box box, double along, double down, double size,
                       double anchor, int bold, const char *text)
{
    const double turn = box.angle * acos(-1) / 180, c = cos(turn), s = sin(turn);
    tailor_in_drawing_text_on_page(
        d, (tailor_point){box.middle.x + along * c - down * s, box.middle.y + along * s + down * c},
        (struct tailor_in_lettering){size, anchor, box.angle, bold}, text);
}

static void write_block(struct tailor_in_drawing *d, struct tailor_in_box box, const struct piece_label *label,
                        double scale)
{
    double down = -box.height / 2;
    for (int i = 0; i < LINES; i++) {
        const double size = scale * block_size[i];
        if (!label->text[i][0])
            continue;
        down += size * TAILOR_IN_LINE_HEIGHT;
        write_part(d, box, 0, down - 0.3 * size, size, 0.5, i == 0, label->text[i]);
    }
}

static void write_row(struct tailor_in_drawing *d, struct tailor_in_box box, const struct piece_label *label,
                      double scale)
{
    double along = -box.width / 2;
    for (int i = 0; i < LINES; i++) {
        const double size = scale * row_size[i];
        if (!label->text[i][0])
            continue;
        write_part(d, box, along, 0.27 * scale * row_size[0], size, 0, i == 0, label->text[i]);
        along += tailor_in_text_width(label->text[i], size, i == 0) + scale * between;
    }
}

/* ---- beside the piece */

/** The place on an outline that is nearest to a point. */
static tailor_point nearest_on(const struct tailor_in_drawing *d, const tailor_pattern *pattern, int piece,
                               tailor_point from)
{
    struct tailor_in_trail t;
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(pattern, piece, &count);
    double best = INFINITY;
    tailor_point found = from;
    tailor_in_trail_walk(&t, d->place, outline, count);
    for (int i = 1; i < t.count; i++) {
        const tailor_point a = t.at[i - 1];
        const double x = t.at[i].x - a.x, y = t.at[i].y - a.y, square = x * x + y * y;
        const double share = square > 0 ? ((from.x - a.x) * x + (from.y - a.y) * y) / square : 0;
        const double held = fmin(fmax(share, 0), 1);
        const tailor_point here = {a.x + held * x, a.y + held * y};
        const double distance = (here.x - from.x) * (here.x - from.x) + (here.y - from.y) * (here.y - from.y);
        if (distance < best) {
            best = distance;
            found = here;
        }
    }
    return found;
}

/** Find room for a block close beside a piece and as much more around it as the leading line needs. */
static int find_beside(struct tailor_in_ground *g, struct tailor_in_box *box, tailor_point low, tailor_point high)
{
    static const double around = 7;
    struct tailor_in_box wide = *box;
    wide.width += 2 * around;
    wide.height += 2 * around;
    /* right of what is high, below what is wide */
    wide.middle = high.x - low.x > high.y - low.y ? (tailor_point){(low.x + high.x) / 2, high.y}
                                                  : (tailor_point){high.x, low.y + 0.45 * (high.y - low.y)};
    if (!tailor_in_ground_near(g, &wide, 60, TAILOR_IN_OUTSIDE))
        return 0;
    box->middle = wide.middle;
    return 1;
}

static void lead(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern, int piece,
                 struct tailor_in_box box)
{
    static const double page[6] = {1, 0, 0, 1, 0, 0};
    const tailor_point tip = nearest_on(d, pattern, piece, box.middle), m = box.middle;
    const double across = box.width / 2 + 2, down = box.height / 2 + 1;
    const tailor_point from = {fmin(fmax(tip.x, m.x - across), m.x + across),
                               fmin(fmax(tip.y, m.y - down), m.y + down)};
    const tailor_cubic line = tailor_cubic_line(from, tip);
    double place[6];
    for (int i = 0; i < 6; i++) {
        place[i] = d->place[i];
        d->place[i] = page[i];
    }
    tailor_in_drawing_path(d, TAILOR_IN_THIN, &line, 1, 0);
    tailor_in_drawing_arrow_head(d, from, tip, 5);
    for (int i = 0; i < 6; i++)
        d->place[i] = place[i];
    tailor_in_ground_take(g, page, &line, 1, 1);
}

/* ---- what is tried, one after the other. The last is taken whether it is free or not. */

enum { LEVEL, SLANTING, ROW, BESIDE };
static const struct {
    double scale;
    int how;
} attempts[] = {{1, LEVEL},      {0.85, LEVEL}, {0.7, LEVEL},  {1, SLANTING}, {0.85, SLANTING},
                {0.7, SLANTING}, {1, ROW},      {0.85, ROW},   {0.7, ROW},    {0.6, LEVEL},
                {0.6, SLANTING}, {0.5, LEVEL},  {0.7, BESIDE}, {0.4, LEVEL}};
enum { ATTEMPTS = sizeof attempts / sizeof *attempts };

static int find_room(struct tailor_in_ground *g, struct tailor_in_box *box, int how, tailor_point low,
                     tailor_point high)
{
    switch (how) {
    case SLANTING:
        return tailor_in_ground_slanting(g, box, low, high);
    case BESIDE:
        return find_beside(g, box, low, high);
    case ROW: /* upright first, as strips mostly are */
        box->angle = -90;
        if (tailor_in_ground_roomiest(g, box, low, high))
            return 1;
        box->angle = 0;
        break;
    default:
        break;
    }
    return tailor_in_ground_roomiest(g, box, low, high);
}

void tailor_in_label_piece(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                           int piece, tailor_point low, tailor_point high)
{
    struct piece_label label;
    struct tailor_in_box box = {.width = 0};
    int i = 0;
    say_piece(d, pattern, piece, &label);
    for (; i < ATTEMPTS; i++) {
        box = attempts[i].how == ROW ? row_box(&label, attempts[i].scale) : block_box(&label, attempts[i].scale);
        /* a little above the middle looks like the middle */
        box.middle = (tailor_point){(low.x + high.x) / 2, low.y + 0.45 * (high.y - low.y)};
        if (find_room(g, &box, attempts[i].how, low, high))
            break;
    }
    i = i < ATTEMPTS ? i : ATTEMPTS - 1;
    tailor_in_ground_take_box(g, box);
    (attempts[i].how == ROW ? write_row : write_block)(d, box, &label, attempts[i].scale);
    if (attempts[i].how == BESIDE)
        lead(d, g, pattern, piece, box);
}

#include "label.h"

#include "lettering.h"

#include <math.h>
#include <stdio.h>

/* A path walked: points on the page at even parameters, with the length up to each. */
enum { TRAIL = 193 };
struct trail {
    int count;
    tailor_point at[TRAIL];
    double length[TRAIL];
};

static void walk(const struct tailor_in_drawing *d, struct trail *t, const tailor_cubic *path, size_t count)
{
    t->count = TRAIL;
    for (int i = 0; i < TRAIL; i++) {
        t->at[i] = tailor_in_drawing_on_page(d, tailor_path_point(path, count, (double)count * i / (TRAIL - 1)));
        t->length[i] = i ? t->length[i - 1] + hypot(t->at[i].x - t->at[i - 1].x, t->at[i].y - t->at[i - 1].y) : 0;
    }
}

static tailor_point trail_point(const struct trail *t, double length)
{
    int i = 1;
    while (i < t->count - 1 && t->length[i] < length)
        i++;
    const double step = t->length[i] - t->length[i - 1], share = step > 0 ? (length - t->length[i - 1]) / step : 0;
    const tailor_point a = t->at[i - 1], b = t->at[i];
    return (tailor_point){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

static void write_in_box(struct tailor_in_drawing *d, struct tailor_in_box box, const char *text, double size)
{
    const double turn = box.angle * acos(-1) / 180;
    const double down = 0.27 * size; /* from the middle of small letters to their base line */
    tailor_in_drawing_text_on_page(d, (tailor_point){box.middle.x - down * sin(turn), box.middle.y + down * cos(turn)},
                                   (struct tailor_in_lettering){size, 0.5, box.angle, 0}, text);
}

/** The box of a text set along a trail about `length`, on one side of it (+1 left, -1 right), `gap` off. */
static struct tailor_in_box box_along(const struct trail *t, double length, double width, double size, double gap,
                                      int side)
{
    const double whole = t->length[t->count - 1], from = fmax(0, length - width / 2);
    const double to = fmin(whole, length + width / 2);
    const tailor_point a = trail_point(t, from), b = trail_point(t, to);
    const double chord = hypot(b.x - a.x, b.y - a.y), x = (b.x - a.x) / chord, y = (b.y - a.y) / chord;
    /* How far the path itself comes to that side of the chord; the left is (y, -x), for y goes down. A chord without
     * length, as in a closed path that is shorter than the text, makes a place that is no number and never free. */
    double bulge = 0;
    for (int i = 0; i < t->count; i++)
        if (t->length[i] > from && t->length[i] < to)
            bulge = fmax(bulge, side * (y * (t->at[i].x - a.x) - x * (t->at[i].y - a.y)));
    const double off = side * (bulge + gap + size / 2);
    double angle = atan2(y, x) * 180 / acos(-1);
    if (angle > 90.001)
        angle -= 180;
    else if (angle < -90.001)
        angle += 180;
    const tailor_point middle = {(a.x + b.x) / 2 + off * y, (a.y + b.y) / 2 - off * x};
    return (struct tailor_in_box){middle, width, size, angle};
}

/* What is tried, one after the other: how large, and whether beside the piece instead of in it. */
static const struct {
    double shrink;
    int outside;
} attempts[] = {{1, 0}, {0.85, 0}, {1, TAILOR_IN_OUTSIDE}, {0.7, 0}, {0.85, TAILOR_IN_OUTSIDE}};
enum { ATTEMPTS = sizeof attempts / sizeof *attempts };

/** The free box along a trail that is nearest to it and then to the preferred place. 0 when there is none. */
static int find_along(struct tailor_in_ground *g, const struct trail *t, double width, double size, double prefer,
                      int sides, int where, struct tailor_in_box *box)
{
    static const double gaps[] = {2.5, 5, 9, 14};
    for (int k = 0; k < 4; k++) {
        for (int step = 0; step < 40; step++) { /* outward from the preferred place, both ways */
            const double share = prefer + (step % 2 ? -1 : 1) * ((step + 1) / 2) * 0.05;
            for (int side = 1; side >= -1; side -= 2) {
                if (share < 0.05 || share > 0.95 || !(sides & (side > 0 ? TAILOR_IN_LEFT : TAILOR_IN_RIGHT)))
                    continue;
                *box = box_along(t, share * t->length[t->count - 1], width, size, gaps[k], side);
                if (tailor_in_ground_free_box(g, *box, where))
                    return 1;
            }
        }
    }
    return 0;
}

int tailor_in_label_along(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_cubic *path,
                          size_t count, const char *text, double size, double prefer, int sides)
{
    struct trail t;
    walk(d, &t, path, count);
    for (int i = 0; i < ATTEMPTS && t.length[t.count - 1] > 0; i++) {
        const double letters = size * attempts[i].shrink, width = tailor_in_text_width(text, letters, 0) + letters;
        const int where = attempts[i].outside, both = TAILOR_IN_LEFT | TAILOR_IN_RIGHT;
        struct tailor_in_box box;
        if (!find_along(g, &t, width, letters, prefer, where ? both ^ sides : sides, where, &box))
            continue;
        tailor_in_ground_take_box(g, box);
        write_in_box(d, box, text, letters);
        return 1;
    }
    return 0;
}

int tailor_in_label_near(struct tailor_in_drawing *d, struct tailor_in_ground *g, tailor_point at, const char *text,
                         double size, double reach)
{
    for (int i = 0; i < ATTEMPTS; i++) {
        const double letters = size * attempts[i].shrink;
        struct tailor_in_box box = {tailor_in_drawing_on_page(d, at),
                                    tailor_in_text_width(text, letters, 0) + letters / 2, letters, 0};
        if (!tailor_in_ground_near(g, &box, reach, attempts[i].outside))
            continue;
        tailor_in_ground_take_box(g, box);
        write_in_box(d, box, text, letters);
        return 1;
    }
    return 0;
}

enum { LINES = 5 };
/* Sizes of the lines at full scale; the first is bold. */
static const double line_size[LINES] = {14, 7.5, 7.5, 7.5, 5.5};
static const double TITLE_ROOM = 105; /* mm */

struct piece_label {
    char text[LINES][64];
};

/** Whose piece it is stands last: cut apart, the pieces of two clients must not be mixed up. */
static void say_piece(const tailor_pattern *pattern, int piece, const char *title, struct piece_label *label)
{
    const int cut = tailor_piece_cut(pattern, piece);
    tailor_in_words(tailor_piece_name(pattern, piece), "", label->text[0], sizeof label->text[0]);
    snprintf(label->text[1], sizeof label->text[1], "wearer's %s, face up",
             tailor_piece_side(pattern, piece) == TAILOR_SIDE_LEFT ? "left" : "right");
    snprintf(label->text[2], sizeof label->text[2], "cut %d%s", cut,
             tailor_piece_mirrored(pattern, piece) ? ", mirrored" : "");
    tailor_in_words(tailor_piece_cloth(pattern, piece), "", label->text[3], sizeof label->text[3]);
    tailor_in_text_fit(title ? title : "", line_size[4], 0, TITLE_ROOM, label->text[4], sizeof label->text[4]);
}

static struct tailor_in_box label_box(const struct piece_label *label, double scale)
{
    struct tailor_in_box box = {.width = 0};
    for (int i = 0; i < LINES; i++) {
        box.width = fmax(box.width, tailor_in_text_width(label->text[i], scale * line_size[i], i == 0));
        box.height += scale * line_size[i] * TAILOR_IN_LINE_HEIGHT;
    }
    return box;
}

/* What is tried for a piece's label: how large, and whether slanting. The last is taken whether it is free or not. */
static const struct {
    double scale;
    int slanting;
} piece_attempts[] = {{1, 0}, {0.85, 0}, {0.7, 0}, {1, 1}, {0.85, 1}, {0.7, 1}, {0.6, 0}, {0.6, 1}, {0.5, 0}, {0.4, 0}};

/** A free place for a box at one of a few angles within [low, high], as near to where it is as there is. */
static int find_slanting(struct tailor_in_ground *g, struct tailor_in_box *box, tailor_point low, tailor_point high)
{
    static const double angles[] = {-90, -75, -60, -45, 45, 60, 75};
    const tailor_point wish = box->middle;
    double nearest = INFINITY;
    for (int i = 0; i < 7; i++) {
        struct tailor_in_box there = *box;
        there.angle = angles[i];
        for (double y = low.y; y < high.y; y += g->cell) {
            for (double x = low.x; x < high.x; x += g->cell) {
                const double distance = (x - wish.x) * (x - wish.x) + (y - wish.y) * (y - wish.y);
                there.middle = (tailor_point){x, y};
                if (distance >= nearest || !tailor_in_ground_free_box(g, there, 0))
                    continue;
                nearest = distance;
                *box = there;
            }
        }
    }
    return isfinite(nearest);
}

void tailor_in_label_piece(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                           int piece, tailor_point low, tailor_point high)
{
    struct piece_label label;
    struct tailor_in_box box = {.width = 0};
    double scale = 1;
    say_piece(pattern, piece, tailor_in_drawing_string(d, d->title), &label);
    for (size_t i = 0; i < sizeof piece_attempts / sizeof *piece_attempts; i++) {
        scale = piece_attempts[i].scale;
        box = label_box(&label, scale);
        /* a little above the middle looks like the middle */
        box.middle = (tailor_point){(low.x + high.x) / 2, low.y + 0.45 * (high.y - low.y)};
        if (piece_attempts[i].slanting ? find_slanting(g, &box, low, high)
                                       : tailor_in_ground_roomiest(g, &box, low, high))
            break;
    }
    tailor_in_ground_take_box(g, box);
    const double turn = box.angle * acos(-1) / 180;
    double down = -box.height / 2;
    for (int i = 0; i < LINES; i++) {
        const double size = scale * line_size[i];
        down += size * TAILOR_IN_LINE_HEIGHT;
        const double base = down - 0.3 * size;
        tailor_in_drawing_text_on_page(d,
                                       (tailor_point){box.middle.x - base * sin(turn), box.middle.y + base * cos(turn)},
                                       (struct tailor_in_lettering){size, 0.5, box.angle, i == 0}, label.text[i]);
    }
}

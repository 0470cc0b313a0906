/* One lay of canvas as it lies on the table, at a scale: the strip with its selvedges, the pieces where they are to be
 * chalked, warp and pattern's grain mark on each, and a measure along the edge. */
#include "strip.h"
#include "ground.h"
#include "lettering.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/order.h>

/* On the page, mm. */
static const double scale = TAILOR_IN_STRIP_SCALE, arrow = 2.2, shy = 2.5, longest_warp = 36;
enum { LINES = 3, OUTLINE_MOST = 200 };

static struct tailor_in_lettering letters(double size, double anchor, int bold)
{
    return (struct tailor_in_lettering){size, anchor, 0, bold};
}

void tailor_in_cut_words(double length, int print, char words[48])
{
    const double step = print == TAILOR_PRINT_MM ? 1 : 25.4 / print;
    tailor_in_length_words(ceil(length / step) * step, print, words);
}

/** The stretch of a level line in an outline that holds a point, or else the widest. */
static int stretch_at(const tailor_cubic *outline, size_t count, tailor_point at, double *from, double *to)
{
    double places[16], best = -1;
    size_t found = 0;
    tailor_path_cross_line(outline, count, at, (tailor_point){at.x + 1, at.y}, places, 16, &found);
    double x[16];
    for (size_t i = 0; i < found && i < 16; i++) {
        size_t k = i;
        const double here = tailor_path_point(outline, count, places[i]).x;
        for (; k > 0 && x[k - 1] > here; k--)
            x[k] = x[k - 1];
        x[k] = here;
    }
    for (size_t i = 0; i + 1 < found && i < 15; i += 2) {
        const int holds = x[i] <= at.x && at.x <= x[i + 1];
        if (holds || x[i + 1] - x[i] > best) {
            *from = x[i];
            *to = x[i + 1];
            best = holds ? INFINITY : x[i + 1] - x[i];
        }
    }
    return best > 0;
}

/** The chord of a piece's grain mark. */
static int grain_of(const tailor_pattern *pattern, int piece, tailor_cubic *chord)
{
    for (int i = 0; i < tailor_piece_mark_count(pattern, piece); i++) {
        size_t count;
        const tailor_cubic *path = tailor_mark_path(pattern, piece, i, &count);
        if (tailor_mark_kind(pattern, piece, i) != TAILOR_MARK_GRAIN || !count)
            continue;
        *chord = tailor_cubic_line(path[0].p[0], path[count - 1].p[3]);
        return 1;
    }
    return 0;
}

/** Warp as an arrow both ways, the pattern's own mark as a broken line where that is another; both taken on the
 *  ground. */
static void draw_directions(struct tailor_in_drawing *d, struct tailor_in_ground *g, const double place[6],
                            const tailor_canvas *canvas, int straight, int number, const tailor_cubic *outline,
                            size_t count)
{
    int piece;
    double matrix[6], box[4], from = 0, to = 0;
    tailor_cubic mark;
    tailor_path_bounds(outline, count, box);
    tailor_point at = {(box[0] + box[2]) / 2, (box[1] + box[3]) / 2};
    tailor_canvas_place(canvas, straight, number, &piece, NULL, NULL, NULL);
    if (grain_of(tailor_canvas_pattern(canvas), piece, &mark)) {
        tailor_canvas_matrix(canvas, straight, number, matrix);
        tailor_path_affine(&mark, 1, matrix, &mark);
        const tailor_point middle = {(mark.p[0].x + mark.p[3].x) / 2, (mark.p[0].y + mark.p[3].y) / 2};
        const int inside = tailor_path_winding(outline, count, middle) != 0; /* it may lie on the other part */
        if (inside)
            at = middle;
        if (inside && fabs(mark.p[0].y - mark.p[3].y) > 0.01 * fabs(mark.p[0].x - mark.p[3].x)) {
            tailor_in_drawing_path(d, TAILOR_IN_TURNED, &mark, 1, 0);
            tailor_in_ground_take(g, place, &mark, 1, 4);
        }
    }
    if (!stretch_at(outline, count, at, &from, &to))
        return;
    const double middle = fmin(fmax(at.x, from), to), half = fmin(longest_warp / scale, 0.6 * (to - from)) / 2;
    const tailor_point a = {fmax(from + shy / scale, middle - half), at.y};
    const tailor_point b = {fmin(to - shy / scale, middle + half), at.y};
    if (!(a.x < b.x))
        return;
    const tailor_cubic line = tailor_cubic_line(a, b);
    tailor_in_drawing_path(d, TAILOR_IN_GRAIN, &line, 1, 0);
    tailor_in_drawing_arrow_head(d, a, b, arrow);
    tailor_in_drawing_arrow_head(d, b, a, arrow);
    tailor_in_ground_take(g, place, &line, 1, 6);
}

/** How the mark stands to the warp, from 0 to 90. */
static double between(double turn)
{
    const double rest = fmod(fabs(turn), 180);
    return rest > 90 ? 180 - rest : rest;
}

static void say_piece(const tailor_canvas *canvas, int straight, int number, char text[LINES][64])
{
    static const char *const sides[] = {"", "right", "left"};
    const tailor_pattern *pattern = tailor_canvas_pattern(canvas);
    int piece, side, part;
    double warp;
    char name[64];
    tailor_cubic mark;
    tailor_canvas_place(canvas, straight, number, &piece, &side, &part, &warp);
    tailor_in_words(tailor_piece_name(pattern, piece), "", name, sizeof name);
    const int single = !(tailor_canvas_choice(canvas, TAILOR_CANVAS_CHOICE_PLIES) > TAILOR_PLIES_SINGLE);
    char *end = strstr(name, sides[side]); /* "body canvas left" says its side twice */
    if (side != TAILOR_SIDE_BOTH && end && end > name && !end[strlen(sides[side])])
        end[-1] = 0;
    snprintf(text[0], 64, "%.48s%s", name, part == 1 ? ", part 1" : part ? ", part 2" : "");
    snprintf(text[1], 64, "%s", single ? sides[side] : side ? "right and left" : "two");
    text[2][0] = 0;
    if (grain_of(pattern, piece, &mark)) {
        const double lies = atan2(mark.p[3].y - mark.p[0].y, mark.p[3].x - mark.p[0].x) * 180 / acos(-1);
        char angle[32];
        tailor_in_number_write(angle, between(warp - lies), 1);
        snprintf(text[2], 64, "mark %s\xC2\xB0 to warp", angle);
    }
}

/** For parts too narrow for a block. */
static void in_one_line(char text[LINES][64])
{
    if (!text[1][0])
        return;
    const size_t used = strlen(text[0]);
    snprintf(text[0] + used, 64 - used, ", %s", text[1]);
    text[1][0] = 0;
}

/** Sizes of a label, and whether it is the whole of it or all in one line; each is tried level, then slanting. */
static const struct {
    double size;
    int in_one;
} attempts[] = {{3.4, 0}, {2.9, 0}, {2.4, 0}, {2.0, 0}, {2.4, 1}, {1.7, 0}, {2.0, 1}, {1.7, 1}};
enum { ATTEMPTS = sizeof attempts / sizeof *attempts };

/** The label in the roomiest place of its piece, smaller where it must. The ground lies in cloth: mm, y down. */
static void label_piece(struct tailor_in_drawing *d, struct tailor_in_ground *g, double width, const double box[4],
                        char text[LINES][64])
{
    const tailor_point low = {box[0], width - box[3]}, high = {box[2], width - box[1]};
    struct tailor_in_box room = {.width = 0};
    double size = 0;
    int lines = 0, found = 0;
    for (int i = 0; i < 2 * ATTEMPTS && !found; i++) {
        double wide = 0;
        size = attempts[i / 2].size;
        if (attempts[i / 2].in_one)
            in_one_line(text);
        for (lines = 0; lines < LINES && text[lines][0];)
            lines++;
        for (int k = 0; k < lines; k++)
            wide = fmax(wide, tailor_in_text_width(text[k], size * (k ? 0.85 : 1), !k));
        room = (struct tailor_in_box){{(low.x + high.x) / 2, (low.y + high.y) / 2}, (wide + 0.6) / scale,
                                      (lines - 1 + 0.75) * 1.3 * size / scale, 0};
        found = i % 2 ? tailor_in_ground_slanting(g, &room, low, high) : tailor_in_ground_roomiest(g, &room, low, high);
    }
    const double turn = room.angle * acos(-1) / 180;
    for (int k = 0; k < lines; k++) {
        const double down = (k - (lines - 1) / 2.0) * 1.3 * size + 0.35 * size;
        struct tailor_in_lettering how = letters(size * (k ? 0.85 : 1), 0.5, !k);
        const tailor_point m = tailor_in_drawing_on_page(d, (tailor_point){room.middle.x, width - room.middle.y});
        how.angle = room.angle;
        tailor_in_drawing_text_on_page(d, (tailor_point){m.x - sin(turn) * down, m.y + cos(turn) * down}, how, text[k]);
    }
}

static void draw_piece(struct tailor_in_drawing *d, const tailor_canvas *canvas, int straight, int number,
                       const char *name)
{
    const double width = tailor_canvas_strip_width(canvas), place[6] = {1, 0, 0, -1, 0, width};
    tailor_cubic outline[OUTLINE_MOST];
    struct tailor_in_ground g;
    size_t count = 0;
    char text[LINES][64], id[64];
    double box[4];
    if (tailor_canvas_outline(canvas, straight, number, outline, OUTLINE_MOST, &count) != TAILOR_OK)
        return;
    tailor_path_bounds(outline, count, box);
    say_piece(canvas, straight, number, text);
    snprintf(id, sizeof id, "%s-place-%d", name, number + 1);
    tailor_in_drawing_group(d, id, text[0]);
    tailor_in_drawing_path(d, TAILOR_IN_OUTLINE, outline, count, 1);
    if (tailor_in_ground_begin(&g, &d->allocator, box[2] + 10, width + 10)) {
        tailor_in_ground_inside(&g, place, outline, count);
        draw_directions(d, &g, place, canvas, straight, number, outline, count);
        label_piece(d, &g, width, box, text);
        tailor_in_ground_end(&g, &d->allocator);
    } else
        d->failed = 1;
    tailor_in_drawing_group_end(d);
}

/** Marks along the lower selvedge: every 50 mm, numbers every 100; every inch, numbers every 4. */
static void draw_measure(struct tailor_in_drawing *d, double length, int print)
{
    const double unit = print == TAILOR_PRINT_MM ? 50 : 25.4;
    const int numbered = print == TAILOR_PRINT_MM ? 2 : 4;
    for (int i = 0; i * unit <= length + 1e-6; i++) {
        const tailor_point on = tailor_in_drawing_on_page(d, (tailor_point){i * unit, 0});
        char text[48];
        const tailor_cubic tick = tailor_cubic_line((tailor_point){i * unit, 0},
                                                    (tailor_point){i * unit, -(i % numbered ? 1.0 : 2.0) / scale});
        tailor_in_drawing_path(d, TAILOR_IN_MARKED, &tick, 1, 0);
        if (i % numbered)
            continue;
        tailor_length_write(i * unit, print, text, sizeof text, NULL);
        tailor_in_drawing_text_on_page(d, (tailor_point){on.x, on.y + 5.2}, letters(2.6, 0.5, 0), text);
    }
}

void tailor_in_draw_strip(struct tailor_in_drawing *d, const tailor_canvas *canvas, int straight, tailor_point corner,
                          const char *name, int print)
{
    const tailor_lay *lay = tailor_canvas_lay(canvas, straight);
    const double width = tailor_canvas_strip_width(canvas), length = tailor_lay_length(lay), beyond = 12;
    const double right = corner.x + length * scale, low = corner.y + width * scale;
    const int folded = width < tailor_canvas_choice(canvas, TAILOR_CANVAS_CHOICE_WIDTH);
    char words[48], text[96];
    tailor_in_drawing_place(d, corner.x, low, scale, 1);
    tailor_in_drawing_line(d, folded ? TAILOR_IN_FOLD : TAILOR_IN_NOTCH, (tailor_point){-beyond / 2 / scale, 0},
                           (tailor_point){length + beyond / scale, 0});
    tailor_in_drawing_line(d, TAILOR_IN_NOTCH, (tailor_point){-beyond / 2 / scale, width},
                           (tailor_point){length + beyond / scale, width});
    tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){0, 0}, (tailor_point){0, width});
    tailor_in_drawing_line(d, TAILOR_IN_DART, (tailor_point){length, 0}, (tailor_point){length, width});
    const struct tailor_in_lettering upright = {2.6, 0.5, -90, 0};
    tailor_in_cut_words(length, print, words);
    snprintf(text, sizeof text, "cut off at %s", words);
    tailor_in_drawing_text_on_page(d, (tailor_point){right + 4, (corner.y + low) / 2}, upright, text);
    tailor_in_length_words(width, print, words);
    snprintf(text, sizeof text, "%s%s", folded ? "folded, " : "", words);
    tailor_in_drawing_text_on_page(d, (tailor_point){corner.x - 3, (corner.y + low) / 2}, upright, text);
    tailor_in_drawing_text_on_page(d, (tailor_point){right + beyond, corner.y - 1.2}, letters(2.4, 1, 0),
                                   folded ? "selvedges" : "selvedge");
    tailor_in_drawing_text_on_page(d, (tailor_point){right + beyond, low + 3.4}, letters(2.4, 1, 0),
                                   folded ? "fold" : "selvedge");
    draw_measure(d, length, print);
    for (int i = 0; i < tailor_lay_place_count(lay); i++)
        draw_piece(d, canvas, straight, i, name);
    tailor_in_drawing_place_page(d);
}

/* The canvas sheet: every strip one below the other, and the table of what they take. */
#include "../output/write.h"
#include "lettering.h"
#include "page.h"
#include "strip.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/order.h>

/* On the page, mm. */
static const double margin = 14, heading = 27, above = 10, below = 14, right_of = 20, least_width = 250, row = 6;
enum { LAYS_MOST = 20, COLUMNS = 8 };

struct shown {
    const tailor_canvas *canvas;
    int straight;
};

static struct tailor_in_lettering letters(double size, double anchor, int bold)
{
    return (struct tailor_in_lettering){size, anchor, 0, bold};
}

/** Each lay, and below it the straight one where that is another. */
static int list_lays(const tailor_canvas *const *canvases, size_t count, struct shown lays[LAYS_MOST])
{
    int n = 0;
    for (size_t i = 0; i < count; i++) {
        lays[n++] = (struct shown){canvases[i], 0};
        const tailor_lay *straight = tailor_canvas_lay(canvases[i], 1);
        if (straight && straight != tailor_canvas_lay(canvases[i], 0))
            lays[n++] = (struct shown){canvases[i], 1};
    }
    return n;
}

static int turned(struct shown s) { return tailor_canvas_lay(s.canvas, 1) != tailor_canvas_lay(s.canvas, 0); }

static void name_lay(struct shown s, int print, char text[192])
{
    static const char *const plies[] = {"", "single", "folded", "two lengths face to face"};
    char angle[32], cloth[64];
    tailor_in_words(tailor_canvas_cloth(s.canvas), "", cloth, sizeof cloth);
    tailor_in_number_write(angle, tailor_canvas_choice(s.canvas, TAILOR_CANVAS_CHOICE_ANGLE), 2);
    char lap[48], joins[64] = "";
    const double overlap = tailor_canvas_choice(s.canvas, TAILOR_CANVAS_CHOICE_OVERLAP);
    if (!s.straight && tailor_canvas_result(s.canvas, TAILOR_CANVAS_RESULT_JOINS) > 0) {
        tailor_in_length_words(overlap, print, lap);
        snprintf(joins, sizeof joins, ", joins lapped %.30s", lap);
    }
    const int alike = tailor_canvas_choice(s.canvas, TAILOR_CANVAS_CHOICE_SIDES) > TAILOR_SIDES_MIRRORED;
    snprintf(text, 192, "%.32s, %s%s%s%s%s%s", cloth,
             plies[(int)tailor_canvas_choice(s.canvas, TAILOR_CANVAS_CHOICE_PLIES)], alike ? ", both sides alike" : "",
             s.straight  ? ", body canvas straight, to compare"
             : turned(s) ? ", body canvas at "
                         : "",
             s.straight || !turned(s) ? "" : angle, s.straight || !turned(s) ? "" : "\xC2\xB0", joins);
}

static void write_row(struct tailor_in_drawing *d, double y, char cells[COLUMNS][64], int bold)
{
    static const double at[COLUMNS] = {0, 62, 80, 108, 130, 156, 196, 218}; /* right edges but for the first */
    for (int i = 0; i < COLUMNS; i++)
        tailor_in_drawing_text(d, (tailor_point){margin + at[i], y}, letters(3, i ? 1 : 0, bold), cells[i]);
}

static void tell_lay(struct shown s, int print, char cells[COLUMNS][64])
{
    const tailor_lay *lay = tailor_canvas_lay(s.canvas, s.straight);
    const double lengths = tailor_canvas_choice(s.canvas, TAILOR_CANVAS_CHOICE_PLIES) > TAILOR_PLIES_FOLDED ? 2 : 1;
    const double width = tailor_canvas_choice(s.canvas, TAILOR_CANVAS_CHOICE_WIDTH);
    const double length = lengths * tailor_lay_length(lay), used = tailor_lay_yield(lay);
    char number[32];
    tailor_in_words(tailor_canvas_cloth(s.canvas), "", cells[0], 64);
    tailor_in_length_words(width, print, cells[1]);
    tailor_in_number_write(number, s.straight ? 0 : tailor_canvas_choice(s.canvas, TAILOR_CANVAS_CHOICE_ANGLE), 2);
    snprintf(cells[2], 64, "%s%s", turned(s) || s.straight ? number : "-", turned(s) || s.straight ? "\xC2\xB0" : "");
    tailor_in_cut_words(length, print, cells[3]);
    tailor_in_number_write(number, 100 * used, 1);
    snprintf(cells[4], 64, "%s %%", number);
    tailor_in_number_write(number, (1 - used) * width * length * 1e-6, 3);
    snprintf(cells[5], 64, "%s m2", number);
    cells[6][0] = 0;
    const double extra = tailor_canvas_result(s.canvas, TAILOR_CANVAS_RESULT_EXTRA);
    if (!s.straight && turned(s) && isfinite(extra))
        tailor_in_length_words(print == TAILOR_PRINT_MM ? round(extra) : extra, print, cells[6]);
    else
        snprintf(cells[6], 64, "-");
    tailor_in_number_write(cells[7], s.straight ? 0 : tailor_canvas_result(s.canvas, TAILOR_CANVAS_RESULT_JOINS), 0);
    if (s.straight)
        snprintf(cells[7], 64, "-");
}

static void draw_table(struct tailor_in_drawing *d, const struct shown *lays, int count, double y, int print)
{
    static const char *const heads[COLUMNS] = {
        "cloth", "width", "angle", "cut off", "yield", "waste", "more than straight", "joins"};
    char cells[COLUMNS][64];
    tailor_in_drawing_group(d, "table", "what the lays take");
    for (int i = 0; i < COLUMNS; i++)
        snprintf(cells[i], 64, "%s", heads[i]);
    write_row(d, y, cells, 1);
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){margin, y + 1.8}, (tailor_point){margin + 218, y + 1.8});
    for (int i = 0; i < count; i++) {
        tell_lay(lays[i], print, cells);
        write_row(d, y + row * (i + 1), cells, 0);
    }
    tailor_in_drawing_group_end(d);
}

static void draw_head(struct tailor_in_drawing *d)
{
    char text[256];
    const double x = margin, y = margin + 5;
    tailor_in_drawing_group(d, "heading", "heading");
    tailor_in_drawing_title_fit(d, "Canvas layout", 6, 1, d->width - 2 * margin, text, sizeof text);
    tailor_in_drawing_text(d, (tailor_point){x, y}, letters(6, 0, 1), text);
    snprintf(text, sizeof text,
             "Layout of the canvas at 1 : 5, selvedges along the length. Edition %d, libtailorgeom %s.",
             tailor_edition(), tailor_version());
    tailor_in_drawing_text(d, (tailor_point){x, y + 7}, letters(3, 0, 0), text);
    const double k = y + 12;
    tailor_in_drawing_line(d, TAILOR_IN_GRAIN, (tailor_point){x, k}, (tailor_point){x + 14, k});
    tailor_in_drawing_arrow_head(d, (tailor_point){x, k}, (tailor_point){x + 14, k}, 2.2);
    tailor_in_drawing_arrow_head(d, (tailor_point){x + 14, k}, (tailor_point){x, k}, 2.2);
    tailor_in_drawing_text(d, (tailor_point){x + 17, k + 1}, letters(3, 0, 0), "warp");
    tailor_in_drawing_line(d, TAILOR_IN_TURNED, (tailor_point){x + 36, k}, (tailor_point){x + 50, k});
    tailor_in_drawing_text(d, (tailor_point){x + 53, k + 1}, letters(3, 0, 0),
                           "grain mark of the pattern; on haircloth the lie of the hair, which is the weft");
    tailor_in_drawing_group_end(d);
}

static void compose(struct tailor_in_drawing *d, const struct shown *lays, int count, int print)
{
    double y = margin + heading;
    d->line_scale = 0.5;
    d->width = least_width;
    for (int i = 0; i < count; i++) {
        const double length = tailor_lay_length(tailor_canvas_lay(lays[i].canvas, lays[i].straight));
        d->width = fmax(d->width, ceil(2 * margin + 6 + length * TAILOR_IN_STRIP_SCALE + right_of));
    }
    for (int i = 0; i < count; i++) {
        char text[192], id[24];
        name_lay(lays[i], print, text);
        snprintf(id, sizeof id, "lay-%d", i + 1);
        tailor_in_drawing_group(d, id, text);
        tailor_in_drawing_text(d, (tailor_point){margin, y + 3}, letters(4, 0, 1), text);
        tailor_in_draw_strip(d, lays[i].canvas, lays[i].straight, (tailor_point){margin + 6, y + above}, id, print);
        tailor_in_drawing_group_end(d);
        y += above + tailor_canvas_strip_width(lays[i].canvas) * TAILOR_IN_STRIP_SCALE + below;
    }
    draw_table(d, lays, count, y + 2, print);
    d->height = ceil(y + row * count + margin);
    draw_head(d);
}

tailor_status tailor_sheet_draw_canvas(const tailor_canvas *const *canvases, size_t count, const tailor_page *page,
                                       tailor_writer write, void *user, tailor_fault *fault)
{
    struct shown lays[LAYS_MOST];
    struct tailor_in_drawing drawing;
    const tailor_status status = tailor_in_page_ask(page, 0, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (!canvases || count < 1 || count > LAYS_MOST / 2)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)count, 1, LAYS_MOST / 2,
                                     "a canvas sheet shows 1 to 10 lays");
    int toile_only = 0;
    for (size_t i = 0; i < count; i++) {
        if (!canvases[i])
            return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)i, NAN, NAN, "one of the lays is missing");
        toile_only |= tailor_pattern_toile_only(tailor_canvas_pattern(canvases[i]));
    }
    tailor_in_page_begin(page, "", toile_only, &drawing);
    compose(&drawing, lays, list_lays(canvases, count, lays), tailor_in_page_choice(page, TAILOR_PAGE_UNITS));
    return tailor_in_page_end(page, &drawing, write, user, fault);
}

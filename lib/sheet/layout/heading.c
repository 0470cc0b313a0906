#include "heading.h"

#include "cautions.h"
#include "lettering.h"

#include <stdio.h>
#include <tailorgeom/order.h>

static const double square = 100, sample = 36, column = 150, row = 20, without_cautions = 112, caution_size = 10;

static void draw_square(struct tailor_in_drawing *d, tailor_point corner)
{
    static const struct {
        const char *text;
        double size, down;
        int bold;
    } lines[] = {{"test square", 8, 32, 0}, {"100 mm", 15, 57, 1}, {"3 15/16 in", 8, 74, 0}};
    tailor_in_drawing_group(d, "test-square", "test square: 100 mm each way");
    tailor_in_drawing_box(d, TAILOR_IN_MARKED, corner, (tailor_point){corner.x + square, corner.y + square});
    for (int i = 0; i < 3; i++)
        tailor_in_drawing_text(d, (tailor_point){corner.x + square / 2, corner.y + lines[i].down},
                               (struct tailor_in_lettering){lines[i].size, 0.5, 0, lines[i].bold}, lines[i].text);
    tailor_in_drawing_group_end(d);
}

static void draw_legend(struct tailor_in_drawing *d, tailor_point corner)
{
    static const struct {
        int style;
        const char *text;
    } entries[] = {
        {TAILOR_IN_OUTLINE, "net edge"},
        {TAILOR_IN_MARKED, "pocket, welt"},
        {TAILOR_IN_FOLD, "break line, crease"},
        {TAILOR_IN_DART, "dart"},
        {TAILOR_IN_LEVEL, "level, centre front"},
        {TAILOR_IN_TURNED, "lapel as turned"},
        {TAILOR_IN_GRAIN, "grain, upright"},
        {TAILOR_IN_NOTCH, "notch"},
        {TAILOR_IN_BUTTON, "button"},
        {TAILOR_IN_HOLE, "buttonhole, upper front"},
    };
    tailor_in_drawing_group(d, "legend", "legend");
    for (int i = 0; i < 10; i++) {
        const tailor_point a = {corner.x + (i / 5) * column, corner.y + 10 + (i % 5) * row}, b = {a.x + sample, a.y};
        const tailor_point middle = {(a.x + b.x) / 2, a.y};
        switch (entries[i].style) {
        case TAILOR_IN_GRAIN:
            tailor_in_drawing_line(d, TAILOR_IN_GRAIN, a, b);
            tailor_in_drawing_arrow_head(d, b, a, 12);
            tailor_in_drawing_arrow_head(d, a, b, 12);
            break;
        case TAILOR_IN_NOTCH:
            tailor_in_drawing_line(d, TAILOR_IN_OUTLINE, a, b);
            tailor_in_drawing_line(d, TAILOR_IN_NOTCH, middle, (tailor_point){middle.x, middle.y - 6});
            break;
        case TAILOR_IN_BUTTON: tailor_in_drawing_circle(d, TAILOR_IN_BUTTON, middle, 8); break;
        case TAILOR_IN_HOLE:
            tailor_in_drawing_line(d, TAILOR_IN_HOLE, (tailor_point){middle.x - 11, a.y},
                                   (tailor_point){middle.x + 11, a.y});
            break;
        default: tailor_in_drawing_line(d, entries[i].style, a, b); break;
        }
        tailor_in_drawing_text(d, (tailor_point){b.x + 8, b.y + 2.7}, (struct tailor_in_lettering){8, 0, 0, 0},
                               entries[i].text);
    }
    tailor_in_drawing_group_end(d);
}

static const char *unit_words(int print)
{
    return print == TAILOR_PRINT_MM        ? "Lengths in millimetres."
           : print == TAILOR_PRINT_INCH_16 ? "Lengths in inches, to the sixteenth."
                                           : "Lengths in inches, to the eighth.";
}

double tailor_in_heading_height(const struct tailor_in_drawing *d)
{
    return without_cautions + tailor_in_cautions_height(d, caution_size);
}

void tailor_in_draw_heading(struct tailor_in_drawing *d, tailor_point corner, double width, int print)
{
    const double legend = corner.x + width - square - 40 - 2 * column, room = legend - 30 - corner.x;
    char text[256], last[96];
    snprintf(last, sizeof last, "Edition %d of the drafting rules, libtailorgeom %s.", tailor_edition(),
             tailor_version());
    const char *lines[] = {"Net pattern: no seam allowance, no inlays. Turn-ups and vents: thin, beyond the net edge.",
                           unit_words(print),
                           "Before cutting, measure the test square: 100 mm each way.", last};
    tailor_in_drawing_group(d, "heading", "heading");
    tailor_in_drawing_title_fit(d, TAILOR_IN_PATTERN_TITLE, 22, 1, room, text, sizeof text);
    tailor_in_drawing_text(d, (tailor_point){corner.x, corner.y + 22}, (struct tailor_in_lettering){22, 0, 0, 1}, text);
    for (int i = 0; i < 4; i++)
        tailor_in_drawing_text(d, (tailor_point){corner.x, corner.y + 49 + 16 * i},
                               (struct tailor_in_lettering){10, 0, 0, i == 2}, lines[i]);
    tailor_in_drawing_group_end(d);
    draw_legend(d, (tailor_point){legend, corner.y});
    draw_square(d, (tailor_point){corner.x + width - square, corner.y});
    tailor_in_draw_cautions(d, (tailor_point){corner.x, corner.y + without_cautions}, caution_size, width);
}

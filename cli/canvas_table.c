/* What the canvas takes, as a table and as JSON. */
#include "canvas.h"
#include "cautions.h"
#include "complain.h"
#include "json_out.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const char *const plies[] = {"", "single", "folded", "layers"}, *const sides[] = {"", "mirrored", "alike"};
static const char *const side_names[] = {"both", "right", "left"};

static const struct {
    const char *name;
    int result;
} results[] = {
    {"length", TAILOR_CANVAS_RESULT_LENGTH},
    {"cloth_length", TAILOR_CANVAS_RESULT_CLOTH_LENGTH},
    {"yield", TAILOR_CANVAS_RESULT_YIELD},
    {"waste", TAILOR_CANVAS_RESULT_WASTE},
    {"straight_length", TAILOR_CANVAS_RESULT_STRAIGHT_LENGTH},
    {"straight_yield", TAILOR_CANVAS_RESULT_STRAIGHT_YIELD},
    {"extra", TAILOR_CANVAS_RESULT_EXTRA},
    {"joins", TAILOR_CANVAS_RESULT_JOINS},
    {"bound", TAILOR_CANVAS_RESULT_BOUND},
};
enum { RESULTS = sizeof results / sizeof results[0] };

static void length_cell(double mm, int print, char text[VALUE_TEXT])
{
    if (isnan(mm))
        snprintf(text, VALUE_TEXT, "-");
    else
        length_text(mm, print, text);
}

int strips_print(const strips *all, const char *title)
{
    const int print = all->s->print;
    if (title[0])
        printf("%s\n", title);
    printf("%-10s %9s %6s %9s %7s %9s %9s %9s %5s\n", "cloth", "width", "angle", "cut off", "yield", "waste",
           "straight", "extra", "joins");
    for (size_t i = 0; i < all->count; i++) {
        const tailor_canvas *c = all->strip[i];
        char width[VALUE_TEXT], length[VALUE_TEXT], straight[VALUE_TEXT], extra[VALUE_TEXT], angle[VALUE_TEXT] = "-";
        length_text(tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_WIDTH), print, width);
        const double step = print == TAILOR_PRINT_MM ? 0.1 : 25.4 / print; /* what is cut off is never too short */
        length_text(ceil(tailor_canvas_result(c, TAILOR_CANVAS_RESULT_CLOTH_LENGTH) / step) * step, print, length);
        length_cell(tailor_canvas_result(c, TAILOR_CANVAS_RESULT_STRAIGHT_LENGTH), print, straight);
        length_cell(tailor_canvas_result(c, TAILOR_CANVAS_RESULT_EXTRA), print, extra);
        if (i == 0) /* the haircloth has no angle: its hair lies level */
            tailor_number_write(tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_ANGLE), angle, sizeof angle, NULL);
        printf("%-10s %9s %6s %9s %6.1f%% %6.3f m2 %9s %9s %5.0f\n", tailor_canvas_cloth(c), width, angle, length,
               100 * tailor_canvas_result(c, TAILOR_CANVAS_RESULT_YIELD),
               1e-6 * tailor_canvas_result(c, TAILOR_CANVAS_RESULT_WASTE), straight, extra,
               tailor_canvas_result(c, TAILOR_CANVAS_RESULT_JOINS));
    }
    printf("lengths in %s; %s, %s; the best found in %lld iterations\n", print == TAILOR_PRINT_MM ? "mm" : "in",
           plies[(int)tailor_canvas_choice(all->strip[0], TAILOR_CANVAS_CHOICE_PLIES)],
           tailor_canvas_choice(all->strip[0], TAILOR_CANVAS_CHOICE_SIDES) > TAILOR_SIDES_MIRRORED ? "both sides alike"
                                                                                                   : "mirrored pairs",
           (long long)all->iterations);
    cautions_print_one(all->order.coat, false, "");
    return EXIT_DONE;
}

/* ---- JSON */

static json_t *outline_array(const tailor_canvas *c, int straight, int place)
{
    size_t count = 0;
    tailor_canvas_outline(c, straight, place, NULL, 0, &count);
    tailor_cubic *outline = malloc((count + 1) * sizeof *outline);
    json_t *array = NULL;
    if (outline && tailor_canvas_outline(c, straight, place, outline, count, &count) == TAILOR_OK)
        array = json_path(outline, count);
    free(outline);
    return array;
}

static json_t *place_object(const tailor_canvas *c, int straight, int place)
{
    int piece = 0, side = 0, part = 0;
    double warp = NAN, matrix[6];
    json_t *object = json_object(), *map = json_array();
    tailor_canvas_place(c, straight, place, &piece, &side, &part, &warp);
    tailor_canvas_matrix(c, straight, place, matrix);
    bool good = object && map;
    for (int i = 0; good && i < 6; i++)
        good = json_add(map, json_number(matrix[i]));
    good = json_put(object, "piece", json_string(tailor_piece_name(tailor_canvas_pattern(c), piece))) && good;
    good = good && json_put(object, "side", json_string(side_names[side])) &&
           json_put(object, "part", part ? json_integer(part) : json_null()) &&
           json_put(object, "warp", json_number(warp));
    good = json_put(object, "matrix", json_whole(map, good)) && good;
    good = good && json_put(object, "outline", outline_array(c, straight, place));
    return json_whole(object, good);
}

static json_t *places_array(const tailor_canvas *c, int straight)
{
    const tailor_lay *lay = tailor_canvas_lay(c, straight);
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0, n = tailor_lay_place_count(lay); good && i < n; i++)
        good = json_add(array, place_object(c, straight, i));
    return json_whole(array, good);
}

static json_t *strip_object(const tailor_canvas *c)
{
    json_t *object = json_object();
    bool good =
        object && json_put(object, "cloth", json_string(tailor_canvas_cloth(c))) &&
        json_put(object, "angle", json_number(tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_ANGLE))) &&
        json_put(object, "width", json_number(tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_WIDTH))) &&
        json_put(object, "strip_width", json_number(tailor_canvas_strip_width(c))) &&
        json_put(object, "plies", json_string(plies[(int)tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_PLIES)])) &&
        json_put(object, "sides", json_string(sides[(int)tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_SIDES)])) &&
        json_put(object, "gap", json_number(tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_GAP))) &&
        json_put(object, "overlap", json_number(tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_OVERLAP)));
    for (int i = 0; good && i < RESULTS; i++)
        good = json_put(object, results[i].name, json_number(tailor_canvas_result(c, results[i].result)));
    good = good && json_put(object, "places", places_array(c, 0)) &&
           json_put(object, "straight_places", places_array(c, 1));
    return json_whole(object, good);
}

int strips_print_json(const strips *all)
{
    json_t *document = json_document("canvas"), *lays = json_array();
    bool good = document && lays && json_put(document, "iterations", json_integer((json_int_t)all->iterations)) &&
                json_put(document, "cautions", json_cautions(&all->order));
    for (size_t i = 0; good && i < all->count; i++)
        good = json_add(lays, strip_object(all->strip[i]));
    good = json_put(document, "lays", json_whole(lays, good)) && good;
    return json_print(json_whole(document, good));
}

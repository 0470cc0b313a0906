/* The pattern sheet: every piece at true size. */
#include "../output/write.h"
#include "compose.h"
#include "heading.h"
#include "lettering.h"
#include "marks.h"
#include "shelves.h"

#include <math.h>
#include <stdio.h>
#include <tailorgeom/order.h>

static const double margin = 30, below_heading = 45; /* mm */

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

static void draw_piece(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                       int piece, tailor_point low, tailor_point high, int print)
{
    static const char *const sides[] = {"", "-right", "-left"};
    const char *name = tailor_piece_name(pattern, piece);
    const int side = tailor_piece_side(pattern, piece);
    char words[64], id[64];
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(pattern, piece, &count);
    tailor_in_words(name, "", words, sizeof words);
    snprintf(id, sizeof id, "%s%s", name, side == TAILOR_SIDE_RIGHT || side == TAILOR_SIDE_LEFT ? sides[side] : "");

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

/** Tell the ground of all pieces before anything takes some of it. */
static void lay_pieces(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                       const struct tailor_in_shelf_place *places, double top)
{
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++) {
        size_t count;
        const tailor_cubic *outline = tailor_piece_outline(pattern, i, &count);
        tailor_in_drawing_place_turned(d, margin + places[i].x, top + places[i].y, places[i].angle);
        tailor_in_ground_inside(g, d->place, outline, count);
    }
}

static void compose(struct tailor_in_drawing *d, const tailor_pattern *pattern, struct tailor_in_shelf_place *places,
                    const char *title, int print)
{
    const double top = margin + TAILOR_IN_HEADING_HEIGHT + below_heading;
    double width, height;
    struct tailor_in_ground ground;
    tailor_in_shelves(pattern, places, &width, &height);
    const double across = fmax(width, TAILOR_IN_HEADING_WIDTH);
    d->width = ceil(across + 2 * margin);
    d->height = ceil(top + height + margin);
    tailor_in_draw_heading(d, (tailor_point){margin, margin}, d->width - 2 * margin, title, print);
    if (!tailor_in_ground_begin(&ground, &d->allocator, d->width, d->height)) {
        d->failed = 1;
        return;
    }
    const double aside = (across - width) / 2; /* a narrow pattern stands in the middle */
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++)
        places[i].x += aside;
    lay_pieces(d, &ground, pattern, places, top);
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++) {
        const double x = margin + places[i].x, y = top + places[i].y, *bounds = places[i].bounds;
        const tailor_point low = {x + bounds[0], y - bounds[3]}, high = {x + bounds[2], y - bounds[1]};
        tailor_in_drawing_place_turned(d, x, y, places[i].angle);
        draw_piece(d, &ground, pattern, i, low, high, print);
    }
    tailor_in_ground_end(&ground, &d->allocator);
}

void tailor_in_compose_pattern(struct tailor_in_drawing *d, const tailor_pattern *pattern, const char *title, int print)
{
    const size_t pieces = (size_t)tailor_pattern_piece_count(pattern);
    struct tailor_in_shelf_place *places = d->allocator.allocate(d->allocator.user, (pieces + 1) * sizeof *places);
    if (!places) {
        d->failed = 1;
        return;
    }
    compose(d, pattern, places, title, print);
    d->allocator.release(d->allocator.user, places);
}

tailor_status tailor_sheet_draw_pattern(const tailor_pattern *pattern, const char *title, int print, int format,
                                        tailor_sheet_writer write, void *user, tailor_fault *fault)
{
    tailor_status status = tailor_in_sheet_ask(format, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (!pattern)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, NAN, NAN, NAN, "there is no pattern to draw");
    if (print != TAILOR_PRINT_MM && print != TAILOR_PRINT_INCH_8 && print != TAILOR_PRINT_INCH_16)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, print, NAN, NAN,
                                     "lengths are written in mm, or in inches to the eighth or sixteenth");
    struct tailor_in_drawing drawing;
    tailor_in_drawing_begin(&drawing, title, NULL);
    tailor_in_compose_pattern(&drawing, pattern, title, print);
    status = tailor_in_drawing_write(&drawing, format, write, user, fault);
    tailor_in_drawing_end(&drawing);
    return status;
}

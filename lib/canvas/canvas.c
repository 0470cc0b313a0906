/* What is asked of a canvas lay. */
#include <math.h>
#include <string.h>
#include "strip.h"

int tailor_in_canvas_is_cut(const tailor_pattern *pattern, int piece, const char *cloth)
{
    const char *own = tailor_piece_cloth(pattern, piece);
    size_t count = 0;
    return own && strcmp(own, cloth) == 0 && tailor_piece_copies(pattern, piece) > 0 &&
           tailor_piece_outline(pattern, piece, &count) && count > 0;
}

int tailor_in_canvas_doubled(const tailor_canvas *c)
{
    return c->choices[TAILOR_CANVAS_CHOICE_PLIES] > TAILOR_PLIES_SINGLE;
}

void tailor_canvas_free(tailor_canvas *canvas)
{
    if (!canvas)
        return;
    const tailor_allocator allocator = canvas->allocator;
    tailor_lay_free(canvas->lays[0].lay);
    tailor_lay_free(canvas->lays[1].lay);
    allocator.release(allocator.user, canvas);
}

tailor_status tailor_canvas_step(tailor_canvas *canvas, int64_t iterations)
{
    if (!canvas)
        return TAILOR_BAD_ARGUMENT;
    tailor_status status = tailor_lay_step(canvas->lays[0].lay, iterations);
    if (status == TAILOR_OK && canvas->lays[1].lay)
        status = tailor_lay_step(canvas->lays[1].lay, iterations);
    return status;
}

const tailor_pattern *tailor_canvas_pattern(const tailor_canvas *canvas) { return canvas ? canvas->pattern : NULL; }
const char *tailor_canvas_cloth(const tailor_canvas *canvas) { return canvas ? canvas->cloth : NULL; }

double tailor_canvas_choice(const tailor_canvas *canvas, int choice)
{
    return canvas && choice > 0 && choice < TAILOR_CANVAS_CHOICE_COUNT ? canvas->choices[choice] : NAN;
}

double tailor_canvas_strip_width(const tailor_canvas *canvas)
{
    if (!canvas)
        return NAN;
    const int folded = canvas->choices[TAILOR_CANVAS_CHOICE_PLIES] > TAILOR_PLIES_SINGLE &&
                       canvas->choices[TAILOR_CANVAS_CHOICE_PLIES] < TAILOR_PLIES_LAYERS;
    return canvas->choices[TAILOR_CANVAS_CHOICE_WIDTH] / (folded ? 2 : 1);
}

static const tailor_in_canvas_lay *lay_of(const tailor_canvas *canvas, int straight)
{
    return canvas ? &canvas->lays[straight && !canvas->one] : NULL;
}

const tailor_lay *tailor_canvas_lay(const tailor_canvas *canvas, int straight)
{
    const tailor_in_canvas_lay *l = lay_of(canvas, straight);
    return l ? l->lay : NULL;
}

/** The shape at a place, NULL for no such place. */
static const tailor_in_canvas_shape *shape_at(const tailor_canvas *canvas, int straight, int place, int *mirrored)
{
    const tailor_in_canvas_lay *l = lay_of(canvas, straight);
    int shape;
    return l && tailor_lay_place(l->lay, place, &shape, mirrored, NULL, NULL) == TAILOR_OK ? &l->shapes[shape] : NULL;
}

tailor_status tailor_canvas_place(const tailor_canvas *canvas, int straight, int place, int *piece, int *side,
                                  int *part, double *warp)
{
    int mirrored;
    const tailor_in_canvas_shape *s = shape_at(canvas, straight, place, &mirrored);
    if (!s)
        return TAILOR_BAD_ARGUMENT;
    if (piece)
        *piece = s->piece;
    if (side)
        *side = mirrored && s->side != TAILOR_SIDE_BOTH ? TAILOR_SIDE_RIGHT + TAILOR_SIDE_LEFT - s->side : s->side;
    if (part)
        *part = s->part;
    if (warp)
        *warp = s->reflected ? 180 - s->warp : s->warp;
    return TAILOR_OK;
}

tailor_status tailor_canvas_outline(const tailor_canvas *canvas, int straight, int place, tailor_cubic *outline,
                                    size_t capacity, size_t *needed)
{
    int mirrored;
    double matrix[6];
    const tailor_in_canvas_shape *s = shape_at(canvas, straight, place, &mirrored);
    if (!s || !needed || (!outline && capacity) ||
        tailor_lay_matrix(tailor_canvas_lay(canvas, straight), place, matrix) != TAILOR_OK)
        return TAILOR_BAD_ARGUMENT;
    *needed = s->count;
    if (!outline)
        return TAILOR_OK;
    if (capacity < s->count)
        return TAILOR_TOO_SMALL;
    tailor_path_affine(s->outline, s->count, matrix, outline);
    if (mirrored)
        tailor_path_reverse(outline, s->count, outline);
    return TAILOR_OK;
}

tailor_status tailor_canvas_matrix(const tailor_canvas *canvas, int straight, int place, double matrix[6])
{
    const tailor_in_canvas_shape *s = shape_at(canvas, straight, place, NULL);
    if (!s || !matrix || tailor_lay_matrix(tailor_canvas_lay(canvas, straight), place, matrix) != TAILOR_OK)
        return TAILOR_BAD_ARGUMENT;
    if (s->reflected) {
        matrix[0] = -matrix[0];
        matrix[1] = -matrix[1];
    }
    return TAILOR_OK;
}

double tailor_canvas_result(const tailor_canvas *canvas, int result)
{
    const tailor_lay *lay = tailor_canvas_lay(canvas, 0), *straight = tailor_canvas_lay(canvas, 1);
    if (!lay)
        return NAN;
    const int plies = tailor_in_canvas_doubled(canvas) ? 2 : 1;
    const int lengths = canvas->choices[TAILOR_CANVAS_CHOICE_PLIES] > TAILOR_PLIES_FOLDED ? 2 : 1;
    const double length = tailor_lay_length(lay), width = tailor_canvas_strip_width(canvas);
    switch (result) {
    case TAILOR_CANVAS_RESULT_LENGTH:
        return length;
    case TAILOR_CANVAS_RESULT_CLOTH_LENGTH:
        return lengths * length;
    case TAILOR_CANVAS_RESULT_YIELD:
        return tailor_lay_yield(lay);
    case TAILOR_CANVAS_RESULT_WASTE:
        return plies * (length * width - tailor_lay_area(lay));
    case TAILOR_CANVAS_RESULT_STRAIGHT_LENGTH:
        return lengths * tailor_lay_length(straight);
    case TAILOR_CANVAS_RESULT_STRAIGHT_YIELD:
        return tailor_lay_yield(straight);
    case TAILOR_CANVAS_RESULT_EXTRA:
        return lengths * (length - tailor_lay_length(straight));
    case TAILOR_CANVAS_RESULT_JOINS:
        return canvas->lays[0].joins;
    case TAILOR_CANVAS_RESULT_BOUND:
        return tailor_lay_length_bound(lay);
    default:
        return NAN;
    }
}

#include "bits.h"

#include <math.h>

struct tailor_in_shape tailor_in_shape_along(double c, double s, double width, double height)
{
    static const double hardly = 1e-6;
    const double a[2] = {c, -s}, b[2] = {s, c}, half[2] = {width / 2, height / 2};
    struct tailor_in_shape shape = {.top = -(half[0] * fabs(s) + half[1] * fabs(c)),
                                    .reach = half[0] * fabs(c) + half[1] * fabs(s)};
    for (int i = 0; i < 2; i++) { /* |a x + b y| <= half */
        const int level = fabs(a[i]) < hardly;
        shape.left[i] = level ? -INFINITY : -half[i] / fabs(a[i]);
        shape.slope[i] = level ? 0 : -b[i] / a[i];
    }
    shape.corner = (c < 0 ? half[0] : -half[0]) * s + (s < 0 ? -half[1] : half[1]) * c;
    return shape;
}

struct tailor_in_shape tailor_in_shape_of(struct tailor_in_box box)
{
    const double turn = box.angle * acos(-1) / 180;
    return box.angle < 0 || box.angle > 0 ? tailor_in_shape_along(cos(turn), sin(turn), box.width, box.height)
                                          : tailor_in_shape_along(1, 0, box.width, box.height);
}

static int stretch_is_free(const struct tailor_in_ground *g, int row, int left, int right, int where)
{
    const size_t begin = (size_t)row * (size_t)g->words;
    if (left < 0)
        return 0;
    const int first = left / 64, last = right / 64;
    for (int word = first; word <= last; word++)
        if (tailor_in_bar(g, begin + (size_t)word, where) &
            tailor_in_bits(word == first ? left % 64 : 0, word == last ? right % 64 : 63))
            return 0;
    return 1;
}

int tailor_in_shape_is_free(const struct tailor_in_ground *g, const struct tailor_in_shape *s, tailor_point at,
                            int where)
{
    const double width = g->columns * g->cell, height = g->rows * g->cell;
    if (!(at.x - s->reach >= 0 && at.x + s->reach < width && at.y + s->top >= 0 && at.y - s->top < height))
        return 0;
    const int first = tailor_in_cell_of(g, at.y + s->top), last = tailor_in_cell_of(g, at.y - s->top);
    for (int i = -1; i <= last - first; i++) { /* most places fail in their middle, then at their ends */
        const int row = i < 0 ? (first + last) / 2 : i % 2 ? last - i / 2 : first + i / 2;
        double left, right;
        tailor_in_shape_row(s, row * g->cell - at.y, g->cell, &left, &right);
        if (!stretch_is_free(g, row, tailor_in_cell_of(g, at.x + left), tailor_in_cell_of(g, at.x + right), where))
            return 0;
    }
    return 1;
}

int tailor_in_ground_free_box(const struct tailor_in_ground *g, struct tailor_in_box box, int where)
{
    const struct tailor_in_shape s = tailor_in_shape_of(box);
    return tailor_in_shape_is_free(g, &s, box.middle, where);
}

#include "bits.h"

#include <math.h>

struct tailor_in_shape tailor_in_shape_of(struct tailor_in_box box)
{
    static const double hardly = 1e-6;
    const double turn = box.angle * acos(-1) / 180;
    const double c = box.angle < 0 || box.angle > 0 ? cos(turn) : 1, s = box.angle < 0 || box.angle > 0 ? sin(turn) : 0;
    const double a[2] = {c, -s}, b[2] = {s, c}, half[2] = {box.width / 2, box.height / 2};
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

static double within(double value, double low, double high) { return value < low ? low : value > high ? high : value; }

/** How far a box reaches to the left at a height. Its right side is the left one, turned by half a turn. */
static double left_at(const struct tailor_in_shape *s, double y)
{
    const double first = s->left[0] + s->slope[0] * y, second = s->left[1] + s->slope[1] * y;
    return first > second ? first : second;
}

void tailor_in_shape_row(const struct tailor_in_shape *s, double y, double cell, double *left, double *right)
{
    const double from = within(y, s->top, -s->top), to = within(y + cell, s->top, -s->top);
    *left = left_at(s, within(s->corner, from, to));
    *right = -left_at(s, within(s->corner, -to, -from));
}

static int stretch_is_free(const struct tailor_in_ground *g, int row, int left, int right, int where)
{
    const size_t begin = (size_t)row * (size_t)g->words;
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
    const int middle = (first + last) / 2; /* its ends are looked at last: most places fail in their middle */
    for (int i = 0; i <= last - first; i++) {
        const int row = middle + (i % 2 ? (i + 1) / 2 : -i / 2);
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

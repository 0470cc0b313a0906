/* Rows of the ground, and boxes as stretches of them. */
#ifndef TAILOR_IN_SHEET_BITS_H
#define TAILOR_IN_SHEET_BITS_H

#include "ground.h"

/** Number of the cell that a coordinate lies in; may lie off the sheet, but no further than an int can hold. */
static inline int tailor_in_cell_of(const struct tailor_in_ground *g, double at)
{
    const double cell = at * g->per_mm;
    const int n = cell > 1e8 ? 100000000 : cell > -1e8 ? (int)cell : -100000000;
    return n - (n > cell);
}

/** Bits `from` to `to` of a word, 0 to 63. */
static inline uint64_t tailor_in_bits(int from, int to) { return ~(uint64_t)0 << from & ~(uint64_t)0 >> (63 - to); }

/** The cells of a word that are not free on a side. */
static inline uint64_t tailor_in_bar(const struct tailor_in_ground *g, size_t word, int where)
{
    return g->taken[word] | (where == TAILOR_IN_OUTSIDE ? g->inside[word] : ~g->inside[word]);
}

/** A box seen from its middle: between `top` and -top, each row reaches from the larger of two lines to the smaller of
 *  two others, by symmetry their mirror images; the first two meet at the height `corner`. */
struct tailor_in_shape {
    double top, corner, left[2], slope[2]; /* left[i] + slope[i] * y; top < 0 */
    double reach;                          /* to its leftmost corner */
};

struct tailor_in_shape tailor_in_shape_of(struct tailor_in_box box);
/** The same for a box whose width runs in a direction of length 1, or in the opposite one. */
struct tailor_in_shape tailor_in_shape_along(double x, double y, double width, double height);

static inline double tailor_in_within(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

/** How far a box reaches to the left at a height, as a coordinate. Its right side is this, turned by half a turn. */
static inline double tailor_in_shape_left(const struct tailor_in_shape *s, double y)
{
    const double first = s->left[0] + s->slope[0] * y, second = s->left[1] + s->slope[1] * y;
    return first > second ? first : second;
}

/** From where to where a box reaches between the heights y and y + cell, seen from its middle. */
static inline void tailor_in_shape_row(const struct tailor_in_shape *s, double y, double cell, double *left,
                                       double *right)
{
    const double from = tailor_in_within(y, s->top, -s->top), to = tailor_in_within(y + cell, s->top, -s->top);
    *left = tailor_in_shape_left(s, tailor_in_within(s->corner, from, to));
    *right = -tailor_in_shape_left(s, tailor_in_within(s->corner, -to, -from));
}

/** Whether every cell that it touches is free on that side, with its middle there. */
int tailor_in_shape_is_free(const struct tailor_in_ground *g, const struct tailor_in_shape *s, tailor_point at,
                            int where);

#endif

#include "bits.h"
#include "trail.h"

#include <math.h>
#include <string.h>

/* Fine enough for the smallest lettering, coarse enough to hold a whole sheet in a processor's nearest memory. */
static const double cell_mm = 2.5;

int tailor_in_ground_begin(struct tailor_in_ground *g, const tailor_allocator *allocator, double width, double height)
{
    *g = (struct tailor_in_ground){.cell = cell_mm,
                                   .per_mm = 1 / cell_mm,
                                   .columns = (int)(width / cell_mm) + 1,
                                   .rows = (int)(height / cell_mm) + 1};
    g->words = g->columns / 64 + 1; /* at least one cell is beyond the last column */
    const size_t words = (size_t)g->rows * (size_t)g->words;
    g->taken = allocator->allocate(allocator->user, 3 * words * sizeof *g->taken);
    if (!g->taken)
        return 0;
    g->low_x = g->low_y = INFINITY;
    g->high_x = g->high_y = -INFINITY;
    g->inside = g->taken + words;
    g->fits = g->inside + words;
    memset(g->taken, 0, 2 * words * sizeof *g->taken);
    for (int row = 0; row < g->rows; row++)
        g->taken[(size_t)(row + 1) * (size_t)g->words - 1] = tailor_in_bits(g->columns % 64, 63);
    return 1;
}

void tailor_in_ground_end(struct tailor_in_ground *g, const tailor_allocator *allocator)
{
    if (g->taken)
        allocator->release(allocator->user, g->taken);
    g->taken = NULL;
}

/** Take a stretch of a row of the sheet, as far as it lies on it. */
static inline void take_stretch(struct tailor_in_ground *g, int row, int left, int right)
{
    uint64_t *taken = g->taken + (size_t)row * (size_t)g->words;
    left = left < 0 ? 0 : left;
    right = right < g->columns ? right : g->columns - 1;
    const int first = left / 64, last = right / 64;
    if (left > right)
        return;
    if (first == last) {
        taken[first] |= tailor_in_bits(left % 64, right % 64);
        return;
    }
    taken[first] |= tailor_in_bits(left % 64, 63);
    for (int word = first + 1; word < last; word++)
        taken[word] = ~(uint64_t)0;
    taken[last] |= tailor_in_bits(0, right % 64);
}

/** Take what lies within `margin` of a line, across and down: on each row the stretch that the line passes there. */
static void take_along(struct tailor_in_ground *g, tailor_point a, tailor_point b, double margin)
{
    if (!(a.y <= b.y)) {
        const tailor_point t = a;
        a = b;
        b = t;
    }
    const double fall = b.y - a.y, slope = fall > 0 ? (b.x - a.x) / fall : 0;
    const double before = b.x > a.x ? -margin : margin; /* to the side that the line comes from */
    int row = tailor_in_cell_of(g, a.y - margin), last = tailor_in_cell_of(g, b.y + margin);
    row = row < 0 ? 0 : row;
    last = last < g->rows ? last : g->rows - 1;
    for (; row <= last; row++) {
        const double from = row * g->cell - margin - a.y, to = from + g->cell + 2 * margin;
        const int begin = tailor_in_cell_of(g, (from > 0 ? a.x + slope * from : a.x) + before);
        const int end = tailor_in_cell_of(g, (to < fall ? a.x + slope * to : b.x) - before);
        take_stretch(g, row, begin < end ? begin : end, begin < end ? end : begin);
    }
}

/** Flip the cells right of a line on each row whose middle it crosses: twice flipped is outside again. */
static void flip_right_of(struct tailor_in_ground *g, tailor_point a, tailor_point b)
{
    if (a.y > b.y) {
        const tailor_point t = a;
        a = b;
        b = t;
    }
    int row = tailor_in_cell_of(g, a.y - g->cell / 2);
    for (row = row < 0 ? 0 : row; row < g->rows; row++) {
        const double y = (row + 0.5) * g->cell;
        if (y < a.y)
            continue;
        if (y >= b.y)
            break;
        int column = tailor_in_cell_of(g, a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
        column = column < 0 ? 0 : column;
        uint64_t *inside = g->inside + (size_t)row * (size_t)g->words;
        for (int word = column / 64; word < g->words; word++)
            inside[word] ^= tailor_in_bits(word == column / 64 ? column % 64 : 0, 63);
    }
}

/** Walk a path on the page in chords: with `margin` taken along them, and with what lies right of them flipped. */
static void walk(struct tailor_in_ground *g, const double place[6], const tailor_cubic *path, size_t count,
                 double margin, int flip)
{
    tailor_point first = {0, 0}, from = {0, 0};
    for (size_t i = 0; i < count; i++) {
        tailor_cubic c;
        tailor_path_affine(&path[i], 1, place, &c);
        const int chords = tailor_in_chords(&c);
        if (i == 0)
            first = c.p[0];
        from = i == 0 || !flip ? c.p[0] : from; /* where cubics do not quite meet, the outline is closed all the same */
        for (int k = 1; k <= chords; k++) {
            const tailor_point to = k < chords ? tailor_cubic_point(&c, (double)k / chords) : c.p[3];
            take_along(g, from, to, margin);
            if (flip)
                flip_right_of(g, from, to);
            from = to;
        }
    }
    if (flip)
        flip_right_of(g, from, first);
}

void tailor_in_ground_inside(struct tailor_in_ground *g, const double place[6], const tailor_cubic *path, size_t count)
{
    walk(g, place, path, count, g->cell / 2, 1);
}

void tailor_in_ground_take(struct tailor_in_ground *g, const double place[6], const tailor_cubic *path, size_t count,
                           double margin)
{
    walk(g, place, path, count, margin, 0);
}

void tailor_in_ground_take_box(struct tailor_in_ground *g, struct tailor_in_box box)
{
    const struct tailor_in_shape s = tailor_in_shape_of(box);
    g->low_x = fmin(g->low_x, box.middle.x - s.reach);
    g->high_x = fmax(g->high_x, box.middle.x + s.reach);
    g->low_y = fmin(g->low_y, box.middle.y + s.top);
    g->high_y = fmax(g->high_y, box.middle.y - s.top);
    int row = tailor_in_cell_of(g, box.middle.y + s.top), last = tailor_in_cell_of(g, box.middle.y - s.top);
    row = row < 0 ? 0 : row;
    last = last < g->rows ? last : g->rows - 1;
    for (; row <= last; row++) {
        double left, right;
        tailor_in_shape_row(&s, row * g->cell - box.middle.y, g->cell, &left, &right);
        take_stretch(g, row, tailor_in_cell_of(g, box.middle.x + left), tailor_in_cell_of(g, box.middle.x + right));
    }
}

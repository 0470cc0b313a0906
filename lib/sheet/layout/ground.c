#include "ground.h"

#include <math.h>
#include <string.h>

/* Fine enough for the smallest lettering, coarse enough to search a whole sheet in a millisecond. */
static const double cell_mm = 2.5;

int tailor_in_ground_begin(struct tailor_in_ground *g, const tailor_allocator *allocator, double width, double height)
{
    *g = (struct tailor_in_ground){
        .cell = cell_mm, .columns = (int)(width / cell_mm) + 1, .rows = (int)(height / cell_mm) + 1};
    const size_t cells = (size_t)g->columns * (size_t)g->rows;
    const size_t sums = (size_t)(g->columns + 1) * (size_t)(g->rows + 1);
    g->sums = allocator->allocate(allocator->user, sums * sizeof *g->sums + cells);
    if (!g->sums)
        return 0;
    g->cells = (unsigned char *)(g->sums + sums);
    memset(g->cells, TAILOR_IN_OUTSIDE, cells);
    return 1;
}

void tailor_in_ground_end(struct tailor_in_ground *g, const tailor_allocator *allocator)
{
    if (g->sums)
        allocator->release(allocator->user, g->sums);
    g->sums = NULL;
}

/** Cell of a coordinate, kept within 0 .. count. */
static int cell_of(double at, double cell, int count)
{
    return at <= 0 ? 0 : at >= count * cell ? count : (int)(at / cell);
}

/** What the cell of a place is; beyond the sheet everything is taken. */
static int state_at(const struct tailor_in_ground *g, double x, double y)
{
    if (!(x >= 0 && y >= 0 && x < g->columns * g->cell && y < g->rows * g->cell))
        return TAILOR_IN_TAKEN;
    return g->cells[(size_t)(y / g->cell) * (size_t)g->columns + (size_t)(x / g->cell)];
}

static void take_around(struct tailor_in_ground *g, tailor_point p, double margin)
{
    const int left = cell_of(p.x - margin, g->cell, g->columns),
              right = cell_of(p.x + margin + g->cell, g->cell, g->columns);
    const int top = cell_of(p.y - margin, g->cell, g->rows), bottom = cell_of(p.y + margin + g->cell, g->cell, g->rows);
    for (int row = top; row < bottom; row++)
        for (int column = left; column < right; column++)
            g->cells[(size_t)row * (size_t)g->columns + (size_t)column] |= TAILOR_IN_TAKEN;
}

/** Steps in which a curve is walked, at most a cell each. */
static int steps_of(const struct tailor_in_ground *g, const tailor_cubic *c)
{
    double length = 0;
    for (int k = 0; k < 3; k++)
        length += hypot(c->p[k + 1].x - c->p[k].x, c->p[k + 1].y - c->p[k].y);
    return length < 1e5 ? (int)(length / g->cell) + 2 : 2;
}

void tailor_in_ground_take(struct tailor_in_ground *g, const double place[6], const tailor_cubic *path, size_t count,
                           double margin)
{
    for (size_t i = 0; i < count; i++) {
        tailor_cubic c;
        tailor_path_affine(&path[i], 1, place, &c);
        const int steps = steps_of(g, &c);
        for (int k = 0; k <= steps; k++)
            take_around(g, tailor_cubic_point(&c, (double)k / steps), margin);
    }
}

/** Flip the cells right of a crossing on each row that a piece of the outline crosses: twice flipped is outside again.
 */
static void flip_right_of(struct tailor_in_ground *g, tailor_point a, tailor_point b)
{
    if (a.y > b.y) {
        tailor_point t = a;
        a = b;
        b = t;
    }
    for (int row = cell_of(a.y - g->cell / 2, g->cell, g->rows); row < g->rows; row++) {
        const double y = (row + 0.5) * g->cell;
        if (y < a.y)
            continue;
        if (y >= b.y)
            break;
        const double x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
        for (int column = cell_of(x, g->cell, g->columns); column < g->columns; column++)
            g->cells[(size_t)row * (size_t)g->columns + (size_t)column] ^= TAILOR_IN_OUTSIDE;
    }
}

void tailor_in_ground_inside(struct tailor_in_ground *g, const double place[6], const tailor_cubic *path, size_t count)
{
    tailor_point first = {0, 0}, from = {0, 0};
    for (size_t i = 0; i < count; i++) {
        tailor_cubic c;
        tailor_path_affine(&path[i], 1, place, &c);
        const int steps = steps_of(g, &c);
        if (i == 0)
            first = from = c.p[0];
        for (int k = 1; k <= steps; k++) {
            const tailor_point to = k < steps ? tailor_cubic_point(&c, (double)k / steps) : c.p[3];
            flip_right_of(g, from, to);
            from = to;
        }
    }
    flip_right_of(g, from, first);
    tailor_in_ground_take(g, place, path, count, g->cell / 2);
}

/** Visit points that cover a box as densely as the cells: take them when `where` is TAILOR_IN_TAKEN, else stop and tell
 *  at the first one that is not free there. */
static int over_box(struct tailor_in_ground *g, struct tailor_in_box box, int where)
{
    const double angle = box.angle * acos(-1) / 180, c = cos(angle), s = sin(angle);
    const int across = (int)(box.width / g->cell) + 1, down = (int)(box.height / g->cell) + 1;
    for (int i = 0; i <= across; i++) {
        for (int k = 0; k <= down; k++) {
            const double x = box.width * ((double)i / across - 0.5), y = box.height * ((double)k / down - 0.5);
            const tailor_point p = {box.middle.x + c * x - s * y, box.middle.y + s * x + c * y};
            if (where == TAILOR_IN_TAKEN)
                take_around(g, p, 0);
            else if (state_at(g, p.x, p.y) != where)
                return 1;
        }
    }
    return 0;
}

int tailor_in_ground_free_box(struct tailor_in_ground *g, struct tailor_in_box box, int where)
{
    /* most places fail in their middle already, and that is cheap to see */
    return state_at(g, box.middle.x, box.middle.y) == where && !over_box(g, box, where);
}

void tailor_in_ground_take_box(struct tailor_in_ground *g, struct tailor_in_box box)
{
    over_box(g, box, TAILOR_IN_TAKEN);
}

int tailor_in_ground_near(struct tailor_in_ground *g, struct tailor_in_box *box, double reach, int where)
{
    const tailor_point wish = box->middle;
    const int across = (int)((reach + box->width / 2) / g->cell), down = (int)((reach + box->height / 2) / g->cell);
    double nearest = INFINITY;
    for (int i = -across; i <= across; i++) {
        for (int k = -down; k <= down; k++) {
            const double x = i * g->cell, y = k * g->cell;
            if (state_at(g, wish.x + x, wish.y + y) != where)
                continue;
            const double off = hypot(fmax(fabs(x) - box->width / 2, 0), fmax(fabs(y) - box->height / 2, 0));
            const double distance = off + 0.1 * hypot(x, y); /* of its nearest point; a little of its middle */
            struct tailor_in_box there = *box;
            there.middle = (tailor_point){wish.x + x, wish.y + y};
            if (distance >= nearest || off > reach || !tailor_in_ground_free_box(g, there, where))
                continue;
            nearest = distance;
            box->middle = there.middle;
        }
    }
    return isfinite(nearest);
}

/* Sums over [left, right) x [top, bottom) of the cells, by the table of sums. */
static void sum_up(struct tailor_in_ground *g, int left, int right, int top, int bottom)
{
    const size_t width = (size_t)g->columns + 1;
    for (int column = left; column <= right; column++)
        g->sums[(size_t)top * width + (size_t)column] = 0;
    for (int row = top; row < bottom; row++) {
        int in_row = 0;
        g->sums[(size_t)(row + 1) * width + (size_t)left] = 0;
        for (int column = left; column < right; column++) {
            in_row += g->cells[(size_t)row * (size_t)g->columns + (size_t)column] != 0;
            const size_t here = (size_t)row * width + (size_t)column + 1;
            g->sums[here + width] = g->sums[here] + in_row;
        }
    }
}

static int taken_within(const struct tailor_in_ground *g, int left, int right, int top, int bottom)
{
    const size_t width = (size_t)g->columns + 1, above = (size_t)top * width, below = (size_t)bottom * width;
    return g->sums[below + (size_t)right] - g->sums[below + (size_t)left] - g->sums[above + (size_t)right] +
           g->sums[above + (size_t)left];
}

int tailor_in_ground_roomiest(struct tailor_in_ground *g, struct tailor_in_box *box, tailor_point low,
                              tailor_point high)
{
    const int left = cell_of(low.x, g->cell, g->columns), right = cell_of(high.x, g->cell, g->columns);
    const int top = cell_of(low.y, g->cell, g->rows), bottom = cell_of(high.y, g->cell, g->rows);
    const tailor_point wish = box->middle;
    sum_up(g, left, right, top, bottom);
    for (int room = 8; room >= 0; room--) { /* cells of free ground all around */
        const int across = (int)ceil(box->width / g->cell) + 2 * room,
                  down = (int)ceil(box->height / g->cell) + 2 * room;
        double nearest = INFINITY;
        for (int row = top; row + down <= bottom; row++) {
            for (int column = left; column + across <= right; column++) {
                const tailor_point middle = {(column + across / 2.0) * g->cell, (row + down / 2.0) * g->cell};
                const double x = middle.x - wish.x, y = middle.y - wish.y, distance = x * x + y * y;
                if (distance >= nearest || taken_within(g, column, column + across, row, row + down))
                    continue;
                nearest = distance;
                box->middle = middle;
            }
        }
        if (isfinite(nearest))
            return 1;
    }
    return 0;
}

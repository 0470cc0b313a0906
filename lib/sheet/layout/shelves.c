#include "shelves.h"

#include "marks.h"

#include <math.h>
#include <string.h>

static const double gap = 45, longest_shelf = 2400; /* mm */

static void grow(double box[4], const double by[4])
{
    box[0] = fmin(box[0], by[0]);
    box[1] = fmin(box[1], by[1]);
    box[2] = fmax(box[2], by[2]);
    box[3] = fmax(box[3], by[3]);
}

/** By how much to turn a piece so that its grain is upright: 0 as drafted, and for a grain that is upright but for
 *  rounding. */
static double upright(const tailor_pattern *pattern, int piece)
{
    for (int mark = 0; mark < tailor_piece_mark_count(pattern, piece); mark++) {
        size_t count;
        const tailor_cubic *path = tailor_mark_path(pattern, piece, mark, &count);
        if (tailor_mark_kind(pattern, piece, mark) != TAILOR_MARK_GRAIN || !count)
            continue;
        double x = path[count - 1].p[3].x - path[0].p[0].x, y = path[count - 1].p[3].y - path[0].p[0].y;
        if (y < 0) { /* either end up, whichever is nearer */
            x = -x;
            y = -y;
        }
        const double angle = atan2(x, y) * 180 / acos(-1);
        return fabs(angle) > 0.01 ? angle : 0;
    }
    return 0;
}

static void grow_by(double box[4], const tailor_cubic *path, size_t count, double angle)
{
    const double c = cos(angle * acos(-1) / 180), s = sin(angle * acos(-1) / 180), turn[6] = {c, s, -s, c, 0, 0};
    for (size_t i = 0; i < count; i++) {
        tailor_cubic turned;
        double more[4];
        tailor_path_affine(&path[i], 1, turn, &turned);
        tailor_cubic_bounds(&turned, more);
        grow(box, more);
    }
}

static void bound(const tailor_pattern *pattern, int piece, struct tailor_in_shelf_place *p)
{
    size_t count;
    const tailor_cubic *path = tailor_piece_outline(pattern, piece, &count);
    p->angle = upright(pattern, piece);
    p->bounds[0] = p->bounds[1] = count ? INFINITY : 0;
    p->bounds[2] = p->bounds[3] = count ? -INFINITY : 0;
    grow_by(p->bounds, path, count, p->angle);
    for (int mark = 0; count && mark < tailor_piece_mark_count(pattern, piece); mark++) {
        size_t mark_count;
        path = tailor_mark_path(pattern, piece, mark, &mark_count);
        if (tailor_in_look_of_mark(pattern, piece, mark))
            grow_by(p->bounds, path, mark_count, p->angle);
    }
}

/** Drafted on the common axes of the body: shares its levels with the others that are. */
static int is_of_the_body(const tailor_pattern *pattern, int piece)
{
    static const char *const names[] = {"back", "sidebody", "forepart"};
    for (int i = 0; i < 3; i++)
        if (!strcmp(tailor_piece_name(pattern, piece), names[i]))
            return 1;
    return 0;
}

void tailor_in_shelves(const tailor_pattern *pattern, struct tailor_in_shelf_place *places, double *width,
                       double *height)
{
    const int pieces = tailor_pattern_piece_count(pattern);
    double left = 0, top = 0, shelf = 0; /* where the next column begins, and how high the shelf is */
    double low = INFINITY, high = -INFINITY;
    *width = 0;
    for (int i = 0; i < pieces; i++) {
        bound(pattern, i, &places[i]);
        if (!is_of_the_body(pattern, i))
            continue;
        low = fmin(low, places[i].bounds[1]);
        high = fmax(high, places[i].bounds[3]);
    }
    for (int i = 0; i < pieces; i++) {
        struct tailor_in_shelf_place *p = &places[i];
        if (!is_of_the_body(pattern, i))
            continue;
        p->x = left - p->bounds[0];
        p->y = high;
        left += p->bounds[2] - p->bounds[0] + gap;
        shelf = high - low;
    }
    double column = 0, filled = 0; /* width of the last column, and how far down it is full */
    for (int i = 0; i < pieces; i++) {
        struct tailor_in_shelf_place *p = &places[i];
        const double wide = p->bounds[2] - p->bounds[0], tall = p->bounds[3] - p->bounds[1];
        if (is_of_the_body(pattern, i))
            continue;
        if (filled > 0 && filled + gap + tall <= shelf && left - gap - column + fmax(column, wide) <= longest_shelf) {
            filled += gap; /* below the last one, in the same column */
            left += fmax(column, wide) - column;
            column = fmax(column, wide);
        } else {
            if (left > 0 && left + wide > longest_shelf) { /* a new shelf */
                top += shelf + gap;
                left = 0;
                shelf = 0;
            }
            left += wide + gap;
            column = wide;
            filled = 0;
        }
        p->x = left - gap - column - p->bounds[0];
        p->y = top + filled + p->bounds[3];
        filled += tall;
        shelf = fmax(shelf, filled);
        *width = fmax(*width, left - gap);
    }
    *width = fmax(*width, left - gap);
    *height = top + shelf;
}

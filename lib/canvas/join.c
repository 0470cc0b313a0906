/* Parting a piece that is too wide for the strip: along the warp, where the join is shortest. */
#include <math.h>
#include "strip.h"

/* Lines tried between the two that just leave both parts within the strip. */
enum { LINES = 65 };

static tailor_point unit_of(double degrees)
{
    const double turn = degrees * acos(-1) / 180;
    return (tailor_point){cos(turn), sin(turn)};
}

/** The curve seen with the direction level: its lowest and highest. */
static void levels(const tailor_cubic *path, size_t count, tailor_point along, double *low, double *high)
{
    *low = INFINITY;
    *high = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        const double matrix[6] = {along.x, -along.y, along.y, along.x, 0, 0};
        tailor_cubic turned;
        double box[4];
        tailor_path_affine(path + i, 1, matrix, &turned);
        tailor_cubic_bounds(&turned, box);
        *low = fmin(*low, box[1]);
        *high = fmax(*high, box[3]);
    }
}

double tailor_in_canvas_across(const tailor_cubic *outline, size_t count, double direction)
{
    double low, high;
    levels(outline, count, unit_of(direction), &low, &high);
    return high - low;
}

/** Where a line meets an outline, when it does so twice. */
static int crosses_twice(const tailor_cubic *outline, size_t count, tailor_point along, double level, double places[2],
                         double *chord)
{
    const tailor_point a = {-along.y * level, along.x * level}, b = {a.x + along.x, a.y + along.y};
    double found_at[16];
    size_t found = 0;
    if (tailor_path_cross_line(outline, count, a, b, found_at, 16, &found) != TAILOR_OK || found != 2)
        return 0;
    const tailor_point p = tailor_path_point(outline, count, found_at[0]);
    const tailor_point q = tailor_path_point(outline, count, found_at[1]);
    places[0] = found_at[0];
    places[1] = found_at[1];
    *chord = hypot(q.x - p.x, q.y - p.y);
    return *chord > 0;
}

/** The part of the outline on one side of a line that meets it at two places. */
static int keep_side(const tailor_cubic *outline, size_t count, tailor_point along, double level,
                     const double places[2], int above, tailor_cubic *part, size_t *part_count)
{
    for (int way = 0; way < 2; way++) {
        double low, high;
        size_t kept = 0;
        if (tailor_path_part(outline, count, places[way], places[!way], part, count + TAILOR_IN_PART_MORE - 1, &kept) !=
            TAILOR_OK)
            return 0;
        levels(part, kept, along, &low, &high);
        if ((high - level > level - low) != above)
            continue;
        part[kept] = tailor_cubic_line(part[kept - 1].p[3], part[0].p[0]);
        *part_count = kept + 1;
        return 1;
    }
    return 0;
}

int tailor_in_canvas_part(const tailor_cubic *outline, size_t count, double direction, double width, double overlap,
                          tailor_cubic *parts[2], size_t counts[2])
{
    const tailor_point along = unit_of(direction);
    const double fit = width - 1e-3; /* parts are laid on a grid that may round them outward */
    double low, high, best = INFINITY, level = NAN, places[2][2] = {{0}}, shortest[2][2] = {{0}};
    levels(outline, count, along, &low, &high);
    const double first = high - fit + overlap / 2, last = low + fit - overlap / 2;
    if (!(first <= last))
        return 0;
    for (int i = 0; i < LINES; i++) {
        const double at = first + (last - first) * i / (LINES - 1);
        double chord[2];
        if (!crosses_twice(outline, count, along, at + overlap / 2, places[0], &chord[0]) ||
            !crosses_twice(outline, count, along, at - overlap / 2, places[1], &chord[1]) ||
            !(chord[0] + chord[1] < best))
            continue;
        best = chord[0] + chord[1];
        level = at;
        for (int k = 0; k < 4; k++)
            shortest[k / 2][k % 2] = places[k / 2][k % 2];
    }
    return isfinite(best) &&
           keep_side(outline, count, along, level + overlap / 2, shortest[0], 0, parts[0], &counts[0]) &&
           keep_side(outline, count, along, level - overlap / 2, shortest[1], 1, parts[1], &counts[1]);
}

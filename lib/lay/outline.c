/* From an outline of cubics to a polygon on the grid, from which no point of the shape is farther than the
 * tolerance. */
#include <string.h>
#include "../geom/kernel.h"
#include "strip.h"

/* Shares of the tolerance. Reading to the grid takes at most 0.71 steps and the turn's rounding far less; begin()
 * demands 16 steps for the tolerance. */
static const double SHARE_CHORDS = 0.3, SHARE_DROPPED = 0.6, SHARE_GRID = 0.75;

void tailor_in_lay_turn(double angle, double *c, double *s)
{
    static const double quarter[5] = {0, 1, 0, -1, 0};
    const double rest = fmod(angle, 360), full = rest < 0 ? rest + 360 : rest;
    const double quarters = full / 90;
    if (quarters == floor(quarters)) {
        const int q = (int)quarters % 4;
        *s = quarter[q];
        *c = quarter[q + 1];
    } else {
        *s = sin(full * (TAILOR_IN_PI / 180));
        *c = cos(full * (TAILOR_IN_PI / 180));
    }
}

static double from_segment(tailor_point a, tailor_point b, tailor_point p)
{
    const tailor_point d = tailor_in_sub(b, a), q = tailor_in_sub(p, a);
    const double length2 = tailor_in_dot(d, d), at = tailor_in_dot(d, q);
    if (!(at > 0)) return tailor_in_norm(q);
    if (at >= length2) return tailor_in_distance(b, p);
    return fabs(tailor_in_cross(d, q)) / sqrt(length2);
}

/** How far the handles are from the chord, which is at least as far as the curve is: it lies in their hull. */
static double bow(const tailor_cubic *c)
{
    return tailor_in_max(from_segment(c->p[0], c->p[3], c->p[1]), from_segment(c->p[0], c->p[3], c->p[2]));
}

/** Leave out points of a closed polygon that lie within `most` of the segment that replaces them: from each point kept
 *  the segment reaches as far as it can. Returns the count kept; *dropped is the greatest distance left out. Point 0
 *  must be a corner that stays. */
static int simplify(const tailor_point *p, int n, double most, tailor_point *kept, double *dropped)
{
    int count = 0, from = 0;
    *dropped = 0;
    while (from < n) {
        int to = from + 1;
        double reached = 0;
        kept[count++] = p[from];
        for (int next = from + 2; next <= n; next++) {
            double far = 0;
            for (int k = from + 1; k < next && far <= most; k++)
                far = tailor_in_max(far, from_segment(p[from], p[next % n], p[k]));
            if (far > most) break;
            to = next;
            reached = far;
        }
        *dropped = tailor_in_max(*dropped, reached);
        from = to;
    }
    return count;
}

/** To the grid; points that coincide or lie straight between their neighbours are left out. */
static int to_grid(const tailor_point *p, int n, tailor_in_spot *spots)
{
    int count = 0;
    for (int i = 0; i < n; i++) {
        const tailor_in_spot q = {(int64_t)floor(p[i].x + 0.5), (int64_t)floor(p[i].y + 0.5)};
        if (count == 0 || q.x != spots[count - 1].x || q.y != spots[count - 1].y) spots[count++] = q;
    }
    while (count > 1 && spots[0].x == spots[count - 1].x && spots[0].y == spots[count - 1].y) count--;
    bool changed = true;
    while (changed && count >= 3) {
        int kept = 0;
        changed = false;
        for (int i = 0; i < count; i++) {
            const tailor_in_spot a = kept > 0 ? spots[kept - 1] : spots[count - 1], b = spots[i],
                                 c = i + 1 < count ? spots[i + 1] : spots[0];
            const bool straight = tailor_in_lay_turn_of(a, b, c) == 0 &&
                                  (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) > 0;
            changed = changed || straight;
            if (!straight) spots[kept++] = b;
        }
        count = kept;
    }
    return count;
}

static double twice_area(const tailor_in_spot *p, int n)
{
    double sum = 0;
    for (int i = 1; i + 1 < n; i++) sum += (double)tailor_in_lay_turn_of(p[0], p[i], p[i + 1]);
    return sum;
}

/** The lowest of the leftmost points comes first: a corner of the hull. */
static void corner_first(tailor_point *p, int n, tailor_point *room)
{
    int first = 0;
    for (int i = 1; i < n; i++)
        if (p[i].x < p[first].x || (p[i].x == p[first].x && p[i].y < p[first].y)) first = i;
    memcpy(room, p, (size_t)n * sizeof *p);
    for (int i = 0; i < n; i++) p[i] = room[(i + first) % n];
}

tailor_status tailor_in_lay_outline(tailor_lay *lay, const tailor_in_shape *shape, int number, tailor_in_kind *k,
                                    double *deviation, tailor_fault *fault)
{
    static const char *const no_memory = ": there is no memory for its polygon";
    const double tolerance = lay->tolerance / lay->step; /* all in steps from here on */
    struct tailor_in_block *keep;
    double c, s, box[4], bowed = 0, dropped = 0;
    size_t needed = 0;
    tailor_in_lay_turn(shape->angle, &c, &s);
    c /= lay->step;
    s /= lay->step;
    k->points = tailor_in_lay_memory(lay, TAILOR_LAY_POINTS_MOST + 2, sizeof *k->points);
    keep = lay->blocks;
    tailor_cubic *turned = tailor_in_lay_memory(lay, shape->count, sizeof *turned);
    if (!k->points || !turned) return tailor_in_lay_refuse(fault, TAILOR_NO_MEMORY, number, NAN, NAN, no_memory);
    const double matrix[6] = {c, s, -s, c, 0, 0};
    tailor_path_affine(shape->outline, shape->count, matrix, turned);
    tailor_path_bounds(turned, shape->count, box);
    const double room = 0x1p20 * (double)lay->grid_width;
    if (!(box[0] > -room && box[1] > -room && box[2] < room && box[3] < room))
        return tailor_in_lay_refuse(fault, TAILOR_OUT_OF_RANGE, number, NAN, NAN,
                                    " lies more than a million widths from its origin");
    k->middle = (tailor_in_spot){(int64_t)floor((box[0] + box[2]) / 2), (int64_t)floor((box[1] + box[3]) / 2)};
    for (size_t i = 0; i < shape->count; i++) {
        for (int j = 0; j < 4; j++) {
            turned[i].p[j].x -= (double)k->middle.x;
            turned[i].p[j].y -= (double)k->middle.y;
        }
        bowed = tailor_in_max(bowed, bow(&turned[i]));
    }
    k->low = (tailor_in_spot){(int64_t)floor(box[0] + 0.5) - k->middle.x, (int64_t)floor(box[1] + 0.5) - k->middle.y};
    k->high = (tailor_in_spot){(int64_t)floor(box[2] + 0.5) - k->middle.x, (int64_t)floor(box[3] + 0.5) - k->middle.y};
    k->area = fabs(tailor_path_area(turned, shape->count));
    const bool curved = bowed > 0.01;
    if (curved && tolerance < 16)
        return tailor_in_lay_refuse(fault, TAILOR_BAD_ARGUMENT, number, lay->tolerance, NAN,
                      " has curves: the tolerance must be 16 steps of the grid, 4e-6 of the width, or more");
    const double chords = curved ? tolerance * SHARE_CHORDS : 1;
    tailor_status status = tailor_path_flatten(turned, shape->count, chords, NULL, 0, &needed);
    if (status != TAILOR_OK || needed > 100 * TAILOR_LAY_POINTS_MOST)
        return tailor_in_lay_refuse(fault, TAILOR_OUT_OF_RANGE, number, NAN, TAILOR_LAY_POINTS_MOST,
                      " takes too many points: a larger tolerance would do");
    tailor_point *points = tailor_in_lay_memory(lay, needed, sizeof *points),
                 *thinned = tailor_in_lay_memory(lay, needed, sizeof *thinned);
    tailor_in_spot *spots = tailor_in_lay_memory(lay, needed, sizeof *spots);
    if (!points || !thinned || !spots)
        return tailor_in_lay_refuse(fault, TAILOR_NO_MEMORY, number, NAN, NAN, no_memory);
    if (tailor_path_flatten(turned, shape->count, chords, points, needed, &needed) != TAILOR_OK)
        return tailor_in_lay_refuse(fault, TAILOR_INTERNAL, number, NAN, NAN, " could not be flattened");
    int n = (int)needed;
    if (n > 1 && tailor_in_same(points[0], points[n - 1])) n--;
    corner_first(points, n, thinned);
    /* thinned if it may be; as it is where thinning made it touch itself */
    for (int thin = tolerance >= 16; thin >= 0; thin--) {
        if (thin)
            k->count = simplify(points, n, tolerance * SHARE_DROPPED, thinned, &dropped);
        else
            memcpy(thinned, points, (size_t)n * sizeof *points), k->count = n, dropped = 0;
        k->count = to_grid(thinned, k->count, spots);
        if (k->count >= 3 && k->count <= TAILOR_LAY_POINTS_MOST && tailor_in_lay_simple(spots, k->count)) break;
        if (thin) continue;
        if (k->count > TAILOR_LAY_POINTS_MOST)
            return tailor_in_lay_refuse(fault, TAILOR_OUT_OF_RANGE, number, k->count, TAILOR_LAY_POINTS_MOST,
                          " takes too many points: a larger tolerance would do");
        return tailor_in_lay_refuse(fault, TAILOR_DEGENERATE, number, NAN, NAN,
                      k->count < 3 ? " has no area" : " crosses or touches itself, or is thinner than the grid");
    }
    const bool reversed = twice_area(spots, k->count) < 0;
    for (int i = 0; i < k->count; i++) k->points[i] = spots[reversed ? k->count - 1 - i : i];
    if (curved || dropped > 0)
        *deviation = tailor_in_max(*deviation, (curved ? chords : 0) + dropped + SHARE_GRID);
    tailor_in_lay_release(lay, keep);
    return TAILOR_OK;
}

tailor_status tailor_in_lay_mirror(tailor_lay *lay, const tailor_in_kind *from, tailor_in_kind *k, tailor_fault *fault)
{
    *k = *from;
    k->mirrored = 1;
    k->points = tailor_in_lay_memory(lay, (size_t)from->count, sizeof *k->points);
    if (!k->points) return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "there is no memory for a mirror image");
    for (int i = 0; i < k->count; i++) {
        const tailor_in_spot p = from->points[from->count - 1 - i];
        k->points[i] = (tailor_in_spot){p.x, -p.y};
    }
    k->low.y = -from->high.y;
    k->high.y = -from->low.y;
    k->middle.y = -from->middle.y;
    return TAILOR_OK;
}

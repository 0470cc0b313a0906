/* Points that belong on an outline and lie off it; marks that lie outside of their piece. */
#include "examine.h"

#include <string.h>

#include "../geom/kernel.h"
#include "net.h"

/** Distance from an outline; most points are joints of it. */
static double off_outline(const tailor_cubic *outline, size_t count, tailor_point p)
{
    double off;
    for (size_t i = 0; i < count; i++)
        if (tailor_in_distance(outline[i].p[0], p) <= 1e-9)
            return 0;
    tailor_path_nearest(outline, count, p, &off);
    return off;
}

/** Did the point lie on the outline of the base's piece of that name? */
static int on_base(const tailor_pattern *base, const char *piece, const char *point)
{
    static const double ON = 1e-3; /* as a grade takes a point to be on its outline */
    const int found = tailor_pattern_find_piece(base, piece), at = tailor_piece_find_point(base, found, point);
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(base, found, &count);
    return at >= 0 && off_outline(outline, count, tailor_point_place(base, found, at)) <= ON;
}

static void examine_points(struct tailor_in_examining *x, int piece, const tailor_cubic *outline, size_t count)
{
    const tailor_pattern *p = x->pattern;
    for (int i = 0; i < tailor_piece_point_count(p, piece); i++) {
        const int of_net = tailor_in_net_piece[tailor_piece_number(p, piece)] > 0;
        const int belongs = (of_net && tailor_in_outline_point[tailor_point_number(p, piece, i)]) ||
                            (x->base && on_base(x->base, tailor_piece_name(p, piece), tailor_point_name(p, piece, i)));
        const tailor_point at = tailor_point_place(p, piece, i);
        const double off = belongs ? off_outline(outline, count, at) : 0;
        if (off > tailor_in_finding_limit(TAILOR_FINDING_POINT_OFF))
            tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_POINT_OFF,
                                               .piece = piece,
                                               .part = i,
                                               .other = -1,
                                               .value = off,
                                               .at = at});
    }
}

/** How far a path goes outside of an outline, looked at at the ends and middles of its curves. */
static double outside(const tailor_cubic *path, size_t n, const tailor_cubic *outline, size_t count, tailor_point *at)
{
    double worst = 0;
    for (size_t i = 0; i < n; i++)
        for (int k = i ? 1 : 0; k <= 2; k++) {
            const tailor_point p = tailor_in_point(&path[i], k / 2.0);
            double off;
            if (tailor_path_winding(outline, count, p) > 0)
                continue;
            tailor_path_nearest(outline, count, p, &off);
            if (off > worst) {
                worst = off;
                *at = p;
            }
        }
    return worst;
}

static void examine_marks(struct tailor_in_examining *x, int piece, const tailor_cubic *outline, size_t count)
{
    for (int i = 0; i < tailor_piece_mark_count(x->pattern, piece); i++) {
        const int kind = tailor_mark_kind(x->pattern, piece, i);
        if (kind == TAILOR_MARK_LINE || kind == TAILOR_MARK_FOLD)
            continue; /* a break line goes on to the stand point, a flap over a seam, a turn-up beyond the hem */
        size_t n;
        const tailor_cubic *path = tailor_mark_path(x->pattern, piece, i, &n);
        tailor_point at = path->p[0];
        const double off = outside(path, n, outline, count, &at);
        if (off > tailor_in_finding_limit(TAILOR_FINDING_MARK_OFF))
            tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_MARK_OFF,
                                               .piece = piece,
                                               .part = i,
                                               .other = -1,
                                               .value = off,
                                               .at = at});
    }
}

void tailor_in_examine_inside(struct tailor_in_examining *x, int piece)
{
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(x->pattern, piece, &count);
    examine_points(x, piece, outline, count);
    examine_marks(x, piece, outline, count);
}

/* A grade as an object: made, read, given back. */
#include "inside.h"

#include <string.h>

#include "../base/fault.h"

static const double STRAIGHT = 1e-6, ON_OUTLINE = 1e-6, SMOOTH = 1e-6;

static int is_straight(const tailor_cubic *c)
{
    double length = tailor_in_distance(c->p[0], c->p[3]);
    return length > 0 && tailor_in_distance(c->p[1], tailor_in_mix(c->p[0], c->p[3], 1 / 3.0)) <= STRAIGHT * length &&
           tailor_in_distance(c->p[2], tailor_in_mix(c->p[0], c->p[3], 2 / 3.0)) <= STRAIGHT * length;
}

static double place_on(const tailor_cubic *outline, size_t count, tailor_point p)
{
    double off, place = tailor_path_nearest(outline, count, p, &off);
    return off <= ON_OUTLINE ? place : -1;
}

/** A notch goes with its foot, a handle with its own end; buttons, holes and grain go as they are. */
static void places_of_mark(tailor_grade *g, const struct tailor_in_mark *mark, const tailor_cubic *outline, size_t n)
{
    for (int i = 0; i < mark->cubic_count; i++) {
        const tailor_cubic *c = TAILOR_IN_CUBIC(g->base, mark->first_cubic + i);
        double *place = g->place + 4 * (mark->first_cubic + i);
        int foot = mark->kind == TAILOR_MARK_NOTCH;
        int loose =
            mark->kind == TAILOR_MARK_BUTTON || mark->kind == TAILOR_MARK_HOLE || mark->kind == TAILOR_MARK_GRAIN;
        place[0] = loose ? -1 : foot && i ? g->place[4 * mark->first_cubic] : place_on(outline, n, c->p[0]);
        place[3] = loose ? -1 : foot ? place[0] : place_on(outline, n, c->p[3]);
        place[1] = place[0];
        place[2] = place[3];
    }
}

static void look_at_piece(tailor_grade *g, const struct tailor_in_piece *piece)
{
    const tailor_cubic *outline = TAILOR_IN_CUBIC(g->base, piece->first_cubic);
    int n = piece->cubic_count;
    for (int i = 0; i < n; i++) {
        tailor_point before = tailor_cubic_direction(&outline[(i + n - 1) % n], 1),
                     after = tailor_cubic_direction(&outline[i], 0);
        int smooth = fabs(tailor_in_cross(before, after)) <= SMOOTH && tailor_in_dot(before, after) > 0;
        g->flags[piece->first_cubic + i] =
            (unsigned char)((is_straight(&outline[i]) ? TAILOR_IN_STRAIGHT : 0) | (smooth ? TAILOR_IN_SMOOTH : 0));
    }
    for (int i = 0; i < piece->point_count; i++)
        g->point_place[piece->first_point + i] =
            place_on(outline, (size_t)n, TAILOR_IN_POINT(g->base, piece->first_point + i)->at);
    for (int i = 0; i < piece->mark_count; i++)
        places_of_mark(g, TAILOR_IN_MARK(g->base, piece->first_mark + i), outline, (size_t)n);
}

void tailor_in_grade_stiffen(tailor_grade *g)
{
    for (int i = 0; i < g->base->count[TAILOR_IN_PIECES]; i++) {
        const struct tailor_in_piece *piece = TAILOR_IN_PIECE(g->base, i);
        unsigned char *flags = g->flags + piece->first_cubic;
        int n = piece->cubic_count;
        for (int k = 0; k < n; k++) {
            int last = (k + n - 1) % n, next = (k + 1) % n;
            int runs_on = (flags[k] & TAILOR_IN_SMOOTH && !(flags[last] & TAILOR_IN_STRAIGHT)) ||
                          (flags[next] & TAILOR_IN_SMOOTH && !(flags[next] & TAILOR_IN_STRAIGHT));
            flags[k] = (unsigned char)(flags[k] & ~TAILOR_IN_STIFF);
            if (flags[k] & TAILOR_IN_STRAIGHT && runs_on)
                flags[k] |= TAILOR_IN_STIFF;
        }
    }
}

tailor_grade *tailor_in_grade_new(tailor_pattern *base, int axes, tailor_allocator memory)
{
    size_t cubics = (size_t)base->count[TAILOR_IN_CUBICS], points = (size_t)base->count[TAILOR_IN_POINTS],
           seams = (size_t)base->count[TAILOR_IN_SEAMS], stretches = (size_t)base->count[TAILOR_IN_STRETCHES],
           by_axis = (size_t)axes;
    size_t doubles = by_axis * (8 * cubics + 2 * points + 2 * seams + 2 * stretches) + seams + 2 * stretches +
                     8 * cubics + 2 * points;
    size_t bytes = sizeof(tailor_grade) + doubles * sizeof(double) + 2 * cubics + points;
    tailor_grade *g = memory.allocate(memory.user, bytes);
    if (!g) {
        tailor_pattern_free(base);
        return NULL;
    }
    memset(g, 0, bytes);
    g->allocator = memory;
    g->axes = axes;
    g->base = base;
    g->move = (tailor_point *)(void *)(g + 1);
    g->point_move = g->move + by_axis * 4 * cubics;
    g->ease_move = (double *)(void *)(g->point_move + by_axis * points);
    g->gap_move = g->ease_move + by_axis * seams;
    g->bound_move = g->gap_move + by_axis * seams;
    g->bound = g->bound_move + by_axis * 2 * stretches;
    g->gap = g->bound + 2 * stretches;
    g->residual = g->gap + seams;
    g->point_residual = g->residual + 4 * cubics;
    g->place = g->point_residual + points;
    g->point_place = g->place + 4 * cubics;
    g->known = (unsigned char *)(g->point_place + points);
    g->flags = g->known + cubics + points;
    for (int i = 0; i < base->count[TAILOR_IN_PIECES]; i++)
        look_at_piece(g, TAILOR_IN_PIECE(base, i));
    tailor_in_grade_stiffen(g);
    for (int i = 0; i < (int)stretches; i++)
        tailor_in_bounds_of(base, i, g->bound + 2 * i);
    for (int i = 0; i < (int)seams; i++)
        g->gap[i] = tailor_in_gap_of(base, i, g->bound);
    return g;
}

void tailor_grade_free(tailor_grade *g)
{
    if (!g)
        return;
    tailor_pattern_free(g->base);
    g->allocator.release(g->allocator.user, g);
}

/* ---- seams by places */

const struct tailor_in_edge *tailor_in_edge_of_stretch(const tailor_pattern *p, int stretch)
{
    const tailor_stretch *sewn = TAILOR_IN_STRETCH(p, stretch);
    return TAILOR_IN_EDGE(p, TAILOR_IN_PIECE(p, sewn->piece)->first_edge + sewn->edge);
}

void tailor_in_bounds_of(const tailor_pattern *p, int stretch, double bound[2])
{
    const struct tailor_in_edge *edge = tailor_in_edge_of_stretch(p, stretch);
    const double length[2] = {TAILOR_IN_STRETCH(p, stretch)->from, TAILOR_IN_STRETCH(p, stretch)->to};
    for (int k = 0; k < 2; k++)
        bound[k] = length[k] < 0    ? edge->cubic_count
                   : length[k] == 0 ? 0
                                    : tailor_path_at_length(TAILOR_IN_CUBIC(p, edge->first_cubic),
                                                            (size_t)edge->cubic_count, length[k]);
}

static double stretch_length(const tailor_pattern *p, int stretch, const double bound[2])
{
    const struct tailor_in_edge *edge = tailor_in_edge_of_stretch(p, stretch);
    const tailor_cubic *path = TAILOR_IN_CUBIC(p, edge->first_cubic);
    double low = tailor_in_min(bound[0], bound[1]), high = tailor_in_max(bound[0], bound[1]), length = 0;
    for (int i = (int)low; i < edge->cubic_count && i < high; i++)
        length += low <= i && high >= i + 1
                      ? tailor_cubic_length(&path[i])
                      : tailor_in_length_between(&path[i], tailor_in_max(low - i, 0), tailor_in_min(high - i, 1));
    return length;
}

double tailor_in_gap_of(const tailor_pattern *p, int seam, const double *bound)
{
    const struct tailor_in_seam *of = TAILOR_IN_SEAM(p, seam);
    double length[2] = {0, 0};
    for (int side = 0; side < 2; side++)
        for (int i = of->first[side]; i < of->first[side] + of->count[side]; i++)
            length[side] += stretch_length(p, i, bound + 2 * i);
    return length[0] - length[1];
}

/* ---- reading */

int tailor_in_locate(const tailor_pattern *p, int piece, const char *name, int *point, int *cubic, int *corner)
{
    const char *dot = name ? strchr(name, '.') : NULL;
    const struct tailor_in_piece *of = TAILOR_IN_PIECE(p, piece);
    *point = *cubic = -1;
    *corner = 0;
    if (!name)
        return 0;
    if (!dot) {
        int found = tailor_piece_find_point(p, piece, name);
        *point = found < 0 ? -1 : of->first_point + found;
        return found >= 0;
    }
    int start = !strcmp(dot, ".start"), end = !strcmp(dot, ".end");
    for (int i = 0; i < of->edge_count && (start || end); i++) {
        const struct tailor_in_edge *edge = TAILOR_IN_EDGE(p, of->first_edge + i);
        size_t length = strlen(edge->name);
        if (length != (size_t)(dot - name) || strncmp(edge->name, name, length))
            continue;
        *cubic = start ? edge->first_cubic : edge->first_cubic + edge->cubic_count - 1;
        *corner = start ? 0 : 3;
        return 1;
    }
    return 0;
}

int tailor_grade_axis_count(const tailor_grade *g) { return g ? g->axes : 0; }

const tailor_pattern *tailor_grade_base(const tailor_grade *g) { return g ? g->base : NULL; }

tailor_status tailor_grade_rule(const tailor_grade *g, const char *piece, const char *point, int axis,
                                tailor_point *move, double *residual)
{
    int at = g ? tailor_pattern_find_piece(g->base, piece) : -1, index, cubic, corner;
    if (at < 0 || axis < 0 || axis >= g->axes || !move ||
        !tailor_in_locate(g->base, at, point, &index, &cubic, &corner))
        return TAILOR_BAD_ARGUMENT;
    size_t cubics = (size_t)g->base->count[TAILOR_IN_CUBICS], points = (size_t)g->base->count[TAILOR_IN_POINTS];
    *move = index >= 0 ? g->point_move[(size_t)axis * points + (size_t)index]
                       : g->move[((size_t)axis * cubics + (size_t)cubic) * 4 + (size_t)corner];
    if (residual)
        *residual = index >= 0 ? g->point_residual[index] : g->residual[4 * cubic + corner];
    return TAILOR_OK;
}

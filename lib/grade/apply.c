/* A pattern at so many steps: every control point moves, joints stay smooth, seams are made equal again. */
#include "inside.h"

#include <string.h>

#include "../base/fault.h"

enum { FEW = 160 }; /* bounds and gaps of a coat's seams: 32 of them need no memory */

/** Has the pattern the base's pieces, edges, curves, points, marks and seams, one for one? */
static int same_make(const tailor_pattern *a, const tailor_pattern *b)
{
    if (memcmp(a->count, b->count, sizeof a->count))
        return 0;
    for (int i = 0; i < a->count[TAILOR_IN_PIECES]; i++) {
        const struct tailor_in_piece *x = TAILOR_IN_PIECE(a, i), *y = TAILOR_IN_PIECE(b, i);
        if (strcmp(x->name, y->name) || x->first_cubic != y->first_cubic || x->cubic_count != y->cubic_count ||
            x->first_edge != y->first_edge || x->first_point != y->first_point || x->first_mark != y->first_mark)
            return 0;
    }
    for (int i = 0; i < a->count[TAILOR_IN_EDGES]; i++)
        if (strcmp(TAILOR_IN_EDGE(a, i)->name, TAILOR_IN_EDGE(b, i)->name) ||
            TAILOR_IN_EDGE(a, i)->first_cubic != TAILOR_IN_EDGE(b, i)->first_cubic)
            return 0;
    for (int i = 0; i < a->count[TAILOR_IN_POINTS]; i++)
        if (strcmp(TAILOR_IN_POINT(a, i)->name, TAILOR_IN_POINT(b, i)->name))
            return 0;
    for (int i = 0; i < a->count[TAILOR_IN_MARKS]; i++)
        if (strcmp(TAILOR_IN_MARK(a, i)->name, TAILOR_IN_MARK(b, i)->name) ||
            TAILOR_IN_MARK(a, i)->first_cubic != TAILOR_IN_MARK(b, i)->first_cubic)
            return 0;
    for (int i = 0; i < a->count[TAILOR_IN_SEAMS]; i++) {
        const struct tailor_in_seam *x = TAILOR_IN_SEAM(a, i), *y = TAILOR_IN_SEAM(b, i);
        if (memcmp(x->first, y->first, sizeof x->first) || memcmp(x->count, y->count, sizeof x->count))
            return 0;
    }
    for (int i = 0; i < a->count[TAILOR_IN_STRETCHES]; i++)
        if (TAILOR_IN_STRETCH(a, i)->piece != TAILOR_IN_STRETCH(b, i)->piece ||
            TAILOR_IN_STRETCH(a, i)->edge != TAILOR_IN_STRETCH(b, i)->edge)
            return 0;
    return 1;
}

static void move_all(const tailor_grade *g, tailor_pattern *p, const double *steps)
{
    size_t cubics = (size_t)p->count[TAILOR_IN_CUBICS], points = (size_t)p->count[TAILOR_IN_POINTS];
    tailor_point *to = TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS)->p;
    struct tailor_in_named_point *point = TAILOR_IN_AT(p, struct tailor_in_named_point, TAILOR_IN_POINTS);
    for (int axis = 0; axis < g->axes; axis++) {
        if (steps[axis] == 0)
            continue;
        const tailor_point *move = g->move + (size_t)axis * 4 * cubics;
        for (size_t i = 0; i < 4 * cubics; i++)
            to[i] = tailor_in_along(to[i], move[i], steps[axis]);
        for (size_t i = 0; i < points; i++)
            point[i].at = tailor_in_along(point[i].at, g->point_move[(size_t)axis * points + i], steps[axis]);
    }
}

static void smooth_all(const tailor_grade *g, tailor_pattern *p)
{
    tailor_cubic *c = TAILOR_IN_AT(p, tailor_cubic, TAILOR_IN_CUBICS);
    for (int i = 0; i < p->count[TAILOR_IN_PIECES]; i++) {
        const struct tailor_in_piece *piece = TAILOR_IN_PIECE(p, i);
        for (int k = 0; k < piece->cubic_count; k++) {
            int here = piece->first_cubic + k,
                last = piece->first_cubic + (k + piece->cubic_count - 1) % piece->cubic_count;
            c[here].p[0] = c[last].p[3];
            if (g->flags[here] & TAILOR_IN_SMOOTH)
                tailor_in_smooth_joint(&c[last], g->flags[last], &c[here], g->flags[here]);
        }
    }
}

static double length_to(const tailor_pattern *p, const struct tailor_in_edge *edge, double place)
{
    return place >= edge->cubic_count
               ? -1
               : tailor_path_length_to(TAILOR_IN_CUBIC(p, edge->first_cubic), (size_t)edge->cubic_count, place);
}

/** Where the stretches of a moved pattern lie, and how much longer the first side of each seam is to be. */
static void move_seams(const tailor_grade *g, const tailor_pattern *from, tailor_pattern *p, const double *steps,
                       double *bound, double *gap)
{
    size_t seams = (size_t)p->count[TAILOR_IN_SEAMS], stretches = (size_t)p->count[TAILOR_IN_STRETCHES];
    struct tailor_in_seam *seam = TAILOR_IN_AT(p, struct tailor_in_seam, TAILOR_IN_SEAMS);
    if (from == g->base)
        memcpy(bound, g->bound, 2 * stretches * sizeof *bound);
    else
        for (size_t i = 0; i < stretches; i++)
            tailor_in_bounds_of(from, (int)i, bound + 2 * i);
    for (size_t i = 0; i < seams; i++) /* before the bounds move: they lie on `from` */
        gap[i] = from == g->base ? g->gap[i] : tailor_in_gap_of(from, (int)i, bound);
    for (int axis = 0; axis < g->axes; axis++) {
        for (size_t i = 0; i < seams; i++) {
            seam[i].ease += steps[axis] * g->ease_move[(size_t)axis * seams + i];
            gap[i] += steps[axis] * g->gap_move[(size_t)axis * seams + i];
        }
        for (size_t i = 0; i < 2 * stretches; i++)
            bound[i] += steps[axis] * g->bound_move[(size_t)axis * 2 * stretches + i];
    }
    for (size_t i = 0; i < 2 * stretches; i++)
        bound[i] = tailor_in_min(tailor_in_max(bound[i], 0), tailor_in_edge_of_stretch(p, (int)i / 2)->cubic_count);
}

/** The seams of a moved pattern: where they are sewn, how much is eased, both sides made equal. */
static tailor_status sew(const tailor_grade *g, const tailor_pattern *from, tailor_pattern *p, const double *steps,
                         double *bound, double *gap, tailor_fault *fault)
{
    move_seams(g, from, p, steps, bound, gap);
    int wrong = tailor_in_equalise(g, p, bound, gap, p->allocator);
    if (wrong == -2)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the seams");
    if (wrong >= 0)
        return tailor_in_fault(fault, TAILOR_NOT_CONVERGED, NULL, 0, wrong + 1, (double)NAN, (double)NAN,
                               "seam %v, counted from 1: its sides cannot be made equal again at these steps");
    tailor_stretch *stretch = TAILOR_IN_AT(p, tailor_stretch, TAILOR_IN_STRETCHES);
    for (int i = 0; i < p->count[TAILOR_IN_STRETCHES]; i++) {
        const struct tailor_in_edge *edge = tailor_in_edge_of_stretch(p, i);
        stretch[i].from = length_to(p, edge, bound[2 * i]);
        stretch[i].to = length_to(p, edge, bound[2 * i + 1]);
    }
    return TAILOR_OK;
}

/** An outline that was turned inside out is no pattern; nor is one of the size of a house. */
static tailor_status look_at_outlines(const tailor_pattern *p, tailor_fault *fault)
{
    for (int i = 0; i < p->count[TAILOR_IN_PIECES]; i++) {
        const struct tailor_in_piece *piece = TAILOR_IN_PIECE(p, i);
        double area = tailor_path_area(TAILOR_IN_CUBIC(p, piece->first_cubic), (size_t)piece->cubic_count);
        if (!(area >= 1e-6))
            return tailor_in_fault(fault, TAILOR_DEGENERATE, tailor_piece_table(), piece->number, i + 1, (double)NAN,
                                   (double)NAN, "at these steps nothing is left of piece %v, counted from 1");
    }
    const tailor_point *at = TAILOR_IN_CUBIC(p, 0)->p;
    for (int i = 0; i < 4 * p->count[TAILOR_IN_CUBICS]; i++)
        if (!(fabs(at[i].x) <= TAILOR_IN_FARTHEST && fabs(at[i].y) <= TAILOR_IN_FARTHEST))
            return tailor_in_fault_plain(fault, TAILOR_OUT_OF_RANGE,
                                         "at these steps something lies more than 10 m from the origin");
    return TAILOR_OK;
}

tailor_status tailor_grade_apply(const tailor_grade *g, const tailor_pattern *pattern, const double *steps,
                                 int axis_count, const tailor_allocator *allocator, tailor_pattern **graded,
                                 tailor_fault *fault)
{
    if (!g || !steps || !graded || axis_count != g->axes)
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, axis_count, g ? g->axes : 0, g ? g->axes : 0,
                               "grade, steps or graded are NULL, or %v steps for %l axes");
    int still = 1;
    for (int i = 0; i < axis_count; i++) {
        if (!isfinite(steps[i]) || fabs(steps[i]) > 1e6)
            return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "a step is not finite or beyond 1e6");
        still &= steps[i] == 0;
    }
    const tailor_pattern *from = pattern ? pattern : g->base;
    if (from != g->base && !same_make(from, g->base))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "the pattern is not made like the grade's base, piece for piece and curve for "
                                     "curve: give none, or one that this grade gave");
    tailor_allocator memory = tailor_in_allocator(allocator);
    tailor_pattern *made = tailor_in_pattern_copy(from, from->count, memory);
    if (!made)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the pattern");
    tailor_status status = TAILOR_OK;
    if (!still) {
        size_t bounds = 2 * (size_t)made->count[TAILOR_IN_STRETCHES];
        size_t n = bounds + (size_t)made->count[TAILOR_IN_SEAMS];
        double few[FEW], *bound = n <= FEW ? few : memory.allocate(memory.user, n * sizeof *few);
        if (!bound)
            status = tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the seams");
        if (status == TAILOR_OK) {
            move_all(g, made, steps);
            smooth_all(g, made);
            status = sew(g, from, made, steps, bound, bound + bounds, fault);
        }
        if (status == TAILOR_OK)
            status = look_at_outlines(made, fault);
        if (bound && bound != few)
            memory.release(memory.user, bound);
    }
    if (status != TAILOR_OK)
        tailor_pattern_free(made);
    else
        *graded = made;
    return status;
}

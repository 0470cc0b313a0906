/* The rule that a family of patterns follows: least squares for every control point at once. */
#include "inside.h"

#include <string.h>

#include "../base/fault.h"

enum { AXES = TAILOR_IN_MOST_AXES };

/** How much of each pattern's displacement goes into each axis: the steps times the inverse of their normal matrix
 * (Gauss-Jordan with pivots). 0 when the patterns do not tell the axes apart. */
static int shares_of(const double *steps, size_t count, int axes, double *share)
{
    double m[AXES][2 * AXES] = {{0}};
    double largest = 0;
    for (int a = 0; a < axes; a++) {
        for (int b = 0; b < axes; b++)
            for (size_t k = 0; k < count; k++)
                m[a][b] += steps[k * (size_t)axes + (size_t)a] * steps[k * (size_t)axes + (size_t)b];
        m[a][axes + a] = 1;
        largest = tailor_in_max(largest, m[a][a]);
    }
    for (int i = 0; i < axes; i++) {
        int pivot = i;
        for (int r = i + 1; r < axes; r++)
            if (fabs(m[r][i]) > fabs(m[pivot][i]))
                pivot = r;
        if (!(fabs(m[pivot][i]) > 1e-12 * largest))
            return 0;
        for (int c = 0; c < 2 * axes && pivot != i; c++) {
            double kept = m[i][c];
            m[i][c] = m[pivot][c];
            m[pivot][c] = kept;
        }
        for (int r = 0; r < axes; r++) {
            double factor = r == i ? 0 : m[r][i] / m[i][i];
            for (int c = 0; c < 2 * axes && factor != 0; c++)
                m[r][c] -= factor * m[i][c];
        }
        double scale = 1 / m[i][i];
        for (int c = 0; c < 2 * axes; c++)
            m[i][c] *= scale;
    }
    for (size_t k = 0; k < count; k++)
        for (int a = 0; a < axes; a++) {
            share[k * (size_t)axes + (size_t)a] = 0;
            for (int b = 0; b < axes; b++)
                share[k * (size_t)axes + (size_t)a] += steps[k * (size_t)axes + (size_t)b] * m[b][axes + a];
        }
    return 1;
}

struct family {
    tailor_pattern *const *pattern;
    const double *steps, *share; /* [pattern][axis] */
    size_t count;
    int axes;
};

/** Moves of one number by axis, and the largest miss; `at` finds the number in a pattern. */
static double fit_number(const struct family *f, const double *value, double *move)
{
    double worst = 0;
    for (int a = 0; a < f->axes; a++) {
        move[a] = 0;
        for (size_t k = 1; k < f->count; k++)
            move[a] += f->share[k * (size_t)f->axes + (size_t)a] * (value[k] - value[0]);
    }
    for (size_t k = 1; k < f->count; k++) {
        double miss = value[k] - value[0];
        for (int a = 0; a < f->axes; a++)
            miss -= f->steps[k * (size_t)f->axes + (size_t)a] * move[a];
        worst = fabs(miss) > worst ? fabs(miss) : worst;
    }
    return worst;
}

/** The same for a point: `place[k]` in each pattern; moves go to `to`, `stride` points apart by axis. */
static double fit_point(const struct family *f, const tailor_point *place, tailor_point *to, size_t stride)
{
    double x[64], y[64], mx[AXES], my[AXES];
    for (size_t k = 0; k < f->count; k++) {
        x[k] = place[k].x;
        y[k] = place[k].y;
    }
    double rx = fit_number(f, x, mx), ry = fit_number(f, y, my);
    for (int a = 0; a < f->axes; a++)
        to[(size_t)a * stride] = (tailor_point){mx[a], my[a]};
    return sqrt(rx * rx + ry * ry);
}

/** One control point; 0 when a pattern has not got it. */
static int fit_control(tailor_grade *g, const struct family *f, int cubic, int corner)
{
    tailor_point place[64];
    size_t cubics = (size_t)g->base->count[TAILOR_IN_CUBICS];
    for (size_t k = 0; k < f->count; k++) {
        place[k] = TAILOR_IN_CUBIC(f->pattern[k], cubic)->p[corner];
        if (!tailor_in_finite(place[k]))
            return 0;
    }
    g->residual[4 * cubic + corner] = fit_point(f, place, g->move + (size_t)cubic * 4 + (size_t)corner, cubics * 4);
    return 1;
}

static void fit_curves(tailor_grade *g, const struct family *f)
{
    const tailor_pattern *p = g->base;
    size_t points = (size_t)p->count[TAILOR_IN_POINTS];
    for (int i = 0; i < p->count[TAILOR_IN_CUBICS]; i++)
        for (int corner = 0; corner < 4; corner++)
            g->known[i] = (unsigned char)fit_control(g, f, i, corner);
    for (int i = 0; i < p->count[TAILOR_IN_POINTS]; i++) {
        tailor_point place[64];
        int all = 1;
        for (size_t k = 0; k < f->count; k++) {
            place[k] = TAILOR_IN_POINT(f->pattern[k], i)->at;
            all &= tailor_in_finite(place[k]);
        }
        if (all)
            g->point_residual[i] = fit_point(f, place, g->point_move + i, points);
        g->known[p->count[TAILOR_IN_CUBICS] + i] = (unsigned char)all;
    }
}

/** A number of each pattern's seams or stretches, in `moves` an axis and `stride` apart. */
static void fit_one(const struct family *f, const double *value, double *moves, size_t stride)
{
    double move[AXES];
    fit_number(f, value, move);
    for (int a = 0; a < f->axes; a++)
        moves[(size_t)a * stride] = move[a];
}

/** `bound` holds the bounds of every pattern's stretches, one pattern after the other. */
static void fit_seams(tailor_grade *g, const struct family *f, double *bound)
{
    size_t seams = (size_t)g->base->count[TAILOR_IN_SEAMS], bounds = 2 * (size_t)g->base->count[TAILOR_IN_STRETCHES];
    double value[64];
    for (size_t k = 0; k < f->count; k++)
        for (size_t i = 0; i < bounds; i += 2)
            tailor_in_bounds_of(f->pattern[k], (int)i / 2, bound + bounds * k + i);
    for (size_t i = 0; i < bounds; i++) {
        for (size_t k = 0; k < f->count; k++)
            value[k] = bound[bounds * k + i];
        fit_one(f, value, g->bound_move + i, bounds);
    }
    for (size_t i = 0; i < seams; i++) {
        for (size_t k = 0; k < f->count; k++)
            value[k] = TAILOR_IN_SEAM(f->pattern[k], i)->ease;
        fit_one(f, value, g->ease_move + i, seams);
        for (size_t k = 0; k < f->count; k++)
            value[k] = tailor_in_gap_of(f->pattern[k], (int)i, bound + bounds * k);
        fit_one(f, value, g->gap_move + i, seams);
    }
}

/** A joint is smooth, a curve straight, if it is so in every pattern. */
static tailor_status agree_on_flags(tailor_grade *g, const struct family *f)
{
    for (size_t k = 1; k < f->count; k++) {
        tailor_pattern *own = tailor_in_pattern_copy(f->pattern[k], f->pattern[k]->count, g->allocator);
        tailor_grade *other = own ? tailor_in_grade_new(own, 1, g->allocator) : NULL;
        if (!other)
            return TAILOR_NO_MEMORY;
        for (int i = 0; i < g->base->count[TAILOR_IN_CUBICS]; i++)
            g->flags[i] &= other->flags[i];
        tailor_grade_free(other);
    }
    tailor_in_grade_stiffen(g);
    return TAILOR_OK;
}

static tailor_status fit(tailor_pattern **conformed, size_t count, const double *steps, int axes, const double *share,
                         tailor_allocator memory, tailor_grade **grade)
{
    tailor_pattern *base = tailor_in_pattern_copy(conformed[0], conformed[0]->count, memory);
    tailor_grade *g = base ? tailor_in_grade_new(base, axes, memory) : NULL;
    if (!g)
        return TAILOR_NO_MEMORY;
    for (size_t k = 1; k < count; k++)
        tailor_in_pattern_agree(base, conformed[k]);
    const struct family f = {conformed, steps, share, count, axes};
    size_t bounds = 2 * (size_t)base->count[TAILOR_IN_STRETCHES];
    double *bound = memory.allocate(memory.user, (bounds * count + 1) * sizeof *bound);
    tailor_status status = bound ? TAILOR_OK : TAILOR_NO_MEMORY;
    if (bound) {
        fit_curves(g, &f);
        fit_seams(g, &f, bound);
        memory.release(memory.user, bound);
        status = agree_on_flags(g, &f);
    }
    if (status == TAILOR_OK)
        status = tailor_in_carry_inside(g);
    if (status != TAILOR_OK)
        tailor_grade_free(g);
    else
        *grade = g;
    return status;
}

static tailor_status look_at_steps(const double *steps, size_t count, int axes, tailor_fault *fault)
{
    for (size_t i = 0; i < count * (size_t)axes; i++) {
        if (!isfinite(steps[i]) || fabs(steps[i]) > 1e6)
            return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "a step is not finite or beyond 1e6");
        if (i < (size_t)axes && steps[i] != 0)
            return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, steps[i], 0, 0,
                                   "the first pattern is the base: its steps are 0, not %v");
    }
    return TAILOR_OK;
}

tailor_status tailor_grade_from_sizes(const tailor_pattern *const *patterns, size_t count, const double *steps,
                                      int axis_count, const tailor_allocator *allocator, tailor_grade **grade,
                                      tailor_fault *fault)
{
    if (!patterns || !steps || !grade || count < 2 || count > 64 || axis_count < 1 || axis_count > AXES)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "2 to 64 patterns, their steps on 1 to 8 axes, and a place for the grade");
    for (size_t k = 0; k < count; k++)
        if (!patterns[k])
            return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "a pattern is NULL");
    tailor_status status = look_at_steps(steps, count, axis_count, fault);
    if (status != TAILOR_OK)
        return status;
    tailor_allocator memory = tailor_in_allocator(allocator);
    tailor_pattern *conformed[64];
    double share[64 * AXES];
    if (!shares_of(steps, count, axis_count, share))
        return tailor_in_fault_plain(fault, TAILOR_DEGENERATE,
                                     "the steps do not tell the axes apart: give a size that moves on each alone");
    status = tailor_in_conform(patterns, count, memory, conformed, fault);
    if (status != TAILOR_OK)
        return status;
    status = fit(conformed, count, steps, axis_count, share, memory, grade);
    for (size_t k = 0; k < count; k++)
        tailor_pattern_free(conformed[k]);
    return status == TAILOR_OK ? status : tailor_in_fault_plain(fault, status, "no memory for the grade");
}

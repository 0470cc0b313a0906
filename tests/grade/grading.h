/* Coats of several sizes, grades made of them, and what to look at in a graded pattern. */
#ifndef TESTS_GRADE_GRADING_H
#define TESTS_GRADE_GRADING_H

#include <stdio.h>
#include <tailorgeom/grade.h>

#include "draft/drafting.h"
#include "support/seams.h"

static tailor_fault fault;

static inline void must(tailor_status status)
{
    if (status != TAILOR_OK)
        fail_msg("%s: %s", tailor_status_name(status), fault.sentence);
}

enum { SIZES = 7, RULES = 256 };
static const double chests[SIZES] = {914.4, 939.8, 965.2, 1016, 1066.8, 1092.2, 1117.6}; /* 36 to 44 in, and between */
static struct made size[SIZES];
enum { BASE = 3 };

static inline int set_up(void **state)
{
    (void)state;
    for (int i = 0; i < SIZES; i++)
        if (make(&size[i], ORDER({TAILOR_FIELD_CHEST_GIRTH, chests[i]})) != TAILOR_OK)
            return 1;
    return 0;
}

static inline int tear_down(void **state)
{
    (void)state;
    for (int i = 0; i < SIZES; i++)
        unmake(&size[i]);
    return 0;
}

/* ---- looking at a pattern */

/** How far the seam that is most off lies from its ease, by the lengths of the edges themselves. */
static inline double seams_off(const tailor_pattern *p)
{
    double worst = 0;
    for (int s = 0; s < tailor_pattern_seam_count(p); s++) {
        double beyond = 0, first = side_length(p, s, 0, &beyond), second = side_length(p, s, 1, &beyond);
        assert_at_most(beyond, 1e-9);
        worst = fmax(worst, fabs(first - second - tailor_seam_ease(p, s)));
    }
    return worst;
}

/** Greatest distance between the edges of two patterns, looked for from either: independent of how they are cut. */
static inline double apart_most(const tailor_pattern *a, const tailor_pattern *b)
{
    double worst = 0;
    for (int i = 0; i < tailor_pattern_piece_count(a); i++)
        for (int e = 0; e < tailor_piece_edge_count(a, i); e++) {
            size_t n, m;
            int other = tailor_pattern_find_piece(b, tailor_piece_name(a, i));
            const tailor_cubic *p = tailor_edge_path(a, i, e, &n),
                               *q = tailor_edge_path(b, other,
                                                     tailor_piece_find_edge(b, other, tailor_edge_name(a, i, e)), &m);
            for (int k = 0; k <= 24; k++) {
                double off;
                tailor_path_nearest(q, m, tailor_path_point(p, n, (double)n * k / 24), &off);
                worst = fmax(worst, off);
                tailor_path_nearest(p, n, tailor_path_point(q, m, (double)m * k / 24), &off);
                worst = fmax(worst, off);
            }
        }
    return worst;
}

/** Greatest distance between points, and control points of marks, of the same name. */
static inline double inside_apart(const tailor_pattern *a, const tailor_pattern *b)
{
    double worst = 0;
    for (int i = 0; i < tailor_pattern_piece_count(a); i++) {
        for (int k = 0; k < tailor_piece_point_count(a, i); k++)
            worst =
                fmax(worst, apart(tailor_point_place(a, i, k),
                                  tailor_point_place(b, i, tailor_piece_find_point(b, i, tailor_point_name(a, i, k)))));
        for (int k = 0; k < tailor_piece_mark_count(a, i); k++) {
            size_t n, m;
            const tailor_cubic *p = tailor_mark_path(a, i, k, &n),
                               *q = tailor_mark_path(b, i, tailor_piece_find_mark(b, i, tailor_mark_name(a, i, k)), &m);
            if (!strcmp(tailor_piece_name(a, i), "sidebody") && !strcmp(tailor_mark_name(a, i, k), "hip_pocket"))
                continue; /* the pocket does not reach the sidebody in the larger sizes: what not all have is carried */
            for (size_t c = 0; c < n && n == m; c++)
                for (int corner = 0; corner < 4; corner++)
                    worst = fmax(worst, apart(p[c].p[corner], q[c].p[corner]));
        }
    }
    return worst;
}

static inline double turn_at(const tailor_cubic *c, size_t n, size_t joint)
{
    tailor_point in = tailor_cubic_direction(&c[(joint + n - 1) % n], 1), out = tailor_cubic_direction(&c[joint], 0);
    return fabs(atan2(in.x * out.y - in.y * out.x, in.x * out.x + in.y * out.y)) * 180 / 3.14159265358979324;
}

/** The sharpest corner, in deg, where the base has none; joints between two straight lines do not count, since a rule
 * may bend those. */
static inline double new_corner(const tailor_pattern *base, const tailor_pattern *p)
{
    double worst = 0;
    for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
        size_t n, m;
        const tailor_cubic *c = tailor_piece_outline(p, i, &n), *b = tailor_piece_outline(base, i, &m);
        assert_int_equal(n, m);
        for (size_t k = 0; k < n; k++) {
            const tailor_cubic *before = &b[(k + n - 1) % n];
            int straight = fabs(tailor_cubic_length(before) - apart(before->p[0], before->p[3])) < 1e-9 &&
                           fabs(tailor_cubic_length(&b[k]) - apart(b[k].p[0], b[k].p[3])) < 1e-9;
            if (turn_at(b, n, k) < 1e-4 && !straight)
                worst = fmax(worst, turn_at(c, n, k));
        }
    }
    return worst;
}

/* ---- making grades */

static inline tailor_grade *family(const int *which, int count, const double *steps, int axes)
{
    const tailor_pattern *patterns[SIZES];
    tailor_grade *grade = NULL;
    for (int i = 0; i < count; i++)
        patterns[i] = size[which[i]].coat;
    must(tailor_grade_from_sizes(patterns, (size_t)count, steps, axes, NULL, &grade, &fault));
    return grade;
}

/** Rules as a workroom has them, a name and two numbers a point: read off a family for every end of an edge and every
 * named point. */
struct rules {
    tailor_rule rule[RULES];
    char name[RULES][64], piece_name[RULES][32];
    tailor_point move[RULES];
    size_t count;
};

static inline void read_rules(const tailor_grade *grade, struct rules *r)
{
    const tailor_pattern *p = tailor_grade_base(grade);
    r->count = 0;
    for (int i = 0; i < tailor_pattern_piece_count(p); i++)
        for (int k = 0; k < tailor_piece_edge_count(p, i) + tailor_piece_point_count(p, i); k++) {
            int edges = tailor_piece_edge_count(p, i);
            assert_true(r->count < RULES);
            if (k < edges)
                snprintf(r->name[r->count], 64, "%s.start", tailor_edge_name(p, i, k));
            else
                snprintf(r->name[r->count], 64, "%s", tailor_point_name(p, i, k - edges));
            snprintf(r->piece_name[r->count], 32, "%s", tailor_piece_name(p, i));
            r->rule[r->count] = (tailor_rule){r->piece_name[r->count], r->name[r->count]};
            must(tailor_grade_rule(grade, r->piece_name[r->count], r->name[r->count], 0, &r->move[r->count], NULL));
            r->count++;
        }
}

static inline tailor_grade *by_rules(const tailor_pattern *base, const struct rules *r)
{
    tailor_grade *grade = NULL;
    must(tailor_grade_from_rules(base, r->rule, r->move, r->count, 1, NULL, &grade, &fault));
    return grade;
}

static inline tailor_grade *workroom(struct rules *r)
{
    tailor_grade *two = family((const int[]){3, 4}, 2, (const double[]){0, 1}, 1);
    read_rules(two, r);
    tailor_grade_free(two);
    return by_rules(size[BASE].coat, r);
}

static inline tailor_pattern *graded(const tailor_grade *grade, const tailor_pattern *from, const double *steps)
{
    tailor_pattern *p = NULL;
    must(tailor_grade_apply(grade, from, steps, tailor_grade_axis_count(grade), NULL, &p, &fault));
    return p;
}

#endif

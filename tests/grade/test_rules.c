/* Rules on a pattern that was built, rules that are none, families that are none, memory that is not there. */
#include "grading.h"

/* ---- a pattern of straight edges: moves that turn, shear and stretch it are carried exactly, inside too */

static tailor_pattern *flap(double gap)
{
    static const tailor_point corner[5] = {{0, 0}, {120, 10}, {150, 60}, {90, 110}, {-10, 80}};
    static const char *const names[5] = {"hem", "front", "top", "back", "side"};
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    must(tailor_builder_begin(NULL, &b, &fault));
    for (int piece = 0; piece < 2; piece++) {
        must(tailor_builder_add_piece(b, piece ? "lining" : "flap", 2, 1, TAILOR_SIDE_RIGHT, "cloth", &fault));
        for (int i = 0; i < 5; i++) {
            tailor_point from = corner[i], to = corner[(i + 1) % 5];
            from.y += piece && i == 2 ? gap : 0;
            to.y += piece && i == 1 ? gap : 0;
            tailor_cubic line = tailor_cubic_line(from, to);
            must(tailor_builder_add_edge(b, names[i], &line, 1, &fault));
        }
        tailor_cubic inside = tailor_cubic_line((tailor_point){20, 30}, (tailor_point){80, 70});
        must(tailor_builder_add_point(b, "middle", (tailor_point){60, 50}, &fault));
        must(tailor_builder_add_point(b, "beside", (tailor_point){160, -30}, &fault));
        must(tailor_builder_add_point(b, "on_hem", (tailor_point){60, 5}, &fault));
        must(tailor_builder_add_mark(b, "welt", TAILOR_MARK_LINE, &inside, 1, &fault));
        must(tailor_builder_add_mark(b, "button_1", TAILOR_MARK_BUTTON, &inside, 1, &fault));
    }
    must(tailor_builder_add_seam(b, "top", 0, &fault));
    must(tailor_builder_add_stretch(b, 0, "flap", "top", 0, NAN, &fault));
    must(tailor_builder_add_stretch(b, 1, "lining", "top", 0, NAN, &fault));
    must(tailor_builder_finish(b, NULL, &p, &fault));
    tailor_builder_free(b);
    return p;
}

static tailor_point affine(tailor_point a)
{
    return (tailor_point){0.07 * a.x - 0.03 * a.y + 2, 0.02 * a.x + 0.05 * a.y - 1};
}

static void affine_moves_are_exact(void **state)
{
    (void)state;
    tailor_pattern *p = flap(0);
    tailor_rule rule[10];
    tailor_point move[10];
    static const char *const ends[5] = {"hem.start", "front.start", "top.start", "back.start", "side.start"};
    for (int i = 0; i < 10; i++) {
        size_t n;
        rule[i] = (tailor_rule){tailor_piece_name(p, i / 5), ends[i % 5]};
        move[i] = affine(tailor_edge_path(p, i / 5, i % 5, &n)[0].p[0]);
    }
    tailor_grade *grade = NULL;
    must(tailor_grade_from_rules(p, rule, move, 10, 1, NULL, &grade, &fault));
    for (int k = -2; k <= 3; k++) {
        double step = k;
        tailor_pattern *q = graded(grade, NULL, &step);
        for (int i = 0; i < 2; i++) {
            size_t n;
            const tailor_cubic *a = tailor_piece_outline(p, i, &n), *b = tailor_piece_outline(q, i, &n);
            for (size_t c = 0; c < n; c++)
                for (int corner = 0; corner < 4; corner++) {
                    tailor_point u = affine(a[c].p[corner]);
                    assert_close(b[c].p[corner].x, a[c].p[corner].x + step * u.x, 1e-9);
                    assert_close(b[c].p[corner].y, a[c].p[corner].y + step * u.y, 1e-9);
                }
            for (int m = 0; m < 3; m++) {
                tailor_point from = tailor_point_place(p, i, m), u = affine(from), to = tailor_point_place(q, i, m);
                assert_close(to.x, from.x + step * u.x, 1e-9);
                assert_close(to.y, from.y + step * u.y, 1e-9);
            }
            const tailor_cubic *w = tailor_mark_path(p, i, 0, &n), *v = tailor_mark_path(q, i, 0, &n);
            for (int corner = 0; corner < 4; corner++)
                assert_close(v->p[corner].y, w->p[corner].y + step * affine(w->p[corner]).y, 1e-9);
            /* a button keeps its size */
            const tailor_cubic *x = tailor_mark_path(p, i, 1, &n), *y = tailor_mark_path(q, i, 1, &n);
            assert_close(apart(y->p[0], y->p[3]), apart(x->p[0], x->p[3]), 1e-9);
        }
        tailor_pattern_free(q);
    }
    tailor_grade_free(grade);
    tailor_pattern_free(p);
}

static void two_axes_add_up(void **state)
{
    (void)state;
    tailor_pattern *p = flap(0);
    const tailor_rule rule[] = {
        {"flap", "top.start"}, {"flap", "top.end"}, {"lining", "top.start"}, {"lining", "top.end"}};
    const tailor_point move[] = {{3, 0}, {0, 1}, {0, 0}, {0, 2}, {3, 0}, {0, 1}, {0, 0}, {0, 2}};
    tailor_grade *grade = NULL;
    must(tailor_grade_from_rules(p, rule, move, 4, 2, NULL, &grade, &fault));
    tailor_pattern *q = graded(grade, NULL, (const double[]){2, 1});
    size_t n;
    const tailor_cubic *a = tailor_edge_path(p, 0, 2, &n), *b = tailor_edge_path(q, 0, 2, &n);
    assert_close(b->p[0].x, a->p[0].x + 6, 1e-9);
    assert_close(b->p[0].y, a->p[0].y + 1, 1e-9);
    assert_close(b->p[3].y, a->p[3].y + 2, 1e-9);
    tailor_pattern_free(q);
    /* A rule for one side of a seam only: both sides give way by half. */
    tailor_grade *one = NULL;
    must(tailor_grade_from_rules(p, rule, (const tailor_point[]){{0, 0}, {-4, 0}}, 2, 1, NULL, &one, &fault));
    double step = 1;
    q = graded(one, NULL, &step);
    assert_at_most(seams_off(q), 1e-7);
    const double longer = side_length(q, 0, 0, NULL) - side_length(p, 0, 0, NULL);
    assert_true(longer > 0.5 && longer < 2);
    tailor_pattern_free(q);
    tailor_grade_free(one);
    tailor_grade_free(grade);
    tailor_pattern_free(p);
}

/* ---- what is no rule */

static void is_refused(const char *piece, const char *point, tailor_point move, int status, const char *said)
{
    tailor_pattern *p = flap(0);
    tailor_grade *grade = NULL;
    const tailor_rule rules[] = {{"flap", "hem.start"}, {piece, point}};
    const tailor_point moves[] = {{1, 1}, move};
    memset(&fault, 0, sizeof fault);
    assert_int_equal(tailor_grade_from_rules(p, rules, moves, 2, 1, NULL, &grade, &fault), status);
    assert_null(grade);
    assert_int_equal(fault.status, status);
    assert_int_equal(fault.place, 2);
    if (!strstr(fault.sentence, said) || !strstr(fault.sentence, "rule 2: "))
        fail_msg("\"%s\" does not say \"%s\"", fault.sentence, said);
    tailor_pattern_free(p);
}

static void what_is_no_rule(void **state)
{
    (void)state;
    const tailor_point some = {2, 2};
    is_refused("sleeve", "top.start", some, TAILOR_BAD_ARGUMENT, "no piece of that name");
    is_refused("flap", "elbow", some, TAILOR_BAD_ARGUMENT, "no point of that name");
    is_refused("flap", "elbow.start", some, TAILOR_BAD_ARGUMENT, "no point of that name");
    is_refused("flap", "top", some, TAILOR_BAD_ARGUMENT, "no point of that name");
    is_refused("flap", "top.middle", some, TAILOR_BAD_ARGUMENT, "no point of that name");
    is_refused("flap", NULL, some, TAILOR_BAD_ARGUMENT, "no point of that name");
    is_refused(NULL, "top.start", some, TAILOR_BAD_ARGUMENT, "no piece of that name");
    is_refused("flap", "side.end", some, TAILOR_CONTRADICTION, "an earlier rule");
    is_refused("flap", "top.start", (tailor_point){NAN, 0}, TAILOR_NOT_FINITE, "no number");

    tailor_pattern *p = flap(0), *q = NULL;
    tailor_grade *grade = NULL;
    const tailor_rule rule = {"flap", "hem.start"};
    const tailor_point move[9] = {{1, 1}};
    assert_int_equal(tailor_grade_from_rules(p, &rule, move, 1, 0, NULL, &grade, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_from_rules(p, &rule, move, 1, 9, NULL, &grade, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_from_rules(NULL, &rule, move, 1, 1, NULL, &grade, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_from_rules(p, NULL, move, 1, 1, NULL, &grade, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_from_rules(p, &rule, NULL, 1, 1, NULL, &grade, &fault), TAILOR_BAD_ARGUMENT);
    must(tailor_grade_from_rules(p, NULL, NULL, 0, 1, NULL, &grade, &fault)); /* no rules: nothing moves */
    double step = 3;
    q = graded(grade, NULL, &step);
    assert_at_most(apart_most(p, q), 1e-12);
    tailor_pattern_free(q);
    q = NULL;
    assert_int_equal(tailor_grade_apply(grade, NULL, &step, 2, NULL, &q, &fault), TAILOR_BAD_ARGUMENT);
    step = NAN;
    assert_int_equal(tailor_grade_apply(grade, NULL, &step, 1, NULL, &q, &fault), TAILOR_NOT_FINITE);
    step = 1;
    assert_int_equal(tailor_grade_apply(grade, size[0].coat, &step, 1, NULL, &q, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_apply(NULL, NULL, &step, 1, NULL, &q, &fault), TAILOR_BAD_ARGUMENT);
    tailor_point got;
    assert_int_equal(tailor_grade_rule(grade, "flap", "hem.start", 1, &got, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_rule(grade, "flap", "nape", 0, &got, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_axis_count(NULL), 0);
    assert_null(tailor_grade_base(NULL));
    tailor_grade_free(grade);
    /* Turned inside out. */
    const tailor_rule ends[] = {{"flap", "top.start"}, {"flap", "back.start"}, {"flap", "side.start"}};
    const tailor_point in[] = {{0, -60}, {0, -110}, {0, -80}};
    must(tailor_grade_from_rules(p, ends, in, 3, 1, NULL, &grade, &fault));
    step = 4;
    assert_int_equal(tailor_grade_apply(grade, NULL, &step, 1, NULL, &q, &fault), TAILOR_DEGENERATE);
    assert_null(q);
    tailor_grade_free(grade);
    /* No family. */
    const tailor_pattern *strangers[] = {size[0].coat, p}, *twins[] = {size[0].coat, size[1].coat, size[2].coat};
    grade = NULL;
    assert_int_equal(tailor_grade_from_sizes(strangers, 2, (const double[]){0, 1}, 1, NULL, &grade, &fault),
                     TAILOR_CONTRADICTION);
    assert_int_equal(tailor_grade_from_sizes(twins, 3, (const double[]){0, 0, 1, 1, 2, 2}, 2, NULL, &grade, &fault),
                     TAILOR_DEGENERATE);
    assert_int_equal(tailor_grade_from_sizes(twins, 3, (const double[]){1, 2, 3}, 1, NULL, &grade, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_from_sizes(twins, 1, (const double[]){0}, 1, NULL, &grade, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_grade_from_sizes(twins, 2, (const double[]){0, NAN}, 1, NULL, &grade, &fault),
                     TAILOR_NOT_FINITE);
    assert_null(grade);
    tailor_pattern_free(p);
}

/* ---- memory */

struct memory {
    int calls, fail_at, alive;
};

static void *give(void *user, size_t bytes)
{
    struct memory *m = user;
    if (++m->calls == m->fail_at)
        return NULL;
    m->alive++;
    return malloc(bytes);
}

static void take(void *user, void *block)
{
    ((struct memory *)user)->alive -= block != NULL;
    free(block);
}

/** A family, a table of rules, and a pattern from each. */
static tailor_status all_of_it(const tailor_allocator *memory)
{
    const tailor_pattern *patterns[] = {size[3].coat, size[0].coat};
    const tailor_rule rule = {"back", "shoulder_end"};
    const tailor_point move[] = {{2, 1}};
    tailor_grade *grade[2] = {NULL, NULL};
    tailor_pattern *p[2] = {NULL, NULL};
    double step = 0.5;
    tailor_status status = tailor_grade_from_sizes(patterns, 2, (const double[]){0, 1}, 1, memory, &grade[0], &fault);
    if (!status)
        status = tailor_grade_from_rules(size[3].coat, &rule, move, 1, 1, memory, &grade[1], &fault);
    for (int i = 0; i < 2 && !status; i++)
        status = tailor_grade_apply(grade[i], NULL, &step, 1, memory, &p[i], &fault);
    for (int i = 0; i < 2; i++) {
        tailor_pattern_free(p[i]);
        tailor_grade_free(grade[i]);
    }
    return status;
}

static void every_allocation_fails_in_turn(void **state)
{
    (void)state;
    int failed = 0;
    for (int k = 1;; k++) {
        struct memory memory = {0, k, 0};
        const tailor_allocator allocator = {give, take, &memory};
        tailor_status status = all_of_it(&allocator);
        assert_int_equal(memory.alive, 0);
        if (status == TAILOR_OK)
            break;
        assert_int_equal(status, TAILOR_NO_MEMORY);
        assert_int_equal(fault.status, TAILOR_NO_MEMORY);
        failed++;
    }
    assert_true(failed > 10);
}

int test_rules(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(affine_moves_are_exact),
        cmocka_unit_test(two_axes_add_up),
        cmocka_unit_test(what_is_no_rule),
        cmocka_unit_test(every_allocation_fails_in_turn),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}

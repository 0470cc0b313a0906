/* A seam of two stretches against three: built and read, graded by rules and from sizes. A side is the sum of its
 * stretches, and what is made equal again is that sum. */
#include "grading.h"

enum { PIECES = 5 };
static const char *const names[PIECES] = {"one", "two", "three", "four", "five"};

static void add_strip(tailor_builder *b, int piece, double width)
{
    const tailor_point corner[4] = {{0, 0}, {width, 0}, {width, 80 + piece}, {0, 80}};
    static const char *const edges[4] = {"hem", "front", "top", "back"};
    must(tailor_builder_add_piece(b, names[piece], 2, 1, TAILOR_SIDE_RIGHT, "cloth", &fault));
    for (int i = 0; i < 4; i++) {
        tailor_cubic c = tailor_cubic_line(corner[i], corner[(i + 1) % 4]);
        if (i == 2) { /* the top is a curve, so that a bound within it is no joint */
            c.p[1].y += 12;
            c.p[2].y += 5;
        }
        must(tailor_builder_add_edge(b, edges[i], &c, 1, &fault));
    }
}

/** One after the other from its middle, and all of two, against part of three, four from its end, and the whole of five
 * the other way; and a plain seam between hems that shares no edge with it. */
static tailor_pattern *strips(double wider)
{
    static const struct {
        int side, piece;
        double from, to;
    } sewn[] = {{1, 2, 60, 5}, {0, 0, 50, NAN}, {0, 1, 0, NAN}, {1, 3, NAN, 30}, {1, 4, 0, NAN}};
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    must(tailor_builder_begin(NULL, &b, &fault));
    for (int i = 0; i < PIECES; i++)
        add_strip(b, i, 100 + 7 * i + (i < 2 ? wider : wider * 2 / 3));
    must(tailor_builder_add_seam(b, "hems", 0, &fault));
    must(tailor_builder_add_stretch(b, 0, "one", "hem", 0, NAN, &fault));
    must(tailor_builder_add_stretch(b, 1, "two", "hem", NAN, 7 + (wider > 0 ? 0 : wider), &fault));
    must(tailor_builder_add_seam(b, "round", 0, &fault));
    for (size_t i = 0; i < sizeof sewn / sizeof *sewn; i++)
        must(tailor_builder_add_stretch(b, sewn[i].side, names[sewn[i].piece], "top", sewn[i].from, sewn[i].to,
                                        &fault));
    must(tailor_builder_finish(b, NULL, &p, &fault));
    tailor_builder_free(b);
    return p;
}

static double gap_of(const tailor_pattern *p, const char *name)
{
    double beyond = 0;
    const int seam = tailor_pattern_find_seam(p, name);
    const double gap = side_length(p, seam, 0, &beyond) - side_length(p, seam, 1, &beyond);
    assert_at_most(beyond, 1e-9);
    return gap;
}

static void it_is_built_and_read(void **state)
{
    (void)state;
    static const tailor_stretch wanted[] = {
        {0, 2, 50, NAN}, {1, 2, 0, NAN}, {2, 2, 60, 5}, {3, 2, NAN, 30}, {4, 2, 0, NAN}};
    tailor_pattern *p = strips(0);
    const int seam = tailor_pattern_find_seam(p, "round");
    assert_int_equal(tailor_seam_stretch_count(p, seam, 0), 2);
    assert_int_equal(tailor_seam_stretch_count(p, seam, 1), 3);
    for (int i = 0; i < 5; i++) { /* each side in the order of adding, whichever side was added to first */
        const tailor_stretch sewn = stretch_of(p, seam, i >= 2, i < 2 ? i : i - 2);
        size_t n;
        const double whole = tailor_path_length(tailor_edge_path(p, sewn.piece, sewn.edge, &n), 1);
        assert_true(sewn.piece == wanted[i].piece && sewn.edge == wanted[i].edge);
        assert_close(sewn.from, isnan(wanted[i].from) ? whole : wanted[i].from, 1e-9);
        assert_close(sewn.to, isnan(wanted[i].to) ? whole : wanted[i].to, 1e-9);
    }
    tailor_pattern_free(p);
}

static void rules_keep_what_its_sides_differ_in(void **state)
{
    (void)state;
    tailor_pattern *p = strips(0);
    const tailor_rule rule[] = {{"one", "top.start"}, {"one", "top.end"},    {"four", "top.start"},
                                {"four", "top.end"},  {"five", "top.start"}, {"five", "top.end"}};
    const tailor_point move[] = {{9, 2}, {0, 0}, {1, 0}, {-1, 3}, {2, 0}, {0, 0}};
    tailor_grade *g = NULL;
    must(tailor_grade_from_rules(p, rule, move, 6, 1, NULL, &g, &fault));
    const double before = side_length(p, tailor_pattern_find_seam(p, "round"), 0, NULL);
    for (double step = -1; step <= 2; step += 0.5) {
        tailor_pattern *q = NULL, *back = NULL;
        const double home = -step;
        must(tailor_grade_apply(g, NULL, &step, 1, NULL, &q, &fault));
        assert_close(gap_of(q, "round"), gap_of(p, "round"), 1e-6);
        assert_close(gap_of(q, "hems"), gap_of(p, "hems"), 1e-6);
        if (step != 0) /* it is not that nothing moved */
            assert_true(fabs(side_length(q, tailor_pattern_find_seam(q, "round"), 0, NULL) - before) > 0.5);
        must(tailor_grade_apply(g, q, &home, 1, NULL, &back, &fault));
        assert_close(gap_of(back, "round"), gap_of(p, "round"), 1e-6);
        assert_at_most(apart_most(back, p), 0.25);
        tailor_pattern_free(q);
        tailor_pattern_free(back);
    }
    tailor_grade_free(g);
    tailor_pattern_free(p);
}

static void a_family_is_met(void **state)
{
    (void)state;
    tailor_pattern *p[2] = {strips(0), strips(12)}, *q = NULL;
    const double steps[2] = {0, 1}, half = 0.5;
    tailor_grade *g = NULL;
    must(tailor_grade_from_sizes((const tailor_pattern *const *)p, 2, steps, 1, NULL, &g, &fault));
    must(tailor_grade_apply(g, NULL, &steps[1], 1, NULL, &q, &fault));
    assert_at_most(apart_most(q, p[1]), 1e-6);
    assert_close(gap_of(q, "round"), gap_of(p[1], "round"), 1e-6);
    const int seam = tailor_pattern_find_seam(q, "round");
    for (int side = 0; side < 2; side++) /* bounds within a curve come to lie where the size has them */
        for (int i = 0; i < tailor_seam_stretch_count(q, seam, side); i++) {
            const tailor_stretch a = stretch_of(q, seam, side, i), b = stretch_of(p[1], seam, side, i);
            assert_close(a.from, b.from, 1e-6);
            assert_close(a.to, b.to, 1e-6);
        }
    tailor_pattern_free(q);
    must(tailor_grade_apply(g, NULL, &half, 1, NULL, &q, &fault));
    assert_close(gap_of(q, "round"), (gap_of(p[0], "round") + gap_of(p[1], "round")) / 2, 1e-6);
    tailor_pattern_free(q);
    tailor_grade_free(g);
    /* another number of stretches is another make */
    tailor_builder *b = NULL;
    tailor_pattern *other = NULL;
    must(tailor_builder_begin(NULL, &b, &fault));
    for (int i = 0; i < PIECES; i++)
        add_strip(b, i, 100 + 7 * i);
    static const char *const seams[] = {"hems", "round"};
    for (int i = 0; i < 2; i++) {
        must(tailor_builder_add_seam(b, seams[i], 0, &fault));
        must(tailor_builder_add_stretch(b, 0, "one", i ? "top" : "hem", 0, NAN, &fault));
        must(tailor_builder_add_stretch(b, 1, "two", i ? "top" : "hem", NAN, 0, &fault));
    }
    must(tailor_builder_finish(b, NULL, &other, &fault));
    const tailor_pattern *unlike[2] = {p[0], other};
    assert_int_equal(tailor_grade_from_sizes(unlike, 2, steps, 1, NULL, &g, &fault), TAILOR_CONTRADICTION);
    assert_non_null(strstr(fault.sentence, "a seam is not there"));
    tailor_builder_free(b);
    tailor_pattern_free(other);
    tailor_pattern_free(p[0]);
    tailor_pattern_free(p[1]);
}

int test_stretches(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_built_and_read),
        cmocka_unit_test(rules_keep_what_its_sides_differ_in),
        cmocka_unit_test(a_family_is_met),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* The canvas lays as calls: what is refused and in which words, determinism, both sides, doubled cloth, memory. What
 * the layouts look like is Shapely's business: tests/python/test_python_canvas.py. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>
#include <cmocka.h>
#include <tailorgeom/canvas.h>
#include <tailorgeom/coat.h>
#include "../lay/shapes.h"

static tailor_fault fault;
static tailor_coat *coats[3];
static const tailor_pattern *coat, *uneven, *net;

static const tailor_pattern *make(double low_shoulder, int extent, tailor_coat **made)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    if (low_shoulder > 0)
        client[TAILOR_FIELD_LOW_SHOULDER_RIGHT] = low_shoulder;
    assert_int_equal(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, extent, made, &fault), TAILOR_OK);
    return tailor_coat_pattern(*made);
}

static int make_coats(void **state)
{
    (void)state;
    coat = make(0, TAILOR_EXTENT_MAKE, &coats[0]);
    uneven = make(15, TAILOR_EXTENT_MAKE, &coats[1]);
    net = make(0, TAILOR_EXTENT_NET, &coats[2]);
    return 0;
}

static int free_coats(void **state)
{
    (void)state;
    for (int i = 0; i < 3; i++)
        tailor_coat_free(coats[i]);
    return 0;
}

typedef struct {
    int choice;
    double value;
} chosen;

static tailor_status begin_of(const tailor_pattern *pattern, const char *cloth, const chosen *list, tailor_canvas **c)
{
    double choices[TAILOR_CANVAS_CHOICE_COUNT];
    tailor_fields_clear(choices, TAILOR_CANVAS_CHOICE_COUNT);
    for (; list && list->choice; list++)
        choices[list->choice] = list->value;
    *c = NULL;
    memset(&fault, 0, sizeof fault);
    return tailor_canvas_begin(pattern, cloth, choices, TAILOR_CANVAS_CHOICE_COUNT, 1, NULL, c, &fault);
}

static tailor_canvas *must_begin(const tailor_pattern *pattern, const char *cloth, const chosen *list)
{
    tailor_canvas *c;
    if (begin_of(pattern, cloth, list, &c) != TAILOR_OK)
        fail_msg("%s", fault.sentence);
    return c;
}

static double result(const tailor_canvas *c, int which) { return tailor_canvas_result(c, which); }

static void refusals(void **state)
{
    (void)state;
    const struct {
        chosen list[3];
        int status;
        const char *says;
    } cases[] = {
        {{{TAILOR_CANVAS_CHOICE_ANGLE, 91}}, TAILOR_OUT_OF_RANGE, "-90 to 90"},
        {{{TAILOR_CANVAS_CHOICE_ANGLE, INFINITY}}, TAILOR_NOT_FINITE, "infinite"},
        {{{TAILOR_CANVAS_CHOICE_WIDTH, 99}}, TAILOR_OUT_OF_RANGE, "99 mm wide"},
        {{{TAILOR_CANVAS_CHOICE_WIDTH, 6000}}, TAILOR_OUT_OF_RANGE, "100 to 5000"},
        {{{TAILOR_CANVAS_CHOICE_PLIES, 0}}, TAILOR_BAD_ARGUMENT, "single, folded or in two layers"},
        {{{TAILOR_CANVAS_CHOICE_PLIES, 1.5}}, TAILOR_BAD_ARGUMENT, "1.5"},
        {{{TAILOR_CANVAS_CHOICE_SIDES, 3}}, TAILOR_BAD_ARGUMENT, "mirrored or alike"},
        {{{TAILOR_CANVAS_CHOICE_GAP, -1}}, TAILOR_OUT_OF_RANGE, "gap"},
        {{{TAILOR_CANVAS_CHOICE_OVERLAP, 2}}, TAILOR_OUT_OF_RANGE, "lap over by 5 to 60 mm"},
        {{{TAILOR_CANVAS_CHOICE_OVERLAP, -0.5}}, TAILOR_OUT_OF_RANGE, "lap over"},
        {{{TAILOR_CANVAS_CHOICE_PLIES, 2}, {TAILOR_CANVAS_CHOICE_SIDES, 2}}, TAILOR_BAD_ARGUMENT, "lay it single"},
        {{{TAILOR_CANVAS_CHOICE_WIDTH, 300}, {TAILOR_CANVAS_CHOICE_ANGLE, 45}},
         TAILOR_OUT_OF_RANGE,
         "body_canvas takes 6"},
        {{{TAILOR_CANVAS_CHOICE_WIDTH, 200}, {TAILOR_CANVAS_CHOICE_OVERLAP, 20}},
         TAILOR_OUT_OF_RANGE,
         "no single join"},
    };
    tailor_canvas *c;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        assert_int_equal(begin_of(coat, "canvas", cases[i].list, &c), cases[i].status);
        assert_int_equal(fault.status, cases[i].status);
        assert_null(c);
        if (!strstr(fault.sentence, cases[i].says))
            fail_msg("%s", fault.sentence);
    }
    const chosen narrow[] = {{TAILOR_CANVAS_CHOICE_WIDTH, 300}, {TAILOR_CANVAS_CHOICE_ANGLE, 45}, {0, 0}};
    begin_of(coat, "canvas", narrow, &c);
    assert_int_equal(fault.index, TAILOR_PIECE_BODY_CANVAS);
    assert_true(fault.high >= 300 && fault.high <= 300 && fault.value > 500);
    assert_int_equal(begin_of(coat, "silk", NULL, &c), TAILOR_BAD_ARGUMENT);
    assert_int_equal(begin_of(net, "canvas", NULL, &c), TAILOR_BAD_ARGUMENT);
    assert_non_null(strstr(fault.sentence, "whole make"));
    assert_int_equal(begin_of(NULL, "canvas", NULL, &c), TAILOR_BAD_ARGUMENT);
    assert_int_equal(begin_of(coat, NULL, NULL, &c), TAILOR_BAD_ARGUMENT);
    const chosen folded[] = {{TAILOR_CANVAS_CHOICE_PLIES, 2}, {TAILOR_CANVAS_CHOICE_WIDTH, 1500}, {0, 0}};
    assert_int_equal(begin_of(uneven, "canvas", folded, &c), TAILOR_BAD_ARGUMENT);
    assert_non_null(strstr(fault.sentence, "one side only"));
    double more[TAILOR_CANVAS_CHOICE_COUNT + 1];
    tailor_fields_clear(more, TAILOR_CANVAS_CHOICE_COUNT + 1);
    assert_int_equal(tailor_canvas_begin(coat, "haircloth", more, TAILOR_CANVAS_CHOICE_COUNT + 1, 1, NULL, &c, NULL),
                     TAILOR_OK);
    tailor_canvas_free(c);
    more[TAILOR_CANVAS_CHOICE_COUNT] = 1;
    assert_int_equal(tailor_canvas_begin(coat, "canvas", more, TAILOR_CANVAS_CHOICE_COUNT + 1, 1, NULL, &c, &fault),
                     TAILOR_BAD_ARGUMENT);
}

static void nothing_is_asked_of_nothing(void **state)
{
    (void)state;
    size_t needed;
    double matrix[6];
    tailor_canvas_free(NULL);
    assert_int_equal(tailor_canvas_step(NULL, 1), TAILOR_BAD_ARGUMENT);
    assert_null(tailor_canvas_pattern(NULL));
    assert_null(tailor_canvas_cloth(NULL));
    assert_null(tailor_canvas_lay(NULL, 0));
    assert_true(isnan(tailor_canvas_strip_width(NULL)) && isnan(result(NULL, 1)));
    assert_true(isnan(tailor_canvas_choice(NULL, 1)));
    assert_int_equal(tailor_canvas_place(NULL, 0, 0, NULL, NULL, NULL, NULL), TAILOR_BAD_ARGUMENT);
    tailor_canvas *c = must_begin(coat, "haircloth", NULL);
    assert_int_equal(tailor_canvas_place(c, 0, 4, NULL, NULL, NULL, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_canvas_place(c, 0, -1, NULL, NULL, NULL, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_canvas_place(c, 0, 3, NULL, NULL, NULL, NULL), TAILOR_OK);
    assert_int_equal(tailor_canvas_outline(c, 0, 0, NULL, 1, &needed), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_canvas_matrix(c, 0, 9, matrix), TAILOR_BAD_ARGUMENT);
    tailor_cubic few[1];
    assert_int_equal(tailor_canvas_outline(c, 0, 0, few, 1, &needed), TAILOR_TOO_SMALL);
    assert_true(isnan(result(c, 0)) && isnan(result(c, TAILOR_CANVAS_RESULT_COUNT)));
    assert_int_equal(tailor_canvas_step(c, -1), TAILOR_BAD_ARGUMENT);
    tailor_canvas_free(c);
}

static void rules_where_nothing_is_chosen(void **state)
{
    (void)state;
    tailor_canvas *c = NULL;
    assert_int_equal(tailor_canvas_begin(coat, "canvas", NULL, 0, 1, NULL, &c, NULL), TAILOR_OK);
    const double rules[TAILOR_CANVAS_CHOICE_COUNT] = {0, 0, 750, 1, 1, 5, 0};
    for (int i = 1; i < TAILOR_CANVAS_CHOICE_COUNT; i++)
        assert_true(tailor_canvas_choice(c, i) >= rules[i] && tailor_canvas_choice(c, i) <= rules[i]);
    assert_ptr_equal(tailor_canvas_pattern(c), coat);
    assert_string_equal(tailor_canvas_cloth(c), "canvas");
    assert_ptr_equal(tailor_canvas_lay(c, 0), tailor_canvas_lay(c, 1)); /* angle 0: one and the same */
    assert_true(result(c, TAILOR_CANVAS_RESULT_EXTRA) >= 0 && result(c, TAILOR_CANVAS_RESULT_EXTRA) <= 0);
    tailor_canvas_free(c);
    c = must_begin(coat, "haircloth", (const chosen[]){{TAILOR_CANVAS_CHOICE_ANGLE, 30}, {0, 0}});
    assert_true(tailor_canvas_strip_width(c) >= 500 && tailor_canvas_strip_width(c) <= 500);
    assert_ptr_equal(tailor_canvas_lay(c, 0), tailor_canvas_lay(c, 1)); /* the angle is the body canvas's */
    tailor_canvas_free(c);
}

static void steps_add_up_and_never_harm(void **state)
{
    (void)state;
    const chosen list[] = {{TAILOR_CANVAS_CHOICE_ANGLE, 45}, {0, 0}};
    tailor_canvas *one = must_begin(coat, "canvas", list), *many = must_begin(coat, "canvas", list);
    double last = result(many, TAILOR_CANVAS_RESULT_LENGTH);
    assert_int_equal(tailor_canvas_step(one, 300), TAILOR_OK);
    for (int i = 0; i < 30; i++) {
        assert_int_equal(tailor_canvas_step(many, 10), TAILOR_OK);
        assert_true(result(many, TAILOR_CANVAS_RESULT_LENGTH) <= last);
        last = result(many, TAILOR_CANVAS_RESULT_LENGTH);
    }
    for (int i = 1; i < TAILOR_CANVAS_RESULT_COUNT; i++) {
        const double a = result(one, i), b = result(many, i);
        assert_memory_equal(&a, &b, sizeof a);
    }
    for (int straight = 0; straight < 2; straight++) {
        assert_int_equal(tailor_lay_overlap_free(tailor_canvas_lay(one, straight), NULL, NULL, NAN, NULL), TAILOR_OK);
        for (int i = 0; i < tailor_lay_place_count(tailor_canvas_lay(one, straight)); i++) {
            double a[6], b[6];
            assert_int_equal(tailor_canvas_matrix(one, straight, i, a), TAILOR_OK);
            assert_int_equal(tailor_canvas_matrix(many, straight, i, b), TAILOR_OK);
            assert_memory_equal(a, b, sizeof a);
        }
    }
    tailor_canvas_free(one);
    tailor_canvas_free(many);
}

static void doubled_cloth(void **state)
{
    (void)state;
    const chosen folded[] = {{TAILOR_CANVAS_CHOICE_PLIES, TAILOR_PLIES_FOLDED},
                             {TAILOR_CANVAS_CHOICE_WIDTH, 1000},
                             {TAILOR_CANVAS_CHOICE_ANGLE, 10},
                             {0, 0}};
    const chosen layers[] = {{TAILOR_CANVAS_CHOICE_PLIES, TAILOR_PLIES_LAYERS},
                             {TAILOR_CANVAS_CHOICE_WIDTH, 500},
                             {TAILOR_CANVAS_CHOICE_ANGLE, 10},
                             {0, 0}};
    tailor_canvas *f = must_begin(coat, "canvas", folded), *l = must_begin(coat, "canvas", layers);
    assert_int_equal(tailor_lay_place_count(tailor_canvas_lay(f, 0)), 2); /* a place for each pair */
    assert_true(tailor_canvas_strip_width(f) >= 500 && tailor_canvas_strip_width(f) <= 500);
    assert_true(tailor_canvas_strip_width(l) >= 500 && tailor_canvas_strip_width(l) <= 500);
    const double length = result(f, TAILOR_CANVAS_RESULT_LENGTH);
    assert_true(fabs(result(l, TAILOR_CANVAS_RESULT_LENGTH) - length) < 1e-9); /* the same strip */
    assert_true(fabs(result(f, TAILOR_CANVAS_RESULT_CLOTH_LENGTH) - length) < 1e-9);
    assert_true(fabs(result(l, TAILOR_CANVAS_RESULT_CLOTH_LENGTH) - 2 * length) < 1e-9);
    assert_true(fabs(result(l, TAILOR_CANVAS_RESULT_EXTRA) - 2 * result(f, TAILOR_CANVAS_RESULT_EXTRA)) < 1e-9);
    /* whatever is not pieces is waste: in both plies */
    double area = 0;
    for (int i = 0; i < tailor_pattern_piece_count(coat); i++)
        if (strcmp(tailor_piece_cloth(coat, i), "canvas") == 0) {
            size_t count;
            const tailor_cubic *outline = tailor_piece_outline(coat, i, &count);
            area += tailor_piece_copies(coat, i) * tailor_path_area(outline, count);
        }
    assert_true(fabs(result(f, TAILOR_CANVAS_RESULT_WASTE) - (1000 * length - area)) < 1);
    assert_true(fabs(result(f, TAILOR_CANVAS_RESULT_YIELD) - area / (1000 * length)) < 1e-6);
    tailor_canvas_free(f);
    tailor_canvas_free(l);
}

static void sides_cut_apart(void **state)
{
    (void)state;
    tailor_canvas *c = must_begin(uneven, "canvas", (const chosen[]){{TAILOR_CANVAS_CHOICE_ANGLE, 20}, {0, 0}});
    int right = 0, left = 0;
    for (int i = 0; i < tailor_lay_place_count(tailor_canvas_lay(c, 0)); i++) {
        int piece, side, part;
        double warp;
        assert_int_equal(tailor_canvas_place(c, 0, i, &piece, &side, &part, &warp), TAILOR_OK);
        if (tailor_piece_number(uneven, piece) != TAILOR_PIECE_BODY_CANVAS)
            continue;
        assert_int_equal(part, 0);
        right += side == TAILOR_SIDE_RIGHT;
        left += side == TAILOR_SIDE_LEFT;
        assert_true(fabs(warp - (side == TAILOR_SIDE_RIGHT ? 110 : 70)) < 1e-9); /* toward either break line */
    }
    assert_int_equal(right, 1);
    assert_int_equal(left, 1);
    tailor_canvas_free(c);
}

/* Two pieces as plain as may be, one the body canvas: an angle, whose hollow takes other pieces in, and a slip. */
static tailor_pattern *plain_pattern(void)
{
    const tailor_point angle[6] = {{0, 0}, {300, 0}, {300, 100}, {120, 100}, {120, 400}, {0, 400}};
    tailor_builder *b = NULL;
    tailor_pattern *made = NULL;
    tailor_cubic outline[6];
    assert_int_equal(tailor_builder_begin(NULL, &b, &fault), TAILOR_OK);
    for (int i = 0; i < 2; i++) {
        const size_t count = i ? rectangle(30, 60, outline) : polygon(angle, 6, outline);
        assert_int_equal(tailor_builder_add_piece(b, i ? "slip" : "body_canvas", 2, 1, TAILOR_SIDE_RIGHT, "canvas",
                                                  &fault), TAILOR_OK);
        assert_int_equal(tailor_builder_add_edge(b, "round", outline, count, &fault), TAILOR_OK);
    }
    assert_int_equal(tailor_builder_finish(b, NULL, &made, &fault), TAILOR_OK);
    tailor_builder_free(b);
    return made;
}

/* Of plain pieces, since each allocation is waited for anew; of the coat's own in the long run. */
static void every_allocation_may_fail(void **state)
{
    (void)state;
    tailor_pattern *plain = plain_pattern();
    const tailor_pattern *laid = getenv("TAILOR_LONG") ? coat : plain;
    double choices[TAILOR_CANVAS_CHOICE_COUNT];
    tailor_fields_clear(choices, TAILOR_CANVAS_CHOICE_COUNT);
    choices[TAILOR_CANVAS_CHOICE_ANGLE] = 20;
    int fail_at = 1;
    for (tailor_status status = TAILOR_NO_MEMORY; status != TAILOR_OK; fail_at++) {
        memory m = {0, fail_at, 0};
        const tailor_allocator allocator = {give, take, &m};
        tailor_canvas *c = NULL;
        status = tailor_canvas_begin(laid, "canvas", choices, TAILOR_CANVAS_CHOICE_COUNT, 1, &allocator, &c, &fault);
        assert_true(status == TAILOR_OK || (status == TAILOR_NO_MEMORY && !c && fault.status == status));
        assert_true(!c || tailor_canvas_lay(c, 0) != tailor_canvas_lay(c, 1));
        tailor_canvas_free(c);
        assert_int_equal(m.alive, 0);
    }
    assert_true(fail_at > 150); /* of both lays, the slanting one and the straight */
    tailor_pattern_free(plain);
}

int test_canvas(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refusals),
        cmocka_unit_test(nothing_is_asked_of_nothing),
        cmocka_unit_test(rules_where_nothing_is_chosen),
        cmocka_unit_test(steps_add_up_and_never_harm),
        cmocka_unit_test(doubled_cloth),
        cmocka_unit_test(sides_cut_apart),
        cmocka_unit_test(every_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, make_coats, free_coats);
}

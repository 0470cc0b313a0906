/* What a lay refuses, in which words, and that every allocation may fail. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>
#include <cmocka.h>
#include "shapes.h"

static tailor_fault fault;

static tailor_lay *empty(double width, double tolerance)
{
    tailor_lay *lay = NULL;
    assert_int_equal(tailor_lay_new(width, 0, tolerance, 0, NULL, &lay, &fault), TAILOR_OK);
    return lay;
}

static void bad_strips(void **state)
{
    (void)state;
    const double bad[][3] = { { 0, 0, 0 },   { -1, 0, 0 },      { NAN, 0, 0 }, { INFINITY, 0, 0 },
                              { 10, -1, 0 }, { 10, NAN, 0 },    { 10, 0, -1 }, { 10, 0, INFINITY } };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        tailor_lay *lay = NULL;
        const int finite = isfinite(bad[i][0]) && isfinite(bad[i][1]) && isfinite(bad[i][2]);
        assert_int_equal(tailor_lay_new(bad[i][0], bad[i][1], bad[i][2], 0, NULL, &lay, &fault),
                         finite ? TAILOR_BAD_ARGUMENT : TAILOR_NOT_FINITE);
        assert_null(lay);
        assert_true(strlen(fault.sentence) > 10);
    }
    assert_int_equal(tailor_lay_new(10, 0, 0, 0, NULL, NULL, &fault), TAILOR_BAD_ARGUMENT);
}

static void bad_shapes(void **state)
{
    (void)state;
    tailor_lay *lay = empty(100, 0);
    tailor_cubic c[8];
    rectangle(10, 10, c);
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, 1, 0, &fault), TAILOR_OK);
    assert_int_equal(tailor_lay_add(lay, NULL, 4, 0, 0, 1, 0, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.place, 2);
    assert_int_equal(tailor_lay_add(lay, c, 0, 0, 0, 1, 0, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_lay_add(lay, c, 4, NAN, 0, 1, 0, &fault), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, 0, 0, &fault), TAILOR_BAD_ARGUMENT);
    assert_non_null(strstr(fault.sentence, "shape 2: one copy or more"));
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, -1, 2, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, 1000, 0, &fault), TAILOR_OUT_OF_RANGE);
    assert_non_null(strstr(fault.sentence, "1000"));
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, INT32_MAX, INT32_MAX, &fault), TAILOR_OUT_OF_RANGE);
    c[2].p[1].x = NAN;
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, 1, 0, &fault), TAILOR_NOT_FINITE);
    rectangle(10, 10, c);
    c[2].p[0].x += 1;
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, 1, 0, &fault), TAILOR_BAD_ARGUMENT);
    assert_non_null(strstr(fault.sentence, "break"));
    assert_int_equal(tailor_lay_step(lay, 1), TAILOR_BAD_ARGUMENT); /* not begun */
    assert_int_equal(tailor_lay_begin(lay, 1, &fault), TAILOR_OK);  /* the refused ones left no trace */
    assert_int_equal(tailor_lay_place_count(lay), 1);
    assert_int_equal(tailor_lay_begin(lay, 1, &fault), TAILOR_BAD_ARGUMENT);
    rectangle(10, 10, c);
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, 1, 0, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_lay_step(lay, -1), TAILOR_BAD_ARGUMENT);
    tailor_lay_free(lay);

    tailor_lay *pairs = NULL;
    assert_int_equal(tailor_lay_new(100, 0, 0, 1, NULL, &pairs, &fault), TAILOR_OK);
    assert_int_equal(tailor_lay_add(pairs, c, 4, 0, 0, 2, 1, &fault), TAILOR_BAD_ARGUMENT);
    assert_non_null(strstr(fault.sentence, "pairs"));
    assert_int_equal(tailor_lay_begin(pairs, 1, &fault), TAILOR_BAD_ARGUMENT); /* no shapes */
    tailor_lay_free(pairs);
}

static void begin_refuses(const tailor_cubic *c, size_t n, double tolerance, int status, const char *word)
{
    tailor_lay *lay = empty(100, tolerance);
    tailor_cubic first[4];
    rectangle(10, 10, first);
    assert_int_equal(tailor_lay_add(lay, first, 4, 0, 0, 1, 0, &fault), TAILOR_OK);
    assert_int_equal(tailor_lay_add(lay, c, n, 0, 0, 1, 0, &fault), TAILOR_OK);
    assert_int_equal(tailor_lay_begin(lay, 1, &fault), status);
    assert_non_null(strstr(fault.sentence, word));
    assert_int_equal(fault.place, 2);
    assert_int_equal(tailor_lay_step(lay, 1), TAILOR_BAD_ARGUMENT);
    tailor_lay_free(lay);
}

static void bad_outlines(void **state)
{
    (void)state;
    tailor_cubic c[8];
    const tailor_point bow[4] = { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } };
    const tailor_point flat[3] = { { 0, 0 }, { 10, 10 }, { 20, 20 } };
    const tailor_point back[4] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 10, -5 } };
    begin_refuses(c, polygon(bow, 4, c), 0, TAILOR_DEGENERATE, "crosses");
    begin_refuses(c, polygon(flat, 3, c), 0, TAILOR_DEGENERATE, "shape 2");
    begin_refuses(c, polygon(back, 4, c), 0, TAILOR_DEGENERATE, "crosses");
    begin_refuses(c, hollow(c), 0, TAILOR_BAD_ARGUMENT, "tolerance");
    rectangle(10, 100.5, c);
    begin_refuses(c, 4, 0, TAILOR_OUT_OF_RANGE, "shape 2 needs a strip of 100.5 at its angle: the width is 100");
    assert_true(fabs(fault.value - 100.5) < 1e-4 && fault.high == 100);
    for (int i = 0; i < 4; i++)
        for (int j = 0; j < 4; j++)
            c[i].p[j].x += 1e12;
    begin_refuses(c, 4, 0, TAILOR_OUT_OF_RANGE, "origin");
    tailor_cubic point = { { { 1, 1 }, { 1, 1 }, { 1, 1 }, { 1, 1 } } };
    begin_refuses(&point, 1, 0, TAILOR_DEGENERATE, "area");
}

static void nothing_to_ask(void **state)
{
    (void)state;
    tailor_point p;
    size_t n;
    double m[6];
    tailor_lay *lay = empty(100, 0);
    const tailor_lay *none[2] = { NULL, lay };
    for (int i = 0; i < 2; i++) {
        assert_int_equal(tailor_lay_place_count(none[i]), 0);
        assert_true(isnan(tailor_lay_length(none[i])) && isnan(tailor_lay_area(none[i])));
        assert_true(isnan(tailor_lay_yield(none[i])) && isnan(tailor_lay_length_bound(none[i])));
        assert_true(isnan(tailor_lay_step_of_grid(none[i])));
        assert_int_equal(tailor_lay_iterations(none[i]), 0);
        assert_int_equal(tailor_lay_place(none[i], 0, NULL, NULL, NULL, &p), TAILOR_BAD_ARGUMENT);
        assert_int_equal(tailor_lay_matrix(none[i], 0, m), TAILOR_BAD_ARGUMENT);
        assert_int_equal(tailor_lay_polygon(none[i], 0, NULL, 0, &n), TAILOR_BAD_ARGUMENT);
        assert_int_equal(tailor_lay_overlap_free(none[i], NULL, NULL, NAN, &fault), TAILOR_BAD_ARGUMENT);
    }
    tailor_cubic c[4];
    rectangle(20, 10, c);
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 0, 2, 0, &fault), TAILOR_OK);
    assert_int_equal(tailor_lay_begin(lay, 1, NULL), TAILOR_OK);
    for (int place = -1; place <= 2; place += 3)
        assert_int_equal(tailor_lay_place(lay, place, NULL, NULL, NULL, &p), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_lay_polygon(lay, 0, NULL, 0, &n), TAILOR_OK);
    assert_int_equal(n, 4);
    assert_int_equal(tailor_lay_polygon(lay, 0, &p, 1, &n), TAILOR_TOO_SMALL);
    tailor_lay_free(lay);
    tailor_lay_free(NULL);
}

static int try_all(memory *m, tailor_fault *why)
{
    const tailor_allocator allocator = { give, take, m };
    tailor_lay *lay = NULL;
    tailor_cubic c[4];
    int status = tailor_lay_new(400, 3, 0.3, 0, &allocator, &lay, why);
    if (status == TAILOR_OK)
        status = tailor_lay_add(lay, c, hollow(c), 45, 1, 1, 1, why);
    if (status == TAILOR_OK)
        status = tailor_lay_add(lay, c, rectangle(30, 60, c), 0, 0, 2, 0, why);
    if (status == TAILOR_OK)
        status = tailor_lay_begin(lay, 1, why);
    if (status == TAILOR_OK) {
        const int calls = m->calls;
        status = tailor_lay_step(lay, 30);
        assert_int_equal(m->calls, calls); /* stepping allocates nothing */
    }
    tailor_lay_free(lay);
    return status;
}

static void every_allocation_fails_in_turn(void **state)
{
    (void)state;
    memory m = { 0, 0, 0 };
    assert_int_equal(try_all(&m, &fault), TAILOR_OK);
    assert_int_equal(m.alive, 0);
    const int needed = m.calls;
    assert_true(needed > 20);
    for (int k = 1; k <= needed; k++) {
        m = (memory){ 0, k, 0 };
        memset(&fault, 0, sizeof fault);
        assert_int_equal(try_all(&m, &fault), TAILOR_NO_MEMORY);
        assert_int_equal(fault.status, TAILOR_NO_MEMORY);
        assert_true(strlen(fault.sentence) > 10);
        assert_int_equal(m.alive, 0);
        m = (memory){ 0, k, 0 };
        assert_int_equal(try_all(&m, NULL), TAILOR_NO_MEMORY);
    }
}

int test_refusals(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_strips),     cmocka_unit_test(bad_shapes),
        cmocka_unit_test(bad_outlines),   cmocka_unit_test(nothing_to_ask),
        cmocka_unit_test(every_allocation_fails_in_turn),
    };
    return cmocka_run_group_tests_name("refusals", tests, NULL, NULL);
}

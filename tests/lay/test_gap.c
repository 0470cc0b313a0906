/* The proof keeps the gap on every side: two rectangles side by side, above one another and corner to corner, each way
 * round and end for end, are refused when they are a step of the grid too near and accepted where the gap is kept; so
 * are pieces that reach past the strip's four bounds. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include "shapes.h"

static const double WIDE = 100, HIGH = 50, GAP = 5, STRIP = 400, LENGTH = 1000;

static tailor_lay *two_rectangles(void)
{
    tailor_lay *lay = NULL;
    tailor_cubic c[4];
    assert_int_equal(tailor_lay_new(STRIP, GAP, 0, 0, NULL, &lay, NULL), TAILOR_OK);
    rectangle(WIDE, HIGH, c);
    assert_int_equal(tailor_lay_add(lay, c, 4, 0, 1, 2, 0, NULL), TAILOR_OK);
    assert_int_equal(tailor_lay_begin(lay, 1, NULL), TAILOR_OK);
    return lay;
}

/** On the grid, for a rectangle whose lower left corner is to lie at (x, y), as drawn or end for end. */
static tailor_point at_corner(double x, double y, int turned, double step)
{
    return (tailor_point){round((x + (turned ? WIDE : 0)) / step) * step,
                          round((y + (turned ? HIGH : 0)) / step) * step};
}

static int status_of(const tailor_lay *lay, double x, double y, int first, int turned_a, int turned_b)
{
    const double step = tailor_lay_step_of_grid(lay), middle_x = 400, middle_y = 170;
    const int turned[2] = {first ? turned_b : turned_a, first ? turned_a : turned_b};
    tailor_point at[2];
    at[first] = at_corner(middle_x, middle_y, turned_a, step);
    at[!first] = at_corner(middle_x + x, middle_y + y, turned_b, step);
    return tailor_lay_overlap_free(lay, at, turned, LENGTH, NULL);
}

static void four_sides_and_corners(void **state)
{
    (void)state;
    tailor_lay *lay = two_rectangles();
    const double step = tailor_lay_step_of_grid(lay), near = GAP - 2 * step, far = GAP + 2 * step;
    assert_true(step < GAP / 4);
    for (int way = 0; way < 8; way++) { /* which place is which, and which lies end for end */
        const int first = way & 1, a = way >> 1 & 1, b = way >> 2;
        for (int sign = -1; sign <= 1; sign += 2) {
            for (double aside = -30; aside <= 30; aside += 30) {
                assert_int_equal(status_of(lay, sign * (WIDE + near), aside, first, a, b), TAILOR_OVERLAP);
                assert_int_equal(status_of(lay, sign * (WIDE + far), aside, first, a, b), TAILOR_OK);
                assert_int_equal(status_of(lay, aside, sign * (HIGH + near), first, a, b), TAILOR_OVERLAP);
                assert_int_equal(status_of(lay, aside, sign * (HIGH + far), first, a, b), TAILOR_OK);
            }
            for (int up = -1; up <= 1; up += 2) { /* across a corner the gap is a distance, not a box */
                assert_int_equal(status_of(lay, sign * (WIDE + 0.6 * near), up * (HIGH + 0.6 * near), first, a, b),
                                 TAILOR_OVERLAP);
                assert_int_equal(status_of(lay, sign * (WIDE + 0.8 * far), up * (HIGH + 0.8 * far), first, a, b),
                                 TAILOR_OK);
            }
        }
    }
    tailor_lay_free(lay);
}

static void four_bounds(void **state)
{
    (void)state;
    tailor_lay *lay = two_rectangles();
    const double step = tailor_lay_step_of_grid(lay);
    const double bound[4][2] = {{0, 170}, {LENGTH - WIDE, 170}, {400, 0}, {400, STRIP - HIGH}};
    const double out[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
    for (int i = 0; i < 4; i++)
        for (int way = 0; way < 4; way++) {
            const int first = way & 1, turned[2] = {way >> 1, way >> 1};
            tailor_point at[2];
            at[!first] = at_corner(600, 250, turned[0], step);
            for (int steps = -1; steps <= 2; steps++) {
                at[first] = at_corner(bound[i][0] + steps * step * out[i][0], bound[i][1] + steps * step * out[i][1],
                                      turned[0], step);
                int status = tailor_lay_overlap_free(lay, at, turned, LENGTH, NULL);
                if (steps < 0)
                    assert_int_equal(status, TAILOR_OK);
                if (steps > 1)
                    assert_int_equal(status, TAILOR_OUT_OF_RANGE);
            }
        }
    tailor_lay_free(lay);
}

/** Two edges of one line that do not touch: the arms of a U end level, which is no crossing. */
static void arms_that_end_level(void **state)
{
    static const tailor_point u[8] = {{0, 0}, {30, 0}, {30, 10}, {20, 10}, {20, 5}, {10, 5}, {10, 10}, {0, 10}};
    tailor_lay *lay = NULL;
    tailor_cubic c[8];
    (void)state;
    assert_int_equal(tailor_lay_new(STRIP, GAP, 0, 0, NULL, &lay, NULL), TAILOR_OK);
    assert_int_equal(tailor_lay_add(lay, c, polygon(u, 8, c), 0, 1, 2, 0, NULL), TAILOR_OK);
    assert_int_equal(tailor_lay_begin(lay, 1, NULL), TAILOR_OK);
    tailor_lay_free(lay);
}

int test_gap(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(four_sides_and_corners), cmocka_unit_test(four_bounds),
                                       cmocka_unit_test(arms_that_end_level)};
    return cmocka_run_group_tests_name("gap", tests, NULL, NULL);
}

/* Curves through points: smooth, and monotone in y. */
#include "geom/curves.h"

enum { POINTS = 9 };

static void smooth_curves_run_through_with_even_curvature(void **state)
{
    (void)state;
    uint64_t seed = 41;
    for (int i = 0; i < 1000; i++) {
        tailor_point at[POINTS];
        tailor_cubic path[POINTS - 1];
        const size_t count = 2 + (size_t)i % (POINTS - 1);
        for (size_t k = 0; k < count; k++) at[k] = random_point(&seed, 200);
        assert_int_equal(tailor_path_smooth(at, count, path), TAILOR_OK);
        for (size_t k = 0; k + 1 < count; k++) {
            assert_same_point(path[k].p[0], at[k], 0);
            assert_same_point(path[k].p[3], at[k + 1], 0);
            if (k == 0) continue;
            assert_same_point(tailor_cubic_direction(&path[k], 0), tailor_cubic_direction(&path[k - 1], 1), 1e-9);
            const double before = tailor_cubic_curvature(&path[k - 1], 1), after = tailor_cubic_curvature(&path[k], 0);
            assert_close(before, after, 1e-6 * (fabs(before) + fabs(after)) + 1e-9);
        }
        /* the batten's ends are free: no curvature */
        const double speed = 3 * distance_of(path[0].p[0], path[0].p[1]);
        assert_close(tailor_cubic_curvature(&path[0], 0) * speed, 0, 1e-6);
        assert_close(tailor_cubic_curvature(&path[count - 2], 1) * 3 *
                         distance_of(path[count - 2].p[2], path[count - 2].p[3]),
                     0, 1e-6);
    }
}

static void smooth_keeps_lines_and_comes_near_circles(void **state)
{
    (void)state;
    tailor_point at[33];
    tailor_cubic path[32];
    for (int k = 0; k < 9; k++) at[k] = (tailor_point){k * k, 2.0 * k * k};
    assert_int_equal(tailor_path_smooth(at, 9, path), TAILOR_OK);
    for (int k = 0; k < 8; k++) assert_close(path[k].p[1].y, 2 * path[k].p[1].x, 1e-9);
    for (int k = 0; k < 33; k++)
        at[k] = (tailor_point){100 * cos(k * 0.19634954084936207), 100 * sin(k * 0.19634954084936207)};
    assert_int_equal(tailor_path_smooth(at, 33, path), TAILOR_OK);
    for (int k = 80; k < 240; k++) { /* away from the free ends */
        const tailor_point p = tailor_path_point(path, 32, k / 10.0);
        assert_close(hypot(p.x, p.y), 100, 2e-3);
    }
}

static void monotone_never_overshoots(void **state)
{
    (void)state;
    uint64_t seed = 42;
    for (int i = 0; i < 3000; i++) {
        tailor_point at[POINTS];
        tailor_cubic path[POINTS - 1];
        const size_t count = 2 + (size_t)i % (POINTS - 1);
        double y = random_in(&seed, -100, 100);
        const double way = i % 2 ? 1 : -1;
        for (size_t k = 0; k < count; k++) {
            y += way * pow(10, random_in(&seed, -2, 2));
            at[k] = (tailor_point){i % 7 == 0 ? floor(random_in(&seed, 0, 3)) : random_in(&seed, -50, 50), y};
        }
        assert_int_equal(tailor_path_monotone(at, count, path), TAILOR_OK);
        for (size_t k = 0; k + 1 < count; k++) {
            assert_same_point(path[k].p[0], at[k], 0);
            assert_same_point(path[k].p[3], at[k + 1], 0);
            const double low = fmin(at[k].x, at[k + 1].x), high = fmax(at[k].x, at[k + 1].x),
                         rise = at[k + 1].x - at[k].x;
            double last = at[k].x;
            for (int j = 1; j <= 16; j++) {
                const tailor_point p = tailor_cubic_point(&path[k], j / 16.0);
                assert_close(p.y, at[k].y + (at[k + 1].y - at[k].y) * j / 16.0, 1e-9); /* y is even in the parameter */
                assert_true(p.x >= low - 1e-12 && p.x <= high + 1e-12);
                assert_true(rise >= 0 ? p.x >= last - 1e-12 : p.x <= last + 1e-12);
                last = p.x;
            }
            if (k > 0)
                assert_same_point(tailor_cubic_direction(&path[k], 0), tailor_cubic_direction(&path[k - 1], 1), 1e-9);
        }
    }
}

static void what_is_refused(void **state)
{
    (void)state;
    tailor_point at[3] = {{0, 0}, {1, 1}, {2, 2}};
    tailor_cubic path[2];
    assert_int_equal(tailor_path_smooth(at, 1, path), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_smooth(at, 0, path), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_monotone(at, 1, path), TAILOR_BAD_ARGUMENT);
    at[2] = at[1];
    assert_int_equal(tailor_path_smooth(at, 3, path), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_monotone(at, 3, path), TAILOR_DEGENERATE);
    at[2] = (tailor_point){5, 0.5};
    assert_int_equal(tailor_path_monotone(at, 3, path), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_smooth(at, 3, path), TAILOR_OK);
    at[2].y = INFINITY;
    assert_int_equal(tailor_path_smooth(at, 3, path), TAILOR_NOT_FINITE);
    at[0].x = NAN;
    assert_int_equal(tailor_path_monotone(at, 3, path), TAILOR_NOT_FINITE);
}

int test_spline(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(smooth_curves_run_through_with_even_curvature),
        cmocka_unit_test(smooth_keeps_lines_and_comes_near_circles),
        cmocka_unit_test(monotone_never_overshoots),
        cmocka_unit_test(what_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

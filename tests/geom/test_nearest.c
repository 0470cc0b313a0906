/* The nearest point, over the whole curve: against many samples, which can only be farther. */
#include "geom/curves.h"

static double sampled(const tailor_cubic *path, size_t count, tailor_point from, int steps)
{
    double least = INFINITY;
    for (size_t k = 0; k <= count * (size_t)steps; k++)
        least = fmin(least, distance_of(tailor_path_point(path, count, (double)k / steps), from));
    return least;
}

static void no_sample_is_nearer(void **state)
{
    (void)state;
    uint64_t seed = 51;
    for (int i = 0; i < 3000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const tailor_point from = random_point(&seed, 500);
        double distance;
        const double t = tailor_cubic_nearest(&c, from, &distance), samples = sampled(&c, 1, from, 1000);
        assert_true(t >= 0 && t <= 1);
        assert_close(distance_of(tailor_cubic_point(&c, t), from), distance, 1e-12);
        assert_at_most(distance, samples + 1e-12);
        assert_at_most(samples, distance + 1.5);
    }
}

/* At a cusp every point has a foot of a kind, which must not hide the nearest one. */
static void beside_an_exact_cusp(void **state)
{
    (void)state;
    const tailor_cubic cusp = {{{0, 0}, {100, 100}, {0, 100}, {100, 0}}};
    for (int x = -20; x <= 120; x += 2)
        for (int y = -20; y <= 120; y += 2) {
            double distance;
            tailor_cubic_nearest(&cusp, (tailor_point){x + 0.1, y - 0.3}, &distance);
            const double samples = sampled(&cusp, 1, (tailor_point){x + 0.1, y - 0.3}, 2000);
            assert_at_most(distance, samples + 1e-12);
        }
}

static void points_on_the_curve_are_at_no_distance(void **state)
{
    (void)state;
    uint64_t seed = 52;
    for (int i = 0; i < 20000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        double distance;
        tailor_cubic_nearest(&c, tailor_cubic_point(&c, random_unit(&seed)), &distance);
        assert_close(distance, 0, 1e-9);
    }
}

static void far_and_small_ones(void **state)
{
    (void)state;
    uint64_t seed = 53;
    static const double scales[] = {1e-9, 1e-3, 1e9};
    for (int i = 0; i < 3000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const tailor_point from = random_point(&seed, 400);
        const double k = scales[i % 3], matrix[6] = {k, 0, 0, k, 0, 0};
        double a, b;
        tailor_cubic scaled;
        tailor_point there;
        tailor_path_affine(&c, 1, matrix, &scaled);
        tailor_points_affine(&from, 1, matrix, &there);
        tailor_cubic_nearest(&c, from, &a);
        tailor_cubic_nearest(&scaled, there, &b);
        assert_close(b / k, a, 1e-9);
    }
}

static void where_all_is_equally_near(void **state)
{
    (void)state;
    double distance;
    const tailor_point o = {0, 0};
    tailor_cubic circle[4];
    for (int i = 0; i < 4; i++) circle[i] = tailor_cubic_arc(o, 10, 90 * i, 90 * i + 90);
    tailor_path_nearest(circle, 4, o, &distance);
    assert_close(distance, 10, 1e-12);
    const tailor_cubic point = {{{3, 4}, {3, 4}, {3, 4}, {3, 4}}};
    assert_true(isfinite(tailor_cubic_nearest(&point, o, &distance)));
    assert_close(distance, 5, 0);
    const tailor_cubic back = {{{0, 0}, {30, 0}, {-20, 0}, {10, 0}}}; /* runs over itself */
    tailor_cubic_nearest(&back, (tailor_point){5, 3}, &distance);
    assert_close(distance, 3, 1e-9);
}

static void paths_and_many_points(void **state)
{
    (void)state;
    uint64_t seed = 54;
    for (int i = 0; i < 100; i++) {
        tailor_cubic path[8];
        tailor_point from[20];
        double places[20], distances[20];
        random_outline(&seed, path, 8, 200, 0.5);
        for (int k = 0; k < 20; k++) from[k] = random_point(&seed, 300);
        tailor_path_nearests(path, 8, from, 20, places, distances);
        for (int k = 0; k < 20; k++) {
            double one;
            assert_close(places[k], tailor_path_nearest(path, 8, from[k], &one), 0);
            assert_close(distances[k], one, 0);
            const double samples = sampled(path, 8, from[k], 300);
            assert_at_most(one, samples + 1e-12);
            assert_at_most(samples, one + 1);
        }
        tailor_path_nearests(path, 8, from, 20, NULL, distances);
        tailor_path_nearests(path, 8, from, 20, places, NULL);
    }
}

static void not_a_number(void **state)
{
    (void)state;
    tailor_cubic c = tailor_cubic_line((tailor_point){0, 0}, (tailor_point){1, 0});
    double distance = 7;
    assert_true(isnan(tailor_cubic_nearest(&c, (tailor_point){NAN, 0}, &distance)) && isnan(distance));
    distance = 7;
    assert_true(isnan(tailor_path_nearest(NULL, 0, c.p[0], &distance)) && isnan(distance));
    c.p[2].x = INFINITY;
    assert_true(isnan(tailor_cubic_nearest(&c, (tailor_point){1, 0}, NULL)));
}

int test_nearest(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_sample_is_nearer),
        cmocka_unit_test(beside_an_exact_cusp),
        cmocka_unit_test(points_on_the_curve_are_at_no_distance),
        cmocka_unit_test(far_and_small_ones),
        cmocka_unit_test(where_all_is_equally_near),
        cmocka_unit_test(paths_and_many_points),
        cmocka_unit_test(not_a_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

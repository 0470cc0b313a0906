/* Arc length and its inverse, to the digits promised, at cusps too. tests/geom/test_reference.py holds them against
 * an independent integrator; here they are held against themselves, against bounds and against sums of chords. */
#include <stdlib.h>
#include "geom/curves.h"

/** Chords, with Richardson's extrapolation twice: good to some 1e-12 where the speed keeps away from 0. */
static double chords(const tailor_cubic *c)
{
    double sum[3] = {0, 0, 0};
    for (int level = 0; level < 3; level++) {
        const int n = 4000 << level;
        tailor_point last = c->p[0];
        for (int i = 1; i <= n; i++) {
            const tailor_point p = tailor_cubic_point(c, (double)i / n);
            sum[level] += distance_of(last, p);
            last = p;
        }
    }
    const double a = (4 * sum[1] - sum[0]) / 3, b = (4 * sum[2] - sum[1]) / 3;
    return (16 * b - a) / 15;
}

static void pattern_curves_to_a_billionth(void **state)
{
    (void)state;
    uint64_t seed = 11;
    for (int i = 0; i < 300; i++) {
        const tailor_cubic c = random_curve(&seed, i % 3);
        assert_close(tailor_cubic_length(&c), chords(&c), 1e-9);
    }
}

static void parts_sum_to_the_whole(void **state)
{
    (void)state;
    uint64_t seed = 12;
    for (int i = 0; i < 20000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const double t = random_unit(&seed), whole = tailor_cubic_length(&c);
        tailor_cubic a, b;
        tailor_cubic_split(&c, t, &a, &b);
        assert_close(tailor_cubic_length(&a) + tailor_cubic_length(&b), whole, 1e-12 * whole + 1e-12);
        assert_close(tailor_cubic_length_to(&c, t), tailor_cubic_length(&a), 1e-12 * whole + 1e-12);
    }
}

static void between_chord_and_polygon(void **state)
{
    (void)state;
    uint64_t seed = 13;
    for (int i = 0; i < 20000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const double length = tailor_cubic_length(&c);
        const double polygon_length =
            distance_of(c.p[0], c.p[1]) + distance_of(c.p[1], c.p[2]) + distance_of(c.p[2], c.p[3]);
        assert_at_most(distance_of(c.p[0], c.p[3]), length * (1 + 1e-14));
        assert_at_most(length, polygon_length * (1 + 1e-14));
        const tailor_cubic back = tailor_cubic_reverse(&c);
        assert_close(tailor_cubic_length(&back), length, 1e-14 * length);
    }
}

static void any_scale(void **state)
{
    (void)state;
    uint64_t seed = 14;
    static const double scales[] = {1e-9, 1e-4, 1e4, 1e9};
    for (int i = 0; i < 4000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const double k = scales[i % 4], matrix[6] = {k, 0, 0, k, 0, 0};
        tailor_cubic scaled;
        tailor_path_affine(&c, 1, matrix, &scaled);
        const double length = tailor_cubic_length(&c);
        assert_close(tailor_cubic_length(&scaled) / k, length, 1e-12 * length);
        assert_close(tailor_cubic_at_length(&scaled, 0.3 * length * k), tailor_cubic_at_length(&c, 0.3 * length), 1e-7);
    }
}

static void a_cusp_run_through_slowly(void **state)
{
    (void)state;
    /* the length must not jump as the handles cross, at any nearness */
    const tailor_cubic cusp = {{{0, 0}, {100, 100}, {0, 100}, {100, 0}}};
    for (int i = -400; i <= 400; i++) {
        const double miss = (i < 0 ? -1 : 1) * pow(10, -12 + abs(i) / 40.0);
        const tailor_cubic c = {{{0, 0}, {100 + miss, 100}, {0, 100}, {100, 0}}};
        assert_close(tailor_cubic_length(&c), tailor_cubic_length(&cusp), 1.5 * fabs(miss) + 1e-11);
    }
    /* the exact cusp by symmetry and by hand: x' = 300 (1 - 2t)^2, y' = 300 (1 - 2t), t in 0 .. 1/2, twice; with
     * v = 1 - 2t the half is 150 * integral of v root(1 + v^2) = 50 (2 root 2 - 1) */
    assert_close(tailor_cubic_length(&cusp), 100 * (2 * sqrt(2) - 1), 1e-11);
}

static void lengths_without_length(void **state)
{
    (void)state;
    const tailor_cubic point = {{{3, 4}, {3, 4}, {3, 4}, {3, 4}}}, back = {{{0, 0}, {30, 0}, {-20, 0}, {10, 0}}};
    assert_close(tailor_cubic_length(&point), 0, 0);
    assert_close(tailor_cubic_at_length(&point, 1), 0, 0);
    assert_close(tailor_cubic_length_to(&point, 0.5), 0, 0);
    /* on one line, out, back and on: the sum of the ways between turning points */
    double sum = 0, last = 0;
    for (int i = 0; i < 200000; i++) {
        const double x = tailor_cubic_point(&back, (i + 1) / 200000.0).x;
        sum += fabs(x - last);
        last = x;
    }
    assert_close(tailor_cubic_length(&back), sum, 1e-7);
}

static void inverse_comes_back(void **state)
{
    (void)state;
    uint64_t seed = 15;
    for (int i = 0; i < 20000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const double whole = tailor_cubic_length(&c), wanted = whole * random_unit(&seed);
        const double t = tailor_cubic_at_length(&c, wanted);
        assert_true(t >= 0 && t <= 1);
        assert_close(tailor_cubic_length_to(&c, t), wanted, 1e-12 * whole + 1e-10);
    }
}

static void inverse_is_clipped(void **state)
{
    (void)state;
    uint64_t seed = 16;
    const tailor_cubic c = random_curve(&seed, SEAM);
    assert_close(tailor_cubic_at_length(&c, -1), 0, 0);
    assert_close(tailor_cubic_at_length(&c, 0), 0, 0);
    assert_close(tailor_cubic_at_length(&c, 1e9), 1, 0);
    assert_close(tailor_cubic_at_length(&c, tailor_cubic_length(&c)), 1, 0);
    assert_close(tailor_cubic_at_length(&c, INFINITY), 1, 0);
    assert_close(tailor_cubic_length_to(&c, -3), 0, 0);
    assert_close(tailor_cubic_length_to(&c, 3), tailor_cubic_length(&c), 0);
    assert_true(isnan(tailor_cubic_at_length(&c, NAN)));
    assert_true(isnan(tailor_cubic_length_to(&c, NAN)));
}

static void inverse_rises(void **state)
{
    (void)state;
    uint64_t seed = 17;
    for (int i = 0; i < 500; i++) {
        const tailor_cubic c = random_curve(&seed, i % (FAMILIES - 1));
        const double whole = tailor_cubic_length(&c);
        double last = 0;
        for (int k = 1; k <= 40; k++) {
            const double t = tailor_cubic_at_length(&c, whole * k / 40);
            assert_true(t > last || whole == 0);
            last = t;
        }
    }
}

int test_length(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pattern_curves_to_a_billionth),
        cmocka_unit_test(parts_sum_to_the_whole),
        cmocka_unit_test(between_chord_and_polygon),
        cmocka_unit_test(any_scale),
        cmocka_unit_test(a_cusp_run_through_slowly),
        cmocka_unit_test(lengths_without_length),
        cmocka_unit_test(inverse_comes_back),
        cmocka_unit_test(inverse_is_clipped),
        cmocka_unit_test(inverse_rises),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

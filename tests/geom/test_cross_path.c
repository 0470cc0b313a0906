/* Two paths. */
#include <stdbool.h>
#include "geom/curves.h"

enum { ROOM = 32 };

static size_t crossings(const tailor_cubic *p, size_t np, const tailor_cubic *q, size_t nq, double tolerance, double *a,
                        double *b)
{
    size_t found = 999;
    assert_int_equal(tailor_path_cross_path(p, np, q, nq, tolerance, a, b, ROOM, &found), TAILOR_OK);
    for (size_t k = 0; k < found; k++) {
        assert_at_most(distance_of(tailor_path_point(p, np, a[k]), tailor_path_point(q, nq, b[k])), tolerance + 1e-11);
        assert_true(k == 0 || a[k] >= a[k - 1]);
    }
    return found;
}

static bool chords_cross(tailor_point a, tailor_point b, tailor_point c, tailor_point d)
{
    const double u = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x),
                 v = (b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x);
    const double s = (d.x - c.x) * (a.y - c.y) - (d.y - c.y) * (a.x - c.x),
                 t = (d.x - c.x) * (b.y - c.y) - (d.y - c.y) * (b.x - c.x);
    return (u > 0) != (v > 0) && (s > 0) != (t > 0);
}

static void as_many_as_fine_polygons_have(void **state)
{
    (void)state;
    enum { STEPS = 300 };
    static tailor_point p[STEPS + 1], q[STEPS + 1];
    uint64_t seed = 71;
    size_t all = 0, wrong = 0;
    for (int i = 0; i < 1500; i++) {
        const tailor_cubic a = random_curve(&seed, i % FAMILIES), b = random_curve(&seed, (i / 7) % FAMILIES);
        double s[ROOM], t[ROOM];
        size_t count = 0;
        const size_t found = crossings(&a, 1, &b, 1, 1e-9, s, t);
        for (int k = 0; k <= STEPS; k++) {
            p[k] = tailor_cubic_point(&a, (double)k / STEPS);
            q[k] = tailor_cubic_point(&b, (double)k / STEPS);
        }
        for (int k = 0; k < STEPS; k++)
            for (int j = 0; j < STEPS; j++) count += chords_cross(p[k], p[k + 1], q[j], q[j + 1]);
        all += found;
        wrong += found != count; /* the polygons may see two for none, or none for two, where curves nearly touch */
    }
    assert_true(all > 100);
    assert_true(wrong <= 8);
}

static void order_does_not_matter(void **state)
{
    (void)state;
    uint64_t seed = 72;
    for (int i = 0; i < 2000; i++) {
        tailor_cubic a[6], b[6];
        double s[ROOM], t[ROOM], u[ROOM], v[ROOM];
        random_outline(&seed, a, 6, 100, 0.4);
        random_outline(&seed, b, 6, 100, 0.4);
        const size_t found = crossings(a, 6, b, 6, 1e-9, s, t);
        assert_true(found % 2 == 0); /* two closed curves */
        assert_int_equal(crossings(b, 6, a, 6, 1e-9, u, v), found);
        for (size_t k = 0; k < found; k++) {
            double least = INFINITY;
            for (size_t j = 0; j < found; j++) least = fmin(least, fabs(s[k] - v[j]) + fabs(t[k] - u[j]));
            assert_at_most(least, 1e-9);
        }
    }
}

static void shared_stretches_are_told_not_looped_on(void **state)
{
    (void)state;
    uint64_t seed = 73;
    for (int i = 0; i < 700; i++) {
        const int family = i % FAMILIES;
        if (family == NEAR_CUSP) continue;
        const tailor_cubic c = random_curve(&seed, family);
        double s[ROOM], t[ROOM];
        size_t found = 55;
        double from = random_in(&seed, -0.5, 0.8), to = from + random_in(&seed, 0.1, 0.6);
        tailor_cubic part = tailor_cubic_part(&c, from, to);
        if (i % 2) part = tailor_cubic_reverse(&part);
        const double inside = fmin(to, 1) - fmax(from, 0);
        if (inside < 0.02) continue;
        const tailor_cubic shared = tailor_cubic_part(&c, fmax(from, 0), fmin(to, 1));
        if (tailor_cubic_length(&shared) < 1) continue;
        assert_int_equal(tailor_path_cross_path(&c, 1, &part, 1, 1e-6, s, t, ROOM, &found), TAILOR_OVERLAP);
        assert_int_equal(tailor_path_cross_path(&part, 1, &c, 1, 1e-6, s, t, ROOM, &found), TAILOR_OVERLAP);
        assert_int_equal(tailor_path_cross_path(&c, 1, &c, 1, 1e-6, s, t, ROOM, &found), TAILOR_OVERLAP);
        assert_int_equal(found, 55);
    }
}

static void touches(void **state)
{
    (void)state;
    const tailor_cubic arch = {{{0, 0}, {100, 100}, {200, 100}, {300, 0}}}; /* top at (150, 75) */
    double s[ROOM], t[ROOM];
    for (int k = -12; k <= 0; k++) {
        const double tolerance = pow(10, k);
        const tailor_cubic touching = tailor_cubic_line((tailor_point){-10, 75}, (tailor_point){320, 75});
        assert_int_equal(crossings(&arch, 1, &touching, 1, tolerance, s, t), 1);
        assert_close(s[0], 0.5, sqrt(tolerance) + 1e-6);
    }
    for (int k = -6; k <= 0; k++) { /* just over the top, and just below it */
        const double miss = pow(10, k);
        const tailor_cubic over = tailor_cubic_line((tailor_point){-10, 75 + miss}, (tailor_point){320, 75 + miss});
        const tailor_cubic below = tailor_cubic_line((tailor_point){-10, 75 - miss}, (tailor_point){320, 75 - miss});
        assert_int_equal(crossings(&arch, 1, &over, 1, miss / 10, s, t), 0);
        assert_int_equal(crossings(&arch, 1, &over, 1, miss * 2, s, t), 1);
        assert_int_equal(crossings(&arch, 1, &below, 1, miss / 10, s, t), 2);
    }
    /* two arcs side by side, touching */
    tailor_cubic a[4], b[4];
    for (int i = 0; i < 4; i++) {
        a[i] = tailor_cubic_arc((tailor_point){0, 0}, 10, 90 * i, 90 * i + 90);
        b[i] = tailor_cubic_arc((tailor_point){20, 0}, 10, 90 * i, 90 * i + 90);
    }
    assert_int_equal(crossings(a, 4, b, 4, 1e-9, s, t), 1);
    assert_close(s[0], 0, 0);
    assert_close(t[0], 2, 0);
}

static void ends_and_joints_count_once(void **state)
{
    (void)state;
    double s[ROOM], t[ROOM];
    const tailor_cubic cross[2] = {tailor_cubic_line((tailor_point){0, 0}, (tailor_point){5, 5}),
                                   tailor_cubic_line((tailor_point){5, 5}, (tailor_point){10, 10})};
    const tailor_cubic other[2] = {tailor_cubic_line((tailor_point){0, 10}, (tailor_point){5, 5}),
                                   tailor_cubic_line((tailor_point){5, 5}, (tailor_point){10, 0})};
    assert_int_equal(crossings(cross, 2, other, 2, 1e-9, s, t), 1); /* four pairs meet there */
    assert_close(s[0], 1, 0);
    assert_close(t[0], 1, 0);
    assert_int_equal(crossings(cross, 2, other, 1, 1e-9, s, t), 1);                          /* an end on a joint */
    const tailor_cubic tee = tailor_cubic_line((tailor_point){2, 2}, (tailor_point){9, -5}); /* an end within */
    assert_int_equal(crossings(cross, 2, &tee, 1, 1e-9, s, t), 1);
    assert_close(s[0], 0.4, 1e-12);
    assert_close(t[0], 0, 0);
    const tailor_cubic short_of = tailor_cubic_line((tailor_point){2.001, 1.999}, (tailor_point){9, -5});
    assert_int_equal(crossings(cross, 2, &short_of, 1, 1e-4, s, t), 0);
    assert_int_equal(crossings(cross, 2, &short_of, 1, 1e-2, s, t), 1);
    const tailor_cubic point = tailor_cubic_line((tailor_point){3, 3}, (tailor_point){3, 3});
    assert_int_equal(crossings(cross, 2, &point, 1, 1e-9, s, t), 1);
    assert_int_equal(crossings(&point, 1, &point, 1, 1e-9, s, t), 1);
}

static void any_scale(void **state)
{
    (void)state;
    uint64_t seed = 74;
    static const double scales[] = {1e-9, 1e-3, 1e9};
    for (int i = 0; i < 600; i++) {
        tailor_cubic a[6], b[6];
        double s[ROOM], t[ROOM];
        random_outline(&seed, a, 6, 100, 0.4);
        random_outline(&seed, b, 6, 100, 0.4);
        const size_t found = crossings(a, 6, b, 6, 1e-7, s, t);
        const double k = scales[i % 3], m[6] = {k, 0, 0, k, 0, 0};
        size_t again = 99;
        tailor_path_affine(a, 6, m, a);
        tailor_path_affine(b, 6, m, b);
        assert_int_equal(tailor_path_cross_path(a, 6, b, 6, 1e-7 * k, s, t, ROOM, &again), TAILOR_OK);
        assert_int_equal(again, found);
    }
}

static void asking_and_room(void **state)
{
    (void)state;
    uint64_t seed = 75;
    tailor_cubic a[6], b[6];
    double s[ROOM], t[ROOM];
    size_t found = 0, asked = 0;
    random_outline(&seed, a, 6, 100, 0.4);
    random_outline(&seed, b, 6, 100, 0.4);
    found = crossings(a, 6, b, 6, 1e-9, s, t);
    assert_true(found >= 2);
    assert_int_equal(tailor_path_cross_path(a, 6, b, 6, 1e-9, NULL, NULL, 0, &asked), TAILOR_OK);
    assert_true(asked >= found);
    assert_int_equal(tailor_path_cross_path(a, 6, b, 6, 1e-9, s, t, 1, &asked), TAILOR_TOO_SMALL);
    assert_true(asked >= found);
    assert_int_equal(tailor_path_cross_path(a, 6, b, 6, 0, s, t, ROOM, &asked), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_path(a, 6, b, 6, NAN, s, t, ROOM, &asked), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_path(a, 0, b, 6, 1e-9, s, t, ROOM, &asked), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_path(a, 6, b, 6, 1e-9, s, NULL, ROOM, &asked), TAILOR_BAD_ARGUMENT);
    b[2].p[1].x = NAN;
    assert_int_equal(tailor_path_cross_path(a, 6, b, 6, 1e-9, s, t, ROOM, &asked), TAILOR_NOT_FINITE);
}

int test_cross_path(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_many_as_fine_polygons_have),
        cmocka_unit_test(order_does_not_matter),
        cmocka_unit_test(shared_stretches_are_told_not_looped_on),
        cmocka_unit_test(touches),
        cmocka_unit_test(ends_and_joints_count_once),
        cmocka_unit_test(any_scale),
        cmocka_unit_test(asking_and_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

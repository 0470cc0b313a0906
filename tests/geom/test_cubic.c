/* One cubic: making, evaluating, cutting, boxing. */
#include "geom/curves.h"

static const tailor_point o = {0, 0};

static void lines_have_equal_steps(void **state)
{
    (void)state;
    const tailor_cubic c = tailor_cubic_line((tailor_point){10, 20}, (tailor_point){40, -40});
    assert_same_point(tailor_cubic_point(&c, 0.25), ((tailor_point){17.5, 5}), 1e-14);
    assert_same_point(tailor_cubic_derivative(&c, 0.9), ((tailor_point){30, -60}), 1e-12);
    assert_close(tailor_cubic_curvature(&c, 0.3), 0, 1e-15);
}

static void hermite_takes_its_handles(void **state)
{
    (void)state;
    const tailor_cubic c =
        tailor_cubic_hermite((tailor_point){1, 2}, (tailor_point){3, 4}, (tailor_point){10, 20}, (tailor_point){5, 6});
    assert_same_point(c.p[1], ((tailor_point){4, 6}), 0);
    assert_same_point(c.p[2], ((tailor_point){5, 14}), 0);
}

static void arcs_lie_on_their_circle(void **state)
{
    (void)state;
    uint64_t seed = 1;
    for (int i = 0; i < 2000; i++) {
        const tailor_point centre = random_point(&seed, 100);
        const double radius = random_in(&seed, 1, 300), from = random_in(&seed, -720, 720),
                     sweep = random_in(&seed, -90, 90);
        const tailor_cubic c = tailor_cubic_arc(centre, radius, from, from + sweep);
        assert_close(distance_of(c.p[0], centre), radius, 1e-12 * radius);
        assert_close(distance_of(c.p[3], centre), radius, 1e-12 * radius);
        assert_close(atan2(c.p[0].y - centre.y, c.p[0].x - centre.x),
                     remainder(from * 0.017453292519943295, 6.283185307179586), 1e-11);
        for (int k = 0; k <= 20; k++)
            assert_close(distance_of(tailor_cubic_point(&c, k / 20.0), centre), radius,
                         radius * 2.9e-4 * pow(fabs(sweep) / 90, 6) + 1e-12 * radius);
        assert_close(tailor_cubic_curvature(&c, 0.5) * radius, sweep > 0 ? 1 : -1, 0.01);
    }
    for (int quarter = -8; quarter <= 8; quarter++) { /* exact at the quarter turns */
        const tailor_cubic c = tailor_cubic_arc(o, 7, quarter * 90, quarter * 90 + 90);
        assert_true(fabs(c.p[0].x) == 7 || fabs(c.p[0].x) == 0);
        assert_true(fabs(c.p[3].y) == 7 || fabs(c.p[3].y) == 0);
    }
    assert_true(isnan(tailor_cubic_arc(o, 1, 0, 91).p[1].x));
    assert_true(isnan(tailor_cubic_arc(o, 1, NAN, 91).p[1].x));
    assert_true(isnan(tailor_cubic_arc(o, 1, INFINITY, INFINITY).p[0].x));
}

static void ends_are_exact(void **state)
{
    (void)state;
    uint64_t seed = 2;
    for (int i = 0; i < 2000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const double t = random_unit(&seed);
        tailor_cubic a, b;
        tailor_cubic_split(&c, t, &a, &b);
        assert_same_point(tailor_cubic_point(&c, 0), c.p[0], 0);
        assert_same_point(tailor_cubic_point(&c, 1), c.p[3], 0);
        assert_same_point(a.p[0], c.p[0], 0);
        assert_same_point(b.p[3], c.p[3], 0);
        assert_same_point(a.p[3], b.p[0], 0);
        assert_same_point(a.p[3], tailor_cubic_point(&c, t), 1e-12);
    }
}

static void parts_lie_on_the_whole(void **state)
{
    (void)state;
    uint64_t seed = 3;
    for (int i = 0; i < 2000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const double from = random_in(&seed, -0.2, 1.2), to = random_in(&seed, -0.2, 1.2), t = random_unit(&seed);
        const tailor_cubic part = tailor_cubic_part(&c, from, to), back = tailor_cubic_reverse(&part);
        assert_same_point(tailor_cubic_point(&part, t), tailor_cubic_point(&c, from + (to - from) * t), 1e-11);
        assert_same_point(tailor_cubic_point(&back, t), tailor_cubic_point(&part, 1 - t), 1e-11);
        const tailor_cubic whole = tailor_cubic_part(&c, 0, 1);
        for (int k = 0; k < 4; k++) assert_same_point(whole.p[k], c.p[k], 0);
        tailor_cubic self = c, rest;
        tailor_cubic_split(&self, t, &self, &rest); /* a result may be the curve itself */
        assert_same_point(rest.p[0], self.p[3], 0);
        tailor_cubic_split(&c, t, NULL, &rest);
        tailor_cubic_split(&c, t, &rest, NULL);
    }
}

static void derivative_agrees_with_differences(void **state)
{
    (void)state;
    uint64_t seed = 4;
    for (int i = 0; i < 2000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const double t = random_in(&seed, 0.1, 0.9), h = 1e-5;
        const tailor_point a = tailor_cubic_point(&c, t - h), b = tailor_cubic_point(&c, t + h),
                           d = tailor_cubic_derivative(&c, t);
        assert_same_point(((tailor_point){(b.x - a.x) / (2 * h), (b.y - a.y) / (2 * h)}), d, 1e-5);
        const tailor_point u = tailor_cubic_direction(&c, t);
        const double speed = hypot(d.x, d.y);
        if (speed > 1e-6) {
            assert_close(u.x * speed, d.x, 1e-9);
            assert_close(u.y * speed, d.y, 1e-9);
        }
    }
}

static void curvature_agrees_with_three_points(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int i = 0; i < 1000; i++) {
        const tailor_cubic c = random_curve(&seed, i % 3);
        const double t = random_in(&seed, 0.1, 0.9), h = 1e-3;
        const tailor_point a = tailor_cubic_point(&c, t - h), b = tailor_cubic_point(&c, t),
                           d = tailor_cubic_point(&c, t + h);
        const double turn = (b.x - a.x) * (d.y - b.y) - (b.y - a.y) * (d.x - b.x);
        const double menger = 2 * turn / (distance_of(a, b) * distance_of(b, d) * distance_of(a, d));
        assert_close(tailor_cubic_curvature(&c, t), menger, 1e-5);
    }
}

static void directions_where_handles_have_no_length(void **state)
{
    (void)state;
    const double s = 1 / sqrt(2);
    const tailor_cubic first = {{{0, 0}, {0, 0}, {10, 10}, {30, 0}}}, both = {{{0, 0}, {0, 0}, {10, 10}, {10, 10}}};
    const tailor_cubic three = {{{5, 5}, {5, 5}, {5, 5}, {5, 9}}}, point = {{{3, 4}, {3, 4}, {3, 4}, {3, 4}}};
    const tailor_cubic cusp = {{{0, 0}, {100, 100}, {0, 100}, {100, 0}}}, back = {{{0, 0}, {4, 0}, {4, 0}, {4, 0}}};
    assert_same_point(tailor_cubic_direction(&first, 0), ((tailor_point){s, s}), 1e-15);
    assert_same_point(tailor_cubic_direction(&both, 0), ((tailor_point){s, s}), 1e-15);
    assert_same_point(tailor_cubic_direction(&both, 1), ((tailor_point){s, s}), 1e-15);
    assert_same_point(tailor_cubic_direction(&three, 0), ((tailor_point){0, 1}), 1e-15);
    assert_same_point(tailor_cubic_direction(&three, 1), ((tailor_point){0, 1}), 1e-15);
    assert_same_point(tailor_cubic_direction(&back, 1), ((tailor_point){1, 0}), 1e-15);
    for (int k = 0; k <= 4; k++) assert_same_point(tailor_cubic_direction(&point, k / 4.0), o, 0);
    assert_same_point(tailor_cubic_derivative(&cusp, 0.5), o, 1e-12); /* a cusp: it stands, and leaves downward */
    assert_same_point(tailor_cubic_direction(&cusp, 0.5), ((tailor_point){0, -1}), 1e-12);
    assert_true(isinf(tailor_cubic_curvature(&first, 0)));
    assert_close(tailor_cubic_curvature(&three, 0), 0, 0);
    assert_close(tailor_cubic_curvature(&point, 0.5), 0, 0);
    const tailor_cubic near = {{{0, 0}, {1e-9, 0}, {10, 10}, {30, 0}}}; /* a short handle still has a direction */
    assert_same_point(tailor_cubic_direction(&near, 0), ((tailor_point){1, 0}), 1e-12);
}

static void boxes_are_tight(void **state)
{
    (void)state;
    uint64_t seed = 6;
    for (int i = 0; i < 2000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        double box[4], seen[4] = {INFINITY, INFINITY, -INFINITY, -INFINITY};
        tailor_cubic_bounds(&c, box);
        for (int k = 0; k <= 1000; k++) {
            const tailor_point p = tailor_cubic_point(&c, k / 1000.0);
            seen[0] = fmin(seen[0], p.x);
            seen[1] = fmin(seen[1], p.y);
            seen[2] = fmax(seen[2], p.x);
            seen[3] = fmax(seen[3], p.y);
        }
        for (int k = 0; k < 4; k++) {
            assert_close(box[k], seen[k], 2e-3);
            assert_at_most(k < 2 ? box[k] - seen[k] : seen[k] - box[k], 1e-12);
        }
    }
}

static void many_points_are_the_single_ones(void **state)
{
    (void)state;
    uint64_t seed = 7;
    const tailor_cubic c = random_curve(&seed, WILD);
    double t[50];
    tailor_point points[50];
    for (int i = 0; i < 50; i++) t[i] = random_in(&seed, -1, 2);
    tailor_cubic_points(&c, t, 50, points);
    for (int i = 0; i < 50; i++) assert_same_point(points[i], tailor_cubic_point(&c, t[i]), 0);
}

int test_cubic(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_have_equal_steps),
        cmocka_unit_test(hermite_takes_its_handles),
        cmocka_unit_test(arcs_lie_on_their_circle),
        cmocka_unit_test(ends_are_exact),
        cmocka_unit_test(parts_lie_on_the_whole),
        cmocka_unit_test(derivative_agrees_with_differences),
        cmocka_unit_test(curvature_agrees_with_three_points),
        cmocka_unit_test(directions_where_handles_have_no_length),
        cmocka_unit_test(boxes_are_tight),
        cmocka_unit_test(many_points_are_the_single_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Places along a path, cutting, joining, moving. */
#include <string.h>
#include "geom/curves.h"

enum { COUNT = 7 };

static void chain(uint64_t *seed, tailor_cubic *path, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        path[i] = random_curve(seed, (int)(i % FAMILIES));
        const tailor_point to = i ? path[i - 1].p[3] : path[0].p[0];
        const double move[6] = {1, 0, 0, 1, to.x - path[i].p[0].x, to.y - path[i].p[0].y};
        tailor_path_affine(&path[i], 1, move, &path[i]);
        path[i].p[0] = to;
    }
}

static void places_and_lengths_agree(void **state)
{
    (void)state;
    uint64_t seed = 31;
    for (int i = 0; i < 300; i++) {
        tailor_cubic path[COUNT];
        double lengths[COUNT], wanted[40], places[40];
        chain(&seed, path, COUNT);
        const double whole = tailor_path_length(path, COUNT);
        assert_close(tailor_path_lengths(path, COUNT, lengths), whole, 0);
        for (int k = 0; k < 40; k++)
            wanted[k] = whole * (k < 30 ? k / 30.0 : random_unit(&seed)); /* ascending, then any order */
        tailor_path_at_lengths(path, COUNT, wanted, 40, places);
        for (int k = 0; k < 40; k++) {
            assert_close(places[k], tailor_path_at_length(path, COUNT, wanted[k]), 1e-9);
            assert_close(tailor_path_length_to(path, COUNT, places[k]), wanted[k], 1e-9);
        }
        assert_close(tailor_path_at_length(path, COUNT, whole * 2), COUNT, 0);
        assert_close(tailor_path_at_length(path, COUNT, -1), 0, 0);
        assert_close(tailor_path_length_to(path, COUNT, 3), lengths[0] + lengths[1] + lengths[2], 1e-9);
    }
    assert_true(isnan(tailor_path_at_length(NULL, 0, 1)));
    assert_close(tailor_path_length(NULL, 0), 0, 0);
    assert_true(isnan(tailor_path_point(NULL, 0, 0).x));
}

static void places_outside_are_clipped(void **state)
{
    (void)state;
    uint64_t seed = 32;
    tailor_cubic path[COUNT];
    tailor_point points[4];
    chain(&seed, path, COUNT);
    const double places[4] = {-1, COUNT + 1, INFINITY, 2};
    tailor_path_points(path, COUNT, places, 4, points);
    assert_same_point(points[0], path[0].p[0], 0);
    assert_same_point(points[1], path[COUNT - 1].p[3], 0);
    assert_same_point(points[2], path[COUNT - 1].p[3], 0);
    assert_same_point(points[3], path[2].p[0], 0);
    assert_true(isnan(tailor_path_point(path, COUNT, NAN).x));
    assert_same_point(tailor_path_direction(path, COUNT, 2), tailor_cubic_direction(&path[2], 0), 0);
    assert_same_point(tailor_path_direction(path, COUNT, COUNT), tailor_cubic_direction(&path[COUNT - 1], 1), 0);
}

static void parts_have_the_length_between(void **state)
{
    (void)state;
    uint64_t seed = 33;
    for (int i = 0; i < 1000; i++) {
        tailor_cubic path[COUNT], part[COUNT + 1];
        size_t n = 0, asked = 0;
        chain(&seed, path, COUNT);
        double from = random_in(&seed, 0, COUNT), to = random_in(&seed, 0, COUNT);
        if (i % 3 == 0) from = floor(from);
        if (i % 5 == 0) to = ceil(to);
        if (from > to) {
            const double swap = from;
            from = to;
            to = swap;
        }
        if (from == to) continue;
        assert_int_equal(tailor_path_part(path, COUNT, from, to, NULL, 0, &asked), TAILOR_OK);
        assert_int_equal(tailor_path_part(path, COUNT, from, to, part, COUNT + 1, &n), TAILOR_OK);
        assert_int_equal(n, asked);
        assert_close(tailor_path_length(part, n),
                     tailor_path_length_to(path, COUNT, to) - tailor_path_length_to(path, COUNT, from), 1e-9);
        assert_same_point(part[0].p[0], tailor_path_point(path, COUNT, from), 1e-9);
        assert_same_point(part[n - 1].p[3], tailor_path_point(path, COUNT, to), 1e-9);
        assert_close(tailor_path_gap(part, n, 0), 0, 1e-9);
        assert_int_equal(tailor_path_part(path, COUNT, from, to, part, n - 1, &asked), TAILOR_TOO_SMALL);
        assert_int_equal(asked, n);
    }
}

static void parts_through_the_closing_joint(void **state)
{
    (void)state;
    uint64_t seed = 34;
    tailor_cubic path[COUNT], part[COUNT + 1];
    random_outline(&seed, path, COUNT, 100, 0.2);
    const double whole = tailor_path_length(path, COUNT);
    for (int i = 0; i < 500; i++) {
        size_t n = 0;
        double from = random_in(&seed, 0, COUNT), to = random_in(&seed, 0, from);
        if (i % 4 == 0) from = ceil(from);
        if (i % 4 == 1) to = floor(to);
        if (from == COUNT && to == 0) continue;
        assert_int_equal(tailor_path_part(path, COUNT, from, to, part, COUNT + 1, &n), TAILOR_OK);
        const double expected =
            whole - tailor_path_length_to(path, COUNT, from) + tailor_path_length_to(path, COUNT, to);
        assert_close(tailor_path_length(part, n), expected, 1e-9);
        assert_close(tailor_path_gap(part, n, 0), 0, 1e-12);
    }
    size_t n = 77;
    assert_int_equal(tailor_path_part(path, COUNT, 2, 2, part, COUNT + 1, &n), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_part(path, COUNT, COUNT, 0, part, COUNT + 1, &n), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_part(path, COUNT - 1, 2, 1, part, COUNT + 1, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_part(path, COUNT, NAN, 1, part, COUNT + 1, &n), TAILOR_NOT_FINITE);
    assert_int_equal(n, 77);
}

static void joining(void **state)
{
    (void)state;
    uint64_t seed = 35;
    tailor_cubic path[COUNT], joined[COUNT];
    chain(&seed, path, COUNT);
    assert_int_equal(tailor_path_join(path, 3, path + 3, 4, 0, joined, COUNT), TAILOR_OK);
    assert_memory_equal(joined, path, sizeof path);
    const double away[6] = {1, 0, 0, 1, 0.001, 0};
    tailor_cubic moved[4];
    tailor_path_affine(path + 3, 4, away, moved);
    assert_close(tailor_path_gap(path, COUNT, 0), 0, 0);
    assert_int_equal(tailor_path_join(path, 3, moved, 4, 1e-4, joined, COUNT), TAILOR_NO_SOLUTION);
    assert_int_equal(tailor_path_join(path, 3, moved, 4, 0.01, joined, COUNT - 1), TAILOR_TOO_SMALL);
    assert_int_equal(tailor_path_join(path, 3, moved, 4, 0.01, joined, COUNT), TAILOR_OK);
    assert_close(tailor_path_gap(joined, COUNT, 0), 0, 0);
    assert_same_point(joined[2].p[3], ((tailor_point){path[2].p[3].x + 0.0005, path[2].p[3].y}), 1e-12);
    assert_same_point(tailor_cubic_direction(&joined[2], 1), tailor_cubic_direction(&path[2], 1), 1e-9);
    /* in place, the second path already where it goes */
    memcpy(joined, path, sizeof path);
    assert_int_equal(tailor_path_join(joined, 3, joined + 3, 4, 0, joined, COUNT), TAILOR_OK);
    assert_memory_equal(joined, path, sizeof path);
    assert_int_equal(tailor_path_join(path, COUNT, NULL, 0, 0, joined, COUNT), TAILOR_OK);
    assert_memory_equal(joined, path, sizeof path);
    assert_int_equal(tailor_path_join(path, 3, moved, 4, -1, joined, COUNT), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_join(path, 3, moved, 4, NAN, joined, COUNT), TAILOR_BAD_ARGUMENT);
}

static void closing(void **state)
{
    (void)state;
    uint64_t seed = 36;
    tailor_cubic path[COUNT + 1];
    size_t n = 0;
    random_outline(&seed, path, COUNT, 100, 0.2);
    assert_int_equal(tailor_path_close(path, COUNT, 0, COUNT, &n), TAILOR_OK);
    assert_int_equal(n, COUNT);
    path[COUNT - 1].p[3].x += 1e-3;
    assert_close(tailor_path_gap(path, COUNT, 0), 0, 1e-15);
    assert_close(tailor_path_gap(path, COUNT, 1), 1e-3, 1e-12);
    assert_int_equal(tailor_path_close(path, COUNT, 1e-4, COUNT, &n), TAILOR_TOO_SMALL);
    assert_int_equal(n, COUNT + 1);
    assert_int_equal(tailor_path_close(path, COUNT, 1e-2, COUNT, &n), TAILOR_OK);
    assert_int_equal(n, COUNT);
    assert_close(tailor_path_gap(path, COUNT, 1), 0, 0);
    assert_int_equal(tailor_path_close(path, COUNT - 1, 1e-2, COUNT + 1, &n), TAILOR_OK);
    assert_int_equal(n, COUNT);
    assert_close(tailor_path_gap(path, n, 1), 0, 0);
}

static void reversing_and_reflecting(void **state)
{
    (void)state;
    uint64_t seed = 37;
    for (int i = 0; i < 300; i++) {
        tailor_cubic path[COUNT], back[COUNT], mirrored[COUNT];
        const size_t count = 1 + (size_t)i % COUNT;
        chain(&seed, path, count);
        tailor_path_reverse(path, count, back);
        const double place = random_in(&seed, 0, (double)count);
        assert_same_point(tailor_path_point(back, count, (double)count - place), tailor_path_point(path, count, place),
                          1e-9);
        memcpy(mirrored, path, sizeof path);
        tailor_path_reverse(mirrored, count, mirrored); /* in place */
        assert_memory_equal(mirrored, back, count * sizeof *back);

        const tailor_point a = random_point(&seed, 100), b = random_point(&seed, 100);
        assert_int_equal(tailor_path_reflect(path, count, a, b, mirrored), TAILOR_OK);
        assert_close(tailor_path_length(mirrored, count), tailor_path_length(path, count), 1e-9);
        assert_close(tailor_path_area(mirrored, count), -tailor_path_area(path, count), 1e-6);
        assert_int_equal(tailor_path_reflect(mirrored, count, a, b, mirrored), TAILOR_OK); /* in place, and back */
        for (size_t k = 0; k < count; k++)
            for (int j = 0; j < 4; j++) assert_same_point(mirrored[k].p[j], path[k].p[j], 1e-10);
    }
    const tailor_point p = {1, 2};
    tailor_cubic c = tailor_cubic_line(p, p);
    assert_true(isnan(tailor_point_reflect(p, p, p).x));
    assert_int_equal(tailor_path_reflect(&c, 1, p, p, &c), TAILOR_DEGENERATE);
    tailor_point points[2] = {{3, 0}, {0, 5}};
    tailor_points_reflect(points, 2, (tailor_point){0, 0}, (tailor_point){1, 1}, points);
    assert_same_point(points[0], ((tailor_point){0, 3}), 1e-15);
    assert_same_point(points[1], ((tailor_point){5, 0}), 1e-15);
}

static void affine_maps(void **state)
{
    (void)state;
    uint64_t seed = 38;
    for (int i = 0; i < 300; i++) {
        tailor_cubic path[COUNT], moved[COUNT];
        double m[6];
        chain(&seed, path, COUNT);
        for (int k = 0; k < 6; k++) m[k] = random_in(&seed, -2, 2);
        tailor_path_affine(path, COUNT, m, moved);
        const double place = random_in(&seed, 0, COUNT);
        tailor_point p = tailor_path_point(path, COUNT, place);
        tailor_points_affine(&p, 1, m, &p);
        assert_same_point(tailor_path_point(moved, COUNT, place), p, 1e-9);
        assert_close(tailor_path_area(moved, COUNT), (m[0] * m[3] - m[1] * m[2]) * tailor_path_area(path, COUNT), 1e-5);
    }
}

static void bounds_of_paths(void **state)
{
    (void)state;
    uint64_t seed = 39;
    tailor_cubic path[COUNT];
    double box[4], one[4], low = INFINITY;
    chain(&seed, path, COUNT);
    tailor_path_bounds(path, COUNT, box);
    for (int i = 0; i < COUNT; i++) {
        tailor_cubic_bounds(&path[i], one);
        low = fmin(low, one[0]);
    }
    assert_close(box[0], low, 0);
    tailor_path_bounds(path, 0, box);
    assert_true(isnan(box[0]) && isnan(box[3]));
    path[3].p[2].y = NAN;
    tailor_path_bounds(path, COUNT, box);
    assert_true(isnan(box[0]) && isnan(box[3]));
}

static void flat_points_stay_within(void **state)
{
    (void)state;
    uint64_t seed = 40;
    static tailor_point points[200000];
    static const double tolerances[] = {1, 0.01, 1e-4};
    for (int i = 0; i < 90; i++) {
        tailor_cubic path[COUNT];
        size_t n = 0, asked = 0;
        chain(&seed, path, COUNT);
        const double tolerance = tolerances[i % 3];
        assert_int_equal(tailor_path_flatten(path, COUNT, tolerance, NULL, 0, &asked), TAILOR_OK);
        assert_int_equal(tailor_path_flatten(path, COUNT, tolerance, points, 200000, &n), TAILOR_OK);
        assert_int_equal(n, asked);
        assert_same_point(points[0], path[0].p[0], 0);
        assert_same_point(points[n - 1], path[COUNT - 1].p[3], 0);
        for (size_t k = 0; k + 1 < n; k += 1 + n / 200) { /* the middle of a chord is nearest to its own arc */
            double away;
            const tailor_point middle = {(points[k].x + points[k + 1].x) / 2, (points[k].y + points[k + 1].y) / 2};
            tailor_path_nearest(path, COUNT, middle, &away);
            assert_at_most(away, tolerance);
        }
        assert_int_equal(tailor_path_flatten(path, COUNT, tolerance, points, n - 1, &asked), TAILOR_TOO_SMALL);
        assert_int_equal(asked, n);
    }
    size_t n = 5;
    tailor_cubic c = tailor_cubic_line((tailor_point){0, 0}, (tailor_point){300, 1});
    assert_int_equal(tailor_path_flatten(&c, 1, 1e-9, points, 9, &n), TAILOR_OK);
    assert_int_equal(n, 2);
    c.p[1].y = 1e9;
    assert_int_equal(tailor_path_flatten(&c, 1, 1e-9, points, 9, &n), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_path_flatten(&c, 1, 0, points, 9, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_flatten(&c, 1, NAN, points, 9, &n), TAILOR_BAD_ARGUMENT);
}

int test_path(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places_and_lengths_agree),
        cmocka_unit_test(places_outside_are_clipped),
        cmocka_unit_test(parts_have_the_length_between),
        cmocka_unit_test(parts_through_the_closing_joint),
        cmocka_unit_test(joining),
        cmocka_unit_test(closing),
        cmocka_unit_test(reversing_and_reflecting),
        cmocka_unit_test(affine_maps),
        cmocka_unit_test(bounds_of_paths),
        cmocka_unit_test(flat_points_stay_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Area, centroid, moments, winding. */
#include <stdlib.h>
#include "geom/curves.h"

/** Moments of the polygon through many points of a path: area, x, y, xx, xy, yy. */
static void polygon_moments(const tailor_cubic *path, size_t count, int steps, double m[6])
{
    for (int k = 0; k < 6; k++) m[k] = 0;
    for (size_t i = 0; i < count * (size_t)steps; i++) {
        const tailor_point a = tailor_path_point(path, count, (double)i / steps),
                           b = tailor_path_point(path, count, (double)(i + 1) / steps);
        const double turn = a.x * b.y - b.x * a.y;
        m[0] += turn / 2;
        m[1] += turn * (a.x + b.x) / 6;
        m[2] += turn * (a.y + b.y) / 6;
        m[3] += turn * (a.x * a.x + a.x * b.x + b.x * b.x) / 12;
        m[4] += turn * (2 * a.x * a.y + a.x * b.y + b.x * a.y + 2 * b.x * b.y) / 24;
        m[5] += turn * (a.y * a.y + a.y * b.y + b.y * b.y) / 12;
    }
}

static void moments_agree_with_polygons(void **state)
{
    (void)state;
    uint64_t seed = 21;
    for (int i = 0; i < 60; i++) {
        tailor_cubic path[9];
        double coarse[6], fine[6], m[6];
        tailor_point centre;
        random_outline(&seed, path, 9, 200, 0.3);
        const double matrix[6] = {1, 0, 0, 1, random_in(&seed, -500, 500), random_in(&seed, -500, 500)};
        tailor_path_affine(path, 9, matrix, path);
        polygon_moments(path, 9, 200, coarse);
        polygon_moments(path, 9, 400, fine);
        tailor_path_moments(path, 9, m);
        for (int k = 0; k < 6; k++) {
            const double limit = (4 * fine[k] - coarse[k]) / 3;
            assert_close(m[k] / limit, 1, 1e-8);
        }
        assert_close(tailor_path_area(path, 9), m[0], 1e-9 * m[0]);
        assert_int_equal(tailor_path_centroid(path, 9, &centre), TAILOR_OK);
        assert_close(centre.x, m[1] / m[0], 1e-9);
        assert_close(centre.y, m[2] / m[0], 1e-9);
        tailor_path_reverse(path, 9, path);
        assert_close(tailor_path_area(path, 9), -m[0], 1e-9 * m[0]);
    }
}

static void open_paths_are_closed_by_their_chord(void **state)
{
    (void)state;
    uint64_t seed = 22;
    tailor_cubic path[9];
    random_outline(&seed, path, 9, 200, 0.2);
    for (size_t n = 1; n < 9; n++) {
        tailor_cubic closed[9];
        for (size_t i = 0; i < n; i++) closed[i] = path[i];
        closed[n] = tailor_cubic_line(path[n - 1].p[3], path[0].p[0]);
        assert_close(tailor_path_area(path, n), tailor_path_area(closed, n + 1), 1e-9);
    }
    assert_close(tailor_path_area(path, 0), 0, 0);
}

static void area_does_not_mind_where_it_is(void **state)
{
    (void)state;
    uint64_t seed = 23;
    tailor_cubic path[9];
    random_outline(&seed, path, 9, 200, 0.2);
    const double area = tailor_path_area(path, 9), far[6] = {1, 0, 0, 1, 1e6, -1e6};
    tailor_path_affine(path, 9, far, path);
    assert_close(tailor_path_area(path, 9), area, 1e-6); /* the corners' own rounding, no more */
}

static void no_area_no_centre(void **state)
{
    (void)state;
    tailor_point centre = {1, 2};
    const tailor_cubic there_and_back[2] = {tailor_cubic_line((tailor_point){0, 0}, (tailor_point){9, 3}),
                                            tailor_cubic_line((tailor_point){9, 3}, (tailor_point){0, 0})};
    assert_int_equal(tailor_path_centroid(there_and_back, 2, &centre), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_centroid(there_and_back, 0, &centre), TAILOR_BAD_ARGUMENT);
    assert_close(centre.x, 1, 0);
}

/** Winding of a fine polygon, by angles: nothing in common with crossings. */
static int turns_round(const tailor_cubic *path, size_t count, tailor_point p)
{
    const int steps = 400;
    double sum = 0;
    for (size_t i = 0; i < count * (size_t)steps; i++) {
        const tailor_point a = tailor_path_point(path, count, (double)i / steps),
                           b = tailor_path_point(path, count, (double)(i + 1) / steps);
        const double ax = a.x - p.x, ay = a.y - p.y, bx = b.x - p.x, by = b.y - p.y;
        sum += atan2(ax * by - ay * bx, ax * bx + ay * by);
    }
    return (int)lround(sum / 6.283185307179586);
}

static void winding_agrees_with_angles(void **state)
{
    (void)state;
    uint64_t seed = 24;
    int inside = 0, twice = 0;
    for (int i = 0; i < 400; i++) {
        tailor_cubic path[6];
        const size_t count = i % 2 ? 6 : 3;
        if (i % 2)
            random_outline(&seed, path, 6, 100, 0.9);
        else { /* wild and crossing itself */
            tailor_point at[3] = {random_point(&seed, 100), random_point(&seed, 100), random_point(&seed, 100)};
            for (size_t k = 0; k < 3; k++)
                path[k] = (tailor_cubic){{at[k], random_point(&seed, 200), random_point(&seed, 200), at[(k + 1) % 3]}};
        }
        for (int k = 0; k < 10; k++) {
            const tailor_point p = random_point(&seed, 120);
            double away;
            tailor_path_nearest(path, count, p, &away);
            if (away < 0.5) continue;
            const int winding = tailor_path_winding(path, count, p);
            assert_int_equal(winding, turns_round(path, count, p));
            inside += winding != 0;
            twice += abs(winding) == 2;
        }
    }
    assert_true(inside > 400);
    assert_true(twice > 5);
}

static void winding_at_the_height_of_joints(void **state)
{
    (void)state;
    const tailor_point at[6] = {{0, 0}, {10, 0}, {10, 10}, {5, 5}, {0, 10}, {0, 5}};
    tailor_cubic path[6];
    polygon(at, 6, path);
    static const struct {
        tailor_point p;
        int winding;
    } cases[] = {
        {{1, 5}, 1}, {{6, 5}, 1},  {{-1, 5}, 0}, {{-1, 0}, 0}, {{-1, 10}, 0}, {{5, 10}, 0},
        {{5, 6}, 0}, {{11, 5}, 0}, {{5, 4}, 1},  {{5, 11}, 0}, {{5, -1}, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_int_equal(tailor_path_winding(path, 6, cases[i].p), cases[i].winding);
    tailor_point points[3] = {{1, 5}, {-1, 5}, {5, 4}};
    int windings[3];
    tailor_path_windings(path, 6, points, 3, windings);
    assert_int_equal(windings[0] * 100 + windings[1] * 10 + windings[2], 101);
}

int test_area(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments_agree_with_polygons),    cmocka_unit_test(open_paths_are_closed_by_their_chord),
        cmocka_unit_test(area_does_not_mind_where_it_is), cmocka_unit_test(no_area_no_centre),
        cmocka_unit_test(winding_agrees_with_angles),     cmocka_unit_test(winding_at_the_height_of_joints),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

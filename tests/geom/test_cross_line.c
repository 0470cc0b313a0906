/* A path and a line. */
#include "geom/curves.h"

static double side_of(tailor_point p, tailor_point a, tailor_point b)
{
    return ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / distance_of(a, b);
}

static void places_lie_on_the_line_and_none_is_missed(void **state)
{
    (void)state;
    uint64_t seed = 61;
    size_t met = 0;
    for (int i = 0; i < 5000; i++) {
        const tailor_cubic c = random_curve(&seed, i % FAMILIES);
        const tailor_point a = random_point(&seed, 400), b = random_point(&seed, 400);
        double places[3] = {0};
        size_t found = 9;
        assert_int_equal(tailor_path_cross_line(&c, 1, a, b, places, 3, &found), TAILOR_OK);
        met += found;
        assert_true(found <= 3);
        for (size_t k = 0; k < found; k++) {
            assert_close(side_of(tailor_cubic_point(&c, places[k]), a, b), 0, 1e-9);
            assert_true(places[k] >= 0 && places[k] <= 1 && (k == 0 || places[k] > places[k - 1]));
        }
        size_t changes = 0; /* of side, along fine steps: never more than crossings */
        double last = side_of(c.p[0], a, b);
        for (int k = 1; k <= 1000; k++) {
            const double here = side_of(tailor_cubic_point(&c, k / 1000.0), a, b);
            changes += (here > 0) != (last > 0);
            last = here;
        }
        assert_true(changes <= found && (found - changes) % 2 == 0);
    }
    assert_true(met > 1000);
}

static void joints_and_touches_count_once(void **state)
{
    (void)state;
    const tailor_point at[4] = {{0, 0}, {10, 0}, {10, 10}, {0, 10}};
    tailor_cubic path[4];
    double places[8];
    size_t found = 0;
    polygon(at, 4, path);
    /* the diagonal: two corners, each the joint of two sides */
    assert_int_equal(tailor_path_cross_line(path, 4, at[0], at[2], places, 8, &found), TAILOR_OK);
    assert_int_equal(found, 2);
    assert_close(places[0], 0, 0);
    assert_close(places[1], 2, 0);
    /* touching one corner */
    assert_int_equal(tailor_path_cross_line(path, 4, (tailor_point){5, -5}, (tailor_point){15, 5}, places, 8, &found),
                     TAILOR_OK);
    assert_int_equal(found, 1);
    assert_close(places[0], 1, 0);
    /* along a side */
    found = 77;
    assert_int_equal(tailor_path_cross_line(path, 4, (tailor_point){-5, 10}, (tailor_point){15, 10}, places, 8, &found),
                     TAILOR_OVERLAP);
    assert_int_equal(found, 77);
    /* an arc's top touched, at any turn */
    for (int turn = 0; turn < 360; turn += 7) {
        const double t = turn * 0.017453292519943295;
        tailor_cubic arch = {{{-100, 0}, {-60, 80}, {60, 80}, {100, 0}}}; /* top at (0, 60) */
        tailor_point line[2] = {{-50, 60}, {70, 60}};
        const double m[6] = {cos(t), sin(t), -sin(t), cos(t), 30, -20};
        tailor_path_affine(&arch, 1, m, &arch);
        tailor_points_affine(line, 2, m, line);
        assert_int_equal(tailor_path_cross_line(&arch, 1, line[0], line[1], places, 8, &found), TAILOR_OK);
        assert_int_equal(found, 1);
        assert_close(places[0], 0.5, 1e-6);
    }
}

static void asking_and_room(void **state)
{
    (void)state;
    const tailor_cubic ess = {{{0, 0}, {100, 150}, {200, -150}, {300, 0}}};
    double places[2] = {-1, -1};
    size_t found = 0;
    const tailor_point a = {0, 1}, b = {1, 1};
    assert_int_equal(tailor_path_cross_line(&ess, 1, a, b, NULL, 0, &found), TAILOR_OK);
    assert_int_equal(found, 2);
    found = 0;
    assert_int_equal(tailor_path_cross_line(&ess, 1, a, b, places, 1, &found), TAILOR_TOO_SMALL);
    assert_int_equal(found, 2);
    assert_int_equal(tailor_path_cross_line(&ess, 1, a, a, places, 1, &found), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_cross_line(&ess, 1, a, (tailor_point){NAN, 0}, places, 1, &found), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_path_cross_line(&ess, 0, a, b, places, 1, &found), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_line(NULL, 1, a, b, places, 1, &found), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_line(&ess, 1, (tailor_point){0, 900}, (tailor_point){1, 900}, places, 2, &found),
                     TAILOR_OK);
    assert_int_equal(found, 0); /* none is no fault */
}

static void no_senseless_hits(void **state)
{
    (void)state;
    /* clipping once gave extra hits on curves like this (lib2geom issue 47): nearly straight, far from the origin */
    uint64_t seed = 62;
    for (int i = 0; i < 2000; i++) {
        const double x = random_in(&seed, 1e3, 1e5), y = random_in(&seed, 1e3, 1e5),
                     e = pow(10, random_in(&seed, -9, 0));
        const tailor_cubic c = {{{x, y}, {x + 30, y + e}, {x + 60, y - e}, {x + 90, y + 2 * e}}};
        double places[3];
        size_t found = 0;
        assert_int_equal(tailor_path_cross_line(&c, 1, (tailor_point){x + 45, y - 10}, (tailor_point){x + 45.5, y + 10},
                                                places, 3, &found),
                         TAILOR_OK);
        assert_int_equal(found, 1);
    }
}

int test_cross_line(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places_lie_on_the_line_and_none_is_missed),
        cmocka_unit_test(joints_and_touches_count_once),
        cmocka_unit_test(asking_and_room),
        cmocka_unit_test(no_senseless_hits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Does a path cross itself? */
#include "geom/curves.h"

static int crosses(const tailor_cubic *path, size_t count, double places[2])
{
    int answer = 9;
    assert_int_equal(tailor_path_crosses_itself(path, count, 1e-6, &answer, places), TAILOR_OK);
    return answer;
}

static void sound_outlines(void **state)
{
    (void)state;
    uint64_t seed = 81;
    for (int i = 0; i < 1000;
         i++) { /* stars seen from the origin cannot cross themselves, if their handles are short */
        tailor_cubic path[12];
        const size_t count = 4 + (size_t)i % 9;
        random_outline(&seed, path, count, 100, 0.15);
        assert_int_equal(crosses(path, count, NULL), 0);
        tailor_path_reverse(path, count, path);
        assert_int_equal(crosses(path, count, NULL), 0);
        assert_int_equal(crosses(path, count - 1, NULL), 0); /* open */
    }
    const tailor_point spike[3] = {{0, 0}, {100, 0}, {100, 1e-3}}; /* two sides at 0.0006 degrees */
    tailor_cubic path[3];
    polygon(spike, 3, path);
    assert_int_equal(crosses(path, 3, NULL), 0);
}

static void figures_of_eight(void **state)
{
    (void)state;
    uint64_t seed = 82;
    for (int i = 0; i < 500; i++) {
        tailor_cubic path[12];
        double places[2];
        random_outline(&seed, path, 12, 100, 0.1);
        for (int k = 0; k < 12; k++) /* turn the lower half over: the middle is crossed */
            for (int j = 0; j < 4; j++)
                if (path[k].p[j].y < 0) path[k].p[j].x = -path[k].p[j].x;
        assert_int_equal(crosses(path, 12, places), 1);
        assert_true(places[0] < places[1]);
        assert_same_point(tailor_path_point(path, 12, places[0]), tailor_path_point(path, 12, places[1]), 1e-6);
    }
}

static void loops_of_one_curve(void **state)
{
    (void)state;
    uint64_t seed = 83;
    int loops = 0;
    for (int i = 0; i < 2000; i++) {
        tailor_cubic c = random_curve(&seed, WILD), halves[2];
        double places[2];
        const int answer = crosses(&c, 1, places);
        loops += answer;
        if (answer) assert_same_point(tailor_cubic_point(&c, places[0]), tailor_cubic_point(&c, places[1]), 1e-6);
        tailor_cubic_split(&c, 0.5, &halves[0], &halves[1]); /* the same curve, met by another way */
        assert_int_equal(crosses(halves, 2, NULL), answer);
    }
    assert_true(loops > 50 && loops < 1000);
    const tailor_cubic drop = {{{0, 0}, {50, 80}, {-50, 80}, {0, 0}}}; /* closed: its own joint is no crossing */
    assert_int_equal(crosses(&drop, 1, NULL), 0);
}

static void small_loops_do_not_count(void **state)
{
    (void)state;
    const tailor_cubic big = {{{0, 0}, {110, 100}, {-10, 100}, {100, 0}}},
                       cusp = {{{0, 0}, {100, 100}, {0, 100}, {100, 0}}};
    tailor_cubic small = cusp;
    small.p[1].x += 1e-9;
    assert_int_equal(crosses(&big, 1, NULL), 1);
    assert_int_equal(crosses(&cusp, 1, NULL), 0);
    assert_int_equal(crosses(&small, 1, NULL), 0);
}

static void running_back(void **state)
{
    (void)state;
    const tailor_cubic there_and_back[2] = {tailor_cubic_line((tailor_point){0, 0}, (tailor_point){9, 3}),
                                            tailor_cubic_line((tailor_point){9, 3}, (tailor_point){0, 0})};
    const tailor_cubic back = {{{0, 0}, {30, 0}, {-20, 0}, {10, 0}}}, on = {{{0, 0}, {8, 0}, {2, 0}, {10, 0}}};
    const tailor_cubic point = {{{1, 1}, {1, 1}, {1, 1}, {1, 1}}};
    assert_int_equal(crosses(there_and_back, 2, NULL), 1);
    assert_int_equal(crosses(&back, 1, NULL), 1);
    assert_int_equal(crosses(&on, 1, NULL), 0);
    assert_int_equal(crosses(&point, 1, NULL), 0);
}

static void touching_itself(void **state)
{
    (void)state;
    /* a wedge cut from a square, its tip on the opposite side, or short of it */
    for (int k = 0; k < 2; k++) {
        const tailor_point at[6] = {{0, 0}, {100, 0}, {100, 100}, {60, 100}, {50, k ? 1e-3 : 0}, {0, 100}};
        tailor_cubic path[6];
        polygon(at, 6, path);
        assert_int_equal(crosses(path, 6, NULL), !k);
    }
}

static void what_is_refused(void **state)
{
    (void)state;
    tailor_cubic c = tailor_cubic_line((tailor_point){0, 0}, (tailor_point){1, 0});
    int answer = 5;
    assert_int_equal(tailor_path_crosses_itself(&c, 1, 0, &answer, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_crosses_itself(&c, 0, 1, &answer, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_crosses_itself(NULL, 1, 1, &answer, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_crosses_itself(&c, 1, 1, NULL, NULL), TAILOR_BAD_ARGUMENT);
    c.p[1].y = NAN;
    assert_int_equal(tailor_path_crosses_itself(&c, 1, 1, &answer, NULL), TAILOR_NOT_FINITE);
    assert_int_equal(answer, 5);
}

/** A cubic that is hardly more than a point between two others is part of their joint. */
static void a_point_between_neighbours(void **state)
{
    (void)state;
    const tailor_point corners[4] = {{0, 0}, {100, 0}, {100, 80}, {0, 80}};
    for (int at = 0; at < 5; at++)
        for (double size = 0; size < 1e-6; size = size * 10 + 1e-13) {
            tailor_cubic path[5], whole[4];
            polygon(corners, 4, whole);
            int n = 0;
            for (int i = 0; i < 5; i++) {
                if (i == at) {
                    const tailor_point joint = i < 4 ? whole[i].p[0] : whole[3].p[3];
                    const tailor_point beside = {joint.x + size, joint.y + size};
                    path[i] = (tailor_cubic){{joint, beside, beside, joint}};
                } else
                    path[i] = whole[n++];
            }
            assert_int_equal(crosses(path, 5, NULL), 0);
        }
}

int test_self(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sound_outlines),     cmocka_unit_test(figures_of_eight),
        cmocka_unit_test(loops_of_one_curve), cmocka_unit_test(small_loops_do_not_count),
        cmocka_unit_test(running_back),       cmocka_unit_test(touching_itself),
        cmocka_unit_test(what_is_refused),    cmocka_unit_test(a_point_between_neighbours),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Offsets of one edge. */
#include "geom/curves.h"

enum { ROOM = 512 };

static tailor_cubic made[ROOM];

static size_t offset(const tailor_cubic *path, size_t count, double distance, double tolerance)
{
    size_t n = 0;
    assert_int_equal(tailor_path_offset(path, count, distance, tolerance, made, ROOM, &n), TAILOR_OK);
    assert_true(n > 0 && n <= ROOM);
    assert_close(tailor_path_gap(made, n, 0), 0, 0);
    return n;
}

static void keeps(const tailor_cubic *path, size_t count, size_t n, double distance, double tolerance)
{
    for (size_t k = 0; k <= n * 16; k++) {
        double away;
        tailor_path_nearest(path, count, tailor_path_point(made, n, (double)k / 16), &away);
        assert_close(away, fabs(distance), tolerance);
    }
}

static void lines_and_sides(void **state)
{
    (void)state;
    const tailor_cubic east = tailor_cubic_line((tailor_point){0, 0}, (tailor_point){100, 0});
    assert_int_equal(offset(&east, 1, 10, 0.01), 1);
    assert_same_point(made[0].p[0], ((tailor_point){0, -10}), 1e-12); /* the right of east is south */
    assert_same_point(made[0].p[3], ((tailor_point){100, -10}), 1e-12);
    assert_int_equal(offset(&east, 1, -10, 0.01), 1);
    assert_same_point(made[0].p[0], ((tailor_point){0, 10}), 1e-12);
    assert_int_equal(offset(&east, 1, 0, 0.01), 1);
    assert_same_point(made[0].p[3], east.p[3], 0);
}

static void arcs_become_arcs(void **state)
{
    (void)state;
    const tailor_point o = {3, 4};
    for (int d = -60; d <= 200; d += 20) {
        const tailor_cubic arc = tailor_cubic_arc(o, 100, 10, 80);
        const size_t n = offset(&arc, 1, d, 1e-3);
        for (size_t k = 0; k <= n * 10; k++)
            assert_close(distance_of(tailor_path_point(made, n, (double)k / 10), o), 100 + d, 1e-3 + 1e-4 * 100);
        assert_at_most((double)n, 4);
    }
    const tailor_cubic arc = tailor_cubic_arc(o, 100, 10, 80); /* past the centre nothing is left */
    size_t n = 77;
    assert_int_equal(tailor_path_offset(&arc, 1, -120, 1e-3, made, ROOM, &n), TAILOR_NO_SOLUTION);
    assert_int_equal(n, 77);
}

static void true_distance_at_every_tolerance(void **state)
{
    (void)state;
    uint64_t seed = 101;
    size_t cubics[6] = {0};
    for (int i = 0; i < 600; i++) {
        const tailor_cubic c = random_curve(&seed, i % 3);
        const double tolerance = pow(10, -1 - i / 3 % 6), d = random_in(&seed, -10, 10);
        const size_t n = offset(&c, 1, d, tolerance);
        keeps(&c, 1, n, d, tolerance);
        cubics[i / 3 % 6] += n;
        assert_at_most(distance_of(made[0].p[0], c.p[0]), fabs(d) + 1e-9); /* from beside its start to beside its end */
        assert_at_most(distance_of(made[n - 1].p[3], c.p[3]), fabs(d) + 1e-9);
    }
    for (int k = 0; k < 6; k++) print_message("# %g mm: %zu cubics for 100 curves\n", pow(10, -1 - k), cubics[k]);
    for (int k = 0; k < 5; k++)
        assert_true(cubics[k + 1] >= cubics[k] &&
                    cubics[k + 1] < 3 * cubics[k]); /* finer costs more, not out of hand */
}

static void tight_bends_are_trimmed(void **state)
{
    (void)state;
    uint64_t seed = 102;
    int trimmed = 0;
    for (int i = 0; i < 300; i++) {
        const double bend = random_in(&seed, 10, 60);
        const tailor_cubic hairpin = {{{0, 0}, {bend, 200}, {bend + 20, 200}, {100, 0}}};
        const double d = random_in(&seed, 5, 45);
        size_t n = 0;
        int crosses = 1;
        const tailor_status status = tailor_path_offset(&hairpin, 1, d, 0.01, made, ROOM, &n); /* its inside */
        assert_int_equal(status, TAILOR_OK);
        keeps(&hairpin, 1, n, d, 0.01);
        assert_int_equal(tailor_path_crosses_itself(made, n, 1e-8, &crosses, NULL), TAILOR_OK);
        assert_int_equal(crosses, 0);
        for (size_t k = 0; k + 1 < n; k++) { /* a sharp joint shows where a loop was cut away */
            const tailor_point u = tailor_cubic_direction(&made[k], 1), v = tailor_cubic_direction(&made[k + 1], 0);
            trimmed += u.x * v.x + u.y * v.y < 0.9;
        }
    }
    assert_true(trimmed > 50);
}

static void zero_handles_and_cusps(void **state)
{
    (void)state;
    uint64_t seed = 103;
    for (int i = 0; i < 500; i++) {
        const tailor_cubic c = random_curve(&seed, ZERO_HANDLE);
        const double d = random_in(&seed, -8, 8);
        size_t n = 0;
        const tailor_status status = tailor_path_offset(&c, 1, d, 0.01, made, ROOM, &n);
        assert_int_equal(status, TAILOR_OK);
        keeps(&c, 1, n, d, 0.01);
    }
    const tailor_cubic cusp = {{{0, 0}, {100, 100}, {0, 100}, {100, 0}}}; /* its tip is gone round */
    for (int d = 1; d <= 30; d += 4) {
        keeps(&cusp, 1, offset(&cusp, 1, -d, 0.01), d, 0.01);
        keeps(&cusp, 1, offset(&cusp, 1, d, 0.01), d, 0.01);
    }
}

static void joined_edges(void **state)
{
    (void)state;
    uint64_t seed = 104;
    for (int i = 0; i < 200; i++) { /* a smooth run of several cubics, and one with corners */
        tailor_point at[7];
        tailor_cubic path[6];
        for (int k = 0; k < 7; k++) at[k] = (tailor_point){60 * k, random_in(&seed, -20, 20)};
        if (i % 2)
            assert_int_equal(tailor_path_smooth(at, 7, path), TAILOR_OK);
        else
            for (int k = 0; k < 6; k++) path[k] = tailor_cubic_line(at[k], at[k + 1]);
        const double d = random_in(&seed, -15, 15);
        keeps(path, 6, offset(path, 6, d, 0.005), d, 0.005);
    }
}

static void asking_room_and_refusals(void **state)
{
    (void)state;
    const tailor_cubic c = {{{0, 0}, {100, 150}, {200, -150}, {300, 0}}}, point = {{{1, 1}, {1, 1}, {1, 1}, {1, 1}}};
    size_t n = 0, asked = 0;
    assert_int_equal(tailor_path_offset(&c, 1, 5, 1e-4, NULL, 0, &asked), TAILOR_OK);
    assert_int_equal(tailor_path_offset(&c, 1, 5, 1e-4, made, ROOM, &n), TAILOR_OK);
    assert_int_equal(n, asked);
    assert_int_equal(tailor_path_offset(&c, 1, 5, 1e-4, made, n - 1, &asked), TAILOR_TOO_SMALL);
    assert_int_equal(asked, n);
    assert_int_equal(tailor_path_offset(&point, 1, 5, 1e-4, made, ROOM, &n), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_offset(&c, 1, 5, 0, made, ROOM, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_offset(&c, 1, NAN, 1, made, ROOM, &n), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_path_offset(&c, 0, 5, 1, made, ROOM, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_offset(&c, 1, 5, 1, made, ROOM, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_offset(&c, 1, 5, 1e-12, made, ROOM, &n), TAILOR_OUT_OF_RANGE); /* more than 512 */
}

int test_edge_offset(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_and_sides),
        cmocka_unit_test(arcs_become_arcs),
        cmocka_unit_test(true_distance_at_every_tolerance),
        cmocka_unit_test(tight_bends_are_trimmed),
        cmocka_unit_test(zero_handles_and_cusps),
        cmocka_unit_test(joined_edges),
        cmocka_unit_test(asking_room_and_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

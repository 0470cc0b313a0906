/* Offsets of outlines: distance kept everywhere, nothing crossing, nothing turned inside out. Areas and shapes against
 * GEOS are in test_reference.py. */
#include "geom/curves.h"

enum { ROOM = 512, SIDES = 12 };

static tailor_cubic made[ROOM];

static size_t offset(const tailor_cubic *path, size_t count, double distance, int corner, double tolerance)
{
    double distances[64];
    size_t needed = 9999;
    for (size_t i = 0; i < count; i++) distances[i] = distance;
    const tailor_status status =
        tailor_outline_offset(path, count, distances, corner, 4, tolerance, made, ROOM, &needed);
    if (status != TAILOR_OK) print_error("distance %.17g\n", distance);
    assert_int_equal(status, TAILOR_OK);
    assert_true(needed <= ROOM);
    return needed;
}

/* What every offset must be. Returns its area, as a share of the path's sign. */
static double sound(const tailor_cubic *path, size_t count, size_t n, double tolerance)
{
    int crosses = 1;
    const double sign = tailor_path_area(path, count) > 0 ? 1 : -1;
    if (n == 0) return 0;
    assert_close(tailor_path_gap(made, n, 1), 0, 0);
    assert_int_equal(tailor_path_crosses_itself(made, n, tolerance * 1e-6, &crosses, NULL), TAILOR_OK);
    assert_int_equal(crosses, 0);
    const double area = sign * tailor_path_area(made, n);
    assert_true(area > 0);
    return area;
}

/* Every point at the distance, to the tolerance. */
static void keeps(const tailor_cubic *path, size_t count, size_t n, double distance, double tolerance)
{
    for (size_t k = 0; k < n * 10; k++) {
        double away;
        tailor_path_nearest(path, count, tailor_path_point(made, n, (double)k / 10), &away);
        assert_close(away, fabs(distance), tolerance);
    }
}

static void smooth_outlines_at_any_distance(void **state)
{
    (void)state;
    uint64_t seed = 91;
    int empty = 0, whole = 0;
    for (int i = 0; i < 400; i++) {
        tailor_cubic path[SIDES];
        const size_t count = 5 + (size_t)i % 8;
        const double distance = random_in(&seed, -1, 1) * pow(10, random_in(&seed, -2, 2.7)),
                     tolerance = pow(10, random_in(&seed, -4, -1));
        random_outline(&seed, path, count, 150, i % 3 ? 0.25 : 0.6);
        if (i % 2) tailor_path_reverse(path, count, path);
        const size_t n = offset(path, count, distance, TAILOR_CORNER_ROUND, tolerance);
        const double area = sound(path, count, n, tolerance);
        keeps(path, count, n, distance, tolerance);
        if (distance > 0) assert_true(area > fabs(tailor_path_area(path, count)));
        empty += n == 0;
        whole += n > 0;
    }
    assert_true(empty > 5 && whole > 300);
}

static void convex_ones_obey_steiner(void **state)
{
    (void)state;
    uint64_t seed = 92;
    for (int i = 0; i < 100; i++) {
        tailor_cubic path[SIDES];
        random_outline(&seed, path, 8, 150, 0.02);
        const double d = random_in(&seed, 1, 200), area = tailor_path_area(path, 8),
                     length = tailor_path_length(path, 8);
        const size_t n = offset(path, 8, d, TAILOR_CORNER_ROUND, 0.01);
        /* area + length d + pi d^2 (Steiner); the tolerance acts along the new outline */
        assert_close(tailor_path_area(made, n), area + length * d + 3.141592653589793 * d * d,
                     0.01 * tailor_path_length(made, n));
    }
}

/* Distances close to one another, in and past the inradius: no one distance fails, areas only fall. */
static void distances_without_gaps(void **state)
{
    (void)state;
    uint64_t seed = 93;
    for (int i = 0; i < 6; i++) {
        tailor_cubic path[SIDES];
        double last = INFINITY;
        random_outline(&seed, path, 7, 100, 0.2);
        for (int k = 0; k <= 1500; k++) {
            const double distance = 10 - k * 0.1003;
            const size_t n = offset(path, 7, distance, TAILOR_CORNER_ROUND, 0.01);
            const double area = sound(path, 7, n, 0.01);
            assert_at_most(area, last > 0 ? last : 0); /* once empty, empty */
            last = area;
        }
        assert_close(last, 0, 0);
    }
    /* a notched rectangle: one value of the distance made a library fail where its neighbours did not (GEOS 552) */
    const tailor_point at[8] = {{0, 0}, {40, 0}, {40, 10}, {22, 10}, {20, 4}, {18, 10}, {0, 10}, {0, 5}};
    tailor_cubic path[8];
    polygon(at, 8, path);
    for (int corner = 1; corner <= 3; corner++)
        for (int k = -600; k <= 600; k++) {
            offset(path, 8, k * 0.01, corner, 0.001); /* at some of these sides just touch */
            sound(path, 8, offset(path, 8, k * 0.01 + 0.0037, corner, 0.001), 0.001);
        }
}

static void unequal_allowances(void **state)
{
    (void)state;
    const tailor_point at[4] = {{0, 0}, {100, 0}, {100, 50}, {0, 50}};
    const double distances[4] = {10, 20, 0, 5};
    tailor_cubic path[4];
    double box[4];
    size_t n = 0;
    polygon(at, 4, path);
    assert_int_equal(tailor_outline_offset(path, 4, distances, TAILOR_CORNER_MITRE, 4, 0.01, made, ROOM, &n),
                     TAILOR_OK);
    assert_close(sound(path, 4, n, 0.01), 125 * 60, 1e-9);
    tailor_path_bounds(made, n, box);
    assert_close(box[0], -5, 1e-12);
    assert_close(box[1], -10, 1e-12);
    assert_close(box[2], 120, 1e-12);
    assert_close(box[3], 50, 1e-12);
    /* a step where the allowance changes along a straight side: 40 at the hem, 10 above */
    const tailor_point steps[5] = {{0, 0}, {100, 0}, {100, 20}, {100, 80}, {0, 80}};
    const double widths[5] = {40, 40, 10, 10, 10};
    tailor_cubic side[5];
    polygon(steps, 5, side);
    assert_int_equal(tailor_outline_offset(side, 5, widths, TAILOR_CORNER_MITRE, 4, 0.01, made, ROOM, &n), TAILOR_OK);
    assert_close(sound(side, 5, n, 0.01), 150 * 60 + 120 * 70,
                 1e-9); /* 60 up at the width 10 + 100 + 40, then 70 at 120 */
}

static void straight_shapes_stay_straight(void **state)
{
    (void)state;
    uint64_t seed = 94;
    for (int i = 0; i < 300; i++) {
        const size_t count = 3 + (size_t)i % 6;
        tailor_point at[8];
        tailor_cubic path[8];
        for (size_t k = 0; k < count; k++) {
            const double turn = 6.283185307179586 * ((double)k + random_in(&seed, 0, 0.8)) / (double)count,
                         r = random_in(&seed, 60, 200);
            at[k] = (tailor_point){r * cos(turn), r * sin(turn)};
        }
        polygon(at, count, path);
        if (!(tailor_path_area(path, count) > 0)) continue;
        const double d = random_in(&seed, 0.1, 15);
        for (int corner = 1; corner <= 3; corner++) {
            const size_t n = offset(path, count, d, corner, 0.01);
            const double area = sound(path, count, n, 0.01);
            assert_true(n <= (corner == TAILOR_CORNER_ROUND ? 9 : 3) * count);
            assert_true(area > tailor_path_area(path, count));
            if (corner == TAILOR_CORNER_ROUND) keeps(path, count, n, d, 0.01);
        }
    }
}

static void narrow_necks_and_slots(void **state)
{
    (void)state;
    /* two rooms and a neck 10 wide between them: inward by 6 they part, and the larger stays */
    const tailor_point rooms[12] = {{0, 0},    {60, 0},  {60, 25}, {90, 25}, {90, 0},  {130, 0},
                                    {130, 60}, {90, 60}, {90, 35}, {60, 35}, {60, 60}, {0, 60}};
    tailor_cubic path[12];
    polygon(rooms, 12, path);
    assert_close(sound(path, 12, offset(path, 12, -6, TAILOR_CORNER_MITRE, 0.01), 0.01), 48 * 48, 1e-6);
    assert_true(sound(path, 12, offset(path, 12, -4, TAILOR_CORNER_ROUND, 0.01), 0.01) > 52 * 52 + 32 * 52);
    /* outward by 20 the bay between them closes over */
    const size_t n = offset(path, 12, 20, TAILOR_CORNER_ROUND, 0.01);
    sound(path, 12, n, 0.01);
    keeps(path, 12, n, 20, 0.01);
    assert_int_equal(tailor_path_winding(made, n, (tailor_point){75, 10}), 1);
    /* a slot of no width: two sides on one another; outward it is gone */
    const tailor_point slot[7] = {{0, 0}, {50, 0}, {50, 30}, {50, 0}, {100, 0}, {100, 60}, {0, 60}};
    tailor_cubic cut[7];
    polygon(slot, 7, cut);
    assert_close(sound(cut, 7, offset(cut, 7, 10, TAILOR_CORNER_MITRE, 0.01), 0.01), 120 * 80, 0.1);
}

static void any_scale(void **state)
{
    (void)state;
    uint64_t seed = 95;
    static const double scales[] = {1e-9, 1e-4, 1e5, 1e9};
    for (int i = 0; i < 80; i++) {
        tailor_cubic path[8];
        const double k = scales[i % 4], m[6] = {k, 0, 0, k, 0, 0}, d = i % 8 < 4 ? 10 : -10;
        random_outline(&seed, path, 8, 150, 0.2);
        const double area = tailor_path_area(made, offset(path, 8, d, TAILOR_CORNER_ROUND, 0.01));
        tailor_path_affine(path, 8, m, path);
        const size_t n = offset(path, 8, d * k, TAILOR_CORNER_ROUND, 0.01 * k);
        assert_close(tailor_path_area(made, n) / (k * k), area, 1e-3);
    }
}

static void coarse_tolerance_on_a_small_curve(void **state)
{
    (void)state; /* a library once answered with the chord (kurbo 122) */
    tailor_cubic circle[4];
    for (int i = 0; i < 4; i++) circle[i] = tailor_cubic_arc((tailor_point){0, 0}, 0.1, 90 * i, 90 * i + 90);
    const size_t n = offset(circle, 4, 0.05, TAILOR_CORNER_ROUND, 0.01);
    keeps(circle, 4, n, 0.05, 0.01);
    assert_close(tailor_path_area(made, n), 3.14159 * 0.15 * 0.15, 0.001);
    assert_int_equal(offset(circle, 4, -0.12, TAILOR_CORNER_ROUND, 0.01), 0);
}

static void degenerate_parts_do_not_matter(void **state)
{
    (void)state;
    const tailor_point at[4] = {{0, 0}, {100, 0}, {100, 50}, {0, 50}};
    tailor_cubic path[4], padded[6];
    polygon(at, 4, path);
    padded[0] = path[0];
    padded[1] = tailor_cubic_line(at[1], at[1]); /* a side without length */
    padded[2] = path[1];
    padded[3] = (tailor_cubic){{at[2], at[2], at[3], at[3]}}; /* a side whose handles have none */
    padded[4] = tailor_cubic_line(at[3], at[3]);
    padded[5] = path[3];
    for (int corner = 1; corner <= 3; corner++)
        for (int d = -20; d <= 20; d += 4) {
            const double plain = tailor_path_area(made, offset(path, 4, d, corner, 0.01));
            assert_close(tailor_path_area(made, offset(padded, 6, d, corner, 0.01)), plain, 1e-9);
        }
    assert_close(tailor_path_area(made, offset(path, 4, 0, TAILOR_CORNER_MITRE, 0.01)), 5000, 1e-9); /* no distance */
}

static void asking_room_and_refusals(void **state)
{
    (void)state;
    uint64_t seed = 96;
    tailor_cubic path[8];
    double d[8] = {10, 10, 10, 10, 10, 10, 10, 10};
    size_t n = 0, asked = 0;
    random_outline(&seed, path, 8, 150, 0.2);
    assert_int_equal(tailor_outline_offset(path, 8, d, TAILOR_CORNER_ROUND, 4, 0.01, NULL, 0, &asked), TAILOR_OK);
    assert_int_equal(tailor_outline_offset(path, 8, d, TAILOR_CORNER_ROUND, 4, 0.01, made, ROOM, &n), TAILOR_OK);
    assert_int_equal(n, asked);
    assert_int_equal(tailor_outline_offset(path, 8, d, TAILOR_CORNER_ROUND, 4, 0.01, made, n - 1, &asked),
                     TAILOR_TOO_SMALL);
    assert_int_equal(asked, n);
    assert_int_equal(tailor_outline_offset(path, 8, d, 0, 4, 0.01, made, ROOM, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_outline_offset(path, 8, d, 4, 4, 0.01, made, ROOM, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_outline_offset(path, 8, d, 1, 0.5, 0.01, made, ROOM, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_outline_offset(path, 8, d, 1, 4, 0, made, ROOM, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_outline_offset(path, 7, d, 1, 4, 0.01, made, ROOM, &n), TAILOR_BAD_ARGUMENT); /* open */
    assert_int_equal(tailor_outline_offset(path, 8, NULL, 1, 4, 0.01, made, ROOM, &n), TAILOR_BAD_ARGUMENT);
    d[3] = NAN;
    assert_int_equal(tailor_outline_offset(path, 8, d, 1, 4, 0.01, made, ROOM, &n), TAILOR_NOT_FINITE);
    d[3] = 10;
    path[2].p[1].x = INFINITY;
    assert_int_equal(tailor_outline_offset(path, 8, d, 1, 4, 0.01, made, ROOM, &n), TAILOR_NOT_FINITE);
    const tailor_cubic flat[2] = {tailor_cubic_line((tailor_point){0, 0}, (tailor_point){9, 3}),
                                  tailor_cubic_line((tailor_point){9, 3}, (tailor_point){0, 0})};
    assert_int_equal(tailor_outline_offset(flat, 2, d, 1, 4, 0.01, made, ROOM, &n), TAILOR_DEGENERATE);
    assert_int_equal(n, asked);
}

int test_offset(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(smooth_outlines_at_any_distance),
        cmocka_unit_test(convex_ones_obey_steiner),
        cmocka_unit_test(distances_without_gaps),
        cmocka_unit_test(unequal_allowances),
        cmocka_unit_test(straight_shapes_stay_straight),
        cmocka_unit_test(narrow_necks_and_slots),
        cmocka_unit_test(any_scale),
        cmocka_unit_test(coarse_tolerance_on_a_small_curve),
        cmocka_unit_test(degenerate_parts_do_not_matter),
        cmocka_unit_test(asking_room_and_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Input of every unsound kind, to every function: what comes back is what the header says, and it comes back. */
#include <stdbool.h>
#include "geom/curves.h"

enum { KINDS = 12, ROOM = 600 };

static tailor_cubic unsound(int kind)
{
    static const tailor_point o = {7, -3};
    tailor_cubic c = {{{0, 0}, {100, 150}, {200, -150}, {300, 0}}};
    switch (kind) {
    case 0:
        c = (tailor_cubic){{o, o, o, o}};
        break;
    case 1:
        c.p[1] = c.p[0];
        break;
    case 2:
        c.p[2] = c.p[3];
        break;
    case 3:
        c.p[1] = c.p[0];
        c.p[2] = c.p[3];
        break;
    case 4:
        c.p[1] = c.p[2] = c.p[3];
        break;
    case 5:
        c.p[3] = c.p[0];
        break;
    case 6:
        c = (tailor_cubic){{{0, 0}, {100, 100}, {0, 100}, {100, 0}}};
        break; /* a cusp */
    case 7:
        c = (tailor_cubic){{{0, 0}, {30, 0}, {-20, 0}, {10, 0}}};
        break; /* there, back and there */
    case 8:
        c.p[2].x = NAN;
        break;
    case 9:
        c.p[1].y = INFINITY;
        break;
    case 10:
        c.p[3].x = 1e300;
        c.p[0].y = -1e300;
        break;
    case 11:
        for (int k = 0; k < 4; k++) c.p[k].x *= 1e-300, c.p[k].y *= 1e-300;
        break;
    default:
        break;
    }
    return c;
}

static bool is_number(int kind) { return kind != 8 && kind != 9; }

static void one_curve(void **state)
{
    (void)state;
    for (int kind = 0; kind < KINDS; kind++) {
        const tailor_cubic c = unsound(kind);
        double box[4], distance = 0;
        const double length = tailor_cubic_length(&c);
        tailor_cubic_bounds(&c, box);
        const double t = tailor_cubic_nearest(&c, (tailor_point){50, 20}, &distance);
        if (is_number(kind)) {
            assert_true(length >= 0);
            assert_true(box[0] <= box[2] && box[1] <= box[3]);
            assert_true(kind == 10 || (t >= 0 && t <= 1 && distance >= 0));
        } else {
            assert_true(isnan(t) && isnan(distance));
            assert_true(kind == 9 || (isnan(length) && isnan(box[0])));
        }
        for (int k = 0; k <= 10; k++) {
            const tailor_point u = tailor_cubic_direction(&c, k / 10.0);
            const double n = hypot(u.x, u.y);
            if (is_number(kind) && kind != 10) assert_true(kind == 0 ? n == 0 : fabs(n - 1) < 1e-12);
            (void)tailor_cubic_curvature(&c, k / 10.0);
            const double at = tailor_cubic_at_length(&c, length * k / 10);
            assert_true(isnan(at) || (at >= 0 && at <= 1));
        }
        assert_true(isnan(tailor_cubic_at_length(&c, NAN)));
    }
}

static void paths_of_them(void **state)
{
    (void)state;
    static tailor_cubic made[ROOM];
    static tailor_point points[5000];
    for (int a = 0; a < KINDS; a++)
        for (int b = 0; b < KINDS; b++) {
            const bool finite = is_number(a) && is_number(b);
            const tailor_cubic path[2] = {unsound(a), unsound(b)};
            const double distances[2] = {5, -5}, places[2] = {0.5, 1.5};
            double s[40], t[40], pair[2], moments[6];
            tailor_point centre = {1, 1};
            size_t n = 12345;
            int crosses = 9;
            tailor_status status =
                tailor_path_cross_line(path, 2, (tailor_point){0, 1}, (tailor_point){9, 2}, s, 40, &n);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            status = tailor_path_cross_path(path, 1, path + 1, 1, 1e-6, s, t, 40, &n);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            if (finite && a == b && a > 0 && a < 10) assert_true(status == TAILOR_OVERLAP);
            status = tailor_path_crosses_itself(path, 2, 1e-6, &crosses, pair);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            status = tailor_path_centroid(path, 2, &centre);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            status = tailor_path_offset(path, 2, 5, 0.01, made, ROOM, &n);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            status = tailor_outline_offset(path, 2, distances, TAILOR_CORNER_ROUND, 4, 0.01, made, ROOM, &n);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            status = tailor_path_flatten(path, 2, 0.01, points, 5000, &n);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            status = tailor_path_part(path, 2, 0.3, 1.7, made, ROOM, &n);
            assert_int_equal(status == TAILOR_NOT_FINITE, !finite);
            status = tailor_path_join(path, 1, path + 1, 1, INFINITY, made, ROOM);
            assert_true(status == TAILOR_OK || status == TAILOR_NOT_FINITE || status == TAILOR_BAD_ARGUMENT);
            tailor_path_moments(path, 2, moments);
            tailor_path_points(path, 2, places, 2, points);
            (void)tailor_path_winding(path, 2, (tailor_point){3, 3});
            (void)tailor_path_area(path, 2);
            (void)tailor_path_length(path, 2);
        }
}

/* A part that runs back over itself, exactly or nearly, in every amount: counts stay small, and calls come back. */
static void nearly_the_same_curve(void **state)
{
    (void)state;
    uint64_t seed = 111;
    int statuses[3] = {0, 0, 0};
    for (int i = 0; i < 2000; i++) {
        tailor_cubic a = random_curve(&seed, i % 3),
                     b = tailor_cubic_part(&a, random_in(&seed, 0, 0.4), random_in(&seed, 0.6, 1));
        const double miss = pow(10, random_in(&seed, -13, 0));
        double s[40], t[40];
        size_t n = 0;
        for (int k = 0; k < 4; k++) {
            b.p[k].x += random_in(&seed, -miss, miss);
            b.p[k].y += random_in(&seed, -miss, miss);
        }
        const tailor_status status =
            tailor_path_cross_path(&a, 1, &b, 1, pow(10, random_in(&seed, -12, -1)), s, t, 40, &n);
        assert_true(status == TAILOR_OK || status == TAILOR_OVERLAP || status == TAILOR_NOT_CONVERGED);
        statuses[status == TAILOR_OK ? 0 : status == TAILOR_OVERLAP ? 1 : 2]++;
        if (status == TAILOR_OK) assert_true(n <= 9 + 4);
    }
    print_message("# apart %d, shared %d, too near to tell %d\n", statuses[0], statuses[1], statuses[2]);
    assert_true(statuses[0] > 400 && statuses[1] > 400);
}

static void nulls(void **state)
{
    (void)state;
    const tailor_cubic c = unsound(1);
    double d = 1;
    size_t n = 0;
    tailor_cubic made[4];
    tailor_point p[2] = {{0, 0}, {1, 1}};
    assert_int_equal(tailor_path_smooth(NULL, 2, made), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_smooth(p, 2, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_monotone(NULL, 2, made), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_monotone(p, 2, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_centroid(NULL, 1, p), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_centroid(&c, 1, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_line(&c, 1, p[0], p[1], &d, 1, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_line(&c, 1, p[0], p[1], NULL, 1, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_cross_path(&c, 1, &c, 1, 1e-6, NULL, NULL, 0, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_part(&c, 1, 0, 1, NULL, 3, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_part(&c, 1, 0, 1, made, 3, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_join(NULL, 1, &c, 1, 0, made, 4), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_join(&c, 1, &c, 1, 0, NULL, 4), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_close(NULL, 1, 0, 4, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_close(made, 0, 0, 4, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_reflect(NULL, 1, p[0], p[1], made), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_flatten(&c, 1, 1, NULL, 1, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_flatten(&c, 1, 1, p, 2, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_offset(NULL, 1, 1, 1, made, 4, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_offset(&c, 1, 1, 1, NULL, 4, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_outline_offset(NULL, 1, &d, 1, 4, 1, made, 4, &n), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_outline_offset(&c, 1, &d, 1, 4, 1, made, 4, NULL), TAILOR_BAD_ARGUMENT);
}

int test_degenerate(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_curve),
        cmocka_unit_test(paths_of_them),
        cmocka_unit_test(nearly_the_same_curve),
        cmocka_unit_test(nulls),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

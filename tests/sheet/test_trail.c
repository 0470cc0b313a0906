/* Paths walked in chords, on the page. GEOS measures the same curves, cut much finer. */
#include "../base/near.h"
#include "../../lib/sheet/layout/trail.h"

#include <geos_c.h>
#include <math.h>

enum { MOST = 600, FINE = 200 };
static const double turned[6] = {0.8, 0.6, 0.6, -0.8, 300, 200}; /* mirrored, turned and moved; true to size */

/** A wavy path of so many cubics, some of them straight lines. */
static void wave(tailor_cubic *path, size_t count, uint64_t *seed)
{
    tailor_point at = {0, 0};
    for (size_t i = 0; i < count; i++) {
        const double long_ = 600.0 / (double)count, rise = long_ * (next_random(seed) - 0.5);
        const tailor_point to = {at.x + long_, at.y + rise};
        path[i] = tailor_cubic_line(at, to);
        if (i % 3)
            for (int k = 1; k < 3; k++)
                path[i].p[k].y += 0.7 * long_ * (next_random(seed) - 0.5);
        at = to;
    }
}

static GEOSGeometry *fine_line(const tailor_cubic *path, size_t count)
{
    GEOSCoordSequence *places = GEOSCoordSeq_create((unsigned)(count * FINE) + 1, 2);
    for (size_t i = 0; i <= count * FINE; i++) {
        const size_t which = i < count * FINE ? i / FINE : count - 1;
        const double t = (double)(i - which * FINE) / FINE, u = 1 - t;
        const double b[4] = {u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t};
        double x = 0, y = 0;
        for (int k = 0; k < 4; k++) {
            x += b[k] * path[which].p[k].x;
            y += b[k] * path[which].p[k].y;
        }
        GEOSCoordSeq_setXY(places, (unsigned)i, turned[0] * x + turned[2] * y + turned[4],
                           turned[1] * x + turned[3] * y + turned[5]);
    }
    return GEOSGeom_createLineString(places);
}

static void a_trail_follows_its_path(void **state)
{
    static const size_t counts[] = {1, 2, 3, 8, 60, 254, 255, 256, 257, MOST};
    static tailor_cubic path[MOST];
    uint64_t seed = 5;
    (void)state;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        struct tailor_in_trail t;
        double length;
        wave(path, counts[i], &seed);
        tailor_in_trail_walk(&t, turned, path, counts[i]);
        assert_true(t.count > 1 && t.count <= TAILOR_IN_TRAIL);
        GEOSGeometry *line = fine_line(path, counts[i]);
        assert_int_equal(GEOSLength(line, &length), 1);
        const int coarse = counts[i] > 250; /* corners are cut where points are scarce */
        assert_true(fabs(tailor_in_trail_length(&t) - length) < (coarse ? 0.05 : 0.005) * length);
        for (int k = 0; k <= 20; k++) {
            const double at = tailor_in_trail_length(&t) * k / 20;
            const tailor_point p = tailor_in_trail_point(&t, at);
            const int after = tailor_in_trail_after(&t, at);
            double off;
            GEOSGeometry *point = GEOSGeom_createPointFromXY(p.x, p.y);
            assert_int_equal(GEOSDistance(point, line, &off), 1);
            assert_true(off < (coarse ? 2 : 0.15));
            assert_true(after >= 1 && after < t.count && t.length[after - 1] <= at + 1e-9 &&
                        t.length[after] >= at - 1e-9);
            GEOSGeom_destroy(point);
        }
        GEOSGeom_destroy(line);
    }
}

static void a_path_of_no_length_is_borne(void **state)
{
    const tailor_cubic nowhere = tailor_cubic_line((tailor_point){3, 4}, (tailor_point){3, 4});
    struct tailor_in_trail t;
    (void)state;
    tailor_in_trail_walk(&t, turned, &nowhere, 1);
    assert_true(tailor_in_trail_length(&t) == 0);
    assert_true(fabs(tailor_in_trail_point(&t, 0).x - (0.8 * 3 + 0.6 * 4 + 300)) < 1e-12);
    tailor_in_trail_walk(&t, turned, NULL, 0);
    assert_int_equal(t.count, 0);
    assert_true(tailor_in_trail_length(&t) == 0);
}

static void lines_are_one_chord(void **state)
{
    tailor_cubic c = tailor_cubic_line((tailor_point){0, 0}, (tailor_point){900, 50});
    (void)state;
    assert_int_equal(tailor_in_chords(&c), 1);
    c.p[1].y += 1000;
    assert_true(tailor_in_chords(&c) > 10);
    c.p[1].y += 1e9;
    assert_int_equal(tailor_in_chords(&c), 64);
}

static int begin_geos(void **state)
{
    (void)state;
    initGEOS(NULL, NULL);
    return 0;
}

static int end_geos(void **state)
{
    (void)state;
    finishGEOS();
    return 0;
}

int test_trail(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_trail_follows_its_path),
        cmocka_unit_test(a_path_of_no_length_is_borne),
        cmocka_unit_test(lines_are_one_chord),
    };
    return cmocka_run_group_tests(tests, begin_geos, end_geos);
}

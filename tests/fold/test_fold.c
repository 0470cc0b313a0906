/* The fold of anybody's forepart: stand point, angle, lapel turned over, coverage; on paths of our own, on degenerate
 * ones, and on the coat's own paths, where they must give the coat's own quantities. */
#include <tailorgeom/fold.h>

#include "draft/drafting.h"

static tailor_point at(double x, double y) { return (tailor_point){x, y}; }

#define NAN_POINT ((tailor_point){NAN, 0})
#define UNTOUCHED 12345.678

/* ---- stand point and angle */

static void stand_point_lies_on_the_shoulder_line_run_on(void **state)
{
    (void)state;
    tailor_point p;
    assert_int_equal(tailor_fold_stand_point(at(-30, -40), at(0, 0), 25, &p), TAILOR_OK); /* 3, 4, 5 */
    assert_close(p.x, 15, 1e-12);
    assert_close(p.y, 20, 1e-12);
    assert_int_equal(tailor_fold_stand_point(at(-30, -40), at(0, 0), 0, &p), TAILOR_OK);
    assert_close(p.x, 0, 0);
    assert_close(p.y, 0, 0);
    assert_int_equal(tailor_fold_stand_point(at(-30, -40), at(0, 0), -25, &p), TAILOR_OK); /* back along the shoulder */
    assert_close(p.x, -15, 1e-12);
    struct dice d = {1};
    for (int i = 0; i < 1000; i++) {
        const tailor_point end = at(between(&d, -300, 300), between(&d, -300, 300)),
                           neck = at(between(&d, -300, 300), 7);
        const double stand = between(&d, 0, 60);
        assert_int_equal(tailor_fold_stand_point(end, neck, stand, &p), TAILOR_OK);
        assert_close(apart(p, neck), stand, 1e-10);
        assert_close(apart(p, end), apart(neck, end) + stand, 1e-10); /* on the line, beyond the neck */
    }
}

/* Neck point (0, 0), shoulder end (-15, -5), stand 2, break point (9, -42), in cm: 9.458692 deg from plumb by plane
 * geometry. */
static void angle_of_the_break_line(void **state)
{
    (void)state;
    tailor_point stand;
    assert_int_equal(tailor_fold_stand_point(at(-15, -5), at(0, 0), 2, &stand), TAILOR_OK);
    assert_close(tailor_fold_angle(stand, at(9, -42)), 9.458692, 1e-6);
    assert_close(tailor_fold_angle(at(3, 10), at(3, -10)), 0, 0);
    assert_close(tailor_fold_angle(at(0, 10), at(10, 0)), 45, 1e-12);
    assert_close(tailor_fold_angle(at(10, 10), at(0, 0)), -45, 1e-12);
    assert_true(isnan(tailor_fold_angle(NAN_POINT, at(0, 0))));
}

static void stand_point_refuses_what_has_no_direction(void **state)
{
    (void)state;
    tailor_point p = at(UNTOUCHED, UNTOUCHED);
    assert_int_equal(tailor_fold_stand_point(at(1, 1), at(1, 1), 5, &p), TAILOR_DEGENERATE);
    assert_int_equal(tailor_fold_stand_point(NAN_POINT, at(1, 1), 5, &p), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_fold_stand_point(at(1, 1), NAN_POINT, 5, &p), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_fold_stand_point(at(0, 0), at(1, 1), NAN, &p), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_fold_stand_point(at(0, 0), at(1, 1), INFINITY, &p), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_fold_stand_point(at(0, 0), at(1, 1), 5, NULL), TAILOR_BAD_ARGUMENT);
    assert_true(p.x == UNTOUCHED && p.y == UNTOUCHED);
}

/* ---- turning */

static tailor_cubic any_curve(struct dice *d)
{
    tailor_cubic c;
    for (int i = 0; i < 4; i++)
        c.p[i] = at(between(d, -300, 300), between(d, -600, 100));
    return c;
}

/** Signed distance of a point from the line, and its place along it. */
static void across_and_along(tailor_point a, tailor_point b, tailor_point p, double *across, double *along)
{
    const double l = apart(a, b), ux = (b.x - a.x) / l, uy = (b.y - a.y) / l;
    *across = ux * (p.y - a.y) - uy * (p.x - a.x);
    *along = ux * (p.x - a.x) + uy * (p.y - a.y);
}

static void turning_is_a_mirror(void **state)
{
    (void)state;
    struct dice d = {2};
    for (int i = 0; i < 1000; i++) {
        const tailor_point stand = at(between(&d, -50, 50), between(&d, 0, 60)),
                           at_break = at(between(&d, 0, 300), between(&d, -500, -100));
        tailor_cubic lapel[3] = {any_curve(&d), any_curve(&d), any_curve(&d)}, turned[3], back[3];
        assert_int_equal(tailor_path_reflect(lapel, 3, stand, at_break, turned), TAILOR_OK);
        assert_int_equal(tailor_path_reflect(turned, 3, stand, at_break, back), TAILOR_OK);
        double widest = 0, widest_turned = 0;
        for (int c = 0; c < 3; c++)
            for (int k = 0; k < 4; k++) {
                double across, along, across_turned, along_turned;
                across_and_along(stand, at_break, lapel[c].p[k], &across, &along);
                across_and_along(stand, at_break, turned[c].p[k], &across_turned, &along_turned);
                assert_close(across_turned, -across, 1e-9);
                assert_close(along_turned, along, 1e-9);
                assert_close(apart(back[c].p[k], lapel[c].p[k]), 0, 1e-9); /* turned twice it is the same */
            }
        for (int k = 0; k <= 60; k++) { /* the width of the lapel is preserved */
            double across, along;
            across_and_along(stand, at_break, tailor_path_point(lapel, 3, k / 20.0), &across, &along);
            widest = fmax(widest, fabs(across));
            across_and_along(stand, at_break, tailor_path_point(turned, 3, k / 20.0), &across, &along);
            widest_turned = fmax(widest_turned, fabs(across));
        }
        assert_close(widest_turned, widest, 1e-9);
        assert_close(tailor_path_area(turned, 3), -tailor_path_area(lapel, 3), 1e-6);
        assert_close(tailor_path_length(turned, 3), tailor_path_length(lapel, 3), 1e-9);
        assert_int_equal(tailor_path_reflect(lapel, 3, stand, at_break, lapel), TAILOR_OK); /* in place */
        assert_memory_equal(lapel, turned, sizeof lapel);
    }
}

static void turning_refuses_what_has_no_line(void **state)
{
    (void)state;
    struct dice d = {3};
    const tailor_cubic lapel = any_curve(&d);
    tailor_cubic turned, broken = lapel;
    memset(&turned, 0x5a, sizeof turned);
    const tailor_cubic untouched = turned;
    broken.p[2].y = INFINITY;
    assert_int_equal(tailor_path_reflect(&lapel, 1, at(5, 5), at(5, 5), &turned), TAILOR_DEGENERATE);
    assert_int_equal(tailor_path_reflect(&lapel, 1, NAN_POINT, at(5, 5), &turned), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_path_reflect(&broken, 1, at(0, 0), at(5, -50), &turned), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_path_reflect(NULL, 1, at(0, 0), at(5, -50), &turned), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_path_reflect(&lapel, 1, at(0, 0), at(5, -50), NULL), TAILOR_BAD_ARGUMENT);
    assert_memory_equal(&turned, &untouched, sizeof turned);
}

/* ---- coverage: a forepart of our own. Stand point (40, 20), break point (200, -300), plumb edge from there to the
 * hem. */

static const tailor_point STAND = {40, 20}, BREAK = {200, -300};
enum { SCYE_X = 30 };

static tailor_status cover(const tailor_cubic *edge, size_t count, double level, double *coverage)
{
    return tailor_fold_coverage(STAND, BREAK, SCYE_X, edge, count, level, coverage);
}

static void coverage_along_line_and_edge(void **state)
{
    (void)state;
    const tailor_cubic edge = tailor_cubic_line(at(200, -700), BREAK);
    double coverage;
    for (double level = 20; level >= -300; level -= 5) { /* half a mm outward for each mm down */
        assert_int_equal(cover(&edge, 1, level, &coverage), TAILOR_OK);
        assert_close(coverage, 40 + (20 - level) / 2 - SCYE_X, 1e-10);
        double without_edge;
        assert_int_equal(cover(NULL, 0, level, &without_edge),
                         TAILOR_OK); /* the edge is not needed above the break point */
        assert_close(without_edge, coverage, 0);
    }
    for (double level = -301; level > -700; level -= 7) {
        assert_int_equal(cover(&edge, 1, level, &coverage), TAILOR_OK);
        assert_close(coverage, 200 - SCYE_X, 1e-10);
    }
}

/** An edge that comes in again below: what counts is where it is farthest out. */
static void coverage_to_the_farthest_edge(void **state)
{
    (void)state;
    const tailor_cubic edge[3] = {tailor_cubic_line(at(120, -500), at(250, -450)),
                                  tailor_cubic_line(at(250, -450), at(180, -520)),
                                  tailor_cubic_line(at(180, -520), BREAK)};
    double coverage;
    assert_int_equal(cover(edge, 3, -475, &coverage), TAILOR_OK);
    assert_close(coverage, 225 - SCYE_X, 1e-10); /* by proportion on the second line */
    assert_int_equal(cover(edge, 3, -510, &coverage), TAILOR_OK);
    assert_close(coverage, 190 - SCYE_X, 1e-10);
}

/** A pinked edge meets a level very often. */
static void coverage_of_an_edge_with_many_teeth(void **state)
{
    (void)state;
    enum { TEETH = 60 };
    tailor_cubic edge[TEETH];
    double coverage = NAN;
    for (int i = 0; i < TEETH; i++)
        edge[i] = tailor_cubic_line(at(100 + i, i % 2 ? -410 : -390), at(101 + i, i % 2 ? -390 : -410));
    assert_int_equal(cover(edge, TEETH, -400, &coverage), TAILOR_OK);
    assert_close(coverage, 100 + TEETH - 0.5 - SCYE_X, 1e-9);
}

static void coverage_refuses(void **state)
{
    (void)state;
    const tailor_cubic edge = tailor_cubic_line(at(200, -700), BREAK),
                       level_edge = tailor_cubic_line(at(100, -400), at(200, -400));
    tailor_cubic broken = edge;
    double c = UNTOUCHED;
    broken.p[1].x = NAN;
    assert_int_equal(cover(&edge, 1, 20.001, &c), TAILOR_NO_SOLUTION); /* above the stand point there is no line */
    assert_int_equal(cover(&edge, 1, -701, &c), TAILOR_NO_SOLUTION);   /* below the hem there is no edge */
    double along_level = NAN; /* an edge that lies along the level reaches as far as its farther end */
    assert_int_equal(cover(&level_edge, 1, -400, &along_level), TAILOR_OK);
    assert_close(along_level, 200 - SCYE_X, 0);
    assert_int_equal(cover(&edge, 1, NAN, &c), TAILOR_NOT_FINITE);
    assert_int_equal(cover(&broken, 1, -400, &c), TAILOR_NOT_FINITE);
    assert_int_equal(cover(&edge, 1, -100, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(cover(NULL, 1, -100, &c), TAILOR_BAD_ARGUMENT);
    assert_int_equal(cover(NULL, 0, -400, &c), TAILOR_NO_SOLUTION); /* no edge at all */
    assert_int_equal(tailor_fold_coverage(BREAK, STAND, SCYE_X, &edge, 1, -100, &c),
                     TAILOR_DEGENERATE); /* upside down */
    assert_int_equal(tailor_fold_coverage(BREAK, BREAK, SCYE_X, &edge, 1, -100, &c), TAILOR_DEGENERATE);
    assert_int_equal(tailor_fold_coverage(at(0, -300), BREAK, SCYE_X, &edge, 1, -300, &c),
                     TAILOR_DEGENERATE); /* level */
    assert_int_equal(tailor_fold_coverage(NAN_POINT, BREAK, SCYE_X, &edge, 1, -100, &c), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_fold_coverage(STAND, BREAK, INFINITY, &edge, 1, -100, &c), TAILOR_NOT_FINITE);
    assert_close(c, UNTOUCHED, 0);
}

/* ---- the coat's own paths */

static void own_paths_give_the_coats_own_quantities(const struct made *m)
{
    size_t shoulder_count, edge_count, mark_count;
    const tailor_cubic *shoulder = EDGE(m, FOREPART, SHOULDER, &shoulder_count);
    const tailor_cubic *edge = EDGE(m, FOREPART, FRONT_EDGE, &edge_count);
    const tailor_point stand = POINT(m, FOREPART, STAND_POINT), at_break = POINT(m, FOREPART, BREAK_POINT);
    const tailor_point scye = POINT(m, FOREPART, SCYE_FRONT), neck = POINT(m, FOREPART, NECK_POINT);

    /* The shoulder line is the tangent at the neck point: the edge begins there, and its first handle lies on it. */
    tailor_point p;
    assert_close(apart(shoulder[0].p[0], neck), 0, 1e-9);
    assert_int_equal(tailor_fold_stand_point(
                         shoulder[0].p[1], neck,
                         m->row[TAILOR_FIELD_COLLAR_STAND] - m->constants[TAILOR_CONSTANT_STAND_LESS_AT_NECK], &p),
                     TAILOR_OK);
    assert_close(apart(p, stand), 0, 1e-9);
    assert_close(apart(stand, at_break), m->q[TAILOR_QUANTITY_BREAK_LENGTH], 1e-9);
    assert_close(tailor_fold_angle(stand, at_break), m->q[TAILOR_QUANTITY_BREAK_ANGLE], 1e-9);

    double covered;
    assert_int_equal(tailor_fold_coverage(stand, at_break, scye.x, edge, edge_count, scye.y, &covered), TAILOR_OK);
    assert_close(covered, m->q[TAILOR_QUANTITY_COVERAGE_SCYE], 1e-9);
    const double top = POINT(m, FOREPART, TOP_BUTTON_LEVEL).y;
    assert_int_equal(tailor_fold_coverage(stand, at_break, scye.x, edge, edge_count, top, &covered), TAILOR_OK);
    assert_close(covered, m->q[TAILOR_QUANTITY_COVERAGE_TOP_BUTTON], 1e-9);

    /* Lapel edge and step of the forepart, turned, are those of the lapel as it lies on the chest (drawn the other
     * way). */
    const tailor_cubic *drawn = mark_of(m->coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_LAPEL_TURNED, &mark_count);
    tailor_cubic turned;
    assert_int_equal(mark_count, 4);
    assert_int_equal(tailor_path_reflect(EDGE(m, FOREPART, LAPEL_EDGE, &edge_count), 1, stand, at_break, &turned),
                     TAILOR_OK);
    assert_int_equal(edge_count, 1);
    for (int i = 0; i < 4; i++)
        assert_close(apart(turned.p[i], drawn[2].p[3 - i]), 0, 1e-9);
    if (m->row[TAILOR_FIELD_LAPEL] == TAILOR_LAPEL_SHAWL) /* it has no step */
        return;
    assert_int_equal(tailor_path_reflect(EDGE(m, FOREPART, LAPEL_STEP, &edge_count), 1, stand, at_break, &turned),
                     TAILOR_OK);
    for (int i = 0; i < 4; i++)
        assert_close(apart(turned.p[i], drawn[1].p[3 - i]), 0, 1e-9);
}

static void coats_of_many_kinds(void **state)
{
    (void)state;
    struct dice d = {5};
    struct made m;
    int drafted = 0;
    for (int n = 0; n < 500; n++) {
        tailor_fields_clear(m.client, TAILOR_FIELD_COUNT);
        m.client[TAILOR_FIELD_CHEST_GIRTH] = between(&d, 860, 1300);
        m.client[TAILOR_FIELD_WAIST_GIRTH] = m.client[TAILOR_FIELD_CHEST_GIRTH] - between(&d, -40, 160);
        for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
            if (!is_measure(field) && even(&d) < 0.5)
                m.client[field] = any_value(&d, field, 0.5);
        agree_with_itself(m.client);
        both_sides_alike(m.client);
        make_client(&m, NULL);
        if (m.coat) {
            own_paths_give_the_coats_own_quantities(&m);
            drafted++;
        }
        unmake(&m);
    }
    assert_in_range(drafted, 400, 500);
}

int test_fold(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stand_point_lies_on_the_shoulder_line_run_on),
        cmocka_unit_test(angle_of_the_break_line),
        cmocka_unit_test(stand_point_refuses_what_has_no_direction),
        cmocka_unit_test(turning_is_a_mirror),
        cmocka_unit_test(turning_refuses_what_has_no_line),
        cmocka_unit_test(coverage_along_line_and_edge),
        cmocka_unit_test(coverage_to_the_farthest_edge),
        cmocka_unit_test(coverage_of_an_edge_with_many_teeth),
        cmocka_unit_test(coverage_refuses),
        cmocka_unit_test(coats_of_many_kinds),
    };
    return cmocka_run_group_tests_name("fold", tests, NULL, NULL);
}

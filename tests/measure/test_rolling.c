/* How the lapel rolls, as quantities of a coat: the numbers of the cloth and roll floors on the coat's own fields,
 * there or not there as their rows say, and moving as the mechanics wants. What those floors compute is proven in
 * tests/cloth and tests/roll. */
#include <tailorgeom/fold.h>
#include <tailorgeom/roll.h>
#include <tailorgeom/rows.h>
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name
#define Q(m, name) (m)->q[TAILOR_QUANTITY_##name]

/** The estimate from the outside: the public calls on numbers read off the coat. */
static void the_same_as_by_hand(void **state)
{
    (void)state;
    struct made m;
    must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(BUTTONING), TAILOR_BUTTONING_ROLL_BY_MAKE},
                        {F(CANVAS_ANGLE), 20}, {F(BRIDLE_DRAWN_IN), 1}, {F(PADDING_HOLD), 0.8}));
    double sheet[2][TAILOR_CLOTH_COUNT] = {{NAN}, {NAN}}, front[TAILOR_LAYERS_COUNT], along[TAILOR_ALONG_COUNT];
    /* Fields of cloth and canvas by their names: a prefix and the property's. */
    const char *prefix[2] = {"cloth_", "canvas_"};
    for (int s = 0; s < 2; s++)
        for (int i = 1; i < TAILOR_CLOTH_COUNT; i++) {
            char name[64] = "";
            strcat(name, prefix[s]);
            strcat(name, tailor_table_text(tailor_cloth_table(), i, TAILOR_COLUMN_NAME));
            const int field = tailor_table_find(tailor_field_table(), name);
            assert_true(field > 0);
            sheet[s][i] = m.row[field];
        }
    const double angles[2] = {0, 20}, holds[2] = {1, 0.8};
    const int joints[2] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED};
    assert_int_equal(
        tailor_layers_join(sheet[0], 2, TAILOR_CLOTH_COUNT, angles, joints, holds, front, TAILOR_LAYERS_COUNT, NULL),
        TAILOR_OK);
    assert_int_equal(
        tailor_layers_along(front, TAILOR_LAYERS_COUNT, Q(&m, BREAK_ANGLE), along, TAILOR_ALONG_COUNT, NULL),
        TAILOR_OK);
    assert_close(Q(&m, BREAK_STRETCH), 1e4 / along[TAILOR_ALONG_STRETCH], 1e-12);
    assert_close(Q(&m, BREAK_BENDING), along[TAILOR_ALONG_BENDING_ACROSS], 1e-12);
    const tailor_point stand = POINT(&m, FOREPART, STAND_POINT), low = POINT(&m, FOREPART, BREAK_POINT);
    double making[TAILOR_ROLLING_COUNT], roll[TAILOR_ROLL_COUNT];
    tailor_fields_clear(making, TAILOR_ROLLING_COUNT);
    making[TAILOR_ROLLING_LAPEL_WIDTH] = m.row[F(LAPEL_WIDTH)];
    making[TAILOR_ROLLING_BUTTON_SPACING] = m.row[F(BUTTON_SPACING)];
    making[TAILOR_ROLLING_BREAK_ABOVE] = low.y - POINT(&m, FOREPART, WAIST_BUTTON).y;
    making[TAILOR_ROLLING_BREAK_LENGTH] = apart(stand, low);
    making[TAILOR_ROLLING_BREAK_ANGLE] = tailor_fold_angle(stand, low);
    making[TAILOR_ROLLING_BRIDLE_STIFFNESS] = m.row[F(BRIDLE_STIFFNESS)];
    making[TAILOR_ROLLING_BRIDLE_DRAWN_IN] = Q(&m, BRIDLE_TAKEN_IN);
    making[TAILOR_ROLLING_BUTTONHOLE_BAR] = m.row[F(HOLE_STIFFNESS)];
    making[TAILOR_ROLLING_HANG_LOAD] = m.constants[TAILOR_CONSTANT_HANG_LOAD];
    assert_int_equal(
        tailor_roll_estimate(making, TAILOR_ROLLING_COUNT, front, TAILOR_LAYERS_COUNT, roll, TAILOR_ROLL_COUNT, NULL),
        TAILOR_OK);
    assert_close(roll[TAILOR_ROLL_IN_RANGE], 1, 0);
    assert_close(Q(&m, ROLL_CLASS), roll[TAILOR_ROLL_CLASS], 0);
    assert_close(Q(&m, ROLL_DISTANCE), roll[TAILOR_ROLL_DISTANCE], 1e-9);
    assert_close(Q(&m, ROLL_BAND), roll[TAILOR_ROLL_BAND], 0);
    assert_close(Q(&m, BRIDLE_TENSION), roll[TAILOR_ROLL_BRIDLE_TENSION], 1e-12);
    assert_close(Q(&m, BUTTONHOLE_RATIO), roll[TAILOR_ROLL_BUTTONHOLE_RATIO], 1e-12);
    unmake(&m);
}

/** Drawing the bridle in holds the lapel, a worked bar too; each never the other way. Roll by cut and two buttons have
 *  nothing to roll through. */
static void what_holds_a_lapel(void **state)
{
    (void)state;
    struct made m;
    double before = INFINITY;
    for (double in = 0; in <= 3.2; in += 0.4) {
        must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(BUTTONING), TAILOR_BUTTONING_ROLL_BY_MAKE},
                            {F(BRIDLE_DRAWN_IN), in}));
        assert_true(Q(&m, ROLL_DISTANCE) < before);
        before = Q(&m, ROLL_DISTANCE);
        unmake(&m);
    }
    struct made one, both;
    must_make(&one,
              ORDER({F(CHEST_GIRTH), 1016}, {F(BUTTONING), 4}, {F(BRIDLE_DRAWN_IN), 0}, {F(HOLE_STIFFNESS), 0.00001}));
    must_make(&both, ORDER({F(CHEST_GIRTH), 1016}, {F(BUTTONING), 4}, {F(BRIDLE_DRAWN_IN), 0},
                           {F(HOLE_STIFFNESS), 0.00001}, {F(HOLE_FACE_1), TAILOR_HOLE_FACE_1_BOTH}));
    assert_close(Q(&both, BUTTONHOLE_RATIO), 2 * Q(&one, BUTTONHOLE_RATIO), 1e-9);
    assert_true(Q(&both, ROLL_DISTANCE) < Q(&one, ROLL_DISTANCE));
    unmake(&one);
    unmake(&both);
    for (int buttoning = 1; buttoning <= 7; buttoning++) {
        must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(BUTTONING), buttoning}));
        const int high = buttoning == 3 || buttoning == 4;
        assert_int_equal(!isnan(Q(&m, ROLL_CLASS)), high);
        assert_int_equal(!isnan(Q(&m, BRIDLE_TENSION)), high);
        assert_true(Q(&m, ROLL_HEIGHT) > 5 && Q(&m, ROLL_HEIGHT) < 40);
        unmake(&m);
    }
}

/** Outside the range of its law the estimate gives no class and no number; the mechanics stay. */
static void out_of_range(void **state)
{
    (void)state;
    struct made m;
    must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(BUTTONING), 4}, {F(BUTTON_SPACING), 85}));
    assert_true(isnan(Q(&m, ROLL_CLASS)) && isnan(Q(&m, ROLL_DISTANCE)) && isnan(Q(&m, ROLL_BAND)));
    assert_true(isfinite(Q(&m, BRIDLE_TENSION)) && isfinite(Q(&m, BREAK_STRETCH)) && isfinite(Q(&m, ROLL_HEIGHT)));
    unmake(&m);
}

/** The section is left out, and nothing else, of a coat whose extent has none; in rows, where nobody wants it. */
static void only_who_asks_pays(void **state)
{
    (void)state;
    struct made m, net;
    must_make(&m, ORDER({F(CHEST_GIRTH), 1016}));
    memcpy(&net, &m, sizeof m);
    assert_int_equal(make_extent(&net, NULL, TAILOR_EXTENT_NET), TAILOR_OK);
    int left_out = 0;
    for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++) {
        const int of_section = i == TAILOR_QUANTITY_ROLL_HEIGHT || i == TAILOR_QUANTITY_ROLL_RADIUS ||
                               i == TAILOR_QUANTITY_LAPEL_LIES;
        if (of_section)
            assert_true(isnan(net.q[i]) && isfinite(m.q[i]));
        else
            assert_true((isnan(net.q[i]) && isnan(m.q[i])) || net.q[i] == m.q[i]);
        left_out += of_section;
    }
    assert_int_equal(left_out, 3);
    unmake(&net);
    const int32_t column = F(CHEST_GIRTH), wanted[2] = {TAILOR_QUANTITY_BREAK_BENDING, TAILOR_QUANTITY_ROLL_HEIGHT};
    double order = 1016, answer[2];
    for (size_t count = 1; count <= 2; count++) {
        tailor_rows *rows = NULL;
        tailor_rows_worker *worker = NULL;
        assert_int_equal(tailor_rows_new(NULL, &column, 1, wanted, count, &rows, NULL), TAILOR_OK);
        assert_int_equal(tailor_rows_worker_new(rows, 0, 0, &worker, NULL), TAILOR_OK);
        assert_int_equal(tailor_rows_run(worker, &order, 1, answer, NULL, NULL), TAILOR_OK);
        for (size_t i = 0; i < count; i++)
            assert_close(answer[i], m.q[wanted[i]], 0);
        tailor_rows_worker_free(worker);
        tailor_rows_free(rows);
    }
    unmake(&m);
}

int test_rolling(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_as_by_hand),
        cmocka_unit_test(what_holds_a_lapel),
        cmocka_unit_test(out_of_range),
        cmocka_unit_test(only_who_asks_pays),
    };
    return cmocka_run_group_tests_name("rolling", tests, NULL, NULL);
}

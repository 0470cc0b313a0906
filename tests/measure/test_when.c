/* When checks have to hold: what the table says is what is measured, for any coat. */
#include <stdio.h>
#include "../../lib/measure/when.h"
#include "../../lib/order/traits.h"
#include "draft/population.h"

static int has_piece(const struct made *m, const char *name)
{
    char left[40];
    snprintf(left, sizeof left, "%s_left", name);
    return tailor_pattern_find_piece(m->coat, name) >= 0 || tailor_pattern_find_piece(m->coat, left) >= 0;
}

static int has_sides(const struct made *m)
{
    static const int own[][3] = {
#define OWN(name) {TAILOR_FIELD_##name, TAILOR_FIELD_##name##_LEFT, TAILOR_FIELD_##name##_RIGHT}
        OWN(LOW_SHOULDER), OWN(FORWARD_SHOULDER), OWN(PROMINENT_BLADES), OWN(LOW_HIP),
        OWN(ARM_PITCH),    OWN(ARM_LENGTH),       OWN(SIDE_LET_OUT)};
#undef OWN
    for (size_t i = 0; i < sizeof own / sizeof *own; i++) {
        double both = m->row[own[i][0]], left = m->row[own[i][1]], right = m->row[own[i][2]];
        if ((isnan(left) ? both : left) != (isnan(right) ? both : right))
            return 1;
    }
    /* Sleeves are measured from the centre back unless an arm has a length of its own. */
    return !isnan(m->row[TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK]) &&
           isnan(m->row[TAILOR_FIELD_ARM_LENGTH_LEFT]) != isnan(m->row[TAILOR_FIELD_ARM_LENGTH_RIGHT]);
}

/** As a cutter would say which coats have a check, without the table. */
static int is_wanted(const struct made *m, int check)
{
    const double *f = m->row;
    switch (check) {
    case TAILOR_CHECK_FRONT_SHOULDER_ERROR: return !isnan(f[TAILOR_FIELD_FRONT_SHOULDER]);
    case TAILOR_CHECK_OVER_SHOULDER_ERROR: return !isnan(f[TAILOR_FIELD_OVER_SHOULDER]);
    case TAILOR_CHECK_FRONT_WAIST_LENGTH_ERROR: return !isnan(f[TAILOR_FIELD_FRONT_WAIST_LENGTH]);
    case TAILOR_CHECK_FRONTS_PART_LEAST: return f[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_ROUND;
    case TAILOR_CHECK_BELLY_LENGTH_LEAST: return m->q[TAILOR_QUANTITY_BELLY_ALLOWANCE] > 0.01;
    case TAILOR_CHECK_SHOW_BUTTON_MIRROR:
        return f[TAILOR_FIELD_BUTTONING] == TAILOR_BUTTONING_DOUBLE_FOUR ||
               f[TAILOR_FIELD_BUTTONING] == TAILOR_BUTTONING_DOUBLE_SIX;
    case TAILOR_CHECK_SIDES_MEET: return has_sides(m);
    case TAILOR_CHECK_FACING_TURN_ERROR:
    case TAILOR_CHECK_TOP_COLLAR_TURN_ERROR: return has_piece(m, "facing");
    case TAILOR_CHECK_LINING_ERROR: return has_piece(m, "lining_back");
    default: return 1;
    }
}

/** An order of any kind: a measured man, direct measures, notes and styles given now and then. */
static void draw(struct dice *d, double *client)
{
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        int given = even(d) < 0.12;
        double value = any_value(d, field, 0.3);
        if (given && tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME)[0] && !is_measure(field))
            client[field] = value;
    }
    draw_body(d, client);
    client[TAILOR_FIELD_BUTTONING] = any_value(d, TAILOR_FIELD_BUTTONING, 1);
    if (even(d) < 0.3)
        client[TAILOR_FIELD_BELLY_GIRTH] = client[TAILOR_FIELD_WAIST_GIRTH] + between(d, 0, 60);
    agree_with_itself(client);
    if (even(d) < 0.5)
        both_sides_alike(client);
}

/** Direct measures that the draft comes out at by itself, more or less: others would be refused. */
static void measure_it(struct dice *d, struct made *m, int extent)
{
    static const int direct[][2] = {{TAILOR_FIELD_FRONT_SHOULDER, TAILOR_QUANTITY_FRONT_SHOULDER_DRAFTED},
                                    {TAILOR_FIELD_OVER_SHOULDER, TAILOR_QUANTITY_OVER_SHOULDER_DRAFTED}};
    for (size_t i = 0; i < 2; i++)
        m->client[direct[i][0]] = even(d) < 0.5 ? floor(m->q[direct[i][1]]) - 8 : NAN;
    m->client[TAILOR_FIELD_FRONT_WAIST_LENGTH] = even(d) < 0.3 ? floor(m->row[TAILOR_FIELD_BACK_WAIST_LENGTH]) + 35 : NAN;
    unmake(m);
    make_extent(m, NULL, extent);
}

static void the_table_is_true(void **state)
{
    struct dice d = {2026};
    int seen[TAILOR_CHECK_COUNT][2] = {{0}}, coats = 0, orders = how_many(1200, 30000);
    (void)state;
    for (int i = 0; i < orders; i++) {
        struct made m;
        int extent = i % 3 ? TAILOR_EXTENT_NET : TAILOR_EXTENT_MAKE;
        draw(&d, m.client);
        make_extent(&m, NULL, extent);
        if (m.object && i % 2)
            measure_it(&d, &m, extent);
        if (!m.object)
            continue;
        coats++;
        for (int place = 0, check; (check = tailor_table_at(tailor_check_table(), place)) != 0; place++) {
            int wanted = is_wanted(&m, check);
            seen[check][wanted]++;
            if (isnan(m.value[check]) == wanted || isinf(m.value[check]))
                fail_msg("order %d: %s is %g, %s", i, tailor_table_text(tailor_check_table(), check, TAILOR_COLUMN_NAME),
                         m.value[check], wanted ? "though this coat has it" : "though this coat has it not");
        }
        unmake(&m);
    }
    print_message("# %d orders, %d coats\n", orders, coats);
    assert_true(coats > orders / 2);
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++) { /* each seen where it is, and where it is not */
        if (!tailor_check_sense(check))
            continue;
        assert_true(seen[check][1] > coats / 100);
        if (tailor_in_check_when[check].kind != TAILOR_IN_WHEN_ALWAYS)
            assert_true(seen[check][0] > coats / 100);
        else
            assert_int_equal(seen[check][0], 0);
    }
}

static void each_kind(void **state)
{
    struct made m;
    double f[TAILOR_FIELD_COUNT], q[TAILOR_QUANTITY_COUNT] = {0};
    (void)state;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_DOUBLE_SIX}));
    memcpy(f, m.row, sizeof f);
    const tailor_in_case of = {m.coat, TAILOR_SIDE_LEFT, 1, f, q};
#define HOLDS(...) tailor_in_when_holds(&(const tailor_in_when){__VA_ARGS__}, &of)
    assert_true(HOLDS(TAILOR_IN_WHEN_ALWAYS, 0, 0, 0));
    assert_true(HOLDS(TAILOR_IN_WHEN_SIDES, 0, 0, 0));
    assert_false(HOLDS(TAILOR_IN_WHEN_GIVEN, TAILOR_FIELD_FRONT_SHOULDER, 0, 0));
    f[TAILOR_FIELD_FRONT_SHOULDER] = 330;
    assert_true(HOLDS(TAILOR_IN_WHEN_GIVEN, TAILOR_FIELD_FRONT_SHOULDER, 0, 0));
    assert_true(HOLDS(TAILOR_IN_WHEN_CHOICE, TAILOR_FIELD_LAPEL, TAILOR_LAPEL_PEAK, 0));
    assert_false(HOLDS(TAILOR_IN_WHEN_CHOICE, TAILOR_FIELD_LAPEL, TAILOR_LAPEL_STEP, 0));
    assert_true(HOLDS(TAILOR_IN_WHEN_TRAIT, TAILOR_FIELD_BUTTONING, TAILOR_IN_TRAIT_SHOW_ABOVE, 1));
    assert_false(HOLDS(TAILOR_IN_WHEN_TRAIT, TAILOR_FIELD_BUTTONING, TAILOR_IN_TRAIT_BREASTS, 1));
    q[TAILOR_QUANTITY_BELLY_ALLOWANCE] = 0.01;
    assert_false(HOLDS(TAILOR_IN_WHEN_ABOVE, TAILOR_QUANTITY_BELLY_ALLOWANCE, 0, 0.01));
    q[TAILOR_QUANTITY_BELLY_ALLOWANCE] = 0.02;
    assert_true(HOLDS(TAILOR_IN_WHEN_ABOVE, TAILOR_QUANTITY_BELLY_ALLOWANCE, 0, 0.01));
    q[TAILOR_QUANTITY_BELLY_ALLOWANCE] = NAN;
    assert_false(HOLDS(TAILOR_IN_WHEN_ABOVE, TAILOR_QUANTITY_BELLY_ALLOWANCE, 0, 0.01));
    assert_true(HOLDS(TAILOR_IN_WHEN_PIECE, TAILOR_PIECE_FOREPART, 0, 0));
    assert_false(HOLDS(TAILOR_IN_WHEN_PIECE, TAILOR_PIECE_FACING, 0, 0));
    unmake(&m);
}

/** NaN where a check should be, and a number where none should be: both fail; the others stay as they are. */
static void both_ways_fail(void **state)
{
    struct made m;
    double value[TAILOR_CHECK_COUNT];
    (void)state;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_FRONT_CUT, TAILOR_FRONT_CUT_SQUARE}));
    const tailor_in_case of = {m.coat, TAILOR_SIDE_LEFT, 0, m.row, m.q};
    memcpy(value, m.value, sizeof value);
    tailor_in_checks_judge(&of, value);
    assert_memory_equal(value, m.value, sizeof value);
    value[TAILOR_CHECK_SEAM_ERROR] = NAN;         /* at most */
    value[TAILOR_CHECK_TIP_CLEAR_LEAST] = NAN;    /* at least */
    value[TAILOR_CHECK_FACING_TURN_ERROR] = 0;    /* of a coat without a facing */
    value[TAILOR_CHECK_FRONTS_PART_LEAST] = 2000; /* of a square cut */
    tailor_in_checks_judge(&of, value);
    assert_true(isinf(value[TAILOR_CHECK_SEAM_ERROR]) && value[TAILOR_CHECK_SEAM_ERROR] > 0);
    assert_true(isinf(value[TAILOR_CHECK_TIP_CLEAR_LEAST]) && value[TAILOR_CHECK_TIP_CLEAR_LEAST] < 0);
    assert_true(isinf(value[TAILOR_CHECK_FACING_TURN_ERROR]) && value[TAILOR_CHECK_FACING_TURN_ERROR] > 0);
    assert_true(isinf(value[TAILOR_CHECK_FRONTS_PART_LEAST]) && value[TAILOR_CHECK_FRONTS_PART_LEAST] < 0);
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++)
        if (tailor_check_sense(check) && isinf(value[check]))
            assert_false(tailor_check_passes(check, value[check], m.limit[check]));
        else
            assert_memory_equal(&value[check], &m.value[check], sizeof *value);
    unmake(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_table_is_true),
        cmocka_unit_test(each_kind),
        cmocka_unit_test(both_ways_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

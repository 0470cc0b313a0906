/* Altering an order after a fitting: what is added to what, the sides, and that a refusal says why and writes
 * nothing. */
#include <string.h>
#include <tailorgeom/order.h>
#include "accepting.h"
#include "base/near.h"

#define F(name) TAILOR_FIELD_##name

static double client[TAILOR_FIELD_COUNT], house[TAILOR_FIELD_COUNT], deltas[TAILOR_FIELD_COUNT];
static double altered[TAILOR_FIELD_COUNT];
static tailor_fault fault;

static int fresh(void **state)
{
    (void)state;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    tailor_fields_clear(house, TAILOR_FIELD_COUNT);
    tailor_fields_clear(deltas, TAILOR_FIELD_COUNT);
    for (int i = 0; i < TAILOR_FIELD_COUNT; i++)
        altered[i] = -77.0;
    client[F(CHEST_GIRTH)] = 1016.0;
    memset(&fault, 0, sizeof fault);
    return 0;
}

static tailor_status alter(void)
{
    tailor_house *made = NULL;
    assert_int_equal(tailor_house_new(house, TAILOR_FIELD_COUNT, NULL, 0, NULL, &made, NULL), TAILOR_OK);
    tailor_status status = tailor_order_alter(made, client, deltas, altered, TAILOR_FIELD_COUNT, &fault);
    tailor_house_free(made);
    return status;
}

static double resolved(const double *row, int field)
{
    double fields[TAILOR_FIELD_COUNT];
    assert_int_equal(resolve_with(house, row, fields, NULL, &fault), TAILOR_OK);
    return fields[field];
}

/* Everything but the fields named (up to three) is as the client gave it, bit for bit. */
static void assert_rest(int a, int b, int c)
{
    for (int i = 0; i < TAILOR_FIELD_COUNT; i++) {
        if (i == a || i == b || i == c)
            continue;
        if (isnan(client[i]))
            assert_true(isnan(altered[i]));
        else
            assert_true(altered[i] == client[i]);
    }
}

static void assert_refused(tailor_status expected, int field, const char *part)
{
    assert_int_equal(alter(), expected);
    assert_int_equal(fault.status, expected);
    assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
    assert_int_equal(fault.index, field);
    if (!strstr(fault.sentence, part))
        fail_msg("%s lacks: %s", fault.sentence, part);
    for (int i = 0; i < TAILOR_FIELD_COUNT; i++)
        assert_true(altered[i] == -77.0);
}

static void nothing_altered_is_the_client_s_row(void **state)
{
    (void)state;
    client[F(LAPEL_WIDTH)] = 90.0;
    assert_int_equal(alter(), TAILOR_OK);
    assert_rest(0, 0, 0);
}

static void a_delta_is_added_to_the_value_in_use(void **state)
{
    (void)state;
    client[F(LAPEL_WIDTH)] = 90.0;
    house[F(COLLAR_FALL)] = 48.0;
    house[F(LAPEL_WIDTH)] = 100.0;
    deltas[F(LAPEL_WIDTH)] = -3.0;  /* the client's goes before the house's */
    deltas[F(COLLAR_FALL)] = 2.0;   /* the house's */
    deltas[F(BREAK_RISE)] = -12.0;  /* the rule's, a number: 12 */
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(LAPEL_WIDTH)] == 87.0 && altered[F(COLLAR_FALL)] == 50.0 && altered[F(BREAK_RISE)] == 0.0);
    assert_rest(F(LAPEL_WIDTH), F(COLLAR_FALL), F(BREAK_RISE));
}

static void a_rule_is_altered_where_it_stands(void **state)
{
    (void)state;
    const double before = resolved(client, F(COAT_LENGTH));
    deltas[F(COAT_LENGTH)] = 10.0;
    deltas[F(STATURE)] = 20.0; /* would lengthen the coat by its rule, but that is altered itself */
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(COAT_LENGTH)] == before + 10.0);
    assert_near(altered[F(STATURE)], 1550.9 + 0.194 * 1016.0 + 20.0, 1e-9);
    assert_rest(F(COAT_LENGTH), F(STATURE), 0);
}

static void a_side_begins_at_the_value_of_both(void **state)
{
    (void)state;
    client[F(ARM_LENGTH)] = 600.0;
    deltas[F(ARM_LENGTH_LEFT)] = -10.0;
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(ARM_LENGTH_LEFT)] == 590.0);
    assert_rest(F(ARM_LENGTH_LEFT), 0, 0);
    /* the next fitting: the left arm has its own value, and both are altered by one note */
    memcpy(client, altered, sizeof client);
    tailor_fields_clear(deltas, TAILOR_FIELD_COUNT);
    deltas[F(ARM_LENGTH)] = 4.0;
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(ARM_LENGTH)] == 604.0 && altered[F(ARM_LENGTH_LEFT)] == 594.0);
    assert_true(isnan(altered[F(ARM_LENGTH_RIGHT)]));
    assert_rest(F(ARM_LENGTH), F(ARM_LENGTH_LEFT), 0);
}

static void both_and_a_side_add_up(void **state)
{
    (void)state;
    deltas[F(SIDE_LET_OUT)] = 4.0;
    deltas[F(SIDE_LET_OUT_RIGHT)] = 2.0;
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(SIDE_LET_OUT)] == 4.0 && altered[F(SIDE_LET_OUT_RIGHT)] == 6.0);
    client[F(SIDE_LET_OUT_RIGHT)] = -3.0;
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(SIDE_LET_OUT)] == 4.0 && altered[F(SIDE_LET_OUT_RIGHT)] == 3.0);
}

static void the_way_back_is_the_way(void **state)
{
    (void)state;
    const tailor_table *table = tailor_field_table();
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        if (tailor_table_choices(table, i) || isnan(resolved(client, i)))
            continue;
        fresh(NULL);
        const double before = resolved(client, i);
        const double middle = 0.5 * (tailor_table_low(table, i) + tailor_table_high(table, i));
        const double range = tailor_table_high(table, i) - tailor_table_low(table, i);
        const double step = range > 1 ? 1.0 / 64 : range / 64; /* small numbers move by a part of their range */
        deltas[i] = before < middle ? step : -step;
        if (alter() != TAILOR_OK)
            fail_msg("%s: %s", tailor_table_text(table, i, TAILOR_COLUMN_NAME), fault.sentence);
        assert_true(altered[i] == before + deltas[i] && resolved(altered, i) == altered[i]);
        assert_rest(i, 0, 0);
    }
}

static void out_may_be_in_and_of_any_length(void **state)
{
    enum { LONGER = TAILOR_FIELD_COUNT + 5, SHORTER = TAILOR_FIELD_CHEST_GIRTH + 1 };
    double longer[LONGER], long_client[LONGER], long_deltas[LONGER], shorter[SHORTER];
    (void)state;
    deltas[F(CHEST_EASE)] = 5.0;
    tailor_fields_clear(long_client, LONGER);
    tailor_fields_clear(long_deltas, LONGER);
    memcpy(long_client, client, sizeof client);
    memcpy(long_deltas, deltas, sizeof deltas);
    memset(longer, 0, sizeof longer);
    assert_int_equal(tailor_order_alter(NULL, long_client, long_deltas, longer, LONGER, &fault), TAILOR_OK);
    for (int i = TAILOR_FIELD_COUNT; i < LONGER; i++)
        assert_true(isnan(longer[i]));
    long_deltas[LONGER - 1] = 1.0; /* of what this library does not know */
    assert_int_equal(tailor_order_alter(NULL, long_client, long_deltas, longer, LONGER, &fault), TAILOR_UNKNOWN_FIELD);
    assert_int_equal(fault.index, LONGER - 1);
    /* An array of an earlier version ends before what came since. */
    for (size_t n = 0; n <= TAILOR_FIELD_COUNT; n++) {
        double out[TAILOR_FIELD_COUNT + 1];
        for (int i = 0; i <= TAILOR_FIELD_COUNT; i++)
            out[i] = -7.0;
        tailor_status status = tailor_order_alter(NULL, client, deltas, out, n, &fault);
        assert_int_equal(status, n > F(CHEST_GIRTH) ? TAILOR_OK : TAILOR_MISSING);
        for (size_t i = 0; i <= TAILOR_FIELD_COUNT; i++)
            if (status != TAILOR_OK || i >= n)
                assert_true(out[i] == -7.0);
            else
                assert_true(i == F(CHEST_EASE) ? out[i] == longer[i] : isnan(out[i]) || out[i] == client[i]);
    }
    assert_int_equal(tailor_order_alter(NULL, client, NULL, shorter, SHORTER, &fault), TAILOR_OK);
    assert_true(shorter[F(CHEST_GIRTH)] == 1016.0 && isnan(shorter[F(STATURE)]));
    assert_int_equal(tailor_order_alter(NULL, client, deltas, client, TAILOR_FIELD_COUNT, NULL), TAILOR_OK);
    assert_true(client[F(CHEST_EASE)] == longer[F(CHEST_EASE)]);
}

/* With no client's row the house gives all. */
static void nothing_of_the_client(void **state)
{
    (void)state;
    house[F(CHEST_GIRTH)] = 1100.0;
    tailor_house *made = NULL;
    assert_int_equal(tailor_house_new(house, TAILOR_FIELD_COUNT, NULL, 0, NULL, &made, NULL), TAILOR_OK);
    deltas[F(CHEST_GIRTH)] = 4.0;
    assert_int_equal(tailor_order_alter(made, NULL, deltas, altered, TAILOR_FIELD_COUNT, &fault), TAILOR_OK);
    assert_true(altered[F(CHEST_GIRTH)] == 1104.0);
    for (int i = 0; i < TAILOR_FIELD_COUNT; i++)
        assert_true(i == F(CHEST_GIRTH) || isnan(altered[i]));
    tailor_house_free(made);
    assert_int_equal(tailor_order_alter(NULL, NULL, deltas, altered, TAILOR_FIELD_COUNT, &fault), TAILOR_MISSING);
}

static void refusals(void **state)
{
    (void)state;
    deltas[F(ARM_LENGTH)] = 300.0;
    client[F(ARM_LENGTH)] = 602.0;
    assert_refused(TAILOR_OUT_OF_RANGE, F(ARM_LENGTH),
                   "arm_length 602 mm altered by +300 mm is 902 mm: 400 to 830 mm is allowed");
    assert_true(fault.value == 902.0 && fault.low == 400.0 && fault.high == 830.0);
    fresh(NULL);
    deltas[F(SIDE_LET_OUT_LEFT)] = -9.5;
    assert_refused(TAILOR_OUT_OF_RANGE, F(SIDE_LET_OUT_LEFT), "0 mm altered by -9.5 mm is -9.5 mm: -8 to 12 mm");
    fresh(NULL);
    deltas[F(BUTTONING)] = 1.0;
    assert_refused(TAILOR_NOT_A_CHOICE, F(BUTTONING), "buttoning is a choice");
    fresh(NULL);
    deltas[F(CROOK)] = -INFINITY;
    assert_refused(TAILOR_NOT_FINITE, F(CROOK), "crook");
    fresh(NULL);
    deltas[F(FRONT_SHOULDER)] = 5.0;
    assert_refused(TAILOR_MISSING, F(FRONT_SHOULDER), "front_shoulder is neither given nor assumed");
    fresh(NULL);
    client[F(CHEST_GIRTH)] = NAN;
    assert_refused(TAILOR_MISSING, F(CHEST_GIRTH), "chest_girth is required");
    fresh(NULL);
    deltas[F(WAIST_GIRTH)] = 400.0; /* within its own range, but not with this chest */
    assert_refused(TAILOR_CONTRADICTION, F(WAIST_GIRTH), "chest_girth 1016 mm");
    fresh(NULL);
    deltas[0] = 1.0;
    assert_refused(TAILOR_UNKNOWN_FIELD, 0, "does not know");
    assert_int_equal(tailor_order_alter(NULL, client, NULL, NULL, TAILOR_FIELD_COUNT, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
}

static void what_another_measure_stands_in_for(void **state)
{
    (void)state;
    client[F(SLEEVE_FROM_CENTRE_BACK)] = 830.0;
    deltas[F(ARM_LENGTH)] = -10.0;
    assert_refused(TAILOR_CONTRADICTION, F(ARM_LENGTH), "sleeve_from_centre_back is given and stands in its place");
    deltas[F(ARM_LENGTH)] = NAN;
    deltas[F(ARM_LENGTH_LEFT)] = -10.0;
    assert_refused(TAILOR_CONTRADICTION, F(ARM_LENGTH_LEFT), "centre_back is given and stands in its place");
    client[F(ARM_LENGTH_LEFT)] = 600.0; /* measured by itself: then it is the coat's */
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(ARM_LENGTH_LEFT)] == 590.0);
    fresh(NULL);
    client[F(SLEEVE_FROM_CENTRE_BACK)] = 830.0;
    client[F(ARM_LENGTH_LEFT)] = 600.0;
    deltas[F(SLEEVE_FROM_CENTRE_BACK)] = -10.0;
    assert_refused(TAILOR_CONTRADICTION, F(SLEEVE_FROM_CENTRE_BACK), "but not arm_length_left");
    deltas[F(ARM_LENGTH_LEFT)] = -10.0;
    assert_int_equal(alter(), TAILOR_OK);
    assert_true(altered[F(SLEEVE_FROM_CENTRE_BACK)] == 820.0 && altered[F(ARM_LENGTH_LEFT)] == 590.0);
}

int test_alter(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(nothing_altered_is_the_client_s_row, fresh),
        cmocka_unit_test_setup(a_delta_is_added_to_the_value_in_use, fresh),
        cmocka_unit_test_setup(a_rule_is_altered_where_it_stands, fresh),
        cmocka_unit_test_setup(a_side_begins_at_the_value_of_both, fresh),
        cmocka_unit_test_setup(both_and_a_side_add_up, fresh),
        cmocka_unit_test_setup(the_way_back_is_the_way, fresh),
        cmocka_unit_test_setup(out_may_be_in_and_of_any_length, fresh),
        cmocka_unit_test_setup(nothing_of_the_client, fresh),
        cmocka_unit_test_setup(refusals, fresh),
        cmocka_unit_test_setup(what_another_measure_stands_in_for, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Resolving: precedence, origins, the lengths of arrays, and that a failure writes nothing. */
#include <string.h>
#include <tailorgeom/order.h>
#include "accepting.h"
#include "base/near.h"

static double client[TAILOR_FIELD_COUNT], house[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
static int32_t origins[TAILOR_FIELD_COUNT];
static tailor_fault fault;

static int fresh(void **state)
{
    (void)state;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    tailor_fields_clear(house, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1000.0;
    memset(&fault, 0, sizeof fault);
    return 0;
}

static tailor_status resolve(void)
{
    return resolve_with(house, client, row, origins, &fault);
}

static void chest_alone_is_enough(void **state)
{
    (void)state;
    assert_int_equal(resolve(), TAILOR_OK);
    assert_true(isnan(row[0]));
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        int has_rule = tailor_table_text(tailor_field_table(), i, TAILOR_COLUMN_RULE)[0] != '\0';
        assert_int_equal(isnan(row[i]), !has_rule);
        assert_int_equal(origins[i], i == TAILOR_FIELD_CHEST_GIRTH ? TAILOR_ORIGIN_CLIENT
                                     : has_rule                    ? TAILOR_ORIGIN_RULE
                                                                   : TAILOR_ORIGIN_NONE);
    }
    assert_near(row[TAILOR_FIELD_STATURE], 1744.9, 1e-9);
    assert_near(row[TAILOR_FIELD_CROSS_CHEST], 760.0 - 380.0, 1e-9); /* after back_width, which has a rule itself */
    assert_int_equal(fault.status, 0);
}

static void client_before_house_before_rule(void **state)
{
    (void)state;
    house[TAILOR_FIELD_LAPEL_WIDTH] = 95.0;
    house[TAILOR_FIELD_COLLAR_FALL] = 48.0;
    client[TAILOR_FIELD_LAPEL_WIDTH] = 80.0;
    client[TAILOR_FIELD_STATURE] = 1800.0;
    assert_int_equal(resolve(), TAILOR_OK);
    assert_true(row[TAILOR_FIELD_LAPEL_WIDTH] == 80.0 && origins[TAILOR_FIELD_LAPEL_WIDTH] == TAILOR_ORIGIN_CLIENT);
    assert_true(row[TAILOR_FIELD_COLLAR_FALL] == 48.0 && origins[TAILOR_FIELD_COLLAR_FALL] == TAILOR_ORIGIN_HOUSE);
    assert_true(row[TAILOR_FIELD_COLLAR_STAND] == 30.0 && origins[TAILOR_FIELD_COLLAR_STAND] == TAILOR_ORIGIN_RULE);
    assert_true(row[TAILOR_FIELD_BACK_WAIST_LENGTH] == 450.0); /* a rule follows what was given */
}

static void house_may_give_what_is_required(void **state)
{
    (void)state;
    client[TAILOR_FIELD_CHEST_GIRTH] = NAN;
    house[TAILOR_FIELD_CHEST_GIRTH] = 1100.0;
    assert_int_equal(resolve(), TAILOR_OK);
    assert_int_equal(origins[TAILOR_FIELD_CHEST_GIRTH], TAILOR_ORIGIN_HOUSE);
}

static void direct_measures_stay_as_given(void **state)
{
    (void)state;
    client[TAILOR_FIELD_FRONT_SHOULDER] = 340.0;
    assert_int_equal(resolve(), TAILOR_OK);
    assert_true(row[TAILOR_FIELD_FRONT_SHOULDER] == 340.0 && isnan(row[TAILOR_FIELD_OVER_SHOULDER]));
    assert_int_equal(accept_row(row, TAILOR_FIELD_COUNT, &fault), TAILOR_OK);
}

static void every_shorter_array_will_do(void **state)
{
    double whole[TAILOR_FIELD_COUNT];
    (void)state;
    assert_int_equal(resolve(), TAILOR_OK);
    memcpy(whole, row, sizeof row);
    for (size_t n = 0; n <= TAILOR_FIELD_COUNT; n++) {
        double out[TAILOR_FIELD_COUNT] = {0};
        int32_t from[TAILOR_FIELD_COUNT];
        memset(from, 0x55, sizeof from);
        tailor_status status = tailor_order_resolve(NULL, client, n, out, from, n, &fault);
        assert_int_equal(status, n > TAILOR_FIELD_CHEST_GIRTH ? TAILOR_OK : TAILOR_MISSING);
        for (size_t i = 0; i < TAILOR_FIELD_COUNT; i++) {
            int written = status == TAILOR_OK && i < n;
            if (written && isnan(whole[i]))
                assert_true(isnan(out[i]));
            else
                assert_true(out[i] == (written ? whole[i] : 0.0));
            assert_true(written ? from[i] >= 0 && from[i] <= 3 : from[i] == 0x55555555);
        }
        /* a program built when the table was shorter: what came since takes its default */
        assert_int_equal(accept_row(whole, n, &fault), status);
        /* either output may be left out */
        memset(out, 0, sizeof out);
        assert_int_equal(tailor_order_resolve(NULL, client, n, out, NULL, n, NULL), status);
        for (size_t i = 1; i < n && status == TAILOR_OK; i++)
            assert_true(out[i] == whole[i] || (isnan(out[i]) && isnan(whole[i])));
        assert_int_equal(tailor_order_resolve(NULL, client, n, NULL, from, n, NULL), status);
        assert_int_equal(tailor_order_resolve(NULL, client, n, NULL, NULL, n, NULL), status);
    }
}

static void longer_arrays_are_filled_with_nan(void **state)
{
    enum { LONG = TAILOR_FIELD_COUNT + 7 };
    double given[LONG], out[LONG];
    int32_t from[LONG];
    (void)state;
    tailor_fields_clear(given, LONG);
    memset(out, 0, sizeof out);
    memset(from, 0x55, sizeof from);
    given[TAILOR_FIELD_CHEST_GIRTH] = 1000.0;
    assert_int_equal(tailor_order_resolve(NULL, given, LONG, out, from, LONG, &fault), TAILOR_OK);
    for (int i = TAILOR_FIELD_COUNT; i < LONG; i++)
        assert_true(isnan(out[i]) && from[i] == TAILOR_ORIGIN_NONE);
    assert_int_equal(accept_row(out, LONG, &fault), TAILOR_OK);
    for (int i = 0; i < LONG; i++) {
        if (i > 0 && i < TAILOR_FIELD_COUNT)
            continue;
        given[i] = 0.0;
        assert_int_equal(tailor_order_resolve(NULL, given, LONG, out, NULL, LONG, &fault), TAILOR_UNKNOWN_FIELD);
        assert_int_equal(fault.index, i);
        assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
        given[i] = NAN;
    }
}

static void output_may_be_the_input(void **state)
{
    double both[TAILOR_FIELD_COUNT];
    (void)state;
    assert_int_equal(resolve(), TAILOR_OK);
    memcpy(both, client, sizeof both);
    assert_int_equal(tailor_order_resolve(NULL, both, TAILOR_FIELD_COUNT, both, NULL, TAILOR_FIELD_COUNT, NULL),
                     TAILOR_OK);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        assert_true(both[i] == row[i] || (isnan(both[i]) && isnan(row[i])));
    /* and resolving once more changes nothing */
    assert_int_equal(tailor_order_resolve(NULL, both, TAILOR_FIELD_COUNT, both, NULL, TAILOR_FIELD_COUNT, NULL),
                     TAILOR_OK);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        assert_true(both[i] == row[i] || (isnan(both[i]) && isnan(row[i])));
}

static void failure_writes_nothing(void **state)
{
    (void)state;
    client[TAILOR_FIELD_CUFF_WIDTH] = INFINITY;
    memset(row, 0x11, sizeof row);
    memset(origins, 0x11, sizeof origins);
    assert_int_equal(resolve(), TAILOR_NOT_FINITE);
    for (size_t i = 0; i < sizeof row; i++)
        assert_int_equal(((unsigned char *)row)[i], 0x11);
    for (size_t i = 0; i < sizeof origins; i++)
        assert_int_equal(((unsigned char *)origins)[i], 0x11);
}

static void bad_calls(void **state)
{
    (void)state;
    assert_int_equal(tailor_order_resolve(NULL, NULL, 5, row, NULL, 5, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_order_resolve(NULL, NULL, 5, NULL, origins, 5, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 5, NULL), TAILOR_OK);
    assert_int_equal(tailor_order_resolve(NULL, NULL, 0, NULL, NULL, 0, NULL), TAILOR_MISSING);
    assert_int_equal(accept_row(NULL, 5, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(accept_row(NULL, 0, NULL), TAILOR_MISSING);
    tailor_fields_clear(NULL, 3);
}

static void unresolved_rows_are_refused(void **state)
{
    (void)state;
    assert_int_equal(accept_row(client, TAILOR_FIELD_COUNT, &fault), TAILOR_MISSING);
    assert_int_equal(resolve(), TAILOR_OK);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        double kept = row[i];
        int has_rule = tailor_table_text(tailor_field_table(), i, TAILOR_COLUMN_RULE)[0] != '\0';
        row[i] = NAN;
        assert_int_equal(accept_row(row, TAILOR_FIELD_COUNT, &fault), has_rule ? TAILOR_MISSING : TAILOR_OK);
        if (has_rule)
            assert_int_equal(fault.index, i);
        row[i] = kept;
    }
}

int test_resolve(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(chest_alone_is_enough, fresh),
        cmocka_unit_test_setup(client_before_house_before_rule, fresh),
        cmocka_unit_test_setup(house_may_give_what_is_required, fresh),
        cmocka_unit_test_setup(direct_measures_stay_as_given, fresh),
        cmocka_unit_test_setup(every_shorter_array_will_do, fresh),
        cmocka_unit_test_setup(longer_arrays_are_filled_with_nan, fresh),
        cmocka_unit_test_setup(output_may_be_the_input, fresh),
        cmocka_unit_test_setup(failure_writes_nothing, fresh),
        cmocka_unit_test_setup(bad_calls, fresh),
        cmocka_unit_test_setup(unresolved_rows_are_refused, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

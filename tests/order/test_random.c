/* Thousands of random rows: what resolve accepts, the door of the floors above accepts; what it refuses, it explains;
 * and men as they are measured are not refused. */
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "accepting.h"
#include "base/near.h"

static uint64_t seed;

static double between(double low, double high)
{
    return low + (high - low) * next_random(&seed);
}

static double normal(void)
{
    double radius = sqrt(-2.0 * log(1.0 - next_random(&seed)));
    return radius * cos(6.283185307179586 * next_random(&seed));
}

/* A normal deviate within 2.5 standard deviations. */
static double spread(void)
{
    double z;
    do
        z = normal();
    while (fabs(z) > 2.5);
    return z;
}

static int how_many(int usual, int in_long_run)
{
    return getenv("TAILOR_LONG") ? in_long_run : usual;
}

static double random_value(int field)
{
    const tailor_table *table = tailor_field_table();
    double low = tailor_table_low(table, field), high = tailor_table_high(table, field);
    if (tailor_table_choices(table, field))
        return floor(between(low, high + 1.0));
    switch ((int)between(0.0, 40.0)) {
    case 0: return low;
    case 1: return high;
    case 2: return between(-2.0 * high, 3.0 * high);
    case 3: return next_random(&seed) < 0.5 ? INFINITY : -INFINITY;
    default: return between(low, high);
    }
}

static void assert_explained(tailor_status status, const tailor_fault *fault)
{
    static const int reasons[] = {TAILOR_NOT_FINITE, TAILOR_OUT_OF_RANGE, TAILOR_NOT_A_CHOICE, TAILOR_WRONG_UNIT,
                                  TAILOR_CONTRADICTION};
    int pinned = 0;
    for (size_t i = 0; i < sizeof reasons / sizeof reasons[0]; i++)
        pinned |= status == reasons[i];
    assert_true(pinned);
    assert_int_equal(fault->status, status);
    assert_int_equal(fault->table, TAILOR_TABLE_FIELD);
    const char *name = tailor_table_text(tailor_field_table(), fault->index, TAILOR_COLUMN_NAME);
    assert_true(name[0] != '\0' && strncmp(fault->sentence, name, strlen(name)) == 0);
    assert_true(strlen(fault->sentence) < 215); /* nothing was cut */
    assert_null(strstr(fault->sentence, "nan"));
    assert_true(fault->value == fault->value);
    assert_true(fault->value < fault->low || fault->value > fault->high || status == TAILOR_NOT_A_CHOICE ||
                strstr(fault->sentence, "no value that is allowed fits") || strstr(fault->sentence, "leave it out"));
}

static void any_row(void **state)
{
    double client[TAILOR_FIELD_COUNT], house[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    int count = how_many(20000, 200000), accepted = 0;
    (void)state;
    seed = 42;
    for (int n = 0; n < count; n++) {
        double share = next_random(&seed) * next_random(&seed) * 0.5;
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        tailor_fields_clear(house, TAILOR_FIELD_COUNT);
        for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
            if (next_random(&seed) < share)
                client[i] = random_value(i);
            if (next_random(&seed) < 0.2 * share)
                house[i] = random_value(i);
        }
        if (isnan(client[TAILOR_FIELD_CHEST_GIRTH]))
            client[TAILOR_FIELD_CHEST_GIRTH] = between(700.0, 1600.0);
        tailor_status status = resolve_with(house, client, row, origins, &fault);
        if (status != TAILOR_OK) {
            assert_explained(status, &fault);
            continue;
        }
        accepted++;
        assert_int_equal(accept_row(row, TAILOR_FIELD_COUNT, &fault), TAILOR_OK);
        for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
            double expected = origins[i] == TAILOR_ORIGIN_CLIENT  ? client[i]
                              : origins[i] == TAILOR_ORIGIN_HOUSE ? house[i]
                                                                  : row[i];
            assert_true(row[i] == expected || origins[i] == TAILOR_ORIGIN_NONE);
            assert_int_equal(isnan(row[i]), origins[i] == TAILOR_ORIGIN_NONE);
            assert_true(isnan(row[i]) || (row[i] >= tailor_table_low(tailor_field_table(), i) &&
                                          row[i] <= tailor_table_high(tailor_field_table(), i)));
        }
    }
    print_message("# %d of %d random rows accepted\n", accepted, count);
    assert_in_range(accepted, count / 20, count - count / 20); /* both sides were tried */
}

/* Chest and stature as in ANSUR II, the rest from its regressions with their standard errors of estimate (Gordon et al.
 * 2014, NATICK/TR-15/007, men, n = 4082), cut at 2.5: {field, on, intercept, slope, standard error}. */
static const struct { int field, on; double intercept, slope, error; } men[] = {
    {TAILOR_FIELD_WAIST_GIRTH, TAILOR_FIELD_CHEST_GIRTH, -257.774, 1.1319, 51.81},
    {TAILOR_FIELD_SEAT_GIRTH, TAILOR_FIELD_CHEST_GIRTH, 243.005, 0.73346, 42.04},
    {TAILOR_FIELD_NECK_GIRTH, TAILOR_FIELD_CHEST_GIRTH, 150.174, 0.23375, 15.71},
    {TAILOR_FIELD_BACK_WIDTH, TAILOR_FIELD_CHEST_GIRTH, 136.285, 0.27823, 25.51},
    {TAILOR_FIELD_UPPER_ARM_GIRTH, TAILOR_FIELD_CHEST_GIRTH, 28.478, 0.31138, 21.38},
    {TAILOR_FIELD_WRIST_GIRTH, TAILOR_FIELD_CHEST_GIRTH, 110.292, 0.06199, 7.13},
    {TAILOR_FIELD_BACK_WAIST_LENGTH, TAILOR_FIELD_STATURE, 97.46, 0.21646, 23.43},
    {TAILOR_FIELD_ARM_LENGTH, TAILOR_FIELD_STATURE, -41.127, 0.36115, 18.36},
    {TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK, TAILOR_FIELD_STATURE, 101.932, 0.45206, 25.64},
};
enum { MEN_FIELDS = sizeof men / sizeof men[0] };

static void measured_men(void **state)
{
    static const int styles[] = {TAILOR_FIELD_SHOULDER_SLOPE, TAILOR_FIELD_CHEST_EASE, TAILOR_FIELD_WAIST_EASE,
                                 TAILOR_FIELD_SEAT_EASE, TAILOR_FIELD_SCYE_DROP, TAILOR_FIELD_SHOULDER_PAD,
                                 TAILOR_FIELD_BUTTON_SPACING, TAILOR_FIELD_BUTTON_DIAMETER, TAILOR_FIELD_BUTTON_STAND,
                                 TAILOR_FIELD_COLLAR_STAND, TAILOR_FIELD_COLLAR_FALL, TAILOR_FIELD_LAPEL_WIDTH,
                                 TAILOR_FIELD_CUFF_WIDTH, TAILOR_FIELD_CLOTH_WEIGHT};
    const tailor_table *table = tailor_field_table();
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    int count = how_many(10000, 100000), refused = 0;
    (void)state;
    seed = 7;
    for (int n = 0; n < count; n++) {
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1058.71 + 87.44 * spread();
        client[TAILOR_FIELD_STATURE] = 1550.869 + 0.19396 * client[TAILOR_FIELD_CHEST_GIRTH] + 66.43 * spread();
        for (int i = 0; i < MEN_FIELDS; i++)
            if (n % 2 == 0 || next_random(&seed) < 0.5)
                client[men[i].field] = men[i].intercept + men[i].slope * client[men[i].on] + men[i].error * spread();
        for (size_t i = 0; i < sizeof styles / sizeof styles[0]; i++) {
            double low = tailor_table_low(table, styles[i]);
            double quarter = 0.25 * (tailor_table_high(table, styles[i]) - low);
            client[styles[i]] = between(low + quarter, low + 3.0 * quarter);
        }
        if (tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault) != TAILOR_OK) {
            refused++;
            print_message("# %s\n", fault.sentence);
        }
    }
    print_message("# %d of %d measured men refused\n", refused, count);
    assert_int_equal(refused, 0);
}

/* A man at 2.5 standard errors in every measure at once, in every combination of signs, at small and large chests. */
static void men_at_the_limits(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    (void)state;
    for (int c = 0; c <= 4; c++) {
        for (int h = -1; h <= 1; h++) {
            for (unsigned signs = 0; signs < 1u << MEN_FIELDS; signs++) {
                tailor_fields_clear(client, TAILOR_FIELD_COUNT);
                client[TAILOR_FIELD_CHEST_GIRTH] = 774.0 + (1469.0 - 774.0) * c / 4.0; /* least to most in ANSUR II */
                client[TAILOR_FIELD_STATURE] =
                    1550.869 + 0.19396 * client[TAILOR_FIELD_CHEST_GIRTH] + 2.5 * 66.43 * h;
                for (int i = 0; i < MEN_FIELDS; i++)
                    client[men[i].field] = men[i].intercept + men[i].slope * client[men[i].on] +
                                           (signs >> i & 1u ? 2.5 : -2.5) * men[i].error;
                tailor_status status = tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault);
                if (status != TAILOR_OK)
                    print_error("%s\n", fault.sentence);
                assert_int_equal(status, TAILOR_OK);
            }
        }
    }
}

int test_random(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_row),
        cmocka_unit_test(measured_men),
        cmocka_unit_test(men_at_the_limits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

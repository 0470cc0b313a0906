/* A row that was resolved before, taken as it stands: the same coat to the bit; from an earlier version with what came
 * since, and a caution; from a later one as long as nothing is given that is not known here. */
#include <stdio.h>
#include "coats.h"

#define F(name) TAILOR_FIELD_##name

/* Orders of every kind that resolve; some fail a check, and even those are the same again. */
static void the_same_again(void **state)
{
    (void)state;
    struct dice d = {17};
    int good = 0, failed = 0;
    for (int n = 0; n < how_many(300, 6000); n++) {
        double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
        int32_t origins[TAILOR_FIELD_COUNT];
        tailor_coat *coat = NULL, *again = NULL, *from_resolve = NULL, *of_client = NULL;
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        draw_body(&d, client);
        for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
            if (!is_measure(field) && even(&d) < 0.3)
                client[field] = any_value(&d, field, 0.9);
        agree_with_itself(client);
        const tailor_status status = tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, n % EXTENTS, &coat, NULL);
        if (!coat)
            continue;
        good += status == TAILOR_OK;
        failed += status == TAILOR_CHECK_FAILED;
        assert_int_equal(tailor_coat_again(NULL, tailor_coat_fields(coat, NULL), tailor_coat_origins(coat, NULL),
                                           TAILOR_FIELD_COUNT, n % EXTENTS, &again, NULL),
                         status);
        same_coat(coat, again);
        same_cautions(coat, again);
        assert_memory_equal(tailor_coat_origins(coat, NULL), tailor_coat_origins(again, NULL),
                            TAILOR_FIELD_COUNT * sizeof(int32_t));
        /* What tailor_order_resolve() wrote is the same row. */
        assert_int_equal(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, row, origins, TAILOR_FIELD_COUNT, NULL),
                         TAILOR_OK);
        assert_int_equal(tailor_coat_again(NULL, row, origins, TAILOR_FIELD_COUNT, n % EXTENTS, &from_resolve, NULL),
                         status);
        same_coat(coat, from_resolve);
        same_cautions(coat, from_resolve);
        /* As the client's own: nothing is left to a rule. */
        assert_int_equal(tailor_coat_again(NULL, row, NULL, TAILOR_FIELD_COUNT, n % EXTENTS, &of_client, NULL), status);
        same_coat(coat, of_client);
        for (int i = 0; i < TAILOR_FIELD_COUNT; i++)
            assert_int_equal(tailor_coat_origins(of_client, NULL)[i],
                             isnan(row[i]) ? TAILOR_ORIGIN_NONE : TAILOR_ORIGIN_CLIENT);
        tailor_coat_free(coat);
        tailor_coat_free(again);
        tailor_coat_free(from_resolve);
        tailor_coat_free(of_client);
    }
    print_message("# %d coats again, %d of which a check fails\n", good, failed);
    assert_true(good > 100);
}

/** A coat whose check fails is that again, with its fault. */
static void a_failing_coat_again(void **state)
{
    (void)state;
    double client[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    failing_check(client, constants);
    tailor_house *house = house_of(constants);
    tailor_coat *coat = NULL, *again = NULL;
    tailor_fault one, other;
    assert_int_equal(tailor_coat_new(house, client, TAILOR_FIELD_COUNT, WHOLE, &coat, &one), TAILOR_CHECK_FAILED);
    assert_int_equal(
        tailor_coat_again(house, tailor_coat_fields(coat, NULL), NULL, TAILOR_FIELD_COUNT, WHOLE, &again, &other),
        TAILOR_CHECK_FAILED);
    assert_memory_equal(&one, &other, sizeof one);
    same_coat(coat, again);
    tailor_house_free(house);
    tailor_coat_free(coat);
    tailor_coat_free(again);
}

/* ---- lengths */

/** Length of the row of a version: up to the last field that the table says it had. */
static size_t fields_since(const char *version)
{
    size_t count = 0;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (strcmp(tailor_table_text(tailor_field_table(), i, TAILOR_COLUMN_SINCE), version) <= 0)
            count = (size_t)i + 1;
    return count;
}

/** How many fields of a resolved row lie beyond a length and have a value. */
static int newer_than(const double *row, size_t count)
{
    int newer = 0;
    for (size_t i = count; i < TAILOR_FIELD_COUNT; i++)
        newer += !isnan(row[i]);
    return newer;
}

static void a_row_of_an_earlier_version(void **state)
{
    (void)state;
    assert_int_equal(fields_since("0.1.0"), 47); /* TAILOR_FIELD_COUNT of tests/abi/0.1.0 and 0.2.0 */
    assert_int_equal(fields_since("0.2.0"), 112);
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1000}, {F(STATURE), 1770}), WHOLE); /* all else by the rules */
    const double *row = tailor_coat_fields(coat, NULL);
    int cautioned = 0;
    for (size_t n = 0; n <= TAILOR_FIELD_COUNT; n++) {
        tailor_coat *again = POISON;
        tailor_fault fault = {0};
        const tailor_status status =
            tailor_coat_again(NULL, row, tailor_coat_origins(coat, NULL), n, WHOLE, &again, &fault);
        if (n <= F(CHEST_GIRTH)) {
            assert_int_equal(status, TAILOR_MISSING);
            assert_int_equal(fault.index, F(CHEST_GIRTH));
            assert_ptr_equal(again, POISON);
            continue;
        }
        assert_int_equal(status, TAILOR_OK);
        same_coat(coat, again);
        const int newer = newer_than(row, n), place = caution_of(again, TAILOR_CAUTION_FIELDS_NEWER, &fault);
        assert_int_equal(place >= 0, newer > 0);
        if (newer) {
            char told[32];
            snprintf(told, sizeof told, "%d field", newer);
            assert_int_equal(tailor_coat_caution(again, place, NULL), TAILOR_CAUTION_CLASS_CAUTION);
            assert_close(fault.value, newer, 0);
            assert_int_equal(strncmp(fault.sentence, told, strlen(told)), 0);
            cautioned++;
        }
        for (size_t i = n; i < TAILOR_FIELD_COUNT; i++) /* found as in any other order */
            assert_int_equal(tailor_coat_origins(again, NULL)[i],
                             isnan(row[i]) ? TAILOR_ORIGIN_NONE : TAILOR_ORIGIN_RULE);
        tailor_coat_free(again);
    }
    assert_true(cautioned > 60);
    assert_int_equal(newer_than(row, fields_since("0.1.0")), 43); /* 65 fields of 0.2.0, 22 of which have no rule */
    tailor_coat_free(coat);
}

/** What is newer than the row may be the house's. */
static void newer_fields_of_the_house(void **state)
{
    (void)state;
    double fields[TAILOR_FIELD_COUNT];
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1000}), TAILOR_EXTENT_NET), *again = NULL;
    const size_t count = fields_since("0.1.0");
    tailor_house *house = NULL;
    tailor_fault fault;
    assert_true(F(PROMINENT_BLADES) >= count && F(LAPEL_WIDTH) < count);
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    fields[F(PROMINENT_BLADES)] = 8;
    fields[F(LAPEL_WIDTH)] = 100; /* within the row: it stays as it was resolved */
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, NULL, &house, NULL), TAILOR_OK);
    assert_int_equal(tailor_coat_again(house, tailor_coat_fields(coat, NULL), tailor_coat_origins(coat, NULL), count,
                                       TAILOR_EXTENT_NET, &again, NULL),
                     TAILOR_OK);
    assert_close(tailor_coat_fields(again, NULL)[F(PROMINENT_BLADES)], 8, 0);
    assert_int_equal(tailor_coat_origins(again, NULL)[F(PROMINENT_BLADES)], TAILOR_ORIGIN_HOUSE);
    assert_close(tailor_coat_fields(again, NULL)[F(LAPEL_WIDTH)], tailor_coat_fields(coat, NULL)[F(LAPEL_WIDTH)], 0);
    assert_int_equal(tailor_coat_origins(again, NULL)[F(LAPEL_WIDTH)], TAILOR_ORIGIN_RULE);
    assert_true(caution_of(again, TAILOR_CAUTION_FIELDS_NEWER, &fault) >= 0);
    tailor_coat_free(again);
    /* A whole row leaves nothing to the house. */
    assert_int_equal(tailor_coat_again(house, tailor_coat_fields(coat, NULL), tailor_coat_origins(coat, NULL),
                                       TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &again, NULL),
                     TAILOR_OK);
    same_coat(coat, again);
    tailor_coat_free(again);
    tailor_coat_free(coat);
    tailor_house_free(house);
}

/** The constants are those of today's house. */
static void constants_of_today_s_house(void **state)
{
    (void)state;
    double constants[TAILOR_CONSTANT_COUNT];
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1000}), TAILOR_EXTENT_NET), *again = NULL;
    tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
    constants[TAILOR_CONSTANT_HOLLOW_SHARE] = 0.25;
    tailor_house *house = house_of(constants);
    assert_int_equal(tailor_coat_again(house, tailor_coat_fields(coat, NULL), NULL, TAILOR_FIELD_COUNT,
                                       TAILOR_EXTENT_NET, &again, NULL),
                     TAILOR_OK);
    assert_close(tailor_coat_constants(again, NULL)[TAILOR_CONSTANT_HOLLOW_SHARE], 0.25, 0);
    assert_true(tailor_coat_constants(coat, NULL)[TAILOR_CONSTANT_HOLLOW_SHARE] < 0.25);
    assert_memory_equal(tailor_coat_fields(again, NULL), tailor_coat_fields(coat, NULL),
                        TAILOR_FIELD_COUNT * sizeof(double));
    size_t n, as_many;
    const int back = piece_of(tailor_coat_pattern(coat), TAILOR_PIECE_BACK);
    const tailor_cubic *a = tailor_piece_outline(tailor_coat_pattern(coat), back, &n),
                       *b = tailor_piece_outline(tailor_coat_pattern(again), back, &as_many);
    assert_true(n != as_many || memcmp(a, b, n * sizeof *a) != 0);
    tailor_house_free(house);
    tailor_coat_free(coat);
    tailor_coat_free(again);
}

enum { LONGER = TAILOR_FIELD_COUNT + 40 };

/** Rows of a program built against a later version are longer: fine as long as nothing is given there. */
static void a_row_of_a_later_version(void **state)
{
    (void)state;
    double fields[LONGER];
    int32_t origins[LONGER] = {0};
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1000}), WHOLE), *again = NULL;
    tailor_fields_clear(fields, LONGER);
    memcpy(fields, tailor_coat_fields(coat, NULL), TAILOR_FIELD_COUNT * sizeof *fields);
    memcpy(origins, tailor_coat_origins(coat, NULL), TAILOR_FIELD_COUNT * sizeof *origins);
    assert_int_equal(tailor_coat_again(NULL, fields, origins, LONGER, WHOLE, &again, NULL), TAILOR_OK);
    same_coat(coat, again);
    same_cautions(coat, again);
    tailor_coat_free(again);
    static const int past[] = {0, 1, 20, 39};
    for (size_t i = 0; i < sizeof past / sizeof *past; i++) {
        tailor_fault fault = {0};
        again = POISON;
        fields[TAILOR_FIELD_COUNT + past[i]] = 1;
        assert_int_equal(tailor_coat_again(NULL, fields, origins, LONGER, WHOLE, &again, &fault), TAILOR_UNKNOWN_FIELD);
        assert_int_equal(fault.index, TAILOR_FIELD_COUNT + past[i]);
        assert_int_equal(tailor_coat_of_pattern(NULL, fields, origins, LONGER, tailor_coat_pattern(coat), &again, NULL),
                         TAILOR_UNKNOWN_FIELD);
        assert_ptr_equal(again, POISON);
        fields[TAILOR_FIELD_COUNT + past[i]] = NAN;
    }
    tailor_coat_free(coat);
}

/* ---- what is no resolved row */

/** A NaN within the row is no field that is newer: it was never resolved, in whatever version. */
static void a_gap_is_missing(void **state)
{
    (void)state;
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1000}), TAILOR_EXTENT_NET);
    double row[TAILOR_FIELD_COUNT];
    int missing = 0, left_out = 0;
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        const int has_rule = tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_RULE)[0] != 0;
        memcpy(row, tailor_coat_fields(coat, NULL), sizeof row);
        row[field] = NAN;
        for (size_t count = (size_t)field + 1; count <= TAILOR_FIELD_COUNT; count += TAILOR_FIELD_COUNT / 3) {
            tailor_coat *again = POISON;
            tailor_fault fault = {0};
            if (count <= F(CHEST_GIRTH))
                continue;
            const tailor_status status = tailor_coat_again(NULL, row, NULL, count, TAILOR_EXTENT_NET, &again, &fault);
            if (!has_rule) {
                assert_int_equal(status, TAILOR_OK);
                tailor_coat_free(again);
                left_out++;
                continue;
            }
            assert_int_equal(status, TAILOR_MISSING);
            assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
            assert_int_equal(fault.index, field);
            assert_non_null(strstr(fault.sentence, tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME)));
            assert_ptr_equal(again, POISON);
            missing++;
        }
    }
    assert_true(missing > 80 && left_out > 20);
    tailor_coat_free(coat);
}

static void bad_origins(void **state)
{
    (void)state;
    static const int32_t bad[] = {-1, 4, 100, INT32_MIN, INT32_MAX};
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1000}), TAILOR_EXTENT_NET);
    const double *row = tailor_coat_fields(coat, NULL);
    int32_t origins[TAILOR_FIELD_COUNT];
    for (int field = 0; field < TAILOR_FIELD_COUNT; field++) {
        tailor_coat *again = POISON;
        tailor_fault fault = {0};
        memcpy(origins, tailor_coat_origins(coat, NULL), sizeof origins);
        origins[field] = bad[field % 5];
        const tailor_status status =
            tailor_coat_again(NULL, row, origins, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &again, &fault);
        if (isnan(row[field])) { /* nobody's, whatever is said */
            assert_int_equal(status, TAILOR_OK);
            assert_int_equal(tailor_coat_origins(again, NULL)[field], TAILOR_ORIGIN_NONE);
            tailor_coat_free(again);
            continue;
        }
        assert_int_equal(status, TAILOR_BAD_ARGUMENT);
        assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
        assert_int_equal(fault.index, field);
        assert_close(fault.value, bad[field % 5], 0);
        assert_true(fault.low == TAILOR_ORIGIN_NONE && fault.high == TAILOR_ORIGIN_RULE);
        assert_ptr_equal(again, POISON);
        assert_int_equal(
            tailor_coat_of_pattern(NULL, row, origins, TAILOR_FIELD_COUNT, tailor_coat_pattern(coat), &again, NULL),
            TAILOR_BAD_ARGUMENT);
        assert_ptr_equal(again, POISON);
    }
    tailor_coat_free(coat);
}

int test_again(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_again),
        cmocka_unit_test(a_failing_coat_again),
        cmocka_unit_test(a_row_of_an_earlier_version),
        cmocka_unit_test(newer_fields_of_the_house),
        cmocka_unit_test(constants_of_today_s_house),
        cmocka_unit_test(a_row_of_a_later_version),
        cmocka_unit_test(a_gap_is_missing),
        cmocka_unit_test(bad_origins),
    };
    return cmocka_run_group_tests_name("again", tests, NULL, NULL);
}

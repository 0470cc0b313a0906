/* Reading a coat: whole rows and single numbers agree, nothing that is not there does harm, a coat that fails a check
 * is read like any other, and the house may be gone. */
#include <limits.h>
#include "coats.h"

#define F(name) TAILOR_FIELD_##name

static const int no_numbers[] = {0, -1, INT_MIN, INT_MAX, 100000, -100000};
enum { NO_NUMBERS = sizeof no_numbers / sizeof *no_numbers };

/* Every function that reads a coat, with NULL for it, and with NULL for what it would write. */
static void null_reads_as_nothing(void **state)
{
    (void)state;
    tailor_fault fault;
    size_t count;
    double value = 7, limit = 7;
    memset(&fault, 0, sizeof fault);
    assert_int_equal(tailor_coat_status(NULL, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
    assert_string_not_equal(fault.sentence, "");
    assert_int_equal(tailor_coat_status(NULL, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_coat_extent(NULL), 0);
    assert_int_equal(tailor_coat_edition(NULL), 0);
    assert_int_equal(tailor_coat_drafted(NULL), 0);
    assert_null(tailor_coat_pattern(NULL));
    assert_int_equal(tailor_pattern_piece_count(tailor_coat_pattern(NULL)), 0);
    count = 7;
    assert_true(!tailor_coat_section(NULL, &count) && count == 0);
    count = 7;
    assert_true(!tailor_coat_fields(NULL, &count) && count == 0);
    count = 7;
    assert_true(!tailor_coat_origins(NULL, &count) && count == 0);
    count = 7;
    assert_true(!tailor_coat_constants(NULL, &count) && count == 0);
    count = 7;
    assert_true(!tailor_coat_quantities(NULL, &count) && count == 0);
    assert_true(!tailor_coat_section(NULL, NULL) && !tailor_coat_fields(NULL, NULL) &&
                !tailor_coat_origins(NULL, NULL) && !tailor_coat_constants(NULL, NULL) &&
                !tailor_coat_quantities(NULL, NULL));
    assert_true(isnan(tailor_coat_quantity(NULL, TAILOR_QUANTITY_COVERAGE_SCYE)));
    assert_int_equal(tailor_coat_check(NULL, TAILOR_CHECK_SEAM_ERROR, &value, &limit), -1);
    assert_true(isnan(value) && isnan(limit));
    assert_int_equal(tailor_coat_check(NULL, TAILOR_CHECK_SEAM_ERROR, NULL, NULL), -1);
    assert_int_equal(tailor_coat_caution_count(NULL), 0);
    memset(&fault, 0x5a, sizeof fault);
    assert_int_equal(tailor_coat_caution(NULL, 0, &fault), 0);
    assert_int_equal(fault.status, 0x5a5a5a5a); /* nothing is told */
    assert_int_equal(tailor_coat_caution(NULL, 0, NULL), 0);
    tailor_coat_free(NULL);
}

static void any_number(void **state)
{
    (void)state;
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1016}), WHOLE);
    for (int i = 0; i < NO_NUMBERS; i++) {
        double value = 7, limit = 7;
        assert_true(isnan(tailor_coat_quantity(coat, no_numbers[i])));
        assert_int_equal(tailor_coat_check(coat, no_numbers[i], &value, &limit), -1);
        assert_true(isnan(value) && isnan(limit));
        if (no_numbers[i] != 0)
            assert_int_equal(tailor_coat_caution(coat, no_numbers[i], NULL), 0);
    }
    assert_true(isnan(tailor_coat_quantity(coat, TAILOR_QUANTITY_COUNT)));
    assert_int_equal(tailor_coat_check(coat, TAILOR_CHECK_COUNT, NULL, NULL), -1);
    assert_int_equal(tailor_coat_caution(coat, tailor_coat_caution_count(coat), NULL), 0);
    tailor_coat_free(coat);
}

/** Whole rows are the tables' length, entry 0 unused, and hold what is read by number. */
static void rows_and_numbers_agree(void **state)
{
    (void)state;
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
    int32_t from[TAILOR_FIELD_COUNT];
    row_from(client, ORDER({F(CHEST_GIRTH), 1016}, {F(LAPEL_WIDTH), 95}));
    tailor_coat *coat = must_coat(NULL, client, WHOLE);
    size_t count;
    const double *fields = tailor_coat_fields(coat, &count);
    assert_int_equal(count, TAILOR_FIELD_COUNT);
    assert_int_equal(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, row, from, TAILOR_FIELD_COUNT, NULL),
                     TAILOR_OK);
    assert_memory_equal(fields, row, sizeof row);
    assert_memory_equal(tailor_coat_origins(coat, &count), from, sizeof from);
    assert_int_equal(count, TAILOR_FIELD_COUNT);
    assert_true(isnan(fields[0]) && from[0] == TAILOR_ORIGIN_NONE && from[F(LAPEL_WIDTH)] == TAILOR_ORIGIN_CLIENT &&
                from[F(WAIST_GIRTH)] == TAILOR_ORIGIN_RULE);
    tailor_house *nobody = house_of(NULL);
    assert_memory_equal(tailor_coat_constants(coat, &count), tailor_house_constants(nobody, NULL),
                        TAILOR_CONSTANT_COUNT * sizeof(double));
    assert_int_equal(count, TAILOR_CONSTANT_COUNT);
    tailor_house_free(nobody);
    const double *quantities = tailor_coat_quantities(coat, &count);
    assert_int_equal(count, TAILOR_QUANTITY_COUNT);
    assert_true(isnan(quantities[0]));
    for (int q = 0; q < TAILOR_QUANTITY_COUNT; q++) {
        const double one = tailor_coat_quantity(coat, q);
        assert_memory_equal(&one, &quantities[q], sizeof one);
    }
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
        double value, limit, alone;
        const int passes = tailor_coat_check(coat, check, &value, &limit);
        assert_int_equal(passes, tailor_check_passes(check, value, limit));
        assert_true(passes >= 0 || isnan(limit));
        assert_int_equal(tailor_coat_check(coat, check, NULL, &alone), passes); /* either may be left out */
        assert_memory_equal(&alone, &limit, sizeof limit);
        assert_int_equal(tailor_coat_check(coat, check, &alone, NULL), passes);
        assert_memory_equal(&alone, &value, sizeof value);
    }
    assert_int_equal(tailor_coat_edition(coat), tailor_edition());
    tailor_fault fault, zeros;
    memset(&zeros, 0, sizeof zeros);
    memset(&fault, 0x5a, sizeof fault);
    assert_int_equal(tailor_coat_status(coat, &fault), TAILOR_OK);
    assert_memory_equal(&fault, &zeros, sizeof fault);
    tailor_coat_free(coat);
}

/** The house goes first, and so do the caller's rows: a coat has copies of what it tells. */
static void the_house_may_go_first(void **state)
{
    (void)state;
    double fields[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT], client[TAILOR_FIELD_COUNT];
    tailor_house *house = NULL;
    tailor_coat *coat[2] = {NULL, NULL};
    row_from(fields, ORDER({F(LAPEL_WIDTH), 100}));
    tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
    constants[TAILOR_CONSTANT_HOLLOW_SHARE] = 0.25;
    row_from(client, ORDER({F(CHEST_GIRTH), 1016}));
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &house, NULL),
                     TAILOR_OK);
    for (int i = 0; i < 2; i++)
        coat[i] = must_coat(house, client, WHOLE);
    /* What is read while the house is there, */
    tailor_coat *again = NULL;
    assert_int_equal(tailor_coat_again(house, tailor_coat_fields(coat[0], NULL), tailor_coat_origins(coat[0], NULL),
                                       TAILOR_FIELD_COUNT, WHOLE, &again, NULL),
                     TAILOR_OK);
    same_coat(coat[0], again);
    tailor_house_free(house);
    /* is read when it is gone (the address sanitizer looks), and its memory is somebody else's. */
    void *elsewhere = malloc((TAILOR_FIELD_COUNT + TAILOR_CONSTANT_COUNT + 4) * sizeof(double));
    memset(elsewhere, 0xdd, (TAILOR_FIELD_COUNT + TAILOR_CONSTANT_COUNT + 4) * sizeof(double));
    memset(client, 0xdd, sizeof client);
    same_coat(coat[0], coat[1]);
    same_coat(coat[0], again);
    assert_close(tailor_coat_fields(coat[0], NULL)[F(LAPEL_WIDTH)], 100, 0);
    assert_close(tailor_coat_constants(coat[0], NULL)[TAILOR_CONSTANT_HOLLOW_SHARE], 0.25, 0);
    free(elsewhere);
    tailor_coat_free(coat[0]);
    same_coat(coat[1], again); /* one coat does not live off another */
    tailor_coat_free(coat[1]);
    tailor_coat_free(again);
}

/** The one failure that gives the coat: all of it can be read, and its status says again what the call said. */
static void a_check_that_fails_gives_the_coat(void **state)
{
    (void)state;
    double client[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    failing_check(client, constants);
    for (int extent = 0; extent < EXTENTS; extent++) {
        tailor_house *house = house_of(constants);
        tailor_coat *coat = NULL, *without = NULL;
        tailor_fault fault, again;
        double value, limit;
        int fails = 0, first = 0;
        assert_int_equal(tailor_coat_new(house, client, TAILOR_FIELD_COUNT, extent, &coat, &fault),
                         TAILOR_CHECK_FAILED);
        assert_int_equal(tailor_coat_new(house, client, TAILOR_FIELD_COUNT, extent, &without, NULL),
                         TAILOR_CHECK_FAILED);
        tailor_house_free(house);
        assert_non_null(coat);
        for (int ask = 0; ask < 2; ask++) { /* as often as asked */
            assert_int_equal(tailor_coat_status(coat, &again), TAILOR_CHECK_FAILED);
            assert_memory_equal(&again, &fault, sizeof fault);
        }
        assert_int_equal(tailor_coat_status(coat, NULL), TAILOR_CHECK_FAILED);
        same_coat(coat, without); /* its status is there though no fault was asked for */
        for (int check = TAILOR_CHECK_COUNT - 1; check > 0; check--)
            if (tailor_coat_check(coat, check, &value, &limit) == 0) {
                fails++;
                first = check;
                assert_true(tailor_check_sense(check) > 0 ? value > limit : value < limit);
            }
        assert_true(fails > 0);
        assert_true(fault.table == TAILOR_TABLE_CHECK && fault.index == first);
        assert_int_equal(tailor_coat_check(coat, first, &value, &limit), 0);
        assert_close(fault.value, value, 0);
        assert_close(tailor_check_sense(first) > 0 ? fault.high : fault.low, limit, 0);
        assert_non_null(strstr(fault.sentence, tailor_table_text(tailor_check_table(), first, TAILOR_COLUMN_NAME)));
        assert_true(isfinite(tailor_coat_quantity(coat, TAILOR_QUANTITY_COVERAGE_SCYE)));
        assert_true(tailor_pattern_piece_count(tailor_coat_pattern(coat)) >= 6);
        tailor_coat_free(coat);
        tailor_coat_free(without);
    }
}

static void how_a_check_is_judged(void **state)
{
    (void)state;
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}), WHOLE);
    for (int i = 0; i < NO_NUMBERS; i++) {
        assert_int_equal(tailor_check_sense(no_numbers[i]), 0);
        assert_int_equal(tailor_check_passes(no_numbers[i], 1, 2), -1);
    }
    assert_int_equal(tailor_check_sense(TAILOR_CHECK_COUNT), 0);
    int most = 0, least = 0;
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
        const int sense = tailor_check_sense(check);
        assert_true(sense == 1 || sense == -1);
        most += sense == 1;
        least += sense == -1;
        assert_int_equal(tailor_check_passes(check, 5, 5), 1);
        assert_int_equal(tailor_check_passes(check, 5 + 1e-9, 5), sense < 0);
        assert_int_equal(tailor_check_passes(check, 5 - 1e-9, 5), sense > 0);
        assert_int_equal(tailor_check_passes(check, NAN, 5), -1);
        assert_int_equal(tailor_check_passes(check, INFINITY, 5), sense < 0);
        /* the table has the limit where it is the same for every coat, on the side that the sense says */
        const double low = tailor_table_low(tailor_check_table(), check),
                     high = tailor_table_high(tailor_check_table(), check);
        assert_true(isnan(sense > 0 ? low : high));
        double value, limit;
        if (tailor_coat_check(coat, check, &value, &limit) < 0) {
            assert_true(isnan(value) && isnan(limit));
            continue;
        }
        assert_true(isfinite(limit));
        if (!isnan(sense > 0 ? high : low))
            assert_close(limit, sense > 0 ? high : low, 0);
    }
    assert_true(most > 20 && least > 8);
    tailor_coat_free(coat);
}

int test_read(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(null_reads_as_nothing),
        cmocka_unit_test(any_number),
        cmocka_unit_test(rows_and_numbers_agree),
        cmocka_unit_test(the_house_may_go_first),
        cmocka_unit_test(a_check_that_fails_gives_the_coat),
        cmocka_unit_test(how_a_check_is_judged),
    };
    return cmocka_run_group_tests_name("reading a coat", tests, NULL, NULL);
}

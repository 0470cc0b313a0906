/* What making a coat refuses, whichever call makes it: NULLs, rows that were not resolved, values that no row may have,
 * orders on which no coat closes. Nothing is written but the fault, and that as a whole. */
#include "coats.h"

#define F(name) TAILOR_FIELD_##name

static tailor_coat *good;
static double client[TAILOR_FIELD_COUNT];

static int set_up(void **state)
{
    (void)state;
    row_from(client, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}));
    good = must_coat(NULL, client, WHOLE);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    tailor_coat_free(good);
    return 0;
}

/* The calls that make a coat; the last two take a resolved row. */
enum { NEW, AGAIN, OF_PATTERN, WAYS };

static tailor_status make_by(int way, const double *row, size_t count, int extent, tailor_coat **coat,
                             tailor_fault *fault)
{
    return way == NEW     ? tailor_coat_new(NULL, row, count, extent, coat, fault)
           : way == AGAIN ? tailor_coat_again(NULL, row, NULL, count, extent, coat, fault)
                          : tailor_coat_of_pattern(NULL, row, NULL, count, tailor_coat_pattern(good), coat, fault);
}

/** Refused by one call with this status, the coat's pointer left alone, the fault filled as a whole. */
static tailor_fault refused_by(int way, const double *row, size_t count, tailor_status status)
{
    tailor_fault fault;
    for (int extent = 0; extent < EXTENTS; extent++) {
        tailor_coat *coat = POISON;
        memset(&fault, 0x5a, sizeof fault);
        const tailor_status got = make_by(way, row, count, extent, &coat, &fault);
        if (got != status)
            fail_msg("call %d: %s, not %s", way, tailor_status_name(got), tailor_status_name(status));
        assert_ptr_equal(coat, POISON);
        assert_int_equal(fault.status, status);
        assert_int_equal(fault.place, 0);
        assert_true(memchr(fault.sentence, 0, sizeof fault.sentence) != NULL);
        assert_true(strlen(fault.sentence) > 8);
        assert_int_equal(make_by(way, row, count, extent, &coat, NULL), status); /* no fault asked */
        assert_ptr_equal(coat, POISON);
    }
    return fault;
}

static tailor_fault refused(const double *row, size_t count, tailor_status status)
{
    tailor_fault fault = {0};
    for (int way = AGAIN; way < WAYS; way++)
        fault = refused_by(way, row, count, status);
    return fault;
}

static void nothing_given(void **state)
{
    (void)state;
    tailor_fault fault;
    for (int way = 0; way < WAYS; way++) {
        const double *row = way == NEW ? client : tailor_coat_fields(good, NULL);
        memset(&fault, 0, sizeof fault);
        assert_int_equal(make_by(way, row, TAILOR_FIELD_COUNT, 0, NULL, &fault), TAILOR_BAD_ARGUMENT);
        assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
        assert_int_equal(make_by(way, row, TAILOR_FIELD_COUNT, 0, NULL, NULL), TAILOR_BAD_ARGUMENT);
        refused_by(way, NULL, TAILOR_FIELD_COUNT, TAILOR_BAD_ARGUMENT);
        fault = refused_by(way, NULL, 0, TAILOR_MISSING);
        assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
        assert_int_equal(fault.index, F(CHEST_GIRTH));
    }
    tailor_coat *coat = POISON;
    memset(&fault, 0, sizeof fault);
    assert_int_equal(
        tailor_coat_of_pattern(NULL, tailor_coat_fields(good, NULL), NULL, TAILOR_FIELD_COUNT, NULL, &coat, &fault),
        TAILOR_BAD_ARGUMENT);
    assert_ptr_equal(coat, POISON);
    assert_non_null(strstr(fault.sentence, "pattern is NULL"));
}

/** The client's row itself, not resolved: the first field that a rule would have filled is named. */
static void an_unresolved_row(void **state)
{
    (void)state;
    tailor_fault fault = refused(client, TAILOR_FIELD_COUNT, TAILOR_MISSING);
    assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
    assert_int_equal(fault.index, F(WAIST_GIRTH));
    double zeroed[TAILOR_FIELD_COUNT] = {0};
    refused(zeroed, TAILOR_FIELD_COUNT, TAILOR_UNKNOWN_FIELD); /* entry 0 is no field */
    refused_by(NEW, zeroed, TAILOR_FIELD_COUNT, TAILOR_UNKNOWN_FIELD);
    zeroed[0] = NAN;
    refused(zeroed, TAILOR_FIELD_COUNT, TAILOR_OUT_OF_RANGE);
    refused_by(NEW, zeroed, TAILOR_FIELD_COUNT, TAILOR_OUT_OF_RANGE);
}

/** One field after another spoilt in a sound row. */
static void each_field_spoilt(void **state)
{
    (void)state;
    const tailor_table *table = tailor_field_table();
    double row[TAILOR_FIELD_COUNT];
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        const char *rule = tailor_table_text(table, field, TAILOR_COLUMN_RULE);
        const int choice = tailor_choice_table(field) != NULL;
        const double low = tailor_table_low(table, field), high = tailor_table_high(table, field);
        const struct {
            double value;
            int status;
        } spoils[] = {
            {NAN, rule[0] ? TAILOR_MISSING : TAILOR_OK},
            {INFINITY, TAILOR_NOT_FINITE},
            {-INFINITY, TAILOR_NOT_FINITE},
            {high + 1, choice ? TAILOR_NOT_A_CHOICE : TAILOR_OUT_OF_RANGE},
            {low - 1, choice ? TAILOR_NOT_A_CHOICE : TAILOR_OUT_OF_RANGE},
            {choice ? 1.5 : -1e300, choice ? TAILOR_NOT_A_CHOICE : TAILOR_OUT_OF_RANGE},
        };
        for (size_t i = 0; i < sizeof spoils / sizeof *spoils; i++) {
            if (spoils[i].status == TAILOR_OK)
                continue;
            memcpy(row, tailor_coat_fields(good, NULL), sizeof row);
            row[field] = spoils[i].value;
            const tailor_fault fault = refused(row, TAILOR_FIELD_COUNT, spoils[i].status);
            assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
            assert_int_equal(fault.index, field);
            assert_non_null(strstr(fault.sentence, tailor_table_text(table, field, TAILOR_COLUMN_NAME)));
            if (!isnan(spoils[i].value)) {
                memcpy(row, client, sizeof row);
                row[field] = spoils[i].value;
                assert_int_equal(refused_by(NEW, row, TAILOR_FIELD_COUNT, spoils[i].status).index, field);
            }
        }
    }
}

/** Two values that cannot be true of one coat are refused by every call as they are by resolving. */
static void a_contradiction(void **state)
{
    (void)state;
    double row[TAILOR_FIELD_COUNT];
    memcpy(row, tailor_coat_fields(good, NULL), sizeof row);
    row[F(WAIST_GIRTH)] = row[F(CHEST_GIRTH)] + 300;
    assert_int_equal(refused(row, TAILOR_FIELD_COUNT, TAILOR_CONTRADICTION).index, F(WAIST_GIRTH));
    memcpy(row, client, sizeof row);
    row[F(WAIST_GIRTH)] = row[F(CHEST_GIRTH)] + 300;
    assert_int_equal(refused_by(NEW, row, TAILOR_FIELD_COUNT, TAILOR_CONTRADICTION).index, F(WAIST_GIRTH));
}

/** No coat closes: the draft's own refusals, after a block was asked for. */
static void no_coat_closes(void **state)
{
    (void)state;
    double row[TAILOR_FIELD_COUNT], resolved[TAILOR_FIELD_COUNT];
    memcpy(row, client, sizeof row);
    row[F(UPPER_ARM_GIRTH)] = 490;
    const tailor_fault fault = refused_by(NEW, row, TAILOR_FIELD_COUNT, TAILOR_SLEEVE_UNSOLVED);
    assert_int_equal(fault.index, F(UPPER_ARM_GIRTH));
    assert_int_equal(tailor_order_resolve(NULL, row, TAILOR_FIELD_COUNT, resolved, NULL, TAILOR_FIELD_COUNT, NULL),
                     TAILOR_OK);
    const tailor_fault again = refused_by(AGAIN, resolved, TAILOR_FIELD_COUNT, TAILOR_SLEEVE_UNSOLVED);
    assert_memory_equal(&fault, &again, sizeof fault);
}

int test_errors(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_given),   cmocka_unit_test(an_unresolved_row), cmocka_unit_test(each_field_spoilt),
        cmocka_unit_test(a_contradiction), cmocka_unit_test(no_coat_closes),
    };
    return cmocka_run_group_tests_name("errors of making a coat", tests, set_up, tear_down);
}

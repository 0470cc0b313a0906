/* What is refused: a plan, a worker or a run, with nothing written; or a row, with a verdict that tells why. */
#include "matrix.h"
#include <stdio.h>

static const double UNTOUCHED = 4711;
static char nowhere;
#define PLAN ((tailor_rows *)(void *)&nowhere)
#define WORKER ((tailor_rows_worker *)(void *)&nowhere)

static const double two_orders[2][3] = {{1000, 900, 1750}, {1100, 1000, 1800}};
static const int32_t three_columns[3] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH, TAILOR_FIELD_STATURE};
static const int32_t two_wanted[2] = {TAILOR_QUANTITY_COVERAGE_SCYE, TAILOR_QUANTITY_BREAK_LENGTH};

static tailor_rows *good_plan(void)
{
    tailor_rows *plan = NULL;
    assert_int_equal(tailor_rows_new(NULL, three_columns, 3, two_wanted, 2, &plan, NULL), TAILOR_OK);
    return plan;
}

/* One number of a good plan, spoilt: its status, table and number, and which of the columns or quantities it was. */
static void a_plan(void **state)
{
    (void)state;
    static const struct {
        int wanted; /* 1: among the quantities */
        size_t at;
        int32_t number;
        tailor_status status;
    } spoilt[] = {
        {0, 0, 0, TAILOR_UNKNOWN_FIELD},
        {0, 1, TAILOR_FIELD_COUNT, TAILOR_UNKNOWN_FIELD},
        {0, 2, -1, TAILOR_UNKNOWN_FIELD},
        {0, 1, INT32_MIN, TAILOR_UNKNOWN_FIELD},
        {0, 2, INT32_MAX, TAILOR_UNKNOWN_FIELD},
        {0, 2, TAILOR_FIELD_CHEST_GIRTH, TAILOR_BAD_ARGUMENT}, /* a second column of it */
        {0, 1, TAILOR_FIELD_CHEST_GIRTH, TAILOR_BAD_ARGUMENT},
        {1, 1, 0, TAILOR_UNKNOWN_FIELD},
        {1, 0, TAILOR_QUANTITY_COUNT, TAILOR_UNKNOWN_FIELD},
        {1, 1, -7, TAILOR_UNKNOWN_FIELD},
        {1, 0, INT32_MAX, TAILOR_UNKNOWN_FIELD},
    };
    for (size_t i = 0; i < sizeof spoilt / sizeof *spoilt; i++) {
        int32_t columns[3], wanted[2];
        tailor_rows *plan = PLAN;
        tailor_fault fault;
        memset(&fault, 0x5a, sizeof fault);
        memcpy(columns, three_columns, sizeof columns);
        memcpy(wanted, two_wanted, sizeof wanted);
        (spoilt[i].wanted ? wanted : columns)[spoilt[i].at] = spoilt[i].number;
        assert_int_equal(tailor_rows_new(NULL, columns, 3, wanted, 2, &plan, &fault), spoilt[i].status);
        assert_ptr_equal(plan, PLAN);
        assert_int_equal(fault.status, spoilt[i].status);
        assert_int_equal(fault.table, spoilt[i].wanted ? TAILOR_TABLE_QUANTITY : TAILOR_TABLE_FIELD);
        assert_int_equal(fault.index, spoilt[i].number);
        assert_int_equal(fault.place, (int)spoilt[i].at + 1);
        assert_true(strlen(fault.sentence) > 8);
        if (spoilt[i].status == TAILOR_BAD_ARGUMENT)
            assert_string_equal(fault.sentence, "chest_girth has two columns");
        assert_int_equal(tailor_rows_new(NULL, columns, 3, wanted, 2, &plan, NULL), spoilt[i].status);
        assert_ptr_equal(plan, PLAN);
    }
    /* The same quantity twice is no fault; nor are numbers past the count, or NULL where the count is 0. */
    tailor_rows *plan = NULL;
    const int32_t twice[] = {TAILOR_QUANTITY_COVERAGE_SCYE, TAILOR_QUANTITY_COVERAGE_SCYE, -1};
    double both[2];
    assert_int_equal(tailor_rows_new(NULL, three_columns, 3, twice, 2, &plan, NULL), TAILOR_OK);
    tailor_rows_worker *worker = must_worker(plan);
    assert_int_equal(tailor_rows_run(worker, two_orders[0], 1, both, NULL, NULL), TAILOR_OK);
    assert_true(both[0] > 0 && both[0] == both[1]);
    tailor_rows_worker_free(worker);
    tailor_rows_free(plan);
    assert_int_equal(tailor_rows_new(NULL, NULL, 0, NULL, 0, &plan, NULL), TAILOR_OK);
    tailor_rows_free(plan);
}

static void nulls(void **state)
{
    (void)state;
    tailor_rows *plan = PLAN, *good = good_plan();
    tailor_rows_worker *worker = WORKER, *w = must_worker(good);
    double quantities[4] = {UNTOUCHED, UNTOUCHED, UNTOUCHED, UNTOUCHED};
    tailor_verdict verdicts[2] = {{.status = -7}, {.status = -7}};
    tailor_fault fault = {0};
    assert_int_equal(tailor_rows_new(NULL, NULL, 3, two_wanted, 2, &plan, &fault), TAILOR_BAD_ARGUMENT);
    assert_true(fault.status == TAILOR_BAD_ARGUMENT && fault.place == 0);
    assert_int_equal(tailor_rows_new(NULL, three_columns, 3, NULL, 2, &plan, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_rows_new(NULL, three_columns, 3, two_wanted, 2, NULL, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_rows_new(NULL, three_columns, 3, two_wanted, SIZE_MAX, &plan, NULL), TAILOR_BAD_ARGUMENT);
    assert_ptr_equal(plan, PLAN);
    assert_int_equal(tailor_rows_worker_new(NULL, 0, 0, &worker, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_rows_worker_new(good, 0, 0, NULL, NULL), TAILOR_BAD_ARGUMENT);
    assert_ptr_equal(worker, WORKER);
    memset(&fault, 0, sizeof fault);
    assert_int_equal(tailor_rows_run(NULL, two_orders[0], 2, quantities, verdicts, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_rows_run(NULL, NULL, 0, NULL, NULL, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_rows_run(w, NULL, 2, quantities, verdicts, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_rows_run(w, two_orders[0], 2, NULL, verdicts, NULL), TAILOR_BAD_ARGUMENT);
    for (int i = 0; i < 4; i++)
        assert_true(quantities[i] == UNTOUCHED);
    assert_true(verdicts[0].status == -7 && verdicts[1].status == -7);
    assert_int_equal(tailor_rows_run(w, two_orders[0], 2, quantities, verdicts, NULL), TAILOR_OK); /* as it stands */
    assert_true(quantities[3] > 0 && quantities[3] != UNTOUCHED);
    assert_true(verdicts[0].status == TAILOR_OK && verdicts[1].status == TAILOR_OK);
    assert_int_equal(tailor_rows_run(w, two_orders[0], 2, quantities, NULL, NULL), TAILOR_OK);
    assert_int_equal(tailor_rows_run(w, NULL, 0, NULL, NULL, NULL), TAILOR_OK); /* no rows are no fault */
    tailor_rows_worker_free(w);
    tailor_rows_free(good);
    tailor_rows_worker_free(NULL);
    tailor_rows_free(NULL);
}

static void strides_that_are_too_small(void **state)
{
    (void)state;
    tailor_rows *plan = good_plan();
    static const size_t bad[][2] = {{2, 0}, {1, 0}, {0, 1}, {3, 1}, {1, 1}};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        tailor_rows_worker *worker = WORKER;
        tailor_fault fault = {0};
        const int of_orders = bad[i][0] != 0 && bad[i][0] < 3;
        assert_int_equal(tailor_rows_worker_new(plan, bad[i][0], bad[i][1], &worker, &fault), TAILOR_BAD_ARGUMENT);
        assert_ptr_equal(worker, WORKER);
        assert_true(fault.value == (double)bad[i][of_orders ? 0 : 1] && fault.low == (of_orders ? 3 : 2));
        assert_non_null(strstr(fault.sentence, of_orders ? "at least 3" : "at least 2"));
        assert_int_equal(tailor_rows_worker_new(plan, bad[i][0], bad[i][1], &worker, NULL), TAILOR_BAD_ARGUMENT);
    }
    tailor_rows_free(plan);
}

/* Each verdict tells of the fault that the coat has, and its sentence names the field, the value and the limit. */
static void verdicts_expand(void **state)
{
    (void)state;
    matrix m = matrix_make();
    int refused = 0, extent = 0;
    for (size_t i = 0; i < m.wanted_count; i++)
        extent |= extent_of(m.wanted[i]);
    assert_int_equal(matrix_run(&m, 0, ROWS, m.worker), TAILOR_OK);
    for (int row = 0; row < ROWS; row++) {
        static const tailor_fault zeros;
        const tailor_verdict *v = &m.verdicts[row];
        double client[TAILOR_FIELD_COUNT];
        tailor_fault is, expands;
        client_of(row, client);
        tailor_status status = assert_is_the_coat(NULL, client, extent, v, m.quantities + (size_t)row * m.wanted_count,
                                                  m.wanted, m.wanted_count, &is);
        tailor_verdict_fault(v, &expands);
        if (status == TAILOR_OK) {
            assert_memory_equal(&expands, &zeros, sizeof zeros);
            continue;
        }
        refused++;
        assert_true(expands.status == status && expands.table == is.table && expands.index == is.index);
        assert_same(expands.value, is.value);
        if (v->limit < v->value)
            assert_same(expands.high, v->limit);
        if (v->limit > v->value)
            assert_same(expands.low, v->limit);
        const tailor_table *table = v->table == TAILOR_TABLE_CHECK ? tailor_check_table() : tailor_field_table();
        const char *name = tailor_table_text(table, v->index, TAILOR_COLUMN_NAME);
        char value[40];
        assert_non_null(strstr(expands.sentence, name));
        if (v->value == floor(v->value) && fabs(v->value) < 1e6) {
            snprintf(value, sizeof value, " %.0f", v->value);
            assert_non_null(strstr(expands.sentence, value));
        }
        int given = !isnan(client[v->index]);
        assert_int_equal(v->origin, given             ? TAILOR_ORIGIN_CLIENT
                                    : isnan(v->value) ? TAILOR_ORIGIN_NONE
                                                      : TAILOR_ORIGIN_RULE);
        assert_int_equal(strstr(expands.sentence, "by rule") != NULL, !given && !isnan(v->value));
    }
    assert_true(refused > ROWS / EVERY_BAD / 2);
    matrix_free(&m);
}

/* What the house gave and what no row may have: the row is refused, and the verdict says whose value it was. */
static void the_house_s_value_in_a_row(void **state)
{
    (void)state;
    static const int32_t column = TAILOR_FIELD_CHEST_GIRTH;
    const double orders[2] = {900, 1550};
    double fields[TAILOR_FIELD_COUNT];
    tailor_house *house = NULL;
    tailor_rows *plan = NULL;
    tailor_verdict verdicts[2];
    tailor_fault fault;
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    fields[TAILOR_FIELD_WAIST_GIRTH] = 1500;
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, NULL, &house, NULL), TAILOR_OK);
    assert_int_equal(tailor_rows_new(house, &column, 1, NULL, 0, &plan, NULL), TAILOR_OK);
    tailor_rows_worker *worker = must_worker(plan);
    assert_int_equal(tailor_rows_run(worker, orders, 2, NULL, verdicts, NULL), TAILOR_OK);
    assert_int_equal(verdicts[0].status, TAILOR_CONTRADICTION);
    assert_int_equal(verdicts[0].index, TAILOR_FIELD_WAIST_GIRTH);
    assert_int_equal(verdicts[0].origin, TAILOR_ORIGIN_HOUSE);
    assert_true(verdicts[0].value == 1500 && verdicts[0].limit == 1100);
    tailor_verdict_fault(&verdicts[0], &fault);
    assert_string_equal(fault.sentence, "waist_girth 1500 mm is too large for the other values of this order: at most "
                                        "1100 mm is allowed (given by the house)");
    assert_int_not_equal(verdicts[1].status, TAILOR_CONTRADICTION);
    tailor_rows_worker_free(worker);
    tailor_rows_free(plan);
    tailor_house_free(house);
}

/* Sentences that are tailor_coat_new()'s own, and those that are shorter. */
static void sentences(void **state)
{
    (void)state;
    static const struct {
        tailor_verdict verdict;
        const char *sentence;
    } cases[] = {
        {{TAILOR_OUT_OF_RANGE, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_CLIENT, 2000, 1600, {0}},
         "chest_girth 2000 mm is too large: 700 to 1600 mm is allowed"},
        {{TAILOR_OUT_OF_RANGE, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_HOUSE, 690, 700, {0}},
         "chest_girth 690 mm is too small: 700 to 1600 mm is allowed (given by the house)"},
        {{TAILOR_WRONG_UNIT, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_CLIENT, 40, 700, {0}},
         "chest_girth 40 mm is far too small: 700 to 1600 mm is allowed; is it in another unit?"},
        {{TAILOR_MISSING, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_NONE, NAN, NAN, {0}},
         "chest_girth is required and not given: 700 to 1600 mm is allowed"},
        {{TAILOR_CONTRADICTION, TAILOR_TABLE_FIELD, TAILOR_FIELD_WAIST_GIRTH, TAILOR_ORIGIN_RULE, 500, 520, {0}},
         "waist_girth 500 mm is too small for the other values of this order: at least 520 mm is allowed"
         " (not given, but found by rule)"},
        {{TAILOR_SCYE_UNSOLVED, TAILOR_TABLE_FIELD, TAILOR_FIELD_BACK_WIDTH, TAILOR_ORIGIN_CLIENT, 480.5, NAN, {0}},
         "the scye cannot be drawn: look at back_width 480.5 mm"},
        {{TAILOR_BAD_ARGUMENT, TAILOR_TABLE_NONE, 0, 0, NAN, NAN, {0}}, NULL},
        {{12345, 99, -3, 7, NAN, INFINITY, {0}}, NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        tailor_fault fault;
        memset(&fault, 'x', sizeof fault);
        tailor_verdict_fault(&cases[i].verdict, &fault);
        assert_string_equal(fault.sentence,
                            cases[i].sentence ? cases[i].sentence : tailor_status_text(cases[i].verdict.status));
    }
    tailor_verdict_fault(NULL, NULL);
    tailor_fault fault = {.status = 3};
    tailor_verdict_fault(NULL, &fault);
    assert_int_equal(fault.status, 3);
    tailor_verdict_fault(&cases[0].verdict, NULL);
}

/* A check that fails: its value and its limit, on the side that it demands. */
static void checks_expand(void **state)
{
    (void)state;
    int both = 0;
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
        int sense = tailor_check_sense(check);
        if (!sense)
            continue;
        const tailor_verdict verdict = {
            TAILOR_CHECK_FAILED, TAILOR_TABLE_CHECK, check, 0, sense > 0 ? 8.5 : 1.25, 4, {0}};
        tailor_fault fault;
        tailor_verdict_fault(&verdict, &fault);
        assert_non_null(strstr(fault.sentence, tailor_table_text(tailor_check_table(), check, TAILOR_COLUMN_NAME)));
        assert_non_null(strstr(fault.sentence, sense > 0 ? ": 8.5" : ": 1.25"));
        assert_non_null(strstr(fault.sentence, sense > 0 ? "at most 4" : "at least 4"));
        assert_true(sense > 0 ? fault.high == 4 && isnan(fault.low) : fault.low == 4 && isnan(fault.high));
        assert_non_null(strstr(fault.sentence, ": look at ")); /* which field is to blame the table knows */
        both |= sense > 0 ? 1 : 2;
    }
    assert_int_equal(both, 3);
}

int test_refusals(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_plan),
        cmocka_unit_test(nulls),
        cmocka_unit_test(strides_that_are_too_small),
        cmocka_unit_test(verdicts_expand),
        cmocka_unit_test(the_house_s_value_in_a_row),
        cmocka_unit_test(sentences),
        cmocka_unit_test(checks_expand),
    };
    return cmocka_run_group_tests_name("refusals of rows", tests, NULL, NULL);
}

/* What is refused: the whole call, with nothing written; or a row, with a record that tells why. */
#include "matrix.h"
#include <stdio.h>

static const double UNTOUCHED = 4711;

/* A call that is good; each case spoils one of its arguments. */
typedef struct call {
    int32_t columns[3];
    size_t column_count;
    const double *orders;
    size_t rows, order_stride;
    double house[TAILOR_FIELD_COUNT + 1];
    size_t house_count;
    double constants[TAILOR_CONSTANT_COUNT + 1];
    size_t constant_count;
    int32_t wanted[2];
    size_t wanted_count, quantity_stride, workspace_bytes;
    const int32_t *no_columns, *no_wanted; /* passed instead of them */
    int without_quantities, without_house;
    char *workspace;
} call;

static const double two_orders[2][3] = {{1000, 900, 1750}, {1100, 1000, 1800}};

static call good(char *workspace)
{
    call c = {.columns = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH, TAILOR_FIELD_STATURE},
              .column_count = 3,
              .orders = two_orders[0],
              .rows = 2,
              .order_stride = 3,
              .house_count = TAILOR_FIELD_COUNT,
              .constant_count = TAILOR_CONSTANT_COUNT,
              .wanted = {TAILOR_QUANTITY_COVERAGE_SCYE, TAILOR_QUANTITY_BREAK_LENGTH},
              .wanted_count = 2,
              .quantity_stride = 2,
              .workspace_bytes = tailor_rows_workspace_bytes(),
              .workspace = workspace};
    tailor_fields_clear(c.house, TAILOR_FIELD_COUNT + 1);
    tailor_fields_clear(c.constants, TAILOR_CONSTANT_COUNT + 1);
    return c;
}

static tailor_status make(const call *c, double *quantities, int32_t *statuses, tailor_fault_record *records,
                          tailor_fault *fault)
{
    return tailor_rows_measure(c->no_columns ? NULL : c->columns, c->column_count, c->orders, c->rows, c->order_stride,
                               c->without_house ? NULL : c->house, c->house_count, c->constants, c->constant_count,
                               c->no_wanted ? NULL : c->wanted, c->wanted_count,
                               c->without_quantities ? NULL : quantities, c->quantity_stride, statuses, records,
                               c->workspace, c->workspace_bytes, fault);
}

static const int32_t nothing[1] = {0};

static void spoil_call(call *c, int way)
{
    switch (way) {
    case 0: c->columns[1] = 0; break;
    case 1: c->columns[1] = TAILOR_FIELD_COUNT; break;
    case 2: c->columns[1] = -1; break;
    case 3: c->columns[2] = c->columns[0]; break;
    case 4: c->wanted[1] = 0; break;
    case 5: c->wanted[0] = TAILOR_QUANTITY_COUNT; break;
    case 6: c->order_stride = 2; break;
    case 7: c->quantity_stride = 1; break;
    case 8: c->orders = NULL; break;
    case 9: c->without_quantities = 1; break;
    case 10: c->no_columns = nothing; break;
    case 11: c->no_wanted = nothing; break;
    case 12: c->workspace = NULL; break;
    case 13: c->workspace += 8; break;
    case 14: c->workspace_bytes--; break;
    case 15: c->house[TAILOR_FIELD_LAPEL_WIDTH] = 900; break;
    case 16: c->constants[TAILOR_CONSTANT_BLADE_EASE] = INFINITY; break;
    case 17:
        c->house[TAILOR_FIELD_COUNT] = 1;
        c->house_count++;
        break;
    case 18: c->constants[0] = 1; break;
    case 19: c->without_house = 1; break;
    default: fail();
    }
}

static const struct {
    tailor_status status;
    int table, index;
} expected[] = {
    {TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_FIELD, 0},
    {TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_FIELD, TAILOR_FIELD_COUNT},
    {TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_FIELD, -1},
    {TAILOR_BAD_ARGUMENT, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH},
    {TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_QUANTITY, 0},
    {TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_QUANTITY, TAILOR_QUANTITY_COUNT},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
    {TAILOR_TOO_SMALL, 0, 0},
    {TAILOR_OUT_OF_RANGE, TAILOR_TABLE_FIELD, TAILOR_FIELD_LAPEL_WIDTH},
    {TAILOR_NOT_FINITE, TAILOR_TABLE_CONSTANT, TAILOR_CONSTANT_BLADE_EASE},
    {TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_FIELD, TAILOR_FIELD_COUNT},
    {TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_CONSTANT, 0},
    {TAILOR_BAD_ARGUMENT, 0, 0},
};
enum { WAYS = sizeof expected / sizeof expected[0] };

static void the_whole_call(void **state)
{
    (void)state;
    char *workspace = malloc(tailor_rows_workspace_bytes() + 16);
    for (int way = -1; way < WAYS; way++) {
        double quantities[4] = {UNTOUCHED, UNTOUCHED, UNTOUCHED, UNTOUCHED};
        int32_t statuses[2] = {-7, -7};
        tailor_fault_record records[2] = {{.status = -7}, {.status = -7}};
        tailor_fault fault = {0};
        call c = good(workspace);
        if (way >= 0)
            spoil_call(&c, way);
        tailor_status status = make(&c, quantities, statuses, records, &fault);
        if (way < 0) { /* as it stands it is good */
            assert_int_equal(status, TAILOR_OK);
            assert_true(quantities[3] > 0 && quantities[3] != UNTOUCHED);
            assert_true(statuses[0] == TAILOR_OK && records[1].status == TAILOR_OK);
            continue;
        }
        assert_int_equal(status, expected[way].status);
        assert_int_equal(fault.status, status);
        assert_int_equal(fault.table, expected[way].table);
        assert_int_equal(fault.index, expected[way].index);
        assert_string_not_equal(fault.sentence, "");
        for (int i = 0; i < 4; i++)
            assert_true(quantities[i] == UNTOUCHED);
        assert_true(statuses[0] == -7 && statuses[1] == -7 && records[0].status == -7 && records[1].status == -7);
        assert_int_equal(make(&c, quantities, NULL, NULL, NULL), status); /* without a fault too */
        if (expected[way].status == TAILOR_TOO_SMALL)
            assert_true(fault.low == (double)tailor_rows_workspace_bytes() && fault.value == fault.low - 1);
        if (way == 15 || way == 16)
            assert_non_null(strstr(fault.sentence, "(in the house's values)"));
    }
    free(workspace);
}

static void no_rows_are_no_fault(void **state)
{
    (void)state;
    char *workspace = malloc(tailor_rows_workspace_bytes());
    call c = good(workspace);
    c.rows = 0;
    c.orders = NULL;
    c.without_quantities = 1;
    assert_int_equal(make(&c, NULL, NULL, NULL, NULL), TAILOR_OK);
    c.columns[0] = 0; /* but columns and house are looked at */
    assert_int_equal(make(&c, NULL, NULL, NULL, NULL), TAILOR_UNKNOWN_FIELD);
    free(workspace);
}

/* Each record tells of the fault that the scalar call has, and its sentence names the field, the value and the limit.
 */
static void records_expand(void **state)
{
    (void)state;
    matrix m = matrix_make();
    int refused = 0;
    assert_int_equal(matrix_measure(&m, 0, ROWS, m.workspace), TAILOR_OK);
    for (int row = 0; row < ROWS; row++) {
        static const tailor_fault zeros;
        const tailor_fault_record *r = &m.records[row];
        double client[TAILOR_FIELD_COUNT], quantities[TAILOR_QUANTITY_COUNT];
        tailor_fault is, expands;
        client_of(row, client);
        tailor_status status = scalar(client, NULL, NULL, quantities, &is);
        tailor_fault_expand(r, &expands);
        assert_int_equal(r->status, status);
        if (status == TAILOR_OK) {
            assert_memory_equal(&expands, &zeros, sizeof zeros);
            continue;
        }
        refused++;
        assert_true(r->table == is.table && r->index == is.index);
        assert_same(r->value, is.value);
        assert_same(r->limit, is.value < is.low ? is.low : is.value > is.high ? is.high : (double)NAN);
        assert_true(expands.status == status && expands.table == is.table && expands.index == is.index);
        assert_same(expands.value, is.value);
        if (r->limit < r->value)
            assert_same(expands.high, r->limit);
        if (r->limit > r->value)
            assert_same(expands.low, r->limit);
        const tailor_table *table = r->table == TAILOR_TABLE_CHECK ? tailor_check_table() : tailor_field_table();
        const char *name = tailor_table_text(table, r->index, TAILOR_COLUMN_NAME);
        char value[40];
        assert_non_null(strstr(expands.sentence, name));
        if (r->value == floor(r->value) && fabs(r->value) < 1e6) {
            snprintf(value, sizeof value, " %.0f", r->value);
            assert_non_null(strstr(expands.sentence, value));
        }
        int given = !isnan(client[r->index]);
        assert_int_equal(r->origin, given             ? TAILOR_ORIGIN_CLIENT
                                    : isnan(r->value) ? TAILOR_ORIGIN_NONE
                                                      : TAILOR_ORIGIN_RULE);
        assert_int_equal(strstr(expands.sentence, "by rule") != NULL, !given && !isnan(r->value));
    }
    assert_true(refused > ROWS / EVERY_BAD / 2);
    matrix_free(&m);
}

/* Sentences that are the scalar call's own, and those that are shorter. */
static void sentences(void **state)
{
    (void)state;
    static const struct {
        tailor_fault_record record;
        const char *sentence;
    } cases[] = {
        {{TAILOR_OUT_OF_RANGE, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_CLIENT, 2000, 1600},
         "chest_girth 2000 mm is too large: 700 to 1600 mm is allowed"},
        {{TAILOR_OUT_OF_RANGE, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_HOUSE, 690, 700},
         "chest_girth 690 mm is too small: 700 to 1600 mm is allowed (given by the house)"},
        {{TAILOR_WRONG_UNIT, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_CLIENT, 40, 700},
         "chest_girth 40 mm is far too small: 700 to 1600 mm is allowed; is it in another unit?"},
        {{TAILOR_MISSING, TAILOR_TABLE_FIELD, TAILOR_FIELD_CHEST_GIRTH, TAILOR_ORIGIN_NONE, NAN, NAN},
         "chest_girth is required and not given: 700 to 1600 mm is allowed"},
        {{TAILOR_CONTRADICTION, TAILOR_TABLE_FIELD, TAILOR_FIELD_WAIST_GIRTH, TAILOR_ORIGIN_RULE, 500, 520},
         "waist_girth 500 mm is too small for the other values of this order: at least 520 mm is allowed"
         " (not given, but found by rule)"},
        {{TAILOR_SCYE_UNSOLVED, TAILOR_TABLE_FIELD, TAILOR_FIELD_BACK_WIDTH, TAILOR_ORIGIN_CLIENT, 480.5, NAN},
         "the scye cannot be drawn: look at back_width 480.5 mm"},
        {{TAILOR_BAD_ARGUMENT, TAILOR_TABLE_NONE, 0, 0, NAN, NAN}, NULL},
        {{12345, 99, -3, 7, NAN, INFINITY}, NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        tailor_fault fault;
        memset(&fault, 'x', sizeof fault);
        tailor_fault_expand(&cases[i].record, &fault);
        assert_string_equal(fault.sentence,
                            cases[i].sentence ? cases[i].sentence : tailor_status_text(cases[i].record.status));
    }
    tailor_fault_expand(NULL, NULL);
    tailor_fault fault = {.status = 3};
    tailor_fault_expand(NULL, &fault);
    assert_int_equal(fault.status, 3);
    tailor_fault_expand(&cases[0].record, NULL);
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
        tailor_fault_record record = {TAILOR_CHECK_FAILED, TAILOR_TABLE_CHECK, check, 0, sense > 0 ? 8.5 : 1.25, 4};
        tailor_fault fault;
        tailor_fault_expand(&record, &fault);
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
        cmocka_unit_test(the_whole_call), cmocka_unit_test(no_rows_are_no_fault), cmocka_unit_test(records_expand),
        cmocka_unit_test(sentences),      cmocka_unit_test(checks_expand),
    };
    return cmocka_run_group_tests_name("refusals of rows", tests, NULL, NULL);
}

/* What drafting refuses: NULLs, rows that were not resolved, values that no row may have, and orders on which no coat
 * closes. */
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name

static struct made good;

static int set_up(void **state)
{
    (void)state;
    return make(&good, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780})) != TAILOR_OK;
}

static int tear_down(void **state)
{
    (void)state;
    unmake(&good);
    return 0;
}

/** Draft these rows: refused with this status, the pattern pointer left alone, the fault filled as a whole. */
static tailor_fault refused(const double *fields, size_t field_count, const double *constants, size_t constant_count,
                            int status)
{
    static int somewhere;
    tailor_pattern *const untouched = (tailor_pattern *)(void *)&somewhere;
    tailor_pattern *coat = untouched;
    tailor_fault fault;
    memset(&fault, 0x5a, sizeof fault);
    const tailor_status got = tailor_coat_draft(fields, field_count, constants, constant_count, NULL, &coat, &fault);
    if (got != status)
        fail_msg("%s, not %s", tailor_status_name(got), tailor_status_name(status));
    assert_ptr_equal(coat, untouched);
    assert_int_equal(fault.status, status);
    assert_int_equal(fault.reserved, 0);
    assert_true(memchr(fault.sentence, 0, sizeof fault.sentence) != NULL);
    assert_true(strlen(fault.sentence) > 8);
    assert_int_equal(tailor_coat_draft(fields, field_count, constants, constant_count, NULL, &coat, NULL),
                     status); /* no fault asked */
    assert_ptr_equal(coat, untouched);
    return fault;
}

static void nothing_given(void **state)
{
    (void)state;
    tailor_fault fault;
    assert_int_equal(
        tailor_coat_draft(good.row, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, NULL, NULL, &fault),
        TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
    assert_int_equal(
        tailor_coat_draft(good.row, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, NULL, NULL, NULL),
        TAILOR_BAD_ARGUMENT);
    refused(NULL, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, TAILOR_BAD_ARGUMENT);
    refused(good.row, TAILOR_FIELD_COUNT, NULL, TAILOR_CONSTANT_COUNT, TAILOR_BAD_ARGUMENT);
    fault = refused(NULL, 0, NULL, 0, TAILOR_MISSING);
    assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
    assert_int_equal(fault.index, F(CHEST_GIRTH));
}

/** The client's row itself, not resolved: the first field that a rule would have filled is named. */
static void an_unresolved_row(void **state)
{
    (void)state;
    tailor_fault fault =
        refused(good.client, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, TAILOR_MISSING);
    assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
    double zeroed[TAILOR_FIELD_COUNT] = {0};
    refused(zeroed, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT,
            TAILOR_UNKNOWN_FIELD); /* entry 0 is no field */
    zeroed[0] = NAN;
    refused(zeroed, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, TAILOR_OUT_OF_RANGE);
}

/** One field after another spoilt in a sound row. */
static void each_field_spoilt(void **state)
{
    (void)state;
    const tailor_table *table = tailor_field_table();
    double row[TAILOR_FIELD_COUNT];
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        const char *rule = tailor_table_text(table, field, TAILOR_COLUMN_RULE);
        const int choice = tailor_table_text(table, field, TAILOR_COLUMN_CHOICES)[0] != 0;
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
            memcpy(row, good.row, sizeof row);
            row[field] = spoils[i].value;
            const tailor_fault fault =
                refused(row, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, spoils[i].status);
            assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
            assert_int_equal(fault.index, field);
            assert_non_null(strstr(fault.sentence, tailor_table_text(table, field, TAILOR_COLUMN_NAME)));
        }
    }
}

static void each_constant_spoilt(void **state)
{
    (void)state;
    const tailor_table *table = tailor_constant_table();
    double constants[TAILOR_CONSTANT_COUNT];
    for (int place = 0, constant; (constant = tailor_table_at(table, place)) != 0; place++) {
        const double spoils[] = {NAN, INFINITY, tailor_table_low(table, constant) - 1,
                                 tailor_table_high(table, constant) + 1};
        const int status[] = {TAILOR_MISSING, TAILOR_NOT_FINITE, TAILOR_OUT_OF_RANGE, TAILOR_OUT_OF_RANGE};
        for (int i = 0; i < 4; i++) {
            memcpy(constants, good.constants, sizeof constants);
            constants[constant] = spoils[i];
            const tailor_fault fault =
                refused(good.row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, status[i]);
            assert_int_equal(fault.table, TAILOR_TABLE_CONSTANT);
            assert_int_equal(fault.index, constant);
        }
    }
}

/** Two values that cannot be true of one coat are refused by the draft as they are by resolving. */
static void a_contradiction(void **state)
{
    (void)state;
    double row[TAILOR_FIELD_COUNT];
    memcpy(row, good.row, sizeof row);
    row[F(WAIST_GIRTH)] = row[F(CHEST_GIRTH)] + 300;
    const tailor_fault fault =
        refused(row, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, TAILOR_CONTRADICTION);
    assert_int_equal(fault.index, F(WAIST_GIRTH));
}

/* Orders that are sound value by value, and on which no coat closes: why, and which field says so. */
static const struct {
    struct given order[8];
    int status, field;
} unsolved[] = {
    {{{F(CHEST_GIRTH), 1200}, {F(WAIST_GIRTH), 640}}, TAILOR_WAIST_UNSOLVED, F(WAIST_GIRTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(SEAT_GIRTH), 660}}, TAILOR_WAIST_UNSOLVED, F(SEAT_GIRTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(OVER_SHOULDER), 390}}, TAILOR_SHOULDER_UNSOLVED, F(OVER_SHOULDER)},
    {{{F(CHEST_GIRTH), 1000}, {F(FRONT_SHOULDER), 450}}, TAILOR_SHOULDER_UNSOLVED, F(FRONT_SHOULDER)},
    {{{F(CHEST_GIRTH), 1000}, {F(FRONT_WAIST_LENGTH), 660}}, TAILOR_SHOULDER_UNSOLVED, F(FRONT_WAIST_LENGTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(BACK_WIDTH), 260}, {F(NECK_GIRTH), 490}, {F(CROSS_CHEST), 360}},
     TAILOR_SHOULDER_UNSOLVED,
     F(BACK_WIDTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(UPPER_ARM_GIRTH), 490}}, TAILOR_SLEEVE_UNSOLVED, F(UPPER_ARM_GIRTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(BUTTON_STAND), 13}, {F(BUTTON_DIAMETER), 21}}, TAILOR_FRONT_UNSOLVED, F(BUTTON_STAND)},
    {{{F(CHEST_GIRTH), 1000}, {F(SEAT_LEVEL), 630}, {F(COAT_LENGTH), 655}, {F(BUTTON_SPACING), 130}},
     TAILOR_FRONT_UNSOLVED,
     F(COAT_LENGTH)},
    {{{F(CHEST_GIRTH), 1000},
      {F(BACK_WAIST_LENGTH), 350},
      {F(BUTTONING), TAILOR_BUTTONING_THREE_BUTTON},
      {F(BUTTON_SPACING), 130},
      {F(WAIST_BUTTON_RISE), 40},
      {F(BREAK_RISE), 30},
      {F(GORGE_DEPTH), 85}},
     TAILOR_FRONT_UNSOLVED,
     F(BUTTON_SPACING)},
    {{{F(CHEST_GIRTH), 1000}, {F(COLLAR_FALL), 58}, {F(COLLAR_STAND), 20}, {F(CLOTH_THICKNESS), 3}},
     TAILOR_COLLAR_UNSOLVED,
     F(COLLAR_FALL)},
};

static void orders_on_which_no_coat_closes(void **state)
{
    (void)state;
    static struct made m;
    for (size_t i = 0; i < sizeof unsolved / sizeof *unsolved; i++) {
        make(&m, unsolved[i].order);
        if (m.status != unsolved[i].status)
            fail_msg("order %zu: %s, not %s: %s", i, tailor_status_name(m.status),
                     tailor_status_name(unsolved[i].status), m.fault.sentence);
        assert_null(m.coat);
        assert_int_equal(m.fault.table, TAILOR_TABLE_FIELD);
        assert_int_equal(m.fault.index, unsolved[i].field);
        assert_close(m.fault.value, m.row[unsolved[i].field], 0);
        const char *name = tailor_table_text(tailor_field_table(), unsolved[i].field, TAILOR_COLUMN_NAME);
        assert_int_equal(strncmp(m.fault.sentence, name, strlen(name)), 0);
        /* what resolving gave passes the predicate: it is the draft that refuses */
        assert_int_equal(tailor_order_validate(m.row, TAILOR_FIELD_COUNT, m.constants, TAILOR_CONSTANT_COUNT, NULL),
                         TAILOR_OK);
    }
}

int test_errors(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_given),     cmocka_unit_test(an_unresolved_row),
        cmocka_unit_test(each_field_spoilt), cmocka_unit_test(each_constant_spoilt),
        cmocka_unit_test(a_contradiction),   cmocka_unit_test(orders_on_which_no_coat_closes),
    };
    return cmocka_run_group_tests_name("errors of drafting", tests, set_up, tear_down);
}

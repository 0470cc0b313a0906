/* What measuring refuses and what it still tells: NULLs, rows that were not resolved, a pattern that is no coat, a coat
 * of another order; and how a check is judged. */
#include "../../lib/pattern/build.h" /* to build a pattern that is no coat */
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name
#define C(name) TAILOR_CHECK_##name

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

#define UNTOUCHED (-123.0)

/** Measure with these rows: refused with this status and nothing written. */
static tailor_fault refused(const tailor_pattern *coat, const double *fields, const double *constants, int status)
{
    double q[TAILOR_QUANTITY_COUNT], value[TAILOR_CHECK_COUNT], limit[TAILOR_CHECK_COUNT];
    tailor_fault fault;
    memset(&fault, 0x5a, sizeof fault);
    for (int i = 0; i < TAILOR_QUANTITY_COUNT; i++)
        q[i] = UNTOUCHED;
    for (int i = 0; i < TAILOR_CHECK_COUNT; i++)
        value[i] = limit[i] = UNTOUCHED;
    const tailor_status got = tailor_coat_measure(coat, fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, q,
                                                  TAILOR_QUANTITY_COUNT, value, limit, TAILOR_CHECK_COUNT, &fault);
    if (got != status)
        fail_msg("%s, not %s", tailor_status_name(got), tailor_status_name(status));
    assert_int_equal(fault.status, status);
    assert_true(strlen(fault.sentence) > 8);
    for (int i = 0; i < TAILOR_QUANTITY_COUNT; i++)
        assert_close(q[i], UNTOUCHED, 0);
    for (int i = 0; i < TAILOR_CHECK_COUNT; i++) {
        assert_close(value[i], UNTOUCHED, 0);
        assert_close(limit[i], UNTOUCHED, 0);
    }
    assert_int_equal(tailor_coat_measure(coat, fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, q,
                                         TAILOR_QUANTITY_COUNT, value, limit, TAILOR_CHECK_COUNT, NULL),
                     status);
    return fault;
}

static tailor_status measure(double *q, size_t q_count, double *value, double *limit, size_t check_count)
{
    return tailor_coat_measure(good.coat, good.row, TAILOR_FIELD_COUNT, good.constants, TAILOR_CONSTANT_COUNT, q,
                               q_count, value, limit, check_count, NULL);
}

static void nulls(void **state)
{
    (void)state;
    double q[TAILOR_QUANTITY_COUNT], value[TAILOR_CHECK_COUNT], limit[TAILOR_CHECK_COUNT];
    refused(NULL, good.row, good.constants, TAILOR_BAD_ARGUMENT);
    refused(good.coat, NULL, good.constants, TAILOR_BAD_ARGUMENT);
    refused(good.coat, good.row, NULL, TAILOR_BAD_ARGUMENT);
    assert_int_equal(measure(NULL, 5, NULL, NULL, 0), TAILOR_BAD_ARGUMENT);
    assert_int_equal(measure(NULL, 0, NULL, limit, 5), TAILOR_BAD_ARGUMENT);
    assert_int_equal(measure(NULL, 0, value, NULL, 5), TAILOR_BAD_ARGUMENT);
    assert_int_equal(measure(NULL, 0, NULL, NULL, 0), TAILOR_OK); /* only asking whether the checks hold */
    assert_int_equal(measure(q, TAILOR_QUANTITY_COUNT, NULL, NULL, 0), TAILOR_OK);
    assert_memory_equal(q, good.q, sizeof q);
    assert_int_equal(measure(NULL, 0, value, limit, TAILOR_CHECK_COUNT), TAILOR_OK);
    assert_memory_equal(value, good.value, sizeof value);
}

static void rows_that_were_not_resolved(void **state)
{
    (void)state;
    double row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    refused(good.coat, good.client, good.constants, TAILOR_MISSING);
    memcpy(row, good.row, sizeof row);
    row[F(LAPEL_WIDTH)] = 1000;
    tailor_fault fault = refused(good.coat, row, good.constants, TAILOR_OUT_OF_RANGE);
    assert_int_equal(fault.index, F(LAPEL_WIDTH));
    memcpy(constants, good.constants, sizeof constants);
    constants[TAILOR_CONSTANT_HANG] = NAN;
    fault = refused(good.coat, good.row, constants, TAILOR_MISSING);
    assert_int_equal(fault.table, TAILOR_TABLE_CONSTANT);
    row[F(LAPEL_WIDTH)] = good.row[F(LAPEL_WIDTH)];
    row[0] = 1;
    refused(good.coat, row, good.constants, TAILOR_UNKNOWN_FIELD);
}

/** Patterns that are no coats: nothing, one piece, a coat that lacks a piece, pieces without their edges. */
static void a_pattern_that_is_no_coat(void **state)
{
    (void)state;
    static const int capacity[TAILOR_IN_ARRAYS] = {8, 8, 8, 8, 8, 32};
    const tailor_allocator memory = tailor_in_allocator(NULL);
    for (int pieces = 0; pieces <= TAILOR_PIECE_UNDER_COLLAR; pieces++) {
        void *block = memory.allocate(memory.user, tailor_in_pattern_bytes(capacity));
        assert_non_null(block);
        tailor_pattern *p = tailor_in_pattern_begin(block, capacity, memory);
        for (int piece = 1; piece <= pieces; piece++) {
            const tailor_point corner[3] = {{0, 0}, {100, 0}, {0, 100}};
            tailor_in_add_piece(p, piece, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
            tailor_cubic path[3];
            for (int i = 0; i < 3; i++)
                path[i] = tailor_cubic_line(corner[i], corner[(i + 1) % 3]);
            tailor_in_add_edge(p, TAILOR_EDGE_HEM, path, 3);
        }
        assert_int_equal(tailor_in_pattern_end(p), TAILOR_OK);
        refused(p, good.row, good.constants, TAILOR_BAD_ARGUMENT);
        tailor_pattern_free(p);
    }
}

/** A coat measured against another man's order: it is measured, and the checks say what does not agree. */
static void a_coat_of_another_order(void **state)
{
    (void)state;
    static const struct {
        int field;
        double value;
        int check;
    } others[] = {
        {F(CHEST_GIRTH), 1050, C(HALF_GIRTH_SCYE_ERROR)},   {F(WAIST_GIRTH), 850, C(HALF_GIRTH_WAIST_ERROR)},
        {F(SEAT_GIRTH), 1040, C(HALF_GIRTH_SEAT_ERROR)},    {F(CHEST_EASE), 118, C(HALF_GIRTH_SCYE_ERROR)},
        {F(BACK_WIDTH), 400, C(CROSS_BACK_ERROR)},          {F(CROSS_CHEST), 400, C(CROSS_CHEST_ERROR)},
        {F(CROWN_FULLNESS), 44, C(FULLNESS_ERROR)},         {F(LAPEL_WIDTH), 92, C(LAPEL_WIDTH_ERROR)},
        {F(GORGE_SLOPE), 30, C(GORGE_SLOPE_ERROR)},         {F(UPPER_ARM_GIRTH), 400, C(ARM_EASE_LEAST)},
        {F(CLOTH_THICKNESS), 1.3, C(LEAF_CONDITION_ERROR)},
    };
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        static struct made m;
        must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {others[i].field, others[i].value}));
        tailor_pattern *own = m.coat;
        m.coat = good.coat;
        assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
        assert_int_equal(m.fault.status, TAILOR_CHECK_FAILED);
        assert_int_equal(m.fault.table, TAILOR_TABLE_CHECK);
        assert_int_equal(tailor_check_passes(m.fault.index, m.value[m.fault.index], m.limit[m.fault.index]), 0);
        assert_close(m.fault.value, m.value[m.fault.index], 0);
        assert_int_equal(tailor_check_passes(others[i].check, m.value[others[i].check], m.limit[others[i].check]), 0);
        for (int check = 1; check < m.fault.index; check++) /* the fault tells the first in the order of the table */
            assert_int_not_equal(tailor_check_passes(check, m.value[check], m.limit[check]), 0);
        assert_close(m.q[TAILOR_QUANTITY_HALF_GIRTH_SCYE], good.q[TAILOR_QUANTITY_HALF_GIRTH_SCYE],
                     0); /* written nonetheless */
        m.coat = own;
        unmake(&m);
    }
}

static void how_a_check_is_judged(void **state)
{
    (void)state;
    static const int none[] = {0, -1, TAILOR_CHECK_COUNT, 100000, -100000};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        assert_int_equal(tailor_check_sense(none[i]), 0);
        assert_int_equal(tailor_check_passes(none[i], 1, 2), -1);
    }
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
        if (!isnan(sense > 0 ? high : low))
            assert_close(good.limit[check], sense > 0 ? high : low, 0);
        assert_true(isfinite(good.limit[check]) || isnan(good.value[check]));
    }
    assert_true(most > 20 && least > 8);
}

int test_errors(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nulls),
        cmocka_unit_test(rows_that_were_not_resolved),
        cmocka_unit_test(a_pattern_that_is_no_coat),
        cmocka_unit_test(a_coat_of_another_order),
        cmocka_unit_test(how_a_check_is_judged),
    };
    return cmocka_run_group_tests_name("errors of measuring", tests, set_up, tear_down);
}

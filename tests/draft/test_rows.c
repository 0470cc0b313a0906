/* Arrays of any length: a caller built against an earlier or a later version has shorter or longer ones, and gets the
 * same coat. */
#include "draft/same.h"

enum { LONGER = TAILOR_FIELD_COUNT + TAILOR_CONSTANT_COUNT + 40 };

/** Rows of a program built against an earlier version are shorter: what came since takes its default. */
static void shorter_rows(void **state)
{
    (void)state;
    static struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1770})); /* all else by the rules */
    for (size_t n = TAILOR_FIELD_CHEST_GIRTH + 1; n <= TAILOR_FIELD_COUNT; n++) {
        tailor_pattern *coat = NULL;
        double q[TAILOR_QUANTITY_COUNT];
        assert_int_equal(tailor_coat_draft(m.row, n, m.constants, TAILOR_CONSTANT_COUNT, NULL, &coat, NULL), TAILOR_OK);
        same_pattern(coat, m.coat);
        assert_int_equal(tailor_coat_measure(coat, m.row, n, m.constants, TAILOR_CONSTANT_COUNT, q,
                                             TAILOR_QUANTITY_COUNT, NULL, NULL, 0, NULL),
                         TAILOR_OK);
        assert_memory_equal(q, m.q, sizeof q);
        tailor_pattern_free(coat);
    }
    for (size_t n = 0; n <= TAILOR_CONSTANT_COUNT; n++) {
        tailor_pattern *coat = NULL;
        assert_int_equal(tailor_coat_draft(m.row, TAILOR_FIELD_COUNT, n ? m.constants : NULL, n, NULL, &coat, NULL),
                         TAILOR_OK);
        same_pattern(coat, m.coat);
        tailor_pattern_free(coat);
    }
    unmake(&m);
}

/** Rows of a program built against a later version are longer: fine as long as nothing is given there. */
static void longer_rows(void **state)
{
    (void)state;
    static struct made m;
    double fields[LONGER], constants[LONGER], q[LONGER], value[LONGER], limit[LONGER];
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}));
    tailor_fields_clear(fields, LONGER);
    tailor_fields_clear(constants, LONGER);
    memcpy(fields, m.row, sizeof m.row);
    memcpy(constants, m.constants, sizeof m.constants);
    tailor_pattern *coat = NULL;
    assert_int_equal(tailor_coat_draft(fields, LONGER, constants, LONGER, NULL, &coat, NULL), TAILOR_OK);
    same_pattern(coat, m.coat);
    memset(q, 0, sizeof q);
    memset(value, 0, sizeof value);
    memset(limit, 0, sizeof limit);
    assert_int_equal(
        tailor_coat_measure(coat, fields, LONGER, constants, LONGER, q, LONGER, value, limit, LONGER, NULL), TAILOR_OK);
    assert_memory_equal(q, m.q, sizeof m.q);
    assert_memory_equal(value, m.value, sizeof m.value);
    assert_memory_equal(limit, m.limit, sizeof m.limit);
    for (size_t i = 0; i < LONGER; i++) {
        assert_true(i < TAILOR_QUANTITY_COUNT || isnan(q[i]));
        assert_true(i < TAILOR_CHECK_COUNT || (isnan(value[i]) && isnan(limit[i])));
    }
    assert_true(isnan(q[0]));
    tailor_pattern_free(coat);

    static const int past[] = {0, 1, 20};
    for (size_t i = 0; i < 3; i++) { /* something given where the library knows nothing */
        tailor_fault fault = {0};
        tailor_pattern *none = NULL;
        fields[TAILOR_FIELD_COUNT + past[i]] = 1;
        assert_int_equal(tailor_coat_draft(fields, LONGER, constants, LONGER, NULL, &none, &fault),
                         TAILOR_UNKNOWN_FIELD);
        assert_int_equal(fault.index, TAILOR_FIELD_COUNT + past[i]);
        assert_int_equal(tailor_coat_measure(m.coat, fields, LONGER, constants, LONGER, NULL, 0, NULL, NULL, 0, NULL),
                         TAILOR_UNKNOWN_FIELD);
        fields[TAILOR_FIELD_COUNT + past[i]] = NAN;
        constants[TAILOR_CONSTANT_COUNT + past[i]] = 1;
        assert_int_equal(tailor_coat_draft(fields, LONGER, constants, LONGER, NULL, &none, &fault),
                         TAILOR_UNKNOWN_FIELD);
        constants[TAILOR_CONSTANT_COUNT + past[i]] = NAN;
        assert_null(none);
    }
    unmake(&m);
}

/** Outputs of any length: the first entries are written, not one more. */
static void outputs_of_any_length(void **state)
{
    (void)state;
    static struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}));
    for (size_t n = 0; n <= TAILOR_CHECK_COUNT; n++) {
        double q[TAILOR_CHECK_COUNT + 1], value[TAILOR_CHECK_COUNT + 1], limit[TAILOR_CHECK_COUNT + 1];
        q[n] = value[n] = limit[n] = -7;
        assert_int_equal(tailor_coat_measure(m.coat, m.row, TAILOR_FIELD_COUNT, m.constants, TAILOR_CONSTANT_COUNT,
                                             n ? q : NULL, n, n ? value : NULL, n ? limit : NULL, n, NULL),
                         TAILOR_OK);
        assert_memory_equal(q, m.q, (n < TAILOR_QUANTITY_COUNT ? n : TAILOR_QUANTITY_COUNT) * sizeof *q);
        assert_memory_equal(value, m.value, n * sizeof *value);
        assert_memory_equal(limit, m.limit, n * sizeof *limit);
        assert_true(q[n] < -6 && value[n] < -6 && limit[n] < -6);
    }
    unmake(&m);
}

int test_rows(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shorter_rows),
        cmocka_unit_test(longer_rows),
        cmocka_unit_test(outputs_of_any_length),
    };
    return cmocka_run_group_tests_name("rows", tests, NULL, NULL);
}

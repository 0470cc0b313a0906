/* Numbers as the shortest decimal that reads back. tests/base/test_number_repr.py compares with Python's repr. */
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/base.h>
#include "base/near.h"

static void as_written(void **state)
{
    static const struct {
        double value;
        const char *text;
    } all[] = {
        {0, "0"},
        {-0.0, "-0"},
        {1, "1"},
        {-0.5, "-0.5"},
        {1025.5, "1025.5"},
        {0.1, "0.1"},
        {1.0 / 3, "0.3333333333333333"},
        {0.00001, "0.00001"},
        {0.000015, "0.000015"},
        {0.0000099, "9.9e-06"},
        {1e-7, "1e-07"},
        {100000, "100000"},
        {123456789012345, "123456789012345"},
        {1e15, "1e+15"},
        {1234567890123456, "1234567890123456"},
        {1e22, "1e+22"},
        {1e23, "1e+23"},
        {1.5e300, "1.5e+300"},
        {9007199254740993.0, "9007199254740992"},
        {5e-324, "5e-324"},
        {2.2250738585072014e-308, "2.2250738585072014e-308"},
        {1.7976931348623157e308, "1.7976931348623157e+308"},
        {5.684341886080802e-14, "5.684341886080802e-14"}, /* a power of two: the double below is nearer */
    };
    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        char text[32];
        size_t needed;
        assert_int_equal(tailor_number_write(all[i].value, text, sizeof text, &needed), TAILOR_OK);
        assert_string_equal(text, all[i].text);
        assert_int_equal(needed, strlen(text));
    }
}

/** Any bits at all, and every power of two with its neighbours. */
static void reads_back(void **state)
{
    uint64_t seed = 47;
    (void)state;
    for (int i = 0; i < 200000; i++) {
        double value = 0;
        uint64_t bits = (uint64_t)(next_random(&seed) * 0x1p32) << 32 | (uint64_t)(next_random(&seed) * 0x1p32);
        if (i < 3 * 2046)
            bits = (((uint64_t)i / 3 + 1) << 52) + (uint64_t)(i % 3) - 1;
        memcpy(&value, &bits, sizeof value);
        char text[32];
        tailor_status status = tailor_number_write(value, text, sizeof text, NULL);
        assert_int_equal(status, isfinite(value) ? TAILOR_OK : TAILOR_NOT_FINITE);
        if (status == TAILOR_OK && strtod(text, NULL) != value)
            fail_msg("%.17g is written as %s", value, text);
    }
}

static void room(void **state)
{
    char text[8] = "#######";
    size_t needed = 0;
    (void)state;
    assert_int_equal(tailor_number_write(1025.5, NULL, 0, &needed), TAILOR_OK);
    assert_int_equal(needed, 6);
    assert_int_equal(tailor_number_write(1025.5, text, 6, &needed), TAILOR_TOO_SMALL);
    assert_string_equal(text, "#######");
    assert_int_equal(tailor_number_write(1025.5, text, 7, NULL), TAILOR_OK);
    assert_string_equal(text, "1025.5");
    assert_int_equal(tailor_number_write(1025.5, NULL, 0, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_number_write(1025.5, NULL, 8, &needed), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_number_write(NAN, text, 7, NULL), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_number_write(-INFINITY, text, 7, NULL), TAILOR_NOT_FINITE);
}

int test_number(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_written),
        cmocka_unit_test(reads_back),
        cmocka_unit_test(room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

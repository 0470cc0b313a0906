/* Faults: layout, sentences, cutting; and the numbers in sentences. */
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "../../lib/base/fault.h"
#include "../../lib/base/text.h"
#include "near.h"

static void layout_is_fixed(void **state)
{
    (void)state;
    assert_int_equal(sizeof(tailor_fault), 256);
    assert_int_equal(offsetof(tailor_fault, status), 0);
    assert_int_equal(offsetof(tailor_fault, table), 4);
    assert_int_equal(offsetof(tailor_fault, index), 8);
    assert_int_equal(offsetof(tailor_fault, place), 12);
    assert_int_equal(offsetof(tailor_fault, value), 16);
    assert_int_equal(offsetof(tailor_fault, low), 24);
    assert_int_equal(offsetof(tailor_fault, high), 32);
    assert_int_equal(offsetof(tailor_fault, sentence), 40);
}

static void sentence_is_filled_in(void **state)
{
    tailor_fault fault;
    (void)state;
    assert_int_equal(tailor_in_fault(&fault, TAILOR_OUT_OF_RANGE, tailor_field_table(), TAILOR_FIELD_CROOK, 66.5, -10.0,
                                     50.0, "%n %v%u lies outside %l to %h%u: 100 %%"),
                     TAILOR_OUT_OF_RANGE);
    assert_string_equal(fault.sentence, "crook 66.5 mm lies outside -10 to 50 mm: 100 %");
    assert_int_equal(fault.status, TAILOR_OUT_OF_RANGE);
    assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
    assert_int_equal(fault.index, TAILOR_FIELD_CROOK);
    assert_int_equal(fault.place, 0);
    assert_true(fault.value == 66.5 && fault.low == -10.0 && fault.high == 50.0);
    tailor_in_fault_say(&fault, "; or ");
    tailor_in_fault_say_number(&fault, 0.25, "deg");
    tailor_in_fault_say_number(&fault, 3.0, "choice");
    assert_string_equal(fault.sentence, "crook 66.5 mm lies outside -10 to 50 mm: 100 %; or 0.25 deg3");

    tailor_in_fault(&fault, TAILOR_NOT_A_CHOICE, tailor_field_table(), TAILOR_FIELD_LAPEL, 3.0, 1.0, 2.0,
                    "%n %v%u no%");
    assert_string_equal(fault.sentence, "lapel 3 no");
}

static void without_a_table(void **state)
{
    tailor_fault fault;
    (void)state;
    assert_int_equal(tailor_in_fault_plain(&fault, TAILOR_NO_MEMORY, "no room"), TAILOR_NO_MEMORY);
    assert_int_equal(fault.table, TAILOR_TABLE_NONE);
    assert_int_equal(fault.index, 0);
    assert_true(isnan(fault.value) && isnan(fault.low) && isnan(fault.high));
    assert_string_equal(fault.sentence, "no room");
    assert_int_equal(tailor_in_fault_plain(NULL, TAILOR_INTERNAL, "x"), TAILOR_INTERNAL);
    tailor_in_fault_say(NULL, "x");
    tailor_in_fault_say_number(NULL, 1.0, "mm");
}

static void long_sentences_are_cut_between_characters(void **state)
{
    tailor_fault fault;
    (void)state;
    for (int shift = 0; shift < 4; shift++) {
        size_t length;
        tailor_in_fault_plain(&fault, TAILOR_INTERNAL, &"abc"[3 - shift]);
        for (int i = 0; i < 200; i++)
            tailor_in_fault_say(&fault, "\xE2\x80\xB3"); /* three bytes each */
        length = strlen(fault.sentence);
        assert_true(length <= 215 && length > 212);
        assert_int_equal((length - (size_t)shift) % 3, 0);
        tailor_in_fault_say(&fault, "");
        assert_int_equal(strlen(fault.sentence), length);
    }
}

static void assert_number(double number, int decimals, const char *expected)
{
    char buffer[64];
    tailor_in_text text = tailor_in_text_begin(buffer, sizeof buffer);
    tailor_in_text_add_number(&text, number, decimals);
    assert_string_equal(buffer, expected);
    assert_int_equal(text.length, strlen(expected));
}

static void numbers_read_well(void **state)
{
    (void)state;
    assert_number(1016.0, 3, "1016");
    assert_number(20.32, 3, "20.32");
    assert_number(-0.5, 3, "-0.5");
    assert_number(0.0, 3, "0");
    assert_number(-0.0, 3, "0");
    assert_number(1.005, 1, "1");
    assert_number(9.9996, 3, "10");
    assert_number(0.07, 3, "0.07");
    assert_number(100.0, 0, "100");
    assert_number(2e9, 3, "2e9");
    assert_number(-4e300, 3, "-4e300");
    assert_number(1.7976931348623157e308, 3, "1.798e308");
    assert_number(4.94065645841246544e-324, 3, "4.941e-324");
    assert_number(9.9999e12, 3, "1e13");
    assert_number(0.0001, 3, "1e-4");
    assert_number(INFINITY, 3, "inf");
    assert_number(-INFINITY, 3, "-inf");
    assert_number(NAN, 3, "nan");
}

static void numbers_are_near_what_they_say(void **state)
{
    uint64_t seed = 88172645463325252u;
    char buffer[64];
    (void)state;
    for (int i = 0; i < 20000; i++) {
        double scale = pow(10.0, 12.0 * next_random(&seed) - 3.0), number = scale * (2.0 * next_random(&seed) - 1.0);
        int decimals = i % 7;
        tailor_in_text text = tailor_in_text_begin(buffer, sizeof buffer);
        tailor_in_text_add_number(&text, number, decimals);
        double within = strchr(buffer, 'e') ? 5.1e-4 * fabs(number)
                                            : 0.5000001 * pow(10.0, -decimals) + 1e-15 * fabs(number);
        assert_near(strtod(buffer, NULL), number, within);
        assert_true(!strchr(buffer, '.') || strchr(buffer, 'e') || buffer[text.length - 1] != '0');
    }
}

static void texts_are_cut_and_counted(void **state)
{
    char buffer[8] = "#######";
    tailor_in_text text = tailor_in_text_begin(buffer, 5);
    (void)state;
    tailor_in_text_add_whole(&text, -12);
    assert_string_equal(buffer, "-12");
    tailor_in_text_add(&text, "xyz");
    tailor_in_text_add(&text, "a");
    assert_string_equal(buffer, "-12x");
    assert_int_equal(text.length, 7);
    assert_int_equal(buffer[5], '#');
    text = tailor_in_text_begin(NULL, 0);
    tailor_in_text_add_whole(&text, INT64_MIN);
    assert_int_equal(text.length, 20);
}

int test_fault(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(layout_is_fixed),
        cmocka_unit_test(sentence_is_filled_in),
        cmocka_unit_test(without_a_table),
        cmocka_unit_test(long_sentences_are_cut_between_characters),
        cmocka_unit_test(numbers_read_well),
        cmocka_unit_test(numbers_are_near_what_they_say),
        cmocka_unit_test(texts_are_cut_and_counted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

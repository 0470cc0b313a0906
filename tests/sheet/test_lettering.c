/* Text on sheets: what is let in, how wide it is, numbers without a locale. Expected texts are written out by hand. */
#include "../base/near.h"
#include "../../lib/sheet/layout/lettering.h"

#include <stdlib.h>
#include <string.h>
#include <tailorgeom/order.h>

static const struct {
    const char *given, *clean;
} texts[] = {
    {"", ""},
    {"Order 12", "Order 12"},
    {"Stra\xC3\x9F"
     "e",
     "Stra\xC3\x9F"
     "e"},
    {"\xF0\x9F\xA7\xB5 thread", "\xF0\x9F\xA7\xB5 thread"}, /* four bytes, U+1F9F5 */
    {"a\x01z\x7F", "a\xEF\xBF\xBDz\xEF\xBF\xBD"},           /* controls */
    {"a\nb\tc", "a\xEF\xBF\xBD"
                "b\xEF\xBF\xBD"
                "c"},
    {"\xC2\x85", "\xEF\xBF\xBD"}, /* a control of two bytes */
    {"\x80", "\xEF\xBF\xBD"},     /* a tail without its head */
    {"\xC3", "\xEF\xBF\xBD"},     /* a head without its tail */
    {"\xC3(", "\xEF\xBF\xBD("},
    {"\xE2\x82z", "\xEF\xBF\xBDz"},
    {"\xC0\xAF", "\xEF\xBF\xBD"},         /* longer than it need be */
    {"\xED\xA0\x80", "\xEF\xBF\xBD"},     /* a surrogate */
    {"\xEF\xBF\xBE", "\xEF\xBF\xBD"},     /* a non-character */
    {"\xF4\x90\x80\x80", "\xEF\xBF\xBD"}, /* past the last character */
    {"\xFF\xFE", "\xEF\xBF\xBD\xEF\xBF\xBD"},
};

static void only_clean_text_comes_in(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        char clean[64];
        memset(clean, 'x', sizeof clean);
        assert_int_equal(tailor_in_text_clean(texts[i].given, NULL), strlen(texts[i].clean));
        assert_int_equal(tailor_in_text_clean(texts[i].given, clean), strlen(texts[i].clean));
        assert_string_equal(clean, texts[i].clean);
    }
    assert_int_equal(tailor_in_text_clean(NULL, NULL), 0);
}

static void any_bytes_become_clean_and_stay_so(void **state)
{
    uint64_t seed = 88172645463325252u;
    (void)state;
    for (int i = 0; i < 20000; i++) {
        char given[16], clean[64], again[64];
        const int bytes = (int)(next_random(&seed) * 12);
        for (int k = 0; k < bytes; k++)
            given[k] = (char)(unsigned char)(1 + next_random(&seed) * 255);
        given[bytes] = 0;
        const size_t n = tailor_in_text_clean(given, clean);
        assert_true(n <= 3 * (size_t)bytes);
        assert_int_equal(tailor_in_text_clean(clean, again), n);
        assert_string_equal(again, clean);
    }
}

static const struct {
    double value;
    int decimals;
    const char *text;
} numbers[] = {
    {0, 3, "0"},
    {-0.0, 3, "0"},
    {1, 3, "1"},
    {-1, 0, "-1"},
    {612.44, 1, "612.4"},
    {0.0004, 3, "0"},
    {-0.0004, 3, "0"},
    {0.0006, 3, "0.001"},
    {-0.25, 3, "-0.25"},
    {99.9996, 3, "100"},
    {10.05, 3, "10.05"},
    {1234567.5, 6, "1234567.5"},
    {100, 3, "100"},
    {2.5, 0, "3"},
    {-17.125, 3, "-17.125"},
    {NAN, 3, "0"},
    {INFINITY, 3, "0"},
    {1e300, 3, "0"},
    {999999999.0, 6, "999999999"},
};

static void numbers_have_a_point_and_no_needless_zeros(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        char text[32];
        assert_int_equal(tailor_in_number_write(text, numbers[i].value, numbers[i].decimals), strlen(numbers[i].text));
        assert_string_equal(text, numbers[i].text);
    }
}

static void numbers_keep_their_value(void **state)
{
    uint64_t seed = 42;
    (void)state;
    for (int i = 0; i < 20000; i++) {
        char text[32];
        const double value = (next_random(&seed) - 0.5) * 20000;
        tailor_in_number_write(text, value, 3);
        assert_near(strtod(text, NULL), value, 0.0005000001);
    }
}

static void words_come_from_names(void **state)
{
    char words[12];
    (void)state;
    tailor_in_words("notch_waist_back", "notch_", words, sizeof words);
    assert_string_equal(words, "waist back");
    tailor_in_words("hip_pocket", "notch_", words, sizeof words);
    assert_string_equal(words, "hip pocket");
    tailor_in_words("longer_than_the_room", "", words, sizeof words);
    assert_string_equal(words, "longer than");
}

static void lengths_say_their_unit(void **state)
{
    char text[48];
    (void)state;
    tailor_in_length_words(612.44, TAILOR_PRINT_MM, text);
    assert_string_equal(text, "612.4 mm");
    tailor_in_length_words(25.4 * 7.375, TAILOR_PRINT_INCH_8, text);
    assert_string_equal(text, "7 3/8 in");
    tailor_in_length_words(25.4 * 7.4375, TAILOR_PRINT_INCH_16, text);
    assert_string_equal(text, "7 7/16 in");
    tailor_in_length_words(NAN, TAILOR_PRINT_MM, text);
    assert_string_equal(text, "");
}

/* Widths of a few words in DejaVu Sans 2.37, summed from its table of advances (hmtx) by hand: o 0.612, H 0.752. */
static void widths_are_those_of_the_font(void **state)
{
    (void)state;
    assert_near(tailor_in_text_width("ooo", 10, 0), 18.36, 0.01);
    assert_near(tailor_in_text_width("H", 1000, 0), 752, 0.5);
    assert_true(tailor_in_text_width("hem", 6, 1) > tailor_in_text_width("hem", 6, 0));
    assert_near(tailor_in_text_width("", 6, 0), 0, 0);
}

static void long_texts_are_cut_to_fit(void **state)
{
    char fitted[64];
    (void)state;
    tailor_in_text_fit("short", 10, 0, 100, fitted, sizeof fitted);
    assert_string_equal(fitted, "short");
    for (int width = 20; width < 300; width++) {
        tailor_in_text_fit("A coat for Mr \xC3\x96zg\xC3\xBCr Nightingale-Thistlethwaite, order 1204", 10, 1, width,
                           fitted, sizeof fitted);
        assert_true(tailor_in_text_width(fitted, 10, 1) <= width);
        assert_string_equal(fitted + strlen(fitted) - 3, "\xE2\x80\xA6");
        char clean[64];
        tailor_in_text_clean(fitted, clean); /* never cut within a character */
        assert_string_equal(clean, fitted);
    }
    for (size_t room = 8; room < 60; room++) { /* never past the room, nor when broken bytes grow */
        memset(fitted, '#', sizeof fitted);
        tailor_in_text_fit("\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF\xFF", 1, 0,
                           1000, fitted, room);
        assert_true(strlen(fitted) < room);
        assert_int_equal(fitted[room], '#');
    }
}

int test_lettering(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_clean_text_comes_in),
        cmocka_unit_test(any_bytes_become_clean_and_stay_so),
        cmocka_unit_test(numbers_have_a_point_and_no_needless_zeros),
        cmocka_unit_test(numbers_keep_their_value),
        cmocka_unit_test(words_come_from_names),
        cmocka_unit_test(lengths_say_their_unit),
        cmocka_unit_test(widths_are_those_of_the_font),
        cmocka_unit_test(long_texts_are_cut_to_fit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

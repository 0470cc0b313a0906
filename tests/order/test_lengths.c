/* Lengths as people type and read them. */
#define _POSIX_C_SOURCE 200809L /* mkdtemp, setenv */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "base/near.h"

static void read_well(void **state)
{
    static const struct { const char *text; double mm; } cases[] = {
        {"1025", 1025.0}, {"1025 mm", 1025.0}, {"1025mm", 1025.0}, {"  1025\tmm ", 1025.0}, {"102.5 cm", 1025.0},
        {"102.5cm", 1025.0}, {"102.5 CM", 1025.0}, {"40 in", 1016.0}, {"40 3/8 in", 1025.525}, {"40 3/8\"", 1025.525},
        {"40 3/8 \"", 1025.525}, {"40  3/8in", 1025.525}, {"40\"", 1016.0}, {"40.375 in", 1025.525},
        {"40 3/8\xE2\x80\xB3", 1025.525}, {"40 3/8\xE2\x80\x9D", 1025.525}, {"40 3/8 \xE2\x80\x9C", 1025.525},
        {"3/8 in", 9.525}, {"-1/2 in", -12.7}, {"-10", -10.0}, {"+3.5 mm", 3.5}, {"0", 0.0}, {"-0", 0.0},
        {"0.0 in", 0.0},
        {"007", 7.0}, {"20.32", 20.32}, {"0.1", 0.1}, {"1016.0000000000001", 1016.0000000000001},
        {"0.12345678901234567", 0.12345678901234567}, {"12345678901234567", 12345678901234567.0},
        {"99999999999999999 in", 99999999999999999.0 * 25.4}, {"0.050000000000000003", 0.05},
        {"0.000000000000000001 in", 25.4e-18},
        {"1/3 in", 25.4 / 3.0}, {"40 1/2 cm", 405.0},
        {"999999999 9998/9999 in", 25399999999.99746}, {"000000000000000000000001", 1.0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double mm = NAN;
        tailor_fault fault = {0};
        tailor_status status = tailor_length_read(cases[i].text, &mm, &fault);
        if (status != TAILOR_OK || mm != cases[i].mm)
            print_error("%s: %s, %.17g\n", cases[i].text, fault.sentence, mm);
        assert_int_equal(status, TAILOR_OK);
        assert_true(mm == cases[i].mm && !(mm == 0.0 && signbit(mm)));
        assert_int_equal(fault.status, 0);
        assert_int_equal(tailor_length_read(cases[i].text, &mm, NULL), TAILOR_OK);
    }
}

static void refused_with_the_mend(void **state)
{
#define NOT_LENGTH "this is not a length: write it like 102.5 cm, 1025 mm or 40 3/8 in"
#define UNIT "after the number stands no unit of length: write it like 102.5 cm, 1025 mm or 40 3/8 in"
#define OVER "something is left over after the unit: write it like 102.5 cm, 1025 mm or 40 3/8 in"
#define COMMA "a comma is not read: write a decimal point, as in 102.5 cm"
#define POINT "a decimal point needs a digit on either side: write 0.5, not .5 or 5."
#define FRACTION "after a whole number comes a fraction less than one, as in 40 3/8 in"
#define BARE "a fraction needs its unit, as in 40 3/8 in"
#define DIGITS "the number has too many digits: 17 at most are read"
    static const struct { const char *text, *sentence; } cases[] = {
        {"", NOT_LENGTH}, {" ", NOT_LENGTH}, {"nan", NOT_LENGTH}, {"NaN", NOT_LENGTH}, {"inf", NOT_LENGTH},
        {"-", NOT_LENGTH}, {"--5", NOT_LENGTH}, {"- 5", NOT_LENGTH}, {"mm", NOT_LENGTH}, {"\"", NOT_LENGTH},
        {"/8 in", NOT_LENGTH}, {"abc", NOT_LENGTH}, {".", NOT_LENGTH}, {"\xE2\x88\x92" "5", NOT_LENGTH},
        {"102,5 cm", COMMA}, {"1,025", COMMA}, {",5", COMMA}, {"1.025,5", COMMA}, {"102,", COMMA},
        {".5", POINT}, {"5.", POINT}, {"5. mm", POINT},
        {"1e3", UNIT}, {"0x400", UNIT}, {"1016 m", UNIT}, {"40 inch", UNIT}, {"40'", UNIT}, {"40 foo", UNIT},
        {"1.2.3", UNIT}, {"40-3/8 in", UNIT}, {"40 -3/8 in", UNIT}, {"1016 # chest", UNIT}, {"1016 mmm", UNIT},
        {"40 in.", OVER}, {"40 \"\"", OVER}, {"40 in 1016 mm", OVER}, {"1016 mm;", OVER},
        {"40 3/8", BARE}, {"3/8", BARE}, {"40 8/8 in", FRACTION}, {"40 3/0 in", FRACTION}, {"5/4 in", FRACTION},
        {"40 3 in", FRACTION}, {"1016 1017", FRACTION}, {"40 3/ in", FRACTION}, {"40 /8 in", UNIT},
        {"40.5 3/8 in", UNIT}, {"40.5/8 in", FRACTION}, {"40 3/8.5 in", UNIT}, {"40 12345/99999 in", FRACTION},
        {"123456789012345678", DIGITS}, {"1.12345678901234567", DIGITS}, {"0.0000000000000000000000000000001", DIGITS},
        {"1000000000 1/2 in", DIGITS},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double mm = 77.0;
        tailor_fault fault;
        assert_int_equal(tailor_length_read(cases[i].text, &mm, &fault), TAILOR_BAD_LENGTH);
        if (strcmp(fault.sentence, cases[i].sentence) != 0)
            print_error("of \"%s\"\n", cases[i].text);
        assert_string_equal(fault.sentence, cases[i].sentence);
        assert_int_equal(fault.status, TAILOR_BAD_LENGTH);
        assert_true(mm == 77.0);
        assert_int_equal(tailor_length_read(cases[i].text, &mm, NULL), TAILOR_BAD_LENGTH);
    }
}

static void fields_have_their_units(void **state)
{
    static const struct { int field; const char *text; double value; } good[] = {
        {TAILOR_FIELD_CHEST_GIRTH, "40 3/8\"", 1025.525}, {TAILOR_FIELD_CHEST_GIRTH, "40", 40.0},
        {TAILOR_FIELD_SHOULDER_SLOPE, "21", 21.0}, {TAILOR_FIELD_SHOULDER_SLOPE, "21.5 deg", 21.5},
        {TAILOR_FIELD_SHOULDER_SLOPE, "21 1/2\xC2\xB0", 21.5}, {TAILOR_FIELD_CLOTH_WEIGHT, "300 g/m2", 300.0},
        {TAILOR_FIELD_CLOTH_WEIGHT, "300", 300.0}, {TAILOR_FIELD_BUTTONING, "one-button", 1.0},
        {TAILOR_FIELD_BUTTONING, " Roll-By-Cut ", 5.0}, {TAILOR_FIELD_LAPEL, "peak", 2.0},
        {TAILOR_FIELD_FRONT_CUT, "round", 1.0},
    };
    static const struct { int field; const char *text; int status; const char *sentence; } bad[] = {
        {TAILOR_FIELD_CHEST_GIRTH, "102,5", TAILOR_BAD_LENGTH,
         "chest_girth (700 to 1600 mm): a comma is not read: write a decimal point, as in 102.5 cm"},
        {TAILOR_FIELD_SHOULDER_SLOPE, "21 mm", TAILOR_BAD_LENGTH,
         "shoulder_slope (12 to 30 deg): after the number stands another unit"},
        {TAILOR_FIELD_SHOULDER_SLOPE, "21 1/2", TAILOR_BAD_LENGTH,
         "shoulder_slope (12 to 30 deg): a fraction needs its unit"},
        {TAILOR_FIELD_CLOTH_WEIGHT, "heavy", TAILOR_BAD_LENGTH,
         "cloth_weight (180 to 700 g/m2): this is not a number: write digits with at most one decimal point"},
        {TAILOR_FIELD_CLOTH_WEIGHT, "300,5", TAILOR_BAD_LENGTH,
         "cloth_weight (180 to 700 g/m2): a comma is not read: write a decimal point"},
        {TAILOR_FIELD_BUTTONING, "four-button", TAILOR_NOT_A_CHOICE,
         "buttoning takes one of one-button, two-button, three-button, roll-by-make, roll-by-cut, double-four, "
          "double-six"},
        {TAILOR_FIELD_BUTTONING, "2", TAILOR_NOT_A_CHOICE,
         "buttoning takes one of one-button, two-button, three-button, roll-by-make, roll-by-cut, double-four, "
          "double-six"},
        {TAILOR_FIELD_LAPEL, "", TAILOR_NOT_A_CHOICE, "lapel takes one of step, peak, shawl"},
        {TAILOR_FIELD_LAPEL, "ste", TAILOR_NOT_A_CHOICE, "lapel takes one of step, peak, shawl"},
        {TAILOR_FIELD_LAPEL, "step peak", TAILOR_NOT_A_CHOICE, "lapel takes one of step, peak, shawl"},
        {0, "5", TAILOR_UNKNOWN_FIELD, "the table has no row of this number"},
        {-3, "5", TAILOR_UNKNOWN_FIELD, "the table has no row of this number"},
        {TAILOR_FIELD_COUNT, "5", TAILOR_UNKNOWN_FIELD, "the table has no row of this number"},
    };
    const tailor_table *table = tailor_field_table();
    double value;
    tailor_fault fault;
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        assert_int_equal(tailor_value_read(table, good[i].field, good[i].text, &value, &fault), TAILOR_OK);
        assert_true(value == good[i].value);
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        value = 77.0;
        assert_int_equal(tailor_value_read(table, bad[i].field, bad[i].text, &value, &fault), bad[i].status);
        assert_string_equal(fault.sentence, bad[i].sentence);
        assert_int_equal(fault.index, bad[i].field);
        assert_true(value == 77.0);
    }
    assert_int_equal(tailor_value_read(tailor_field_table(), 1, NULL, &value, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_value_read(tailor_field_table(), 1, "5", NULL, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_length_read(NULL, &value, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_length_read("5", NULL, &fault), TAILOR_BAD_ARGUMENT);
}

/* Every choice of every field is read by its name, and every house constant takes its own default. */
static void names_and_constants_are_read(void **state)
{
    double value;
    tailor_fault fault;
    (void)state;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        const tailor_table *choices = tailor_choice_table(i);
        for (int place = 0, number; (number = tailor_table_at(choices, place)) != 0; place++) {
            const char *name = tailor_table_text(choices, number, TAILOR_COLUMN_NAME);
            assert_int_equal(tailor_value_read(tailor_field_table(), i, name, &value, &fault), TAILOR_OK);
            assert_true(value == number);
        }
    }
    for (int place = 0; tailor_table_at(tailor_constant_table(), place) != 0; place++) {
        int number = tailor_table_at(tailor_constant_table(), place);
        const char *rule = tailor_table_text(tailor_constant_table(), number, TAILOR_COLUMN_RULE);
        assert_int_equal(tailor_value_read(tailor_constant_table(), number, rule, &value, &fault), TAILOR_OK);
        assert_true(value == strtod(rule, NULL));
        assert_int_equal(tailor_value_read(tailor_constant_table(), number, "1,5", &value, &fault), TAILOR_BAD_LENGTH);
        assert_int_equal(fault.table, TAILOR_TABLE_CONSTANT);
    }
    assert_int_equal(tailor_value_read(tailor_constant_table(), 0, "1", &value, &fault), TAILOR_UNKNOWN_FIELD);
}

static void written_well(void **state)
{
    static const struct { double mm; int print; const char *text; } cases[] = {
        {1025.0, TAILOR_PRINT_MM, "1025"}, {20.32, TAILOR_PRINT_MM, "20.3"}, {-0.04, TAILOR_PRINT_MM, "0"},
        {-0.06, TAILOR_PRINT_MM, "-0.1"}, {999.96, TAILOR_PRINT_MM, "1000"}, {0.0, TAILOR_PRINT_MM, "0"},
        {1e6, TAILOR_PRINT_MM, "1000000"}, {-1e6, TAILOR_PRINT_MM, "-1000000"}, {0.25, TAILOR_PRINT_MM, "0.3"},
        {1025.525, TAILOR_PRINT_INCH_8, "40 3/8"}, {1016.0, TAILOR_PRINT_INCH_8, "40"},
        {9.525, TAILOR_PRINT_INCH_8, "3/8"},
        {-6.35, TAILOR_PRINT_INCH_8, "-1/4"}, {-1025.525, TAILOR_PRINT_INCH_8, "-40 3/8"},
        {1.0, TAILOR_PRINT_INCH_8, "0"},
        {-1.0, TAILOR_PRINT_INCH_8, "0"}, {1015.0, TAILOR_PRINT_INCH_8, "40"}, {1014.0, TAILOR_PRINT_INCH_8, "39 7/8"},
        {12.7, TAILOR_PRINT_INCH_8, "1/2"}, {25.0, TAILOR_PRINT_INCH_8, "1"},
        {1017.5875, TAILOR_PRINT_INCH_16, "40 1/16"},
        {1017.5875, TAILOR_PRINT_INCH_8, "40 1/8"}, {-1017.5875, TAILOR_PRINT_INCH_8, "-40 1/8"},
        {1025.525, TAILOR_PRINT_INCH_16, "40 3/8"}, {25.3, TAILOR_PRINT_INCH_16, "1"},
        {1e6, TAILOR_PRINT_INCH_16, "39370 1/16"},
    };
    char text[32];
    size_t needed;
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_int_equal(tailor_length_write(cases[i].mm, cases[i].print, text, sizeof text, &needed), TAILOR_OK);
        assert_string_equal(text, cases[i].text);
        assert_int_equal(needed, strlen(text));
        assert_true(needed < 16);
        for (size_t capacity = 0; capacity <= needed; capacity++) {
            memset(text, '#', sizeof text);
            assert_int_equal(tailor_length_write(cases[i].mm, cases[i].print, text, capacity, &needed),
                             TAILOR_TOO_SMALL);
            assert_int_equal(needed, strlen(cases[i].text));
            assert_int_equal(text[0], '#');
        }
        assert_int_equal(tailor_length_write(cases[i].mm, cases[i].print, text, needed + 1, NULL), TAILOR_OK);
        assert_string_equal(text, cases[i].text);
        needed = 99;
        assert_int_equal(tailor_length_write(cases[i].mm, cases[i].print, NULL, 0, &needed), TAILOR_OK);
        assert_int_equal(needed, strlen(cases[i].text));
    }
}

static void not_written(void **state)
{
    char text[32];
    size_t needed;
    (void)state;
    assert_int_equal(tailor_length_write(NAN, TAILOR_PRINT_MM, text, sizeof text, &needed), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_length_write(INFINITY, TAILOR_PRINT_INCH_8, text, sizeof text, &needed), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_length_write(1.1e6, TAILOR_PRINT_MM, text, sizeof text, &needed), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_length_write(-1.1e6, TAILOR_PRINT_MM, text, sizeof text, &needed), TAILOR_OUT_OF_RANGE);
    for (int print = -20; print <= 20; print++)
        if (print != TAILOR_PRINT_MM && print != TAILOR_PRINT_EXACT && print != TAILOR_PRINT_INCH_8 &&
            print != TAILOR_PRINT_INCH_16)
            assert_int_equal(tailor_length_write(1.0, print, text, sizeof text, &needed), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_length_write(1.0, TAILOR_PRINT_MM, NULL, 5, &needed), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_length_write(1.0, TAILOR_PRINT_MM, NULL, 0, NULL), TAILOR_BAD_ARGUMENT);
}

/* What is written is read back as the nearest tenth, eighth or sixteenth. */
static void written_is_read_back(void **state)
{
    uint64_t seed = 99;
    (void)state;
    for (int i = 0; i < 30000; i++) {
        static const struct { int print; const char *unit; double half; } ways[] = {
            {TAILOR_PRINT_MM, " mm", 0.05}, {TAILOR_PRINT_INCH_8, " in", 25.4 / 16.0},
            {TAILOR_PRINT_INCH_16, "\"", 25.4 / 32.0},
        };
        double mm = 4000.0 * next_random(&seed) - 1000.0, back;
        char text[40];
        assert_int_equal(tailor_length_write(mm, ways[i % 3].print, text, 32, NULL), TAILOR_OK);
        strcat(text, ways[i % 3].unit);
        assert_int_equal(tailor_length_read(text, &back, NULL), TAILOR_OK);
        assert_near(back, mm, ways[i % 3].half + 1e-9);
    }
}

/* A double written with 17 figures is read as the same double. */
static void seventeen_figures_come_back(void **state)
{
    uint64_t seed = 5;
    (void)state;
    for (int i = 0; i < 30000; i++) {
        double mm = (i % 2 ? 2000.0 : 0.1) * next_random(&seed) + 0.01, back;
        char text[64];
        snprintf(text, sizeof text, "%.17g", mm);
        assert_int_equal(tailor_length_read(text, &back, NULL), TAILOR_OK);
        assert_true(back == mm);
    }
}

/* Random bytes: never a crash, never a value that is not finite, never a fault without a sentence. */
static void any_bytes(void **state)
{
    static const char letters[] = "0123456789999..,,//  mcin\"\xE2\x80\xB3-+eEx\t\xC2\xB0";
    uint64_t seed = 31;
    int read = 0;
    (void)state;
    for (int i = 0; i < 200000; i++) {
        char text[40];
        size_t length = (size_t)(next_random(&seed) * (i % 4 ? 9.0 : 39.0));
        double value = 0.0;
        tailor_fault fault = {0};
        for (size_t j = 0; j < length; j++)
            text[j] = i % 8 ? letters[(size_t)(next_random(&seed) * (double)(sizeof letters - 1))]
                            : (char)(unsigned char)(1.0 + 255.0 * next_random(&seed));
        text[length] = '\0';
        int field = 1 + i % (TAILOR_FIELD_COUNT - 1);
        if (tailor_value_read(tailor_field_table(), field, text, &value, &fault) == TAILOR_OK)
            read++;
        else
            assert_true(fault.sentence[0] != '\0' && strlen(fault.sentence) < 215);
        assert_true(isfinite(value));
    }
    assert_true(read > 1000);
}

/* A host in a locale with a decimal comma. The locale is made here: none need be installed. */
static void comma_locale_is_no_matter(void **state)
{
    char directory[] = "/tmp/tailorgeom-locale-XXXXXX", command[200], text[40], kept[32];
    double mm = 0.0;
    tailor_fault fault;
    (void)state;
    assert_non_null(mkdtemp(directory));
    snprintf(command, sizeof command, "localedef -i de_DE -f UTF-8 %s/de_DE.UTF-8", directory);
    assert_int_equal(system(command), 0);
    assert_int_equal(setenv("LOCPATH", directory, 1), 0);
    assert_non_null(setlocale(LC_ALL, "de_DE.UTF-8"));
    snprintf(kept, sizeof kept, "%.1f", 1.5);

    assert_int_equal(tailor_length_read("102.5 cm", &mm, &fault), TAILOR_OK);
    assert_true(mm == 1025.0);
    assert_int_equal(tailor_length_read("102,5 cm", &mm, &fault), TAILOR_BAD_LENGTH);
    assert_int_equal(tailor_length_write(20.32, TAILOR_PRINT_MM, text, sizeof text, NULL), TAILOR_OK);
    assert_string_equal(text, "20.3");
    double client[TAILOR_FIELD_COUNT];
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 102.5;
    assert_int_equal(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault), TAILOR_WRONG_UNIT);
    assert_non_null(strstr(fault.sentence, "did you mean 102.5 cm (1025 mm)?"));

    setlocale(LC_ALL, "C");
    unsetenv("LOCPATH");
    snprintf(command, sizeof command, "rm -r %s", directory);
    assert_int_equal(system(command), 0);
    assert_string_equal(kept, "1,5"); /* the locale really was one with a comma */
}

int test_lengths(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(read_well),
        cmocka_unit_test(refused_with_the_mend),
        cmocka_unit_test(fields_have_their_units),
        cmocka_unit_test(names_and_constants_are_read),
        cmocka_unit_test(written_well),
        cmocka_unit_test(not_written),
        cmocka_unit_test(written_is_read_back),
        cmocka_unit_test(seventeen_figures_come_back),
        cmocka_unit_test(any_bytes),
        cmocka_unit_test(comma_locale_is_no_matter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

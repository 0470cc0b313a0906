/* Values as text: what is written reads back, for every row of every table that has values. */
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/cloth.h>
#include <tailorgeom/order.h>
#include "base/near.h"

static const tailor_table *table(int i)
{
    const tailor_table *const tables[] = {tailor_field_table(), tailor_constant_table(), tailor_quantity_table(),
                                          tailor_cloth_table(), NULL};
    return tables[i];
}

static int print_of(int i)
{
    static const int prints[] = {TAILOR_PRINT_MM, TAILOR_PRINT_EXACT, TAILOR_PRINT_INCH_8, TAILOR_PRINT_INCH_16, 0};
    return prints[i];
}

static const char *unit_of(const tailor_table *of, int row) { return tailor_table_text(of, row, TAILOR_COLUMN_UNIT); }

/** Write, with just the room needed, and read again. */
static double there_and_back(const tailor_table *of, int row, double value, int print, char text[64])
{
    char tight[64];
    size_t needed = 0, again = 0;
    double back = NAN;
    tailor_fault fault = {0};
    assert_int_equal(tailor_value_write(of, row, value, print, text, 64, &needed), TAILOR_OK);
    assert_int_equal(strlen(text), needed);
    assert_int_equal(tailor_value_write(of, row, value, print, NULL, 0, &again), TAILOR_OK);
    assert_int_equal(again, needed);
    memset(tight, '#', sizeof tight);
    assert_int_equal(tailor_value_write(of, row, value, print, tight, needed, &again), TAILOR_TOO_SMALL);
    assert_int_equal(tight[0], '#');
    assert_int_equal(tailor_value_write(of, row, value, print, tight, needed + 1, NULL), TAILOR_OK);
    assert_string_equal(tight, text);
    if (tailor_value_read(of, row, text, &back, &fault) != TAILOR_OK)
        fail_msg("%s: %s: %s", tailor_table_text(of, row, TAILOR_COLUMN_NAME), text, fault.sentence);
    return back;
}

static void check_number(const tailor_table *of, int row, double value)
{
    char text[64], second[64];
    int length = strcmp(unit_of(of, row), "mm") == 0;
    for (int i = 0, print; (print = print_of(i)) != 0; i++) {
        double back = there_and_back(of, row, value, print, text);
        const char *space = strrchr(text, ' ');
        int bare = strcmp(unit_of(of, row), "ratio") == 0 || strcmp(unit_of(of, row), "count") == 0;
        assert_true(bare ? space == NULL : space != NULL);
        assert_true(!strchr(text, 'e') || strchr(text, 'e') > space); /* an e of the unit, none of an exponent */
        if (!length || print == TAILOR_PRINT_EXACT) {
            assert_true(back == value);
            continue;
        }
        assert_near(back, value, (print == TAILOR_PRINT_MM ? 0.1 : 25.4 / print) / 2 + 1e-9);
        there_and_back(of, row, back, print, second);
        assert_string_equal(second, text);
    }
}

/** Both ends of each row's range, nothing, and values of any figures within it. */
static void every_row_and_any_value(void **state)
{
    uint64_t seed = 41;
    int choices = 0, numbers = 0;
    (void)state;
    for (int i = 0; table(i); i++)
        for (int place = 0, row; (row = tailor_table_at(table(i), place)) != 0; place++) {
            double low = tailor_table_low(table(i), row), high = tailor_table_high(table(i), row);
            const tailor_table *choice = tailor_table_choices(table(i), row);
            for (int at = 0, number; (number = tailor_table_at(choice, at)) != 0; at++, choices++) {
                char text[64];
                assert_true(there_and_back(table(i), row, number, print_of(at % 4), text) == number);
                assert_string_equal(text, tailor_table_text(choice, number, TAILOR_COLUMN_NAME));
            }
            if (choice)
                continue;
            if (isnan(low) || isnan(high))
                low = -1000, high = 1000;
            check_number(table(i), row, low);
            check_number(table(i), row, high);
            check_number(table(i), row, 0);
            for (int k = 0; k < 60; k++, numbers++) {
                double value = low + (high - low) * next_random(&seed);
                double scale = pow(10, k % 7);
                check_number(table(i), row, k % 2 ? value : nearbyint(value * scale) / scale);
                check_number(table(i), row, (next_random(&seed) - 0.5) * pow(10, 10 * next_random(&seed) - 5));
            }
        }
    assert_true(choices > 70 && numbers > 15000);
}

/** From 1e-14 to 1e15 the same double; smaller ones to 30 decimals. */
static void any_size(void **state)
{
    uint64_t seed = 43;
    char text[64];
    (void)state;
    for (int i = 0; i < 40000; i++) {
        double size = pow(10, -14 + 28.999 * next_random(&seed)) * 1.0001;
        double value = i % 2 ? size : -size, small = value / 1e15 * 1e-14;
        const int field = TAILOR_FIELD_CLOTH_CONTRACTION;
        assert_true(there_and_back(tailor_field_table(), field, value, TAILOR_PRINT_MM, text) ==
                    value);
        assert_near(there_and_back(tailor_field_table(), TAILOR_FIELD_CROOK, small, TAILOR_PRINT_EXACT, text), small,
                    1e-30);
    }
    assert_int_equal(tailor_value_write(tailor_field_table(), TAILOR_FIELD_CROOK, 1e15, TAILOR_PRINT_EXACT, text, 64,
                                        NULL),
                     TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_value_write(tailor_field_table(), TAILOR_FIELD_CROOK, 1.1e6, TAILOR_PRINT_MM, text, 64,
                                        NULL),
                     TAILOR_OUT_OF_RANGE);
}

static void written_as_people_write(void **state)
{
    static const struct {
        int field;
        double value;
        int print;
        const char *text;
    } all[] = {
        {TAILOR_FIELD_CHEST_GIRTH, 1016.34, TAILOR_PRINT_MM, "1016.3 mm"},
        {TAILOR_FIELD_CHEST_GIRTH, 1016.34, TAILOR_PRINT_EXACT, "1016.34 mm"},
        {TAILOR_FIELD_CHEST_GIRTH, 1025.525, TAILOR_PRINT_INCH_8, "40 3/8 in"},
        {TAILOR_FIELD_CROOK, -6.35, TAILOR_PRINT_INCH_16, "-1/4 in"},
        {TAILOR_FIELD_CROOK, 0.0, TAILOR_PRINT_INCH_8, "0 in"},
        {TAILOR_FIELD_CROOK, 1e-7, TAILOR_PRINT_EXACT, "0.0000001 mm"},
        {TAILOR_FIELD_CROOK, 1.0 / 3, TAILOR_PRINT_EXACT, "0.3333333333333333 mm"},
        {TAILOR_FIELD_SHOULDER_SLOPE, 21.5, TAILOR_PRINT_INCH_8, "21.5 deg"},
        {TAILOR_FIELD_CLOTH_WEIGHT, 300, TAILOR_PRINT_MM, "300 g/m2"},
        {TAILOR_FIELD_CLOTH_CONTRACTION, 0.35, TAILOR_PRINT_MM, "0.35"},
        {TAILOR_FIELD_LAPEL_CURL, 4, TAILOR_PRINT_MM, "4 1/m"},
        {TAILOR_FIELD_BRIDLE_DRAWN_IN, 2, TAILOR_PRINT_MM, "2 %"},
        {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_ROLL_BY_CUT, TAILOR_PRINT_INCH_8, "roll-by-cut"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        char text[64];
        there_and_back(tailor_field_table(), all[i].field, all[i].value, all[i].print, text);
        assert_string_equal(text, all[i].text);
    }
}

static void synonyms_are_read(void **state)
{
    static const struct {
        int field;
        const char *typed;
        int choice;
    } all[] = {
        {TAILOR_FIELD_LAPEL, "notch", TAILOR_LAPEL_STEP},        {TAILOR_FIELD_LAPEL, "Notched", TAILOR_LAPEL_STEP},
        {TAILOR_FIELD_LAPEL, " roll-collar", TAILOR_LAPEL_SHAWL}, {TAILOR_FIELD_VENTS, "center", TAILOR_VENTS_CENTRE},
        {TAILOR_FIELD_HIP_POCKETS, "flap", TAILOR_HIP_POCKETS_FLAPPED},
    };
    double value;
    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        assert_int_equal(tailor_value_read(tailor_field_table(), all[i].field, all[i].typed, &value, NULL), TAILOR_OK);
        assert_true(value == all[i].choice);
    }
    /* every synonym of every table */
    int synonyms = 0;
    for (int i = 0; table(i); i++)
        for (int place = 0, row; (row = tailor_table_at(table(i), place)) != 0; place++) {
            const tailor_table *choices = tailor_table_choices(table(i), row);
            for (int at = 0, number; (number = tailor_table_at(choices, at)) != 0; at++) {
                char words[200], *word;
                strncpy(words, tailor_table_text(choices, number, TAILOR_COLUMN_SYNONYMS), sizeof words - 1);
                words[sizeof words - 1] = '\0';
                for (word = strtok(words, " "); word; word = strtok(NULL, " "), synonyms++) {
                    assert_int_equal(tailor_value_read(table(i), row, word, &value, NULL), TAILOR_OK);
                    assert_true(value == number);
                }
            }
        }
    assert_true(synonyms >= 10);
    tailor_fault fault;
    assert_int_equal(tailor_value_read(tailor_field_table(), TAILOR_FIELD_LAPEL, "notch notched", &value, &fault),
                     TAILOR_NOT_A_CHOICE);
    assert_string_equal(fault.sentence, "lapel takes one of step, peak, shawl");
    assert_int_equal(tailor_value_read(tailor_quantity_table(), TAILOR_QUANTITY_LAPEL_LIES, "leans", &value, &fault),
                     TAILOR_NOT_A_CHOICE);
    assert_int_equal(fault.table, TAILOR_TABLE_QUANTITY);
    assert_string_equal(fault.sentence, "lapel_lies takes one of lies, stands-off");
}

static void a_quantity_has_no_range(void **state)
{
    double value = 7;
    tailor_fault fault;
    (void)state;
    assert_int_equal(tailor_value_read(tailor_quantity_table(), TAILOR_QUANTITY_SCYE_LENGTH, "51,2 cm", &value, &fault),
                     TAILOR_BAD_LENGTH);
    assert_string_equal(fault.sentence, "scye_length: a comma is not read: write a decimal point, as in 102.5 cm");
    assert_true(value == 7);
    assert_int_equal(tailor_value_read(tailor_quantity_table(), TAILOR_QUANTITY_SCYE_LENGTH, "51.2 cm", &value, NULL),
                     TAILOR_OK);
    assert_true(value == 512);
}

static void refused(void **state)
{
    const tailor_table *fields = tailor_field_table();
    char text[64] = "#";
    double value;
    size_t needed;
    tailor_fault fault;
    (void)state;
    assert_int_equal(tailor_value_write(fields, 1, NAN, TAILOR_PRINT_MM, text, 64, NULL), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_value_write(fields, 1, INFINITY, TAILOR_PRINT_EXACT, text, 64, NULL), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_value_write(fields, 1, 5, 3, text, 64, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_value_write(fields, 0, 5, TAILOR_PRINT_MM, text, 64, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_value_write(NULL, 1, 5, TAILOR_PRINT_MM, text, 64, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_value_write(fields, 1, 5, TAILOR_PRINT_MM, NULL, 0, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_value_write(fields, 1, 5, TAILOR_PRINT_MM, NULL, 9, &needed), TAILOR_BAD_ARGUMENT);
    static const double no_choices[] = {0, 4, 1.5, -1, 1e9};
    for (size_t i = 0; i < sizeof no_choices / sizeof *no_choices; i++)
        assert_int_equal(tailor_value_write(fields, TAILOR_FIELD_LAPEL, no_choices[i], TAILOR_PRINT_MM, text, 64, NULL),
                         TAILOR_NOT_A_CHOICE);
    /* a choice has neither unit nor value of its own */
    const tailor_table *lapels = tailor_choice_table(TAILOR_FIELD_LAPEL);
    assert_int_equal(tailor_value_write(lapels, 1, 1, TAILOR_PRINT_MM, text, 64, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_value_read(lapels, 1, "1", &value, &fault), TAILOR_BAD_ARGUMENT);
    assert_string_equal(fault.sentence, "step has no unit and no value");
    assert_int_equal(tailor_value_read(NULL, 1, "1", &value, &fault), TAILOR_BAD_ARGUMENT);
    assert_string_equal(text, "#");
}

int test_values(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_and_any_value), cmocka_unit_test(any_size),
        cmocka_unit_test(written_as_people_write), cmocka_unit_test(synonyms_are_read),
        cmocka_unit_test(a_quantity_has_no_range), cmocka_unit_test(refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

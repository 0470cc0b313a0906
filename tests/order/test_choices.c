/* Choices: tables like any other, numbers pinned, traits that the code asks instead of numbers. */
#include <stdio.h>
#include <string.h>
#include "../../lib/order/traits.h"
#include "base/near.h"

/* As released: a choice may be added, none may change. */
static const struct {
    int field;
    const char *names; /* in the order of their numbers, from 1 */
} pinned[] = {
    {TAILOR_FIELD_BUTTONING, "one-button two-button three-button roll-by-make roll-by-cut double-four double-six"},
    {TAILOR_FIELD_LAPEL, "step peak shawl"},
    {TAILOR_FIELD_FRONT_CUT, "round square"},
    {TAILOR_FIELD_CLOSING, "left-over-right right-over-left"},
    {TAILOR_FIELD_HOLE_FACE_1, "out in both"},
    {TAILOR_FIELD_HOLE_FACE_6, "out in both"},
    {TAILOR_FIELD_CUFF_BUTTONS, "none one two three four five"},
    {TAILOR_FIELD_SLEEVE_VENT, "plain mock working"},
    {TAILOR_FIELD_VENTS, "none centre side"},
    {TAILOR_FIELD_HIP_POCKETS, "none jetted flapped patch"},
    {TAILOR_FIELD_MAKING, "bespoke made-to-measure"},
    {TAILOR_FIELD_HOLES, "one two three"},
};

static void numbers_are_pinned(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof pinned / sizeof *pinned; i++) {
        const tailor_table *choices = tailor_choice_table(pinned[i].field);
        char names[200], *name;
        int number = 0;
        snprintf(names, sizeof names, "%s", pinned[i].names);
        for (name = strtok(names, " "); name; name = strtok(NULL, " "))
            assert_int_equal(tailor_table_find(choices, name), ++number);
    }
    assert_int_equal(TAILOR_BUTTONING_DOUBLE_SIX, 7);
    assert_int_equal(TAILOR_HIP_POCKETS_PATCH, 4);
}

static void check_table(const tailor_table *of, int row)
{
    const tailor_table *choices = tailor_table_choices(of, row);
    int chosen = strcmp(tailor_table_text(of, row, TAILOR_COLUMN_UNIT), "choice") == 0, count = 0;
    assert_int_equal(choices != NULL, chosen);
    for (int place = 0, number; (number = tailor_table_at(choices, place)) != 0; place++, count++) {
        const char *name = tailor_table_text(choices, number, TAILOR_COLUMN_NAME);
        assert_in_range(number, 1, tailor_table_size(choices) - 1);
        assert_int_equal(tailor_table_find(choices, name), number);
        assert_string_not_equal(tailor_table_text(choices, number, TAILOR_COLUMN_TERM), "");
        assert_string_not_equal(tailor_table_text(choices, number, TAILOR_COLUMN_MEANING), "");
        assert_string_not_equal(tailor_table_text(choices, number, TAILOR_COLUMN_SINCE), "");
        assert_true(number >= tailor_table_low(of, row) && number <= tailor_table_high(of, row));
        assert_null(tailor_table_choices(choices, number));
    }
    assert_true(chosen ? count >= 2 : count == 0);
}

static void tables_like_any_other(void **state)
{
    (void)state;
    const tailor_table *const of[] = {tailor_field_table(), tailor_constant_table(), tailor_quantity_table()};
    for (int i = 0; i < 3; i++)
        for (int place = 0, row; (row = tailor_table_at(of[i], place)) != 0; place++)
            check_table(of[i], row);
    for (int field = -1; field <= TAILOR_FIELD_COUNT; field++)
        assert_ptr_equal(tailor_choice_table(field), tailor_table_choices(tailor_field_table(), field));
    assert_null(tailor_choice_table(TAILOR_FIELD_CHEST_GIRTH));
    assert_null(tailor_choice_table(0));
    assert_null(tailor_table_choices(NULL, 1));
    const tailor_table *shows = tailor_table_choices(tailor_quantity_table(), TAILOR_QUANTITY_HOLE_2_SHOWS);
    assert_int_equal(tailor_table_find(shows, "reverse"), 2);
    assert_int_equal(tailor_table_suggest(tailor_choice_table(TAILOR_FIELD_LAPEL), "shawls"), TAILOR_LAPEL_SHAWL);
}

static tailor_status resolve(int field, double value, tailor_fault *fault)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[field] = value;
    return tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, fault);
}

/* Every number with a row is a choice, every other number is not; the sentence lists them all. */
static void a_choice_or_none(void **state)
{
    (void)state;
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        const tailor_table *choices = tailor_choice_table(field);
        for (int twice = -2; choices && twice <= 2 * tailor_table_size(choices) + 2; twice++) {
            tailor_fault fault = {0};
            double value = twice / 2.0;
            int one = twice % 2 == 0 && tailor_table_text(choices, twice / 2, TAILOR_COLUMN_NAME)[0];
            tailor_status status = resolve(field, value, &fault);
            assert_int_equal(status == TAILOR_NOT_A_CHOICE, !one);
            for (int place = 0; !one && tailor_table_at(choices, place); place++)
                assert_non_null(strstr(
                    fault.sentence, tailor_table_text(choices, tailor_table_at(choices, place), TAILOR_COLUMN_NAME)));
        }
    }
}

static void traits_of_buttonings(void **state)
{
    /* As a cutter would describe them: rows above and below the waist button's, rows for show, breasts. */
    static const struct {
        int buttoning, above, below, show, breasts, breaks, rolls, holes;
    } all[] = {
        {TAILOR_BUTTONING_ONE_BUTTON, 0, 0, 0, 1, TAILOR_IN_BREAKS_WAIST, TAILOR_IN_ROLLS_NO, 1},
        {TAILOR_BUTTONING_TWO_BUTTON, 0, 1, 0, 1, TAILOR_IN_BREAKS_WAIST, TAILOR_IN_ROLLS_NO, 2},
        {TAILOR_BUTTONING_THREE_BUTTON, 1, 1, 0, 1, TAILOR_IN_BREAKS_TOP, TAILOR_IN_ROLLS_NO, 3},
        {TAILOR_BUTTONING_ROLL_BY_MAKE, 1, 1, 0, 1, TAILOR_IN_BREAKS_TOP, TAILOR_IN_ROLLS_MAKE, 3},
        {TAILOR_BUTTONING_ROLL_BY_CUT, 1, 1, 0, 1, TAILOR_IN_BREAKS_WAIST, TAILOR_IN_ROLLS_CUT, 3},
        {TAILOR_BUTTONING_DOUBLE_FOUR, 0, 1, 0, 2, TAILOR_IN_BREAKS_WAIST, TAILOR_IN_ROLLS_NO, 2},
        {TAILOR_BUTTONING_DOUBLE_SIX, 1, 1, 1, 2, TAILOR_IN_BREAKS_WAIST, TAILOR_IN_ROLLS_NO, 2},
    };
    (void)state;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        double f[TAILOR_FIELD_COUNT];
        f[TAILOR_FIELD_BUTTONING] = all[i].buttoning;
        assert_int_equal(tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_ABOVE), all[i].above);
        assert_int_equal(tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_BELOW), all[i].below);
        assert_int_equal(tailor_in_buttoning(f, TAILOR_IN_TRAIT_SHOW_ABOVE), all[i].show);
        assert_int_equal(tailor_in_buttoning(f, TAILOR_IN_TRAIT_BREASTS), all[i].breasts);
        assert_int_equal(tailor_in_buttoning(f, TAILOR_IN_TRAIT_BREAKS), all[i].breaks);
        assert_int_equal(tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROLLS), all[i].rolls);
        assert_int_equal(tailor_in_hole_rows(f), all[i].holes);
    }
    assert_int_equal(tailor_in_trait(TAILOR_FIELD_BUTTONING, 99, TAILOR_IN_TRAIT_BREASTS), 0);
    for (int count = 0; count <= 5; count++) {
        static const int cuffs[] = {TAILOR_CUFF_BUTTONS_NONE,  TAILOR_CUFF_BUTTONS_ONE,  TAILOR_CUFF_BUTTONS_TWO,
                                    TAILOR_CUFF_BUTTONS_THREE, TAILOR_CUFF_BUTTONS_FOUR, TAILOR_CUFF_BUTTONS_FIVE};
        double f[TAILOR_FIELD_COUNT];
        f[TAILOR_FIELD_CUFF_BUTTONS] = cuffs[count];
        assert_int_equal(tailor_in_cuff_buttons(f), count);
    }
}

int test_choices(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_pinned),
        cmocka_unit_test(tables_like_any_other),
        cmocka_unit_test(a_choice_or_none),
        cmocka_unit_test(traits_of_buttonings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

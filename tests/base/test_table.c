/* Tables: finding, reading order, suggestions, and what a table answers when there is nothing to answer. */
#include <string.h>
#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>
#include "near.h"

static const tailor_table *table_of(int i)
{
    const tailor_table *const all[] = {
        tailor_field_table(), tailor_constant_table(), tailor_quantity_table(), tailor_piece_table(),
        tailor_edge_table(), tailor_point_table(), tailor_mark_table(), tailor_check_table(),
    };
    return i < (int)(sizeof all / sizeof all[0]) ? all[i] : NULL;
}

static void sizes_are_the_macros(void **state)
{
    (void)state;
    assert_int_equal(tailor_table_size(tailor_field_table()), TAILOR_FIELD_COUNT);
    assert_int_equal(tailor_table_size(tailor_constant_table()), TAILOR_CONSTANT_COUNT);
    assert_int_equal(tailor_table_size(tailor_quantity_table()), TAILOR_QUANTITY_COUNT);
    assert_int_equal(tailor_table_size(tailor_piece_table()), TAILOR_PIECE_COUNT);
    assert_int_equal(tailor_table_size(tailor_edge_table()), TAILOR_EDGE_COUNT);
    assert_int_equal(tailor_table_size(tailor_point_table()), TAILOR_POINT_COUNT);
    assert_int_equal(tailor_table_size(tailor_mark_table()), TAILOR_MARKED_COUNT);
    assert_int_equal(tailor_table_size(tailor_check_table()), TAILOR_CHECK_COUNT);
}

static void reading_order_has_every_row_once(void **state)
{
    (void)state;
    for (int t = 0; table_of(t); t++) {
        const tailor_table *table = table_of(t);
        char seen[10000] = {0};
        int place = 0, rows = 0, number;
        for (; (number = tailor_table_at(table, place)) != 0; place++) {
            const char *name = tailor_table_text(table, number, TAILOR_COLUMN_NAME);
            assert_true(number > 0 && number < tailor_table_size(table) && !seen[number]);
            seen[number] = 1;
            assert_int_equal(tailor_table_find(table, name), number);
            assert_int_equal(tailor_table_suggest(table, name), number);
            assert_true(strlen(tailor_table_text(table, number, TAILOR_COLUMN_MEANING)) > 3);
            assert_string_not_equal(tailor_table_text(table, number, TAILOR_COLUMN_PROVENANCE), "");
        }
        for (number = 0; number < tailor_table_size(table); number++)
            rows += tailor_table_text(table, number, TAILOR_COLUMN_NAME)[0] != '\0';
        assert_int_equal(place, rows);
    }
}

static void groups_stay_together(void **state)
{
    (void)state;
    for (int t = 0; table_of(t); t++) {
        const tailor_table *table = table_of(t);
        for (int place = 1; tailor_table_at(table, place) != 0; place++) {
            const char *group = tailor_table_text(table, tailor_table_at(table, place), TAILOR_COLUMN_GROUP);
            const char *before = tailor_table_text(table, tailor_table_at(table, place - 1), TAILOR_COLUMN_GROUP);
            for (int earlier = 0; strcmp(group, before) != 0 && earlier < place; earlier++)
                assert_string_not_equal(
                    tailor_table_text(table, tailor_table_at(table, earlier), TAILOR_COLUMN_GROUP), group);
        }
    }
    assert_int_equal(tailor_table_at(tailor_field_table(), 0), TAILOR_FIELD_STATURE);
    assert_int_equal(tailor_table_at(tailor_field_table(), 22), TAILOR_FIELD_COAT_LENGTH);
}

static void nothing_is_answered_calmly(void **state)
{
    const tailor_table *fields = tailor_field_table();
    const int nowhere[] = {-1, 0, TAILOR_FIELD_COUNT, INT32_MAX, INT32_MIN};
    (void)state;
    for (int i = 0; i < 5; i++) {
        assert_string_equal(tailor_table_text(fields, nowhere[i], TAILOR_COLUMN_NAME), "");
        assert_true(isnan(tailor_table_low(fields, nowhere[i])) && isnan(tailor_table_high(fields, nowhere[i])));
    }
    assert_string_equal(tailor_table_text(fields, 1, 0), "");
    assert_string_equal(tailor_table_text(fields, 1, 10), "");
    assert_string_equal(tailor_table_text(NULL, 1, TAILOR_COLUMN_NAME), "");
    assert_int_equal(tailor_table_at(fields, -1), 0);
    assert_int_equal(tailor_table_at(fields, INT32_MAX), 0);
    assert_int_equal(tailor_table_at(NULL, 0), 0);
    assert_int_equal(tailor_table_size(NULL), 0);
    assert_int_equal(tailor_table_find(NULL, "stature"), 0);
    assert_int_equal(tailor_table_find(fields, NULL), 0);
    assert_int_equal(tailor_table_find(fields, ""), 0);
    assert_int_equal(tailor_table_find(fields, "Stature"), 0);
    assert_int_equal(tailor_table_suggest(NULL, "stature"), 0);
    assert_int_equal(tailor_table_suggest(fields, NULL), 0);
    assert_int_equal(tailor_table_suggest(fields, ""), 0);
    assert_true(isnan(tailor_table_low(NULL, 1)) && isnan(tailor_table_high(NULL, 1)));
}

static void suggestions(void **state)
{
    static const struct { const char *typed; int field; } cases[] = {
        {"chest_grith", TAILOR_FIELD_CHEST_GIRTH}, {"chst_girth", TAILOR_FIELD_CHEST_GIRTH},
        {"Chest Girth", TAILOR_FIELD_CHEST_GIRTH}, {"chest-girth", TAILOR_FIELD_CHEST_GIRTH},
        {"CHEST_GIRTHS", TAILOR_FIELD_CHEST_GIRTH}, {"chest", TAILOR_FIELD_CHEST_GIRTH},
        {"waist_girht", TAILOR_FIELD_WAIST_GIRTH}, {"statrue", TAILOR_FIELD_STATURE},
        {"lapel_widht", TAILOR_FIELD_LAPEL_WIDTH}, {"lapels", TAILOR_FIELD_LAPEL},
        {"sleeve", TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK}, {"cloth_weight_gsm", TAILOR_FIELD_CLOTH_WEIGHT},
        {"butoning", TAILOR_FIELD_BUTTONING}, {"colar_fall", TAILOR_FIELD_COLLAR_FALL},
        {"hat_size", 0}, {"xyz", 0}, {"_", 0}, {"q", 0},
        {"chest_girth_chest_girth_chest_girth_chest_girth_chest_girth_chest_girth_chest_girth", 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        int found = tailor_table_suggest(tailor_field_table(), cases[i].typed);
        if (found != cases[i].field)
            print_error("%s: %d\n", cases[i].typed, found);
        assert_int_equal(found, cases[i].field);
    }
}

static void assert_suggested(const char *typed, int number)
{
    int found = tailor_table_suggest(tailor_field_table(), typed);
    /* waist and wrist differ by one letter, so that a slip in it is as near to either */
    if (number == TAILOR_FIELD_WRIST_GIRTH && found == TAILOR_FIELD_WAIST_GIRTH)
        assert_true(typed[1] != 'r');
    else if (number >= TAILOR_FIELD_HOLE_FACE_1 && number <= TAILOR_FIELD_HOLE_FACE_6) /* holes differ by their digit */
        assert_in_range(found, TAILOR_FIELD_HOLE_FACE_1, TAILOR_FIELD_HOLE_FACE_6);
    else
        assert_int_equal(found, number);
}

/* One slip of the pen in any name is found again. */
static void one_slip_is_found_again(void **state)
{
    const tailor_table *table = tailor_field_table();
    (void)state;
    for (int number = 1; number < TAILOR_FIELD_COUNT; number++) {
        const char *name = tailor_table_text(table, number, TAILOR_COLUMN_NAME);
        size_t length = strlen(name);
        for (size_t i = 0; i < length; i++) {
            char typed[64];
            memcpy(typed, name, length + 1);
            typed[i] = 'q';
            assert_suggested(typed, number);
            memmove(typed + i, typed + i + 1, length - i);
            assert_suggested(typed, number);
        }
    }
}

int test_table(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sizes_are_the_macros),
        cmocka_unit_test(reading_order_has_every_row_once),
        cmocka_unit_test(groups_stay_together),
        cmocka_unit_test(nothing_is_answered_calmly),
        cmocka_unit_test(suggestions),
        cmocka_unit_test(one_slip_is_found_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* The table of fields: names and numbers pinned, ranges sound, defaults without a cycle. */
#include <string.h>
#include <tailorgeom/order.h>
#include "../../lib/order/form.h"
#include "base/near.h"

typedef struct {
    int number;
    const char *name, *unit;
} pinned;

/* As released: a row may be added, none may change. */
static const pinned all[] = {
    {1, "stature", "mm"},
    {2, "chest_girth", "mm"},
    {3, "waist_girth", "mm"},
    {4, "seat_girth", "mm"},
    {5, "neck_girth", "mm"},
    {6, "back_waist_length", "mm"},
    {7, "seat_level", "mm"},
    {8, "scye_depth", "mm"},
    {9, "back_width", "mm"},
    {10, "cross_chest", "mm"},
    {11, "front_shoulder", "mm"},
    {12, "over_shoulder", "mm"},
    {13, "front_waist_length", "mm"},
    {14, "shoulder_slope", "deg"},
    {15, "arm_length", "mm"},
    {16, "sleeve_from_centre_back", "mm"},
    {17, "upper_arm_girth", "mm"},
    {18, "wrist_girth", "mm"},
    {19, "belly_girth", "mm"},
    {20, "belly_level", "mm"},
    {21, "coat_length", "mm"},
    {22, "chest_ease", "mm"},
    {23, "waist_ease", "mm"},
    {24, "seat_ease", "mm"},
    {25, "scye_drop", "mm"},
    {26, "shoulder_pad", "mm"},
    {27, "shoulder_ease", "mm"},
    {28, "crown_fullness", "mm"},
    {29, "crook", "mm"},
    {30, "balance", "mm"},
    {31, "cloth_weight", "g/m2"},
    {32, "cloth_thickness", "mm"},
    {33, "buttoning", "choice"},
    {34, "button_spacing", "mm"},
    {35, "button_diameter", "mm"},
    {36, "waist_button_rise", "mm"},
    {37, "button_stand", "mm"},
    {38, "break_rise", "mm"},
    {39, "collar_stand", "mm"},
    {40, "collar_fall", "mm"},
    {41, "lapel", "choice"},
    {42, "lapel_width", "mm"},
    {43, "gorge_depth", "mm"},
    {44, "gorge_slope", "deg"},
    {45, "front_cut", "choice"},
    {46, "cuff_width", "mm"},
    /* since 0.2.0 */
    {47, "stoop", "mm"},
    {48, "neck_length", "mm"},
    {49, "low_shoulder", "mm"},
    {50, "low_shoulder_left", "mm"},
    {51, "low_shoulder_right", "mm"},
    {52, "forward_shoulder", "mm"},
    {53, "forward_shoulder_left", "mm"},
    {54, "forward_shoulder_right", "mm"},
    {55, "prominent_blades", "mm"},
    {56, "prominent_blades_left", "mm"},
    {57, "prominent_blades_right", "mm"},
    {58, "chest_fullness", "mm"},
    {59, "belly", "mm"},
    {60, "sway_back", "mm"},
    {61, "low_hip", "mm"},
    {62, "low_hip_left", "mm"},
    {63, "low_hip_right", "mm"},
    {64, "arm_pitch", "mm"},
    {65, "arm_pitch_left", "mm"},
    {66, "arm_pitch_right", "mm"},
    {67, "arm_length_left", "mm"},
    {68, "arm_length_right", "mm"},
    {69, "side_let_out", "mm"},
    {70, "side_let_out_left", "mm"},
    {71, "side_let_out_right", "mm"},
    {72, "wrap", "mm"},
    {73, "closing", "choice"},
    {74, "hole_face_1", "choice"},
    {75, "hole_face_2", "choice"},
    {76, "hole_face_3", "choice"},
    {77, "hole_face_4", "choice"},
    {78, "hole_face_5", "choice"},
    {79, "hole_face_6", "choice"},
    {80, "button_thickness", "mm"},
    {81, "cuff_buttons", "choice"},
    {82, "sleeve_vent", "choice"},
    {83, "vents", "choice"},
    {84, "hip_pockets", "choice"},
    {85, "pocket_slant", "mm"},
    {86, "making", "choice"},
    {87, "bridle_drawn_in", "%"},
    {88, "holes", "choice"},
    {89, "cloth_stretch_warp", "N/m"},
    {90, "cloth_stretch_weft", "N/m"},
    {91, "cloth_shear", "N/m"},
    {92, "cloth_contraction", "ratio"},
    {93, "cloth_bending_warp", "uN.m"},
    {94, "cloth_bending_weft", "uN.m"},
    {95, "cloth_twist", "uN.m"},
    {96, "canvas_weight", "g/m2"},
    {97, "canvas_stretch_warp", "N/m"},
    {98, "canvas_stretch_weft", "N/m"},
    {99, "canvas_shear", "N/m"},
    {100, "canvas_contraction", "ratio"},
    {101, "canvas_bending_warp", "uN.m"},
    {102, "canvas_bending_weft", "uN.m"},
    {103, "canvas_twist", "uN.m"},
    {104, "canvas_thickness", "mm"},
    {105, "canvas_angle", "deg"},
    {106, "padding_hold", "ratio"},
    {107, "bridle_stiffness", "N"},
    {108, "hole_stiffness", "N.m2"},
    {109, "lapel_set", "deg"},
    {110, "lapel_curl", "1/m"},
    {111, "chest_lean", "deg"},
};
enum { COUNT = sizeof all / sizeof all[0] };

static const char *text(int number, int column)
{
    return tailor_table_text(tailor_field_table(), number, column);
}

static void names_are_pinned(void **state)
{
    (void)state;
    assert_int_equal(TAILOR_FIELD_COUNT, COUNT + 1);
    for (int i = 0; i < COUNT; i++) {
        assert_string_equal(text(all[i].number, TAILOR_COLUMN_NAME), all[i].name);
        assert_string_equal(text(all[i].number, TAILOR_COLUMN_UNIT), all[i].unit);
        assert_int_equal(tailor_table_find(tailor_field_table(), all[i].name), all[i].number);
    }
    assert_int_equal(TAILOR_FIELD_STATURE, 1);
    assert_int_equal(TAILOR_FIELD_CHEST_GIRTH, 2);
    assert_int_equal(TAILOR_FIELD_BUTTONING, 33);
    assert_int_equal(TAILOR_FIELD_CUFF_WIDTH, 46);
}

static void choices_are_pinned(void **state)
{
    (void)state;
    assert_int_equal(TAILOR_BUTTONING_ONE_BUTTON, 1);
    assert_int_equal(TAILOR_BUTTONING_TWO_BUTTON, 2);
    assert_int_equal(TAILOR_BUTTONING_THREE_BUTTON, 3);
    assert_int_equal(TAILOR_BUTTONING_ROLL_BY_MAKE, 4);
    assert_int_equal(TAILOR_BUTTONING_ROLL_BY_CUT, 5);
    assert_int_equal(TAILOR_LAPEL_STEP, 1);
    assert_int_equal(TAILOR_LAPEL_PEAK, 2);
    assert_int_equal(TAILOR_FRONT_CUT_ROUND, 1);
    assert_int_equal(TAILOR_FRONT_CUT_SQUARE, 2);
}

static void every_field_has_a_range(void **state)
{
    (void)state;
    for (int number = 1; number < TAILOR_FIELD_COUNT; number++) {
        assert_true(tailor_table_low(tailor_field_table(), number) < tailor_table_high(tailor_field_table(), number));
        assert_int_equal(tailor_choice_table(number) != NULL,
                         strcmp(text(number, TAILOR_COLUMN_UNIT), "choice") == 0);
    }
}

static void only_the_chest_is_required(void **state)
{
    (void)state;
    for (int number = 1; number < TAILOR_FIELD_COUNT; number++)
        assert_int_equal(strcmp(text(number, TAILOR_COLUMN_RULE), "required") == 0, number == TAILOR_FIELD_CHEST_GIRTH);
}

/* Each rule uses only what is required or was found by an earlier rule: so there is no cycle, and one pass will do. */
static void rules_follow_what_they_use(void **state)
{
    int found[TAILOR_FIELD_COUNT] = {0}, rules = 0;
    (void)state;
    found[TAILOR_FIELD_CHEST_GIRTH] = 1;
    for (int i = 0; i < tailor_in_rule_count; i++) {
        const tailor_in_rule *rule = &tailor_in_rules[i];
        assert_true(rule->form.count >= 0 && rule->form.count <= TAILOR_IN_MOST_TERMS);
        for (int j = 0; j < rule->form.count; j++)
            assert_true(found[rule->form.terms[j].field]);
        assert_false(found[rule->field]);
        found[rule->field] = 1;
    }
    for (int number = 1; number < TAILOR_FIELD_COUNT; number++) {
        rules += text(number, TAILOR_COLUMN_RULE)[0] != '\0';
        assert_int_equal(found[number], text(number, TAILOR_COLUMN_RULE)[0] != '\0');
    }
    assert_int_equal(rules, tailor_in_rule_count + 1);
}

/* The other constants' defaults lie in their ranges. */
static void constants_have_defaults(void **state)
{
    const tailor_table *table = tailor_constant_table();
    (void)state;
    for (int number = 1; number < TAILOR_CONSTANT_COUNT; number++) {
        if (tailor_table_text(table, number, TAILOR_COLUMN_NAME)[0] == '\0')
            continue;
        assert_true(tailor_in_constant_defaults[number] >= tailor_table_low(table, number));
        assert_true(tailor_in_constant_defaults[number] <= tailor_table_high(table, number));
    }
}

int test_fields(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_are_pinned),
        cmocka_unit_test(choices_are_pinned),
        cmocka_unit_test(every_field_has_a_range),
        cmocka_unit_test(only_the_chest_is_required),
        cmocka_unit_test(rules_follow_what_they_use),
        cmocka_unit_test(constants_have_defaults),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

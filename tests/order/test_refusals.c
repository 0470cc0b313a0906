/* Every reason for refusing an order, with its sentence word for word. */
#include <string.h>
#include <tailorgeom/order.h>
#include "base/near.h"

typedef struct {
    int field;
    double value;
} given;

typedef struct {
    given values[4]; /* field 0 ends them; the chest is 1016 unless given */
    int status, blamed;
    const char *sentence;
} refusal;

#define F(name) TAILOR_FIELD_##name

static const refusal refusals[] = {
    {{{F(CHEST_GIRTH), NAN}}, TAILOR_MISSING, F(CHEST_GIRTH),
     "chest_girth is required and not given: 700 to 1600 mm is allowed"},
    {{{F(CHEST_GIRTH), INFINITY}}, TAILOR_NOT_FINITE, F(CHEST_GIRTH),
     "chest_girth is infinite: 700 to 1600 mm is allowed"},
    {{{F(BALANCE), -INFINITY}}, TAILOR_NOT_FINITE, F(BALANCE), "balance is infinite: -20 to 20 mm is allowed"},
    {{{F(BUTTONING), INFINITY}}, TAILOR_NOT_FINITE, F(BUTTONING), "buttoning is infinite: 1 to 7 is allowed"},
    {{{F(CHEST_GIRTH), 4000.0}}, TAILOR_OUT_OF_RANGE, F(CHEST_GIRTH),
     "chest_girth 4000 mm is too large: 700 to 1600 mm is allowed"},
    {{{F(CHEST_GIRTH), 1600.0000001}}, TAILOR_OUT_OF_RANGE, F(CHEST_GIRTH),
     "chest_girth 1600 mm is too large: 700 to 1600 mm is allowed"},
    {{{F(CHEST_GIRTH), -1016.0}}, TAILOR_OUT_OF_RANGE, F(CHEST_GIRTH),
     "chest_girth -1016 mm is too small: 700 to 1600 mm is allowed"},
    {{{F(CHEST_GIRTH), 0.0}}, TAILOR_OUT_OF_RANGE, F(CHEST_GIRTH),
     "chest_girth 0 mm is too small: 700 to 1600 mm is allowed"},
    {{{F(STATURE), 900.0}}, TAILOR_OUT_OF_RANGE, F(STATURE), "stature 900 mm is too small: 1400 to 2200 mm is allowed"},
    {{{F(SHOULDER_SLOPE), 45.5}}, TAILOR_OUT_OF_RANGE, F(SHOULDER_SLOPE),
     "shoulder_slope 45.5 deg is too large: 12 to 30 deg is allowed"},
    {{{F(CLOTH_WEIGHT), 10.0}}, TAILOR_OUT_OF_RANGE, F(CLOTH_WEIGHT),
     "cloth_weight 10 g/m2 is too small: 180 to 700 g/m2 is allowed"},

    {{{F(CHEST_GIRTH), 40.0}}, TAILOR_WRONG_UNIT, F(CHEST_GIRTH),
     "chest_girth 40 mm is too small: 700 to 1600 mm is allowed; did you mean 40 in (1016 mm)?"},
    {{{F(CHEST_GIRTH), 102.5}}, TAILOR_WRONG_UNIT, F(CHEST_GIRTH),
     "chest_girth 102.5 mm is too small: 700 to 1600 mm is allowed; did you mean 102.5 cm (1025 mm)?"},
    {{{F(STATURE), 1.75}}, TAILOR_WRONG_UNIT, F(STATURE),
     "stature 1.75 mm is too small: 1400 to 2200 mm is allowed; did you mean 1.75 m (1750 mm)?"},
    {{{F(NECK_GIRTH), 15.5}}, TAILOR_WRONG_UNIT, F(NECK_GIRTH),
     "neck_girth 15.5 mm is too small: 260 to 600 mm is allowed; did you mean 15.5 in (393.7 mm)?"},
    {{{F(WAIST_GIRTH), 60.0}}, TAILOR_WRONG_UNIT, F(WAIST_GIRTH),
     "waist_girth 60 mm is too small: 450 to 1750 mm is allowed; did you mean 60 in (1524 mm) or 60 cm (600 mm)?"},

    {{{F(BUTTONING), 0.0}}, TAILOR_NOT_A_CHOICE, F(BUTTONING),
     "buttoning 0 is not a choice: whole numbers from 1 to 7 stand for one-button, two-button, three-button, "
     "roll-by-make, roll-by-cut, double-four, double-six"},
    {{{F(BUTTONING), 1.5}}, TAILOR_NOT_A_CHOICE, F(BUTTONING),
     "buttoning 1.5 is not a choice: whole numbers from 1 to 7 stand for one-button, two-button, three-button, "
     "roll-by-make, roll-by-cut, double-four, double-six"},
    {{{F(LAPEL), 4.0}}, TAILOR_NOT_A_CHOICE, F(LAPEL),
     "lapel 4 is not a choice: whole numbers from 1 to 3 stand for step, peak, shawl"},

    {{{F(WAIST_GIRTH), 1316.0}}, TAILOR_CONTRADICTION, F(WAIST_GIRTH),
     "waist_girth 1316 mm is too large for chest_girth 1016 mm: 508 to 1216 mm is allowed"},
    {{{F(NECK_GIRTH), 260.0}, {F(CHEST_GIRTH), 1000.0}}, TAILOR_CONTRADICTION, F(NECK_GIRTH),
     "neck_girth 260 mm is too small for chest_girth 1000 mm: 273.8 to 493.8 mm is allowed"},
    {{{F(SEAT_GIRTH), 1300.0}, {F(CHEST_GIRTH), 1000.0}}, TAILOR_CONTRADICTION, F(SEAT_GIRTH),
     "seat_girth 1300 mm is too large for chest_girth 1000 mm: 650 to 1250 mm is allowed"},
    {{{F(BACK_WIDTH), 400.0}, {F(CROSS_CHEST), 450.0}}, TAILOR_CONTRADICTION, F(CROSS_CHEST),
     "cross_chest 450 mm is too large for chest_girth 1016 mm and back_width 400 mm: 160 to 412.8 mm is allowed"},
    {{{F(CHEST_GIRTH), 700.0}, {F(BACK_WIDTH), 600.0}, {F(CROSS_CHEST), 250.0}}, TAILOR_CONTRADICTION, F(CROSS_CHEST),
     "cross_chest 250 mm is too large for chest_girth 700 mm and back_width 600 mm: no value that is allowed fits"},
    {{{F(SEAT_LEVEL), 500.0}, {F(STATURE), 1720.0}}, TAILOR_CONTRADICTION, F(SEAT_LEVEL),
     "seat_level 500 mm is too small for back_waist_length 430 mm (assumed): 510 to 780 mm is allowed"},
    {{{F(SCYE_DEPTH), 340.0}, {F(BACK_WAIST_LENGTH), 400.0}}, TAILOR_CONTRADICTION, F(SCYE_DEPTH),
     "scye_depth 340 mm is too large for back_waist_length 400 mm and scye_drop 22 mm (assumed): 150 to 308 mm is "
     "allowed"},
    {{{F(COAT_LENGTH), 630.0}, {F(STATURE), 1720.0}, {F(BACK_WAIST_LENGTH), 432.2}}, TAILOR_CONTRADICTION,
     F(COAT_LENGTH),
     "coat_length 630 mm is too small for seat_level 630 mm (assumed): 650 to 1032 mm is allowed"},
    {{{F(COLLAR_FALL), 34.0}, {F(COLLAR_STAND), 36.0}}, TAILOR_OUT_OF_RANGE, F(COLLAR_FALL),
     "collar_fall 34 mm is too small: 36 to 58 mm is allowed"},
    {{{F(COLLAR_FALL), 38.0}, {F(COLLAR_STAND), 36.0}}, TAILOR_CONTRADICTION, F(COLLAR_FALL),
     "collar_fall 38 mm is too small for collar_stand 36 mm: 39 to 58 mm is allowed"},
    {{{F(BELLY_GIRTH), 800.0}, {F(WAIST_GIRTH), 1000.0}}, TAILOR_CONTRADICTION, F(BELLY_GIRTH),
     "belly_girth 800 mm is too small for waist_girth 1000 mm: 940 to 1350 mm is allowed"},
    {{{F(FRONT_SHOULDER), 500.0}, {F(SCYE_DEPTH), 220.0}}, TAILOR_CONTRADICTION, F(FRONT_SHOULDER),
     "front_shoulder 500 mm is too large for scye_depth 220 mm: 260 to 480 mm is allowed"},
    {{{F(OVER_SHOULDER), 350.0}, {F(FRONT_SHOULDER), 340.0}}, TAILOR_CONTRADICTION, F(OVER_SHOULDER),
     "over_shoulder 350 mm is too small for front_shoulder 340 mm: 370 to 600 mm is allowed"},
    {{{F(SLEEVE_FROM_CENTRE_BACK), 1100.0}, {F(ARM_LENGTH), 600.0}, {F(BACK_WIDTH), 400.0}}, TAILOR_CONTRADICTION,
     F(SLEEVE_FROM_CENTRE_BACK),
     "sleeve_from_centre_back 1100 mm is too large for arm_length 600 mm and back_width 400 mm: 680 to 1080 mm is "
     "allowed"},
    {{{F(BUTTON_STAND), 15.0}, {F(BUTTON_DIAMETER), 30.0}}, TAILOR_CONTRADICTION, F(BUTTON_STAND),
     "button_stand 15 mm is too small for button_diameter 30 mm: 17 to 45 mm is allowed"},
    {{{F(UPPER_ARM_GIRTH), 560.0}, {F(CHEST_GIRTH), 1000.0}}, TAILOR_CONTRADICTION, F(UPPER_ARM_GIRTH),
     "upper_arm_girth 560 mm is too large for chest_girth 1000 mm: 191.4 to 491.4 mm is allowed"},
    {{{F(UPPER_ARM_GIRTH), 200.0}, {F(WRIST_GIRTH), 190.0}}, TAILOR_CONTRADICTION, F(UPPER_ARM_GIRTH),
     "upper_arm_girth 200 mm is too small for wrist_girth 190 mm: 210 to 600 mm is allowed"},
    {{{F(CUFF_WIDTH), 115.0}, {F(WRIST_GIRTH), 220.0}}, TAILOR_CONTRADICTION, F(CUFF_WIDTH),
     "cuff_width 115 mm is too small for wrist_girth 220 mm: 120 to 180 mm is allowed"},
    {{{F(BACK_WAIST_LENGTH), 350.0}, {F(STATURE), 2000.0}}, TAILOR_CONTRADICTION, F(BACK_WAIST_LENGTH),
     "back_waist_length 350 mm is too small for stature 2000 mm: 380 to 620 mm is allowed"},
    {{{F(SEAT_LEVEL), 900.0}, {F(STATURE), 1800.0}}, TAILOR_CONTRADICTION, F(SEAT_LEVEL),
     "seat_level 900 mm is too large for back_waist_length 450 mm (assumed): 530 to 800 mm is allowed"},
    {{{F(BELLY_LEVEL), 350.0}, {F(STATURE), 1800.0}}, TAILOR_CONTRADICTION, F(BELLY_LEVEL),
     "belly_level 350 mm is too small for back_waist_length 450 mm (assumed): 420 to 657 mm is allowed"},
    {{{F(BELLY_LEVEL), 700.0}, {F(STATURE), 1800.0}}, TAILOR_CONTRADICTION, F(BELLY_LEVEL),
     "belly_level 700 mm is too large for seat_level 657 mm (assumed): 420 to 657 mm is allowed"},
    {{{F(COAT_LENGTH), 1050.0}, {F(STATURE), 1700.0}}, TAILOR_CONTRADICTION, F(COAT_LENGTH),
     "coat_length 1050 mm is too large for stature 1700 mm: 640.5 to 1020 mm is allowed"},
    {{{F(FRONT_SHOULDER), 250.0}, {F(SCYE_DEPTH), 220.0}}, TAILOR_CONTRADICTION, F(FRONT_SHOULDER),
     "front_shoulder 250 mm is too small for scye_depth 220 mm: 260 to 480 mm is allowed"},
    {{{F(OVER_SHOULDER), 700.0}, {F(SCYE_DEPTH), 220.0}}, TAILOR_CONTRADICTION, F(OVER_SHOULDER),
     "over_shoulder 700 mm is too large for scye_depth 220 mm: 330 to 650 mm is allowed"},
    {{{F(FRONT_WAIST_LENGTH), 400.0}, {F(BACK_WAIST_LENGTH), 450.0}}, TAILOR_CONTRADICTION, F(FRONT_WAIST_LENGTH),
     "front_waist_length 400 mm is too small for back_waist_length 450 mm: 410 to 710 mm is allowed"},
    {{{F(FRONT_WAIST_LENGTH), 420.0}, {F(BACK_WAIST_LENGTH), 440.0}, {F(FRONT_SHOULDER), 400.0}}, TAILOR_CONTRADICTION,
     F(FRONT_WAIST_LENGTH),
     "front_waist_length 420 mm is too small for front_shoulder 400 mm: 440 to 760 mm is allowed"},
    {{{F(ARM_LENGTH), 800.0}, {F(STATURE), 1700.0}}, TAILOR_CONTRADICTION, F(ARM_LENGTH),
     "arm_length 800 mm is too large for stature 1700 mm: 443.7 to 703.7 mm is allowed"},

    /* a default that leaves its range: who is so long in the back has to be measured */
    {{{F(BACK_WAIST_LENGTH), 620.0}, {F(STATURE), 2200.0}}, TAILOR_OK, 0, ""},
    {{{F(CHEST_GIRTH), 700.0}, {F(BACK_WIDTH), 500.0}}, TAILOR_OUT_OF_RANGE, F(CROSS_CHEST),
     "cross_chest is not given, and 58 mm, found from chest_girth 700 mm and back_width 500 mm, lies outside 160 to "
     "800 mm: measure it"},
};

static void every_reason(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    (void)state;
    for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++) {
        const refusal *one = &refusals[i];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1016.0;
        memset(&fault, 0, sizeof fault);
        for (int j = 0; j < 4 && one->values[j].field != 0; j++)
            client[one->values[j].field] = one->values[j].value;
        tailor_status status = tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault);
        assert_string_equal(fault.sentence, one->sentence);
        assert_string_equal(tailor_status_name(status), tailor_status_name(one->status));
        assert_int_equal(fault.status, status);
        assert_int_equal(fault.index, one->blamed);
        assert_int_equal(fault.table, one->blamed != 0 ? TAILOR_TABLE_FIELD : TAILOR_TABLE_NONE);
        /* without a fault the answer is the same */
        assert_int_equal(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, NULL), status);
    }
}

static void unknown_numbers(void **state)
{
    double client[TAILOR_FIELD_COUNT + 1];
    tailor_fault fault;
    (void)state;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT + 1);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016.0;
    client[TAILOR_FIELD_COUNT] = 5.0;
    assert_int_equal(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT + 1, NULL, NULL, 0, &fault),
                     TAILOR_UNKNOWN_FIELD);
    assert_string_equal(fault.sentence, "the value 5 was given for a number that this library does not know");
}

static void the_house_is_named(void **state)
{
    double fields[TAILOR_FIELD_COUNT];
    tailor_house *house = NULL;
    tailor_fault fault;
    (void)state;
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    fields[TAILOR_FIELD_LAPEL_WIDTH] = 200.0; /* whatever a client would give: the house is refused when it is made */
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, NULL, &house, &fault), TAILOR_OUT_OF_RANGE);
    assert_null(house);
    assert_string_equal(fault.sentence,
                        "lapel_width 200 mm is too large: 60 to 112 mm is allowed (in the house's values)");
}

/* Just outside its range every field is refused by its own name, and at its limits it is not. */
static void every_range_is_kept(void **state)
{
    const tailor_table *table = tailor_field_table();
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    (void)state;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        double low = tailor_table_low(table, i), high = tailor_table_high(table, i);
        const double values[] = {low, high, nextafter(low, -INFINITY), nextafter(high, INFINITY)};
        for (int j = 0; j < 4; j++) {
            tailor_status status;
            tailor_fields_clear(client, TAILOR_FIELD_COUNT);
            client[TAILOR_FIELD_CHEST_GIRTH] = 1016.0;
            client[i] = values[j];
            status = tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault);
            if (j >= 2) {
                assert_int_equal(status, tailor_table_choices(table, i) ? TAILOR_NOT_A_CHOICE
                                                                                : TAILOR_OUT_OF_RANGE);
                assert_int_equal(fault.index, i);
                assert_true(fault.value == values[j] && fault.low == low && fault.high == high);
            } else if (status != TAILOR_OK) { /* alone it may be too much for the others, but never for itself */
                assert_true(status == TAILOR_CONTRADICTION || (status == TAILOR_OUT_OF_RANGE && fault.index != i));
            }
        }
    }
}

int test_refusals(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_reason),
        cmocka_unit_test(unknown_numbers),
        cmocka_unit_test(the_house_is_named),
        cmocka_unit_test(every_range_is_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

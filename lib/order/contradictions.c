/* Limits that one field sets another. They are wide: each is meant to catch a slip of tape, pen or unit, and never to
 * refuse a man who can be measured. Those that follow from the body were laid outside the regressions of ANSUR II
 * (Gordon et al. 2014, NATICK/TR-15/007) by more than 2.5 standard errors; the rest is plain geometry. Where no other
 * source stands, the numbers are own judgement. */
#include <math.h>
#include "../base/fault.h"
#include "../base/table.h"
#include "form.h"
#include "validate.h"

typedef struct limit {
    int field;
    tailor_in_form low, high; /* a constant NaN: the table's range is the only limit there */
} limit;

#define F(name) TAILOR_FIELD_##name
#define NONE {NAN, 0, {{0.0, 0}}}
#define ONE(constant, factor, a) {constant, 1, {{factor, F(a)}}}
#define TWO(constant, f, a, g, b) {constant, 2, {{f, F(a)}, {g, F(b)}}}

static const limit limits[] = {
    /* girths against the chest */
    {F(WAIST_GIRTH), ONE(0.0, 0.5, CHEST_GIRTH), ONE(200.0, 1.0, CHEST_GIRTH)},
    {F(SEAT_GIRTH), ONE(150.0, 0.5, CHEST_GIRTH), ONE(500.0, 0.75, CHEST_GIRTH)},
    {F(NECK_GIRTH), ONE(40.0, 0.2338, CHEST_GIRTH), ONE(260.0, 0.2338, CHEST_GIRTH)},
    {F(UPPER_ARM_GIRTH), ONE(-120.0, 0.3114, CHEST_GIRTH), ONE(180.0, 0.3114, CHEST_GIRTH)},
    {F(UPPER_ARM_GIRTH), ONE(20.0, 1.0, WRIST_GIRTH), NONE},
    {F(BELLY_GIRTH), ONE(-60.0, 1.0, WAIST_GIRTH), ONE(350.0, 1.0, WAIST_GIRTH)},
    {F(CUFF_WIDTH), ONE(10.0, 0.5, WRIST_GIRTH), NONE},

    /* a tenth to a quarter of the chest for each scye */
    {F(CROSS_CHEST), TWO(0.0, 0.5, CHEST_GIRTH, -1.0, BACK_WIDTH), TWO(0.0, 0.8, CHEST_GIRTH, -1.0, BACK_WIDTH)},

    /* levels down the back */
    {F(BACK_WAIST_LENGTH), ONE(0.0, 0.19, STATURE), ONE(0.0, 0.34, STATURE)},
    {F(SCYE_DEPTH), NONE, TWO(-70.0, 1.0, BACK_WAIST_LENGTH, -1.0, SCYE_DROP)},
    {F(SEAT_LEVEL), ONE(80.0, 1.0, BACK_WAIST_LENGTH), ONE(350.0, 1.0, BACK_WAIST_LENGTH)},
    {F(BELLY_LEVEL), ONE(-30.0, 1.0, BACK_WAIST_LENGTH), ONE(0.0, 1.0, SEAT_LEVEL)},
    {F(COAT_LENGTH), ONE(20.0, 1.0, SEAT_LEVEL), ONE(0.0, 0.6, STATURE)},

    /* the cutter's direct measures against what they run over */
    {F(FRONT_SHOULDER), ONE(40.0, 1.0, SCYE_DEPTH), ONE(260.0, 1.0, SCYE_DEPTH)},
    {F(OVER_SHOULDER), ONE(110.0, 1.0, SCYE_DEPTH), ONE(430.0, 1.0, SCYE_DEPTH)},
    {F(OVER_SHOULDER), ONE(30.0, 1.0, FRONT_SHOULDER), ONE(260.0, 1.0, FRONT_SHOULDER)},
    {F(FRONT_WAIST_LENGTH), ONE(-40.0, 1.0, BACK_WAIST_LENGTH), ONE(260.0, 1.0, BACK_WAIST_LENGTH)},
    {F(FRONT_WAIST_LENGTH), ONE(40.0, 1.0, FRONT_SHOULDER), NONE},
    {F(ARM_LENGTH), ONE(-170.0, 0.361, STATURE), ONE(90.0, 0.361, STATURE)},
    {F(SLEEVE_FROM_CENTRE_BACK), TWO(-120.0, 1.0, ARM_LENGTH, 0.5, BACK_WIDTH),
     TWO(280.0, 1.0, ARM_LENGTH, 0.5, BACK_WIDTH)},

    /* style: the leaf covers the neck seam; the button stays on the cloth and clear of the next one */
    {F(COLLAR_FALL), ONE(3.0, 1.0, COLLAR_STAND), NONE},
    {F(BUTTON_STAND), ONE(2.0, 0.5, BUTTON_DIAMETER), NONE},
};

#undef F
#undef NONE
#undef ONE
#undef TWO

static void say_value(tailor_fault *fault, int field, const double *fields, const int32_t *origins)
{
    const tailor_table *table = tailor_field_table();
    tailor_in_fault_say_number(fault, fields[field], tailor_table_text(table, field, TAILOR_COLUMN_UNIT));
    if (origins && origins[field] == TAILOR_ORIGIN_RULE)
        tailor_in_fault_say(fault, " (assumed)");
}

static void say_others(tailor_fault *fault, const tailor_in_form *form, const double *fields, const int32_t *origins)
{
    for (int i = 0; i < form->count; i++) {
        int other = form->terms[i].field;
        tailor_in_fault_say(fault, i > 0 ? " and " : " ");
        tailor_in_fault_say(fault, tailor_table_text(tailor_field_table(), other, TAILOR_COLUMN_NAME));
        tailor_in_fault_say(fault, " ");
        say_value(fault, other, fields, origins);
    }
}

/* The other fields leave low to high, and so does the table: what both allow, unless that is nothing. */
static void say_allowed(tailor_fault *fault)
{
    const char *unit = tailor_table_text(tailor_field_table(), fault->index, TAILOR_COLUMN_UNIT);
    double low = fmax(fault->low, tailor_table_low(tailor_field_table(), fault->index));
    double high = fmin(fault->high, tailor_table_high(tailor_field_table(), fault->index));
    if (low > high) {
        tailor_in_fault_say(fault, ": no value that is allowed fits");
        return;
    }
    fault->low = low;
    fault->high = high;
    tailor_in_fault_say(fault, ": ");
    tailor_in_fault_say_number(fault, low, "");
    tailor_in_fault_say(fault, " to ");
    tailor_in_fault_say_number(fault, high, unit);
    tailor_in_fault_say(fault, " is allowed");
}

tailor_status tailor_in_contradictions_check(const double *fields, const int32_t *origins, tailor_fault *fault)
{
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        const limit *one = &limits[i];
        double value = fields[one->field];
        double low = tailor_in_form_value(&one->low, fields), high = tailor_in_form_value(&one->high, fields);
        int too_small = value < low, too_large = value > high; /* neither with a NaN */
        if (!too_small && !too_large)
            continue;
        tailor_in_fault(fault, TAILOR_CONTRADICTION, tailor_field_table(), one->field, value, low, high, "%n ");
        if (fault) {
            say_value(fault, one->field, fields, origins);
            tailor_in_fault_say(fault, too_small ? " is too small for" : " is too large for");
            say_others(fault, too_small ? &one->low : &one->high, fields, origins);
            say_allowed(fault);
        }
        return TAILOR_CONTRADICTION;
    }
    return tailor_in_style_check(fields, fault);
}

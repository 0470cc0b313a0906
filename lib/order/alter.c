/* Altering an order after a fitting: what was resolved, and so much more or less of it. */
#include <math.h>
#include <string.h>
#include "../base/fault.h"
#include "../base/table.h"
#include "house.h"
#include "validate.h"

enum { NAME = 64 };

/* A measure that stands in the place of another when it is given: then the other's number is not the coat's. */
static const struct {
    int given, field, left, right;
} stands_in[] = {
    {TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK, TAILOR_FIELD_ARM_LENGTH, TAILOR_FIELD_ARM_LENGTH_LEFT,
     TAILOR_FIELD_ARM_LENGTH_RIGHT},
};

/* The field of both sides that this one is a side of, 0 for none. */
static int both_of(int field)
{
    static const char *const suffixes[] = {"_left", "_right"};
    const char *own = tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
    for (int i = 0; i < 2; i++) {
        char name[NAME];
        size_t length = strlen(own), more = strlen(suffixes[i]);
        if (length <= more || length >= sizeof name || strcmp(own + length - more, suffixes[i]) != 0)
            continue;
        memcpy(name, own, length - more);
        name[length - more] = '\0';
        return tailor_table_find(tailor_field_table(), name);
    }
    return 0;
}

static const char *unit_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_UNIT);
}

static void say_name(tailor_fault *fault, int field)
{
    tailor_in_fault_say(fault, tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME));
}

/* A change by itself: of a number, and finite. */
static tailor_status check_delta(int field, double delta, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    if (tailor_in_table_row(table, field)->choices)
        return tailor_in_fault(fault, TAILOR_NOT_A_CHOICE, table, field, delta, NAN, NAN,
                               "%n is a choice, nothing can be added to it: order another one instead");
    if (isinf(delta))
        return tailor_in_fault(fault, TAILOR_NOT_FINITE, table, field, delta, NAN, NAN,
                               "%n cannot be altered by an infinite amount");
    return TAILOR_OK;
}

/* A number that another measure stands in for cannot be altered with effect, nor to the effect that is meant. */
static tailor_status check_stand_in(const double *fields, const double *deltas, tailor_fault *fault)
{
    for (size_t i = 0; i < sizeof stands_in / sizeof stands_in[0]; i++) {
        const int given = stands_in[i].given, sides[] = {stands_in[i].left, stands_in[i].right};
        int wrong = !isnan(fields[given]) && !isnan(deltas[stands_in[i].field]) ? stands_in[i].field : 0;
        for (int s = 0; s < 2 && !isnan(fields[given]) && !wrong; s++) {
            int own = !isnan(fields[sides[s]]), altered = !isnan(deltas[sides[s]]);
            if (altered && !own)
                wrong = sides[s];
            if (own && !altered && !isnan(deltas[given])) { /* one side would be altered, the other not */
                tailor_in_fault(fault, TAILOR_CONTRADICTION, tailor_field_table(), given, deltas[given], NAN, NAN,
                                "%n is altered, but not ");
                say_name(fault, sides[s]);
                tailor_in_fault_say(fault, ", which is given in its place: alter that too");
                return TAILOR_CONTRADICTION;
            }
        }
        if (!wrong)
            continue;
        tailor_in_fault(fault, TAILOR_CONTRADICTION, tailor_field_table(), wrong, deltas[wrong], NAN, NAN,
                        "%n cannot be altered: ");
        say_name(fault, given);
        tailor_in_fault_say(fault, " is given and stands in its place: alter that, for both sides");
        return TAILOR_CONTRADICTION;
    }
    return TAILOR_OK;
}

/* "arm_length 602 mm altered by +300 mm is 902 mm: 400 to 830 mm is allowed" */
static tailor_status out_of_range(int field, double before, double delta, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    const double low = tailor_table_low(table, field), high = tailor_table_high(table, field);
    tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, table, field, before + delta, low, high, "%n ");
    tailor_in_fault_say_number(fault, before, unit_of(field));
    tailor_in_fault_say(fault, delta > 0 ? " altered by +" : " altered by ");
    tailor_in_fault_say_number(fault, delta, unit_of(field));
    tailor_in_fault_say(fault, " is ");
    tailor_in_fault_say_number(fault, before + delta, unit_of(field));
    tailor_in_fault_say(fault, ": ");
    tailor_in_fault_say_number(fault, low, "");
    tailor_in_fault_say(fault, " to ");
    tailor_in_fault_say_number(fault, high, unit_of(field));
    tailor_in_fault_say(fault, " is allowed");
    return TAILOR_OUT_OF_RANGE;
}

/* The value that a field has on its side before it is altered; NaN where there is none. */
static double base_of(int field, const double *fields)
{
    int both = isnan(fields[field]) ? both_of(field) : 0;
    return both ? fields[both] : fields[field];
}

/* By how much a field is altered in all: a change of both sides is one of each side that has a value of its own. */
static double delta_of(int field, const double *fields, const double *deltas)
{
    int both = both_of(field);
    double more = both ? deltas[both] : (double)NAN;
    if (isnan(more) || (isnan(deltas[field]) && isnan(fields[field])))
        return deltas[field];
    return isnan(deltas[field]) ? more : deltas[field] + more;
}

static tailor_status alter_field(int field, const double *fields, const double *deltas, double *row,
                                 tailor_fault *fault)
{
    double base = base_of(field, fields), delta = delta_of(field, fields, deltas);
    if (isnan(delta))
        return TAILOR_OK;
    if (isnan(base))
        return tailor_in_fault(fault, TAILOR_MISSING, tailor_field_table(), field, delta,
                               tailor_table_low(tailor_field_table(), field),
                               tailor_table_high(tailor_field_table(), field),
                               "%n is neither given nor assumed, so it cannot be altered: give it in the order");
    if (!(base + delta >= tailor_table_low(tailor_field_table(), field) &&
          base + delta <= tailor_table_high(tailor_field_table(), field)))
        return out_of_range(field, base, delta, fault);
    row[field] = base + delta;
    return TAILOR_OK;
}

tailor_status tailor_order_alter(const tailor_house *house, const double *client, const double *deltas,
                                 double *altered, size_t count, tailor_fault *fault)
{
    double row[TAILOR_FIELD_COUNT], change[TAILOR_FIELD_COUNT], fields[TAILOR_FIELD_COUNT];
    tailor_house given;
    if (!altered && count > 0)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the output is NULL though its count is not 0");
    tailor_in_house_copy(house, &given);
    tailor_status status = tailor_in_house_resolve(&given, client, client ? count : 0, fields, NULL, fault);
    if (status == TAILOR_OK)
        status = tailor_in_row_take(tailor_field_table(), client, client ? count : 0, row, fault);
    if (status == TAILOR_OK)
        status = tailor_in_row_take(tailor_field_table(), deltas, deltas ? count : 0, change, fault);
    for (int i = 1; status == TAILOR_OK && i < TAILOR_FIELD_COUNT; i++)
        if (!isnan(change[i]))
            status = check_delta(i, change[i], fault);
    if (status == TAILOR_OK)
        status = check_stand_in(fields, change, fault);
    for (int i = 1; status == TAILOR_OK && i < TAILOR_FIELD_COUNT; i++)
        if (tailor_in_table_row(tailor_field_table(), i))
            status = alter_field(i, fields, change, row, fault);
    if (status == TAILOR_OK) /* what comes out is an order again */
        status = tailor_in_house_resolve(&given, row, TAILOR_FIELD_COUNT, fields, NULL, fault);
    if (status != TAILOR_OK)
        return status;
    for (size_t i = 0; i < count; i++)
        altered[i] = i < TAILOR_FIELD_COUNT ? row[i] : NAN;
    return TAILOR_OK;
}

#include "validate.h"

#include <math.h>
#include <string.h>
#include "../base/fault.h"
#include "../base/table.h"
#include "choice.h"
#include "form.h"

tailor_status tailor_in_row_take(const tailor_table *table, const double *given, size_t count, double *row,
                                 tailor_fault *fault)
{
    size_t known = (size_t)tailor_table_size(table);
    if (count > 0 && !given)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "an array is NULL though its count is not 0");
    for (size_t i = 0; i < count; i++) {
        int has_row = i < known && tailor_in_table_row(table, (int)i) != NULL;
        if (!has_row && !isnan(given[i]))
            return tailor_in_fault(fault, TAILOR_UNKNOWN_FIELD, table, (int)i, given[i], NAN, NAN,
                                   "the value %v was given for a number that this library does not know");
    }
    for (size_t i = 0; i < known; i++)
        row[i] = i < count ? given[i] : NAN;
    return TAILOR_OK;
}

/* "did you mean 40 in (1016 mm)?" for every unit in which the value would lie within the range. */
static int say_other_units(tailor_fault *fault, double value, double low, double high)
{
    static const struct { const char *name; double mm; } units[] = {{"in", 25.4}, {"cm", 10.0}, {"m", 1000.0}};
    int found = 0;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        double mm = value * units[i].mm;
        if (mm < low || mm > high)
            continue;
        tailor_in_fault_say(fault, found ? " or " : "; did you mean ");
        tailor_in_fault_say_number(fault, value, units[i].name);
        tailor_in_fault_say(fault, " (");
        tailor_in_fault_say_number(fault, mm, "mm");
        tailor_in_fault_say(fault, ")");
        found = 1;
    }
    if (found)
        tailor_in_fault_say(fault, "?");
    return found;
}

static tailor_status too_small(const tailor_table *table, int number, double value, double low, double high,
                               tailor_fault *fault)
{
    tailor_fault spare; /* the status is wanted even where the fault is not */
    if (!fault)
        fault = &spare;
    tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, table, number, value, low, high,
                    "%n %v%u is too small: %l to %h%u is allowed");
    /* a slip of unit makes a value many times too small; one that is nearly large enough is a slip of the tape */
    if (value > 0.0 && value < 0.5 * low && strcmp(tailor_table_text(table, number, TAILOR_COLUMN_UNIT), "mm") == 0 &&
        say_other_units(fault, value, low, high))
        fault->status = TAILOR_WRONG_UNIT;
    return fault->status;
}

tailor_status tailor_in_value_check(const tailor_table *table, int number, double value, tailor_fault *fault)
{
    const tailor_in_row *row = tailor_in_table_row(table, number);
    double low = row ? row->low : (double)NAN, high = row ? row->high : (double)NAN;
    if (!row || isnan(value) || (value >= low && value <= high && !row->choices))
        return TAILOR_OK;
    if (isinf(value))
        return tailor_in_fault(fault, TAILOR_NOT_FINITE, table, number, value, low, high,
                               "%n is infinite: %l to %h%u is allowed");
    if (row->choices) {
        if (!tailor_in_choice_is(row->choices, value))
            return tailor_in_choice_fault(fault, table, number, value,
                                          "%n %v is not a choice: whole numbers from %l to %h stand for ");
        return TAILOR_OK;
    }
    if (value < low)
        return too_small(table, number, value, low, high, fault);
    return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, table, number, value, low, high,
                           "%n %v%u is too large: %l to %h%u is allowed");
}

/* A default may fall outside its range when what it is found from is extreme; then it has to be measured. */
static tailor_status bad_default(const tailor_in_rule *rule, double value, const double *fields, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, table, rule->field, value, tailor_table_low(table, rule->field),
                    tailor_table_high(table, rule->field), "%n is not given, and %v%u, found from");
    for (int i = 0; fault && i < rule->form.count; i++) {
        int from = rule->form.terms[i].field;
        tailor_in_fault_say(fault, i > 0 ? " and " : " ");
        tailor_in_fault_say(fault, tailor_table_text(table, from, TAILOR_COLUMN_NAME));
        tailor_in_fault_say(fault, " ");
        tailor_in_fault_say_number(fault, fields[from], tailor_table_text(table, from, TAILOR_COLUMN_UNIT));
    }
    if (fault) {
        tailor_in_fault_say(fault, ", lies outside ");
        tailor_in_fault_say_number(fault, fault->low, "");
        tailor_in_fault_say(fault, " to ");
        tailor_in_fault_say_number(fault, fault->high, tailor_table_text(table, rule->field, TAILOR_COLUMN_UNIT));
        tailor_in_fault_say(fault, ": measure it");
    }
    return TAILOR_OUT_OF_RANGE;
}

tailor_status tailor_in_defaults_fill(double *fields, int32_t *origins, tailor_fault *fault)
{
    for (int i = 0; i < tailor_in_rule_count; i++) {
        const tailor_in_rule *rule = &tailor_in_rules[i];
        double value;
        if (!isnan(fields[rule->field]))
            continue;
        value = tailor_in_rule_value(rule, fields);
        if (tailor_in_value_check(tailor_field_table(), rule->field, value, NULL) != TAILOR_OK)
            return bad_default(rule, value, fields, fault);
        fields[rule->field] = value;
        if (origins)
            origins[rule->field] = TAILOR_ORIGIN_RULE;
    }
    return TAILOR_OK;
}

static tailor_status missing(const tailor_table *table, int number, const char *sentence, tailor_fault *fault)
{
    return tailor_in_fault(fault, TAILOR_MISSING, table, number, NAN, tailor_table_low(table, number),
                           tailor_table_high(table, number), sentence);
}

tailor_status tailor_in_required_check(const double *fields, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    for (int number = 1; number < TAILOR_FIELD_COUNT; number++)
        if (isnan(fields[number]) && strcmp(tailor_table_text(table, number, TAILOR_COLUMN_RULE), "required") == 0)
            return missing(table, number, "%n is required and not given: %l to %h%u is allowed", fault);
    return TAILOR_OK;
}

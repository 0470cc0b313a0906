#include "cautions.h"

#include <math.h>

#include "../base/fault.h"

/* Common practice: a coat cut for one person on fewer measures than these is tried in a toile first. A sleeve measured
 * from the centre back is a sleeve measured. */
static const struct {
    int field, instead;
} bespoke[TAILOR_IN_BESPOKE_MEASURES] = {
    {TAILOR_FIELD_CHEST_GIRTH, 0},
    {TAILOR_FIELD_WAIST_GIRTH, 0},
    {TAILOR_FIELD_SEAT_GIRTH, 0},
    {TAILOR_FIELD_BACK_WAIST_LENGTH, 0},
    {TAILOR_FIELD_ARM_LENGTH, TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK},
    {TAILOR_FIELD_BACK_WIDTH, 0},
    {TAILOR_FIELD_SHOULDER_SLOPE, 0},
};

int tailor_in_toile_fields(const double *fields, const int32_t *origins, int32_t missing[TAILOR_IN_BESPOKE_MEASURES])
{
    int count = 0;
    if ((int)fields[TAILOR_FIELD_MAKING] == TAILOR_MAKING_MADE_TO_MEASURE)
        return 0; /* it may fill what was not measured */
    for (int i = 0; i < TAILOR_IN_BESPOKE_MEASURES; i++)
        if (origins[bespoke[i].field] != TAILOR_ORIGIN_CLIENT &&
            !(bespoke[i].instead && origins[bespoke[i].instead] == TAILOR_ORIGIN_CLIENT))
            missing[count++] = bespoke[i].field;
    return count;
}

/** The class that a quantity reaches; 0 for none. What lies within the last bits of a bound has not reached it. */
static int class_of(const tailor_in_caution_rule *rule, double value, double *limit)
{
    const double last_bits = 1e-6;
    if (value > rule->caution + last_bits) {
        *limit = rule->caution;
        return TAILOR_CAUTION_CLASS_CAUTION;
    }
    *limit = rule->told;
    return value > rule->told + last_bits ? TAILOR_CAUTION_CLASS_TOLD : 0;
}

int tailor_in_cautions_find(const tailor_in_cautioned *coat, tailor_in_caution *found)
{
    int32_t missing[TAILOR_IN_BESPOKE_MEASURES];
    int count = 0;
    int toile = tailor_in_toile_fields(coat->fields, coat->origins, missing);
    if (toile)
        found[count++] = (tailor_in_caution){TAILOR_CAUTION_TOILE_ONLY, TAILOR_CAUTION_CLASS_CAUTION, toile, 0};
    for (int i = 0; i < tailor_in_caution_rule_count; i++) {
        const tailor_in_caution_rule *rule = &tailor_in_caution_rules[i];
        double value = coat->quantities[rule->quantity], limit;
        int reached = class_of(rule, value, &limit);
        if (reached)
            found[count++] = (tailor_in_caution){rule->number, reached, value, limit};
    }
    if (coat->newer)
        found[count++] = (tailor_in_caution){TAILOR_CAUTION_FIELDS_NEWER, TAILOR_CAUTION_CLASS_CAUTION, coat->newer, 0};
    if (coat->edition != tailor_edition())
        found[count++] = (tailor_in_caution){TAILOR_CAUTION_EDITION_OTHER, TAILOR_CAUTION_CLASS_CAUTION, coat->edition,
                                             tailor_edition()};
    return count;
}

static void say_names(tailor_fault *fault, const int32_t *fields, int count)
{
    for (int i = 0; i < count; i++) {
        tailor_in_fault_say(fault, i == 0 ? "" : i + 1 < count ? ", " : " and ");
        tailor_in_fault_say(fault, tailor_table_text(tailor_field_table(), fields[i], TAILOR_COLUMN_NAME));
    }
}

/** The caution's own words, where there are any: %v, %l and so on as in tailor_in_fault. */
static const char *words_of(const tailor_in_caution *caution)
{
    switch (caution->number) {
    case TAILOR_CAUTION_TOILE_ONLY:
        return "Cut a toile only: not measured: ";
    case TAILOR_CAUTION_SCYE_DEEPENED:
        return "The scye is ";
    case TAILOR_CAUTION_FIELDS_NEWER:
        return "%v fields are newer than this order: the house or a rule gave them. Look at the resolved order.";
    case TAILOR_CAUTION_EDITION_OTHER:
        return caution->value > 0 ? "The pattern was drafted by edition %v, this library drafts by edition %h."
                                  : "The pattern is no draft of this library: only its checks vouch for it.";
    default:
        return "%n: %v%u";
    }
}

void tailor_in_caution_fault(const tailor_in_cautioned *coat, const tailor_in_caution *caution, tailor_fault *fault)
{
    int32_t missing[TAILOR_IN_BESPOKE_MEASURES];
    tailor_in_fault(fault, TAILOR_OK, tailor_caution_table(), caution->number, caution->value, NAN, caution->limit,
                    words_of(caution));
    if (caution->number == TAILOR_CAUTION_TOILE_ONLY)
        say_names(fault, missing, tailor_in_toile_fields(coat->fields, coat->origins, missing));
    else if (caution->number == TAILOR_CAUTION_SCYE_DEEPENED) {
        tailor_in_fault_say_number(fault, round(10 * caution->value) / 10, "mm"); /* finer than any chalk */
        tailor_in_fault_say(fault, " deeper than measured, for an arm of ");
        tailor_in_fault_say_number(fault, coat->fields[TAILOR_FIELD_UPPER_ARM_GIRTH], "mm");
    } else
        return;
    tailor_in_fault_say(fault, ".");
}

/* From a verdict to a fault with its sentence. */
#include <math.h>
#include <string.h>

#include <tailorgeom/rows.h>

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/choice.h"

/* The layout is part of the ABI: see rows.h. */
_Static_assert(sizeof(tailor_verdict) == 48, "a verdict has 48 bytes");
_Static_assert(offsetof(tailor_verdict, origin) == 12 && offsetof(tailor_verdict, limit) == 24 &&
                   offsetof(tailor_verdict, cautions) == 32,
               "in this order");

static const char *said_of_check(const tailor_verdict *r)
{
    return isnan(r->limit)       ? "check %n: %v%u"
           : r->value > r->limit ? "check %n: %v%u, at most %h%u is allowed"
                                 : "check %n: %v%u, at least %l%u is needed";
}

/* What is said of a row of any other table; %l and %h are what is allowed. */
static const char *said_of_row(const tailor_verdict *r)
{
    switch (r->status) {
    case TAILOR_MISSING:
        return "%n is required and not given: %l to %h%u is allowed";
    case TAILOR_NOT_FINITE:
        return "%n is not finite: %l to %h%u is allowed";
    case TAILOR_NOT_A_CHOICE:
        return "%n %v is not a choice: whole numbers from %l to %h stand for ";
    case TAILOR_WRONG_UNIT:
        return "%n %v%u is far too small: %l to %h%u is allowed; is it in another unit?";
    default:
        break;
    }
    int small = r->value<r->limit, large = r->value> r->limit;
    if (r->status == TAILOR_CONTRADICTION && small)
        return "%n %v%u is too small for the other values of this order: at least %l%u is allowed";
    if (r->status == TAILOR_CONTRADICTION && large)
        return "%n %v%u is too large for the other values of this order: at most %h%u is allowed";
    return small   ? "%n %v%u is too small: %l to %h%u is allowed"
           : large ? "%n %v%u is too large: %l to %h%u is allowed"
                   : NULL;
}

static void say_look_at(const tailor_table *table, int index, double value, tailor_fault *fault)
{
    tailor_in_fault_say(fault, ": look at ");
    tailor_in_fault_say(fault, tailor_table_text(table, index, TAILOR_COLUMN_NAME));
    if (!isnan(value)) {
        tailor_in_fault_say(fault, " ");
        tailor_in_fault_say_number(fault, value, tailor_table_text(table, index, TAILOR_COLUMN_UNIT));
    }
}

static void say_origin(int origin, tailor_fault *fault)
{
    if (origin == TAILOR_ORIGIN_RULE)
        tailor_in_fault_say(fault, " (not given, but found by rule)");
    else if (origin == TAILOR_ORIGIN_HOUSE)
        tailor_in_fault_say(fault, " (given by the house)");
}

void tailor_verdict_fault(const tailor_verdict *verdict, tailor_fault *fault)
{
    if (!verdict || !fault)
        return;
    if (verdict->status == TAILOR_OK) {
        memset(fault, 0, sizeof *fault);
        return;
    }
    const tailor_table *table = tailor_table_of(verdict->table);
    if (!tailor_in_table_row(table, verdict->index)) {
        tailor_in_fault(fault, verdict->status, table, verdict->index, verdict->value, NAN, NAN,
                        tailor_status_text(verdict->status));
        return;
    }
    int check = verdict->table == TAILOR_TABLE_CHECK;
    double low = check ? NAN : tailor_table_low(table, verdict->index);
    double high = check ? NAN : tailor_table_high(table, verdict->index);
    if (verdict->value < verdict->limit)
        low = verdict->limit;
    else if (verdict->value > verdict->limit)
        high = verdict->limit;
    const char *said = check ? said_of_check(verdict) : said_of_row(verdict);
    if (verdict->status == TAILOR_NOT_A_CHOICE)
        tailor_in_choice_fault(fault, table, verdict->index, verdict->value, said);
    else
        tailor_in_fault(fault, verdict->status, table, verdict->index, verdict->value, low, high, said ? said : "");
    if (!said) /* sound in itself, but no coat closes on it */
        tailor_in_fault_say(fault, tailor_status_text(verdict->status));
    int field = check ? tailor_in_table_row(table, verdict->index)->field : said ? 0 : verdict->index;
    if (field)
        say_look_at(check ? tailor_field_table() : table, field, check ? NAN : verdict->value, fault);
    if (verdict->table == TAILOR_TABLE_FIELD)
        say_origin(verdict->origin, fault);
}

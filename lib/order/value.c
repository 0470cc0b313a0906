/* Values of a table's row as text: a choice by its name, a number with its unit. */
#include <math.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "../base/fault.h"
#include "../base/number.h"
#include "../base/table.h"
#include "choice.h"
#include "length_read.h"

static const double LARGEST = 1e15; /* below it, 17 figures are enough before the point */

static tailor_status read_choice(const tailor_table *table, int number, const char *text, double *value,
                                 tailor_fault *fault)
{
    const char *begin = text + strspn(text, " \t"), *end = begin + strlen(begin);
    while (end > begin && (end[-1] == ' ' || end[-1] == '\t'))
        end--;
    int choice = tailor_in_choice_find(tailor_table_choices(table, number), begin, (size_t)(end - begin));
    if (choice == 0)
        return tailor_in_choice_fault(fault, table, number, NAN, "%n takes one of ");
    *value = choice;
    return TAILOR_OK;
}

static tailor_status read_number(const tailor_table *table, int number, const char *text, double *value,
                                 tailor_fault *fault)
{
    const char *problem = tailor_in_number_read(text, tailor_table_text(table, number, TAILOR_COLUMN_UNIT), value);
    if (!problem)
        return TAILOR_OK;
    double low = tailor_table_low(table, number), high = tailor_table_high(table, number);
    tailor_in_fault(fault, TAILOR_BAD_LENGTH, table, number, NAN, low, high,
                    isnan(low) || isnan(high) ? "%n: " : "%n (%l to %h%u): ");
    tailor_in_fault_say(fault, problem);
    return TAILOR_BAD_LENGTH;
}

tailor_status tailor_value_read(const tailor_table *table, int number, const char *text, double *value,
                                tailor_fault *fault)
{
    if (!table || !text || !value)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "table, text and value must not be NULL");
    const tailor_in_row *row = tailor_in_table_row(table, number);
    if (!row)
        return tailor_in_fault(fault, TAILOR_UNKNOWN_FIELD, table, number, NAN, NAN, NAN,
                               "the table has no row of this number");
    if (row->texts[TAILOR_COLUMN_UNIT - 1][0] == '\0')
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, table, number, NAN, NAN, NAN, "%n has no unit and no value");
    return row->choices ? read_choice(table, number, text, value, fault)
                        : read_number(table, number, text, value, fault);
}

static int is_print(int print)
{
    return print == TAILOR_PRINT_MM || print == TAILOR_PRINT_EXACT || print == TAILOR_PRINT_INCH_8 ||
           print == TAILOR_PRINT_INCH_16;
}

tailor_status tailor_value_write(const tailor_table *table, int number, double value, int print, char *text,
                                 size_t capacity, size_t *needed)
{
    const tailor_in_row *row = tailor_in_table_row(table, number);
    if (!row || row->texts[TAILOR_COLUMN_UNIT - 1][0] == '\0' || !is_print(print))
        return TAILOR_BAD_ARGUMENT;
    if (!text && (capacity > 0 || !needed))
        return TAILOR_BAD_ARGUMENT;
    if (!isfinite(value))
        return TAILOR_NOT_FINITE;
    char buffer[80];
    tailor_in_text built = tailor_in_text_begin(buffer, sizeof buffer);
    const char *unit = tailor_in_unit_shown(row->texts[TAILOR_COLUMN_UNIT - 1]);
    if (row->choices) {
        if (!tailor_in_choice_is(row->choices, value))
            return TAILOR_NOT_A_CHOICE;
        tailor_in_text_add(&built, tailor_table_text(row->choices, (int)value, TAILOR_COLUMN_NAME));
    } else if (print != TAILOR_PRINT_EXACT && strcmp(unit, "mm") == 0) {
        char length[32];
        tailor_status status = tailor_length_write(value, print, length, sizeof length, NULL);
        if (status != TAILOR_OK)
            return status;
        tailor_in_text_add(&built, length);
        unit = print == TAILOR_PRINT_MM ? unit : "in";
    } else {
        if (!(fabs(value) < LARGEST))
            return TAILOR_OUT_OF_RANGE;
        tailor_in_text_add_plain(&built, tailor_in_decimal_of(value));
    }
    tailor_in_text_add(&built, unit[0] ? " " : "");
    tailor_in_text_add(&built, unit);
    return tailor_in_text_give(&built, text, capacity, needed);
}

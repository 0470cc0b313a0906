#include "given.h"

#include <math.h>
#include <string.h>

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/form.h"
#include "../order/validate.h"

static tailor_status take_house(const tailor_table *table, const double *values, size_t count, double *row,
                                tailor_fault *fault)
{
    tailor_status status = tailor_in_row_take(table, values, count, row, fault);
    for (int number = 1; status == TAILOR_OK && number < tailor_table_size(table); number++)
        status = tailor_in_value_check(table, number, row[number], fault);
    if (status != TAILOR_OK)
        tailor_in_fault_say(fault, " (in the house's values)");
    return status;
}

tailor_status tailor_in_given_house(tailor_in_given *given, const double *house, size_t house_count,
                                    const double *house_constants, size_t house_constant_count, tailor_fault *fault)
{
    tailor_status status = take_house(tailor_field_table(), house, house_count, given->house, fault);
    if (status == TAILOR_OK)
        status = take_house(tailor_constant_table(), house_constants, house_constant_count, given->constants, fault);
    for (int i = 1; status == TAILOR_OK && i < TAILOR_CONSTANT_COUNT; i++)
        if (isnan(given->constants[i]))
            given->constants[i] = tailor_in_constant_defaults[i];
    return status;
}

tailor_status tailor_in_given_columns(tailor_in_given *given, const int32_t *columns, size_t count, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    size_t place_of[TAILOR_FIELD_COUNT] = {0}; /* from 1 */
    for (size_t i = 0; i < count; i++) {
        int field = columns[i];
        if (!tailor_in_table_row(table, field))
            return tailor_in_fault(fault, TAILOR_UNKNOWN_FIELD, table, field, NAN, NAN, NAN,
                                   "a column is of a field that this library does not know");
        if (place_of[field])
            return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, table, field, NAN, NAN, NAN, "%n has two columns");
        place_of[field] = i + 1;
    }
    given->column_count = 0;
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
        if (place_of[field])
            given->column[given->column_count++] = (tailor_in_column){field, place_of[field] - 1};
    return TAILOR_OK;
}

tailor_status tailor_in_given_resolve(const tailor_in_given *given, const double *order, double *fields,
                                      tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    memcpy(fields, given->house, sizeof given->house);
    for (int i = 0; i < given->column_count; i++) {
        tailor_in_column column = given->column[i];
        double value = order[column.place];
        tailor_status status = tailor_in_value_check(table, column.field, value, fault);
        if (status != TAILOR_OK)
            return status;
        if (!isnan(value))
            fields[column.field] = value;
    }
    tailor_status status = tailor_in_required_check(fields, fault);
    if (status == TAILOR_OK)
        status = tailor_in_defaults_fill(fields, NULL, fault);
    return status == TAILOR_OK ? tailor_in_contradictions_check(fields, NULL, fault) : status;
}

int tailor_in_given_origin(const tailor_in_given *given, const double *order, int field, double value)
{
    for (int i = 0; i < given->column_count; i++)
        if (given->column[i].field == field && !isnan(order[given->column[i].place]))
            return TAILOR_ORIGIN_CLIENT;
    if (field > 0 && field < TAILOR_FIELD_COUNT && !isnan(given->house[field]))
        return TAILOR_ORIGIN_HOUSE;
    return isnan(value) ? TAILOR_ORIGIN_NONE : TAILOR_ORIGIN_RULE;
}

#include "plan.h"

#include <math.h>
#include <string.h>

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/form.h"
#include "../order/quantity.h"
#include "../order/validate.h"

_Static_assert((int)TAILOR_IN_NEEDS_MAKE == (int)TAILOR_EXTENT_MAKE &&
                   (int)TAILOR_IN_NEEDS_SECTION == (int)TAILOR_EXTENT_SECTION,
               "what a quantity needs is an extent");

static tailor_status refuse(const tailor_table *table, tailor_status status, int number, size_t place,
                            const char *sentence, tailor_fault *fault)
{
    tailor_in_fault(fault, status, table, number, NAN, NAN, NAN, sentence);
    return tailor_in_fault_at(fault, status, place);
}

static tailor_status take_columns(tailor_rows *rows, const int32_t *columns, size_t count, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    size_t place_of[TAILOR_FIELD_COUNT] = {0}; /* from 1 */
    for (size_t i = 0; i < count; i++) {
        int field = columns[i];
        if (!tailor_in_table_row(table, field))
            return refuse(table, TAILOR_UNKNOWN_FIELD, field, i,
                          "a column is of a field that this library does not know", fault);
        if (place_of[field])
            return refuse(table, TAILOR_BAD_ARGUMENT, field, i, "%n has two columns", fault);
        place_of[field] = i + 1;
    }
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
        if (place_of[field])
            rows->column[rows->column_count++] = (tailor_in_column){field, place_of[field] - 1};
    return TAILOR_OK;
}

static tailor_status take_wanted(tailor_rows *rows, const int32_t *wanted, size_t count, tailor_fault *fault)
{
    for (size_t i = 0; i < count; i++) {
        if (!tailor_in_table_row(tailor_quantity_table(), wanted[i]))
            return refuse(tailor_quantity_table(), TAILOR_UNKNOWN_FIELD, wanted[i], i,
                          "a quantity is wanted that this library does not know", fault);
        rows->wanted[i] = wanted[i];
        rows->extent |= tailor_in_quantity_needs(wanted[i]);
    }
    rows->wanted_count = count;
    return TAILOR_OK;
}

tailor_status tailor_rows_new(const tailor_house *house, const int32_t *columns, size_t column_count,
                              const int32_t *wanted, size_t wanted_count, tailor_rows **rows, tailor_fault *fault)
{
    if (!rows || (!columns && column_count > 0) || (!wanted && wanted_count > 0))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "rows is NULL, or columns or wanted are though their count is not 0");
    if (wanted_count > SIZE_MAX / 2 / sizeof *wanted)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "more quantities are wanted than memory can hold");
    tailor_allocator memory = tailor_in_house_allocator(house);
    tailor_rows *made = memory.allocate(memory.user, sizeof *made + wanted_count * sizeof *wanted);
    if (!made)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the plan");
    memset(made, 0, sizeof *made);
    tailor_in_house_copy(house, &made->house);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        made->origins[i] = isnan(made->house.fields[i]) ? TAILOR_ORIGIN_NONE : TAILOR_ORIGIN_HOUSE;
    tailor_status status = take_columns(made, columns, column_count, fault);
    if (status == TAILOR_OK)
        status = take_wanted(made, wanted, wanted_count, fault);
    if (status != TAILOR_OK) {
        tailor_rows_free(made);
        return status;
    }
    *rows = made;
    return TAILOR_OK;
}

void tailor_rows_free(tailor_rows *rows)
{
    if (rows)
        rows->house.allocator.release(rows->house.allocator.user, rows);
}

tailor_status tailor_in_rows_resolve(const tailor_rows *rows, const double *order, double *fields, int32_t *origins,
                                     tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    memcpy(fields, rows->house.fields, sizeof rows->house.fields);
    memcpy(origins, rows->origins, sizeof rows->origins);
    for (int i = 0; i < rows->column_count; i++) {
        tailor_in_column column = rows->column[i];
        double value = order[column.place];
        if (isnan(value))
            continue;
        fields[column.field] = value;
        origins[column.field] = TAILOR_ORIGIN_CLIENT;
        tailor_status status = tailor_in_value_check(table, column.field, value, fault);
        if (status != TAILOR_OK)
            return status;
    }
    tailor_status status = tailor_in_required_check(fields, fault);
    if (status == TAILOR_OK)
        status = tailor_in_defaults_fill(fields, origins, fault);
    return status == TAILOR_OK ? tailor_in_contradictions_check(fields, origins, fault) : status;
}

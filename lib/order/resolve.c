#include <math.h>
#include "../base/fault.h"
#include "../base/table.h"
#include "form.h"
#include "validate.h"

void tailor_fields_clear(double *row, size_t count)
{
    for (size_t i = 0; row && i < count; i++)
        row[i] = NAN;
}

/* Take a caller's array and check each value in it by itself. */
static tailor_status take(const tailor_table *table, const double *given, size_t count, double *row, int from_house,
                          tailor_fault *fault)
{
    tailor_status status = tailor_in_row_take(table, given, count, row, fault);
    for (int number = 1; status == TAILOR_OK && number < tailor_table_size(table); number++)
        status = tailor_in_value_check(table, number, row[number], fault);
    if (status != TAILOR_OK && from_house)
        tailor_in_fault_say(fault, " (in the house's values)");
    return status;
}

static void give(const double *row, size_t known, double *out, size_t count)
{
    for (size_t i = 0; out && i < count; i++)
        out[i] = i < known ? row[i] : NAN;
}

tailor_status tailor_order_resolve(const double *client, size_t client_count, const double *house, size_t house_count,
                                   const double *house_constants, size_t house_constant_count, double *fields,
                                   size_t field_count, int32_t *origins, size_t origin_count, double *constants,
                                   size_t constant_count, tailor_fault *fault)
{
    double row[TAILOR_FIELD_COUNT], house_row[TAILOR_FIELD_COUNT], constant_row[TAILOR_CONSTANT_COUNT];
    int32_t origin_row[TAILOR_FIELD_COUNT] = {0};
    tailor_status status;
    if ((!fields && field_count > 0) || (!origins && origin_count > 0) || (!constants && constant_count > 0))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "an output is NULL though its count is not 0");
    status = take(tailor_field_table(), client, client_count, row, 0, fault);
    if (status == TAILOR_OK)
        status = take(tailor_field_table(), house, house_count, house_row, 1, fault);
    if (status == TAILOR_OK)
        status = take(tailor_constant_table(), house_constants, house_constant_count, constant_row, 1, fault);
    if (status != TAILOR_OK)
        return status;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        origin_row[i] = !isnan(row[i])         ? TAILOR_ORIGIN_CLIENT
                        : !isnan(house_row[i]) ? TAILOR_ORIGIN_HOUSE
                                               : TAILOR_ORIGIN_NONE;
        if (origin_row[i] == TAILOR_ORIGIN_HOUSE)
            row[i] = house_row[i];
    }
    for (int i = 1; i < TAILOR_CONSTANT_COUNT; i++)
        if (isnan(constant_row[i]))
            constant_row[i] = tailor_in_constant_defaults[i];
    status = tailor_in_required_check(row, fault);
    if (status == TAILOR_OK)
        status = tailor_in_defaults_fill(row, origin_row, fault);
    if (status == TAILOR_OK)
        status = tailor_in_contradictions_check(row, origin_row, fault);
    if (status != TAILOR_OK)
        return status;
    give(row, TAILOR_FIELD_COUNT, fields, field_count);
    give(constant_row, TAILOR_CONSTANT_COUNT, constants, constant_count);
    for (size_t i = 0; i < origin_count; i++)
        origins[i] = i < TAILOR_FIELD_COUNT ? origin_row[i] : TAILOR_ORIGIN_NONE;
    return TAILOR_OK;
}

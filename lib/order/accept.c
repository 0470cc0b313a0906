/* A row that was resolved before, taken as it stands. */
#include <math.h>

#include "../base/fault.h"
#include "../base/table.h"
#include "house.h"
#include "validate.h"

/* Within the row nothing is filled: a NaN where there is a rule means that the row was never resolved. */
static tailor_status check_resolved(const double *row, size_t count, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    for (int i = 1; i < TAILOR_FIELD_COUNT && (size_t)i < count; i++)
        if (isnan(row[i]) && tailor_table_text(table, i, TAILOR_COLUMN_RULE)[0] != '\0')
            return tailor_in_fault(fault, TAILOR_MISSING, table, i, NAN, tailor_table_low(table, i),
                                   tailor_table_high(table, i),
                                   "%n has no value (%l to %h%u is allowed): resolve an order before using it");
    return TAILOR_OK;
}

static tailor_status check_values(const double *row, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    for (int number = 1; number < TAILOR_FIELD_COUNT; number++) {
        const tailor_in_row *known = tailor_in_table_row(table, number);
        if (!known || (!known->choices && row[number] >= known->low && row[number] <= known->high))
            continue; /* as nearly all are */
        tailor_status status = tailor_in_value_check(table, number, row[number], fault);
        if (status != TAILOR_OK)
            return status;
    }
    return TAILOR_OK;
}

static tailor_status take_origins(const int32_t *given, size_t count, const double *row, int32_t *origins,
                                  tailor_fault *fault)
{
    for (size_t i = 0; i < TAILOR_FIELD_COUNT; i++) {
        int origin = isnan(row[i]) || i >= count ? TAILOR_ORIGIN_NONE : given ? given[i] : TAILOR_ORIGIN_CLIENT;
        if (origin < TAILOR_ORIGIN_NONE || origin > TAILOR_ORIGIN_RULE)
            return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, tailor_field_table(), (int)i, origin, TAILOR_ORIGIN_NONE,
                                   TAILOR_ORIGIN_RULE, "the origin of %n is %v: %l to %h is allowed");
        origins[i] = origin;
    }
    return TAILOR_OK;
}

tailor_status tailor_in_house_accept(const tailor_house *house, const double *fields, const int32_t *given_origins,
                                     size_t count, double *row, int32_t *origins, int *newer, tailor_fault *fault)
{
    tailor_status status = tailor_in_row_take(tailor_field_table(), fields, count, row, fault);
    if (status == TAILOR_OK)
        status = take_origins(given_origins, count, row, origins, fault);
    if (status == TAILOR_OK)
        status = check_resolved(row, count, fault);
    if (status == TAILOR_OK)
        status = tailor_in_required_check(row, fault);
    *newer = 0;
    for (int i = (int)(count < TAILOR_FIELD_COUNT ? count : TAILOR_FIELD_COUNT); i < TAILOR_FIELD_COUNT; i++)
        if (i > 0 && !isnan(house->fields[i])) {
            row[i] = house->fields[i];
            origins[i] = TAILOR_ORIGIN_HOUSE;
        }
    if (status == TAILOR_OK)
        status = check_values(row, fault);
    if (status == TAILOR_OK)
        status = tailor_in_defaults_fill(row, origins, fault);
    if (status == TAILOR_OK)
        status = tailor_in_contradictions_check(row, origins, fault);
    for (size_t i = count; i < TAILOR_FIELD_COUNT; i++)
        *newer += origins[i] != TAILOR_ORIGIN_NONE;
    return status;
}

#include <math.h>
#include "../base/fault.h"
#include "../base/table.h"
#include "form.h"
#include "house.h"
#include "validate.h"

void tailor_fields_clear(double *row, size_t count)
{
    for (size_t i = 0; row && i < count; i++)
        row[i] = NAN;
}

/* What the client left to the house is the house's, as far as that gives it. */
static void give_house(const tailor_house *house, double *fields, int32_t *origins)
{
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        int client = !isnan(fields[i]);
        if (!client)
            fields[i] = house->fields[i];
        if (origins)
            origins[i] = client ? TAILOR_ORIGIN_CLIENT : !isnan(fields[i]) ? TAILOR_ORIGIN_HOUSE : TAILOR_ORIGIN_NONE;
    }
    if (origins)
        origins[0] = TAILOR_ORIGIN_NONE;
}

tailor_status tailor_in_house_resolve(const tailor_house *house, const double *client, size_t client_count,
                                      double *fields, int32_t *origins, tailor_fault *fault)
{
    const tailor_table *table = tailor_field_table();
    tailor_status status = tailor_in_row_take(table, client, client_count, fields, fault);
    for (int number = 1; status == TAILOR_OK && number < TAILOR_FIELD_COUNT; number++)
        status = tailor_in_value_check(table, number, fields[number], fault);
    if (status != TAILOR_OK)
        return status;
    give_house(house, fields, origins);
    status = tailor_in_required_check(fields, fault);
    if (status == TAILOR_OK)
        status = tailor_in_defaults_fill(fields, origins, fault);
    return status == TAILOR_OK ? tailor_in_contradictions_check(fields, origins, fault) : status;
}

tailor_status tailor_order_resolve(const tailor_house *house, const double *client, size_t client_count, double *fields,
                                   int32_t *origins, size_t count, tailor_fault *fault)
{
    double row[TAILOR_FIELD_COUNT];
    int32_t origin_row[TAILOR_FIELD_COUNT];
    tailor_house given;
    tailor_in_house_copy(house, &given);
    tailor_status status = tailor_in_house_resolve(&given, client, client_count, row, origin_row, fault);
    if (status != TAILOR_OK)
        return status;
    for (size_t i = 0; i < count; i++) {
        if (fields)
            fields[i] = i < TAILOR_FIELD_COUNT ? row[i] : NAN;
        if (origins)
            origins[i] = i < TAILOR_FIELD_COUNT ? origin_row[i] : TAILOR_ORIGIN_NONE;
    }
    return TAILOR_OK;
}

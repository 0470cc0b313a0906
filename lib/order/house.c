/* A house: the cutter's own fields and constants, checked once and then shared. */
#include "house.h"

#include <math.h>

#include "../base/fault.h"
#include "../base/memory.h"
#include "form.h"
#include "validate.h"

static tailor_status take(const tailor_table *table, const double *values, size_t count, double *row,
                          tailor_fault *fault)
{
    tailor_status status = tailor_in_row_take(table, values, count, row, fault);
    for (int number = 1; status == TAILOR_OK && number < tailor_table_size(table); number++)
        status = tailor_in_value_check(table, number, row[number], fault);
    if (status != TAILOR_OK)
        tailor_in_fault_say(fault, " (in the house's values)");
    return status;
}

static void fill_constants(double *constants)
{
    for (int i = 0; i < TAILOR_CONSTANT_COUNT; i++)
        if (isnan(constants[i]))
            constants[i] = tailor_in_constant_defaults[i];
}

tailor_status tailor_house_new(const double *fields, size_t field_count, const double *constants, size_t constant_count,
                               const tailor_allocator *allocator, tailor_house **house, tailor_fault *fault)
{
    tailor_house made;
    if (!house)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "house is NULL: nowhere to put it");
    tailor_status status = take(tailor_field_table(), fields, field_count, made.fields, fault);
    if (status == TAILOR_OK)
        status = take(tailor_constant_table(), constants, constant_count, made.constants, fault);
    if (status != TAILOR_OK)
        return status;
    fill_constants(made.constants);
    made.allocator = tailor_in_allocator(allocator);
    tailor_house *kept = made.allocator.allocate(made.allocator.user, sizeof *kept);
    if (!kept)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the house");
    *kept = made;
    *house = kept;
    return TAILOR_OK;
}

void tailor_house_free(tailor_house *house)
{
    if (house)
        house->allocator.release(house->allocator.user, house);
}

const double *tailor_house_fields(const tailor_house *house, size_t *count)
{
    if (count)
        *count = house ? TAILOR_FIELD_COUNT : 0;
    return house ? house->fields : NULL;
}

const double *tailor_house_constants(const tailor_house *house, size_t *count)
{
    if (count)
        *count = house ? TAILOR_CONSTANT_COUNT : 0;
    return house ? house->constants : NULL;
}

tailor_allocator tailor_in_house_allocator(const tailor_house *house)
{
    return house ? house->allocator : tailor_in_allocator(NULL);
}

void tailor_in_house_copy(const tailor_house *house, tailor_house *copy)
{
    if (house) {
        *copy = *house;
        return;
    }
    copy->allocator = tailor_in_allocator(NULL);
    tailor_fields_clear(copy->fields, TAILOR_FIELD_COUNT);
    for (int i = 0; i < TAILOR_CONSTANT_COUNT; i++)
        copy->constants[i] = tailor_in_constant_defaults[i];
}

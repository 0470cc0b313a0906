/* Calls of 0.2.0 that the object replaces. */
#include <math.h>

#include <tailorgeom/coat.h>

#include "../base/fault.h"
#include "../draft/assemble.h"
#include "../measure/body.h"
#include "../order/quantity.h"
#include "../order/validate.h"

static tailor_status draft_into_new(const double *fields, size_t field_count, const double *constants,
                                    size_t constant_count, int extent, const tailor_allocator *allocator,
                                    tailor_pattern **pattern, tailor_fault *fault)
{
    if (!pattern)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "pattern is NULL: nowhere to put the coat");
    /* Rows in full length, whatever the caller's header knew. */
    double f[TAILOR_FIELD_COUNT], k[TAILOR_CONSTANT_COUNT];
    tailor_status status = tailor_in_order_accept(fields, field_count, constants, constant_count, f, k, fault);
    if (status != TAILOR_OK)
        return status;
    tailor_allocator memory = tailor_in_allocator(allocator);
    void *block = memory.allocate(memory.user, tailor_in_draft_bytes(extent));
    if (!block)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the pattern");
    status = tailor_in_draft_coat(f, k, extent, block, memory, pattern, fault);
    if (status != TAILOR_OK)
        memory.release(memory.user, block);
    return status;
}

tailor_status tailor_coat_draft(const double *fields, size_t field_count, const double *constants,
                                size_t constant_count, const tailor_allocator *allocator, tailor_pattern **pattern,
                                tailor_fault *fault)
{
    return draft_into_new(fields, field_count, constants, constant_count, TAILOR_IN_NET, allocator, pattern, fault);
}

tailor_status tailor_coat_make(const double *fields, size_t field_count, const double *constants,
                               size_t constant_count, const tailor_allocator *allocator, tailor_pattern **pattern,
                               tailor_fault *fault)
{
    return draft_into_new(fields, field_count, constants, constant_count, TAILOR_IN_WHOLE, allocator, pattern, fault);
}

static void copy_row(double *to, size_t to_count, const double *from, size_t from_count)
{
    for (size_t i = 0; i < to_count; i++)
        to[i] = i < from_count ? from[i] : NAN;
}

tailor_status tailor_coat_measure(const tailor_pattern *pattern, const double *fields, size_t field_count,
                                  const double *constants, size_t constant_count, double *quantities,
                                  size_t quantity_count, double *check_values, double *check_limits, size_t check_count,
                                  tailor_fault *fault)
{
    if (!pattern || (quantity_count && !quantities) || (check_count && (!check_values || !check_limits)))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "pattern, quantities or checks are NULL");
    double f[TAILOR_FIELD_COUNT], k[TAILOR_CONSTANT_COUNT], q[TAILOR_QUANTITY_COUNT];
    double value[TAILOR_CHECK_COUNT], limit[TAILOR_CHECK_COUNT];
    tailor_status status = tailor_in_order_accept(fields, field_count, constants, constant_count, f, k, fault);
    if (status != TAILOR_OK)
        return status;
    /* Who does not ask for the section of the roll does not pay for it. */
    int needs = 0;
    for (size_t i = 1; i < quantity_count && i < TAILOR_QUANTITY_COUNT; i++)
        needs |= tailor_in_quantity_needs((int)i);
    status = tailor_in_measure_coat(pattern, f, k, (needs & TAILOR_IN_NEEDS_SECTION) != 0, q, value, limit, fault);
    if (status != TAILOR_OK && status != TAILOR_CHECK_FAILED)
        return status;
    copy_row(quantities, quantity_count, q, TAILOR_QUANTITY_COUNT);
    copy_row(check_values, check_count, value, TAILOR_CHECK_COUNT);
    copy_row(check_limits, check_count, limit, TAILOR_CHECK_COUNT);
    return status;
}

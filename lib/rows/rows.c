/* Many orders: each row through the one body that scalar calls have too. */
#include <math.h>
#include <string.h>

#include "../base/fault.h"
#include "../base/table.h"
#include "../draft/assemble.h"
#include "../measure/body.h"
#include "../order/quantity.h"
#include "given.h"

enum { ALIGNMENT = 16 };

/* The caller's workspace: this, and behind it the block that each coat in turn is drafted into. */
typedef struct workspace {
    tailor_in_given given;
    double fields[TAILOR_FIELD_COUNT], quantities[TAILOR_QUANTITY_COUNT];
    double check_values[TAILOR_CHECK_COUNT], check_limits[TAILOR_CHECK_COUNT];
} workspace;

static size_t block_offset(void) { return (sizeof(workspace) + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT; }

size_t tailor_rows_workspace_bytes(void) { return block_offset() + tailor_in_draft_bytes(TAILOR_IN_NET); }

static tailor_status check_workspace(const void *memory, size_t bytes, tailor_fault *fault)
{
    if (!memory || (uintptr_t)memory % ALIGNMENT)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     memory ? "the workspace is not aligned to 16 bytes" : "the workspace is NULL");
    if (bytes < tailor_rows_workspace_bytes())
        return tailor_in_fault(fault, TAILOR_TOO_SMALL, NULL, 0, (double)bytes, (double)tailor_rows_workspace_bytes(),
                               NAN, "the workspace has %v bytes, at least %l are needed");
    return TAILOR_OK;
}

static tailor_status check_wanted(const int32_t *wanted, size_t count, tailor_fault *fault)
{
    for (size_t i = 0; i < count; i++)
        if (!tailor_in_table_row(tailor_quantity_table(), wanted[i]))
            return tailor_in_fault(fault, TAILOR_UNKNOWN_FIELD, tailor_quantity_table(), wanted[i], NAN, NAN, NAN,
                                   "a quantity is wanted that this library does not know");
    return TAILOR_OK;
}

/* The section of the roll costs as much as the rest of a coat: only who wants it pays. */
static int wants_section(const int32_t *wanted, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (tailor_in_quantity_needs(wanted[i]) & TAILOR_IN_NEEDS_SECTION)
            return 1;
    return 0;
}

/* A matrix of `count` values a row, `stride` apart. */
static tailor_status check_matrix(const double *matrix, size_t rows, size_t count, size_t stride, tailor_fault *fault)
{
    if (stride < count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "a stride is smaller than its row");
    if (!matrix && rows > 0 && count > 0)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "orders or quantities are NULL though there are some");
    return TAILOR_OK;
}

/* One order through all steps; its quantities, all of them, when it is good. */
static tailor_status measure_row(workspace *w, const double *order, int measured, int with_section, tailor_fault *fault)
{
    static const tailor_allocator nobody = {NULL, NULL, NULL}; /* the block is the workspace's and never released */
    tailor_pattern *coat = NULL;
    tailor_status status = tailor_in_given_resolve(&w->given, order, w->fields, fault);
    if (status == TAILOR_OK)
        status = tailor_in_draft_coat(w->fields, w->given.constants, TAILOR_IN_NET, (char *)w + block_offset(), nobody,
                                      &coat, fault);
    if (status == TAILOR_OK && measured)
        status = tailor_in_measure_coat(coat, w->fields, w->given.constants, with_section, w->quantities,
                                        w->check_values, w->check_limits, fault);
    return status;
}

static tailor_fault_record record_of(const workspace *w, const double *order, const tailor_fault *fault)
{
    tailor_fault_record record = {fault->status, fault->table, fault->index, TAILOR_ORIGIN_NONE, fault->value, NAN};
    if (fault->table == TAILOR_TABLE_FIELD)
        record.origin = tailor_in_given_origin(&w->given, order, fault->index, fault->value);
    if (fault->value < fault->low)
        record.limit = fault->low;
    else if (fault->value > fault->high)
        record.limit = fault->high;
    return record;
}

tailor_status tailor_rows_measure(const int32_t *columns, size_t column_count, const double *orders, size_t row_count,
                                  size_t order_stride, const double *house, size_t house_count,
                                  const double *house_constants, size_t house_constant_count, const int32_t *wanted,
                                  size_t wanted_count, double *quantities, size_t quantity_stride, int32_t *statuses,
                                  tailor_fault_record *records, void *memory, size_t bytes, tailor_fault *fault)
{
    workspace *w = memory;
    if ((!columns && column_count > 0) || (!wanted && wanted_count > 0))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "columns or wanted are NULL though their count is not 0");
    tailor_status status = check_matrix(orders, row_count, column_count, order_stride, fault);
    if (status == TAILOR_OK)
        status = check_matrix(quantities, row_count, wanted_count, quantity_stride, fault);
    if (status == TAILOR_OK)
        status = check_wanted(wanted, wanted_count, fault);
    if (status == TAILOR_OK)
        status = check_workspace(memory, bytes, fault);
    if (status == TAILOR_OK)
        status = tailor_in_given_columns(&w->given, columns, column_count, fault);
    if (status == TAILOR_OK)
        status = tailor_in_given_house(&w->given, house, house_count, house_constants, house_constant_count, fault);
    if (status != TAILOR_OK)
        return status;

    int with_section = wants_section(wanted, wanted_count);
    for (size_t row = 0; row < row_count; row++) {
        const double *order = column_count ? orders + row * order_stride : NULL;
        tailor_fault why; /* filled when the row is refused */
        tailor_status found = measure_row(w, order, wanted_count > 0, with_section, &why);
        for (size_t i = 0; i < wanted_count; i++)
            quantities[row * quantity_stride + i] = found == TAILOR_OK ? w->quantities[wanted[i]] : NAN;
        if (statuses)
            statuses[row] = found;
        if (records)
            records[row] = found == TAILOR_OK ? (tailor_fault_record){0} : record_of(w, order, &why);
    }
    return TAILOR_OK;
}

/* Many orders: each row through the one body that tailor_coat_new has too. */
#include <math.h>
#include <string.h>

#include "../base/fault.h"
#include "../base/memory.h"
#include "../coat/cautions.h"
#include "../draft/assemble.h"
#include "../measure/body.h"
#include "plan.h"

enum { ALIGNMENT = 16 };

/* A worker: this, and behind it the block that each coat in turn is drafted into. */
struct tailor_rows_worker {
    const tailor_rows *rows;
    tailor_allocator allocator;
    size_t order_stride, quantity_stride;
    double fields[TAILOR_FIELD_COUNT], quantities[TAILOR_QUANTITY_COUNT];
    double check_values[TAILOR_CHECK_COUNT], check_limits[TAILOR_CHECK_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
};

static size_t block_offset(void) { return (sizeof(tailor_rows_worker) + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT; }

static int drafted_extent(const tailor_rows *rows)
{
    return rows->extent & TAILOR_EXTENT_MAKE ? TAILOR_IN_WHOLE : TAILOR_IN_NET;
}

static tailor_status check_stride(size_t stride, size_t least, tailor_fault *fault)
{
    if (stride && stride < least)
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, (double)stride, (double)least, NAN,
                               "a stride of %v is smaller than its row: at least %l is needed");
    return TAILOR_OK;
}

tailor_status tailor_rows_worker_new(const tailor_rows *rows, size_t order_stride, size_t quantity_stride,
                                     tailor_rows_worker **worker, tailor_fault *fault)
{
    if (!rows || !worker)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the plan or worker is NULL");
    tailor_status status = check_stride(order_stride, (size_t)rows->column_count, fault);
    if (status == TAILOR_OK)
        status = check_stride(quantity_stride, rows->wanted_count, fault);
    if (status != TAILOR_OK)
        return status;
    tailor_allocator memory = rows->house.allocator;
    tailor_rows_worker *made =
        memory.allocate(memory.user, block_offset() + tailor_in_draft_bytes(drafted_extent(rows)));
    if (!made)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the worker");
    made->rows = rows;
    made->allocator = memory;
    made->order_stride = order_stride ? order_stride : (size_t)rows->column_count;
    made->quantity_stride = quantity_stride ? quantity_stride : rows->wanted_count;
    *worker = made;
    return TAILOR_OK;
}

void tailor_rows_worker_free(tailor_rows_worker *worker)
{
    if (worker)
        worker->allocator.release(worker->allocator.user, worker);
}

/* One order through all steps; its quantities, all of them, when it is good. */
static tailor_status measure_row(tailor_rows_worker *w, const double *order, tailor_fault *fault)
{
    const double *constants = w->rows->house.constants;
    struct tailor_in_section section = {NULL, 0, 0};
    tailor_pattern *coat = NULL;
    tailor_status status = tailor_in_rows_resolve(w->rows, order, w->fields, w->origins, fault);
    if (status == TAILOR_OK)
        status = tailor_in_draft_coat(w->fields, constants, drafted_extent(w->rows), (char *)w + block_offset(),
                                      tailor_in_no_allocator(), &coat, fault);
    if (status == TAILOR_OK)
        status = tailor_in_measure_coat(coat, w->fields, constants,
                                        w->rows->extent & TAILOR_EXTENT_SECTION ? &section : NULL, w->quantities,
                                        w->check_values, w->check_limits, fault);
    return status;
}

static tailor_verdict refused(const tailor_rows_worker *w, const tailor_fault *fault)
{
    tailor_verdict verdict = {fault->status, fault->table, fault->index, TAILOR_ORIGIN_NONE, fault->value, NAN, {0}};
    if (fault->table == TAILOR_TABLE_FIELD && fault->index > 0 && fault->index < TAILOR_FIELD_COUNT)
        verdict.origin = w->origins[fault->index] == TAILOR_ORIGIN_NONE && !isnan(fault->value)
                             ? TAILOR_ORIGIN_RULE /* a default that left its range */
                             : w->origins[fault->index];
    if (fault->value < fault->low)
        verdict.limit = fault->low;
    else if (fault->value > fault->high)
        verdict.limit = fault->high;
    return verdict;
}

static tailor_verdict drafted(const tailor_rows_worker *w)
{
    tailor_verdict verdict = {.value = 0};
    tailor_in_caution found[TAILOR_CAUTION_COUNT];
    const tailor_in_cautioned coat = {w->fields, w->quantities, w->origins, 0, tailor_edition()};
    int count = tailor_in_cautions_find(&coat, found);
    for (int i = 0; i < count; i++)
        if (found[i].class_ == TAILOR_CAUTION_CLASS_CAUTION)
            verdict.cautions[(found[i].number - 1) / 32] |= UINT32_C(1) << ((found[i].number - 1) % 32);
    return verdict;
}

tailor_status tailor_rows_run(tailor_rows_worker *w, const double *orders, size_t row_count, double *quantities,
                              tailor_verdict *verdicts, tailor_fault *fault)
{
    if (!w || (row_count > 0 && ((!orders && w->rows->column_count > 0) || (!quantities && w->rows->wanted_count > 0))))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "worker, orders or quantities are NULL");
    const size_t wanted_count = w->rows->wanted_count;
    for (size_t row = 0; row < row_count; row++) {
        const double *order = w->rows->column_count ? orders + row * w->order_stride : NULL;
        tailor_fault why; /* filled when the row is refused */
        tailor_status found = measure_row(w, order, &why);
        for (size_t i = 0; i < wanted_count; i++)
            quantities[row * w->quantity_stride + i] = found == TAILOR_OK ? w->quantities[w->rows->wanted[i]] : NAN;
        if (verdicts)
            verdicts[row] = found == TAILOR_OK ? drafted(w) : refused(w, &why);
    }
    return TAILOR_OK;
}

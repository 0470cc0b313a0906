/* libtailorgeom: rows -- many orders at once: a matrix of fields in, a matrix of quantities out.
 *
 * Row i of the answer depends on row i of the question only, so the bits are the same however the rows are cut into
 * chunks or shared among threads, and the same as those of tailor_order_resolve(), tailor_coat_draft() and
 * tailor_coat_measure() called one after another: one body serves both. Nothing is allocated and no thread is started:
 * each of the caller's threads brings its own workspace. A row that is refused has its status, and NaN for its
 * quantities; the others go on.
 *
 *     int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_BUTTONING};
 *     int32_t wanted[] = {TAILOR_QUANTITY_COVERAGE_SCYE}, status[2];
 *     double orders[2][2] = {{1000, TAILOR_BUTTONING_TWO_BUTTON}, {1000, TAILOR_BUTTONING_THREE_BUTTON}};
 *     double coverage[2];
 *     void *workspace = malloc(tailor_rows_workspace_bytes());
 *     tailor_rows_measure(columns, 2, orders[0], 2, 2, NULL, 0, NULL, 0, wanted, 1, coverage, 1, status, NULL,
 *                         workspace, tailor_rows_workspace_bytes(), &fault);
 */
#ifndef TAILORGEOM_ROWS_H
#define TAILORGEOM_ROWS_H

#include <tailorgeom/coat.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Why one row was refused, 32 bytes, layout fixed for ever; all zeros for a row that was not. An array of them is an
 *  eighth of an array of faults; tailor_fault_expand() makes a fault with its sentence of one. @since 0.1.0 */
typedef struct tailor_fault_record {
    int32_t status; /**< the row's status, as in `statuses` */
    int32_t table;  /**< a TAILOR_TABLE_ number, 0 for none */
    int32_t index;  /**< number of the row in that table */
    int32_t origin; /**< of a field's value, a TAILOR_ORIGIN_: given in the row, given by the house, or found by rule */
    double value;   /**< what was found; NaN where there is none */
    double limit;   /**< what it should have kept to, in the row's unit; NaN where there is none */
} tailor_fault_record;

/** The fault that a record tells of, with a sentence made from the tables: name, value, limit, range. It is shorter
 *  than that of the scalar call, which also names the other fields that had a part in it: to have that, make the calls
 *  for this one row. `low` and `high` are the table's range narrowed by the record's limit, NaN where there is none.
 *  A record of zeros gives a fault of zeros with the sentence "". Numbers that this library does not know are let be,
 *  so any 32 bytes may be expanded; NULL is let be. Cost: about a microsecond; no allocation. @since 0.1.0 */
TAILOR_API void tailor_fault_expand(const tailor_fault_record *record, tailor_fault *fault);

/** Bytes of a workspace for tailor_rows_measure(): some 80 KiB, the same for as long as the program runs. A later
 *  library may need another number, so ask at run time. @since 0.1.0 */
TAILOR_API size_t tailor_rows_workspace_bytes(void);

/** Resolve, draft and measure many orders.
 *
 *  In:
 *  - `columns`: the field (a TAILOR_FIELD_ number) that each column of `orders` holds, in any order, none twice.
 *    Fields without a column are not given. `column_count` may be 0: then the house gives everything.
 *  - `orders`: `row_count` rows of `column_count` values in the units of the table (mm, deg, g/m2; choices whole
 *    numbers from 1), NaN for what a row does not give. Row i begins at orders + i * order_stride; the stride is
 *    counted in doubles and is at least `column_count`, so a part of a wider matrix can be read where it lies.
 *  - `house`, `house_constants`: the house's rows, as in tailor_order_resolve(); each may be NULL with count 0.
 *  - `wanted`: the quantities asked for (TAILOR_QUANTITY_ numbers), in any order. However few they are, each coat is
 *    measured and checked whole. With `wanted_count` 0 it is drafted but neither measured nor checked: which orders
 *    give geometry at all.
 *
 *  Out, in the caller's memory:
 *  - `quantities`: a row of `wanted_count` values for each order, `quantity_stride` doubles apart (at least
 *    `wanted_count`); what lies between is not touched. NaN where the coat has no such quantity (the table's rule
 *    column says which have). May be NULL when nothing is wanted.
 *  - `statuses` (may be NULL): a status for each row, TAILOR_OK or why it was refused: what tailor_order_resolve(),
 *    tailor_coat_draft() or tailor_coat_measure() answers for it, TAILOR_CHECK_FAILED too. All quantities of a
 *    refused row are NaN.
 *  - `records` (may be NULL): a record for each row.
 *
 *  `workspace`: at least tailor_rows_workspace_bytes(), aligned to 16 bytes as malloc's memory is. What it holds
 *  before and after does not matter. Calls at the same time need one each; everything that goes in may be shared among
 *  them. No output may overlap another, an input or the workspace.
 *
 *  Returns TAILOR_OK when the rows were gone through, be they refused or not. Fails, with nothing written but the
 *  fault, when
 *  - a column's field or a wanted quantity is a number without a row in its table (TAILOR_UNKNOWN_FIELD);
 *  - a field has two columns, a stride is too small, an array is NULL that is needed, or the workspace is not aligned
 *    (TAILOR_BAD_ARGUMENT);
 *  - the workspace is too small (TAILOR_TOO_SMALL; `low` of the fault is what it needs);
 *  - the house's values are refused, by the rules of tailor_order_resolve(); they are looked at once for all rows.
 *
 *  Cost: a few microseconds for the call; then for each row what the scalar calls take, less their allocation and
 *  their second look at the order: some 20 us to draft and 15 to measure, and 40 more where a quantity of the
 *  section of the roll is wanted. About 100 KB of stack. @since 0.1.0 */
TAILOR_API tailor_status tailor_rows_measure(const int32_t *columns, size_t column_count,
                                             const double *orders, size_t row_count, size_t order_stride,
                                             const double *house, size_t house_count,
                                             const double *house_constants, size_t house_constant_count,
                                             const int32_t *wanted, size_t wanted_count,
                                             double *quantities, size_t quantity_stride,
                                             int32_t *statuses, tailor_fault_record *records,
                                             void *workspace, size_t workspace_bytes, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif

/* libtailorgeom: rows -- many orders at once: a matrix of fields in, a matrix of quantities out.
 *
 * Row i of the result depends on row i of the orders only, so the bits are the same however the rows are cut into
 * chunks or shared among threads, and the same as those of tailor_coat_new(): one body serves both. The plan (which
 * columns, which quantities, whose house) is checked once and shared; each thread has a worker of its own, which drafts
 * and measures row after row in its own block. A row that is refused has its verdict, and NaN for its quantities; the
 * others go on.
 *
 *     int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_BUTTONING};
 *     int32_t wanted[] = {TAILOR_QUANTITY_COVERAGE_SCYE};
 *     double orders[2][2] = {{1000, TAILOR_BUTTONING_TWO_BUTTON}, {1000, TAILOR_BUTTONING_THREE_BUTTON}};
 *     double coverage[2];
 *     tailor_verdict verdicts[2];
 *     tailor_rows_new(NULL, columns, 2, wanted, 1, &rows, &fault);
 *     tailor_rows_worker_new(rows, 0, 0, &worker, &fault);
 *     tailor_rows_run(worker, orders[0], 2, coverage, verdicts, &fault);
 *     tailor_rows_worker_free(worker);
 *     tailor_rows_free(rows);
 */
#ifndef TAILORGEOM_ROWS_H
#define TAILORGEOM_ROWS_H

#include <tailorgeom/coat.h>

#ifdef __cplusplus
extern "C" {
#endif

/** What became of one row, 48 bytes, layout fixed for ever. An array of them is a fifth of an array of faults;
 *  tailor_verdict_fault() makes a fault with its sentence of one. @since 0.3.0 */
typedef struct tailor_verdict {
    int32_t status;       /**< what tailor_coat_new() returns for the row */
    int32_t table;        /**< a TAILOR_TABLE_ number, 0 for none */
    int32_t index;        /**< number of the row in that table */
    int32_t origin;       /**< of a field's value, a TAILOR_ORIGIN_: given in the row, by the house, or found by rule */
    double value;         /**< what was found; NaN where there is none */
    double limit;         /**< what it should have kept to, in the row's unit; NaN where there is none */
    uint32_t cautions[4]; /**< of a row that was not refused, its cautions of class TAILOR_CAUTION_CLASS_CAUTION as
                               bits: number n is bit (n - 1) % 32 of cautions[(n - 1) / 32] */
} tailor_verdict;

/** The fault that a verdict stands for, with a sentence made from the tables: name, value, limit, range. It is shorter
 *  than that of tailor_coat_new(), which also names the other fields that had a part in it: to have that, make the coat
 *  of this one row. `low` and `high` are the table's range narrowed by the verdict's limit, NaN where there is none.
 *  A verdict with status 0 gives a fault of zeros with the sentence "". Numbers that this library does not know are
 *  ignored, so any 48 bytes may be passed; NULL is ignored. Cost: about a microsecond; no allocation. @since 0.3.0 */
TAILOR_API void tailor_verdict_fault(const tailor_verdict *verdict, tailor_fault *fault);

/** A plan for rows. Opaque, immutable; many threads may share one. @since 0.3.0 */
typedef struct tailor_rows tailor_rows;

/** Make a plan.
 *
 *  - `house`: may be NULL; it is copied, and its allocator is the plan's and its workers'.
 *  - `columns`: the field (a TAILOR_FIELD_ number) that each column of the orders holds, in any order, none twice.
 *    Fields without a column are not given. `column_count` may be 0: then the house gives everything.
 *  - `wanted`: the quantities asked for (TAILOR_QUANTITY_ numbers), in any order; `wanted_count` may be 0. However few
 *    they are, each coat is measured and checked whole. The extent of the coats follows from them: one that
 *    needs the section of the roll (roll_height, roll_radius, lapel_lies) makes every row cost that much more.
 *
 *  Fails, with nothing written but the fault: TAILOR_UNKNOWN_FIELD for a column or quantity without a row in its table,
 *  TAILOR_BAD_ARGUMENT for a field with two columns or a NULL (the fault's `place` is the column's or quantity's, from
 *  1), TAILOR_NO_MEMORY. On success `*rows` is the caller's, to be given back with tailor_rows_free().
 *  Cost: some microseconds, one allocation. @since 0.3.0 */
TAILOR_API tailor_status tailor_rows_new(const tailor_house *house, const int32_t *columns, size_t column_count,
                                         const int32_t *wanted, size_t wanted_count, tailor_rows **rows,
                                         tailor_fault *fault);
/** Give a plan back. NULL is allowed. Its workers must have been given back before. @since 0.3.0 */
TAILOR_API void tailor_rows_free(tailor_rows *rows);

/** What runs a plan on one thread. Opaque. @since 0.3.0 */
typedef struct tailor_rows_worker tailor_rows_worker;

/** Make a worker of a plan, which must outlive it.
 *
 *  `order_stride`, `quantity_stride`: how far apart the rows of the caller's matrices are, counted in doubles; 0 stands
 *  for as many as there are columns, and wanted quantities. So a part of a wider matrix can be read, and written, where
 *  it lies. Fails with TAILOR_BAD_ARGUMENT for a stride that is smaller than its row or a NULL, and with
 *  TAILOR_NO_MEMORY. Cost: one allocation of some 80 KB, 190 with the make. @since 0.3.0 */
TAILOR_API tailor_status tailor_rows_worker_new(const tailor_rows *rows, size_t order_stride, size_t quantity_stride,
                                                tailor_rows_worker **worker, tailor_fault *fault);
/** Give a worker back. NULL is allowed. @since 0.3.0 */
TAILOR_API void tailor_rows_worker_free(tailor_rows_worker *worker);

/** Resolve, draft, measure and check many orders. A worker serves one thread at a time.
 *
 *  - `orders`: `row_count` rows of a value for each column, in the units of the table (mm, deg, g/m2; choices whole
 *    numbers from 1), NaN for what a row does not give. NULL is allowed where there are no columns.
 *  - `quantities`: out, a row of a value for each wanted quantity; what lies between rows is not touched. NaN where the
 *    coat has no such quantity, and in all of a refused row, TAILOR_CHECK_FAILED among them. NULL is allowed where
 *  nothing is wanted. - `verdicts`: out, one for each row; may be NULL.
 *  No output may overlap another or an input.
 *
 *  Returns TAILOR_OK when the rows were gone through, refused or not; TAILOR_BAD_ARGUMENT, with nothing written but the
 *  fault, when an array is NULL that is needed. Cost: for each row what tailor_coat_new() takes, less its allocation;
 *  no allocation; about 100 KB of stack. @since 0.3.0 */
TAILOR_API tailor_status tailor_rows_run(tailor_rows_worker *worker, const double *orders, size_t row_count,
                                         double *quantities, tailor_verdict *verdicts, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif

/* libtailorgeom: rows -- many orders at once: a matrix of fields in, a matrix of quantities out.
 *
 * Row i of the answer depends on row i of the question only, so the bits are the same however the rows are cut into
 * chunks or shared among threads. Nothing is allocated and no thread is started: each of the caller's threads brings
 * its own workspace. A row that is refused has its status, and NaN for its quantities; the others go on.
 *
 *     int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_BUTTONING}, wanted[] = {TAILOR_QUANTITY_COVERAGE_SCYE};
 *     double orders[2][2] = {{1000, TAILOR_BUTTONING_TWO_BUTTON}, {1000, TAILOR_BUTTONING_THREE_BUTTON}}, coverage[2];
 *     int32_t status[2];
 *     void *workspace = malloc(tailor_rows_workspace_bytes());
 *     tailor_rows_measure(columns, 2, orders[0], 2, 2, NULL, 0, NULL, 0, wanted, 1, coverage, 1, status, NULL,
 *                         workspace, tailor_rows_workspace_bytes(), &fault);
 */
#ifndef TAILORGEOM_ROWS_H
#define TAILORGEOM_ROWS_H

#include <tailorgeom/measure.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Why one row was refused, 32 bytes, layout fixed for ever: status, the table and row at fault, what was found, and the
 *  limit that it passed (NaN where there is none). tailor_fault_expand() makes a fault with its sentence of it.
 *  @since 0.1.0 */
typedef struct tailor_fault_record {
    int32_t status, table, index, reserved;
    double value, limit;
} tailor_fault_record;

TAILOR_API void tailor_fault_expand(const tailor_fault_record *record, tailor_fault *fault);

TAILOR_API size_t tailor_rows_workspace_bytes(void);

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

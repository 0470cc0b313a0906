/* rows_work: lines of orders in, lines of the output out; what each thread does. */
#ifndef CLI_ROWS_WORK_H
#define CLI_ROWS_WORK_H

#include "rows_plan.h"
#include "rows_ring.h"

enum { CHUNK_ROWS = 1024 };

/** What a thread needs for itself. */
typedef struct rows_worker {
    const rows_plan *plan;
    tailor_rows_worker *runs;
    csv_cell *cells;
    double *orders, *quantities;
    tailor_verdict verdicts[CHUNK_ROWS];
    buffer typed; /* a cell as text */
} rows_worker;

/** False when memory ran out. To be freed in either case. */
bool rows_worker_begin(rows_worker *w, const rows_plan *plan);
void rows_worker_free(rows_worker *w);

/** The same as a trade of the ring; its plan is a rows_plan. */
extern const rows_trade rows_measuring;

/** The fields among a line's cells, in the plan's order. A cell that is no value of its field is told in the fault, and
 *  its text stays in `typed`. */
tailor_status rows_read_order(const rows_plan *plan, const csv_cell *cells, buffer *typed, double *order,
                              tailor_fault *fault);
/** Quantities, each with a comma behind it. */
void rows_write_numbers(buffer *out, const double *quantities, size_t count);
/** A sentence, and in brackets what was typed unless that is long or nothing, as a cell. */
void rows_write_message(buffer *out, const char *sentence, const char *typed);

/** The chunk's output, and how many of its rows were refused. False when memory ran out. */
bool rows_work(rows_worker *w, rows_chunk *chunk);

/** The plan's house and rows, when its header is known. False when memory ran out; said. */
bool rows_make_plan(rows_plan *plan);

#endif

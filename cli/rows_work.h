/* rows_work: lines of orders in, lines of the output out; what each thread does. */
#ifndef CLI_ROWS_WORK_H
#define CLI_ROWS_WORK_H

#include "rows_plan.h"

enum { CHUNK_ROWS = 1024, CHUNK_BYTES_MOST = 1 << 20 };

/** Lines that are worked on together. */
typedef struct rows_chunk {
    buffer in, out; /* both end each line with a line feed, the last too */
    size_t rows, refused;
} rows_chunk;

/** What a thread needs for itself. */
typedef struct rows_worker {
    const rows_plan *plan;
    void *workspace;
    csv_cell *cells;
    double *orders, *quantities;
    int32_t statuses[CHUNK_ROWS];
    buffer typed; /* a cell as text */
} rows_worker;

/** False when memory ran out. To be freed in either case. */
bool rows_worker_begin(rows_worker *w, const rows_plan *plan);
void rows_worker_free(rows_worker *w);

/** The chunk's output, and how many of its rows were refused. False when memory ran out. */
bool rows_work(rows_worker *w, rows_chunk *chunk);

/** Whether the library takes the house's values at all. */
tailor_status rows_house_check(rows_worker *w, tailor_fault *fault);

#endif

/* rows_progress: how far a long run is, on a terminal's standard error and nowhere else. */
#ifndef CLI_ROWS_PROGRESS_H
#define CLI_ROWS_PROGRESS_H

#include <stdbool.h>
#include <stdint.h>
#include <time.h>

typedef struct rows_progress {
    bool shown, begun;
    uint64_t first, total; /* rows done before, and in all; total 0 where nobody knows */
    struct timespec begin, last;
} rows_progress;

void progress_begin(rows_progress *p, uint64_t done, uint64_t total);
/** Rows, rate and time left; a few times a second. */
void progress_show(rows_progress *p, uint64_t done);
/** Clear the line. */
void progress_end(rows_progress *p);

#endif

/* rows_ring: chunks go round between one that reads and writes and some that work, in a ring of a few buffers.
 *
 * The calling thread fills a chunk with lines, hands it to whichever worker is free, and writes what comes back in the
 * order in which it was read. It holds no more than the ring, so memory does not grow with the table. */
#ifndef CLI_ROWS_RING_H
#define CLI_ROWS_RING_H

#include "buffer.h"

#include <stdint.h>

/** Lines that are worked on together. */
typedef struct rows_chunk {
    buffer in, out;  /* lines read and lines to write; both end each line with a line feed, the last too */
    buffer beside;   /* what goes to another file */
    uint64_t first;  /* row of the table that it begins with, from 0 */
    size_t rows, refused;
    int trouble;     /* errno of what could not be written, 0 for none; then `beside` tells its path */
} rows_chunk;

/** What each thread does; what it must not do is to complain. */
typedef struct rows_trade {
    /** What a thread needs for itself; `thread` counts them from 0. NULL when memory ran out. */
    void *(*begin)(const void *plan, int thread);
    /** Work on a chunk. False when memory ran out. */
    bool (*work)(void *worker, rows_chunk *chunk);
    void (*end)(void *worker);
    const void *plan;
} rows_trade;

typedef struct rows_ends {
    /** Fill an empty chunk. False at the end (the chunk is left without rows) or when it failed. */
    bool (*fill)(void *user, rows_chunk *chunk);
    /** Take a finished chunk. False stops everything. */
    bool (*drain)(void *user, const rows_chunk *chunk);
    void *user;
} rows_ends;

/** Run until fill has no more and everything is drained, or something failed. False when the ring itself failed, by
 *  memory or threads; said. What fill and drain say is theirs to remember. */
bool rows_ring_run(const rows_trade *trade, int jobs, const rows_ends *ends);

/** As many as asked for, else as many as there are processors. */
int rows_job_count(int asked);

#endif

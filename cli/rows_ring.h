/* rows_ring: chunks go round between one that reads and writes and some that work, in a ring of a few buffers.
 *
 * The calling thread fills a chunk with lines, hands it to whichever worker is free, and writes what comes back in the
 * order in which it was read. It holds no more than the ring, so memory does not grow with the table. */
#ifndef CLI_ROWS_RING_H
#define CLI_ROWS_RING_H

#include "rows_work.h"

typedef struct rows_ends {
    /** Fill an empty chunk. False at the end (the chunk is left without rows) or when it failed. */
    bool (*fill)(void *user, rows_chunk *chunk);
    /** Take a finished chunk. False stops everything. */
    bool (*drain)(void *user, const rows_chunk *chunk);
    void *user;
} rows_ends;

/** Run until fill has no more and everything is drained, or something failed. False when the ring itself failed, by
 *  memory or threads; said. What fill and drain say is theirs to remember. */
bool rows_ring_run(const rows_plan *plan, int jobs, const rows_ends *ends);

#endif

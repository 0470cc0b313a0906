/* rows_in: a table of orders on its way into the ring: looked through, read again, hashed both times. */
#ifndef CLI_ROWS_IN_H
#define CLI_ROWS_IN_H

#include "csv_in.h"
#include "rows_ring.h"

typedef struct rows_in {
    csv_in csv;
    bool again;               /* it can be read again: it can be looked through, and a run broken off can go on */
    char hash[CSV_HASH_TEXT]; /* SHA-256 when it was looked through */
    uint64_t row_count;       /* found then, 0 where it cannot be */
    uint64_t next;            /* row, from 0 */
    bool spoilt;              /* cannot be read to its end; said */
} rows_in;

/** Open it. False when it cannot be; said. */
bool rows_in_open(rows_in *in, const char *path);
void rows_in_close(rows_in *in);

/** Look through the whole table, so that one that is malformed is refused before anything is made of it. `look` (may
 *  be NULL) sees every line, the header first; false from it ends the looking. False when it did not come to the end;
 *  said. */
bool rows_in_look_through(rows_in *in, const char *path, bool (*look)(void *user, const csv_line *line), void *user);
/** The first line. False when there is none; said. */
bool rows_in_header(rows_in *in, csv_line *line);
/** Past so many rows, which `part` has already. False when there are not so many; said. */
bool rows_in_skip(rows_in *in, uint64_t rows, const char *part);
/** Lines into a chunk, as rows_ends wants it. */
bool rows_in_fill(rows_in *in, rows_chunk *chunk, size_t most);
/** At the end: whether it is the table that was looked through. False when not; said. */
bool rows_in_unchanged(rows_in *in);

/** Whether two paths lead to one file that is there. */
bool is_same_file(const char *a, const char *b);

#endif

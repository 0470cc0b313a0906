/* rows_out: the table that is written, in a way that a run broken off can go on.
 *
 * OUT.csv.part grows line by line and gets its name when it is complete. OUT.csv.state beside it says what it was made
 * from, so that --resume does not put two halves of different tables together, and how far it had got at a certain
 * time; what stands beyond is read from the part itself, of which at most the last line is torn. Both stay when the
 * run is broken off. Where the input cannot be read again there is no state, and nothing stays. */
#ifndef CLI_ROWS_OUT_H
#define CLI_ROWS_OUT_H

#include "output.h"
#include "rows_plan.h"

#include <time.h>

/** What a table is made from: it is the same table when all of it is the same. */
typedef struct rows_origin_part {
    const char *member, *value; /* its name in the state */
    const char *otherwise;      /* what is said when it is not the same */
} rows_origin_part;
#define ORIGIN_VERSION {"version", tailor_version(), "another version of the program"}
#define ORIGIN_INPUT(hash) {"input_sha256", hash, "a table of orders that was another"}
#define ORIGIN_WANT(names) {"want", names, "another --want"}
#define ORIGIN_HOUSE(hash) {"house_sha256", hash, "other values of the house, or other cloths"}
enum { ORIGIN_PARTS_MOST = 8 };
typedef struct rows_origin {
    const char *kind; /* "rows-state" */
    rows_origin_part parts[ORIGIN_PARTS_MOST];
    size_t count;
} rows_origin;

typedef struct rows_out {
    const char *path; /* NULL: standard output */
    char part[OUTPUT_PATH_MOST], state[OUTPUT_PATH_MOST], state_new[OUTPUT_PATH_MOST];
    const rows_origin *origin; /* NULL where the input cannot be read again */
    const char *kept;          /* where the state goes in the end; NULL: it goes away */
    int fd;
    uint64_t rows, refused, bytes; /* written so far */
    struct timespec stated;        /* when the state was written last */
} rows_out;

/** Open the output and write its header, or with `resume`, where there is a part, find out how far it is. False when it
 *  cannot be; said. */
bool rows_out_open(rows_out *out, const char *path, const rows_origin *origin, const buffer *head, bool resume);
/** Write whole lines. False when they could not be; said. */
bool rows_out_write(rows_out *out, const buffer *lines, size_t rows, size_t refused);
/** All is written: put the file in its place. False when it could not be; said. */
bool rows_out_finish(rows_out *out);
/** End without having finished. What can be gone on with stays, and that is said; `useless`: it cannot, nothing stays.
 */
void rows_out_break(rows_out *out, bool useless);

/* rows_state.c: the file beside the part. */

/** Write the state anew. False when it could not be; said. */
bool rows_state_write(rows_out *out);
/** Read the state and compare it. False when it is of another table; said. `rows` and `bytes` are how far it had got.
 */
bool rows_state_read(const rows_out *out, uint64_t *rows, uint64_t *bytes);

#endif

/* csv_in: a table read record by record, from a file or a pipe, in memory that does not grow with it.
 *
 * It is counted in lines, hashed as it is read, and checked for its shape: every record has as many cells as the first,
 * and no line is empty but the last ones. A byte-order mark is passed over. */
#ifndef CLI_CSV_IN_H
#define CLI_CSV_IN_H

#include "csv.h"

#include <sha2.h>
#include <stdint.h>

enum { CSV_BYTES_MOST = 1 << 20, CSV_HASH_TEXT = SHA256_DIGEST_STRING_LENGTH };

typedef struct csv_in {
    const char *source; /* as messages call it */
    bool torn;          /* a last record without its line end is not there: the file was being written */
    int fd;
    buffer text; /* read and not yet used up: from `at` on */
    size_t at;
    bool at_end;
    int line;            /* of the next record, from 1 */
    int empty_line;      /* the first of empty lines just passed, 0 for none */
    size_t cells;        /* of the first record, 0 before it */
    uint64_t bytes_used; /* up to the end of the last record */
    SHA2_CTX hash;
} csv_in;

typedef struct csv_line {
    const char *text; /* until the next is read */
    size_t length;    /* without its line end */
    int line;         /* where it begins */
} csv_line;

enum { CSV_IN_LINE, CSV_IN_END, CSV_IN_FAILED };

/** Open a file, or standard input for "-". False when it cannot be; said. */
bool csv_in_open(csv_in *in, const char *path);
/** Begin with a file that is open at its beginning already. */
void csv_in_begin(csv_in *in, const char *source, int fd);
/** The next record. CSV_IN_FAILED when it is malformed or cannot be read; said. */
int csv_in_next(csv_in *in, csv_line *line);
/** At the end: the SHA-256 of all bytes, in hexadecimal. */
void csv_in_hash(csv_in *in, char text[CSV_HASH_TEXT]);
void csv_in_close(csv_in *in);

#endif

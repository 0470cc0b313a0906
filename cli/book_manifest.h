/* book_manifest: the hashes of a book's files, as `sha256sum -c` takes them, growing with the book. */
#ifndef CLI_BOOK_MANIFEST_H
#define CLI_BOOK_MANIFEST_H

#include "buffer.h"
#include "output.h"

#include <stdint.h>

typedef struct book_manifest {
    char path[OUTPUT_PATH_MOST], part[OUTPUT_PATH_MOST];
    int fd;
} book_manifest;

/** Open the part after so many lines, what stands behind being cut; 0 lines begin it anew. False when it cannot be, or
 *  has fewer; said. */
bool book_manifest_open(book_manifest *m, const char *directory, uint64_t lines);
/** Add whole lines. False when they could not be; said. */
bool book_manifest_write(book_manifest *m, const buffer *lines);
/** Add the summary's own hash and put the file in its place. False when it could not be; said. */
bool book_manifest_finish(book_manifest *m, const char *summary_part);
/** End without having finished; `useless`: nothing stays. */
void book_manifest_break(book_manifest *m, bool useless);

#endif

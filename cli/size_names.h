/* size_names: a size table read from its file, with the names of its sizes and fits. See shared/sizes/README.md. */
#ifndef CLI_SIZE_NAMES_H
#define CLI_SIZE_NAMES_H

#include "csv_in.h"

#include <tailorgeom/grade.h>

enum { SIZE_NAME_MOST = 40, FITS_MOST = 32 };

typedef struct size_names {
    tailor_size_table *table;
    struct size_row {
        char size[SIZE_NAME_MOST];
        int fit; /* from 1 */
    } *rows;
    size_t row_count;
    char fits[FITS_MOST][SIZE_NAME_MOST];
    int fit_count;
    char hash[CSV_HASH_TEXT]; /* SHA-256 of the file */
} size_names;

/** Read a file. False when it is no size table; said. To be freed in either case. */
bool size_names_read(size_names *s, const char *path);
void size_names_free(size_names *s);

/** The row of a size in a fit; a fit of "" is the only one, or "regular". -1 when there is none, and `why` says so. */
int size_names_find(const size_names *s, const char *size, const char *fit, const char **why);

#endif

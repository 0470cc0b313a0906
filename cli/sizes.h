/* sizes: a size table, by the name of one of the library's own or from a file, with its companion that says what it is.
 *
 * A name with neither a slash nor a point is looked for in shared/sizes as it was when the program was built. */
#ifndef CLI_SIZES_H
#define CLI_SIZES_H

#include "csv_in.h"

#include <stdbool.h>
#include <stddef.h>
#include <tailorgeom/grade.h>

enum { SIZES_MOST = 512, SIZE_TEXT = 40, SIZE_LINE = 240 };

/** The tables that are compiled in: name, CSV, INI. */
typedef struct size_text {
    const char *name, *table, *about;
} size_text;
extern const size_text size_texts[];
extern const size_t size_text_count;

typedef struct sizes {
    const char *source; /* as messages call it */
    tailor_size_table *table;
    size_t columns, rows;
    int32_t fields[TAILOR_FIELD_COUNT]; /* of the columns; the first is the key */
    char (*names)[SIZE_TEXT];           /* of the rows: "40" */
    int32_t *fit_of;                    /* of the rows, from 1 */
    int *lines;                         /* of the rows in the file */
    char fits[SIZES_MOST][SIZE_TEXT];
    int fit_count;
    char title[SIZE_LINE], source_told[SIZE_LINE], provenance[SIZE_LINE]; /* "" where the companion is silent */
    char hash[CSV_HASH_TEXT]; /* SHA-256 of the table */
} sizes;

/** Read a table. False when it is refused; said. To be given back with sizes_free() in any case. */
bool sizes_read(sizes *t, const char *operand);
void sizes_free(sizes *t);

/** The fit of that name, or for NULL "regular" if there is one, else the first. 0 when there is none; said. */
int sizes_fit(const sizes *t, const char *name);
/** The row of a size in a fit, -1 when there is none. */
long sizes_row(const sizes *t, int fit, const char *size);
/** The same by the fit's name; "" is the only one, or "regular". Where it is -1, `why` is a sentence; nothing is
 *  said. */
long sizes_find(const sizes *t, const char *size, const char *fit, const char **why);

#endif

/* cautions: what a cutter should know of coats, told on the terminal and in tables. */
#ifndef CLI_CAUTIONS_H
#define CLI_CAUTIONS_H

#include "buffer.h"

#include <stdbool.h>
#include <stdint.h>
#include <tailorgeom/coat.h>

/** One of several coats; the label tells it from the others. */
typedef struct cautioned {
    const tailor_coat *coat;
    char label[128];
} cautioned;

/** Print "caution: sentence" for each, and where `told` is set "note: sentence" for what is only worth knowing;
 *  `before` goes before the first, if there is any. What is said of all of several coats in the same words is said
 *  once, with the first of them; the rest has the coat's label before it. */
void cautions_print(const cautioned *coats, size_t count, bool told, const char *before);
/** The same of one coat. */
void cautions_print_one(const tailor_coat *coat, bool told, const char *before);

/** The names of the cautions of a row, as a verdict's bits tell them, with blanks between, as a cell. */
void cautions_write(buffer *out, const uint32_t bits[4]);
/** The same of a coat. */
void cautions_write_of(buffer *out, const tailor_coat *coat);

#endif

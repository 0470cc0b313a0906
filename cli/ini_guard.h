/* ini_guard: what a card must be before the INI parser sees it.
 *
 * The parser is forgiving where a cutter's numbers must not be: it ends a card at a NUL, cuts lines at 200 bytes,
 * takes an indented line for more of the value above it, and merges sections that stand twice. The guard refuses all
 * of that with the line it stands on, and whatever is not plain UTF-8 text. */
#ifndef CLI_INI_GUARD_H
#define CLI_INI_GUARD_H

#include <stdbool.h>
#include <stddef.h>

enum { CARD_LINE_BYTES_MOST = 190 };

enum { FITTINGS_MOST = 40 };

/** The sections [fitting 1], [fitting 2] ... of a card, and the lines they begin on, from 0. */
typedef struct ini_fittings {
    int count;
    int line[FITTINGS_MOST];
} ini_fittings;

/** True when the parser may read this text; otherwise the first thing wrong has been said. `sections` are the names
 *  that may stand in brackets, at most 16; besides them fittings may, counted from 1 without a gap. */
bool ini_guard(const char *source, const char *text, size_t length, const char *const *sections, size_t section_count,
               ini_fittings *fittings);

/** True when a line is plain UTF-8 text of no more bytes than a card's; otherwise why not has been said. `what` is what
 *  the file is then not: "a card". */
bool ini_guard_line(const char *source, int line, const char *text, size_t length, const char *what);

#endif

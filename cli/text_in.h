/* text_in: a card read whole into memory. */
#ifndef CLI_TEXT_IN_H
#define CLI_TEXT_IN_H

#include <stddef.h>

enum { CARD_BYTES_MOST = 256 * 1024, PATTERN_BYTES_MOST = 8 * 1024 * 1024 };

/** What messages call a card: its path, or "standard input" for "-". */
const char *text_source(const char *path);

/** The bytes of a file, or of standard input for "-", with a zero added after the last. NULL, with the reason said,
 *  when it cannot be read or is larger than CARD_BYTES_MOST. The caller frees it. */
char *text_read(const char *path, size_t *length);

/** The same for a pattern file or a drawing, of PATTERN_BYTES_MOST at most. */
char *text_read_pattern(const char *path, size_t *length);

#endif

/* nearest: which of a few words a misspelt one was meant to be. The library's tables have their own search
 * (tailor_table_suggest); this one serves the program's words: commands, sections, keys of [client]. */
#ifndef CLI_NEAREST_H
#define CLI_NEAREST_H

#include <stddef.h>

/** The nearest of `names`, or NULL when none is near enough to be meant. */
const char *nearest_name(const char *word, const char *const *names, size_t count);

#endif

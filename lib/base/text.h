/* Text put together in a caller's buffer without printf, so that no locale can touch it. */
#ifndef TAILOR_IN_TEXT_H
#define TAILOR_IN_TEXT_H

#include <stddef.h>
#include <stdint.h>

/* What does not fit is left out, but `length` counts it: it is the length that the whole text needs. The buffer is
 * zero-terminated after every call unless its capacity is 0, and never cut within a UTF-8 character. */
typedef struct tailor_in_text {
    char *buffer;
    size_t capacity;
    size_t length;
    int full; /* something was left out: nothing more is written */
} tailor_in_text;

tailor_in_text tailor_in_text_begin(char *buffer, size_t capacity);
void tailor_in_text_add(tailor_in_text *text, const char *more);
void tailor_in_text_add_bytes(tailor_in_text *text, const char *more, size_t count);
void tailor_in_text_add_whole(tailor_in_text *text, int64_t number);

/* A number to read, not to compute with: `decimals` (0 to 6) decimals at most, without trailing zeros; beyond 1e9,
 * and where those decimals would show a zero, four figures and an exponent ("4e300"); "nan", "inf", "-inf". */
void tailor_in_text_add_number(tailor_in_text *text, double number, int decimals);

#endif

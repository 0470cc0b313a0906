/* Text on a sheet: what is allowed in it, how wide it is, and numbers without a locale. */
#ifndef TAILOR_IN_SHEET_LETTERING_H
#define TAILOR_IN_SHEET_LETTERING_H

#include <stddef.h>

/** Height of capitals and of x over the base line, and depth of descenders below it, as shares of the size. */
#define TAILOR_IN_CAP_HEIGHT 0.73
#define TAILOR_IN_DESCENT 0.24
/** Distance of base lines. */
#define TAILOR_IN_LINE_HEIGHT 1.35

/** Copy UTF-8 with whatever no XML file may hold (broken sequences, controls, surrogates, non-characters) replaced by
 *  U+FFFD, zero-terminated. Returns the bytes without the zero; `clean` may be NULL to ask. NULL text is "". */
size_t tailor_in_text_clean(const char *text, char *clean);

/** Next character of clean UTF-8, 0 at the end; the pointer moves on. */
unsigned tailor_in_text_next(const char **text);

/** Width of a text at a size, in the size's unit: that of the widest of the families that the sheets name. */
double tailor_in_text_width(const char *text, double size, int bold);

/** Copy as much of a text as is not wider than `width`, with an ellipsis when it was cut. */
void tailor_in_text_fit(const char *text, double size, int bold, double width, char *fitted, size_t capacity);

/** A number with at most `decimals` (0 to 6) decimals, without needless zeros, with a point whatever the locale.
 *  Returns its bytes. Numbers beyond 1e9 and not-a-number are written as 0: they do not occur on a page. */
size_t tailor_in_number_write(char text[32], double value, int decimals);

/** Names of tables as words: underscores become spaces, and a prefix is dropped when it stands there. */
void tailor_in_words(const char *name, const char *prefix, char *words, size_t capacity);

/** A length with its unit, as a TAILOR_PRINT_ says: "612.4 mm" or "24 1/8 in"; "" for what is no length. */
void tailor_in_length_words(double mm, int print, char text[48]);

#endif

/* exact: the shortest decimal that reads back as the same double, fast enough for tables of millions of numbers. */
#ifndef CLI_EXACT_H
#define CLI_EXACT_H

#include <stddef.h>

enum { EXACT_TEXT = 32 };

/** Writes a finite number ("1025.5", "-0.003", "1.5e+300" where plain figures would be long); returns its length. Of
 * the shortest decimals that read back as the number this is the nearest; no locale matters. */
size_t exact_number(double value, char text[EXACT_TEXT]);

#endif

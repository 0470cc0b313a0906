/* The shortest decimal that reads back as the same double, and of those the nearest; no locale, no printf. */
#ifndef TAILOR_IN_NUMBER_H
#define TAILOR_IN_NUMBER_H

#include <tailorgeom/base.h>
#include "text.h"

/* figures times 10 to the power of `exponent`; no zero at the figures' end, unless they are 0. */
typedef struct tailor_in_decimal {
    uint64_t figures;
    int exponent, negative;
} tailor_in_decimal;

/* Of a finite number. 17 figures at most. */
tailor_in_decimal tailor_in_decimal_of(double value);

/* Decimals of any number that is written to be read again; what lies beyond is rounded. */
enum { TAILOR_IN_MOST_DECIMALS = 30 };

/* In plain figures, without an exponent: for sizes below 1e18. */
void tailor_in_text_add_plain(tailor_in_text *text, tailor_in_decimal number);

/* A text that was built within a call, into the caller's: what all writing calls return. `built.length` goes to
 * *needed; nothing else is written when it does not fit. */
tailor_status tailor_in_text_give(const tailor_in_text *built, char *text, size_t capacity, size_t *needed);

#endif

/* Rows of inputs with ranges and defaults, as section and estimate take them. */
#ifndef TAILOR_IN_ROLL_GIVEN_H
#define TAILOR_IN_ROLL_GIVEN_H

#include <tailorgeom/roll.h>
#include "../cloth/sheet.h" /* rows out, degrees */

/** One input: its words, its range, and what it is when not given (NaN: it must be given). */
typedef struct tailor_in_given {
    const char *words, *unit;
    double low, high, rule;
} tailor_in_given;

/** Read a row against `known` descriptions (entry 0 unused): `row` gets each value or its default. */
tailor_status tailor_in_given_read(const tailor_in_given *about, size_t known, const double *from, size_t count,
                                   double *row, tailor_fault *fault);

#endif

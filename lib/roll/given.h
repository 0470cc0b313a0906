/* Rows of inputs with ranges and defaults, as section and estimate take them. */
#ifndef TAILOR_IN_ROLL_GIVEN_H
#define TAILOR_IN_ROLL_GIVEN_H

#include <math.h>
#include <tailorgeom/roll.h>

#define TAILOR_IN_ROLL_DEGREE 0.017453292519943295769

/** One input: its words, its range, and what it is when not given (NaN: it must be given). */
typedef struct tailor_in_given {
    const char *words, *unit;
    double low, high, rule;
} tailor_in_given;

/** Read a row against `known` descriptions (entry 0 unused): `row` gets each value or its default. */
tailor_status tailor_in_given_read(const tailor_in_given *about, size_t known, const double *from, size_t count,
                                   double *row, tailor_fault *fault);

/** Copy the first min(count, known) of `known` results, NaN the rest. */
static inline void tailor_in_results_out(const double *from, size_t known, double *to, size_t count)
{
    for (size_t i = 0; i < count; i++)
        to[i] = i > 0 && i < known ? from[i] : NAN;
}

#endif

/* Filling a tailor_fault, for all floors. */
#ifndef TAILOR_IN_FAULT_H
#define TAILOR_IN_FAULT_H

#include <tailorgeom/base.h>

/* Fill the fault (NULL is allowed) and return `status`, so that a function can end with
 *
 *     return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, tailor_field_table(), TAILOR_FIELD_CROOK, crook, low, high,
 *                            "%n %v%u is too large: %l to %h%u is allowed");
 *
 * `table` may be NULL (then index is written as 0). In the sentence, %n stands for the row's name, %v, %l and %h for
 * value, low and high (three decimals at most), %u for a space and the row's unit (nothing where the unit is choice,
 * count or ratio), %% for a percent sign. Give NAN for a number that there is none of. The sentence is cut at 215
 * bytes. Never put text from the client into it. */
tailor_status tailor_in_fault(tailor_fault *fault, tailor_status status, const tailor_table *table, int index,
                              double value, double low, double high, const char *sentence);

/* A fault of the call itself, without a table: a NULL, a count. */
tailor_status tailor_in_fault_plain(tailor_fault *fault, tailor_status status, const char *sentence);

/* Add to the sentence of a fault that tailor_in_fault has filled: for sentences with parts of varying number. */
void tailor_in_fault_say(tailor_fault *fault, const char *more);
void tailor_in_fault_say_number(tailor_fault *fault, double number, const char *unit);

/* Say which of several things that were given is at fault, counted from 0: the fault counts from 1. Returns the fault's
 * status. */
tailor_status tailor_in_fault_at(tailor_fault *fault, tailor_status status, size_t place);

/* What stands between a number and nothing: "" for choice, count, ratio and an empty unit, else the unit itself. */
const char *tailor_in_unit_shown(const char *unit);

#endif

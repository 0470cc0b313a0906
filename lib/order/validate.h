/* What a row must satisfy, for resolving and for the floors above. */
#ifndef TAILOR_IN_VALIDATE_H
#define TAILOR_IN_VALIDATE_H

#include <stddef.h>
#include <stdint.h>
#include <tailorgeom/order.h>

/* Copy a caller's array into one of the table's own length: entries past `count` are NaN; TAILOR_UNKNOWN_FIELD when a
 * number is given that the table has no row for (entry 0 and entries past what the library knows included). */
tailor_status tailor_in_row_take(const tailor_table *table, const double *given, size_t count, double *row,
                                 tailor_fault *fault);

/* One value against its row of the table: finite, a choice, within its range, not plainly in another unit. NaN is
 * let pass. */
tailor_status tailor_in_value_check(const tailor_table *table, int number, double value, tailor_fault *fault);

/* TAILOR_MISSING when a field whose rule is `required` is NaN. */
tailor_status tailor_in_required_check(const double *fields, tailor_fault *fault);

/* Fill every NaN that a rule can fill. `origins` (may be NULL) gets TAILOR_ORIGIN_RULE there. */
tailor_status tailor_in_defaults_fill(double *fields, int32_t *origins, tailor_fault *fault);

/* The limits between fields, in contradictions.c. Fields at NaN take part in none. Values whose origin is the rule are
 * called assumed in the sentence; `origins` may be NULL. */
tailor_status tailor_in_contradictions_check(const double *fields, const int32_t *origins, tailor_fault *fault);

/* Choices and notes that contradict one another, in style.c: part of the above. */
tailor_status tailor_in_style_check(const double *fields, tailor_fault *fault);

#endif

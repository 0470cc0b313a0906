/* What a cutter should know of a coat: found by one body for coats and rows. */
#ifndef TAILOR_IN_COAT_CAUTIONS_H
#define TAILOR_IN_COAT_CAUTIONS_H

#include <tailorgeom/coat.h>

/** A caution that follows from one quantity; NaN: that class is never reached. */
typedef struct tailor_in_caution_rule {
    int number, quantity;
    double told, caution;
} tailor_in_caution_rule;

/* Written by generate_tables.py. */
extern const tailor_in_caution_rule tailor_in_caution_rules[];
extern const int tailor_in_caution_rule_count;

/** A caution of one coat: its class, and the value and bound that it stands on. */
typedef struct tailor_in_caution {
    int number, class_;
    double value, limit;
} tailor_in_caution;

/** What cautions are found from. */
typedef struct tailor_in_cautioned {
    const double *fields, *quantities;
    const int32_t *origins;
    int newer;   /* fields that came after the row was resolved */
    int edition; /* of the pattern */
} tailor_in_cautioned;

/** Fill `found`, room for TAILOR_CAUTION_COUNT, in the order of the table's numbers; returns how many. */
int tailor_in_cautions_find(const tailor_in_cautioned *coat, tailor_in_caution *found);

/** The bespoke measures that an order leaves to the rules, as field numbers; returns how many, 0 for an order made to
 *  measure. */
enum { TAILOR_IN_BESPOKE_MEASURES = 7 };
int tailor_in_toile_fields(const double *fields, const int32_t *origins, int32_t missing[TAILOR_IN_BESPOKE_MEASURES]);

/** The caution's fault with its sentence. */
void tailor_in_caution_fault(const tailor_in_cautioned *coat, const tailor_in_caution *caution, tailor_fault *fault);

#endif

/* drafted: one order taken as far as it goes: resolved, drafted, measured. */
#ifndef CLI_DRAFTED_H
#define CLI_DRAFTED_H

#include "card.h"

#include <tailorgeom/coat.h>

typedef struct drafted {
    double fields[TAILOR_FIELD_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
    double constants[TAILOR_CONSTANT_COUNT];
    tailor_pattern *pattern; /* NULL when the draft was refused */
    double quantities[TAILOR_QUANTITY_COUNT];
    double check_values[TAILOR_CHECK_COUNT];
    double check_limits[TAILOR_CHECK_COUNT];
    bool resolved; /* fields, origins and constants stand */
    bool measured; /* quantities and checks stand, though one may fail */
    tailor_status status;
    tailor_fault fault; /* of the first step that failed; zeros when all went well */
} drafted;

/** Take an order through all steps. True when every step went well and all checks pass. Says nothing. */
bool draft_order(const card *c, drafted *d);
/** The same with all the pieces that the make needs. */
bool make_order(const card *c, drafted *d);
void drafted_free(drafted *d);

/** Say on standard error why the order was refused, with the line that is at fault. */
void complain_refused(const card *c, const drafted *d);

/** The measures that a bespoke order must give and this one leaves to the rules, as field numbers in table order.
 *  While there are any, the coat is for a toile only. Returns how many; at most BESPOKE_MEASURE_COUNT. */
enum { BESPOKE_MEASURE_COUNT = 7 };
size_t toile_measures(const drafted *d, int missing[BESPOKE_MEASURE_COUNT]);

/** What heads a ticket: the card's title, without the name if it is anonymous, and "for toile only" where it is. False
 *  when there is nothing to say. */
enum { HEADING_TEXT = 4 * CARD_LINE_BYTES_MOST };
bool sheet_heading(const card *c, const drafted *d, bool anonymous, char heading[HEADING_TEXT]);

/** "waist_girth, shoulder_slope", or "" when nothing is missing. */
void toile_text(const drafted *d, char *text, size_t capacity);

#endif

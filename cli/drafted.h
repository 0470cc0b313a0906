/* drafted: one order taken as far as it goes: resolved, drafted, measured. */
#ifndef CLI_DRAFTED_H
#define CLI_DRAFTED_H

#include "card.h"

#include <tailorgeom/coat.h>

typedef struct drafted {
    bool resolved; /* the house stands, and these rows */
    double fields[TAILOR_FIELD_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
    tailor_house *house;
    tailor_coat *coat;                    /* of them; NULL when none closes. It is there when only a check fails */
    const double *constants, *quantities; /* read from house and coat: */
    const tailor_pattern *pattern;        /* NULL when there is none */
    tailor_status status;
    tailor_fault fault; /* of the first step that failed; zeros when all went well */
} drafted;

/** Take an order through all steps. True when every step went well and all checks pass. Says nothing. To be freed in
 *  any case. */
bool draft_order(const card *c, drafted *d);
/** The same with all the pieces that the make needs. */
bool make_order(const card *c, drafted *d);
void drafted_free(drafted *d);

/** Say on standard error why the order was refused, with the line that is at fault. */
void complain_refused(const card *c, const drafted *d);

/** What heads a ticket: the card's title, without the name if it is anonymous, and "for toile only" where it is. False
 *  when there is nothing to say. */
enum { HEADING_TEXT = 4 * CARD_LINE_BYTES_MOST };
bool sheet_heading(const card *c, const drafted *d, bool anonymous, char heading[HEADING_TEXT]);

#endif

#include "drafted.h"

#include "complain.h"

#include <stdio.h>
#include <string.h>

static tailor_status resolve(const card *c, drafted *d)
{
    double client[TAILOR_FIELD_COUNT];
    card_client(c, client);
    tailor_status status = card_house(c, &d->house, &d->fault);
    if (status == TAILOR_OK)
        status = tailor_order_resolve(d->house, client, TAILOR_FIELD_COUNT, d->fields, d->origins, TAILOR_FIELD_COUNT,
                                      &d->fault);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (d->origins[i] == TAILOR_ORIGIN_CLIENT && card_assumes(c, i))
            d->origins[i] = TAILOR_ORIGIN_RULE;
    return status;
}

/* A coat that is to be cut is looked at once more, piece by piece: its checks are about the coat. */
static tailor_status look_at_pieces(const tailor_pattern *pattern, tailor_fault *fault)
{
    tailor_finding first; /* what refuses stands first */
    tailor_fault found;
    size_t count = 0;
    tailor_status status = tailor_pattern_examine(pattern, NULL, &first, 1, &count, &found);
    if (status == TAILOR_TOO_SMALL)
        status = TAILOR_OK;
    if (status == TAILOR_OK && count)
        status = tailor_finding_fault(&first, &found);
    if (status != TAILOR_OK)
        *fault = found;
    return status;
}

static bool take_order(const card *c, drafted *d, int extent)
{
    memset(d, 0, sizeof *d);
    d->status = resolve(c, d);
    d->resolved = d->status == TAILOR_OK;
    if (d->resolved) /* as it stands: what a resolved card assumed is not what the client gave */
        d->status =
            tailor_coat_again(d->house, d->fields, d->origins, TAILOR_FIELD_COUNT, extent, &d->coat, &d->fault);
    d->constants = tailor_house_constants(d->house, NULL);
    d->quantities = tailor_coat_quantities(d->coat, NULL);
    d->pattern = tailor_coat_pattern(d->coat);
    if (d->status == TAILOR_OK && extent & TAILOR_EXTENT_MAKE)
        d->status = look_at_pieces(d->pattern, &d->fault);
    return d->status == TAILOR_OK;
}

bool draft_order(const card *c, drafted *d) { return take_order(c, d, TAILOR_EXTENT_SECTION); }

bool make_order(const card *c, drafted *d) { return take_order(c, d, TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION); }

void drafted_free(drafted *d)
{
    tailor_coat_free(d->coat);
    tailor_house_free(d->house);
    d->coat = NULL;
    d->house = NULL;
}

void complain_refused(const card *c, const drafted *d)
{
    card_place place = card_fault_place(c, &d->fault);
    complain_at(place.source, place.line, "%s", d->fault.sentence);
}

bool sheet_heading(const card *c, const drafted *d, bool anonymous, char heading[HEADING_TEXT])
{
    static const char toile[] = "for toile only";
    (anonymous ? card_order : card_title)(c, heading, HEADING_TEXT - sizeof toile - 3);
    if (tailor_coat_toile_fields(d->coat, NULL)) {
        size_t used = strlen(heading);
        snprintf(heading + used, HEADING_TEXT - used, "%s%s", used ? " - " : "", toile);
    }
    return heading[0] != '\0';
}

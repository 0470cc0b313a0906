#include "drafted.h"

#include "complain.h"

#include <stdio.h>
#include <string.h>

static bool take_status(drafted *d, tailor_status status, const tailor_fault *fault)
{
    if (status != TAILOR_OK && d->status == TAILOR_OK) {
        d->status = status;
        d->fault = *fault;
    }
    return status == TAILOR_OK;
}

static bool resolve(const card *c, drafted *d)
{
    double client[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_fault fault = {0};
    card_rows(c, client, constants);
    tailor_status status = tailor_order_resolve(
        client, TAILOR_FIELD_COUNT, c->house.value, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, d->fields,
        TAILOR_FIELD_COUNT, d->origins, TAILOR_FIELD_COUNT, d->constants, TAILOR_CONSTANT_COUNT, &fault);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (d->origins[i] == TAILOR_ORIGIN_CLIENT && card_assumes(c, i))
            d->origins[i] = TAILOR_ORIGIN_RULE;
    return take_status(d, status, &fault);
}

typedef tailor_status drafter(const double *, size_t, const double *, size_t, const tailor_allocator *,
                              tailor_pattern **, tailor_fault *);

static bool take_order(const card *c, drafted *d, drafter *draft)
{
    memset(d, 0, sizeof *d);
    tailor_fault fault = {0};
    d->resolved = resolve(c, d);
    if (!d->resolved)
        return false;
    tailor_status status =
        draft(d->fields, TAILOR_FIELD_COUNT, d->constants, TAILOR_CONSTANT_COUNT, NULL, &d->pattern, &fault);
    if (!take_status(d, status, &fault))
        return false;
    status = tailor_coat_measure(d->pattern, d->fields, TAILOR_FIELD_COUNT, d->constants, TAILOR_CONSTANT_COUNT,
                                 d->quantities, TAILOR_QUANTITY_COUNT, d->check_values, d->check_limits,
                                 TAILOR_CHECK_COUNT, &fault);
    d->measured = status == TAILOR_OK || status == TAILOR_CHECK_FAILED;
    return take_status(d, status, &fault);
}

bool draft_order(const card *c, drafted *d) { return take_order(c, d, tailor_coat_draft); }

bool make_order(const card *c, drafted *d) { return take_order(c, d, tailor_coat_make); }

void drafted_free(drafted *d)
{
    tailor_pattern_free(d->pattern);
    d->pattern = NULL;
}

void complain_refused(const card *c, const drafted *d)
{
    card_place place = card_fault_place(c, &d->fault);
    complain_at(place.source, place.line, "%s", d->fault.sentence);
}

/* Common practice: a coat cut for one person on fewer measures than these is tried in a toile first. A sleeve measured
 * from the centre back is a sleeve measured. */
static const struct {
    int field, instead;
} bespoke[BESPOKE_MEASURE_COUNT] = {
    {TAILOR_FIELD_CHEST_GIRTH, 0},
    {TAILOR_FIELD_WAIST_GIRTH, 0},
    {TAILOR_FIELD_SEAT_GIRTH, 0},
    {TAILOR_FIELD_BACK_WAIST_LENGTH, 0},
    {TAILOR_FIELD_ARM_LENGTH, TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK},
    {TAILOR_FIELD_BACK_WIDTH, 0},
    {TAILOR_FIELD_SHOULDER_SLOPE, 0},
};

size_t toile_measures(const drafted *d, int missing[BESPOKE_MEASURE_COUNT])
{
    size_t count = 0;
    if (d->fields[TAILOR_FIELD_MAKING] == TAILOR_MAKING_MADE_TO_MEASURE)
        return 0; /* it may fill what was not measured */
    for (size_t i = 0; i < BESPOKE_MEASURE_COUNT; i++) {
        bool measured = d->origins[bespoke[i].field] == TAILOR_ORIGIN_CLIENT ||
                        (bespoke[i].instead && d->origins[bespoke[i].instead] == TAILOR_ORIGIN_CLIENT);
        if (!measured)
            missing[count++] = bespoke[i].field;
    }
    return count;
}

void toile_text(const drafted *d, char *text, size_t capacity)
{
    int missing[BESPOKE_MEASURE_COUNT];
    size_t count = toile_measures(d, missing), used = 0;
    text[0] = '\0';
    for (size_t i = 0; i < count && used < capacity; i++) {
        const char *name = tailor_table_text(tailor_field_table(), missing[i], TAILOR_COLUMN_NAME);
        int wrote = snprintf(text + used, capacity - used, "%s%s", i ? ", " : "", name);
        used += wrote > 0 ? (size_t)wrote : 0;
    }
}

bool sheet_heading(const card *c, const drafted *d, bool anonymous, char heading[HEADING_TEXT])
{
    static const char toile[] = "for toile only";
    int missing[BESPOKE_MEASURE_COUNT];
    (anonymous ? card_order : card_title)(c, heading, HEADING_TEXT - sizeof toile - 3);
    if (toile_measures(d, missing) > 0) {
        size_t used = strlen(heading);
        snprintf(heading + used, HEADING_TEXT - used, "%s%s", used ? " - " : "", toile);
    }
    return heading[0] != '\0';
}

/* tailorgeom compare: one order drafted several times with some of its values exchanged; what comes out differently. */
#include "comparison.h"
#include "complain.h"
#include "json_out.h"

#include <stdlib.h>
#include <string.h>

static json_t *axis_value(const by_axis *axis, size_t choice)
{
    double value = axis->values[choice];
    if (!axis->table)
        return json_string(cloths_at((size_t)value)->name);
    return axis->table == tailor_field_table() ? json_field_value(axis->number, value) : json_number(value);
}

static json_t *json_row(const comparison *c, size_t row)
{
    const drafted *d = &c->rows[row];
    json_t *object = json_object();
    bool good = object != NULL;
    for (size_t i = 0; good && i < c->plan->axis_count; i++)
        good = json_put(object, by_name(&c->plan->axes[i]), axis_value(&c->plan->axes[i], by_choice(c->plan, row, i)));
    if (good && d->status == TAILOR_OK)
        good = json_put(object, "cautions", json_cautions(d)) && json_put(object, "quantities", json_quantities(d));
    else
        good = good && json_put(object, "status", json_string(tailor_status_name(d->status))) &&
               json_put(object, "message", json_string(d->fault.sentence));
    return json_whole(object, good);
}

int comparison_print_json(const comparison *c)
{
    json_t *document = json_document("comparison"), *by = json_array(), *rows = json_array();
    bool good = document && by && rows;
    for (size_t i = 0; good && i < c->plan->axis_count; i++)
        good = json_add(by, json_string(by_name(&c->plan->axes[i])));
    for (size_t row = 0; good && row < c->plan->row_count; row++)
        good = json_add(rows, json_row(c, row));
    good = json_put(document, "by", json_whole(by, good)) && json_put(document, "rows", json_whole(rows, good));
    return json_print(json_whole(document, good));
}

static void complain_row(const comparison *c, size_t row, bool labelled)
{
    const drafted *d = &c->rows[row];
    card_place place = card_fault_place(c->card, &d->fault);
    char label[128];
    if (by_has(c->plan, &d->fault))
        place = (card_place){"--by", 0};
    by_label(c->plan, row, label, sizeof label);
    complain_at(place.source, place.line, "%s%s%s", labelled ? label : "", labelled ? ": " : "", d->fault.sentence);
}

/* Every refused row is told, but what is wrong with all of them in the same words only once. */
static void complain_rows(const comparison *c)
{
    size_t same = 0;
    while (same < c->plan->row_count && !good_row(c, same) &&
           strcmp(c->rows[same].fault.sentence, c->rows[0].fault.sentence) == 0)
        same++;
    if (same == c->plan->row_count) {
        complain_row(c, 0, false);
        return;
    }
    for (size_t row = 0; row < c->plan->row_count; row++)
        if (!good_row(c, row))
            complain_row(c, row, true);
}

static void draft_rows(comparison *c)
{
    for (size_t row = 0; row < c->plan->row_count; row++) {
        card changed = *c->card;
        by_apply(c->plan, row, &changed);
        c->drafted += draft_order(&changed, &c->rows[row]);
    }
}

static int report(const comparison *c)
{
    int status = c->drafted == c->plan->row_count ? EXIT_DONE : EXIT_REFUSED;
    int told = EXIT_DONE;
    if (status != EXIT_DONE)
        complain_rows(c);
    if (c->s->json)
        told = comparison_print_json(c);
    else if (c->drafted)
        told = comparison_print(c);
    if (told == EXIT_DONE && c->s->output && c->drafted)
        told = comparison_draw(c);
    return told != EXIT_DONE ? told : status;
}

int run_compare(const settings *s)
{
    card c;
    by_plan plan;
    if (s->output && !picture_format(s->output)) {
        complain("-o %s: the name ends in .svg, .pdf or .png", s->output);
        return EXIT_USAGE;
    }
    int status = by_read(&plan, s);
    if (status != EXIT_DONE)
        return status;
    if (!card_read(&c, s->operand, s->house))
        return EXIT_REFUSED;
    comparison compared = {.s = s, .plan = &plan, .card = &c, .rows = calloc(plan.row_count, sizeof(drafted))};
    if (!compared.rows) {
        complain("out of memory");
        return EXIT_REFUSED;
    }
    draft_rows(&compared);
    status = report(&compared);
    for (size_t row = 0; row < plan.row_count; row++)
        drafted_free(&compared.rows[row]);
    free(compared.rows);
    return status;
}

/* ticket_cautions: what nobody in the workroom may miss. */
#include "ticket.h"

#include <tailorgeom/sheet.h>

static void begin(ticket *t) { ticket_begin(t, TAILOR_LINE_CAUTION, ""); }

/* In the trade's words: nape to natural waist, not back_waist_length. */
static void say_toile(ticket *t)
{
    size_t count = 0;
    const int32_t *missing = tailor_coat_toile_fields(t->d->coat, &count);
    ticket_say(t, "For toile only. Not measured:");
    for (size_t i = 0; i < count; i++)
        ticket_say(t, "%s %s", i ? "," : "", tailor_table_text(tailor_field_table(), missing[i], TAILOR_COLUMN_TERM));
}

static void tell_coat(ticket *t)
{
    tailor_fault fault;
    for (int i = 0, weight; (weight = tailor_coat_caution(t->d->coat, i, &fault)) != 0; i++) {
        ticket_begin(t, weight == TAILOR_CAUTION_CLASS_TOLD ? TAILOR_LINE_TEXT : TAILOR_LINE_CAUTION, "");
        t->lines[t->count - 1].of_page = weight == TAILOR_CAUTION_CLASS_CAUTION;
        if (fault.index == TAILOR_CAUTION_TOILE_ONLY)
            say_toile(t);
        else
            ticket_say(t, "%s", fault.sentence);
        ticket_end(t);
    }
}

static void tell_edition(ticket *t)
{
    begin(t);
    if (t->c->edition && t->c->edition != tailor_edition())
        ticket_say(t, "The card was filled in by edition %d of the rules; what it leaves open follows edition %d.",
                   t->c->edition, tailor_edition());
    ticket_end(t);
}

static void tell_fittings(ticket *t)
{
    int count = 0;
    begin(t);
    for (int i = 0; i < t->c->fittings.count; i++) {
        const card_fitting *f = &t->c->fittings.list[i];
        if (f->left_out)
            ticket_say(t, "%s%d of %s", count++ ? ", " : "Fittings left out: ", i + 1, f->date);
    }
    ticket_end(t);
}

static void tell_sides(ticket *t)
{
    const tailor_pattern *p = t->d->pattern;
    bool differ = false;
    for (int i = 0; i + 1 < tailor_pattern_piece_count(p); i++)
        differ = differ || (tailor_piece_number(p, i) == tailor_piece_number(p, i + 1) &&
                            tailor_piece_side(p, i) != tailor_piece_side(p, i + 1));
    begin(t);
    if (differ)
        ticket_say(t, "Left and right are not alike: mind the side on every piece.");
    ticket_end(t);
}

static void tell_closing(ticket *t)
{
    begin(t);
    if (ticket_choice(t, "closing") == TAILOR_CLOSING_RIGHT_OVER_LEFT)
        ticket_say(t, "Closes right over left: the holes are in the right front.");
    ticket_end(t);
}

static void tell_roll(ticket *t)
{
    begin(t);
    if (tailor_piece_find_mark(t->d->pattern, ticket_front(t), "lapel_rolled") >= 0) /* as it is made to roll */
        ticket_say(t, "The lapel is cut to break at the top button and shall roll to the next: how it lies depends on "
                      "the make, on canvas, padding, bridle and iron.");
    ticket_end(t);
    double from = ticket_value_of(t, TICKET_QUANTITIES, "hole_bar_from_break");
    begin(t);
    if (ticket_put_in(t, "A hole worked on both sides lies in the roll: a stiff bar of ", TICKET_QUANTITIES, "hole_bar",
                      " along the break line"))
        ticket_put_size(t, ", its middle ", TICKET_QUANTITIES, "hole_bar_from_break",
                        from < 0 ? " behind the line as drawn." : " in front of the line as drawn.");
    ticket_end(t);
}

void ticket_tell_cautions(ticket *t)
{
    tell_coat(t);
    tell_edition(t);
    tell_fittings(t);
    tell_sides(t);
    tell_closing(t);
    tell_roll(t);
}

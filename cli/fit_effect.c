#include "fit_effect.h"

#include "complain.h"
#include "fittings.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const size_t none = (size_t)-1;

/* Apply and draft, with another amount for one of the changes. */
static bool makes_coat(const fit_trial *t, size_t which, double delta, card *after, drafted *d)
{
    tailor_fault fault;
    *after = *t->plan;
    if (which != none)
        after->fittings.changes[which].delta = delta;
    memset(d, 0, sizeof *d);
    d->status = fitting_alter(after, t->index, &fault);
    if (d->status == TAILOR_OK)
        return make_order(after, d); /* all pieces: a change may be of one of them alone */
    d->fault = fault;
    return false;
}

static const note *note_of(const fit_trial *t, const card_change *change)
{
    size_t i = 0;
    while (t->notes->list[i].place.line != change->place.line)
        i++;
    return &t->notes->list[i];
}

/* How much of one change makes a coat, in whole units of its field, 0 for nothing of it. -1 when even without it there
 * is none. What is told has been drafted. */
static int most_that_does(const fit_trial *t, size_t which, card *after, drafted *d)
{
    const double delta = t->plan->fittings.changes[which].delta;
    int good = 0, bad = (int)ceil(fmin(fabs(delta), 2000));
    bool does = makes_coat(t, which, 0, after, d);
    drafted_free(d);
    while (does && bad - good > 1) {
        int middle = good + (bad - good) / 2;
        if (makes_coat(t, which, copysign(middle, delta), after, d))
            good = middle;
        else
            bad = middle;
        drafted_free(d);
    }
    return does ? good : -1;
}

/* Say why, and which note to leave out or to halve. */
static void complain_no_coat(const fit_trial *t, const tailor_fault *fault, card *after, drafted *d)
{
    const card_fittings *all = &t->plan->fittings;
    card_place place = fitting_fault_place(t->plan, t->index, fault);
    char would_do[CARD_LINE_BYTES_MOST + 80] = "";
    for (size_t i = 0; i < all->change_count && !would_do[0]; i++) {
        if (all->changes[i].fitting != t->index)
            continue;
        int most = most_that_does(t, i, after, d);
        const note *n = note_of(t, &all->changes[i]);
        if (most >= 0 && place.source != t->notes->source)
            place = n->place;
        if (most > 0)
            snprintf(would_do, sizeof would_do, "; of \"%s\", up to %d %s would do", n->text, most,
                     tailor_table_text(tailor_field_table(), all->changes[i].field, TAILOR_COLUMN_UNIT));
        else if (most == 0)
            snprintf(would_do, sizeof would_do, "; without \"%s\" it would do", n->text);
    }
    if (place.source != t->notes->source)
        place = (card_place){t->notes->source, 0};
    complain_at(place.source, place.line, "%s%s", fault->sentence,
                would_do[0] ? would_do : "; no note alone is at fault: fit again with fewer of them");
}

static bool same_path(const tailor_cubic *a, size_t a_count, const tailor_cubic *b, size_t b_count)
{
    bool same = a_count == b_count;
    for (size_t i = 0; same && i < a_count; i++)
        for (int k = 0; k < 4; k++)
            same = same && a[i].p[k].x == b[i].p[k].x && a[i].p[k].y == b[i].p[k].y;
    return same;
}

static bool same_piece(const tailor_pattern *a, const tailor_pattern *b, int piece)
{
    size_t a_count = 0, b_count = 0;
    const tailor_cubic *a_path = tailor_piece_outline(a, piece, &a_count);
    const tailor_cubic *b_path = tailor_piece_outline(b, piece, &b_count);
    bool same = strcmp(tailor_piece_name(a, piece), tailor_piece_name(b, piece)) == 0 &&
                same_path(a_path, a_count, b_path, b_count) &&
                tailor_piece_mark_count(a, piece) == tailor_piece_mark_count(b, piece);
    for (int mark = 0; same && mark < tailor_piece_mark_count(a, piece); mark++) {
        a_path = tailor_mark_path(a, piece, mark, &a_count);
        b_path = tailor_mark_path(b, piece, mark, &b_count);
        same = same_path(a_path, a_count, b_path, b_count);
    }
    return same;
}

static bool same_pattern(const tailor_pattern *a, const tailor_pattern *b)
{
    int count = tailor_pattern_piece_count(a);
    bool same = count == tailor_pattern_piece_count(b);
    for (int piece = 0; same && piece < count; piece++)
        same = same_piece(a, b, piece);
    return same;
}

static bool same_coat(const drafted *a, const drafted *b)
{
    for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++)
        if (a->quantities[i] != b->quantities[i] && !(isnan(a->quantities[i]) && isnan(b->quantities[i])))
            return false;
    return same_pattern(a->pattern, b->pattern);
}

/* A note that leaves the coat as it is would be thought done: on this coat its field has no say. */
static bool all_have_effect(const fit_trial *t, const drafted *d, card *spare)
{
    const card_fittings *all = &t->plan->fittings;
    for (size_t i = 0; i < all->change_count; i++) {
        const card_change *change = &all->changes[i];
        drafted without;
        if (change->fitting != t->index)
            continue;
        bool same = makes_coat(t, i, 0, spare, &without) && same_coat(d, &without);
        drafted_free(&without);
        if (!same)
            continue;
        complain_at(change->place.source, change->place.line, "\"%s\" changes %s, which alters nothing of this coat: "
                    "leave it out. %s", note_of(t, change)->text,
                    tailor_table_text(tailor_field_table(), change->field, TAILOR_COLUMN_NAME),
                    tailor_table_text(tailor_field_table(), change->field, TAILOR_COLUMN_MEANING));
        return false;
    }
    return true;
}

bool fit_try(const fit_trial *t, card *after, drafted *d)
{
    card *spare = malloc(sizeof *spare);
    bool good = false;
    if (!spare)
        complain("out of memory");
    else if (!makes_coat(t, none, 0, after, d)) {
        drafted other;
        complain_no_coat(t, &d->fault, spare, &other);
    } else
        good = all_have_effect(t, d, spare);
    free(spare);
    return good;
}

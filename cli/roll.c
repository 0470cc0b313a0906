/* tailorgeom roll: how the lapel of a coat rolls, beside each number what it rests on. */
#include "roll.h"

#include "cautions.h"
#include "complain.h"
#include "table_out.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NUMBER_TEXT = 300, INDENT = 4, WIDTH = 100 };

/* Where the lapel turns, with its band, in one sentence. */
static void distance_text(const double *q, int print, char text[NUMBER_TEXT])
{
    double distance = q[TAILOR_QUANTITY_ROLL_DISTANCE];
    char far[VALUE_TEXT], band[VALUE_TEXT];
    const tailor_table *table = tailor_quantity_table();
    /* whole millimetres: the number says nothing finer */
    value_write(table, TAILOR_QUANTITY_ROLL_DISTANCE, round(fabs(distance)), print, far);
    value_write(table, TAILOR_QUANTITY_ROLL_BAND, q[TAILOR_QUANTITY_ROLL_BAND], print, band);
    snprintf(text, NUMBER_TEXT, "%s %s %s the drawn break, give or take %s", far,
             value_unit(table, TAILOR_QUANTITY_ROLL_DISTANCE, print), distance < 0 ? "above" : "below", band);
}

static void number_text(const rolling *r, const roll_number *n, int print, char text[NUMBER_TEXT])
{
    const tailor_table *table = tailor_quantity_table();
    char value[VALUE_TEXT];
    const char *why = roll_why_not(r, n);
    double number = r->d.quantities[n->quantity];
    if (why)
        snprintf(text, NUMBER_TEXT, "no number: %s", why);
    else if (n->quantity == TAILOR_QUANTITY_ROLL_DISTANCE)
        distance_text(r->d.quantities, print, text);
    else if (n->quantity == TAILOR_QUANTITY_BREAK_STRETCH)
        snprintf(text, NUMBER_TEXT, "%.2f %%%s", number,
                 number > 5 ? ", nominal: cloth follows a straight law to some 5 %" : "");
    else {
        value_write(table, n->quantity, number, print, value);
        const char *unit = value_unit(table, n->quantity, print);
        snprintf(text, NUMBER_TEXT, "%s%s%s", value, unit[0] ? " " : "", unit);
    }
}

/* A text in lines of the width, indented. */
static void print_wrapped(const char *text)
{
    size_t used = 0;
    for (const char *at = text; *at;) {
        size_t length = strcspn(at, " ");
        if (used && used + 1 + length > WIDTH - INDENT) {
            putchar('\n');
            used = 0;
        }
        printf("%*s%.*s", used ? 1 : INDENT, "", (int)length, at);
        used += length + (used > 0);
        at += length;
        at += strspn(at, " ");
    }
    putchar('\n');
}

static void print_numbers(const rolling *r, int print)
{
    char last[BASIS_TEXT] = "";
    for (size_t i = 0; i < ROLL_NUMBERS; i++) {
        const roll_number *n = &roll_numbers[i];
        char text[NUMBER_TEXT], basis[BASIS_TEXT];
        if (n->quantity == TAILOR_QUANTITY_ROLL_BAND) /* stands with the distance */
            continue;
        number_text(r, n, print, text);
        roll_basis(r, n, basis);
        if (roll_why_not(r, n)) {
            printf("%s\n", n->label);
            print_wrapped(text);
            continue;
        }
        printf("%-36s  %s\n", n->label, text);
        print_wrapped(strcmp(basis, last) == 0 ? "as above" : basis);
        memcpy(last, basis, sizeof last);
    }
}

static void cell_text(const rolling *r, const roll_number *n, int print, char text[VALUE_TEXT])
{
    double value = r->d.quantities[n->quantity];
    if (!r->good)
        snprintf(text, VALUE_TEXT, "refused");
    else if (n->quantity == TAILOR_QUANTITY_BREAK_STRETCH && !isnan(value))
        snprintf(text, VALUE_TEXT, "%.2f", value);
    else
        value_write(tailor_quantity_table(), n->quantity,
                    n->quantity == TAILOR_QUANTITY_ROLL_DISTANCE ? round(value) : value, print, text);
}

static bool print_beside(const roll_table *t, int print)
{
    table_out out;
    char text[VALUE_TEXT];
    bool good = table_begin(&out, t->count + 2, 2) && table_row(&out);
    for (size_t k = 0; good && k < t->count; k++) {
        choice_name(tailor_field_table(), TAILOR_FIELD_BUTTONING, t->coats[k].buttoning, text);
        table_cell(&out, k + 2, text);
    }
    for (size_t i = 0; good && i < ROLL_NUMBERS; i++) {
        const roll_number *n = &roll_numbers[i];
        good = table_row(&out);
        if (!good)
            break;
        table_cell(&out, 0, tailor_table_text(tailor_quantity_table(), n->quantity, TAILOR_COLUMN_NAME));
        table_cell(&out, 1, value_unit(tailor_quantity_table(), n->quantity, print));
        for (size_t k = 0; k < t->count; k++) {
            cell_text(&t->coats[k], n, print, text);
            table_cell(&out, k + 2, text);
        }
    }
    printf("\nbeside other fastenings of the same order\n");
    if (good)
        table_end(&out);
    else {
        free(out.cells);
        complain("out of memory");
    }
    return good;
}

static void print_cautions(const roll_table *t)
{
    cautioned coats[ROLLINGS_MOST];
    size_t count = 0;
    for (size_t i = 0; i < t->count; i++)
        if (t->coats[i].good) {
            coats[count].coat = t->coats[i].d.coat;
            choice_name(tailor_field_table(), TAILOR_FIELD_BUTTONING, t->coats[i].buttoning, coats[count++].label);
        }
    cautions_print(coats, count, false, "\n");
}

static bool print_text(const roll_table *t)
{
    char text[HEADING_TEXT], buttoning[VALUE_TEXT];
    card_title(&t->card, text, sizeof text);
    choice_name(tailor_field_table(), TAILOR_FIELD_BUTTONING, t->coats[0].buttoning, buttoning);
    printf("%s%s%s\n\n", text, text[0] ? ": " : "", buttoning);
    print_numbers(&t->coats[0], t->s->print);
    bool good = print_beside(t, t->s->print);
    print_cautions(t);
    printf("\nMechanics is as good as the numbers it is given. Of the roll, class and distance are a law fitted to a\n"
           "simulation of one idealised front; no real coat has confirmed the millimetres.\n");
    return good;
}

/* The order, and beside it the roll by make and the roll by cut. */
static void draft_all(roll_table *t)
{
    static const int others[] = {TAILOR_BUTTONING_ROLL_BY_MAKE, TAILOR_BUTTONING_ROLL_BY_CUT};
    roll_draft(&t->coats[t->count++], &t->card, 0);
    for (size_t i = 0; t->coats[0].good && i < sizeof others / sizeof others[0]; i++) {
        card *c = &t->others[t->count - 1];
        if (others[i] == t->coats[0].buttoning)
            continue;
        *c = t->card;
        c->client.value[TAILOR_FIELD_BUTTONING] = others[i];
        roll_draft(&t->coats[t->count++], c, others[i]);
    }
}

static int report(const roll_table *t)
{
    int status = EXIT_DONE;
    if (t->s->section && !tailor_coat_section(t->coats[0].d.coat, NULL)) {
        complain_at(t->card.source, 0, "no section can be drawn: %s",
                    roll_why_not(&t->coats[0], roll_number_of(TAILOR_QUANTITY_ROLL_HEIGHT)));
        return EXIT_REFUSED;
    }
    if (t->s->section)
        status = roll_draw(t);
    if (status != EXIT_DONE)
        return status;
    return t->s->json ? roll_print_json(t) : print_text(t) ? EXIT_DONE : EXIT_REFUSED;
}

int run_roll(const settings *s)
{
    if (s->output && !s->section) {
        complain("-o is where the section is drawn: add --section");
        return EXIT_USAGE;
    }
    roll_table *t = calloc(1, sizeof *t);
    if (!t) {
        complain("out of memory");
        return EXIT_REFUSED;
    }
    t->s = s;
    int status = EXIT_REFUSED;
    if (card_read(&t->card, s->operand, s->house)) {
        draft_all(t);
        if (t->coats[0].good)
            status = report(t);
        else
            complain_refused(&t->card, &t->coats[0].d);
    }
    for (size_t i = 0; i < t->count; i++)
        drafted_free(&t->coats[i].d);
    free(t);
    return status;
}

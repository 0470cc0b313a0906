/* compare_table: a comparison for people: what differs, and below it what is the same in all. */
#include "cautions.h"
#include "comparison.h"
#include "complain.h"
#include "table_out.h"
#include "values.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The sort of row a quantity gets: lengths of the chest covered are told in inches and in mm, as the trade does. */
static bool is_coverage(int quantity)
{
    return strncmp(tailor_table_text(tailor_quantity_table(), quantity, TAILOR_COLUMN_NAME), "coverage", 8) == 0;
}

static bool differs(const comparison *c, int quantity)
{
    char first[VALUE_TEXT] = "", text[VALUE_TEXT];
    for (size_t row = 0; row < c->plan->row_count; row++) {
        if (!good_row(c, row))
            continue;
        value_write(tailor_quantity_table(), quantity, c->rows[row].quantities[quantity], TAILOR_PRINT_MM, text);
        if (!first[0])
            memcpy(first, text, sizeof first);
        if (strcmp(first, text) != 0)
            return true;
    }
    return c->drafted < 2; /* nothing to compare with: show everything */
}

/* A quantity of the right side that is that of the left in every coat says nothing of its own. */
static bool is_twin(const comparison *c, int quantity)
{
    static const char right[] = "_right";
    const tailor_table *table = tailor_quantity_table();
    const char *name = tailor_table_text(table, quantity, TAILOR_COLUMN_NAME);
    size_t length = strlen(name), ending = sizeof right - 1;
    char left[VALUE_TEXT];
    if (length <= ending || strcmp(name + length - ending, right) != 0)
        return false;
    snprintf(left, sizeof left, "%.*s", (int)(length - ending), name);
    int twin = tailor_table_find(table, left);
    if (!twin || twin >= TAILOR_QUANTITY_COUNT)
        return false;
    for (size_t row = 0; row < c->plan->row_count; row++)
        if (good_row(c, row) && c->rows[row].quantities[quantity] != c->rows[row].quantities[twin])
            return false;
    return true;
}

static bool quantity_row(const comparison *c, table_out *t, int quantity, int print)
{
    const tailor_table *table = tailor_quantity_table();
    char text[VALUE_TEXT];
    if (!table_row(t))
        return false;
    table_cell(t, 0, tailor_table_text(table, quantity, TAILOR_COLUMN_NAME));
    table_cell(t, 1, value_unit(table, quantity, print));
    for (size_t row = 0; row < c->plan->row_count; row++) {
        value_write(table, quantity, good_row(c, row) ? c->rows[row].quantities[quantity] : 0, print, text);
        table_cell(t, row + 2, good_row(c, row) ? text : "refused");
    }
    return true;
}

static bool head_rows(const comparison *c, table_out *t)
{
    for (size_t axis = 0; axis < c->plan->axis_count; axis++) {
        if (!table_row(t))
            return false;
        table_cell(t, 0, by_name(&c->plan->axes[axis]));
        for (size_t row = 0; row < c->plan->row_count; row++)
            table_cell(t, row + 2, c->plan->axes[axis].labels[by_choice(c->plan, row, axis)]);
    }
    return true;
}

/* The rows of quantities that differ: of the coverage, or all others. */
static bool differing_rows(const comparison *c, table_out *t, bool coverage)
{
    int print = c->s->print;
    int inches = print == TAILOR_PRINT_MM ? TAILOR_PRINT_INCH_8 : print;
    bool good = true;
    for (int place = 0, quantity; good && (quantity = tailor_table_at(tailor_quantity_table(), place)) != 0; place++) {
        if (quantity >= TAILOR_QUANTITY_COUNT || is_coverage(quantity) != coverage || !differs(c, quantity) ||
            is_twin(c, quantity))
            continue;
        good = coverage ? quantity_row(c, t, quantity, inches) && quantity_row(c, t, quantity, TAILOR_PRINT_MM)
                        : quantity_row(c, t, quantity, print);
    }
    return good;
}

static void print_same(const comparison *c)
{
    const tailor_table *table = tailor_quantity_table();
    const drafted *any = first_good(c);
    bool begun = false;
    for (int place = 0, quantity; (quantity = tailor_table_at(table, place)) != 0; place++) {
        char text[VALUE_TEXT];
        if (quantity >= TAILOR_QUANTITY_COUNT || differs(c, quantity) || is_twin(c, quantity))
            continue;
        value_write(table, quantity, any->quantities[quantity], c->s->print, text);
        printf("%s%-27s %10s %s\n", begun ? "" : "\nthe same in all\n",
               tailor_table_text(table, quantity, TAILOR_COLUMN_NAME), text,
               value_unit(table, quantity, c->s->print));
        begun = true;
    }
}

static bool print_cautions(const comparison *c)
{
    cautioned *coats = calloc(c->plan->row_count, sizeof *coats);
    size_t count = 0;
    for (size_t row = 0; coats && row < c->plan->row_count; row++) {
        if (!good_row(c, row))
            continue;
        coats[count].coat = c->rows[row].coat;
        by_label(c->plan, row, coats[count].label, sizeof coats[count].label);
        count++;
    }
    cautions_print(coats, count, false, "\n");
    free(coats);
    return coats != NULL;
}

int comparison_print(const comparison *c)
{
    table_out t;
    char title[HEADING_TEXT];
    table_begin(&t, c->plan->row_count + 2, 2);
    card_title(c->card, title, sizeof title);
    if (title[0])
        printf("%s\n\n", title);
    bool good = head_rows(c, &t) && differing_rows(c, &t, true) && differing_rows(c, &t, false);
    table_end(&t);
    if (good)
        print_same(c);
    if (good && print_cautions(c))
        return EXIT_DONE;
    complain("out of memory");
    return EXIT_REFUSED;
}

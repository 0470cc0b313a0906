/* tailorgeom check: what holds of a coat, and what it was made from. */
#include "cautions.h"
#include "commands.h"
#include "complain.h"
#include "drafted.h"
#include "fittings.h"
#include "resolved.h"
#include "table_out.h"
#include "values.h"

#include <math.h>
#include <stdio.h>

static bool check_row(table_out *t, const drafted *d, int check)
{
    static const char *const outcomes[] = {"-", "FAIL", "pass"};
    const tailor_table *table = tailor_check_table();
    double measured, bound;
    int passes = tailor_coat_check(d->coat, check, &measured, &bound);
    char value[VALUE_TEXT] = "-", limit[VALUE_TEXT] = "-";
    if (!isnan(measured))
        snprintf(value, sizeof value, "%.4f", measured);
    if (!isnan(bound))
        snprintf(limit, sizeof limit, "%g", bound);
    if (!table_row(t))
        return false;
    table_cell(t, 0, tailor_table_text(table, check, TAILOR_COLUMN_NAME));
    table_cell(t, 1, outcomes[passes + 1]);
    table_cell(t, 2, value);
    table_cell(t, 3, tailor_check_sense(check) > 0 ? "at most" : "at least");
    table_cell(t, 4, limit);
    table_cell(t, 5, tailor_table_text(table, check, TAILOR_COLUMN_UNIT));
    return true;
}

static bool print_checks(const drafted *d)
{
    table_out t;
    int pass = 0, fail = 0;
    bool good = table_begin(&t, 6, 2);
    for (int place = 0, check; good && (check = tailor_table_at(tailor_check_table(), place)) != 0; place++) {
        if (check >= TAILOR_CHECK_COUNT)
            continue;
        good = check_row(&t, d, check);
        int passes = tailor_coat_check(d->coat, check, NULL, NULL);
        pass += passes == 1;
        fail += passes == 0;
    }
    printf("checks\n");
    table_end(&t);
    if (good)
        printf("%d pass, %d fail\n", pass, fail);
    else
        complain("out of memory");
    return good;
}

static void print_field(const drafted *d, int field, int print, bool with_rule)
{
    const tailor_table *table = tailor_field_table();
    const char *rule = with_rule ? rule_text(table, field) : "";
    char value[VALUE_TEXT];
    value_write(table, field, d->fields[field], print, value);
    printf("  %-27s %12s", tailor_table_text(table, field, TAILOR_COLUMN_NAME), value);
    const char *unit = value_unit(table, field, print);
    if (rule[0])
        printf(" %-5s  %s\n", unit, rule);
    else
        printf("%s%s\n", unit[0] ? " " : "", unit);
}

/* All fields of one origin, under a heading. */
static void print_origin(const drafted *d, int origin, const char *heading, int print)
{
    bool begun = false;
    for (int place = 0, field; (field = tailor_table_at(tailor_field_table(), place)) != 0; place++) {
        if (field >= TAILOR_FIELD_COUNT || d->origins[field] != origin)
            continue;
        if (!begun)
            printf("\n%s\n", heading);
        begun = true;
        print_field(d, field, print, origin == TAILOR_ORIGIN_RULE);
    }
}

static void print_constants(const card *c, const drafted *d, int print)
{
    const tailor_table *table = tailor_constant_table();
    bool begun = false;
    for (int place = 0, constant; (constant = tailor_table_at(table, place)) != 0; place++) {
        char value[VALUE_TEXT];
        if (constant >= TAILOR_CONSTANT_COUNT || !c->constants.place[constant].source)
            continue;
        value_write(table, constant, d->constants[constant], print, value);
        printf("%s  %-27s %12s %s\n", begun ? "" : "\nconstants of the house\n",
               tailor_table_text(table, constant, TAILOR_COLUMN_NAME), value, value_unit(table, constant, print));
        begun = true;
    }
}

/* Fittings are in the values above already: here it stands what each of them altered. */
static void print_fittings(const card *c)
{
    for (int i = 0; i < c->fittings.count; i++) {
        const card_fitting *f = &c->fittings.list[i];
        printf("\nfitting %d, %s%s\n", i + 1, f->date, f->left_out ? ", left out" : "");
        for (size_t k = 0; k < c->fittings.change_count; k++) {
            const card_change *change = &c->fittings.changes[k];
            char delta[VALUE_TEXT];
            if (change->fitting != i)
                continue;
            change_write(change->field, change->delta, delta);
            printf("  %-27s %12s\n", tailor_table_text(tailor_field_table(), change->field, TAILOR_COLUMN_NAME), delta);
        }
    }
}

static bool print_all(const card *c, const drafted *d, int print)
{
    char text[HEADING_TEXT];
    card_title(c, text, sizeof text);
    if (text[0])
        printf("%s\n\n", text);
    bool good = !d->coat || print_checks(d);
    print_origin(d, TAILOR_ORIGIN_CLIENT, "given by the client", print);
    print_origin(d, TAILOR_ORIGIN_HOUSE, "given by the house", print);
    print_constants(c, d, print);
    print_origin(d, TAILOR_ORIGIN_RULE, "assumed", print);
    print_fittings(c);
    cautions_print_one(d->coat, true, "\n");
    return good;
}

int run_check(const settings *s)
{
    card c;
    drafted d;
    if (!card_read(&c, s->operand, s->house))
        return EXIT_REFUSED;
    bool good = make_order(&c, &d);
    if (!good)
        complain_refused(&c, &d);
    if (d.resolved) /* also of a coat that does not close: what was assumed may tell why */
        good = (s->resolved ? resolved_print(&c, &d) : print_all(&c, &d, s->print)) && good;
    drafted_free(&d);
    return good ? EXIT_DONE : EXIT_REFUSED;
}

/* What differs between two cards, as a table for people and as JSON. */
#include "cautions.h"
#include "complain.h"
#include "diff.h"
#include "json_out.h"
#include "table_out.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void diff_tables(const diff_run *r, diff_table tables[DIFF_TABLES])
{
    const drafted *b = &r->of_before, *a = &r->of_after;
    tables[0] = (diff_table){"fields", tailor_field_table(), b->fields, a->fields, TAILOR_FIELD_COUNT, false};
    tables[1] =
        (diff_table){"constants", tailor_constant_table(), b->constants, a->constants, TAILOR_CONSTANT_COUNT, false};
    tables[2] =
        (diff_table){"quantities", tailor_quantity_table(), b->quantities, a->quantities, TAILOR_QUANTITY_COUNT, true};
}

bool diff_differs(const diff_table *t, int number)
{
    double before = t->before[number], after = t->after[number];
    char amount[VALUE_TEXT], nothing[VALUE_TEXT];
    if (before == after || (isnan(before) && isnan(after)))
        return false;
    if (!t->as_printed || isnan(before) || isnan(after))
        return true;
    value_write(t->table, number, fabs(after - before), TAILOR_PRINT_MM, amount);
    value_write(t->table, number, 0, TAILOR_PRINT_MM, nothing);
    return strcmp(amount, nothing) != 0;
}

/* The value in use: of a side without a value of its own that of both sides, where the other card tells them apart. */
static double in_use(const diff_table *t, const double *row, int number)
{
    int both = t->table == tailor_field_table() && isnan(row[number]) ? field_of_both_sides(number) : 0;
    return both ? row[both] : row[number];
}

/* NaN where there is none: of a choice, or where one of them does not exist. */
static double difference(const diff_table *t, int number)
{
    bool choice = tailor_table_choices(t->table, number) != NULL;
    return choice ? (double)NAN : in_use(t, t->after, number) - in_use(t, t->before, number);
}

static void write_difference(const diff_table *t, int number, int print, char text[VALUE_TEXT])
{
    double d = difference(t, number);
    text[0] = '\0';
    if (isnan(d))
        return;
    text[0] = d < 0 ? '-' : '+';
    char amount[VALUE_TEXT];
    value_write(t->table, number, fabs(d), print, amount);
    snprintf(text + 1, VALUE_TEXT - 1, "%.60s", amount);
}

static bool put_row(table_out *out, const diff_table *t, int number, int print)
{
    char text[VALUE_TEXT];
    if (!table_row(out))
        return false;
    table_cell(out, 0, tailor_table_text(t->table, number, TAILOR_COLUMN_NAME));
    table_cell(out, 1, value_unit(t->table, number, print));
    value_write(t->table, number, in_use(t, t->before, number), print, text);
    table_cell(out, 2, text);
    value_write(t->table, number, in_use(t, t->after, number), print, text);
    table_cell(out, 3, text);
    write_difference(t, number, print, text);
    table_cell(out, 4, text);
    return true;
}

/* Prints a table's rows that differ; how many, or -1 when memory ran out. */
static int print_table(const diff_table *t, int print)
{
    static const char *const heads[] = {"", "", "before", "after", "difference"};
    table_out out;
    int rows = 0;
    bool good = table_begin(&out, 5, 2) && table_row(&out);
    for (size_t i = 0; good && i < sizeof heads / sizeof heads[0]; i++)
        table_cell(&out, i, heads[i]);
    if (good)
        table_cell(&out, 0, t->name);
    for (int place = 0, number; good && (number = tailor_table_at(t->table, place)) != 0; place++) {
        if (number >= t->count || !diff_differs(t, number))
            continue;
        good = put_row(&out, t, number, print);
        rows++;
    }
    if (!good || rows == 0)
        out.rows = 0; /* not even its head */
    else
        putchar('\n');
    table_end(&out);
    return good ? rows : -1;
}

static void print_card(const char *word, const card *c)
{
    char title[HEADING_TEXT];
    card_title(c, title, sizeof title);
    printf("%-7s %s%s%s%s\n", word, c->source, title[0] ? " (" : "", title, title[0] ? ")" : "");
}

int diff_print(const diff_run *r)
{
    const cautioned coats[] = {{r->of_before.coat, "before"}, {r->of_after.coat, "after"}};
    diff_table tables[DIFF_TABLES];
    int rows = 0;
    diff_tables(r, tables);
    print_card("before:", &r->before);
    print_card("after:", &r->after);
    for (int i = 0; i < DIFF_TABLES; i++) {
        int printed = print_table(&tables[i], r->s->print);
        if (printed < 0) {
            complain("out of memory");
            return EXIT_REFUSED;
        }
        rows += printed;
    }
    if (rows == 0)
        printf("\nnothing differs\n");
    cautions_print(coats, 2, false, "\n");
    return EXIT_DONE;
}

static json_t *json_value(const diff_table *t, int number, double value)
{
    return t->table == tailor_field_table() ? json_field_value(number, value) : json_number(value);
}

/* {"arm_length": {"before": 602, "after": 592, "difference": -10}}, of the rows that differ at all. */
static json_t *json_table(const diff_table *t)
{
    diff_table exact = *t;
    exact.as_printed = false;
    json_t *object = json_object();
    bool good = object != NULL;
    for (int place = 0, number; good && (number = tailor_table_at(t->table, place)) != 0; place++) {
        if (number >= t->count || !diff_differs(&exact, number))
            continue;
        json_t *row = json_object();
        good = row && json_put(row, "before", json_value(t, number, in_use(t, t->before, number))) &&
               json_put(row, "after", json_value(t, number, in_use(t, t->after, number))) &&
               json_put(row, "difference", json_number(difference(t, number)));
        good = json_put(object, tailor_table_text(t->table, number, TAILOR_COLUMN_NAME), json_whole(row, good));
    }
    return json_whole(object, good);
}

/* Names of the pieces that only one of the coats has. */
static json_t *json_only(const drafted *d, const drafted *other)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0; good && i < tailor_pattern_piece_count(d->pattern); i++) {
        const char *name = tailor_piece_name(d->pattern, i);
        if (tailor_pattern_find_piece(other->pattern, name) < 0)
            good = json_add(array, json_string(name));
    }
    return json_whole(array, good);
}

int diff_print_json(const diff_run *r)
{
    diff_table tables[DIFF_TABLES];
    json_t *document = json_document("difference");
    bool good = document != NULL;
    diff_tables(r, tables);
    for (int i = 0; good && i < DIFF_TABLES; i++)
        good = json_put(document, tables[i].name, json_table(&tables[i]));
    good = good && json_put(document, "cautions_before", json_cautions(&r->of_before)) &&
           json_put(document, "cautions_after", json_cautions(&r->of_after)) &&
           json_put(document, "pieces_only_before", json_only(&r->of_before, &r->of_after)) &&
           json_put(document, "pieces_only_after", json_only(&r->of_after, &r->of_before));
    return json_print(json_whole(document, good));
}

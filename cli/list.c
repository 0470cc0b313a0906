/* tailorgeom list: the tables themselves. */
#include "commands.h"
#include "complain.h"
#include "json_out.h"
#include "nearest.h"
#include "phrases.h"
#include "sections.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/coat.h>

static const struct {
    const char *name;
    const tailor_table *(*table)(void);
} tables[] = {
    {"fields", tailor_field_table},
    {"constants", tailor_constant_table},
    {"quantities", tailor_quantity_table},
    {"checks", tailor_check_table},
};
enum { TABLE_COUNT = sizeof tables / sizeof tables[0] };

/* Text columns as members, in this order; numbers and ranges come between. */
static const struct {
    int column;
    const char *member;
} columns[] = {
    {TAILOR_COLUMN_NAME, "name"}, {TAILOR_COLUMN_GROUP, "group"},           {TAILOR_COLUMN_TERM, "term"},
    {TAILOR_COLUMN_UNIT, "unit"}, {TAILOR_COLUMN_RULE, "rule"},             {TAILOR_COLUMN_PROVENANCE, "provenance"},
    {TAILOR_COLUMN_MEANING, "meaning"}, {TAILOR_COLUMN_SINCE, "since"},
};
enum { COLUMN_COUNT = sizeof columns / sizeof columns[0] };

static json_t *json_choices(const tailor_table *choices)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (int place = 0, number; good && (number = tailor_table_at(choices, place)) != 0; place++)
        good = json_add(array, json_string(tailor_table_text(choices, number, TAILOR_COLUMN_NAME)));
    return json_whole(array, good);
}

static json_t *json_table_row(const tailor_table *table, int number)
{
    const tailor_table *choices = tailor_table_choices(table, number);
    json_t *row = json_object();
    bool good = json_put(row, "number", json_integer(number));
    for (size_t i = 0; good && i < COLUMN_COUNT; i++)
        good = json_put(row, columns[i].member, json_string(tailor_table_text(table, number, columns[i].column)));
    if (good && table == tailor_field_table())
        good = json_put(row, "section", json_string(section_of_field(number)));
    if (good && (table == tailor_field_table() || table == tailor_constant_table()))
        good = json_put(row, "low", json_number(tailor_table_low(table, number))) &&
               json_put(row, "high", json_number(tailor_table_high(table, number)));
    if (good && choices)
        good = json_put(row, "choices", json_choices(choices));
    if (good && table == tailor_check_table())
        good = json_put(row, "sense", json_string(tailor_check_sense(number) > 0 ? "at most" : "at least"));
    return json_whole(row, good);
}

static int list_json(const char *name, const tailor_table *table)
{
    json_t *document = json_document("list"), *rows = json_array();
    bool good = document && json_put(document, "table", json_string(name)) && rows;
    for (int place = 0, number; good && (number = tailor_table_at(table, place)) != 0; place++)
        good = json_add(rows, json_table_row(table, number));
    good = json_put(document, "rows", json_whole(rows, good));
    return json_print(json_whole(document, good));
}

/* Words wrapped behind a margin, to lines of about 96 columns. */
static void print_wrapped(const char *text, int margin)
{
    int column = 96;
    for (const char *at = text; *at; at += strspn(at, " ")) {
        int length = (int)strcspn(at, " ");
        if (column + 1 + length > 96) {
            printf("%s%*s", at == text ? "" : "\n", margin, "");
            column = margin;
        } else {
            putchar(' ');
            column++;
        }
        printf("%.*s", length, at);
        column += length;
        at += length;
    }
    putchar('\n');
}

/* "700 to 1600 mm; default: 0.25 stature" */
static void print_row(const tailor_table *table, int number)
{
    const char *unit = tailor_table_text(table, number, TAILOR_COLUMN_UNIT);
    const char *rule = tailor_table_text(table, number, TAILOR_COLUMN_RULE);
    const tailor_table *choices = tailor_table_choices(table, number);
    double low = tailor_table_low(table, number), high = tailor_table_high(table, number);
    bool has_default = rule[0] && strcmp(rule, "required") != 0;
    char choice[VALUE_TEXT];
    if (choice_name(table, number, strtod(rule, NULL), choice))
        rule = choice;
    else if (rule_text(table, number)[0])
        rule = rule_text(table, number);
    printf("  %-28s", tailor_table_text(table, number, TAILOR_COLUMN_NAME));
    if (!choices && !isnan(low) && !isnan(high))
        printf("%g to %g ", low, high);
    for (int place = 0, one; (one = tailor_table_at(choices, place)) != 0; place++)
        printf("%s%s", place ? " " : "", tailor_table_text(choices, one, TAILOR_COLUMN_NAME));
    printf("%s%s%s%s\n", choices ? "" : unit, rule[0] ? "; " : "", has_default ? "default: " : "", rule);
    print_wrapped(tailor_table_text(table, number, TAILOR_COLUMN_MEANING), 6);
}

static void list_text(const tailor_table *table)
{
    const char *group = NULL;
    for (int place = 0, number; (number = tailor_table_at(table, place)) != 0; place++) {
        const char *own = tailor_table_text(table, number, TAILOR_COLUMN_GROUP);
        if (!group || strcmp(group, own) != 0) {
            printf("%s%s", group ? "\n" : "", own);
            if (table == tailor_field_table())
                printf("  [%s]", section_of_field(number));
            putchar('\n');
        }
        group = own;
        print_row(table, number);
    }
}

/* ---- choices: a table of each field and quantity that is chosen */

static json_t *json_choice(const tailor_table *choices, int number, const char *of)
{
    static const int texts[] = {TAILOR_COLUMN_NAME, TAILOR_COLUMN_TERM, TAILOR_COLUMN_SYNONYMS, TAILOR_COLUMN_MEANING,
                                TAILOR_COLUMN_SINCE};
    static const char *const members[] = {"name", "term", "synonyms", "meaning", "since"};
    json_t *row = json_object();
    bool good = json_put(row, "field", json_string(of)) && json_put(row, "number", json_integer(number));
    for (size_t i = 0; good && i < sizeof texts / sizeof texts[0]; i++)
        good = json_put(row, members[i], json_string(tailor_table_text(choices, number, texts[i])));
    return json_whole(row, good);
}

static void print_choice(const tailor_table *choices, int number)
{
    const char *synonyms = tailor_table_text(choices, number, TAILOR_COLUMN_SYNONYMS);
    printf("  %-28s%s%s%s\n", tailor_table_text(choices, number, TAILOR_COLUMN_NAME),
           tailor_table_text(choices, number, TAILOR_COLUMN_TERM), synonyms[0] ? "; also: " : "", synonyms);
    print_wrapped(tailor_table_text(choices, number, TAILOR_COLUMN_MEANING), 6);
}

/* Of all fields, then of all quantities; `rows` takes them, or else they are printed. */
static bool tell_choices(json_t *rows)
{
    const tailor_table *const of[] = {tailor_field_table(), tailor_quantity_table()};
    bool good = true, begun = false;
    for (int i = 0; i < 2; i++)
        for (int place = 0, row; (row = tailor_table_at(of[i], place)) != 0; place++) {
            const tailor_table *choices = tailor_table_choices(of[i], row);
            const char *name = tailor_table_text(of[i], row, TAILOR_COLUMN_NAME);
            if (choices && !rows)
                printf("%s%s\n", begun ? "\n" : "", name);
            for (int at = 0, number; (number = tailor_table_at(choices, at)) != 0; at++)
                if (rows)
                    good = good && json_add(rows, json_choice(choices, number, name));
                else
                    print_choice(choices, number);
            begun = begun || choices;
        }
    return good;
}

static int list_choices(const settings *s)
{
    if (!s->json) {
        tell_choices(NULL);
        return EXIT_DONE;
    }
    json_t *document = json_document("list"), *rows = json_array();
    bool good = document && json_put(document, "table", json_string("choices")) && rows && tell_choices(rows);
    good = json_put(document, "rows", json_whole(rows, good));
    return json_print(json_whole(document, good));
}

int run_list(const settings *s)
{
    const char *names[TABLE_COUNT + 2];
    names[TABLE_COUNT] = "choices";
    names[TABLE_COUNT + 1] = "notes"; /* not a table of the library's */
    if (strcmp(s->operand, names[TABLE_COUNT]) == 0)
        return list_choices(s);
    if (strcmp(s->operand, names[TABLE_COUNT + 1]) == 0)
        return phrases_list(s->json);
    for (size_t i = 0; i < TABLE_COUNT; i++) {
        names[i] = tables[i].name;
        if (strcmp(s->operand, names[i]) != 0)
            continue;
        if (s->json)
            return list_json(names[i], tables[i].table());
        list_text(tables[i].table());
        return EXIT_DONE;
    }
    const char *near = nearest_name(s->operand, names, TABLE_COUNT + 2);
    if (near)
        complain("no list of %s: did you mean %s?", s->operand, near);
    else
        complain("no list of %s: there are fields, choices, constants, quantities, checks and notes", s->operand);
    return EXIT_USAGE;
}

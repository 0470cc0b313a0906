/* resolved: an order as a card that leaves nothing open. Read back, it gives the same rows, bit for bit. */
#include "resolved.h"

#include "complain.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The value as it will stand on the card; false if reading it back gave another number. */
static bool typed_value(const tailor_table *table, int number, double value, char text[VALUE_TEXT])
{
    double again = 0;
    text[0] = '\0';
    if (tailor_value_write(table, number, value, TAILOR_PRINT_EXACT, text, VALUE_TEXT, NULL) == TAILOR_OK &&
        tailor_value_read(table, number, text, &again, NULL) == TAILOR_OK && again == value)
        return true;
    complain("%s = %s does not read back as the value in use: please report this",
             tailor_table_text(table, number, TAILOR_COLUMN_NAME), text);
    return false;
}

static bool print_value(const tailor_table *table, int number, double value)
{
    char text[VALUE_TEXT];
    bool good = typed_value(table, number, value, text);
    if (good)
        printf("%s = %s\n", tailor_table_text(table, number, TAILOR_COLUMN_NAME), text);
    return good;
}

/* A heading, printed once, before the first line that needs it. */
typedef struct heading {
    const char *section, *comment;
    bool printed;
} heading;

static void print_heading(heading *h)
{
    if (!h->printed)
        printf("\n[%s]\n# %s\n", h->section, h->comment);
    h->printed = true;
}

static void print_rule(const tailor_table *table, int number)
{
    const char *rule = rule_text(table, number);
    if (rule[0])
        printf("# by rule: %.150s\n", rule);
}

/* Fields of one origin; of the client's, those that belong in this section. */
static bool print_fields(const drafted *d, heading *h, int origin)
{
    const tailor_table *table = tailor_field_table();
    bool good = true;
    for (int place = 0, field; (field = tailor_table_at(table, place)) != 0; place++) {
        if (field >= TAILOR_FIELD_COUNT || d->origins[field] != origin)
            continue;
        if (origin == TAILOR_ORIGIN_CLIENT && strcmp(section_of_field(field), h->section) != 0)
            continue;
        print_heading(h);
        if (origin == TAILOR_ORIGIN_RULE)
            print_rule(table, field);
        good = print_value(table, field, d->fields[field]) && good;
    }
    return good;
}

static bool print_constants(const card *c, const drafted *d, heading *h, bool given)
{
    const tailor_table *table = tailor_constant_table();
    bool good = true;
    for (int place = 0, constant; (constant = tailor_table_at(table, place)) != 0; place++) {
        bool this_given = constant < TAILOR_CONSTANT_COUNT && c->constants.place[constant].source;
        if (constant >= TAILOR_CONSTANT_COUNT || this_given != given || isnan(d->constants[constant]))
            continue;
        print_heading(h);
        good = print_value(table, constant, d->constants[constant]) && good;
    }
    return good;
}

static void print_not_given(const drafted *d)
{
    const tailor_table *table = tailor_field_table();
    bool begun = false;
    for (int place = 0, field; (field = tailor_table_at(table, place)) != 0; place++) {
        if (field >= TAILOR_FIELD_COUNT || d->origins[field] != TAILOR_ORIGIN_NONE)
            continue;
        printf("%s# %s\n", begun ? "" : "\n# neither given nor assumed:\n",
               tailor_table_text(table, field, TAILOR_COLUMN_NAME));
        begun = true;
    }
}

static void print_texts(const card *c)
{
    heading h = {"client", "free text", false};
    for (size_t i = 0; i < TEXT_COUNT; i++) {
        if (!c->text[i][0])
            continue;
        print_heading(&h);
        printf("%s=%s\n", text_names[i], c->text[i]); /* without a blank: `; x` after one is a comment */
    }
}

bool resolved_print(const card *c, const drafted *d)
{
    bool good = true;
    printf("# Every value in use, by tailorgeom %s. Bare lengths are mm.\n", tailor_version());
    for (int i = 0; i < c->fittings.count; i++)
        if (!c->fittings.list[i].left_out)
            printf("# Fitting %d, %s, is in these values.\n", i + 1, c->fittings.list[i].date);
    printf("[card]\nedition = %d\n", tailor_edition());
    print_texts(c);
    for (size_t i = 0; i < SECTION_COUNT; i++) {
        heading h = {section_names[i], "given by the client", false};
        good = print_fields(d, &h, TAILOR_ORIGIN_CLIENT) && good;
    }
    heading house = {"house", "given by the house", false};
    heading assumed = {"assumed", "given by nobody; what is measured after all moves up to its own section", false};
    good = print_fields(d, &house, TAILOR_ORIGIN_HOUSE) && print_constants(c, d, &house, true) && good;
    good = print_fields(d, &assumed, TAILOR_ORIGIN_RULE) && print_constants(c, d, &assumed, false) && good;
    print_not_given(d);
    return good;
}

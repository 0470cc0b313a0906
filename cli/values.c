#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Digits after the point by unit; lengths in mm are tailor_length_write's. */
static const struct {
    const char *unit;
    int digits;
} digits_of[] = {{"mm2", 0}, {"deg", 2}, {"ratio", 3}, {"%", 1}, {"count", 0}, {"g/m2", 0}, {"uN.m", 1}, {"N", 2}};

void length_text(double mm, int print, char text[VALUE_TEXT])
{
    size_t needed = 0;
    if (tailor_length_write(mm, print, text, VALUE_TEXT, &needed) != TAILOR_OK)
        snprintf(text, VALUE_TEXT, "-");
}

bool choice_name(const tailor_table *table, int number, double value, char text[VALUE_TEXT])
{
    const tailor_table *choices = tailor_table_choices(table, number);
    for (int place = 0, choice; (choice = tailor_table_at(choices, place)) != 0; place++)
        if (choice == value) {
            snprintf(text, VALUE_TEXT, "%s", tailor_table_text(choices, choice, TAILOR_COLUMN_NAME));
            return true;
        }
    return false;
}

void value_write(const tailor_table *table, int number, double value, int print, char text[VALUE_TEXT])
{
    const char *unit = tailor_table_text(table, number, TAILOR_COLUMN_UNIT);
    int digits = 3;
    if (isnan(value)) {
        snprintf(text, VALUE_TEXT, "-");
        return;
    }
    if (choice_name(table, number, value, text))
        return;
    if (strcmp(unit, "mm") == 0) {
        length_text(value, print, text);
        return;
    }
    for (size_t i = 0; i < sizeof digits_of / sizeof digits_of[0]; i++)
        if (strcmp(unit, digits_of[i].unit) == 0)
            digits = digits_of[i].digits;
    snprintf(text, VALUE_TEXT, "%.*f", digits, value);
}

const char *value_unit(const tailor_table *table, int number, int print)
{
    const char *unit = tailor_table_text(table, number, TAILOR_COLUMN_UNIT);
    if (strcmp(unit, "choice") == 0)
        return "";
    return strcmp(unit, "mm") == 0 && print != TAILOR_PRINT_MM ? "in" : unit;
}

const char *rule_text(const tailor_table *table, int number)
{
    static const char function[] = "call ";
    const char *rule = tailor_table_text(table, number, TAILOR_COLUMN_RULE);
    if (rule[strspn(rule, "+-.0123456789")] == '\0')
        return "";
    return strncmp(rule, function, sizeof function - 1) == 0 ? rule + sizeof function - 1 : rule;
}

void change_write(int field, double change, char text[VALUE_TEXT])
{
    const char *unit = tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_UNIT);
    size_t sign = change < 0 ? 0 : 1, length = 0;
    change += 0.0; /* -0 has no sign here */
    text[0] = '+';
    tailor_value_write(tailor_field_table(), field, change, TAILOR_PRINT_EXACT, text + sign, VALUE_TEXT - sign,
                       &length);
    length += sign;
    if (strcmp(unit, "ratio") == 0 || strcmp(unit, "count") == 0) /* nobody writes them but where a line may be torn */
        snprintf(text + length, VALUE_TEXT - length, " %s", unit);
}

int field_of_side(int field, bool left)
{
    char name[VALUE_TEXT];
    snprintf(name, sizeof name, "%.50s%s", tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME),
             left ? "_left" : "_right");
    return tailor_table_find(tailor_field_table(), name);
}

int field_of_both_sides(int field)
{
    char name[VALUE_TEXT];
    snprintf(name, sizeof name, "%.50s", tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME));
    char *last = strrchr(name, '_');
    if (!last || (strcmp(last, "_left") != 0 && strcmp(last, "_right") != 0))
        return 0;
    *last = '\0';
    return tailor_table_find(tailor_field_table(), name);
}

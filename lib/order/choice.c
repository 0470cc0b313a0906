#include "choice.h"

#include <math.h>
#include <string.h>
#include "../base/fault.h"
#include "../base/table.h"

const tailor_table *tailor_choice_table(int field) { return tailor_table_choices(tailor_field_table(), field); }

static int same_letters(const char *name, const char *known, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        char letter = name[i] >= 'A' && name[i] <= 'Z' ? (char)(name[i] - 'A' + 'a') : name[i];
        if (letter != known[i])
            return 0;
    }
    return 1;
}

/* Is it one of the words of a list, which single spaces separate? */
static int among(const char *words, const char *name, size_t length)
{
    while (words[0] != '\0') {
        size_t own = strcspn(words, " ");
        if (own == length && same_letters(name, words, length))
            return 1;
        words += own + (words[own] == ' ');
    }
    return 0;
}

int tailor_in_choice_find(const tailor_table *choices, const char *name, size_t length)
{
    for (int place = 0, number; (number = tailor_table_at(choices, place)) != 0; place++)
        if (among(tailor_table_text(choices, number, TAILOR_COLUMN_NAME), name, length) ||
            among(tailor_table_text(choices, number, TAILOR_COLUMN_SYNONYMS), name, length))
            return number;
    return 0;
}

int tailor_in_choice_is(const tailor_table *choices, double value)
{
    return value >= 1 && value < tailor_table_size(choices) && value == floor(value) &&
           tailor_in_table_row(choices, (int)value) != NULL;
}

tailor_status tailor_in_choice_fault(tailor_fault *fault, const tailor_table *table, int index, double value,
                                     const char *sentence)
{
    const tailor_table *choices = tailor_table_choices(table, index);
    tailor_in_fault(fault, TAILOR_NOT_A_CHOICE, table, index, value, tailor_table_low(table, index),
                    tailor_table_high(table, index), sentence);
    const char *before = "";
    for (int number = 1; fault && number < tailor_table_size(choices); number++) { /* as the sentence may count them */
        const tailor_in_row *choice = tailor_in_table_row(choices, number);
        if (!choice)
            continue;
        tailor_in_fault_say(fault, before);
        tailor_in_fault_say(fault, choice->texts[TAILOR_COLUMN_NAME - 1]);
        before = ", ";
    }
    return TAILOR_NOT_A_CHOICE;
}

void tailor_in_fault_say_choice(tailor_fault *fault, int field, double value)
{
    tailor_in_fault_say(fault, tailor_table_text(tailor_choice_table(field), (int)value, TAILOR_COLUMN_NAME));
}

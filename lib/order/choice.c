#include "choice.h"

#include <string.h>
#include "../base/fault.h"

/* Bytes of the name that a list begins with, and the list after it (NULL at its end). */
static size_t first_name(const char *choices, const char **rest)
{
    size_t length = strcspn(choices, " ");
    *rest = choices[length] == ' ' ? choices + length + 1 : NULL;
    return length;
}

int tailor_in_choice_count(const char *choices)
{
    int count = choices[0] != '\0';
    for (; *choices != '\0'; choices++)
        count += *choices == ' ';
    return count;
}

static int same_letters(const char *name, const char *known, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        char letter = name[i] >= 'A' && name[i] <= 'Z' ? (char)(name[i] - 'A' + 'a') : name[i];
        if (letter != known[i])
            return 0;
    }
    return 1;
}

int tailor_in_choice_find(const char *choices, const char *name, size_t length)
{
    const char *list = choices, *rest = NULL;
    for (int number = 1; list && length > 0; number++, list = rest)
        if (first_name(list, &rest) == length && same_letters(name, list, length))
            return number;
    return 0;
}

tailor_status tailor_in_choice_fault(tailor_fault *fault, const tailor_table *table, int index, double value,
                                     const char *sentence)
{
    const char *list = tailor_table_text(table, index, TAILOR_COLUMN_CHOICES);
    tailor_in_fault(fault, TAILOR_NOT_A_CHOICE, table, index, value, tailor_table_low(table, index),
                    tailor_table_high(table, index), sentence);
    for (const char *letter = list; fault && *letter != '\0'; letter++) {
        const char one[2] = {*letter, '\0'};
        tailor_in_fault_say(fault, *letter == ' ' ? ", " : one);
    }
    return TAILOR_NOT_A_CHOICE;
}

void tailor_in_fault_say_choice(tailor_fault *fault, int field, double value)
{
    const char *names = tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_CHOICES);
    for (int i = 1; i < (int)value && strchr(names, ' '); i++)
        names = strchr(names, ' ') + 1;
    char name[32];
    size_t length = strcspn(names, " ");
    if (length >= sizeof name)
        length = sizeof name - 1;
    memcpy(name, names, length);
    name[length] = '\0';
    tailor_in_fault_say(fault, name);
}

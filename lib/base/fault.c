#include "fault.h"

#include <math.h>
#include <string.h>
#include "table.h"
#include "text.h"

/* The layouts are part of the ABI: see base.h. */
_Static_assert(sizeof(tailor_fault) == 256, "a fault has 256 bytes");
_Static_assert(offsetof(tailor_fault, table) == 4 && offsetof(tailor_fault, index) == 8, "status, table, index");
_Static_assert(offsetof(tailor_fault, value) == 16 && offsetof(tailor_fault, high) == 32, "value, low, high");
_Static_assert(offsetof(tailor_fault, sentence) == 40, "the sentence fills the rest");
_Static_assert(offsetof(tailor_line, rank) == 4 && offsetof(tailor_line, label) == 8, "kind, rank, texts");
_Static_assert(sizeof(tailor_line) == 8 + 3 * sizeof(char *), "label, value and basis fill the rest");

enum { DECIMALS = 3 };

const char *tailor_in_unit_shown(const char *unit)
{
    static const char *const silent[] = {"choice", "count", "ratio"};
    for (size_t i = 0; i < sizeof silent / sizeof silent[0]; i++)
        if (strcmp(unit, silent[i]) == 0)
            return "";
    return unit;
}

static void add_number_with_unit(tailor_in_text *text, double number, const char *unit)
{
    tailor_in_text_add_number(text, number, DECIMALS);
    if (unit[0] != '\0') {
        tailor_in_text_add(text, " ");
        tailor_in_text_add(text, unit);
    }
}

static void add_part(tailor_in_text *text, const tailor_fault *fault, const tailor_table *table, char part)
{
    const char *unit = tailor_in_unit_shown(tailor_table_text(table, fault->index, TAILOR_COLUMN_UNIT));
    switch (part) {
    case 'n':
        tailor_in_text_add(text, tailor_table_text(table, fault->index, TAILOR_COLUMN_NAME));
        break;
    case 'v':
        tailor_in_text_add_number(text, fault->value, DECIMALS);
        break;
    case 'l':
        tailor_in_text_add_number(text, fault->low, DECIMALS);
        break;
    case 'h':
        tailor_in_text_add_number(text, fault->high, DECIMALS);
        break;
    case 'u':
        tailor_in_text_add(text, unit[0] != '\0' ? " " : "");
        tailor_in_text_add(text, unit);
        break;
    default:
        tailor_in_text_add_bytes(text, &part, 1);
    }
}

tailor_status tailor_in_fault(tailor_fault *fault, tailor_status status, const tailor_table *table, int index,
                              double value, double low, double high, const char *sentence)
{
    tailor_in_text text;
    if (!fault)
        return status;
    memset(fault, 0, sizeof *fault);
    fault->status = status;
    fault->table = table ? table->kind : TAILOR_TABLE_NONE;
    fault->index = table ? index : 0;
    fault->value = value;
    fault->low = low;
    fault->high = high;
    text = tailor_in_text_begin(fault->sentence, sizeof fault->sentence);
    while (*sentence != '\0') {
        size_t plain = strcspn(sentence, "%");
        tailor_in_text_add_bytes(&text, sentence, plain);
        sentence += plain;
        if (sentence[0] != '\0' && sentence[1] != '\0') {
            add_part(&text, fault, table, sentence[1]);
            sentence += 2;
        } else {
            sentence += strlen(sentence);
        }
    }
    return status;
}

tailor_status tailor_in_fault_plain(tailor_fault *fault, tailor_status status, const char *sentence)
{
    return tailor_in_fault(fault, status, NULL, 0, NAN, NAN, NAN, sentence);
}

tailor_status tailor_in_fault_at(tailor_fault *fault, tailor_status status, size_t place)
{
    if (fault)
        fault->place = place < INT32_MAX ? (int32_t)place + 1 : 0;
    return status;
}

/* The free rest of the sentence as a text of its own. */
static tailor_in_text rest_of_sentence(tailor_fault *fault)
{
    size_t used = strlen(fault->sentence);
    return tailor_in_text_begin(fault->sentence + used, sizeof fault->sentence - used);
}

void tailor_in_fault_say(tailor_fault *fault, const char *more)
{
    if (fault) {
        tailor_in_text text = rest_of_sentence(fault);
        tailor_in_text_add(&text, more);
    }
}

void tailor_in_fault_say_number(tailor_fault *fault, double number, const char *unit)
{
    if (fault) {
        tailor_in_text text = rest_of_sentence(fault);
        add_number_with_unit(&text, number, tailor_in_unit_shown(unit));
    }
}

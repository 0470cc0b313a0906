#include "cautions.h"

#include <stdio.h>
#include <string.h>

enum { KINDS_MOST = 128 }; /* as many as a verdict has bits */

/* The place of a caution of the same words, -1 where the coat has none. */
static int place_of(const tailor_coat *coat, const char *sentence)
{
    tailor_fault fault;
    for (int place = 0; tailor_coat_caution(coat, place, &fault); place++)
        if (strcmp(fault.sentence, sentence) == 0)
            return place;
    return -1;
}

static bool all_have(const cautioned *coats, size_t count, const char *sentence)
{
    size_t have = 0;
    while (have < count && place_of(coats[have].coat, sentence) >= 0)
        have++;
    return have == count;
}

void cautions_print(const cautioned *coats, size_t count, bool told, const char *before)
{
    bool common[KINDS_MOST] = {false}; /* those of the first coat that all have */
    tailor_fault fault;
    for (int i = 0; count && i < KINDS_MOST && tailor_coat_caution(coats[0].coat, i, &fault); i++)
        common[i] = all_have(coats, count, fault.sentence);
    for (size_t k = 0; k < count; k++)
        for (int i = 0, weight; (weight = tailor_coat_caution(coats[k].coat, i, &fault)) != 0; i++) {
            int place = place_of(coats[0].coat, fault.sentence);
            bool of_all = place >= 0 && common[place], note = weight == TAILOR_CAUTION_CLASS_TOLD;
            if ((of_all && k > 0) || (note && !told))
                continue;
            printf("%s%s: %s%s%s\n", before, note ? "note" : "caution", of_all ? "" : coats[k].label,
                   of_all ? "" : ": ", fault.sentence);
            before = "";
        }
}

void cautions_print_one(const tailor_coat *coat, bool told, const char *before)
{
    cautions_print(&(cautioned){.coat = coat}, 1, told, before);
}

void cautions_write(buffer *out, const uint32_t bits[4])
{
    bool begun = false;
    for (int number = 1; number <= KINDS_MOST; number++) {
        if (!(bits[(number - 1) / 32] >> (number - 1) % 32 & 1))
            continue;
        buffer_say(out, begun ? " " : "");
        buffer_say(out, tailor_table_text(tailor_caution_table(), number, TAILOR_COLUMN_NAME));
        begun = true;
    }
}

void cautions_write_of(buffer *out, const tailor_coat *coat)
{
    uint32_t bits[4] = {0};
    tailor_fault fault;
    for (int i = 0, weight; (weight = tailor_coat_caution(coat, i, &fault)) != 0; i++)
        if (weight == TAILOR_CAUTION_CLASS_CAUTION)
            bits[(fault.index - 1) / 32] |= UINT32_C(1) << (fault.index - 1) % 32;
    cautions_write(out, bits);
}

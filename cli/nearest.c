#include "nearest.h"

#include <string.h>

enum { WORD_MOST = 32 };

/* Fewest single-letter insertions, removals and replacements that turn one word into the other (Levenshtein). */
static size_t distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    size_t row[WORD_MOST + 1];
    for (size_t j = 0; j <= b_length; j++)
        row[j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        size_t diagonal = row[0];
        row[0] = i;
        for (size_t j = 1; j <= b_length; j++) {
            size_t best = diagonal + (a[i - 1] != b[j - 1]);
            diagonal = row[j];
            if (row[j] + 1 < best)
                best = row[j] + 1;
            if (row[j - 1] + 1 < best)
                best = row[j - 1] + 1;
            row[j] = best;
        }
    }
    return row[b_length];
}

const char *nearest_name(const char *word, const char *const *names, size_t count)
{
    const char *nearest = NULL;
    size_t length = strlen(word);
    size_t best = length / 3 + 2; /* one step too far */
    if (length > WORD_MOST)
        return NULL;
    for (size_t i = 0; i < count; i++) {
        size_t name_length = strlen(names[i]);
        if (name_length > WORD_MOST)
            continue;
        size_t steps = distance(word, length, names[i], name_length);
        if (steps < best && steps < name_length) {
            best = steps;
            nearest = names[i];
        }
    }
    return nearest;
}

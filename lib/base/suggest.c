/* The nearest name to a misspelt one. */
#include <string.h>
#include "table.h"

enum { LONGEST = 63 };

/* Words typed with a space or hyphen, or with capitals, are as near as they look. */
static char folded(char letter)
{
    if (letter >= 'A' && letter <= 'Z')
        return (char)(letter - 'A' + 'a');
    return letter == ' ' || letter == '-' ? '_' : letter;
}

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Letters to insert, delete, exchange or swap with their neighbour: the restricted distance of Damerau (1964) and
 * Levenshtein (1966), three rows at a time. Both lengths are LONGEST at most. */
static int distance(const char *a, int a_length, const char *b, int b_length)
{
    int rows[3][LONGEST + 1];
    for (int j = 0; j <= b_length; j++)
        rows[0][j] = j;
    for (int i = 1; i <= a_length; i++) {
        int *now = rows[i % 3];
        const int *above = rows[(i + 2) % 3], *two_above = rows[(i + 1) % 3];
        now[0] = i;
        for (int j = 1; j <= b_length; j++) {
            char x = folded(a[i - 1]), y = folded(b[j - 1]);
            now[j] = least(above[j - 1] + (x != y), least(above[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && x == folded(b[j - 2]) && y == folded(a[i - 2]))
                now[j] = least(now[j], two_above[j - 2] + 1);
        }
    }
    return rows[a_length % 3][b_length];
}

/* "chest" for chest_girth, or "chest_girth_mm": one is the other and a further word. */
static int is_part(const char *name, const char *known)
{
    size_t i = 0;
    while (name[i] != '\0' && folded(name[i]) == known[i])
        i++;
    return (name[i] == '\0' && known[i] == '_') || (known[i] == '\0' && folded(name[i]) == '_');
}

int tailor_table_suggest(const tailor_table *table, const char *name)
{
    int nearest = 0, nearest_distance = LONGEST, part = 0;
    size_t length = name ? strlen(name) : 0;
    if (!table || length == 0 || length > LONGEST)
        return 0;
    for (int i = 0; i < table->count; i++) {
        int number = table->reading_order[i], far;
        const char *known = table->rows[number].texts[TAILOR_COLUMN_NAME - 1];
        size_t known_length = strlen(known);
        if (known_length > LONGEST)
            continue;
        far = distance(name, (int)length, known, (int)known_length);
        /* a third of the letters may be wrong: more is another word */
        if (3 * far <= (int)known_length && far < nearest_distance) {
            nearest = number;
            nearest_distance = far;
        }
        if (part == 0 && is_part(name, known))
            part = number;
    }
    return nearest != 0 ? nearest : part;
}

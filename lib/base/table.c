#include "table.h"

#include <math.h>
#include <string.h>

int tailor_table_size(const tailor_table *table)
{
    return table ? table->size : 0;
}

int tailor_table_at(const tailor_table *table, int place)
{
    return table && place >= 0 && place < table->count ? table->reading_order[place] : 0;
}

int tailor_table_find(const tailor_table *table, const char *name)
{
    for (int i = 0; table && name && i < table->count; i++) {
        int number = table->reading_order[i];
        if (strcmp(table->rows[number].texts[TAILOR_COLUMN_NAME - 1], name) == 0)
            return number;
    }
    return 0;
}

const char *tailor_table_text(const tailor_table *table, int number, int column)
{
    const tailor_in_row *row = tailor_in_table_row(table, number);
    return row && column >= TAILOR_COLUMN_NAME && column <= TAILOR_COLUMN_SYNONYMS ? row->texts[column - 1] : "";
}

const tailor_table *tailor_table_choices(const tailor_table *table, int number)
{
    const tailor_in_row *row = tailor_in_table_row(table, number);
    return row ? row->choices : NULL;
}

double tailor_table_low(const tailor_table *table, int number)
{
    const tailor_in_row *row = tailor_in_table_row(table, number);
    return row ? row->low : (double)NAN;
}

double tailor_table_high(const tailor_table *table, int number)
{
    const tailor_in_row *row = tailor_in_table_row(table, number);
    return row ? row->high : (double)NAN;
}

#include "cloths.h"

#include "cloths_own.h"
#include "nearest.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *const cloth_places[CLOTH_PLACES] = {"cloth", "canvas"};

int cloth_place_of(const char *key)
{
    int place = 0;
    while (place < CLOTH_PLACES && strcmp(cloth_places[place], key) != 0)
        place++;
    return place;
}

int cloth_field(int place, int property)
{
    char name[64];
    snprintf(name, sizeof name, "%s_%s", cloth_places[place],
             tailor_table_text(tailor_cloth_table(), property, TAILOR_COLUMN_NAME));
    return tailor_table_find(tailor_field_table(), name);
}

int cloth_place_of_field(int field)
{
    for (int place = 0; place < CLOTH_PLACES; place++)
        for (int property = 1; property < TAILOR_CLOTH_COUNT; property++)
            if (cloth_field(place, property) == field)
                return place;
    return CLOTH_PLACES;
}

size_t cloths_count(void)
{
    size_t count = cloths_own_count();
    for (size_t i = 0; i < cloth_row_count; i++)
        count += !cloths_own(cloth_rows[i].name);
    return count;
}

const cloth_row *cloths_at(size_t place)
{
    if (place < cloths_own_count())
        return cloths_own_at(place);
    place -= cloths_own_count();
    for (size_t i = 0; i < cloth_row_count; i++)
        if (!cloths_own(cloth_rows[i].name) && place-- == 0)
            return &cloth_rows[i];
    return NULL;
}

bool cloths_from_file(const cloth_row *row) { return cloths_own(row->name) == row; }

const cloth_row *cloths_find(const char *name)
{
    const cloth_row *own = cloths_own(name);
    for (size_t i = 0; !own && i < cloth_row_count; i++)
        if (strcmp(cloth_rows[i].name, name) == 0)
            return &cloth_rows[i];
    return own;
}

void cloths_unknown(const char *name, char sentence[CLOTH_SENTENCE])
{
    size_t count = cloths_count();
    const char *near = NULL, **names = calloc(count, sizeof *names);
    for (size_t i = 0; names && i < count; i++)
        names[i] = cloths_at(i)->name;
    if (names)
        near = nearest_name(name, names, count);
    snprintf(sentence, CLOTH_SENTENCE, "there is no cloth of this name%s%s%s",
             near ? ": did you mean " : "; `tailorgeom cloth list` shows them", near ? near : "", near ? "?" : "");
    free(names);
}

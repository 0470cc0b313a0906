#include "phrases.h"

#include "complain.h"
#include "json_out.h"
#include "nearest.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void phrase_key(const char *words, char key[PHRASE_TEXT])
{
    size_t used = 0;
    for (const char *at = words; *at && used + 1 < PHRASE_TEXT;) {
        size_t length = strcspn(at, " ");
        size_t kept = length > 3 && at[length - 1] == 's' && at[length - 2] != 's' ? length - 1 : length;
        for (size_t i = 0; i < kept && used + 1 < PHRASE_TEXT; i++)
            key[used++] = at[i];
        at += length;
        if (*at == ' ' && used + 1 < PHRASE_TEXT)
            key[used++] = *at++;
    }
    key[used] = '\0';
}

size_t phrase_find(const char *words)
{
    char wanted[PHRASE_TEXT], key[PHRASE_TEXT];
    size_t i = 0;
    phrase_key(words, wanted);
    for (; i < phrase_count; i++) {
        phrase_key(phrase_table[i].phrase, key);
        if (strcmp(wanted, key) == 0)
            break;
    }
    return i;
}

bool phrase_same(size_t a, size_t b)
{
    return a < phrase_count && b < phrase_count && strcmp(phrase_table[a].phrase, phrase_table[b].phrase) == 0;
}

const char *phrase_nearest(const char *words)
{
    const char **names = calloc(phrase_count, sizeof *names);
    if (!names)
        return NULL;
    for (size_t i = 0; i < phrase_count; i++)
        names[i] = phrase_table[i].phrase;
    const char *near = nearest_name(words, names, phrase_count);
    free(names);
    return near;
}

static const char *name_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
}

static json_t *json_row(const phrase_row *row)
{
    json_t *object = json_object();
    bool good = object && json_put(object, "phrase", json_string(row->phrase)) &&
                json_put(object, "field", json_string(name_of(row->field))) &&
                json_put(object, "factor", json_number(row->factor)) &&
                json_put(object, "instead", row->instead ? json_string(name_of(row->instead)) : json_null()) &&
                json_put(object, "unit", json_string("mm")) && json_put(object, "meaning", json_string(row->meaning)) &&
                json_put(object, "provenance", json_string(row->provenance));
    return json_whole(object, good);
}

static int list_json(void)
{
    json_t *document = json_document("list"), *rows = json_array();
    bool good = document && json_put(document, "table", json_string("notes")) && rows;
    for (size_t i = 0; good && i < phrase_count; i++)
        good = json_add(rows, json_row(&phrase_table[i]));
    good = json_put(document, "rows", json_whole(rows, good));
    return json_print(json_whole(document, good));
}

int phrases_list(bool json)
{
    if (json)
        return list_json();
    printf("notes: write an amount behind them, and left or right where the field has sides\n");
    for (size_t i = 0; i < phrase_count; i++) {
        const phrase_row *row = &phrase_table[i];
        printf("  %-27s%s by %+g of it%s%s%s\n      %s\n", row->phrase, name_of(row->field), row->factor,
               row->instead ? "; where given, " : "", row->instead ? name_of(row->instead) : "",
               row->instead ? " instead" : "", row->meaning);
    }
    return EXIT_DONE;
}

#include "json_out.h"

#include "complain.h"
#include "output.h"
#include "values.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

json_t *json_document(const char *kind)
{
    bool seams = strcmp(kind, "pattern") == 0 || strcmp(kind, "grades") == 0, ticket = strcmp(kind, "ticket") == 0;
    json_t *document = json_object();
    if (json_put(document, "format", json_sprintf("tailorgeom-%s", kind)) &&
        json_put(document, "format_version", json_integer(seams ? PATTERN_VERSION : ticket ? TICKET_VERSION : 1)) &&
        json_put(document, "edition", json_integer(tailor_edition())))
        return document;
    json_decref(document);
    return NULL;
}

bool json_put(json_t *object, const char *name, json_t *value)
{
    return json_object_set_new(object, name, value) == 0;
}

bool json_add(json_t *array, json_t *value)
{
    return json_array_append_new(array, value) == 0;
}

json_t *json_number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

json_t *json_field_value(int field, double value)
{
    char name[VALUE_TEXT];
    return choice_name(tailor_field_table(), field, value, name) ? json_string(name) : json_number(value);
}

json_t *json_whole(json_t *made, bool good)
{
    if (good)
        return made;
    json_decref(made);
    return NULL;
}

static json_t *row_object(const tailor_table *table, const double *row, int count)
{
    json_t *object = json_object();
    bool good = object != NULL;
    for (int place = 0, number; good && (number = tailor_table_at(table, place)) != 0; place++)
        good = json_put(object, tailor_table_text(table, number, TAILOR_COLUMN_NAME),
                        json_number(number < count ? row[number] : NAN));
    return json_whole(object, good);
}

json_t *json_quantities(const drafted *d)
{
    return row_object(tailor_quantity_table(), d->quantities, TAILOR_QUANTITY_COUNT);
}

json_t *json_constants(const drafted *d)
{
    return row_object(tailor_constant_table(), d->constants, TAILOR_CONSTANT_COUNT);
}

json_t *json_fields(const drafted *d)
{
    static const char *const origins[] = {"none", "client", "house", "rule"};
    const tailor_table *table = tailor_field_table();
    json_t *object = json_object();
    bool good = object != NULL;
    for (int place = 0, number; good && (number = tailor_table_at(table, place)) != 0; place++) {
        if (number >= TAILOR_FIELD_COUNT) /* a newer library's */
            continue;
        json_t *field = json_object();
        good = json_put(field, "value", json_field_value(number, d->fields[number])) &&
               json_put(field, "origin", json_string(origins[d->origins[number] & 3]));
        good = json_put(object, tailor_table_text(table, number, TAILOR_COLUMN_NAME), json_whole(field, good));
    }
    return json_whole(object, good);
}

json_t *json_checks(const drafted *d)
{
    const tailor_table *table = tailor_check_table();
    json_t *array = json_array();
    bool good = array != NULL;
    for (int place = 0, number; good && (number = tailor_table_at(table, place)) != 0; place++) {
        if (number >= TAILOR_CHECK_COUNT)
            continue;
        double value, limit;
        int passes = tailor_coat_check(d->coat, number, &value, &limit);
        json_t *check = json_object();
        good = json_put(check, "name", json_string(tailor_table_text(table, number, TAILOR_COLUMN_NAME))) &&
               json_put(check, "value", json_number(value)) &&
               json_put(check, "limit", json_number(limit)) &&
               json_put(check, "sense", json_string(tailor_check_sense(number) > 0 ? "at most" : "at least")) &&
               json_put(check, "unit", json_string(tailor_table_text(table, number, TAILOR_COLUMN_UNIT))) &&
               json_put(check, "pass", passes < 0 ? json_null() : json_boolean(passes));
        good = json_add(array, json_whole(check, good));
    }
    return json_whole(array, good);
}

json_t *json_toile(const drafted *d)
{
    size_t count = 0;
    const int32_t *missing = tailor_coat_toile_fields(d->coat, &count);
    json_t *array = json_array();
    bool good = array != NULL;
    for (size_t i = 0; good && i < count; i++)
        good = json_add(array, json_string(tailor_table_text(tailor_field_table(), missing[i], TAILOR_COLUMN_NAME)));
    return json_whole(array, good);
}

json_t *json_caution(const char *name, int weight, double value, const char *sentence)
{
    json_t *caution = json_object();
    return json_whole(caution,
                      json_put(caution, "caution", name ? json_string(name) : json_null()) &&
                          json_put(caution, "class",
                                   json_string(weight == TAILOR_CAUTION_CLASS_TOLD ? "told" : "caution")) &&
                          json_put(caution, "value", json_number(value)) &&
                          json_put(caution, "sentence", json_string(sentence)));
}

json_t *json_cautions(const drafted *d)
{
    json_t *array = json_array();
    bool good = array != NULL;
    tailor_fault fault;
    for (int i = 0, weight; good && (weight = tailor_coat_caution(d->coat, i, &fault)) != 0; i++) {
        const char *name = tailor_table_text(tailor_caution_table(), fault.index, TAILOR_COLUMN_NAME);
        good = json_add(array, json_caution(name, weight, fault.value, fault.sentence));
    }
    return json_whole(array, good);
}

json_t *json_coat(const drafted *d)
{
    json_t *document = json_pattern_document(d->pattern);
    bool good = document && json_put(document, "fields", json_fields(d)) &&
                json_put(document, "constants", json_constants(d)) && json_put(document, "toile_only", json_toile(d)) &&
                json_put(document, "cautions", json_cautions(d)) &&
                json_put(document, "quantities", json_quantities(d)) && json_put(document, "checks", json_checks(d)) &&
                json_put(document, "pieces", json_pieces(d->pattern)) &&
                json_put(document, "seams", json_seams(d->pattern));
    return json_whole(document, good);
}

int json_print(json_t *document)
{
    buffer text = {0};
    bool good = json_text(document, &text);
    if (!good) {
        complain("out of memory");
    } else if (fwrite(text.bytes, 1, text.length, stdout) != text.length) {
        complain_stdout(errno);
        good = false;
    }
    buffer_free(&text);
    return good ? EXIT_DONE : EXIT_REFUSED;
}

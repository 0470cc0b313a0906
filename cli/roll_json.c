/* The roll as JSON: each number with its law and where its inputs come from. */
#include "json_out.h"
#include "roll.h"
#include "values.h"

/* Names of the inputs that have one origin, in whole or in part. */
static json_t *inputs_from(const rolling *r, const roll_number *n, int from)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0; good && i < ROLL_INPUTS; i++)
        if ((n->inputs & 1 << i) && (roll_from(r, i) & from))
            good = json_add(array, json_string(roll_inputs[i]));
    return json_whole(array, good);
}

static json_t *number_value(const rolling *r, const roll_number *n)
{
    char name[VALUE_TEXT];
    double value = r->d.quantities[n->quantity];
    return choice_name(tailor_quantity_table(), n->quantity, value, name) ? json_string(name) : json_number(value);
}

static json_t *number_object(const rolling *r, const roll_number *n)
{
    static const char *const laws[LAW_COUNT] = {"sheets", "strip", "fitted"};
    const tailor_table *table = tailor_quantity_table();
    const char *why = roll_why_not(r, n);
    json_t *object = json_object();
    const char *name = tailor_table_text(table, n->quantity, TAILOR_COLUMN_NAME);
    bool good = object && json_put(object, "name", json_string(name)) &&
                json_put(object, "value", number_value(r, n)) &&
                json_put(object, "unit", json_string(tailor_table_text(table, n->quantity, TAILOR_COLUMN_UNIT))) &&
                json_put(object, "why_not", why ? json_string(why) : json_null()) &&
                json_put(object, "law", json_string(laws[n->law])) &&
                json_put(object, "assumed", inputs_from(r, n, FROM_ASSUMED)) &&
                json_put(object, "by_name", inputs_from(r, n, FROM_NAME)) &&
                json_put(object, "given", inputs_from(r, n, FROM_GIVEN));
    return json_whole(object, good);
}

static json_t *coat_object(const rolling *r, bool ordered)
{
    json_t *object = json_object(), *numbers = json_array();
    bool good = object && numbers &&
                json_put(object, "buttoning", json_field_value(TAILOR_FIELD_BUTTONING, r->buttoning)) &&
                json_put(object, "ordered", json_boolean(ordered));
    for (size_t i = 0; good && r->good && i < ROLL_NUMBERS; i++)
        good = json_add(numbers, number_object(r, &roll_numbers[i]));
    if (r->good)
        good = json_put(object, "numbers", json_whole(numbers, good));
    else {
        json_decref(numbers);
        good = good && json_put(object, "status", json_string(tailor_status_name(r->d.status))) &&
               json_put(object, "message", json_string(r->d.fault.sentence));
    }
    return json_whole(object, good);
}

static json_t *cloths_object(const rolling *r)
{
    json_t *object = json_object();
    bool good = object != NULL;
    for (int place = 0; good && place < CLOTH_PLACES; place++) {
        const cloth_row *named = roll_named(r, place);
        json_t *one = named ? json_object() : json_null();
        bool put = !named || (json_put(one, "name", json_string(named->name)) &&
                              json_put(one, "source", json_string(named->source)));
        good = json_put(object, cloth_places[place], json_whole(one, put));
    }
    return json_whole(object, good);
}

static json_t *section_object(const roll_section *section)
{
    const double *rolled = section->rolled;
    json_t *object = json_object(), *line = json_array();
    bool good = object && line && json_put(object, "crest_height", json_number(rolled[TAILOR_ROLLED_CREST_HEIGHT])) &&
                json_put(object, "crest_radius", json_number(rolled[TAILOR_ROLLED_CREST_RADIUS])) &&
                json_put(object, "lies", json_boolean(rolled[TAILOR_ROLLED_LIES] > 0)) &&
                json_put(object, "edge_height", json_number(rolled[TAILOR_ROLLED_EDGE_HEIGHT])) &&
                json_put(object, "overhang", json_number(rolled[TAILOR_ROLLED_OVERHANG]));
    for (int i = 0; good && i <= ROLL_LINKS; i++) {
        json_t *point = json_array();
        bool put = json_add(point, json_number(section->line[i].x)) && json_add(point, json_number(section->line[i].y));
        good = json_add(line, json_whole(point, put));
    }
    good = json_put(object, "line", json_whole(line, good));
    return json_whole(object, good);
}

int roll_print_json(const roll_table *t, const roll_section *section)
{
    json_t *document = json_document("roll"), *coats = json_array();
    bool good = document && coats && json_put(document, "toile_only", json_toile(&t->coats[0].d)) &&
                json_put(document, "cloths", cloths_object(&t->coats[0])) &&
                json_put(document, "caution", json_string(roll_caution));
    for (size_t i = 0; good && i < t->count; i++)
        good = json_add(coats, coat_object(&t->coats[i], i == 0));
    good = json_put(document, "coats", json_whole(coats, good)) &&
           json_put(document, "section", section ? section_object(section) : json_null());
    return json_print(json_whole(document, good));
}

/* The roll as JSON: each number with its law and where its inputs come from. */
#include "json_out.h"
#include "roll.h"
#include "values.h"

#include <math.h>

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
                json_put(object, "ordered", json_boolean(ordered)) &&
                json_put(object, "cautions", r->good ? json_cautions(&r->d) : json_null());
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

/* Read off the line that the coat's quantities are of: the free forepart, half the band of the set, the lapel. */
static json_t *section_object(const rolling *r)
{
    const double *q = r->d.quantities, band = r->d.constants[TAILOR_CONSTANT_LAPEL_SET_BAND];
    size_t count = 0;
    const tailor_point *line = tailor_coat_section(r->d.coat, &count);
    if (!line)
        return json_null();
    double length = (double)(count - 1) * hypot(line[1].x, line[1].y), far = 0;
    for (size_t i = 0; i < count; i++)
        far = fmax(far, line[i].x);
    double free_part = length - band / 2 - r->d.fields[TAILOR_FIELD_LAPEL_WIDTH];
    json_t *object = json_object(), *points = json_array();
    bool good = object && points &&
                json_put(object, "crest_height", json_number(q[TAILOR_QUANTITY_ROLL_HEIGHT])) &&
                json_put(object, "crest_radius", json_number(q[TAILOR_QUANTITY_ROLL_RADIUS])) &&
                json_put(object, "lies", json_boolean(q[TAILOR_QUANTITY_LAPEL_LIES] < 2)) &&
                json_put(object, "edge_height", json_number(fmax(line[count - 1].y, 0))) &&
                json_put(object, "overhang", json_number(far - free_part));
    for (size_t i = 0; good && i < count; i++) {
        json_t *point = json_array();
        bool put = json_add(point, json_number(line[i].x)) && json_add(point, json_number(line[i].y));
        good = json_add(points, json_whole(point, put));
    }
    good = json_put(object, "line", json_whole(points, good));
    return json_whole(object, good);
}

int roll_print_json(const roll_table *t)
{
    json_t *document = json_document("roll"), *coats = json_array();
    bool good = document && coats && json_put(document, "toile_only", json_toile(&t->coats[0].d)) &&
                json_put(document, "cloths", cloths_object(&t->coats[0])) &&
                json_put(document, "caution", json_string(roll_caution));
    for (size_t i = 0; good && i < t->count; i++)
        good = json_add(coats, coat_object(&t->coats[i], i == 0));
    good = json_put(document, "coats", json_whole(coats, good)) &&
           json_put(document, "section", section_object(&t->coats[0]));
    return json_print(json_whole(document, good));
}

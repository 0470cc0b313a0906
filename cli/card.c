#include "card.h"

#include "complain.h"
#include "fittings.h"
#include "nearest.h"
#include "text_in.h"

#include <ini.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One file being read. The parser tells no line numbers; the guard has made sure that it takes exactly one line each
 * time it asks, so counting what it was handed is enough. */
typedef struct reading {
    card *to;
    const char *source;
    bool is_house; /* the house's file: fields are the house's wherever they stand */
    const char *text, *end;
    int line;
    bool refused;
} reading;

static bool refuse(reading *r)
{
    r->refused = true;
    return false;
}

/* True when the place is free; a key that stands twice in one file is refused. */
static bool take_place(reading *r, card_place *place, const char *key)
{
    if (place->source == r->source) {
        complain_at(r->source, r->line, "%s stands already on line %d", key, place->line);
        return refuse(r);
    }
    *place = (card_place){r->source, r->line};
    return true;
}

static bool take_typed(reading *r, tailor_status status, const tailor_fault *fault, const char *typed)
{
    if (status == TAILOR_OK)
        return true;
    complain_at(r->source, r->line, "%s (typed: %s)", fault->sentence, typed);
    return refuse(r);
}

/* `other` is the row that may not hold the field as well: a value is either given or assumed. */
static bool take_field(reading *r, card_fields *row, const card_fields *other, int field, const char *key,
                       const char *typed)
{
    tailor_fault fault;
    card_place elsewhere = other->place[field];
    return (elsewhere.source != r->source || take_place(r, &elsewhere, key)) &&
           take_place(r, &row->place[field], key) &&
           take_typed(r, tailor_value_read(tailor_field_table(), field, typed, &row->value[field], &fault), &fault,
                      typed);
}

static bool take_constant(reading *r, card_constants *row, int constant, const char *key, const char *typed)
{
    tailor_fault fault;
    return take_place(r, &row->place[constant], key) &&
           take_typed(r, tailor_value_read(tailor_constant_table(), constant, typed, &row->value[constant], &fault),
                      &fault, typed);
}

static bool unknown_key(reading *r, const char *section, const char *key)
{
    int field = tailor_table_suggest(tailor_field_table(), key);
    int constant = tailor_table_suggest(tailor_constant_table(), key);
    const char *text = nearest_name(key, text_names, TEXT_COUNT);
    if (text && strcmp(section, "client") == 0)
        complain_at(r->source, r->line, "unknown key %s: did you mean %s?", key, text);
    else if (constant && (!field || strcmp(section, "house") == 0))
        complain_at(r->source, r->line, "unknown key %s: did you mean %s in [house]?", key,
                    tailor_table_text(tailor_constant_table(), constant, TAILOR_COLUMN_NAME));
    else if (field)
        complain_at(r->source, r->line, "unknown key %s: did you mean %s in [%s]?", key,
                    tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME), section_of_field(field));
    else
        complain_at(r->source, r->line, "unknown key %s in [%s]: `tailorgeom list fields` shows all keys", key,
                    section);
    return refuse(r);
}

static bool wrong_section(reading *r, const char *section, const char *key, const char *right)
{
    complain_at(r->source, r->line, "%s stands in [%s]; it belongs in [%s]", key, section, right);
    return refuse(r);
}

static bool take_text(reading *r, const char *key, const char *typed)
{
    for (size_t i = 0; i < TEXT_COUNT; i++) {
        if (strcmp(key, text_names[i]) != 0)
            continue;
        if (r->to->text[i][0]) {
            complain_at(r->source, r->line, "%s stands already in [client]", key);
            return refuse(r);
        }
        snprintf(r->to->text[i], sizeof r->to->text[i], "%s", typed);
        return true;
    }
    int field = tailor_table_find(tailor_field_table(), key);
    return field ? wrong_section(r, "client", key, section_of_field(field)) : unknown_key(r, "client", key);
}

static bool take_edition(reading *r, const char *key, const char *typed)
{
    if (strcmp(key, "edition") != 0)
        return unknown_key(r, "card", key);
    size_t digits = strspn(typed, "0123456789");
    if (r->to->edition || digits == 0 || digits > 6 || typed[digits]) {
        complain_at(r->source, r->line, "edition is one whole number, and stands once");
        return refuse(r);
    }
    r->to->edition = (int)strtol(typed, NULL, 10);
    return true;
}

/* `cloth = NAME` or `canvas = NAME`, in [cloth] or the house. */
static bool take_cloth(reading *r, const char *section, const char *key, const char *typed)
{
    bool house = r->is_house || strcmp(section, "house") == 0;
    card_fields *row = house ? &r->to->house : &r->to->client;
    int place = cloth_place_of(key);
    char why[CLOTH_SENTENCE];
    if (strcmp(section, "cloth") != 0 && strcmp(section, "house") != 0)
        return wrong_section(r, section, key, "cloth");
    if (!take_place(r, &row->cloth_place[place], key))
        return false;
    row->cloth[place] = cloths_find(typed);
    if (row->cloth[place])
        return true;
    cloths_unknown(typed, why);
    complain_at(r->source, r->line, "%s: %s (typed: %s)", key, why, typed);
    return refuse(r);
}

/* A key of any section that holds numbers. */
static bool take_number(reading *r, const char *section, const char *key, const char *typed)
{
    card *c = r->to;
    bool assumed = strcmp(section, "assumed") == 0, house = strcmp(section, "house") == 0;
    int field = tailor_table_find(tailor_field_table(), key);
    int constant = tailor_table_find(tailor_constant_table(), key);
    if (!field && !constant)
        return unknown_key(r, section, key);
    if (!typed[0]) {
        complain_at(r->source, r->line, "%s has no value: leave the line out where there is none", key);
        return refuse(r);
    }
    if (constant && !house && !assumed)
        return wrong_section(r, section, key, "house");
    if (constant)
        return take_constant(r, assumed && !r->is_house ? &c->assumed_constants : &c->constants, constant, key, typed);
    if (!house && !assumed && !section_takes_field(section, field))
        return wrong_section(r, section, key, section_of_field(field));
    if (house || r->is_house)
        return take_field(r, &c->house, &c->house, field, key, typed);
    return assumed ? take_field(r, &c->assumed, &c->client, field, key, typed)
                   : take_field(r, &c->client, &c->assumed, field, key, typed);
}

static bool take_key(reading *r, const char *section, const char *key, const char *typed)
{
    int fitting = fitting_of_section(section);
    if (fitting > 0)
        return fitting_take(r->to, fitting - 1, (card_place){r->source, r->line}, key, typed) || refuse(r);
    if (strcmp(section, "client") == 0)
        return take_text(r, key, typed);
    if (strcmp(section, "card") == 0)
        return take_edition(r, key, typed);
    if (cloth_place_of(key) < CLOTH_PLACES)
        return take_cloth(r, section, key, typed);
    return take_number(r, section, key, typed);
}

/* The parser's callback: 1 to go on. It goes on after an error in any case, so the first is remembered. */
static int on_key(void *user, const char *section, const char *key, const char *typed)
{
    reading *r = user;
    return r->refused ? 0 : take_key(r, section, key, typed);
}

/* The parser's fgets. */
static char *on_line(char *buffer, int capacity, void *user)
{
    reading *r = user;
    if (r->text >= r->end || capacity < 2)
        return NULL;
    const char *stop = memchr(r->text, '\n', (size_t)(r->end - r->text));
    size_t bytes = (size_t)((stop ? stop + 1 : r->end) - r->text);
    if (bytes > (size_t)capacity - 1)
        bytes = (size_t)capacity - 1;
    memcpy(buffer, r->text, bytes);
    buffer[bytes] = '\0';
    r->text += bytes;
    r->line++;
    return buffer;
}

static bool read_text(card *c, const char *source, const char *text, size_t length, bool is_house)
{
    reading r = {.to = c, .source = source, .is_house = is_house, .text = text, .end = text + length};
    ini_fittings fittings;
    if (!ini_guard(source, text, length, section_names, SECTION_COUNT, &fittings))
        return false;
    if (is_house && fittings.count > 0) {
        complain_at(source, fittings.line[0], "a house's file holds no fittings: they belong on the client's card");
        return false;
    }
    fittings_begin(c, source, &fittings);
    int wrong_line = ini_parse_stream(on_line, &r, on_key, &r);
    if (wrong_line != 0 && !r.refused) /* the guard should have found it: never go on silently */
        complain_at(r.source, wrong_line > 0 ? wrong_line : 0, "a line is a key, an equals sign and a value");
    return wrong_line == 0 && !r.refused;
}

static bool read_file(card *c, const char *path, bool is_house)
{
    size_t length = 0;
    char *text = text_read(path, &length);
    bool good = text && read_text(c, text_source(path), text, length, is_house);
    free(text);
    return good;
}

void card_fill_cloths(card_fields *row)
{
    for (int place = 0; place < CLOTH_PLACES; place++)
        for (int property = 1; row->cloth[place] && property < TAILOR_CLOTH_COUNT; property++) {
            int field = cloth_field(place, property);
            if (!isnan(row->value[field]))
                continue;
            row->value[field] = row->cloth[place]->properties[property];
            row->place[field] = row->cloth_place[place];
        }
}

static bool read_house(card *c, const char *house_path)
{
    memset(c, 0, sizeof *c);
    tailor_fields_clear(c->client.value, TAILOR_FIELD_COUNT);
    tailor_fields_clear(c->house.value, TAILOR_FIELD_COUNT);
    tailor_fields_clear(c->assumed.value, TAILOR_FIELD_COUNT);
    tailor_fields_clear(c->constants.value, TAILOR_CONSTANT_COUNT);
    tailor_fields_clear(c->assumed_constants.value, TAILOR_CONSTANT_COUNT);
    return !house_path || read_file(c, house_path, true);
}

/* A house that the library refuses is told where it was typed, whatever the client gives in its place. */
static bool check_house(const card *c)
{
    tailor_house *house = NULL;
    tailor_fault fault;
    if (card_house(c, &house, &fault) == TAILOR_OK) {
        tailor_house_free(house);
        return true;
    }
    card_place place =
        fault.table == TAILOR_TABLE_FIELD ? c->house.place[fault.index] : card_fault_place(c, &fault);
    complain_at(place.source, place.line, "%s", fault.sentence);
    return false;
}

bool card_read_house(card *c, const char *house_path)
{
    if (!read_house(c, house_path))
        return false;
    card_fill_cloths(&c->house);
    return check_house(c);
}

bool card_read_text(card *c, const char *source, const char *text, size_t length, const char *house_path)
{
    /* The house's file first: [house] in the card lies over it. */
    if (!read_house(c, house_path))
        return false;
    c->source = source;
    memset(c->text, 0, sizeof c->text); /* [client] and [card] in the house's file speak of that file */
    c->edition = 0;
    if (!read_text(c, source, text, length, false))
        return false;
    card_fill_cloths(&c->house); /* last, so that what a file gives itself goes before a name, wherever it stands */
    card_fill_cloths(&c->client);
    return fittings_whole(c) && check_house(c) && fittings_apply(c);
}

void card_caution(const card *c)
{
    if (c->edition && c->edition != tailor_edition())
        complain_at(c->source, 0, "caution: this card was filled in by edition %d of the rules, this is edition %d; "
                    "values that it leaves open may come out otherwise", c->edition, tailor_edition());
}

bool card_read(card *c, const char *path, const char *house_path)
{
    if (house_path && strcmp(house_path, path) == 0) {
        complain("the card and the house's file are one and the same: %s", text_source(path));
        return false;
    }
    size_t length = 0;
    char *text = text_read(path, &length);
    bool good = text && card_read_text(c, text_source(path), text, length, house_path);
    free(text);
    if (good)
        card_caution(c);
    return good;
}

bool card_assumes(const card *c, int field)
{
    return isnan(c->client.value[field]) && isnan(c->house.value[field]);
}

void card_client(const card *c, double *client)
{
    for (int i = 0; i < TAILOR_FIELD_COUNT; i++)
        client[i] = card_assumes(c, i) ? c->assumed.value[i] : c->client.value[i];
}

tailor_status card_house(const card *c, tailor_house **house, tailor_fault *fault)
{
    double constants[TAILOR_CONSTANT_COUNT];
    for (int i = 0; i < TAILOR_CONSTANT_COUNT; i++)
        constants[i] = isnan(c->constants.value[i]) ? c->assumed_constants.value[i] : c->constants.value[i];
    return tailor_house_new(c->house.value, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, house, fault);
}

/* The first place that somebody typed at. */
static card_place first_typed(card_place a, card_place b, card_place otherwise)
{
    return a.source ? a : b.source ? b : otherwise;
}

card_place card_fault_place(const card *c, const tailor_fault *fault)
{
    card_place whole = {c->source, 0};
    int i = fault->index;
    if (fault->table == TAILOR_TABLE_FIELD && i > 0 && i < TAILOR_FIELD_COUNT)
        return first_typed(c->client.place[i], c->house.place[i], first_typed(c->assumed.place[i], whole, whole));
    if (fault->table == TAILOR_TABLE_CONSTANT && i > 0 && i < TAILOR_CONSTANT_COUNT)
        return first_typed(c->constants.place[i], c->assumed_constants.place[i], whole);
    return whole;
}

/* What [client] holds from one of its texts on, and the fitting. */
static void say_client(const card *c, size_t first, char *title, size_t capacity)
{
    static const struct {
        int text;
        const char *before;
    } parts[] = {{TEXT_NAME, ""}, {TEXT_ORDER, "order "}, {TEXT_DATE, ""}};
    size_t used = 0;
    title[0] = '\0';
    for (size_t i = first; i < sizeof parts / sizeof parts[0] && used < capacity; i++) {
        const char *text = c->text[parts[i].text];
        if (!text[0])
            continue;
        int wrote = snprintf(title + used, capacity - used, "%s%s%s", used ? ", " : "", parts[i].before, text);
        used += wrote > 0 ? (size_t)wrote : 0;
    }
    int last = c->fittings.count; /* the last fitting that is in the order, so that nobody cuts by an older sheet */
    while (last > 0 && c->fittings.list[last - 1].left_out)
        last--;
    if (last > 0 && used < capacity)
        snprintf(title + used, capacity - used, "%sfitting %d", used ? ", " : "", last);
}

void card_title(const card *c, char *title, size_t capacity) { say_client(c, 0, title, capacity); }

void card_order(const card *c, char *order, size_t capacity) { say_client(c, 1, order, capacity); }

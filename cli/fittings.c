#include "fittings.h"

#include "complain.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *name_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
}

int fitting_of_section(const char *section)
{
    static const char before[] = "fitting ";
    return strncmp(section, before, sizeof before - 1) == 0 ? (int)strtol(section + sizeof before - 1, NULL, 10) : 0;
}

void fittings_begin(card *c, const char *source, const ini_fittings *found)
{
    memset(&c->fittings, 0, sizeof c->fittings);
    c->fittings.count = found->count;
    for (int i = 0; i < found->count; i++)
        c->fittings.list[i].place = (card_place){source, found->line[i]};
}

bool fitting_is_date(const char *text)
{
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    static const char form[] = "0000-00-00";
    if (strlen(text) != sizeof form - 1)
        return false;
    for (size_t i = 0; i < sizeof form - 1; i++)
        if (form[i] == '0' ? text[i] < '0' || text[i] > '9' : text[i] != form[i])
            return false;
    long year = strtol(text, NULL, 10), month = strtol(text + 5, NULL, 10), day = strtol(text + 8, NULL, 10);
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1] && !(month == 2 && day == 29 && !leap);
}

int fitting_find_field(card_place at, const char *name)
{
    int field = tailor_table_find(tailor_field_table(), name);
    if (field)
        return field;
    int near = tailor_table_suggest(tailor_field_table(), name);
    if (tailor_table_find(tailor_constant_table(), name))
        complain_at(at.source, at.line, "%s is a constant of the house: a fitting changes fields of the order", name);
    else if (near)
        complain_at(at.source, at.line, "unknown field %s: did you mean %s?", name, name_of(near));
    else
        complain_at(at.source, at.line, "unknown field %s: `tailorgeom list fields` shows all", name);
    return 0;
}

bool fitting_read_delta(card_place at, int field, const char *typed, bool unit_needed, double *delta)
{
    const char *unit = value_unit(tailor_field_table(), field, TAILOR_PRINT_MM);
    size_t length = strlen(typed);
    tailor_fault fault;
    if (tailor_choice_table(field)) {
        complain_at(at.source, at.line, "%s is a choice, nothing can be added to it: order another one in its own "
                    "section", name_of(field));
        return false;
    }
    if (typed[0] != '+' && typed[0] != '-') {
        complain_at(at.source, at.line, "a change of %s has a sign: +6 %s adds, -6 %s takes away (typed: %s)",
                    name_of(field), unit, unit, typed);
        return false;
    }
    if (tailor_value_read(tailor_field_table(), field, typed, delta, &fault) != TAILOR_OK) {
        complain_at(at.source, at.line, "%s (typed: %s)", fault.sentence, typed);
        return false;
    }
    if (unit_needed && unit[0] && typed[length - 1] >= '0' && typed[length - 1] <= '9') {
        complain_at(at.source, at.line, "a change of %s has its unit: %s %s (without it the line may be torn)",
                    name_of(field), typed, unit);
        return false;
    }
    if (*delta == 0) {
        complain_at(at.source, at.line, "%s is changed by nothing: leave the line out", name_of(field));
        return false;
    }
    return true;
}

static bool refuse_key(card_place at, const char *sentence)
{
    complain_at(at.source, at.line, "%s", sentence);
    return false;
}

static bool take_date(card_fitting *f, card_place at, const char *typed)
{
    if (f->date[0] || !fitting_is_date(typed))
        return refuse_key(at, "date is the day of the fitting, as 2026-11-25, and stands once");
    snprintf(f->date, sizeof f->date, "%s", typed);
    return true;
}

static bool take_left_out(card_fitting *f, card_place at, const char *typed)
{
    f->left_out = strcmp(typed, "yes") == 0;
    if (f->left_out_told || (!f->left_out && strcmp(typed, "no") != 0))
        return refuse_key(at, "left_out is yes or no, and stands once");
    f->left_out_told = true;
    return true;
}

static bool take_changes(card_fitting *f, card_place at, const char *typed)
{
    size_t digits = strspn(typed, "0123456789");
    if (f->changes_told || digits == 0 || digits > 3 || typed[digits] || typed[0] == '0')
        return refuse_key(at, "changes tells how many there are in the section, and stands once");
    f->changes_told = (int)strtol(typed, NULL, 10);
    return true;
}

static bool take_change(card_fittings *all, int index, card_place at, const char *key, const char *typed)
{
    card_change change = {.fitting = index, .field = fitting_find_field(at, key), .place = at};
    if (!change.field || !fitting_read_delta(at, change.field, typed, true, &change.delta))
        return false;
    for (size_t i = 0; i < all->change_count; i++) {
        if (all->changes[i].fitting != index || all->changes[i].field != change.field)
            continue;
        complain_at(at.source, at.line, "%s stands already on line %d", key, all->changes[i].place.line);
        return false;
    }
    if (all->change_count == FITTING_CHANGES_MOST) {
        complain_at(at.source, at.line, "a card holds %d changes at most", FITTING_CHANGES_MOST);
        return false;
    }
    all->changes[all->change_count++] = change;
    return true;
}

bool fitting_take(card *c, int index, card_place at, const char *key, const char *typed)
{
    static const struct {
        const char *key;
        bool (*take)(card_fitting *, card_place, const char *);
    } keys[] = {{"date", take_date}, {"left_out", take_left_out}, {"changes", take_changes}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (strcmp(key, keys[i].key) == 0)
            return keys[i].take(&c->fittings.list[index], at, typed);
    return take_change(&c->fittings, index, at, key, typed);
}

bool fittings_whole(const card *c)
{
    for (int i = 0; i < c->fittings.count; i++) {
        const card_fitting *f = &c->fittings.list[i];
        const char *before = i > 0 ? c->fittings.list[i - 1].date : "";
        int changes = 0;
        for (size_t k = 0; k < c->fittings.change_count; k++)
            changes += c->fittings.changes[k].fitting == i;
        if (!f->date[0])
            complain_at(f->place.source, f->place.line, "[fitting %d] has no date: give the day of the fitting, "
                        "date = 2026-11-25, or the section is torn", i + 1);
        else if (strcmp(f->date, before) < 0)
            complain_at(f->place.source, f->place.line, "[fitting %d] of %s lies before [fitting %d] of %s", i + 1,
                        f->date, i, before);
        else if (changes == 0)
            complain_at(f->place.source, f->place.line, "[fitting %d] holds no change: the section is torn", i + 1);
        else if (f->changes_told && f->changes_told != changes)
            complain_at(f->place.source, f->place.line, "[fitting %d] tells of %d changes and holds %d: the section is "
                        "torn; mend its line changes = if one was taken out on purpose", i + 1, f->changes_told,
                        changes);
        else
            continue;
        return false;
    }
    return true;
}

tailor_status fitting_alter(card *c, int index, tailor_fault *fault)
{
    double client[TAILOR_FIELD_COUNT], deltas[TAILOR_FIELD_COUNT], altered[TAILOR_FIELD_COUNT];
    tailor_house *house = NULL;
    card_client(c, client);
    tailor_fields_clear(deltas, TAILOR_FIELD_COUNT);
    for (size_t i = 0; i < c->fittings.change_count; i++)
        if (c->fittings.changes[i].fitting == index)
            deltas[c->fittings.changes[i].field] = c->fittings.changes[i].delta;
    tailor_status status = card_house(c, &house, fault);
    if (status == TAILOR_OK)
        status = tailor_order_alter(house, client, deltas, altered, TAILOR_FIELD_COUNT, fault);
    tailor_house_free(house);
    for (int i = 1; status == TAILOR_OK && i < TAILOR_FIELD_COUNT; i++) {
        if (isnan(altered[i]) || altered[i] == client[i])
            continue;
        const tailor_fault here = {.table = TAILOR_TABLE_FIELD, .index = i};
        c->client.value[i] = altered[i];
        c->client.place[i] = fitting_fault_place(c, index, &here);
    }
    return status;
}

card_place fitting_fault_place(const card *c, int index, const tailor_fault *fault)
{
    const card_change *near = NULL;
    for (size_t i = 0; i < c->fittings.change_count && fault->table == TAILOR_TABLE_FIELD; i++) {
        const card_change *change = &c->fittings.changes[i];
        if (change->fitting == index && change->field == fault->index)
            return change->place;
        if (change->fitting == index && field_of_both_sides(fault->index) == change->field)
            near = change;
    }
    return near ? near->place : card_fault_place(c, fault);
}

bool fittings_apply(card *c)
{
    for (int i = 0; i < c->fittings.count; i++) {
        tailor_fault fault;
        if (c->fittings.list[i].left_out || fitting_alter(c, i, &fault) == TAILOR_OK)
            continue;
        card_place place = fitting_fault_place(c, i, &fault);
        complain_at(place.source, place.line, "%s", fault.sentence);
        return false;
    }
    return true;
}

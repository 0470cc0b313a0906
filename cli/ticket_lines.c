/* ticket_lines: the lines of a ticket, one after another. */
#include "ticket.h"
#include "values.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/sheet.h>

const tailor_table *ticket_table(int table)
{
    return table == TICKET_FIELDS      ? tailor_field_table()
           : table == TICKET_CONSTANTS ? tailor_constant_table()
                                       : tailor_quantity_table();
}

const char *ticket_table_name(int table)
{
    static const char *const names[TICKET_TABLES] = {"fields", "constants", "quantities"};
    return names[table];
}

double ticket_value_at(const ticket *t, ticket_value at)
{
    static const int count[TICKET_TABLES] = {TAILOR_FIELD_COUNT, TAILOR_CONSTANT_COUNT, TAILOR_QUANTITY_COUNT};
    const double *const rows[TICKET_TABLES] = {t->d->fields, t->d->constants, t->d->quantities};
    return at.number > 0 && at.number < count[at.table] ? rows[at.table][at.number] : NAN;
}

static ticket_value find(int table, const char *name)
{
    return (ticket_value){table, tailor_table_find(ticket_table(table), name)};
}

double ticket_value_of(const ticket *t, int table, const char *name) { return ticket_value_at(t, find(table, name)); }

int ticket_choice(const ticket *t, const char *field)
{
    double value = ticket_value_of(t, TICKET_FIELDS, field);
    return isnan(value) ? 0 : (int)value;
}

void ticket_heading(ticket *t, const char *heading) { t->heading = heading; }

static void add_line(ticket *t, int kind, const char *label)
{
    if (t->count == TICKET_LINES_MOST) {
        t->full = true;
        return;
    }
    ticket_line *line = &t->lines[t->count++];
    *line = (ticket_line){.kind = kind, .text = t->texts.length, .first_value = t->value_count};
    snprintf(line->label, sizeof line->label, "%s", label);
    t->open = true;
}

void ticket_begin(ticket *t, int kind, const char *label)
{
    if (t->heading) {
        add_line(t, TAILOR_LINE_HEADING, t->heading);
        buffer_add(&t->texts, "", 1);
    }
    add_line(t, kind, label);
}

void ticket_row(ticket *t, const char *label) { ticket_begin(t, TAILOR_LINE_ROW, label); }

void ticket_end(ticket *t)
{
    if (!t->open || t->texts.failed)
        return;
    t->open = false;
    if (t->texts.length > t->lines[t->count - 1].text) {
        buffer_add(&t->texts, "", 1);
        t->heading = NULL;
        return;
    }
    t->value_count = t->lines[t->count - 1].first_value;
    t->count -= t->heading ? 2 : 1;
}

void ticket_say(ticket *t, const char *format, ...)
{
    char text[1024];
    va_list rest;
    va_start(rest, format);
    int wrote = vsnprintf(text, sizeof text, format, rest);
    va_end(rest);
    t->full = t->full || wrote >= (int)sizeof text;
    if (t->open && wrote > 0)
        buffer_say(&t->texts, text);
}

static void remember(ticket *t, ticket_value at)
{
    if (t->value_count == TICKET_VALUES_MOST || !t->open) {
        t->full = true;
        return;
    }
    t->values[t->value_count++] = at;
    t->lines[t->count - 1].value_count++;
}

static void write(const ticket *t, ticket_value at, char text[2 * VALUE_TEXT])
{
    char number[VALUE_TEXT];
    const tailor_table *table = ticket_table(at.table);
    value_write(table, at.number, ticket_value_at(t, at), t->print, number);
    const char *unit = value_unit(table, at.number, t->print);
    snprintf(text, 2 * VALUE_TEXT, "%s%s%.20s", number, unit[0] && strcmp(unit, "count") != 0 ? TICKET_BLANK : "",
             strcmp(unit, "count") != 0 ? unit : "");
}

bool ticket_put_in(ticket *t, const char *before, int table, const char *name, const char *after)
{
    char text[2 * VALUE_TEXT];
    ticket_value at = find(table, name);
    if (isnan(ticket_value_at(t, at)))
        return false;
    write(t, at, text);
    ticket_say(t, "%s%s%s", before, text, after);
    remember(t, at);
    return true;
}

bool ticket_put(ticket *t, int table, const char *name) { return ticket_put_in(t, "", table, name, ""); }

bool ticket_put_size(ticket *t, const char *before, int table, const char *name, const char *after)
{
    char text[VALUE_TEXT];
    ticket_value at = find(table, name);
    double value = ticket_value_at(t, at);
    if (isnan(value))
        return false;
    value_write(ticket_table(table), at.number, fabs(value), t->print, text);
    const char *unit = value_unit(ticket_table(table), at.number, t->print);
    ticket_say(t, "%s%s" TICKET_BLANK "%s%s", before, text, unit, after);
    remember(t, at);
    return true;
}

bool ticket_put_sides(ticket *t, int table, const char *left, const char *right)
{
    char texts[2][2 * VALUE_TEXT];
    ticket_value at[2] = {find(table, left), find(table, right)};
    if (isnan(ticket_value_at(t, at[0])) || isnan(ticket_value_at(t, at[1])))
        return ticket_put(t, table, left);
    for (int i = 0; i < 2; i++) {
        write(t, at[i], texts[i]);
        remember(t, at[i]);
    }
    if (strcmp(texts[0], texts[1]) == 0)
        ticket_say(t, "%s", texts[0]);
    else
        ticket_say(t, "left %s, right %s", texts[0], texts[1]);
    return true;
}

bool ticket_put_button(ticket *t, int table, const char *name)
{
    static const double ligne = 0.635; /* mm: the trade's */
    char text[VALUE_TEXT];
    ticket_value at = find(table, name);
    double mm = ticket_value_at(t, at), lignes = mm / ligne;
    if (isnan(mm))
        return false;
    length_text(mm, TAILOR_PRINT_MM, text);
    bool whole = fabs(lignes - round(lignes)) < 0.05;
    ticket_say(t, "%s" TICKET_BLANK "mm (%.*f" TICKET_BLANK "ligne)", text, whole ? 0 : 1, lignes);
    remember(t, at);
    return true;
}

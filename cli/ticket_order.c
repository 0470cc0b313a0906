/* ticket_order: what was ordered: style, finished measures, the figure, and what nobody gave. */
#include "ticket.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/sheet.h>

/* A line that is one value of a table and a word or two. */
typedef struct simple {
    const char *label;
    int table;
    const char *name, *right, *after; /* right: the same of the right side; after: what is said behind it */
} simple;

static void tell(ticket *t, const simple *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const simple *r = &rows[i];
        ticket_row(t, r->label);
        bool put = r->right ? ticket_put_sides(t, r->table, r->name, r->right) : ticket_put(t, r->table, r->name);
        if (put && r->after)
            ticket_say(t, "%s", r->after);
        ticket_end(t);
    }
}
#define TELL(t, rows) tell(t, rows, sizeof rows / sizeof rows[0])

void ticket_tell_head(ticket *t)
{
    const char *lengths = t->print == TAILOR_PRINT_MM        ? "lengths in mm"
                          : t->print == TAILOR_PRINT_INCH_16 ? "lengths in inches to the sixteenth, buttons in mm"
                                                             : "lengths in inches to the eighth, buttons in mm";
    ticket_begin(t, TAILOR_LINE_TEXT, "");
    ticket_say(t, "Workroom ticket: pieces are net, %s, left and right are the wearer's. ", lengths);
    ticket_say(t, "Edition %d of the drafting rules, tailorgeom %s.", tailor_edition(), tailor_version());
    ticket_end(t);
    ticket_begin(t, TAILOR_LINE_TEXT, "");
    if (t->c->text[TEXT_NOTE][0])
        ticket_say(t, "Note: %s", t->c->text[TEXT_NOTE]);
    ticket_end(t);
}

static void tell_vents(ticket *t)
{
    static const struct {
        int vents;
        const char *overlap;
    } overlaps[] = {{TAILOR_VENTS_CENTRE, "centre_vent_overlap"}, {TAILOR_VENTS_SIDE, "side_vent_overlap"}};
    int vents = ticket_choice(t, "vents");
    ticket_row(t, "vents");
    ticket_put(t, TICKET_FIELDS, "vents");
    for (size_t i = 0; i < sizeof overlaps / sizeof overlaps[0]; i++)
        if (overlaps[i].vents == vents)
            ticket_put_in(t, ", overlap ", TICKET_CONSTANTS, overlaps[i].overlap, "");
    ticket_end(t);
}

static void tell_pockets(ticket *t)
{
    ticket_row(t, "hip pockets");
    if (ticket_put(t, TICKET_FIELDS, "hip_pockets") && ticket_choice(t, "hip_pockets") != TAILOR_HIP_POCKETS_NONE) {
        if (ticket_value_of(t, TICKET_FIELDS, "pocket_slant") > 0)
            ticket_put_in(t, ", slanting ", TICKET_FIELDS, "pocket_slant", "");
        else
            ticket_say(t, ", straight");
    }
    ticket_end(t);
    ticket_row(t, "breast pocket");
    if (tailor_pattern_find_piece(t->d->pattern, "breast_welt") >= 0) {
        ticket_say(t, "welt");
        ticket_put_in(t, ", ", TICKET_CONSTANTS, "welt_height", " high");
    }
    ticket_end(t);
}

void ticket_tell_style(ticket *t)
{
    static const simple front[] = {
        {"making", TICKET_FIELDS, "making", NULL, NULL},
        {"buttoning", TICKET_FIELDS, "buttoning", NULL, NULL},
        {"closing", TICKET_FIELDS, "closing", NULL, NULL},
        {"lapel", TICKET_FIELDS, "lapel", NULL, NULL},
        {"front cut", TICKET_FIELDS, "front_cut", NULL, NULL},
    };
    static const simple sleeve[] = {
        {"sleeve vent", TICKET_FIELDS, "sleeve_vent", NULL, NULL},
        {"cuff buttons", TICKET_FIELDS, "cuff_buttons", NULL, NULL},
    };
    ticket_heading(t, "Style");
    TELL(t, front);
    tell_vents(t);
    tell_pockets(t);
    TELL(t, sleeve);
}

void ticket_tell_measures(ticket *t)
{
    static const simple rows[] = {
        {"chest", TICKET_QUANTITIES, "finished_chest", NULL, " round"},
        {"waist", TICKET_QUANTITIES, "finished_waist", NULL, " round"},
        {"seat", TICKET_QUANTITIES, "finished_seat", NULL, " round"},
        {"length", TICKET_QUANTITIES, "finished_length", NULL, " nape to hem"},
        {"front hem", TICKET_QUANTITIES, "front_hem_below_back", "front_hem_below_back_right", " below the back hem"},
        {"sleeve", TICKET_QUANTITIES, "sleeve_length", "sleeve_length_right", NULL},
        {"cuff", TICKET_FIELDS, "cuff_width", NULL, " laid flat"},
        {"cross-back", TICKET_QUANTITIES, "cross_back_finished", NULL, NULL},
        {"cross-chest", TICKET_QUANTITIES, "cross_chest_finished", NULL, NULL},
        {"front shoulder", TICKET_QUANTITIES, "front_shoulder_length", "front_shoulder_length_right", NULL},
        {"lapel width", TICKET_FIELDS, "lapel_width", NULL, NULL},
    };
    ticket_heading(t, "Finished measures");
    TELL(t, rows);
    ticket_row(t, "collar");
    if (ticket_put_in(t, "stand ", TICKET_FIELDS, "collar_stand", ""))
        ticket_put_in(t, ", fall ", TICKET_FIELDS, "collar_fall", "");
    ticket_end(t);
}

/* A field that has sides counts by them; one without is said when it is not 0. */
static void tell_note(ticket *t, int field)
{
    const tailor_table *table = tailor_field_table();
    const char *name = tailor_table_text(table, field, TAILOR_COLUMN_NAME);
    double value[2];
    int at[2];
    for (int i = 0; i < 2; i++) {
        int side = field_of_side(field, i == 0);
        at[i] = side && side < TAILOR_FIELD_COUNT && !isnan(t->d->fields[side]) ? side : field;
        value[i] = t->d->fields[at[i]];
    }
    if (!(fabs(value[0]) > 0) && !(fabs(value[1]) > 0))
        return;
    ticket_row(t, tailor_table_text(table, field, TAILOR_COLUMN_TERM));
    if (at[0] == at[1])
        ticket_put(t, TICKET_FIELDS, name);
    else
        ticket_put_sides(t, TICKET_FIELDS, tailor_table_text(table, at[0], TAILOR_COLUMN_NAME),
                         tailor_table_text(table, at[1], TAILOR_COLUMN_NAME));
    ticket_end(t);
}

void ticket_tell_figure(ticket *t)
{
    const tailor_table *table = tailor_field_table();
    ticket_heading(t, "Figure");
    for (int place = 0, field; (field = tailor_table_at(table, place)) != 0; place++) {
        bool figure = strcmp(tailor_table_text(table, field, TAILOR_COLUMN_GROUP), "figure") == 0;
        bool let_out = strcmp(tailor_table_text(table, field, TAILOR_COLUMN_NAME), "side_let_out") == 0;
        if (field < TAILOR_FIELD_COUNT && (figure || let_out) && !field_of_both_sides(field))
            tell_note(t, field);
    }
}

/* "natural waist 890", and whether a bespoke coat may stand on it. */
static void tell_assumed(ticket *t, int field, const char *before, const int32_t *toile, size_t toile_count)
{
    const tailor_table *table = tailor_field_table();
    char value[VALUE_TEXT];
    const char *unit = value_unit(table, field, t->print);
    value_write(table, field, t->d->fields[field], t->print, value);
    bool plain = !unit[0] || strcmp(unit, t->print == TAILOR_PRINT_MM ? "mm" : "in") == 0; /* the heading tells it */
    ticket_say(t, "%s%s" TICKET_BLANK "%s%s%s", before, tailor_table_text(table, field, TAILOR_COLUMN_TERM), value,
               plain ? "" : TICKET_BLANK, plain ? "" : unit);
    for (size_t i = 0; i < toile_count; i++)
        if (toile[i] == field)
            ticket_say(t, " (for toile only)");
}

/* A field of both sides counts for nothing where each side has a value of its own. */
static bool is_used(const ticket *t, int field)
{
    int left = field_of_side(field, true), right = field_of_side(field, false);
    return !left || !right || left >= TAILOR_FIELD_COUNT || right >= TAILOR_FIELD_COUNT || isnan(t->d->fields[left]) ||
           isnan(t->d->fields[right]);
}

void ticket_tell_assumed(ticket *t)
{
    static const char *const groups[] = {"measures", "figure", "ease", "cloth", "style"};
    const tailor_table *table = tailor_field_table();
    size_t toile_count = 0;
    const int32_t *toile = tailor_coat_toile_fields(t->d->coat, &toile_count);
    ticket_heading(t, t->print == TAILOR_PRINT_MM ? "Assumed, not given (mm)" : "Assumed, not given (inches)");
    for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++) {
        char before[32];
        snprintf(before, sizeof before, "%s: ", groups[i]);
        ticket_begin(t, TAILOR_LINE_TEXT, "");
        for (int place = 0, field; (field = tailor_table_at(table, place)) != 0; place++) {
            if (field >= TAILOR_FIELD_COUNT || t->d->origins[field] != TAILOR_ORIGIN_RULE || !is_used(t, field) ||
                strcmp(tailor_table_text(table, field, TAILOR_COLUMN_GROUP), groups[i]) != 0)
                continue;
            tell_assumed(t, field, before, toile, toile_count);
            snprintf(before, sizeof before, ", ");
        }
        ticket_end(t);
    }
}

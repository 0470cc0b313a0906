/* ticket_making: what the bench needs: canvas and roll, pads, ease and iron, inlays. */
#include "ticket.h"

#include <string.h>
#include <tailorgeom/sheet.h>

static void tell_canvas(ticket *t)
{
    ticket_heading(t, "Canvas and roll");
    ticket_row(t, "angle of the canvas");
    ticket_put(t, TICKET_FIELDS, "canvas_angle");
    ticket_end(t);
    ticket_row(t, "break line");
    ticket_put(t, TICKET_QUANTITIES, "break_length");
    ticket_end(t);
    ticket_row(t, "bridle");
    if (ticket_put_in(t, "", TICKET_QUANTITIES, "bridle_length", " finished")) {
        ticket_put_in(t, ", takes in ", TICKET_QUANTITIES, "bridle_taken_in", "");
        ticket_put_in(t, " (", TICKET_FIELDS, "bridle_drawn_in", ")");
    }
    ticket_end(t);
    ticket_row(t, "turn of the facing");
    ticket_put(t, TICKET_QUANTITIES, "facing_turn");
    ticket_end(t);
    ticket_row(t, "turn of the top collar");
    ticket_put(t, TICKET_QUANTITIES, "top_collar_turn");
    ticket_end(t);
}

static void tell_pads(ticket *t)
{
    ticket_heading(t, "Pads");
    ticket_row(t, "shoulder pad");
    ticket_put(t, TICKET_FIELDS, "shoulder_pad");
    ticket_end(t);
    ticket_row(t, "extra pad");
    if (ticket_value_of(t, TICKET_QUANTITIES, "extra_pad") > 0 ||
        ticket_value_of(t, TICKET_QUANTITIES, "extra_pad_right") > 0)
        ticket_put_sides(t, TICKET_QUANTITIES, "extra_pad", "extra_pad_right");
    ticket_end(t);
}

/* What is eased in, stretched or drawn in; what is 0 needs no hand. */
static void tell_iron(ticket *t)
{
    static const struct {
        const char *label;
        int table;
        const char *name, *after;
    } rows[] = {
        {"back shoulder", TICKET_FIELDS, "shoulder_ease", " eased to the front"},
        {"back seam", TICKET_CONSTANTS, "blade_ease", " of the back eased over the blade"},
        {"crown", TICKET_QUANTITIES, "crown_fullness", " fuller than the scye"},
        {"forearm", TICKET_CONSTANTS, "forearm_stretch", " stretched on the topsleeve"},
        {"crease of the collar", TICKET_QUANTITIES, "crease_drawn_in", " drawn in on each half"},
        {"leaf of the collar", TICKET_CONSTANTS, "leaf_stretch", " stretched on each half"},
        {"facing", TICKET_CONSTANTS, "facing_lapel_long", " eased over the lapel"},
    };
    ticket_heading(t, "Ease and iron");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ticket_row(t, rows[i].label);
        if (ticket_value_of(t, rows[i].table, rows[i].name) >= 0.05)
            ticket_put_in(t, "", rows[i].table, rows[i].name, rows[i].after);
        ticket_end(t);
    }
}

static void tell_constant(ticket *t, const char *label, const char *name)
{
    ticket_row(t, label);
    ticket_put(t, TICKET_CONSTANTS, name);
    ticket_end(t);
}

static void tell_inlays(ticket *t)
{
    static const char inlay[] = "inlay", before[] = "inlay, ";
    const tailor_table *table = tailor_constant_table();
    bool machine = ticket_choice(t, "making") == TAILOR_MAKING_MADE_TO_MEASURE;
    ticket_heading(t, machine ? "Seams and turn-ups" : "Inlays and turn-ups");
    if (machine)
        tell_constant(t, "seams", "machine_seam");
    for (int place = 0, constant; !machine && (constant = tailor_table_at(table, place)) != 0; place++) {
        const char *term = tailor_table_text(table, constant, TAILOR_COLUMN_TERM);
        const char *name = tailor_table_text(table, constant, TAILOR_COLUMN_NAME);
        if (constant < TAILOR_CONSTANT_COUNT && strncmp(name, inlay, sizeof inlay - 1) == 0)
            tell_constant(t, strncmp(term, before, sizeof before - 1) == 0 ? term + sizeof before - 1 : term, name);
    }
    tell_constant(t, "hem turned up", "hem_turn_up");
    tell_constant(t, "cuff turned up", "cuff_turn_up");
}

void ticket_tell_making(ticket *t)
{
    tell_canvas(t);
    tell_pads(t);
    tell_iron(t);
    tell_inlays(t);
}

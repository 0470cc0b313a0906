/* ticket_buttons: buttons, and each hole: where it is, on which side it is worked, and what of it shows. */
#include "ticket.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <tailorgeom/sheet.h>

int ticket_front(const ticket *t)
{
    const tailor_pattern *p = t->d->pattern;
    bool right = ticket_choice(t, "closing") == TAILOR_CLOSING_RIGHT_OVER_LEFT;
    int piece = tailor_pattern_find_piece(p, "forepart");
    return piece >= 0 ? piece : tailor_pattern_find_piece(p, right ? "forepart_right" : "forepart_left");
}

/* How far the outline lies beyond a hole's eye, level, the way the slit points; NaN when it does not. */
static double to_edge(const tailor_pattern *p, int piece, tailor_point eye, tailor_point inner)
{
    enum { CROSSINGS = 32 };
    double at[CROSSINGS], nearest = NAN, way = eye.x > inner.x ? 1 : -1;
    size_t cubics = 0, found = 0;
    const tailor_cubic *outline = tailor_piece_outline(p, piece, &cubics);
    tailor_point level = {eye.x + 1, eye.y};
    if (tailor_path_cross_line(outline, cubics, eye, level, at, CROSSINGS, &found) != TAILOR_OK)
        return NAN;
    for (size_t i = 0; i < found && i < CROSSINGS; i++) {
        double beyond = way * (tailor_path_point(outline, cubics, at[i]).x - eye.x);
        if (beyond > 0 && !(beyond >= nearest))
            nearest = beyond;
    }
    return nearest;
}

static double of_hole(const ticket *t, int table, const char *format, int number)
{
    char name[48];
    snprintf(name, sizeof name, format, number);
    return ticket_value_of(t, table, name);
}

static int whole(double value) { return isnan(value) ? 0 : (int)value; }

size_t ticket_holes(const ticket *t, ticket_hole holes[TICKET_HOLES_MOST])
{
    const tailor_pattern *p = t->d->pattern;
    int front = ticket_front(t);
    size_t count = 0;
    for (int number = 1; number <= TICKET_HOLES_MOST; number++) {
        char mark_name[48];
        snprintf(mark_name, sizeof mark_name, "hole_%d", number);
        size_t cubics = 0;
        int mark = tailor_piece_find_mark(p, front, mark_name);
        const tailor_cubic *slit = mark >= 0 ? tailor_mark_path(p, front, mark, &cubics) : NULL;
        if (!slit || !cubics)
            continue;
        tailor_point eye = slit[0].p[0], inner = slit[cubics - 1].p[3];
        holes[count++] = (ticket_hole){
            .number = number,
            .face = whole(of_hole(t, TICKET_QUANTITIES, "hole_%d_face", number)),
            .given = !isnan(of_hole(t, TICKET_FIELDS, "hole_face_%d", number)),
            .length = fabs(eye.x - inner.x),
            .to_edge = to_edge(p, front, eye, inner),
            .shows = whole(of_hole(t, TICKET_QUANTITIES, "hole_%d_shows", number)),
            .shows_rolled = whole(of_hole(t, TICKET_QUANTITIES, "hole_%d_shows_rolled", number)),
        };
    }
    return count;
}

static void say_length(ticket *t, const char *before, double mm, const char *after)
{
    char text[VALUE_TEXT];
    length_text(mm, t->print, text);
    if (!isnan(mm))
        ticket_say(t, "%s%s" TICKET_BLANK "%s%s", before, text, t->print == TAILOR_PRINT_MM ? "mm" : "in", after);
}

static void tell_hole(ticket *t, const ticket_hole *hole, size_t count)
{
    static const char *const faces[] = {"", "worked face out", "worked face in", "worked on both sides"};
    static const char *const sides[] = {"", "its good side", "its reverse"};
    char label[TICKET_LABEL];
    snprintf(label, sizeof label, "hole %d%s", hole->number, count == 1 ? "" : hole->number == 1 ? ", top" : "");
    ticket_row(t, label);
    if (hole->face > 0 && hole->face < 4)
        ticket_say(t, "%s (%s); ", faces[hole->face], hole->given ? "given" : "by buttoning");
    say_length(t, "", hole->length, " long");
    say_length(t, ", eye ", hole->to_edge, " from the edge");
    bool drawn = hole->shows == 1 || hole->shows == 2, rolled = hole->shows_rolled == 1 || hole->shows_rolled == 2;
    if (drawn && rolled && hole->shows == hole->shows_rolled)
        ticket_say(t, "; as drawn and rolled through it shows %s", sides[hole->shows]);
    else if (drawn)
        ticket_say(t, "; as drawn it shows %s%s%s", sides[hole->shows], rolled ? ", rolled through " : "",
                   rolled ? sides[hole->shows_rolled] : "");
    ticket_end(t);
}

static void tell_front_buttons(ticket *t)
{
    double buttons = ticket_value_of(t, TICKET_QUANTITIES, "button_count");
    double holes = ticket_value_of(t, TICKET_QUANTITIES, "hole_count");
    ticket_row(t, "front buttons");
    if (ticket_put(t, TICKET_QUANTITIES, "button_count")) {
        if (buttons > holes)
            ticket_say(t, ": %.0f to fasten, %.0f for show", holes, buttons - holes);
        ticket_say(t, ", ");
        ticket_put_button(t, TICKET_FIELDS, "button_diameter");
    }
    ticket_end(t);
    ticket_row(t, "top button");
    ticket_put_in(t, "", TICKET_QUANTITIES, "top_button_level", " below the nape");
    ticket_end(t);
    ticket_row(t, "spacing");
    if (buttons > 1)
        ticket_put(t, TICKET_FIELDS, "button_spacing");
    ticket_end(t);
    ticket_row(t, "fronts overlap");
    ticket_put(t, TICKET_QUANTITIES, "fronts_overlap");
    ticket_end(t);
}

static void tell_cuff_buttons(ticket *t)
{
    ticket_row(t, "cuff buttons");
    if (ticket_choice(t, "cuff_buttons") != TAILOR_CUFF_BUTTONS_NONE &&
        ticket_put(t, TICKET_FIELDS, "cuff_buttons")) {
        ticket_say(t, " each, ");
        ticket_put_button(t, TICKET_CONSTANTS, "cuff_button_diameter");
        ticket_put_in(t, "; first ", TICKET_CONSTANTS, "cuff_button_first", " above the cuff");
        if (ticket_choice(t, "cuff_buttons") != TAILOR_CUFF_BUTTONS_ONE)
            ticket_put_in(t, ", then every ", TICKET_CONSTANTS, "cuff_button_spacing", "");
    }
    ticket_end(t);
}

void ticket_tell_buttons(ticket *t)
{
    ticket_hole holes[TICKET_HOLES_MOST];
    size_t count = ticket_holes(t, holes);
    ticket_heading(t, "Buttons and holes");
    tell_front_buttons(t);
    for (size_t i = 0; i < count; i++)
        tell_hole(t, &holes[i], count);
    tell_cuff_buttons(t);
}

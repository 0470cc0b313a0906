/* What the numbers of a roll are made of, and where their values come from. */
#include "roll.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *const roll_laws[LAW_COUNT] = {
    "mechanics of thin sheets",
    "mechanics of a heavy elastic strip",
    "a law fitted to a simulation, no real coat has confirmed it",
};
const char roll_caution[] =
    "class and distance are a law fitted to a simulation of one idealised front; no real coat has confirmed the "
    "millimetres";

const char *const roll_inputs[ROLL_INPUTS] = {
    "cloth",       "canvas", "canvas angle",      "padding",     "bridle",  "bridle drawn in", "buttonhole",
    "pressed set", "curl",   "lean of the chest", "lapel width", "spacing", "crease width",    "hang load",
};

enum {
    FRONT = IN_CLOTH | IN_CANVAS | IN_CANVAS_ANGLE | IN_PADDING,
    SECTION = FRONT | IN_SET | IN_SET_BAND | IN_CURL | IN_LEAN | IN_LAPEL_WIDTH,
    BRIDLE = FRONT | IN_BRIDLE | IN_DRAWN_IN | IN_HANG_LOAD,
    HOLE = FRONT | IN_HOLE,
    TURN = BRIDLE | HOLE | IN_LAPEL_WIDTH | IN_SPACING
};

const roll_number roll_numbers[ROLL_NUMBERS] = {
    {TAILOR_QUANTITY_BREAK_STRETCH, LAW_SHEETS, FRONT, "stretch along the break line, a N/cm"},
    {TAILOR_QUANTITY_BREAK_BENDING, LAW_SHEETS, FRONT, "bending across the break line"},
    {TAILOR_QUANTITY_ROLL_HEIGHT, LAW_STRIP, SECTION, "height of the roll"},
    {TAILOR_QUANTITY_ROLL_RADIUS, LAW_STRIP, SECTION, "radius of the roll"},
    {TAILOR_QUANTITY_LAPEL_LIES, LAW_STRIP, SECTION, "edge of the lapel"},
    {TAILOR_QUANTITY_BRIDLE_TENSION, LAW_SHEETS, BRIDLE, "tension of the bridle"},
    {TAILOR_QUANTITY_BUTTONHOLE_RATIO, LAW_SHEETS, HOLE, "buttonhole against the front"},
    {TAILOR_QUANTITY_ROLL_CLASS, LAW_FITTED, TURN, "roll of the lapel"},
    {TAILOR_QUANTITY_ROLL_DISTANCE, LAW_FITTED, TURN, "where it turns"},
    {TAILOR_QUANTITY_ROLL_BAND, LAW_FITTED, TURN, "give or take"},
};

const roll_number *roll_number_of(int quantity)
{
    size_t i = 0;
    while (roll_numbers[i].quantity != quantity)
        i++;
    return &roll_numbers[i];
}

/* The fields of the inputs that are one field each; cloth and canvas are nine, the last two are house constants. */
static const int field_of[ROLL_INPUTS] = {
    0,
    0,
    TAILOR_FIELD_CANVAS_ANGLE,
    TAILOR_FIELD_PADDING_HOLD,
    TAILOR_FIELD_BRIDLE_STIFFNESS,
    TAILOR_FIELD_BRIDLE_DRAWN_IN,
    TAILOR_FIELD_HOLE_STIFFNESS,
    TAILOR_FIELD_LAPEL_SET,
    TAILOR_FIELD_LAPEL_CURL,
    TAILOR_FIELD_CHEST_LEAN,
    TAILOR_FIELD_LAPEL_WIDTH,
    TAILOR_FIELD_BUTTON_SPACING,
};
static const int constant_of[2] = {TAILOR_CONSTANT_LAPEL_SET_BAND, TAILOR_CONSTANT_HANG_LOAD};

const cloth_row *roll_named(const rolling *r, int place)
{
    const cloth_row *clients = r->card->client.cloth[place];
    return clients ? clients : r->card->house.cloth[place];
}

int roll_from(const rolling *r, int input)
{
    if (input >= ROLL_INPUTS - 2)
        return r->card->constants.place[constant_of[input - (ROLL_INPUTS - 2)]].source ? FROM_GIVEN : FROM_ASSUMED;
    if (field_of[input])
        return r->d.origins[field_of[input]] == TAILOR_ORIGIN_RULE ? FROM_ASSUMED : FROM_GIVEN;
    const cloth_row *named = roll_named(r, input);
    int from = 0;
    for (int property = 1; property < TAILOR_CLOTH_COUNT; property++) {
        int field = cloth_field(input, property);
        bool assumed = r->d.origins[field] == TAILOR_ORIGIN_RULE;
        bool by_name = named && r->d.fields[field] == named->properties[property];
        from |= assumed ? FROM_ASSUMED : by_name ? FROM_NAME : FROM_GIVEN;
    }
    return from;
}

/* The sort of source that a table of cloths tells: "judgement", "range". */
static int source_word(const cloth_row *row) { return (int)strcspn(row->source, ":"); }

void roll_basis(const rolling *r, const roll_number *n, char text[BASIS_TEXT])
{
    static const struct {
        int from;
        const char *words;
    } kinds[] = {{FROM_ASSUMED, "; assumed: "}, {FROM_NAME, "; by name: "}, {FROM_GIVEN, "; given: "}};
    int used = snprintf(text, BASIS_TEXT, "%s", roll_laws[n->law]);
    for (size_t k = 0; k < sizeof kinds / sizeof kinds[0]; k++) {
        const char *before = kinds[k].words;
        for (int i = 0; i < ROLL_INPUTS; i++) {
            int from = roll_from(r, i);
            if (!(n->inputs & 1 << i) || !(from & kinds[k].from) || used >= BASIS_TEXT - 1)
                continue;
            const cloth_row *named = kinds[k].from == FROM_NAME ? roll_named(r, i) : NULL;
            used += snprintf(text + used, BASIS_TEXT - (size_t)used, "%s%s%s%s%.60s", before, roll_inputs[i],
                             from == kinds[k].from ? "" : " in part", named ? " " : "", named ? named->name : "");
            if (named && source_word(named) > 0 && used < BASIS_TEXT - 1)
                used += snprintf(text + used, BASIS_TEXT - (size_t)used, " (%.*s)",
                                 source_word(named) < 20 ? source_word(named) : 20, named->source);
            before = ", ";
        }
    }
}

/* ---- the coat */

static double waist_button(const tailor_pattern *pattern)
{
    int piece = tailor_pattern_find_piece(pattern, "forepart");
    return tailor_point_place(pattern, piece, tailor_piece_find_point(pattern, piece, "waist_button")).y;
}

static void look_at_range(rolling *r)
{
    const double *f = r->d.fields, *q = r->d.quantities;
    /* The break point lies a little above its own button: nearer to the fastened one, or to one above that. */
    double above = -q[TAILOR_QUANTITY_BREAK_LEVEL] - waist_button(r->d.pattern);
    r->breaks_above = above > f[TAILOR_FIELD_BUTTON_SPACING] / 2;
    if (!r->breaks_above)
        return;
    const double making[TAILOR_ROLLING_COUNT] = {
        [0] = NAN,
        [TAILOR_ROLLING_LAPEL_WIDTH] = f[TAILOR_FIELD_LAPEL_WIDTH],
        [TAILOR_ROLLING_BUTTON_SPACING] = f[TAILOR_FIELD_BUTTON_SPACING],
        [TAILOR_ROLLING_BREAK_ABOVE] = above,
        [TAILOR_ROLLING_BREAK_LENGTH] = q[TAILOR_QUANTITY_BREAK_LENGTH],
        [TAILOR_ROLLING_BREAK_ANGLE] = q[TAILOR_QUANTITY_BREAK_ANGLE],
        [TAILOR_ROLLING_BRIDLE_STIFFNESS] = f[TAILOR_FIELD_BRIDLE_STIFFNESS],
        [TAILOR_ROLLING_BRIDLE_DRAWN_IN] = q[TAILOR_QUANTITY_BRIDLE_TAKEN_IN],
        [TAILOR_ROLLING_BUTTONHOLE_BAR] = f[TAILOR_FIELD_HOLE_STIFFNESS],
        [TAILOR_ROLLING_BUTTONHOLE_SIDES] =
            (int)q[TAILOR_QUANTITY_HOLE_1_FACE] == TAILOR_HOLE_FACE_1_BOTH ? 2 : 1,
        [TAILOR_ROLLING_HANG_LOAD] = r->d.constants[TAILOR_CONSTANT_HANG_LOAD],
    };
    tailor_roll_in_range(making, TAILOR_ROLLING_COUNT, &r->range);
}

void roll_draft(rolling *r, const card *c, int buttoning)
{
    memset(r, 0, sizeof *r);
    r->card = c;
    r->good = draft_order(c, &r->d);
    r->buttoning = r->good ? (int)r->d.fields[TAILOR_FIELD_BUTTONING] : buttoning;
    if (r->good)
        look_at_range(r);
}

const char *roll_why_not(const rolling *r, const roll_number *n)
{
    if (!isnan(r->d.quantities[n->quantity]))
        return NULL;
    if (n->law == LAW_STRIP)
        return "the section comes to no rest, or its numbers lie outside what it is calculated for";
    if (!r->breaks_above)
        return "the lapel breaks at the fastened button: there is nothing to roll through";
    return r->range.status != TAILOR_OK ? r->range.sentence : "cloth and canvas make no sheet that could be calculated";
}

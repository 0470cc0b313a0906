/* roll: how the lapel of a coat rolls, and what each number rests on. */
#ifndef CLI_ROLL_H
#define CLI_ROLL_H

#include "commands.h"
#include "drafted.h"

#include <tailorgeom/roll.h>

/** How a number is come by. */
enum { LAW_SHEETS, LAW_STRIP, LAW_FITTED, LAW_COUNT };
extern const char *const roll_laws[LAW_COUNT];
/** What is said of all fitted numbers. */
extern const char roll_caution[];

/** What a number depends on, one bit each; roll_inputs tells what a bit stands for. */
enum {
    IN_CLOTH = 1 << 0,
    IN_CANVAS = 1 << 1,
    IN_CANVAS_ANGLE = 1 << 2,
    IN_PADDING = 1 << 3,
    IN_BRIDLE = 1 << 4,
    IN_DRAWN_IN = 1 << 5,
    IN_HOLE = 1 << 6,
    IN_SET = 1 << 7,
    IN_CURL = 1 << 8,
    IN_LEAN = 1 << 9,
    IN_LAPEL_WIDTH = 1 << 10,
    IN_SPACING = 1 << 11,
    IN_SET_BAND = 1 << 12,
    IN_HANG_LOAD = 1 << 13,
    ROLL_INPUTS = 14
};
extern const char *const roll_inputs[ROLL_INPUTS];

typedef struct roll_number {
    int quantity, law, inputs;
    const char *label;
} roll_number;
enum { ROLL_NUMBERS = 10 };
extern const roll_number roll_numbers[ROLL_NUMBERS];
/** The number of a quantity that is among them. */
const roll_number *roll_number_of(int quantity);

/** Where an input's value comes from: of a cloth's nine numbers, several at once. */
enum { FROM_ASSUMED = 1, FROM_GIVEN = 2, FROM_NAME = 4 };

/** One coat of the table: the order, or the order with another fastening. */
typedef struct rolling {
    int buttoning;
    const card *card;
    drafted d;
    bool good;         /* drafted, all checks passing */
    tailor_fault range; /* why there is no estimate; status TAILOR_OK where there is one, or nothing to roll through */
    bool breaks_above; /* the lapel breaks above the fastened button: it could roll through */
} rolling;

enum { ROLLINGS_MOST = 3 };
typedef struct roll_table {
    const settings *s;
    card card, others[ROLLINGS_MOST - 1]; /* the order, and the order with other fastenings */
    rolling coats[ROLLINGS_MOST];         /* the order first */
    size_t count;
} roll_table;

/** roll_making.c */
void roll_draft(rolling *r, const card *c, int buttoning);
/** FROM_ bits of one input (its place in roll_inputs). */
int roll_from(const rolling *r, int input);
/** The named cloth of a place that the order takes, NULL for none. */
const cloth_row *roll_named(const rolling *r, int place);
/** Why a number does not exist, a sentence; NULL for one that does. */
const char *roll_why_not(const rolling *r, const roll_number *n);
/** "mechanics of thin sheets; assumed: cloth; by name: canvas hair-canvas" */
enum { BASIS_TEXT = 512 };
void roll_basis(const rolling *r, const roll_number *n, char text[BASIS_TEXT]);

/** roll_json.c, roll_picture.c: exit statuses. */
int roll_print_json(const roll_table *t);
int roll_draw(const roll_table *t);
/** What the section rests on, in lines beneath the picture. */
enum { SECTION_LINES = 5, SECTION_LINE = BASIS_TEXT + 96 };

#endif

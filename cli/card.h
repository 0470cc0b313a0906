/* card: a client's card and the house's file, read into rows of fields and constants that remember their lines. */
#ifndef CLI_CARD_H
#define CLI_CARD_H

#include "cloths.h"
#include "ini_guard.h"
#include "sections.h"

#include <stdbool.h>
#include <tailorgeom/order.h>

/** Where a value was typed; source NULL for a value that nobody typed. */
typedef struct card_place {
    const char *source;
    int line;
} card_place;

/** A row of values with the places they were typed at; NaN is "not given". */
typedef struct card_fields {
    double value[TAILOR_FIELD_COUNT];
    card_place place[TAILOR_FIELD_COUNT];
    const cloth_row *cloth[CLOTH_PLACES]; /* named in these places; NULL for none */
    card_place cloth_place[CLOTH_PLACES];
} card_fields;
typedef struct card_constants {
    double value[TAILOR_CONSTANT_COUNT];
    card_place place[TAILOR_CONSTANT_COUNT];
} card_constants;

/** What was altered after one fitting: its changes are those in `changes` that name it, counted from 0. */
enum { FITTING_CHANGES_MOST = 400, DATE_TEXT = 11 };
typedef struct card_fitting {
    char date[DATE_TEXT]; /* 2026-11-25; "" until it has been read */
    int changes_told;     /* how many changes the section says it has, 0 when it does not say */
    bool left_out, left_out_told;
    card_place place;
} card_fitting;
typedef struct card_change {
    int fitting, field;
    double delta;
    card_place place;
} card_change;
typedef struct card_fittings {
    card_fitting list[FITTINGS_MOST];
    int count;
    card_change changes[FITTING_CHANGES_MOST];
    size_t change_count;
} card_fittings;

typedef struct card {
    const char *source; /* the client's card, as messages call it */
    card_fields client, house, assumed;
    card_constants constants, assumed_constants; /* the house's, and those filled in by rule */
    char text[TEXT_COUNT][CARD_LINE_BYTES_MOST + 1];
    int edition; /* that a resolved card states, 0 for none */
    card_fittings fittings; /* those that count are in `client` already, applied in their order */
} card;

/** Read a card, and below it the house's file unless NULL. False when either was refused, and why has been said.
 *  `path` and `house_path` must outlive the card. */
bool card_read(card *c, const char *path, const char *house_path);

/** The same for a card whose bytes are in memory; `source` is what messages call it. Gives no caution. */
bool card_read_text(card *c, const char *source, const char *text, size_t length, const char *house_path);
/** Say so when the card was filled in by another edition of the rules. */
void card_caution(const card *c);
/** The fields that a row's named cloths fill, where they are not given themselves. */
void card_fill_cloths(card_fields *row);

/** Read a house's file alone, NULL for none: house and constants of the card stand, nothing else does. Likewise. */
bool card_read_house(card *c, const char *house_path);

/** The client's row as resolving takes it, and the house: what a resolved card had assumed stands below both, where the
 *  rules would stand. `client` has room for all fields; the house is the caller's to free. */
void card_client(const card *c, double *client);
tailor_status card_house(const card *c, tailor_house **house, tailor_fault *fault);
/** True for a field that nobody gave, whether its value is the library's default or a resolved card's. */
bool card_assumes(const card *c, int field);

/** Where the value at fault was typed: its line, or the card itself with line 0 when it was not typed at all. */
card_place card_fault_place(const card *c, const tailor_fault *fault);

/** "Name, order 12, 3 May, fitting 1", from what [client] holds and the last fitting that is in the order; "" when
 *  there is nothing to say. */
void card_title(const card *c, char *title, size_t capacity);
/** The same without the name. */
void card_order(const card *c, char *order, size_t capacity);

#endif

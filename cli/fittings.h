/* fittings: what was altered after each fitting, as sections of a card.
 *
 *     [fitting 1]
 *     date = 2026-11-25
 *     changes = 2
 *     # let out side seam 6 mm each
 *     side_let_out = +6 mm
 *     # shorten sleeve left 10
 *     arm_length_left = -10 mm
 *
 * A change is a signed amount with its unit, added to the value in use (given, the house's or assumed) when the fitting
 * is applied; fittings are applied in their order. `left_out = yes` leaves one out and keeps it readable. `changes`,
 * which `fit` writes, tells how many there are, so that a section that was torn is noticed. */
#ifndef CLI_FITTINGS_H
#define CLI_FITTINGS_H

#include "card.h"

/** The number of the section "fitting 2", 0 for any other section. */
int fitting_of_section(const char *section);

/** The sections that the guard found. */
void fittings_begin(card *c, const char *source, const ini_fittings *found);
/** A key of fitting `index`, from 0. False when it was refused; said. */
bool fitting_take(card *c, int index, card_place at, const char *key, const char *typed);
/** After the last key: every fitting has what it must have. False when one has not; said. */
bool fittings_whole(const card *c);
/** Alter the client's row by all fittings that are not left out. False when one cannot be applied; said. */
bool fittings_apply(card *c);

/** Alter the client's row by one fitting. On failure the row is left alone; nothing is said. */
tailor_status fitting_alter(card *c, int index, tailor_fault *fault);
/** Where a fault of fitting_alter was typed. */
card_place fitting_fault_place(const card *c, int index, const tailor_fault *fault);

/** Read an amount to add to a field: with a sign, and with a unit if `unit_needed`. False when refused; said. */
bool fitting_read_delta(card_place at, int field, const char *typed, bool unit_needed, double *delta);
/** Find the field that a change names. 0 when there is none; said. */
int fitting_find_field(card_place at, const char *name);
/** True for a day as 2026-11-25. */
bool fitting_is_date(const char *text);

#endif

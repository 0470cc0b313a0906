/* fit_effect: what the changes of a fitting do to the coat, one by one. */
#ifndef CLI_FIT_EFFECT_H
#define CLI_FIT_EFFECT_H

#include "drafted.h"
#include "notes.h"

/** A fitting on trial: `plan` is the card before it, with the changes of fitting `index` noted but not applied. */
typedef struct fit_trial {
    const card *plan;
    const notes *notes;
    int index;
} fit_trial;

/** Apply the fitting and draft the coat. False when it cannot be applied, or makes no coat, or one of its changes
 *  leaves the coat as it is; then why, and what would do, has been said. `after` is the card with the fitting in its
 *  order; `d` is the caller's to free in any case. */
bool fit_try(const fit_trial *t, card *after, drafted *d);

#endif

/* What the code asks of a choice: traits, columns of choices.csv. No code looks at the order of a choice's numbers. */
#ifndef TAILOR_IN_ORDER_TRAITS_H
#define TAILOR_IN_ORDER_TRAITS_H

#include <tailorgeom/order.h>

#include "../base/table.h"

enum {
    /* Of buttonings: rows of buttons above and below the waist button's, and how many of the topmost have no holes. */
    TAILOR_IN_TRAIT_ROWS_ABOVE,
    TAILOR_IN_TRAIT_ROWS_BELOW,
    TAILOR_IN_TRAIT_SHOW_ABOVE,
    TAILOR_IN_TRAIT_BREASTS, /* 1 single-breasted, 2 double-breasted */
    TAILOR_IN_TRAIT_BREAKS,  /* at which button the lapel breaks, a TAILOR_IN_BREAKS_ */
    TAILOR_IN_TRAIT_ROLLS,   /* what makes it roll to the waist button, a TAILOR_IN_ROLLS_ */
    TAILOR_IN_TRAIT_HOW_MANY /* of holes and cuff buttons */
};
enum { TAILOR_IN_BREAKS_TOP = 1, TAILOR_IN_BREAKS_WAIST };
enum { TAILOR_IN_ROLLS_NO = 1, TAILOR_IN_ROLLS_MAKE, TAILOR_IN_ROLLS_CUT };

_Static_assert((int)TAILOR_IN_TRAIT_HOW_MANY < (int)TAILOR_IN_MOST_TRAITS, "a row has room for all traits");

/** A trait of the choice that a field has; 0 when it is none of the choices. */
static inline int tailor_in_trait(int field, double choice, int trait)
{
    const tailor_in_row *of = tailor_in_table_row(tailor_field_table(), field);
    const tailor_in_row *row = tailor_in_table_row(of ? of->choices : NULL, (int)choice);
    return row ? row->traits[trait] : 0;
}

/* The buttoning of an order, from its resolved row. */
static inline int tailor_in_buttoning(const double *f, int trait)
{
    return tailor_in_trait(TAILOR_FIELD_BUTTONING, f[TAILOR_FIELD_BUTTONING], trait);
}
static inline int tailor_in_button_rows(const double *f)
{
    return tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_ABOVE) + 1 + tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_BELOW);
}
static inline int tailor_in_hole_rows(const double *f)
{
    return tailor_in_button_rows(f) - tailor_in_buttoning(f, TAILOR_IN_TRAIT_SHOW_ABOVE);
}

static inline int tailor_in_cuff_buttons(const double *f)
{
    return tailor_in_trait(TAILOR_FIELD_CUFF_BUTTONS, f[TAILOR_FIELD_CUFF_BUTTONS], TAILOR_IN_TRAIT_HOW_MANY);
}

#endif

/* The figure of one side: what the notes on it do to measures and constants. Draft and measuring both begin here. */
#ifndef TAILOR_IN_COAT_FIGURE_H
#define TAILOR_IN_COAT_FIGURE_H

#include <tailorgeom/order_tables.h>
#include <tailorgeom/pattern.h>

#include "../order/traits.h"

typedef struct tailor_in_figure {
    double f[TAILOR_FIELD_COUNT]; /* with the side's own values in place of those of both sides */
    double k[TAILOR_CONSTANT_COUNT];
    double extra_pad; /* what is padded where this shoulder is lower than the other */
    /* Half the width, and the ease in the shoulder, that prominent blades give: the neck is drawn without them. */
    double blades_width, blades_ease;
    double back_pitch_share; /* the constant before the notes */
} tailor_in_figure;

static inline int tailor_in_double_breasted(const double *f)
{
    return tailor_in_buttoning(f, TAILOR_IN_TRAIT_BREASTS) == 2;
}
static inline int tailor_in_shawl(const double *f) { return f[TAILOR_FIELD_LAPEL] == TAILOR_LAPEL_SHAWL; }

/** Coats with a hole above the waist button's, single-breasted: their lapel can roll through to the waist button. */
static inline int tailor_in_rolls(const double *f)
{
    return tailor_in_buttoning(f, TAILOR_IN_TRAIT_ROWS_ABOVE) > tailor_in_buttoning(f, TAILOR_IN_TRAIT_SHOW_ABOVE) &&
           !tailor_in_double_breasted(f);
}

/** Does the lapel break above the topmost hole, so that it has something to roll through? */
static inline int tailor_in_breaks_high(const double *f)
{
    return tailor_in_buttoning(f, TAILOR_IN_TRAIT_BREAKS) == TAILOR_IN_BREAKS_TOP;
}

/** How far the bottom of the scye sinks below the scye line for a low shoulder: with the shoulder end, a little less
 * for a very low one, whose seam swings inward, so that the scye keeps its length (own judgement). */
static inline double tailor_in_scye_sinks(const double *f)
{
    double low = f[TAILOR_FIELD_LOW_SHOULDER];
    return low > 0 ? low - low * low / 190 : low;
}

/** Rows of one side (TAILOR_SIDE_RIGHT or TAILOR_SIDE_LEFT) from accepted rows. */
void tailor_in_figure_of(const double *f, const double *k, int side, tailor_in_figure *figure);
/** Is the figure, or what was ordered, different on its two sides? */
int tailor_in_figure_differs(const double *f);

#endif

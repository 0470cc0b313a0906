/* What the linings of body and sleeves share: paths drawn longer, cut to a length, and their heights above the cloth's
 * edges. */
#ifndef TAILOR_IN_COAT_LINING_H
#define TAILOR_IN_COAT_LINING_H

#include "draft.h"

/** A length, or none where it is too short for a line of its own. */
static inline double tailor_in_drawn(double length) { return length > 0.02 ? length : 0; }
/** How far the net edge of the lining lies above the cloth's, mm along the seams. `turn_up` is the constant of hem or
 * cuff. The lining is felled to the turn-up so high that its fold of ease hangs some 17 above the edge.
 */
double tailor_in_lining_above(const tailor_in_draft *d, int turn_up);
/** How far the lining goes beyond the scye under the arm: lining_scye_more, or less on a shallow scye. */
double tailor_in_lining_raise(const tailor_in_draft *d);
/** A downward path whose x is a function of y, stretched by `more` between two levels, the rest below pushed down. */
tailor_in_path tailor_in_stretched(const tailor_in_path *path, double from, double to, double more);
/** The path with a straight piece of a length before its start. */
tailor_in_path tailor_in_led_in(const tailor_in_path *path, double length);
/** The path cut to a length, or run on straight to it. */
tailor_in_path tailor_in_cut_to(const tailor_in_path *path, double length);
/** Move both ends, each with its handle: the directions stay. */
tailor_cubic tailor_in_shifted(tailor_cubic c, tailor_point start, tailor_point end);

/** Length of the scye of the back's lining. */
double tailor_in_lining_scye_back(const tailor_in_draft *d);

/** Notches above and below the elbow: on the undersleeve 50 mm from it, on the topsleeve as far from the nearer end as
 * there. What is stretched or eased lies between them. Places are counted downwards. */
struct tailor_in_elbow {
    double under_upper, under_lower, top_upper, top_lower;
};
/** `more`: how much lower the undersleeve's lower notch is, on a lining. */
struct tailor_in_elbow tailor_in_elbow_notches(const tailor_in_draft *d, const tailor_in_path *under,
                                               const tailor_in_path *top, double more);

#endif

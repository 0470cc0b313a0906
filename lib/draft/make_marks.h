/* What the cloth pieces have beyond their net edges for the make: turned-up hems and cuffs, vents. Closed paths that
 * begin and end on the net edge, added as marks to the piece in work; seams run downwards. */
#ifndef TAILOR_IN_COAT_MAKE_MARKS_H
#define TAILOR_IN_COAT_MAKE_MARKS_H

#include "../pattern/build.h"
#include "draft.h"

/** Turned-up hem of a piece between two seams, from the centre back forward. */
void tailor_in_add_hem_turn_up(tailor_pattern *p, const tailor_in_draft *d, const tailor_in_path *behind,
                               const tailor_cubic *hem, const tailor_in_path *before);
/** Turned-up hem of the forepart: from the front seam to a little under the facing, which finishes the rest. */
void tailor_in_add_forepart_turn_up(tailor_pattern *p, const tailor_in_draft *d);
/** Turned-up cuff between the two seams of a sleeve as it lies in its piece. */
void tailor_in_add_cuff_turn_up(tailor_pattern *p, const tailor_in_draft *d, const tailor_in_path *left,
                                const tailor_in_path *right);

/** Vents on the back: at the centre, or at the back seam. */
void tailor_in_add_back_vent(tailor_pattern *p, const tailor_in_draft *d);
/** Side vent on the sidebody. */
void tailor_in_add_sidebody_vent(tailor_pattern *p, const tailor_in_draft *d);
/** Sleeve vent on a hindarm seam as it lies in its piece; `side` is -1 where the seam is the left edge, +1 right. */
void tailor_in_add_sleeve_vent(tailor_pattern *p, const tailor_in_draft *d, const tailor_in_path *hindarm, double side);

/** Flap or patch as it lies on the coat, a mark on the forepart; over the front seam it runs on as if that were sewn.
 */
void tailor_in_add_pocket_mark(tailor_pattern *p, const tailor_in_draft *d);

#endif

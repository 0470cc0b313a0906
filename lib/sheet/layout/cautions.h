/* What a cutter should know of the page's coat before he cuts, a line for each caution of class caution. */
#ifndef TAILOR_IN_SHEET_CAUTIONS_H
#define TAILOR_IN_SHEET_CAUTIONS_H

#include "drawing.h"

/** The sentence after this one, the first after NULL; NULL when there is none. */
const char *tailor_in_caution_next(const struct tailor_in_drawing *d, const char *sentence);

/** Height of all of them in letters of a size, below each other; 0 when there are none. */
double tailor_in_cautions_height(const struct tailor_in_drawing *d, double size);

/** Draw them as a group on the page, each cut where it would be wider than `width`; `corner` is their top left. */
void tailor_in_draw_cautions(struct tailor_in_drawing *d, tailor_point corner, double size, double width);

#endif

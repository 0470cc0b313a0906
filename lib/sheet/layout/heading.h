/* The heading of a pattern sheet: title, what the sheet is and is not, the legend of lines, the test square; below
 * them the cautions. */
#ifndef TAILOR_IN_SHEET_HEADING_H
#define TAILOR_IN_SHEET_HEADING_H

#include "drawing.h"

/** What heads a pattern without client and title. */
#define TAILOR_IN_PATTERN_TITLE "Coat pattern"

/** The width that the heading needs at least, and its height, mm. */
#define TAILOR_IN_HEADING_WIDTH 1000.0
double tailor_in_heading_height(const struct tailor_in_drawing *d);

/** Draw it in the page's own axes with its top left corner there. */
void tailor_in_draw_heading(struct tailor_in_drawing *d, tailor_point corner, double width, int print);

#endif

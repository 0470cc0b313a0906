/* The heading of a pattern sheet: title, what the sheet is and is not, the legend of lines, the test square. */
#ifndef TAILOR_IN_SHEET_HEADING_H
#define TAILOR_IN_SHEET_HEADING_H

#include "drawing.h"

/** What heads a pattern without client and title. */
#define TAILOR_IN_PATTERN_TITLE "Coat pattern"

/** Height of the heading, and the width it needs at least, mm. */
#define TAILOR_IN_HEADING_HEIGHT 112.0
#define TAILOR_IN_HEADING_WIDTH 1000.0

/** Draw it in the page's own axes with its top left corner there. */
void tailor_in_draw_heading(struct tailor_in_drawing *d, tailor_point corner, double width, int print);

#endif

/* The pieces of the canvas, a function each. */
#ifndef TAILOR_IN_COAT_CANVAS_H
#define TAILOR_IN_COAT_CANVAS_H

#include "assemble.h"

void tailor_in_add_body_canvas(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_chest_pieces(tailor_pattern *p, const tailor_in_draft *d); /* chest piece, shoulder piece */

/** The edge of the body canvas inside the forepart, dart closed: from the front seam forward and down to the net hem.
 */
tailor_in_path tailor_in_canvas_line(const tailor_in_draft *d);

#endif

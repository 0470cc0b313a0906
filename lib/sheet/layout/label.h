/* Labels on pieces: each looks for free ground, so that nothing overlaps. */
#ifndef TAILOR_IN_SHEET_LABEL_H
#define TAILOR_IN_SHEET_LABEL_H

#include "drawing.h"
#include "ground.h"

/** Which sides of a path a label may stand on, seen along its direction. */
enum { TAILOR_IN_LEFT = 1, TAILOR_IN_RIGHT = 2 };

/** Write a text along a path, inside the piece and close to
 *  the share `prefer` (0 to 1) of the path's length; smaller when it must, and when `sides` is one side only, outside
 *  the piece on the other. 0 when there is no room. */
int tailor_in_label_along(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_cubic *path,
                          size_t count, const char *text, double size, double prefer, int sides);
/** Write a level text as near as possible to a point, `reach` away at most: inside the piece, smaller when it must, or
 *  else outside. 0 when there is no room. */
int tailor_in_label_near(struct tailor_in_drawing *d, struct tailor_in_ground *g, tailor_point at, const char *text,
                         double size, double reach);
/** Write the piece's own label where there is most room within low and high (on the page), level if that can be. */
void tailor_in_label_piece(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                           int piece, tailor_point low, tailor_point high);

#endif

/* One piece of a pattern sheet: its outline, its marks and all its labels. It is composed by itself, somewhere on the
 * page, and moved to its place when the room that it needs is known. */
#ifndef TAILOR_IN_SHEET_PIECE_H
#define TAILOR_IN_SHEET_PIECE_H

#include "drawing.h"

/** What was drawn, where the origin of the piece's axes stood on the page, and the room that it all needs in these
 * axes, turned so that the grain is upright (left, low, right, high). Labels may stand a little out of the room: what
 * is kept free between two rooms is enough for both. */
struct tailor_in_drawn_piece {
    struct tailor_in_moment begin, end;
    tailor_point origin;
    double room[4];
};

/** print: a TAILOR_PRINT_, for the lengths of its edges. */
struct tailor_in_drawn_piece tailor_in_draw_piece(struct tailor_in_drawing *d, const tailor_pattern *pattern, int piece,
                                                  int print);

#endif

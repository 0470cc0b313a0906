/* The nest sheet: all sizes of each piece on one another, with a table of how far each named point goes. */
#ifndef TAILOR_IN_SHEET_NEST_H
#define TAILOR_IN_SHEET_NEST_H

#include "drawing.h"

enum { TAILOR_IN_NEST_NAME = 72, TAILOR_IN_NEST_SIZES = 32 };

/** What is drawn: a pattern a size. */
struct tailor_in_nest {
    const tailor_pattern *const *patterns;
    const char *const *labels;
    size_t count, base;
    const char *align; /* NULL where each piece has its own */
};

/** A piece of the base: the index there, the point that all sizes lie on each other at, and its room: `box` of what is
 *  drawn with that point as origin, `x` and `y` of the origin on the page, the cell's width and height. */
struct tailor_in_nest_piece {
    int piece;
    const char *name;
    char align[TAILOR_IN_NEST_NAME];
    double box[4], x, y, left, top, width, height;
};

/** Where a named point, or "shoulder.start" or "shoulder.end" of an edge, lies on a piece. 0 when it has none. */
int tailor_in_nest_place(const tailor_pattern *pattern, int piece, const char *name, tailor_point *place);
/** The piece of that name in a size, and where its origin has to be moved to; -1 when it has no such piece or point. */
int tailor_in_nest_find(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p, size_t size,
                        tailor_point *origin);
/** Label of a size, never NULL. */
const char *tailor_in_nest_label(const struct tailor_in_nest *n, size_t size);

/** Room that the table of a piece needs. */
void tailor_in_nest_table_room(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p, double *width,
                               double *height);
/** Draw it with its top left corner there, on the page. */
void tailor_in_nest_table(struct tailor_in_drawing *d, const struct tailor_in_nest *n,
                          const struct tailor_in_nest_piece *p, tailor_point corner);

void tailor_in_compose_nest(struct tailor_in_drawing *d, const struct tailor_in_nest *n);

#endif

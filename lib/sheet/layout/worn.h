/* One front as worn: the forepart with its lapel and collar turned over the break line. All in the forepart's own axes.
 */
#ifndef TAILOR_IN_SHEET_WORN_H
#define TAILOR_IN_SHEET_WORN_H

#include "drawing.h"

/** What is read off a forepart once. `silhouette` is the closed edge of what is not turned; its cubics, and those of
 *  the lapel and the collar that lie on the break line itself, are the fold and no edge. */
struct tailor_in_front {
    const tailor_pattern *pattern;
    int piece;
    tailor_point stand_point, break_point, scye_front;
    tailor_point crossing; /* of gorge and break line */
    double centre_front, top_button_level;
    double bounds[4]; /* of all that is drawn of it */
    tailor_cubic *silhouette;
    size_t silhouette_count;
};

/** 1 when the pattern has a forepart with the points and edges that this needs. */
int tailor_in_front_can_be_read(const tailor_pattern *pattern);
/** Read it; the silhouette is allocated. 0 when there is no memory. */
int tailor_in_front_begin(struct tailor_in_front *front, const tailor_pattern *pattern,
                          const tailor_allocator *allocator);
void tailor_in_front_end(struct tailor_in_front *front, const tailor_allocator *allocator);

/** Coverage of the chest at a level, NaN where there is none. */
double tailor_in_front_coverage(const struct tailor_in_front *front, double level);

/** Draw one half in the drawing's place; `upper` for the half that lies on top and has the welt. */
void tailor_in_draw_front(struct tailor_in_drawing *d, const struct tailor_in_front *front, int upper);
/** Draw the holes of the upper half, those beyond the fold as they lie on the lapel. */
void tailor_in_draw_holes(struct tailor_in_drawing *d, const struct tailor_in_front *front);
/** Draw the buttons that are seen: its own and, on the upper half of a double-breasted coat, those that come through
 * its holes. */
void tailor_in_draw_buttons(struct tailor_in_drawing *d, const struct tailor_in_front *front, int upper);

#endif

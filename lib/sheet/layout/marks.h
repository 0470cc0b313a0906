/* Marks on a piece: the lines, and their names. */
#ifndef TAILOR_IN_SHEET_MARKS_H
#define TAILOR_IN_SHEET_MARKS_H

#include "label.h"

/** How a mark is drawn, by its kind and name. NULL for one that a pattern sheet leaves out. */
struct tailor_in_mark_look {
    int style, named;    /* named: 0 not, 1 along it, 2 beside it */
    double size, prefer; /* of the lettering, and where along the mark */
    double margin;       /* ground that the mark keeps to itself, mm */
};
const struct tailor_in_mark_look *tailor_in_look_of_mark(const tailor_pattern *pattern, int piece, int mark);

void tailor_in_draw_marks(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                          int piece);
void tailor_in_name_marks(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_pattern *pattern,
                          int piece);

#endif

/* Lines of a ticket: how one is set in a column, and how high that makes it. Everything can also be measured only,
 * without a drawing. */
#ifndef TAILOR_IN_SHEET_LINES_H
#define TAILOR_IN_SHEET_LINES_H

#include "drawing.h"

enum { TAILOR_IN_LINE_BYTES = 512, TAILOR_IN_LINES_MOST = 400, TAILOR_IN_RANKS = 8 };

/** What a line is set in: size of its letters, width of the column, and the widest label of its section as
 *  tailor_in_line_label_width() gives it. */
struct tailor_in_column {
    double size, width, labels;
};

/** Whether a line is one that can be set. */
int tailor_in_line_is_known(const tailor_line *line);
/** What a line without two parts says: its label, or its value if it has none. */
const char *tailor_in_line_text(const tailor_line *line);
/** Width of its label where its value stands beside it, for letters of size 1; 0 where it has no such label. */
double tailor_in_line_label_width(const tailor_line *line);
/** What is free above it unless it stands at the top of a column, as a share of the letters' size. */
double tailor_in_line_above(const tailor_line *line);

/** Set a text in lines from a place (on the page) down, or only count them where `d` is NULL. Returns how many there
 *  are, at most TAILOR_IN_LINES_MOST; the width of the last in `last` (NULL allowed). */
int tailor_in_set_text(struct tailor_in_drawing *d, const char *text, double size, int bold, double width,
                       tailor_point at, double *last);
/** Set a line, or only measure it where `d` is NULL. Returns its height without what is free above it. */
double tailor_in_set_line(struct tailor_in_drawing *d, const tailor_line *line, const struct tailor_in_column *column,
                          tailor_point at);

#endif

/* comparison: one order drafted several times with some of its values exchanged, and the ways to show it. */
#ifndef CLI_COMPARISON_H
#define CLI_COMPARISON_H

#include "by.h"
#include "drafted.h"

typedef struct comparison {
    const settings *s;
    const by_plan *plan;
    const card *card;
    drafted *rows;
    size_t drafted; /* rows that were drafted, all checks passing */
} comparison;

/** True for a row that was drafted, all checks passing. */
bool good_row(const comparison *c, size_t row);
/** The first of them; there must be one. */
const drafted *first_good(const comparison *c);

/* Each says itself what goes wrong, and returns an exit status. The first and third need a good row. */

/** compare_table.c: what differs, and below it what is the same in all. */
int comparison_print(const comparison *c);
/** compare.c: all rows as JSON. */
int comparison_print_json(const comparison *c);
/** compare_picture.c: the fronts side by side. */
int comparison_draw(const comparison *c);

/** The format of a picture by the ending of its name, 0 for none. */
int picture_format(const char *path);

#endif

/* canvas: the strips of one coat's canvas, for the table, the sheet and JSON. */
#ifndef CLI_CANVAS_H
#define CLI_CANVAS_H

#include "commands.h"
#include "drafted.h"

#include <tailorgeom/canvas.h>

enum { STRIP_MOST = 2 };

typedef struct strips {
    const settings *s;
    drafted order;
    tailor_canvas *strip[STRIP_MOST];
    size_t count;
    int64_t iterations, wanted; /* of the search: made, asked for */
} strips;

/** Search on until the iterations asked for are made, or until Ctrl-C; progress on a terminal. False when a lay failed
 *  its proof, which is said. */
bool strips_search(strips *all);

/** Print on standard output; an exit status. */
int strips_print(const strips *all, const char *title);
int strips_print_json(const strips *all);

#endif

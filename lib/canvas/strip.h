/* What the files of canvas share. */
#ifndef TAILOR_IN_CANVAS_STRIP_H
#define TAILOR_IN_CANVAS_STRIP_H

#include <tailorgeom/canvas.h>

/** One shape of a lay: a piece, its mirror image, or a part of either. */
typedef struct tailor_in_canvas_shape {
    int piece, side, part;
    int reflected;     /* the outline is the drawing's mirror image in the y axis */
    double warp;       /* direction of the warp in the outline's own drawing, deg */
    const tailor_cubic *outline;
    size_t count;
    int copies, mirrored; /* as tailor_lay_add() takes them */
} tailor_in_canvas_shape;

typedef struct tailor_in_canvas_lay {
    tailor_lay *lay; /* NULL: a piece does not fit */
    tailor_in_canvas_shape *shapes;
    int shape_count, joins;
} tailor_in_canvas_lay;

struct tailor_canvas {
    tailor_allocator allocator;
    const tailor_pattern *pattern;
    const char *cloth; /* the pattern's own string */
    double choices[TAILOR_CANVAS_CHOICE_COUNT];
    int one; /* the lay is the straight one, too */
    tailor_in_canvas_lay lays[2];
    tailor_cubic *cubics; /* all outlines */
    size_t cubic_count;
};

/** Is a piece cut from that cloth? */
int tailor_in_canvas_is_cut(const tailor_pattern *pattern, int piece, const char *cloth);
/** Does each place cut a pair? */
int tailor_in_canvas_doubled(const tailor_canvas *c);

/** How many cubics a part may have more than its piece. */
enum { TAILOR_IN_PART_MORE = 4 };

/** Part a closed outline in two along a direction (deg), so that both parts lap over by `overlap` and neither is wider
 *  than `width` across it. `parts` have room for count + TAILOR_IN_PART_MORE each. 0 when no line does it. */
int tailor_in_canvas_part(const tailor_cubic *outline, size_t count, double direction, double width, double overlap,
                          tailor_cubic *parts[2], size_t counts[2]);

/** How wide an outline is across a direction. */
double tailor_in_canvas_across(const tailor_cubic *outline, size_t count, double direction);

#endif

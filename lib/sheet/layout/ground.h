/* The ground of a sheet: small square cells, each free or taken, in which labels look for room. A cell is free when
 * nothing is drawn there; it lies inside a piece or outside all of them. All places are on the page (mm, y down); paths
 * are taken there through `place`, as in tailor_path_affine().
 *
 * A row of cells is a row of bits, so that a stretch of it is looked at in one or two words, and all places of a level
 * box at once. ground.c draws into the cells, room.c searches them. */
#ifndef TAILOR_IN_SHEET_GROUND_H
#define TAILOR_IN_SHEET_GROUND_H

#include <stdint.h>
#include <tailorgeom/sheet.h>

struct tailor_in_ground {
    double cell, per_mm;                 /* side of a cell, and cells a mm */
    int columns, rows, words;            /* words of 64 cells a row; the cells past the last column are taken */
    double low_x, low_y, high_x, high_y; /* around all boxes taken; the lows infinite when there is none */
    uint64_t *taken, *inside, *fits;     /* rows x words each; `fits` serves a search */
};

/** Where a box is to lie: inside a piece, or outside all of them. */
enum { TAILOR_IN_INSIDE = 0, TAILOR_IN_OUTSIDE = 1 };

/** A box on the page: its middle, its sides, and its angle in degrees, clockwise as seen. */
struct tailor_in_box {
    tailor_point middle;
    double width, height, angle;
};

/** Everything free and outside. 0 when there is no memory. */
int tailor_in_ground_begin(struct tailor_in_ground *g, const tailor_allocator *allocator, double width, double height);
void tailor_in_ground_end(struct tailor_in_ground *g, const tailor_allocator *allocator);

/** A closed path: what lies within is inside, and a narrow strip along it is taken. */
void tailor_in_ground_inside(struct tailor_in_ground *g, const double place[6], const tailor_cubic *path, size_t count);
/** Take the cells within about `margin` of a path. */
void tailor_in_ground_take(struct tailor_in_ground *g, const double place[6], const tailor_cubic *path, size_t count,
                           double margin);

/** Whether every cell that a box touches is free and on that side. */
int tailor_in_ground_free_box(const struct tailor_in_ground *g, struct tailor_in_box box, int where);
void tailor_in_ground_take_box(struct tailor_in_ground *g, struct tailor_in_box box);

/** Move a level box to the free place on that side where it comes nearest to its present middle, within `reach` of it.
 *  0 when there is none. */
int tailor_in_ground_near(struct tailor_in_ground *g, struct tailor_in_box *box, double reach, int where);
/** Move a box that is level or upright (angle 0 or -90) to the roomiest free place inside a piece and within
 *  [low, high], among equals the one nearest to where it is. 0 when there is none. */
int tailor_in_ground_roomiest(struct tailor_in_ground *g, struct tailor_in_box *box, tailor_point low,
                              tailor_point high);
/** Turn a box to one of a few angles and move it to the free place inside a piece and within [low, high] that is
 *  nearest to where it is. 0 when there is none. */
int tailor_in_ground_slanting(struct tailor_in_ground *g, struct tailor_in_box *box, tailor_point low,
                              tailor_point high);

#endif

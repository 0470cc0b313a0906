/* Where the pieces lie on a sheet: those of one cloth together, on shelves, apart from each other. */
#ifndef TAILOR_IN_SHEET_SHELVES_H
#define TAILOR_IN_SHEET_SHELVES_H

#include <tailorgeom/sheet.h>

/** How a piece lies: the room it needs in its own axes, turned so that its grain is upright (left, low, right, high);
 *  and where the origin of these axes stands, x to the right of and y below the top left corner of the shelves. */
struct tailor_in_shelf_place {
    int group;
    double room[4], x, y;
};

/** The pieces of one cloth: how many there are, how many are cut from them, and the box that holds them and, above
 * them, a heading. */
struct tailor_in_shelf_group {
    const char *name;
    int patterns, cut;
    double x, y, width, height;
};

/** What is packed: width and height in, top left corner out. The rest serves the packing. */
struct tailor_in_crate {
    double width, height, x, y, filled, limit;
    int what, laid, heads;
};

/** Height of a group's heading, with what is kept free beneath it, and the least width of a group. */
#define TAILOR_IN_GROUP_HEADING 44.0
#define TAILOR_IN_GROUP_WIDTH 110.0

/** Sort the pieces by what they are cut from: cloth, lining, canvas, then the others in order of first appearance.
 *  `places` and `groups` have an entry a piece. Returns how many groups there are. */
int tailor_in_shelf_groups(const tailor_pattern *pattern, struct tailor_in_shelf_place *places,
                           struct tailor_in_shelf_group *groups);
/** Arrange the groups and, in each, its pieces, whose rooms are known. The body's pieces of the cloth stand side by
 * side at their common levels, as a coat is drafted; the others follow, the tallest first, in columns, as far as they
 * are no higher, and on further shelves below. `crates` has an entry a piece. */
void tailor_in_shelves(const tailor_pattern *pattern, struct tailor_in_shelf_place *places,
                       struct tailor_in_shelf_group *groups, int count, struct tailor_in_crate *crates, double *width,
                       double *height);

#endif

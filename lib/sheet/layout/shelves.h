/* Where the pieces lie on a sheet: on shelves, apart from each other, with their grain as drafted. */
#ifndef TAILOR_IN_SHEET_SHELVES_H
#define TAILOR_IN_SHEET_SHELVES_H

#include <tailorgeom/sheet.h>

/** How a piece lies: turned by `angle` (degrees, counter-clockwise) so that its grain is upright; then its bounds,
 *  marks included; and where the origin of its axes stands, x to the right of and y below the top left corner of the
 *  shelves. */
struct tailor_in_shelf_place {
    double angle, bounds[4], x, y;
};

/** Arrange all pieces: `places` has one entry a piece. The body's pieces stand side by side at their common levels, as
 *  a coat is drafted; the others follow in columns, as far as they are no higher, and on further shelves below. */
void tailor_in_shelves(const tailor_pattern *pattern, struct tailor_in_shelf_place *places, double *width,
                       double *height);

#endif

/* The fields of the holes' faces, from the top hole down. */
#ifndef TAILOR_IN_ORDER_HOLE_FACES_H
#define TAILOR_IN_ORDER_HOLE_FACES_H

#include <tailorgeom/order_tables.h>

enum { TAILOR_IN_MOST_HOLES = 6 };

static const int tailor_in_hole_faces[TAILOR_IN_MOST_HOLES] = {
    TAILOR_FIELD_HOLE_FACE_1, TAILOR_FIELD_HOLE_FACE_2, TAILOR_FIELD_HOLE_FACE_3,
    TAILOR_FIELD_HOLE_FACE_4, TAILOR_FIELD_HOLE_FACE_5, TAILOR_FIELD_HOLE_FACE_6,
};

#endif

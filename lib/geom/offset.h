/* Offsetting, in three steps: the parallel of each cubic (offset_fit.c), what goes between them at the corners
 * (offset_corner.c), and cutting away what lies too near (offset_trim.c). */
#ifndef TAILOR_IN_GEOM_OFFSET_H
#define TAILOR_IN_GEOM_OFFSET_H

#include "meet.h"

enum { TAILOR_IN_MOST_SIDES = 256, TAILOR_IN_MOST_PIECES = 512 };

/** One cubic of the path, and what is to be known of it. */
typedef struct tailor_in_side {
    const tailor_cubic *c;
    double d; /* distance to the right */
    tailor_in_box box;
    tailor_point in, out; /* directions at its ends */
    bool plain;           /* turns less than 180 degrees, and its parallel turns back nowhere */
    int made;             /* how the corner at its end was made: TAILOR_CORNER_BEVEL, _MITRE or 0 for any other */
    tailor_point tip;     /* of its mitre */
    double reach2;        /* squared: how far it goes from the joint */
} tailor_in_side;

/** One cubic of the raw offset. */
typedef struct tailor_in_piece {
    tailor_cubic c;
    int side;  /* the side it is parallel to, or the side before a corner */
    int other; /* the side after a corner; -1 for a parallel */
} tailor_in_piece;

/** Everything a call works with: some 100 KB on the stack. */
typedef struct tailor_in_offset {
    tailor_in_side side[TAILOR_IN_MOST_SIDES];
    int side_count;
    tailor_in_piece piece[TAILOR_IN_MOST_PIECES];
    int piece_count;
    bool closed, full; /* full: there were more pieces than room */
    double tolerance;  /* for the fit */
    int corner;
    double mitre_limit;
    const tailor_cubic *path;
    size_t count;
    double least; /* of the distances, without sign */
    int winding;  /* of the path about its inside; 0 for an open path */
} tailor_in_offset;

/** Add a cubic to the raw offset. */
void tailor_in_offset_add(tailor_in_offset *w, tailor_cubic c, int side, int other);
/** Is the side's parallel plain? See tailor_in_side. */
bool tailor_in_offset_plain(const tailor_cubic *c, double d);
/** Add the parallel of a side. */
void tailor_in_offset_parallel(tailor_in_offset *w, int side);
/** Add what joins the parallel of one side to that of the next. */
void tailor_in_offset_corner(tailor_in_offset *w, int side, int next);
/** Add an arc about a centre from one radius to another, counter-clockwise or clockwise. */
void tailor_in_offset_arc(tailor_in_offset *w, tailor_point centre, tailor_point from, tailor_point to, bool left,
                          int side, int other);
/** Cut away what is too near, and write what is left. */
tailor_status tailor_in_offset_trim(tailor_in_offset *w, tailor_cubic *offset, size_t capacity, size_t *needed);

#endif

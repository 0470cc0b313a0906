/* The state of the search, and what its two files call of each other. */
#ifndef TAILOR_IN_LAY_SEARCH_H
#define TAILOR_IN_LAY_SEARCH_H

#include "strip.h"

/** A table of forbidden moves as it stands to one kind, turned or not, for another, turned or not. */
typedef struct tailor_in_facing {
    tailor_in_box4 box; /* of the moves, in the strip's directions */
    double sign;
    const tailor_in_forbidden *moves;
} tailor_in_facing;

typedef struct tailor_in_search {
    uint64_t random;
    double longest; /* piece: no strip is shorter */
    double length;  /* of the strip now */
    double shrink;  /* share by which it is made shorter next */
    double total;   /* overlap of all pairs */
    double kept_total;
    int without_gain, strikes;
    tailor_in_lie *lies, *kept;
    double *weights, *depths; /* [place][place] */
    int *order, *around; /* around: places near to one that is moved */
    int around_count;
    tailor_in_facing *facings; /* [2 kind + turned][2 kind + turned] */
    double *size; /* of a place's kind: the smaller side of its box */
} tailor_in_search;

/** Numbers drawn at random, from the search's own state: in 0 .. 1, and whole in 0 .. n - 1. */
double tailor_in_lay_draw(tailor_in_search *s);
int tailor_in_lay_draw_below(tailor_in_search *s, int n);

/** Fill the table of facings. */
void tailor_in_lay_face(tailor_lay *lay);
/** The nearest whole place within the strip. */
void tailor_in_lay_settle(const tailor_lay *lay, int place, tailor_in_lie *lie);
/** Overlap of two places; whether a place overlaps any. */
double tailor_in_lay_overlap(const tailor_lay *lay, int a, int b);
bool tailor_in_lay_overlaps(const tailor_lay *lay, int place);
/** Move a piece to where its weighted overlaps are least, as far as a few trials tell. */
void tailor_in_lay_move(tailor_lay *lay, int place);

#endif

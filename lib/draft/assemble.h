/* From the draft to the pattern: outlines, points and marks, a file a piece; sides.c pairs the pieces of both sides. */
#ifndef TAILOR_IN_COAT_ASSEMBLE_H
#define TAILOR_IN_COAT_ASSEMBLE_H

#include "../pattern/build.h"
#include "draft.h"

/** What is laid into the pattern: the draft alone, or with it all that the make needs. */
enum { TAILOR_IN_NET, TAILOR_IN_WHOLE };

/** Bytes of the block that any such coat fits into. */
size_t tailor_in_draft_bytes(int extent);
/** The draft from accepted rows (tailor_in_order_accept) into a block of that size: the body that the scalar and the
 * rows calls share. The block stays the caller's when it fails. */
tailor_status tailor_in_draft_coat(const double *f, const double *k, int extent, void *block, tailor_allocator memory,
                                   tailor_pattern **pattern, tailor_fault *fault);
/** Lay the coat into a block of that size; NULL if it has no room. `left` is NULL where both sides are alike. */
tailor_pattern *tailor_in_draft_assemble(const tailor_in_draft *right, const tailor_in_draft *left, int extent,
                                        void *block, tailor_allocator allocator);

/* The draft: each file adds the pieces it is named after, as of the right side. */
void tailor_in_add_back(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_sidebody(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_forepart(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_sleeves(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_under_collar(tailor_pattern *p, const tailor_in_draft *d);

/* What the make needs besides. It follows from a finished draft and never refuses: whatever can be drafted can be
 * made. */
void tailor_in_add_facing(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_top_collar(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_canvas(tailor_pattern *p, const tailor_in_draft *d); /* body, chest, shoulder, collar */
void tailor_in_add_stays(tailor_pattern *p, const tailor_in_draft *d);  /* bridle, edge tape */
void tailor_in_add_body_lining(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_sleeve_lining(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_pocket_pieces(tailor_pattern *p, const tailor_in_draft *d); /* welt, flap, jettings, patch, bags */

/** Sewing the pieces of one side together. */
typedef struct tailor_in_sewing {
    tailor_pattern *pattern;
    const tailor_in_draft *draft; /* of that side */
    int side;                     /* TAILOR_SIDE_RIGHT or TAILOR_SIDE_LEFT */
    int paired;                   /* the coat has pieces of both sides */
} tailor_in_sewing;

/** A stretch of a seam: piece and edge by their table numbers, and bounds in mm along the edge in outline direction of
 *  the piece as of the right side; less than 0 stands for the edge's whole length. */
typedef struct tailor_in_sewn {
    int piece, edge;
    double from, to;
} tailor_in_sewn;

/** Sew two edges: the first is `ease` longer. A seam of pieces that all serve both sides is put in once; where a piece
 * is of one side alone, the seam's name says which. */
void tailor_in_sew(const tailor_in_sewing *s, const char *name, double ease, tailor_in_sewn a, tailor_in_sewn b);
/** The same with several stretches a side, in the order of sewing: `count[0]` of the first side, then `count[1]` of the
 *  second. */
void tailor_in_sew_sides(const tailor_in_sewing *s, const char *name, double ease, const tailor_in_sewn *sewn,
                         const int count[2]);

void tailor_in_sew_body(const tailor_in_sewing *s);
void tailor_in_sew_facing(const tailor_in_sewing *s);
void tailor_in_sew_top_collar(const tailor_in_sewing *s);
void tailor_in_sew_body_lining(const tailor_in_sewing *s);
void tailor_in_sew_sleeve_lining(const tailor_in_sewing *s);

#endif

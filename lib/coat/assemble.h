/* From the draft to the pattern: outlines, points, marks and seams, a file a piece. */
#ifndef TAILOR_IN_COAT_ASSEMBLE_H
#define TAILOR_IN_COAT_ASSEMBLE_H

#include "../pattern/build.h"
#include "draft.h"

size_t tailor_in_coat_bytes(void);
/** Lay the coat into a block of that size; NULL if it has no room. */
tailor_pattern *tailor_in_coat_assemble(const tailor_in_draft *d, void *block, tailor_allocator allocator);

void tailor_in_add_back(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_sidebody(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_forepart(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_sleeves(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_under_collar(tailor_pattern *p, const tailor_in_draft *d);

/* Helpers of the piece files. */
void tailor_in_add_path(tailor_pattern *p, int edge, const tailor_in_path *path);
void tailor_in_add_backwards(tailor_pattern *p, int edge, const tailor_in_path *path);
void tailor_in_add_line(tailor_pattern *p, int mark, int kind, tailor_point a, tailor_point b);
/** A level line between two downward edges. */
void tailor_in_add_level(tailor_pattern *p, int mark, double level, const tailor_in_path *from, const tailor_in_path *to);
/** A notch square to an edge of the piece in work, at a place of the edge in outline direction. */
void tailor_in_add_notch(tailor_pattern *p, const tailor_in_draft *d, int mark, int edge, double place);
void tailor_in_add_circle(tailor_pattern *p, int mark, int kind, tailor_point centre, double radius);

#endif

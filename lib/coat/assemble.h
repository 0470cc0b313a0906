/* From the draft to the pattern: outlines, points and marks, a file a piece; seams in assemble.c. */
#ifndef TAILOR_IN_COAT_ASSEMBLE_H
#define TAILOR_IN_COAT_ASSEMBLE_H

#include "../pattern/build.h"
#include "draft.h"

/** Bytes of the block that any coat fits into. */
size_t tailor_in_coat_bytes(void);
/** The draft from accepted rows (tailor_in_order_accept) into a block of that size: the body that the scalar and the
 * rows calls share. The block stays the caller's when it fails. */
tailor_status tailor_in_coat_draft(const double *f, const double *k, void *block, tailor_allocator memory,
                                   tailor_pattern **pattern, tailor_fault *fault);
/** Lay the coat into a block of that size; NULL if it has no room. */
tailor_pattern *tailor_in_coat_assemble(const tailor_in_draft *d, void *block, tailor_allocator allocator);

void tailor_in_add_back(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_sidebody(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_forepart(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_sleeves(tailor_pattern *p, const tailor_in_draft *d);
void tailor_in_add_under_collar(tailor_pattern *p, const tailor_in_draft *d);

#endif

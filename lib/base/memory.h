/* Where memory comes from, for all floors. */
#ifndef TAILOR_IN_MEMORY_H
#define TAILOR_IN_MEMORY_H

#include <tailorgeom/base.h>

/* What the caller gave, or malloc and free where it gave none. */
tailor_allocator tailor_in_allocator(const tailor_allocator *given);

/* For what lies within another object's block: gives nothing and releases nothing. */
tailor_allocator tailor_in_no_allocator(void);

#endif

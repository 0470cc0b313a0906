/* A pattern that lives by itself, for tests that free it: the copy of a coat's, which dies with the coat. */
#ifndef TESTS_SUPPORT_OWN_PATTERN_H
#define TESTS_SUPPORT_OWN_PATTERN_H

#include <tailorgeom/coat.h>
#include "../../lib/pattern/build.h"

/** A net or whole coat of an order, as a pattern of the caller's. NULL, and the fault, when it is refused. */
static inline tailor_pattern *own_pattern(const double *client, int extent, tailor_fault *fault)
{
    tailor_coat *coat = NULL;
    tailor_pattern *own = NULL;
    if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, extent, &coat, fault) == TAILOR_OK) {
        const tailor_pattern *pattern = tailor_coat_pattern(coat);
        own = tailor_in_pattern_copy(pattern, pattern->count, tailor_in_allocator(NULL));
    }
    tailor_coat_free(coat);
    return own;
}

#endif

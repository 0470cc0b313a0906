#include "block.h"

void tailor_pattern_free(tailor_pattern *pattern)
{
    if (pattern)
        pattern->allocator.release(pattern->allocator.user, pattern);
}

/* Copying a pattern into a block of its own: arrays as they are, with other room. */
#include "build.h"

#include <string.h>

tailor_pattern *tailor_in_pattern_copy(const tailor_pattern *from, const int capacity[TAILOR_IN_ARRAYS],
                                       tailor_allocator allocator)
{
    void *block = allocator.allocate(allocator.user, tailor_in_pattern_bytes(capacity));
    if (!block)
        return NULL;
    tailor_pattern *p = tailor_in_pattern_begin(block, capacity, allocator);
    for (int i = 0; i < TAILOR_IN_ARRAYS; i++) {
        p->count[i] = from->count[i];
        if (from->count[i] > 0)
            memcpy((char *)p + p->offset[i], (const char *)from + from->offset[i],
                   tailor_in_record_bytes[i] * (size_t)from->count[i]);
    }
    return p;
}

/* Copying a pattern into a block of its own: arrays as they are, with other room. */
#include "build.h"

#include <string.h>

static tailor_pattern *lay_copy(const tailor_pattern *from, void *block, const int capacity[TAILOR_IN_ARRAYS],
                                tailor_allocator allocator)
{
    tailor_pattern *p = tailor_in_pattern_begin(block, capacity, allocator);
    p->edition = from->edition;
    p->toile_only = from->toile_only;
    memcpy(p->style, from->style, sizeof p->style);
    for (int i = 0; i < TAILOR_IN_ARRAYS; i++) {
        p->count[i] = from->count[i];
        if (from->count[i] > 0)
            memcpy((char *)p + p->offset[i], (const char *)from + from->offset[i],
                   tailor_in_record_bytes[i] * (size_t)from->count[i]);
    }
    return p;
}

tailor_pattern *tailor_in_pattern_copy(const tailor_pattern *from, const int capacity[TAILOR_IN_ARRAYS],
                                       tailor_allocator allocator)
{
    void *block = allocator.allocate(allocator.user, tailor_in_pattern_bytes(capacity));
    return block ? lay_copy(from, block, capacity, allocator) : NULL;
}

size_t tailor_in_pattern_bytes_of(const tailor_pattern *from) { return tailor_in_pattern_bytes(from->count); }

tailor_pattern *tailor_in_pattern_copy_into(const tailor_pattern *from, void *block, size_t bytes,
                                            tailor_allocator allocator)
{
    return bytes >= tailor_in_pattern_bytes_of(from) ? lay_copy(from, block, from->count, allocator) : NULL;
}

/* The lay's memory: blocks in a list, given back together. */
#include <stdint.h>
#include <string.h>
#include "../pattern/build.h"
#include "strip.h"

typedef struct tailor_in_block {
    struct tailor_in_block *next;
    max_align_t data[];
} tailor_in_block;

void *tailor_in_lay_memory(tailor_lay *lay, size_t count, size_t size)
{
    if (count > (SIZE_MAX / 2) / (size ? size : 1)) return NULL;
    tailor_in_block *block = lay->allocator.allocate(lay->allocator.user, sizeof *block + count * size);
    if (!block) return NULL;
    memset(block->data, 0, count * size);
    block->next = lay->blocks;
    lay->blocks = block;
    return block->data;
}

void tailor_in_lay_release(tailor_lay *lay, tailor_in_block *mark)
{
    while (lay->blocks != mark) {
        tailor_in_block *block = lay->blocks;
        lay->blocks = block->next;
        lay->allocator.release(lay->allocator.user, block);
    }
}

void tailor_lay_free(tailor_lay *lay)
{
    if (!lay) return;
    const tailor_allocator allocator = lay->allocator;
    tailor_in_lay_release(lay, NULL);
    allocator.release(allocator.user, lay);
}

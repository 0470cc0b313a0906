#include "memory.h"

#include <stdlib.h>

static void *plain_allocate(void *user, size_t bytes)
{
    (void)user;
    return malloc(bytes);
}

static void plain_release(void *user, void *memory)
{
    (void)user;
    free(memory);
}

tailor_allocator tailor_in_allocator(const tailor_allocator *given)
{
    tailor_allocator plain = {plain_allocate, plain_release, NULL};
    return given ? *given : plain;
}

static void *allocate_nothing(void *user, size_t bytes)
{
    (void)user;
    (void)bytes;
    return NULL;
}

static void release_nothing(void *user, void *memory)
{
    (void)user;
    (void)memory;
}

tailor_allocator tailor_in_no_allocator(void)
{
    return (tailor_allocator){allocate_nothing, release_nothing, NULL};
}

#include "build.h"

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

void tailor_pattern_free(tailor_pattern *pattern)
{
    if (pattern)
        pattern->allocator.release(pattern->allocator.user, pattern);
}

/* Preloaded under the program: a clock on which a second passes each time it is looked at, so that what is told now and
 * then is told at once, on any machine. */
#define _POSIX_C_SOURCE 200809L
#include <stdatomic.h>
#include <time.h>

int clock_gettime(clockid_t clock, struct timespec *now)
{
    static atomic_long looked;
    (void)clock;
    *now = (struct timespec){.tv_sec = atomic_fetch_add(&looked, 1)};
    return 0;
}

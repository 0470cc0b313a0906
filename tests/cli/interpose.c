/* Preloaded under the program for test_cli_files.py: the N-th call of fsync fails, as on a full disk, or never comes
 * back because a signal ends the program there. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <signal.h>
#include <stdlib.h>

int fsync(int fd)
{
    static int calls;
    const char *nth = getenv("INTERPOSE_NTH"), *number = getenv("INTERPOSE_SIGNAL");
    (void)fd;
    if (!nth || ++calls != atoi(nth))
        return 0;
    if (number)
        raise(atoi(number));
    errno = ENOSPC;
    return -1;
}

#define _POSIX_C_SOURCE 200809L
#include "rows_progress.h"

#include <stdio.h>
#include <unistd.h>

static double seconds_since(struct timespec then)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - then.tv_sec) + (double)(now.tv_nsec - then.tv_nsec) * 1e-9;
}

void progress_begin(rows_progress *p, uint64_t done, uint64_t total)
{
    *p = (rows_progress){.shown = isatty(STDERR_FILENO) == 1, .first = done, .total = total};
    clock_gettime(CLOCK_MONOTONIC, &p->begin);
    p->last = p->begin;
}

void progress_show(rows_progress *p, uint64_t done)
{
    if (!p->shown || seconds_since(p->last) < 0.25)
        return;
    double rate = (double)(done - p->first) / seconds_since(p->begin);
    clock_gettime(CLOCK_MONOTONIC, &p->last);
    p->begun = true;
    fprintf(stderr, "\r%llu orders", (unsigned long long)done);
    if (p->total)
        fprintf(stderr, " of %llu", (unsigned long long)p->total);
    fprintf(stderr, ", %.0f a second", rate);
    if (p->total && rate > 0)
        fprintf(stderr, ", %.0f s left", (double)(p->total - done) / rate);
    fputs("\x1b[K", stderr); /* the rest of a longer line before */
    fflush(stderr);
}

void progress_end(rows_progress *p)
{
    if (p->begun)
        fputs("\r\x1b[K", stderr);
    p->begun = false;
}

/* The search for a shorter lay: progress on a terminal, and Ctrl-C ends it with the best so far. */
#define _POSIX_C_SOURCE 200809L
#include "canvas.h"
#include "complain.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { STEP = 20 };

static volatile sig_atomic_t stopped;

static void on_interrupt(int number)
{
    (void)number;
    stopped = 1;
}

/* While the search runs nothing is half written. The first Ctrl-C ends the search, a second one the program; where the
 * signal is ignored (nohup, a job in the background) it stays ignored. */
static bool listen(struct sigaction *before)
{
    struct sigaction watch;
    memset(&watch, 0, sizeof watch);
    watch.sa_handler = on_interrupt;
    watch.sa_flags = (int)SA_RESETHAND;
    sigemptyset(&watch.sa_mask);
    return sigaction(SIGINT, NULL, before) == 0 && before->sa_handler != SIG_IGN &&
           sigaction(SIGINT, &watch, NULL) == 0;
}

static double seconds_since(struct timespec then)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - then.tv_sec) + (double)(now.tv_nsec - then.tv_nsec) * 1e-9;
}

static void show(const strips *all)
{
    fprintf(stderr, "\r%lld of %lld iterations", (long long)all->iterations, (long long)all->wanted);
    for (size_t i = 0; i < all->count; i++)
        fprintf(stderr, ", %s %.0f mm", tailor_canvas_cloth(all->strip[i]),
                tailor_canvas_result(all->strip[i], TAILOR_CANVAS_RESULT_CLOTH_LENGTH));
    fputs("\x1b[K", stderr);
    fflush(stderr);
}

bool strips_search(strips *all)
{
    struct sigaction before;
    struct timespec last;
    const bool shown = isatty(STDERR_FILENO) == 1, listening = listen(&before);
    bool begun = false, good = true;
    clock_gettime(CLOCK_MONOTONIC, &last);
    while (good && !stopped && all->iterations < all->wanted) {
        const int64_t left = all->wanted - all->iterations, step = left < STEP ? left : STEP;
        for (size_t i = 0; good && i < all->count; i++)
            good = tailor_canvas_step(all->strip[i], step) == TAILOR_OK;
        all->iterations += step;
        if (shown && seconds_since(last) > 0.25) {
            show(all);
            begun = true;
            clock_gettime(CLOCK_MONOTONIC, &last);
        }
    }
    if (listening)
        sigaction(SIGINT, &before, NULL);
    if (begun)
        fputs("\r\x1b[K", stderr);
    if (!good)
        complain("a layout of the canvas failed its proof: this is a fault of the program");
    else if (all->iterations < all->wanted)
        complain("stopped after %lld of %lld iterations: what follows is the best so far", (long long)all->iterations,
                 (long long)all->wanted);
    return good;
}

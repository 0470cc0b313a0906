#define _POSIX_C_SOURCE 200809L
#include "unfinished.h"

#include <signal.h>
#include <stddef.h>
#include <unistd.h>

enum { NOTES_MOST = 8 };

/* Written only while signals are held, so the handler always finds it whole. */
static const char *volatile notes[NOTES_MOST];
static sigset_t before_hold;

static const int endings[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGPIPE, SIGXCPU};
enum { ENDING_COUNT = sizeof endings / sizeof endings[0] };

static void on_ending(int number)
{
    for (size_t i = 0; i < NOTES_MOST; i++)
        if (notes[i])
            unlink(notes[i]);
    /* The handler was installed with SA_RESETHAND: raised again, the signal ends the program the usual way. */
    raise(number);
}

void unfinished_watch(void)
{
    struct sigaction watch = {.sa_handler = on_ending, .sa_flags = (int)SA_RESETHAND}, now;
    sigfillset(&watch.sa_mask);
    for (size_t i = 0; i < ENDING_COUNT; i++)
        if (sigaction(endings[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN) /* nohup stays nohup */
            sigaction(endings[i], &watch, NULL);
    signal(SIGXFSZ, SIG_IGN); /* a file that may grow no further is a failed write, with a reason */
}

void unfinished_hold(void)
{
    sigset_t all;
    sigfillset(&all);
    sigprocmask(SIG_BLOCK, &all, &before_hold);
}

void unfinished_release(void)
{
    sigprocmask(SIG_SETMASK, &before_hold, NULL);
}

void unfinished_add(const char *path)
{
    for (size_t i = 0; i < NOTES_MOST; i++)
        if (!notes[i]) {
            notes[i] = path;
            return;
        }
}

void unfinished_remove(const char *path)
{
    for (size_t i = 0; i < NOTES_MOST; i++)
        if (notes[i] == path)
            notes[i] = NULL;
}

#define _POSIX_C_SOURCE 200809L
#define _DEFAULT_SOURCE /* the number of processors */
#include "rows_ring.h"

#include "commands.h"
#include "complain.h"

#include <pthread.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { FREE, WAITING, DONE };

typedef struct slot {
    rows_chunk chunk;
    int state;
} slot;

/* Slots are filled, taken by workers and drained each in turn: three counters that run after one another. */
typedef struct ring {
    const rows_trade *trade;
    const rows_ends *ends;
    slot *slots;
    size_t size, filled, taken, drained;
    int begun;             /* threads */
    bool stopping, failed; /* no more comes; a worker failed */
    pthread_mutex_t mutex;
    pthread_cond_t work, done;
} ring;

static void *work(void *given)
{
    ring *r = given;
    pthread_mutex_lock(&r->mutex);
    int thread = r->begun++;
    pthread_mutex_unlock(&r->mutex);
    void *worker = r->trade->begin(r->trade->plan, thread);
    bool good = worker != NULL;
    pthread_mutex_lock(&r->mutex);
    while (good) {
        while (r->taken == r->filled && !r->stopping)
            pthread_cond_wait(&r->work, &r->mutex);
        if (r->taken == r->filled)
            break;
        slot *s = &r->slots[r->taken++ % r->size];
        pthread_mutex_unlock(&r->mutex);
        good = r->trade->work(worker, &s->chunk);
        pthread_mutex_lock(&r->mutex);
        s->state = DONE;
        pthread_cond_signal(&r->done);
    }
    if (!good)
        r->failed = true;
    pthread_cond_signal(&r->done);
    pthread_mutex_unlock(&r->mutex);
    r->trade->end(worker);
    return NULL;
}

static void hand_over(ring *r, slot *s)
{
    pthread_mutex_lock(&r->mutex);
    s->state = WAITING;
    r->filled++;
    pthread_cond_signal(&r->work);
    pthread_mutex_unlock(&r->mutex);
}

/* The oldest chunk that is not yet drained, waited for; NULL when a worker failed. */
static slot *wait_for_oldest(ring *r)
{
    slot *s = &r->slots[r->drained % r->size];
    pthread_mutex_lock(&r->mutex);
    while (s->state != DONE && !r->failed)
        pthread_cond_wait(&r->done, &r->mutex);
    bool failed = r->failed;
    pthread_mutex_unlock(&r->mutex);
    return failed ? NULL : s;
}

static void clear(rows_chunk *chunk)
{
    chunk->in.length = chunk->out.length = chunk->beside.length = chunk->rows = chunk->refused = 0;
    chunk->trouble = 0;
}

/* The calling thread's part: as long as there is room it reads, then it writes the oldest. */
static bool read_and_write(ring *r)
{
    for (bool more = true;;) {
        while (more && r->filled - r->drained < r->size) {
            slot *s = &r->slots[r->filled % r->size];
            clear(&s->chunk);
            more = r->ends->fill(r->ends->user, &s->chunk);
            if (s->chunk.in.failed)
                return false;
            if (s->chunk.rows > 0)
                hand_over(r, s);
        }
        if (r->filled == r->drained)
            return true;
        slot *s = wait_for_oldest(r);
        if (!s)
            return false;
        if (!r->ends->drain(r->ends->user, &s->chunk))
            return true;
        s->state = FREE;
        r->drained++;
    }
}

/* Signals are the calling thread's, which knows the unfinished files. */
static int start(ring *r, pthread_t *threads, int jobs)
{
    sigset_t all, before;
    int started = 0;
    sigfillset(&all);
    pthread_sigmask(SIG_BLOCK, &all, &before);
    while (started < jobs && pthread_create(&threads[started], NULL, work, r) == 0)
        started++;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return started;
}

int rows_job_count(int asked)
{
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    return asked ? asked : processors < 1 ? 1 : processors > JOBS_MOST ? JOBS_MOST : (int)processors;
}

bool rows_ring_run(const rows_trade *trade, int jobs, const rows_ends *ends)
{
    pthread_t threads[JOBS_MOST];
    ring r = {.trade = trade, .ends = ends, .size = 2 * (size_t)jobs + 1};
    r.slots = calloc(r.size, sizeof *r.slots);
    if (!r.slots) {
        complain("out of memory");
        return false;
    }
    pthread_mutex_init(&r.mutex, NULL);
    pthread_cond_init(&r.work, NULL);
    pthread_cond_init(&r.done, NULL);
    int started = start(&r, threads, jobs);
    bool good = started > 0 && read_and_write(&r);
    pthread_mutex_lock(&r.mutex);
    r.stopping = true;
    r.taken = r.filled; /* what is not drained by now is not wanted */
    pthread_cond_broadcast(&r.work);
    pthread_mutex_unlock(&r.mutex);
    for (int i = 0; i < started; i++)
        pthread_join(threads[i], NULL);
    if (!good)
        complain(started ? "out of memory" : "no thread can be started");
    for (size_t i = 0; i < r.size; i++) {
        buffer_free(&r.slots[i].chunk.in);
        buffer_free(&r.slots[i].chunk.out);
        buffer_free(&r.slots[i].chunk.beside);
    }
    free(r.slots);
    pthread_mutex_destroy(&r.mutex);
    pthread_cond_destroy(&r.work);
    pthread_cond_destroy(&r.done);
    return good;
}

/* tailorgeom rows: a table of orders drafted and measured into another table. */
#define _POSIX_C_SOURCE 200809L
#define _DEFAULT_SOURCE /* the number of processors */
#include "complain.h"
#include "rows_out.h"
#include "rows_progress.h"
#include "rows_ring.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct rows_run {
    const settings *s;
    rows_plan plan;
    csv_in in;
    rows_out out;
    rows_origin origin;
    buffer cloths; /* the user's, for the hash */
    rows_progress progress;
    bool again;         /* the input can be read again: it has been looked through, and a run broken off can go on */
    uint64_t row_count; /* found when it was looked through */
    bool spoilt;        /* the input cannot be read to its end */
    bool unwritten;     /* the output could not be written; said */
} rows_run;

/* ---- what comes in */

/* Look through the whole table, so that one that is malformed is refused before anything is made of it. */
static bool look_through(rows_run *r)
{
    csv_in in;
    csv_line line;
    int got;
    if (!csv_in_open(&in, r->s->operand))
        return false;
    while ((got = csv_in_next(&in, &line)) == CSV_IN_LINE)
        r->row_count++;
    r->row_count -= r->row_count > 0; /* the header */
    csv_in_hash(&in, r->origin.input);
    csv_in_close(&in);
    return got == CSV_IN_END;
}

/* The house's values and the user's cloths, by their bits. */
static void hash_house(rows_run *r)
{
    SHA2_CTX hash;
    const card *house = &r->plan.house;
    SHA256Init(&hash);
    SHA256Update(&hash, (const uint8_t *)house->house.value, sizeof house->house.value);
    SHA256Update(&hash, (const uint8_t *)house->constants.value, sizeof house->constants.value);
    SHA256Update(&hash, (const uint8_t *)r->cloths.bytes, r->cloths.length);
    SHA256End(&hash, r->origin.house);
}

static bool read_header(rows_run *r)
{
    csv_line line;
    int got = csv_in_next(&r->in, &line);
    if (got == CSV_IN_END)
        complain_at(r->in.source, 0, "holds nothing: its first line is to name the columns");
    return got == CSV_IN_LINE && rows_plan_header(&r->plan, r->in.source, &line);
}

/* One order of nobody: does the library take the house? */
static bool check_house(rows_run *r)
{
    rows_worker worker;
    tailor_fault fault = {0};
    bool good = rows_worker_begin(&worker, &r->plan);
    if (!good)
        complain("out of memory");
    if (good && rows_house_check(&worker, &fault) != TAILOR_OK) {
        card_place place = card_fault_place(&r->plan.house, &fault);
        complain_at(place.source ? place.source : r->s->house, place.line, "%s", fault.sentence);
        good = false;
    }
    rows_worker_free(&worker);
    return good;
}

/* Past the orders that are done already. */
static bool skip_done(rows_run *r)
{
    csv_line line;
    for (uint64_t row = 0; row < r->out.rows; row++)
        if (csv_in_next(&r->in, &line) != CSV_IN_LINE) {
            complain_at(r->out.part, 0, "has more lines than %s: remove it, and begin anew", r->in.source);
            return false;
        }
    return true;
}

static bool fill(void *user, rows_chunk *chunk)
{
    rows_run *r = user;
    while (chunk->rows < CHUNK_ROWS && chunk->in.length < CHUNK_BYTES_MOST) {
        csv_line line;
        int got = csv_in_next(&r->in, &line);
        if (got != CSV_IN_LINE) {
            r->spoilt = got == CSV_IN_FAILED;
            if (r->spoilt)
                chunk->rows = 0;
            return false;
        }
        buffer_add(&chunk->in, line.text, line.length);
        buffer_add(&chunk->in, "\n", 1);
        chunk->rows++;
    }
    return true;
}

/* ---- what goes out */

static bool drain(void *user, const rows_chunk *chunk)
{
    rows_run *r = user;
    r->unwritten = !rows_out_write(&r->out, &chunk->out, chunk->rows, chunk->refused);
    progress_show(&r->progress, r->out.rows);
    return !r->unwritten;
}

static bool unchanged(rows_run *r)
{
    char now[CSV_HASH_TEXT];
    csv_in_hash(&r->in, now);
    if (!r->again || strcmp(now, r->origin.input) == 0)
        return true;
    complain_at(r->in.source, 0, "has changed while it was read: begin anew");
    return false;
}

static int job_count(const settings *s)
{
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    return s->jobs ? s->jobs : processors < 1 ? 1 : processors > JOBS_MOST ? JOBS_MOST : (int)processors;
}

static int work_through(rows_run *r)
{
    rows_ends ends = {fill, drain, r};
    progress_begin(&r->progress, r->out.rows, r->row_count);
    bool good = rows_ring_run(&r->plan, job_count(r->s), &ends) && !r->unwritten;
    progress_end(&r->progress);
    if (r->spoilt || (good && !unchanged(r)) || !good) {
        rows_out_break(&r->out, r->spoilt || good);
        return EXIT_REFUSED;
    }
    uint64_t rows = r->out.rows, refused = r->out.refused;
    if (!rows_out_finish(&r->out))
        return EXIT_REFUSED;
    if (refused == 0)
        return EXIT_DONE;
    complain_at(r->in.source, 0, "%llu of %llu orders refused: the columns status and message say why",
                (unsigned long long)refused, (unsigned long long)rows);
    return EXIT_REFUSED;
}

/* A file can be read twice, a pipe cannot. */
static bool can_read_again(const char *path)
{
    struct stat found;
    return strcmp(path, "-") != 0 && stat(path, &found) == 0 && S_ISREG(found.st_mode);
}

static bool is_same_file(const char *a, const char *b)
{
    struct stat one, other;
    return stat(a, &one) == 0 && stat(b, &other) == 0 && one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

static int run(rows_run *r)
{
    const settings *s = r->s;
    r->again = can_read_again(s->operand);
    if (s->resume && !r->again) {
        complain("--resume reads the table again from its beginning, which %s does not allow", r->in.source);
        return EXIT_REFUSED;
    }
    if ((r->again && !look_through(r)) || !read_header(r) || !check_house(r))
        return EXIT_REFUSED;
    rows_plan_wanted(&r->plan, &r->origin.want);
    buffer_add(&r->origin.want, "", 1);
    cloths_bytes(&r->cloths);
    hash_house(r);
    if (r->origin.want.failed || r->cloths.failed) {
        complain("out of memory");
        return EXIT_REFUSED;
    }
    if (!rows_out_open(&r->out, s->output, r->again ? &r->origin : NULL, &r->plan.head, s->resume))
        return EXIT_REFUSED;
    if (!skip_done(r)) {
        rows_out_break(&r->out, false);
        return EXIT_REFUSED;
    }
    return work_through(r);
}

int run_rows(const settings *s)
{
    rows_run r = {.s = s};
    if (s->resume && !s->output) {
        complain("--resume goes on with a file: name it with -o");
        return EXIT_USAGE;
    }
    if (s->output && is_same_file(s->operand, s->output)) {
        complain("%s cannot be read and written at the same time: give -o another name", s->output);
        return EXIT_USAGE;
    }
    int status = rows_plan_begin(&r.plan, s);
    if (status == EXIT_DONE)
        status = csv_in_open(&r.in, s->operand) ? run(&r) : EXIT_REFUSED;
    csv_in_close(&r.in);
    rows_plan_free(&r.plan);
    buffer_free(&r.origin.want);
    buffer_free(&r.cloths);
    return status;
}

/* tailorgeom rows: a table of orders drafted and measured into another table. */
#include "complain.h"
#include "rows_in.h"
#include "rows_out.h"
#include "rows_progress.h"
#include "rows_work.h"

#include <string.h>

typedef struct rows_run {
    const settings *s;
    rows_plan plan;
    rows_in in;
    rows_out out;
    rows_origin origin;
    buffer want;                 /* names */
    char house[CSV_HASH_TEXT];
    rows_progress progress;
    bool unwritten; /* the output could not be written; said */
} rows_run;

static bool read_header(rows_run *r)
{
    csv_line line;
    return rows_in_header(&r->in, &line) && rows_plan_header(&r->plan, r->in.csv.source, &line);
}

static bool fill(void *user, rows_chunk *chunk)
{
    rows_run *r = user;
    return rows_in_fill(&r->in, chunk, CHUNK_ROWS);
}

/* ---- what goes out */

static bool drain(void *user, const rows_chunk *chunk)
{
    rows_run *r = user;
    r->unwritten = !rows_out_write(&r->out, &chunk->out, chunk->rows, chunk->refused);
    progress_show(&r->progress, r->out.rows);
    return !r->unwritten;
}

static int work_through(rows_run *r)
{
    rows_trade trade = rows_measuring;
    rows_ends ends = {fill, drain, r};
    trade.plan = &r->plan;
    progress_begin(&r->progress, r->out.rows, r->in.row_count);
    bool good = rows_ring_run(&trade, rows_job_count(r->s->jobs), &ends) && !r->unwritten;
    progress_end(&r->progress);
    if (r->in.spoilt || (good && !rows_in_unchanged(&r->in)) || !good) {
        rows_out_break(&r->out, r->in.spoilt || good);
        return EXIT_REFUSED;
    }
    uint64_t rows = r->out.rows, refused = r->out.refused;
    if (!rows_out_finish(&r->out))
        return EXIT_REFUSED;
    if (refused == 0)
        return EXIT_DONE;
    complain_at(r->in.csv.source, 0, "%llu of %llu orders refused: the columns status and message say why",
                (unsigned long long)refused, (unsigned long long)rows);
    return EXIT_REFUSED;
}

/* What the output is made from. False when memory ran out; said. */
static bool tell_origin(rows_run *r)
{
    rows_plan_wanted(&r->plan, &r->want);
    buffer_add(&r->want, "", 1);
    if (!rows_plan_hash_house(&r->plan, r->house) || r->want.failed) {
        complain("out of memory");
        return false;
    }
    r->origin = (rows_origin){"rows-state", {ORIGIN_VERSION, ORIGIN_INPUT(r->in.hash), ORIGIN_WANT(r->want.bytes),
                                             ORIGIN_HOUSE(r->house)}, 4};
    return true;
}

static int run(rows_run *r)
{
    const settings *s = r->s;
    bool again = r->in.again;
    if (s->resume && !again) {
        complain("--resume reads the table again from its beginning, which %s does not allow", r->in.csv.source);
        return EXIT_REFUSED;
    }
    if ((again && !rows_in_look_through(&r->in, s->operand, NULL, NULL)) || !read_header(r) ||
        !rows_make_plan(&r->plan) || !tell_origin(r))
        return EXIT_REFUSED;
    if (!rows_out_open(&r->out, s->output, again ? &r->origin : NULL, &r->plan.head, s->resume))
        return EXIT_REFUSED;
    if (!rows_in_skip(&r->in, r->out.rows, r->out.part)) {
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
        status = rows_in_open(&r.in, s->operand) ? run(&r) : EXIT_REFUSED;
    rows_in_close(&r.in);
    rows_plan_free(&r.plan);
    buffer_free(&r.want);
    return status;
}

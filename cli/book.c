/* tailorgeom book: an order book drafted into folders, one an order. */
#define _POSIX_C_SOURCE 200809L
#define _DEFAULT_SOURCE /* syncfs */
#define _GNU_SOURCE
#include "book.h"

#include "book_manifest.h"
#include "complain.h"
#include "rows_in.h"
#include "rows_out.h"
#include "rows_progress.h"
#include "rows_work.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/sheet.h>
#include <unistd.h>

static const char order_column[] = "order", name_column[] = "name", size_column[] = "size", fit_column[] = "fit";
static const char usual_sheets[] = "svg,pdf,ticket";
/* What the summary tells of a coat unless --want says otherwise. */
static const char usual_quantities[] = "finished_chest,finished_waist,finished_seat,finished_length,"
                                       "cross_back_finished,cross_chest_finished,break_length,coverage_scye";

typedef struct book_run {
    const settings *s;
    book b;
    const char *roles[ROLES_MOST];
    rows_in in;
    rows_out out;
    book_manifest manifest;
    rows_origin origin;
    buffer want;
    char sheets[64]; /* as --sheets names them, in order */
    char house[CSV_HASH_TEXT];
    char summary[OUTPUT_PATH_MOST], part[OUTPUT_PATH_MOST], state[OUTPUT_PATH_MOST], kept[OUTPUT_PATH_MOST],
        manifest_path[OUTPUT_PATH_MOST], manifest_part[OUTPUT_PATH_MOST];
    rows_progress progress;
    bool header_seen, unwritten, grown;
} book_run;

/* ---- what comes in */

static bool look(void *user, const csv_line *line)
{
    book_run *r = user;
    book *b = &r->b;
    if (!r->header_seen) {
        r->header_seen = true;
        if (!rows_plan_header(&b->plan, r->in.csv.source, line))
            return false;
        if (b->plan.role_column[ROLE_ORDER] >= 0)
            return true;
        complain_at(r->in.csv.source, line->line, "no column is named order: it names each order's folder");
        return false;
    }
    size_t wanted = (size_t)b->plan.role_column[ROLE_ORDER] + 1;
    csv_cell *cells = calloc(wanted, sizeof *cells);
    csv_found found;
    if (cells) {
        csv_record(line->text, line->length, true, cells, wanted, &found);
        book_names_add(&b->names, line->line, cells[wanted - 1]);
    }
    free(cells);
    if (cells && !b->names.failed)
        return true;
    complain("out of memory");
    return false;
}

/* The header again, in the table as it is now. */
static bool pass_header(book_run *r)
{
    csv_line line;
    if (!rows_in_header(&r->in, &line))
        return false;
    if (r->in.csv.cells == r->b.plan.column_count)
        return true;
    complain_at(r->in.csv.source, 0, "has changed while it was read: begin anew");
    return false;
}

/* No further than the orders whose folders are known. */
static bool fill(void *user, rows_chunk *chunk)
{
    book_run *r = user;
    uint64_t left = r->b.names.count - r->in.next;
    if (left > 0)
        return rows_in_fill(&r->in, chunk, left < BOOK_CHUNK_ROWS ? (size_t)left : BOOK_CHUNK_ROWS);
    csv_line line;
    int got = csv_in_next(&r->in.csv, &line);
    r->in.spoilt = got == CSV_IN_FAILED;
    r->grown = got == CSV_IN_LINE;
    return false;
}

/* ---- what goes out */

static bool drain(void *user, const rows_chunk *chunk)
{
    book_run *r = user;
    if (chunk->trouble) {
        complain("%s/%s: cannot be written: %s", r->s->output, chunk->beside.bytes, strerror(chunk->trouble));
        r->unwritten = true;
        return false;
    }
    r->unwritten = !book_manifest_write(&r->manifest, &chunk->beside) ||
                   !rows_out_write(&r->out, &chunk->out, chunk->rows, chunk->refused);
    progress_show(&r->progress, r->out.rows);
    return !r->unwritten;
}

/* All folders are on the disk before the summary says so. */
static bool bring_to_disk(book_run *r)
{
    if (syncfs(r->b.root) == 0)
        return true;
    complain_at(r->s->output, 0, "cannot be written: %s", strerror(errno));
    return false;
}

static bool still_the_same(book_run *r)
{
    if (!r->grown)
        return rows_in_unchanged(&r->in);
    complain_at(r->in.csv.source, 0, "has changed while it was read: begin anew");
    return false;
}

static int work_through(book_run *r)
{
    rows_trade trade = book_drafting;
    rows_ends ends = {fill, drain, r};
    trade.plan = &r->b;
    progress_begin(&r->progress, r->out.rows, r->in.row_count);
    bool good = rows_ring_run(&trade, rows_job_count(r->s->jobs), &ends) && !r->unwritten;
    progress_end(&r->progress);
    bool useless = good && (r->in.spoilt || !still_the_same(r));
    if (useless)
        complain_at(r->s->output, 0, "what has been written there is of two tables: remove it");
    if (!good || useless || !bring_to_disk(r) || !book_manifest_finish(&r->manifest, r->out.part)) {
        book_manifest_break(&r->manifest, useless);
        rows_out_break(&r->out, useless);
        return EXIT_REFUSED;
    }
    uint64_t rows = r->out.rows, refused = r->out.refused;
    book_manifest_break(&r->manifest, false);
    if (!rows_out_finish(&r->out))
        return EXIT_REFUSED;
    if (refused == 0)
        return EXIT_DONE;
    complain_at(r->in.csv.source, 0, "%llu of %llu orders refused: the columns status and message of %s say why",
                (unsigned long long)refused, (unsigned long long)rows, r->summary);
    return EXIT_REFUSED;
}

/* ---- beginning and going on */

static bool make_paths(book_run *r)
{
    const struct {
        char *path;
        const char *name;
    } paths[] = {{r->summary, "summary.csv"},           {r->part, "summary.csv.part"},
                 {r->state, "summary.csv.state"},       {r->kept, "book.json"},
                 {r->manifest_path, "manifest.sha256"}, {r->manifest_part, "manifest.sha256.part"}};
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        int length = snprintf(paths[i].path, OUTPUT_PATH_MOST, "%s/%s", r->s->output, paths[i].name);
        if (length < 0 || length >= OUTPUT_PATH_MOST) {
            complain("the path of the directory is too long");
            return false;
        }
    }
    return true;
}

static bool tell_origin(book_run *r)
{
    rows_plan_wanted(&r->b.plan, &r->want);
    buffer_add(&r->want, "", 1);
    if (!rows_plan_hash_house(&r->b.plan, r->house) || r->want.failed) {
        complain("out of memory");
        return false;
    }
    r->origin = (rows_origin){"book",
                              {ORIGIN_VERSION,
                               ORIGIN_INPUT(r->in.hash),
                               ORIGIN_WANT(r->want.bytes),
                               ORIGIN_HOUSE(r->house),
                               {"sheets", r->sheets, "other --sheets"},
                               {"sizes_sha256", r->b.sizes.hash, "another table of sizes"},
                               {"clients", r->b.anonymous ? "left off" : "on the sheets", "other --anonymous"}},
                              7};
    return true;
}

static bool is_there(const char *path) { return access(path, F_OK) == 0; }

/* A book that is finished, or all but, becomes again what it was before its last step; going on then finishes it. */
static bool reopen(book_run *r)
{
    uint64_t rows, bytes;
    rows_out before = {.path = r->summary, .origin = &r->origin, .fd = -1};
    snprintf(before.part, sizeof before.part, "%s", r->s->output);
    snprintf(before.state, sizeof before.state, "%s", is_there(r->kept) ? r->kept : r->state);
    if (!is_there(r->part) && is_there(r->summary)) {
        if (!rows_state_read(&before, &rows, &bytes))
            return false;
        if (rename(before.state, r->state) != 0 || rename(r->summary, r->part) != 0) {
            complain_at(r->s->output, 0, "cannot be gone on with: %s", strerror(errno));
            return false;
        }
    }
    if (!is_there(r->manifest_part) && is_there(r->manifest_path))
        rename(r->manifest_path, r->manifest_part);
    return true;
}

static bool open_directory(book_run *r)
{
    const char *path = r->s->output;
    if (!make_directory(path))
        return false;
    r->b.root = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (r->b.root < 0) {
        complain_at(path, 0, "cannot be opened: %s", strerror(errno));
        return false;
    }
    bool begun = is_there(r->part) || is_there(r->summary);
    if (r->s->resume && begun)
        return reopen(r);
    if (book_is_empty(r->b.root))
        return true;
    complain_at(path, 0, begun ? "holds a book already: go on with --resume, or take another directory"
                               : "is not empty: a book begins in a directory of its own");
    return false;
}

/* Lines of the manifest are as many as files of the orders that are done. */
static bool open_manifest(book_run *r)
{
    uint64_t files = 1 + r->b.sheet_count;
    return book_manifest_open(&r->manifest, r->s->output, (r->out.rows - r->out.refused) * files);
}

static int run(book_run *r)
{
    const settings *s = r->s;
    if (!r->in.again) {
        complain("%s is read twice: an order book is a file", r->in.csv.source);
        return EXIT_REFUSED;
    }
    if (!rows_in_look_through(&r->in, s->operand, look, r))
        return EXIT_REFUSED;
    if (!pass_header(r) || !tell_origin(r) || !open_directory(r))
        return EXIT_REFUSED;
    if (!rows_out_open(&r->out, r->summary, &r->origin, &r->b.plan.head, s->resume))
        return EXIT_REFUSED;
    r->out.kept = r->kept;
    book_remove_unfinished(r->b.root);
    if (!open_manifest(r) || !rows_in_skip(&r->in, r->out.rows, r->out.part)) {
        rows_out_break(&r->out, false);
        return EXIT_REFUSED;
    }
    return work_through(r);
}

static int prepare(book_run *r)
{
    settings usual = *r->s;
    book *b = &r->b;
    usual.want = usual.want ? usual.want : usual_quantities;
    b->anonymous = r->s->anonymous;
    r->roles[ROLE_ORDER] = order_column;
    r->roles[ROLE_NAME] = name_column;
    if (!book_take_sheets(b, r->s->sheets ? r->s->sheets : usual_sheets)) {
        complain("see `tailorgeom help book`");
        return EXIT_USAGE;
    }
    snprintf(r->sheets, sizeof r->sheets, "%s", r->s->sheets ? r->s->sheets : usual_sheets);
    int status = rows_plan_begin(&b->plan, &usual);
    if (status != EXIT_DONE || !r->s->sizes)
        return status;
    r->roles[ROLE_SIZE] = size_column;
    r->roles[ROLE_FIT] = fit_column;
    b->plan.fieldless = true;
    return sizes_read(&b->sizes, r->s->sizes) ? EXIT_DONE : EXIT_REFUSED;
}

int run_book(const settings *s)
{
    if (!s->output) {
        complain("book writes a folder for each order: say where with -o DIR");
        complain("see `tailorgeom help book`");
        return EXIT_USAGE;
    }
    book_run *r = calloc(1, sizeof *r);
    if (!r) {
        complain("out of memory");
        return EXIT_REFUSED;
    }
    r->s = s;
    r->b.root = r->manifest.fd = -1;
    int status = prepare(r);
    r->b.plan.roles = r->roles;
    r->b.plan.extra = "folder";
    if (status == EXIT_DONE)
        status = make_paths(r) && rows_in_open(&r->in, s->operand) ? run(r) : EXIT_REFUSED;
    rows_in_close(&r->in);
    rows_plan_free(&r->b.plan);
    book_names_free(&r->b.names);
    sizes_free(&r->b.sizes);
    buffer_free(&r->want);
    if (r->b.root >= 0)
        close(r->b.root);
    free(r);
    return status;
}

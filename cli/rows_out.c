#define _POSIX_C_SOURCE 200809L
#define _DEFAULT_SOURCE /* flock */
#include "rows_out.h"

#include "complain.h"
#include "unfinished.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

enum { STATE_SECONDS = 5 }; /* between two states */

static bool cannot(const char *path, const char *verb, int error)
{
    complain_at(path, 0, "cannot be %s: %s", verb, strerror(error));
    return false;
}

static bool trouble(const rows_out *out, int error)
{
    if (!out->path)
        complain_stdout(error);
    else
        cannot(out->part, "written", error);
    return false;
}

static bool write_all(rows_out *out, const char *bytes, size_t count)
{
    while (count > 0) {
        ssize_t wrote = write(out->fd, bytes, count);
        if (wrote < 0 && errno != EINTR)
            return trouble(out, errno);
        if (wrote > 0) {
            bytes += wrote;
            count -= (size_t)wrote;
            out->bytes += (uint64_t)wrote;
        }
    }
    return true;
}

/* ---- opening */

static bool make_names(rows_out *out)
{
    const struct {
        char *name;
        const char *ending;
    } names[] = {{out->part, ".part"}, {out->state, ".state"}, {out->state_new, ".state.part"}};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        int length = snprintf(names[i].name, OUTPUT_PATH_MOST, "%s%s", out->path, names[i].ending);
        if (length < 0 || length >= OUTPUT_PATH_MOST)
            return cannot(out->path, "written", ENAMETOOLONG);
    }
    struct stat found;
    if (stat(out->path, &found) == 0 && !S_ISREG(found.st_mode)) {
        complain_at(out->path, 0,
                    "is no regular file that could be replaced: leave -o out and send standard output there");
        return false;
    }
    return true;
}

/* Of two runs into the same file one would spoil the other's. */
static bool lock(const rows_out *out)
{
    if (flock(out->fd, LOCK_EX | LOCK_NB) == 0)
        return true;
    complain_at(out->part, 0, errno == EWOULDBLOCK ? "another run is writing it" : "cannot be locked");
    return false;
}

/* The state comes first, so an empty part, which may have none, is one that nothing was done in. */
static bool begin_part(rows_out *out, const buffer *head)
{
    return (!out->origin || rows_state_write(out)) && write_all(out, head->bytes, head->length);
}

static bool begin_anew(rows_out *out, const buffer *head)
{
    unfinished_hold();
    out->fd = open(out->part, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    int error = errno;
    if (out->fd >= 0 && !out->origin)
        unfinished_add(out->part);
    unfinished_release();
    if (out->fd < 0 && error == EEXIST) {
        complain_at(out->part, 0, "stands from a run that was broken off: go on with --resume, or remove it");
        return false;
    }
    if (out->fd < 0)
        return cannot(out->part, "written", error);
    if (lock(out) && begin_part(out, head))
        return true;
    rows_out_break(out, true);
    return false;
}

/* A line of the part ends with status and message. */
static bool is_good(const csv_line *line)
{
    static const char ok[] = ",TAILOR_OK,";
    size_t length = sizeof ok - 1;
    return line->length >= length && memcmp(line->text + line->length - length, ok, length) == 0;
}

static bool damaged(const rows_out *out)
{
    complain_at(out->part, 0, "is not what %s tells of: remove both, and begin anew", out->state);
    return false;
}

/* Count the lines that are there whole. At one of them the state was written. */
static bool scan_part(rows_out *out, csv_in *part, const buffer *head, uint64_t stated_rows, uint64_t stated_bytes)
{
    csv_line line;
    int got = csv_in_next(part, &line);
    bool agrees = stated_bytes == 0;
    if (got == CSV_IN_LINE && (line.length + 1 != head->length || memcmp(line.text, head->bytes, line.length) != 0))
        return damaged(out);
    while (got == CSV_IN_LINE) {
        out->bytes = part->bytes_used;
        agrees = agrees || (out->rows == stated_rows && out->bytes == stated_bytes);
        got = csv_in_next(part, &line);
        out->rows += got == CSV_IN_LINE;
        out->refused += got == CSV_IN_LINE && !is_good(&line);
    }
    return got == CSV_IN_END && agrees ? true : damaged(out);
}

static bool go_on(rows_out *out, const buffer *head)
{
    uint64_t rows = 0, bytes = 0;
    struct stat found;
    csv_in part;
    if (!lock(out))
        return false;
    if (fstat(out->fd, &found) == 0 && found.st_size == 0)
        return begin_part(out, head);
    csv_in_begin(&part, out->part, out->fd);
    part.torn = true;
    bool good = rows_state_read(out, &rows, &bytes) && scan_part(out, &part, head, rows, bytes);
    buffer_free(&part.text); /* the file stays open */
    if (!good)
        return false;
    if (ftruncate(out->fd, (off_t)out->bytes) != 0 || lseek(out->fd, 0, SEEK_END) < 0)
        return trouble(out, errno);
    return out->bytes > 0 || write_all(out, head->bytes, head->length);
}

bool rows_out_open(rows_out *out, const char *path, const rows_origin *origin, const buffer *head, bool resume)
{
    *out = (rows_out){.path = path, .origin = origin, .fd = STDOUT_FILENO};
    clock_gettime(CLOCK_MONOTONIC, &out->stated);
    if (!path)
        return write_all(out, head->bytes, head->length);
    if (!make_names(out))
        return false;
    out->fd = resume ? open(out->part, O_RDWR | O_CLOEXEC) : -1;
    if (out->fd < 0 && resume && errno != ENOENT)
        return cannot(out->part, "opened", errno);
    if (out->fd < 0)
        return begin_anew(out, head);
    if (go_on(out, head))
        return true;
    close(out->fd);
    return false;
}

/* ---- writing and ending */

bool rows_out_write(rows_out *out, const buffer *lines, size_t rows, size_t refused)
{
    if (!write_all(out, lines->bytes, lines->length))
        return false;
    out->rows += rows;
    out->refused += refused;
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    if (!out->path || !out->origin || now.tv_sec - out->stated.tv_sec < STATE_SECONDS)
        return true;
    out->stated = now;
    if (fsync(out->fd) != 0) /* the state never tells of more than there is */
        return trouble(out, errno);
    return rows_state_write(out);
}

static void remove_state(const rows_out *out)
{
    if (!out->origin)
        return;
    unlink(out->state);
    unlink(out->state_new);
}

bool rows_out_finish(rows_out *out)
{
    if (!out->path)
        return true;
    if (fsync(out->fd) != 0) {
        trouble(out, errno);
        rows_out_break(out, false);
        return false;
    }
    if (out->kept && !rows_state_write(out)) { /* of the end, whenever it was written last */
        rows_out_break(out, false);
        return false;
    }
    unfinished_hold();
    int failed = rename(out->part, out->path), error = errno;
    if (!failed)
        unfinished_remove(out->part);
    unfinished_release();
    if (failed) {
        cannot(out->path, "put in its place", error);
        rows_out_break(out, false);
        return false;
    }
    if (out->kept && rename(out->state, out->kept) != 0)
        return cannot(out->kept, "put in its place", errno);
    remove_state(out);
    if (close(out->fd) != 0)
        return cannot(out->path, "written", errno);
    return true;
}

void rows_out_break(rows_out *out, bool useless)
{
    if (!out->path)
        return;
    close(out->fd);
    if (out->origin && !useless) {
        complain_at(out->part, 0, "%llu orders are done and stay there: --resume goes on",
                    (unsigned long long)out->rows);
        return;
    }
    unfinished_hold();
    unlink(out->part);
    unfinished_remove(out->part);
    unfinished_release();
    remove_state(out);
}

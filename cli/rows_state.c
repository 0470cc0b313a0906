/* The file beside an unfinished table: what the table is made from, as JSON. */
#define _POSIX_C_SOURCE 200809L
#include "complain.h"
#include "json_out.h"
#include "rows_out.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static bool cannot(const char *path, int error)
{
    complain_at(path, 0, "cannot be written: %s", strerror(error));
    return false;
}

/* Zero, or an errno. */
static int save(const char *path, const char *text, size_t length)
{
    int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (fd < 0)
        return errno;
    errno = ENOSPC; /* where a write takes only some of it */
    int error = write(fd, text, length) != (ssize_t)length || fsync(fd) != 0 ? errno : 0;
    if (close(fd) != 0 && !error)
        error = errno;
    if (error)
        unlink(path);
    return error;
}

static char *state_text(const rows_out *out)
{
    const rows_origin_part *parts = out->origin->parts;
    json_t *document = json_document(out->origin->kind);
    bool good = document != NULL;
    for (size_t i = 0; good && i < out->origin->count; i++)
        good = json_put(document, parts[i].member, json_string(parts[i].value));
    good = good && json_put(document, "rows_done", json_integer((json_int_t)out->rows)) &&
           json_put(document, "bytes_done", json_integer((json_int_t)out->bytes));
    document = json_whole(document, good);
    char *text = document ? json_dumps(document, JSON_INDENT(1)) : NULL;
    json_decref(document);
    return text;
}

bool rows_state_write(rows_out *out)
{
    char *text = state_text(out);
    if (!text)
        return cannot(out->state, ENOMEM);
    int error = save(out->state_new, text, strlen(text));
    free(text);
    if (!error && rename(out->state_new, out->state) != 0)
        error = errno;
    return error ? cannot(out->state, error) : true;
}

static bool another(const rows_out *out, const char *otherwise)
{
    complain_at(out->part, 0, "was begun with %s: it cannot be gone on with; remove it to begin anew", otherwise);
    return false;
}

static bool compare(const rows_out *out, const json_t *state)
{
    static const char ours[] = "tailorgeom-";
    const rows_origin_part *parts = out->origin->parts;
    const char *format = json_string_value(json_object_get(state, "format"));
    if (!format || strncmp(format, ours, sizeof ours - 1) != 0 ||
        strcmp(format + sizeof ours - 1, out->origin->kind) != 0 ||
        json_integer_value(json_object_get(state, "format_version")) != 1)
        return another(out, "a program that kept its state otherwise");
    if (json_integer_value(json_object_get(state, "edition")) != tailor_edition())
        return another(out, "another edition of the rules");
    for (size_t i = 0; i < out->origin->count; i++) {
        const char *value = json_string_value(json_object_get(state, parts[i].member));
        if (!value || strcmp(value, parts[i].value) != 0)
            return another(out, parts[i].otherwise);
    }
    return true;
}

bool rows_state_read(const rows_out *out, uint64_t *rows, uint64_t *bytes)
{
    json_error_t error;
    json_t *state = json_load_file(out->state, 0, &error);
    if (!state) {
        complain_at(out->state, 0, "cannot be read, so %s cannot be gone on with; remove it to begin anew", out->part);
        return false;
    }
    bool good = compare(out, state);
    *rows = (uint64_t)json_integer_value(json_object_get(state, "rows_done"));
    *bytes = (uint64_t)json_integer_value(json_object_get(state, "bytes_done"));
    json_decref(state);
    return good;
}

#define _POSIX_C_SOURCE 200809L
#include "rows_in.h"

#include "complain.h"

#include <string.h>
#include <sys/stat.h>

enum { FILL_BYTES_MOST = 1 << 20 };

/* A file can be read twice, a pipe cannot. */
static bool can_read_again(const char *path)
{
    struct stat found;
    return strcmp(path, "-") != 0 && stat(path, &found) == 0 && S_ISREG(found.st_mode);
}

bool rows_in_open(rows_in *in, const char *path)
{
    *in = (rows_in){.again = can_read_again(path)};
    return csv_in_open(&in->csv, path);
}

void rows_in_close(rows_in *in) { csv_in_close(&in->csv); }

bool rows_in_look_through(rows_in *in, const char *path, bool (*look)(void *user, const csv_line *line), void *user)
{
    csv_in csv;
    csv_line line;
    int got;
    bool good = true;
    if (!csv_in_open(&csv, path))
        return false;
    while (good && (got = csv_in_next(&csv, &line)) == CSV_IN_LINE) {
        in->row_count++;
        good = !look || look(user, &line);
    }
    in->row_count -= in->row_count > 0; /* the header */
    csv_in_hash(&csv, in->hash);
    csv_in_close(&csv);
    return good && got == CSV_IN_END;
}

bool rows_in_header(rows_in *in, csv_line *line)
{
    int got = csv_in_next(&in->csv, line);
    if (got == CSV_IN_END)
        complain_at(in->csv.source, 0, "holds nothing: its first line is to name the columns");
    return got == CSV_IN_LINE;
}

bool rows_in_skip(rows_in *in, uint64_t rows, const char *part)
{
    csv_line line;
    for (; in->next < rows; in->next++)
        if (csv_in_next(&in->csv, &line) != CSV_IN_LINE) {
            complain_at(part, 0, "has more lines than %s: remove it, and begin anew", in->csv.source);
            return false;
        }
    return true;
}

bool rows_in_fill(rows_in *in, rows_chunk *chunk, size_t most)
{
    chunk->first = in->next;
    while (chunk->rows < most && chunk->in.length < FILL_BYTES_MOST) {
        csv_line line;
        int got = csv_in_next(&in->csv, &line);
        if (got != CSV_IN_LINE) {
            in->spoilt = got == CSV_IN_FAILED;
            if (in->spoilt)
                chunk->rows = 0;
            return false;
        }
        buffer_add(&chunk->in, line.text, line.length);
        buffer_add(&chunk->in, "\n", 1);
        chunk->rows++;
        in->next++;
    }
    return true;
}

bool rows_in_unchanged(rows_in *in)
{
    char now[CSV_HASH_TEXT];
    csv_in_hash(&in->csv, now);
    if (!in->again || strcmp(now, in->hash) == 0)
        return true;
    complain_at(in->csv.source, 0, "has changed while it was read: begin anew");
    return false;
}

bool is_same_file(const char *a, const char *b)
{
    struct stat one, other;
    return stat(a, &one) == 0 && stat(b, &other) == 0 && one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

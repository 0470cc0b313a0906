#define _POSIX_C_SOURCE 200809L
#include "csv_in.h"

#include "complain.h"
#include "text_in.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

enum { BLOCK = 256 * 1024 };
static const char byte_order_mark[] = "\xEF\xBB\xBF";

void csv_in_begin(csv_in *in, const char *source, int fd)
{
    *in = (csv_in){.source = source, .fd = fd, .line = 1};
    SHA256Init(&in->hash);
}

bool csv_in_open(csv_in *in, const char *path)
{
    int fd = strcmp(path, "-") == 0 ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC);
    csv_in_begin(in, text_source(path), fd);
    if (fd < 0)
        complain_at(in->source, 0, "cannot be opened: %s", strerror(errno));
    return fd >= 0;
}

static bool failed(const csv_in *in, int error)
{
    complain_at(in->source, 0, "cannot be read: %s", strerror(error));
    return false;
}

/* More text behind what is not yet used. */
static bool read_more(csv_in *in)
{
    if (in->at > 0)
        memmove(in->text.bytes, in->text.bytes + in->at, in->text.length - in->at);
    in->text.length -= in->at;
    in->at = 0;
    char *room = buffer_room(&in->text, BLOCK);
    if (!room)
        return failed(in, ENOMEM);
    ssize_t got;
    do
        got = read(in->fd, room, BLOCK);
    while (got < 0 && errno == EINTR);
    if (got < 0)
        return failed(in, errno);
    SHA256Update(&in->hash, (const uint8_t *)room, (size_t)got);
    in->text.length += (size_t)got;
    in->at_end = got == 0;
    return true;
}

static int count_lines(const char *text, size_t length)
{
    int lines = 0;
    const char *end = text + length;
    while ((text = memchr(text, '\n', (size_t)(end - text))) != NULL) {
        lines++;
        text++;
    }
    return lines;
}

static int malformed(const csv_in *in, const char *trouble, size_t at)
{
    const char *text = in->text.bytes + in->at, *begin = text;
    int column = 1;
    for (size_t i = 0; i < at; i++)
        if (text[i] == '\n')
            begin = text + i + 1;
    for (; begin < text + at; begin++)
        column += ((unsigned char)*begin & 0xC0) != 0x80; /* the first byte of a letter */
    complain_at(in->source, in->line + count_lines(text, at), "column %d: %s", column, trouble);
    return CSV_IN_FAILED;
}

/* A record that lies in the text whole: its shape and its place. */
static int take(csv_in *in, const csv_found *found, csv_line *line)
{
    if (in->empty_line) {
        complain_at(in->source, in->empty_line, "an empty line: write every cell, or leave the line out");
        return CSV_IN_FAILED;
    }
    if (in->cells && found->cells != in->cells) {
        complain_at(in->source, in->line, "%zu cell%s, but the header has %zu", found->cells,
                    found->cells == 1 ? "" : "s", in->cells);
        return CSV_IN_FAILED;
    }
    in->cells = found->cells;
    *line = (csv_line){in->text.bytes + in->at, found->length, in->line};
    return CSV_IN_LINE;
}

static void step_over(csv_in *in, const csv_found *found)
{
    in->line += count_lines(in->text.bytes + in->at, found->used);
    in->at += found->used;
    in->bytes_used += found->used;
}

static void skip_mark(csv_in *in)
{
    size_t length = sizeof byte_order_mark - 1;
    if (in->bytes_used == 0 && in->text.length - in->at >= length &&
        memcmp(in->text.bytes + in->at, byte_order_mark, length) == 0)
        in->at = in->bytes_used = length;
}

int csv_in_next(csv_in *in, csv_line *line)
{
    for (;;) {
        csv_found found;
        int outcome = CSV_MORE;
        skip_mark(in);
        size_t left = in->text.length - in->at;
        if (left > 0 && (in->bytes_used > 0 || left > 3 || in->at_end))
            outcome = csv_record(in->text.bytes + in->at, left, in->at_end && !in->torn, NULL, 0, &found);
        if (outcome == CSV_MALFORMED)
            return malformed(in, found.trouble, found.trouble_at);
        if (outcome == CSV_MORE && in->at_end)
            return CSV_IN_END;
        if (outcome == CSV_MORE && left > CSV_BYTES_MOST) {
            complain_at(in->source, in->line, "a line of more than %d bytes: is a quote not closed?", CSV_BYTES_MOST);
            return CSV_IN_FAILED;
        }
        if (outcome == CSV_MORE) {
            if (!read_more(in))
                return CSV_IN_FAILED;
            continue;
        }
        if (found.length > 0) {
            int taken = take(in, &found, line);
            step_over(in, &found);
            return taken;
        }
        if (!in->empty_line)
            in->empty_line = in->line;
        step_over(in, &found);
    }
}

void csv_in_hash(csv_in *in, char text[CSV_HASH_TEXT]) { SHA256End(&in->hash, text); }

void csv_in_close(csv_in *in)
{
    if (in->fd > STDIN_FILENO)
        close(in->fd);
    in->fd = -1;
    buffer_free(&in->text);
}

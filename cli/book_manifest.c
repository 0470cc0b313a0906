#define _POSIX_C_SOURCE 200809L
#include "book_manifest.h"

#include "complain.h"

#include <errno.h>
#include <fcntl.h>
#include <sha2.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static bool cannot(const char *path, int error)
{
    complain_at(path, 0, "cannot be written: %s", strerror(error));
    return false;
}

/* Where line number `lines` ends; -1 when there are not so many. */
static off_t end_of(int fd, uint64_t lines)
{
    static const size_t block = 64 * 1024;
    char text[64 * 1024];
    off_t at = 0;
    for (ssize_t got; lines > 0 && (got = read(fd, text, block)) > 0; at += got)
        for (const char *p = text, *end = text + got; (p = memchr(p, '\n', (size_t)(end - p))) != NULL;)
            if (p++, --lines == 0)
                return at + (p - text);
    return lines == 0 ? 0 : -1;
}

bool book_manifest_open(book_manifest *m, const char *directory, uint64_t lines)
{
    snprintf(m->path, sizeof m->path, "%s/manifest.sha256", directory);
    int length = snprintf(m->part, sizeof m->part, "%s/manifest.sha256.part", directory);
    if (length < 0 || (size_t)length >= sizeof m->part)
        return cannot(directory, ENAMETOOLONG);
    m->fd = open(m->part, O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (m->fd < 0)
        return cannot(m->part, errno);
    off_t end = end_of(m->fd, lines);
    if (end < 0)
        complain_at(m->part, 0, "has fewer lines than the summary tells of: remove %s, and begin anew", directory);
    else if (ftruncate(m->fd, end) == 0 && lseek(m->fd, 0, SEEK_END) >= 0)
        return true;
    else
        cannot(m->part, errno);
    close(m->fd);
    return false;
}

bool book_manifest_write(book_manifest *m, const buffer *lines)
{
    const char *bytes = lines->bytes;
    for (size_t left = lines->length; left > 0;) {
        ssize_t wrote = write(m->fd, bytes, left);
        if (wrote < 0 && errno != EINTR)
            return cannot(m->part, errno);
        if (wrote > 0) {
            bytes += wrote;
            left -= (size_t)wrote;
        }
    }
    return true;
}

bool book_manifest_finish(book_manifest *m, const char *summary_part)
{
    char line[SHA256_DIGEST_STRING_LENGTH + 32];
    if (!SHA256File(summary_part, line)) {
        complain_at(summary_part, 0, "cannot be read: %s", strerror(errno));
        return false;
    }
    strcat(line, "  summary.csv\n");
    buffer last = {.bytes = line, .length = strlen(line)};
    if (!book_manifest_write(m, &last))
        return false;
    if (fsync(m->fd) != 0 || rename(m->part, m->path) != 0)
        return cannot(m->path, errno);
    return true;
}

void book_manifest_break(book_manifest *m, bool useless)
{
    if (m->fd >= 0)
        close(m->fd);
    if (useless)
        unlink(m->part);
    m->fd = -1;
}

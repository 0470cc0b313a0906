#define _POSIX_C_SOURCE 200809L
#include "text_in.h"

#include "complain.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

const char *text_source(const char *path)
{
    return strcmp(path, "-") == 0 ? "standard input" : path;
}

/* Reads until the end or until the buffer is full; -1 on failure, with errno set. */
static ssize_t read_all(int fd, char *buffer, size_t capacity)
{
    size_t filled = 0;
    while (filled < capacity) {
        ssize_t got = read(fd, buffer + filled, capacity - filled);
        if (got == 0)
            break;
        if (got > 0)
            filled += (size_t)got;
        else if (errno != EINTR)
            return -1;
    }
    return (ssize_t)filled;
}

static char *read_most(const char *path, size_t *length, ssize_t most, const char *what)
{
    const char *source = text_source(path);
    int fd = strcmp(path, "-") == 0 ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0) {
        complain_at(source, 0, "cannot be opened: %s", strerror(errno));
        return NULL;
    }
    /* One byte more than is allowed, so that a card that is too large is noticed, and one for the final zero. */
    char *text = malloc((size_t)most + 2);
    ssize_t got = text ? read_all(fd, text, (size_t)most + 1) : -1;
    if (!text || got < 0)
        complain_at(source, 0, "cannot be read: %s", strerror(text ? errno : ENOMEM));
    else if (got > most)
        complain_at(source, 0, "is larger than %d KiB: this is not a %s", (int)(most / 1024), what);
    if (fd != STDIN_FILENO)
        close(fd);
    if (!text || got < 0 || got > most) {
        free(text);
        return NULL;
    }
    text[got] = '\0';
    *length = (size_t)got;
    return text;
}

char *text_read(const char *path, size_t *length) { return read_most(path, length, CARD_BYTES_MOST, "card"); }

char *text_read_pattern(const char *path, size_t *length)
{
    return read_most(path, length, PATTERN_BYTES_MOST, "pattern");
}

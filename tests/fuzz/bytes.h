/* Reading numbers, curves and text out of a fuzzer's bytes; past the end everything reads as zero. */
#ifndef TESTS_FUZZ_BYTES_H
#define TESTS_FUZZ_BYTES_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/geom.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct {
    const uint8_t *at;
    size_t left;
} bytes;

static inline unsigned bytes_small(bytes *b)
{
    if (b->left == 0)
        return 0;
    b->left--;
    return *b->at++;
}

/* Mostly millimetres of a pattern, now and then any double at all: huge, tiny, infinite or not a number. */
static inline double bytes_number(bytes *b)
{
    unsigned kind = bytes_small(b);
    if (kind < 8) {
        double any = 0;
        if (b->left >= sizeof any) {
            memcpy(&any, b->at, sizeof any);
            b->at += sizeof any;
            b->left -= sizeof any;
        }
        return any;
    }
    int whole = (int)(bytes_small(b) << 8 | bytes_small(b)) - 32768;
    return kind < 32 ? whole : whole / 32.0;
}

static inline tailor_point bytes_point(bytes *b)
{
    tailor_point p;
    p.x = bytes_number(b);
    p.y = bytes_number(b);
    return p;
}

/* A path of up to `room` cubics, each beginning where the one before ends. */
static inline size_t bytes_path(bytes *b, tailor_cubic *path, size_t room)
{
    size_t count = bytes_small(b) % (room + 1);
    tailor_point from = bytes_point(b);
    for (size_t i = 0; i < count; i++) {
        path[i].p[0] = from;
        for (int j = 1; j < 4; j++)
            path[i].p[j] = bytes_point(b);
        from = path[i].p[3];
    }
    return count;
}

/* Up to `room - 1` bytes as text, zero-terminated. */
static inline void bytes_text(bytes *b, char *text, size_t room)
{
    size_t length = bytes_small(b);
    length = length < room - 1 ? length : room - 1;
    length = length < b->left ? length : b->left;
    memcpy(text, b->at, length);
    text[length] = 0;
    b->at += length;
    b->left -= length;
}

#define check(holds) check_at((holds), #holds, __FILE__, __LINE__)

static inline void check_at(int holds, const char *what, const char *file, int line)
{
    if (!holds) {
        fprintf(stderr, "%s:%d: does not hold: %s\n", file, line, what);
        abort();
    }
}

#endif

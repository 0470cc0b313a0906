#include "buffer.h"

#include <stdlib.h>
#include <string.h>

char *buffer_room(buffer *b, size_t count)
{
    if (b->failed)
        return NULL;
    if (count > b->capacity - b->length) {
        size_t capacity = b->capacity ? b->capacity : 4096;
        while (capacity - b->length < count)
            capacity *= 2;
        char *bytes = realloc(b->bytes, capacity);
        if (!bytes) {
            b->failed = true;
            return NULL;
        }
        b->bytes = bytes;
        b->capacity = capacity;
    }
    return b->bytes + b->length;
}

void buffer_add(buffer *b, const char *bytes, size_t count)
{
    char *room = count ? buffer_room(b, count) : NULL;
    if (!room)
        return;
    memcpy(room, bytes, count);
    b->length += count;
}

void buffer_say(buffer *b, const char *text) { buffer_add(b, text, strlen(text)); }

void buffer_free(buffer *b)
{
    free(b->bytes);
    *b = (buffer){0};
}

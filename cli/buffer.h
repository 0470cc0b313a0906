/* buffer: bytes put together, growing as they come. One that ran out of memory takes nothing more and says so at the
 * end. */
#ifndef CLI_BUFFER_H
#define CLI_BUFFER_H

#include <stdbool.h>
#include <stddef.h>

typedef struct buffer {
    char *bytes;
    size_t length, capacity;
    bool failed; /* memory ran out: what was added since is lost */
} buffer;

void buffer_add(buffer *b, const char *bytes, size_t count);
void buffer_say(buffer *b, const char *text);
/** Room for `count` more bytes at bytes + length, to be filled by the caller; NULL when memory has run out. */
char *buffer_room(buffer *b, size_t count);
void buffer_free(buffer *b);

#endif

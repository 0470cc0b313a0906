#include "csv.h"

#include <string.h>

static const char inside[] = "a quote stands inside a cell: write 40 3/8 in for an inch mark, or the whole cell in "
                             "quotes and each of its marks twice";
static const char after[] =
    "something follows the quote that ends a cell: within a cell in quotes each mark stands twice";
static const char open[] = "a quote is opened here and never closed";
static const char alone[] = "a carriage return stands alone: lines end with a line feed";
static const char nul[] = "a NUL byte: this is not text";

/* Bytes that end a run of plain ones. */
static bool is_special(char c) { return c == ',' || c == '"' || c == '\n' || c == '\r' || c == '\0'; }

static int malformed(csv_found *found, const char *trouble, size_t at)
{
    found->trouble = trouble;
    found->trouble_at = at;
    return CSV_MALFORMED;
}

/* Past the closing quote of the cell that begins at `at`. */
static int skip_quoted(const char *text, size_t bytes, bool at_end, size_t *at, csv_found *found)
{
    size_t i = *at + 1;
    for (;;) {
        const char *quote = memchr(text + i, '"', bytes - i);
        if (memchr(text + i, '\0', (quote ? (size_t)(quote - text) : bytes) - i))
            return malformed(found, nul, i + strlen(text + i));
        if (!quote)
            return at_end ? malformed(found, open, *at) : CSV_MORE;
        i = (size_t)(quote - text) + 1;
        if (i == bytes && !at_end) /* the next byte tells whether it stands twice */
            return CSV_MORE;
        if (i == bytes || text[i] != '"')
            break;
        i++;
    }
    *at = i;
    return CSV_RECORD;
}

int csv_record(const char *text, size_t bytes, bool at_end, csv_cell *cells, size_t room, csv_found *found)
{
    *found = (csv_found){0};
    for (size_t at = 0;;) {
        size_t begin = at;
        bool quoted = at < bytes && text[at] == '"';
        if (quoted) {
            int outcome = skip_quoted(text, bytes, at_end, &at, found);
            if (outcome != CSV_RECORD)
                return outcome;
        }
        while (!quoted && at < bytes && !is_special(text[at]))
            at++;
        if (at == bytes && !at_end)
            return CSV_MORE;
        char end = at < bytes ? text[at] : '\n';
        if (end == '\r' && at + 1 == bytes && !at_end)
            return CSV_MORE;
        if (found->cells++ < room)
            cells[found->cells - 1] = (csv_cell){text + begin, at - begin};
        if (end == ',') {
            at++;
            continue;
        }
        bool both = end == '\r' && at + 1 < bytes && text[at + 1] == '\n';
        if (end == '\n' || both) {
            found->length = at;
            found->used = at + (at < bytes) + both;
            return CSV_RECORD;
        }
        return malformed(found,
                         end == '"'    ? inside
                         : end == '\0' ? nul
                         : quoted      ? after
                         : end == '\r' ? alone
                                       : after,
                         at);
    }
}

size_t csv_say(csv_cell cell, char *text)
{
    size_t length = 0, begin = 0;
    bool quoted = cell.length > 1 && cell.text[0] == '"';
    for (size_t i = quoted; i < cell.length - quoted; i++) {
        text[length++] = cell.text[i];
        i += quoted && cell.text[i] == '"'; /* the first of two */
    }
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t'))
        length--;
    while (begin < length && (text[begin] == ' ' || text[begin] == '\t'))
        begin++;
    memmove(text, text + begin, length - begin);
    text[length - begin] = '\0';
    return length - begin;
}

void csv_add(buffer *b, const char *text)
{
    if (!text[strcspn(text, ",\"\r\n")]) {
        buffer_say(b, text);
        return;
    }
    buffer_add(b, "\"", 1);
    for (size_t plain; (plain = strcspn(text, "\"")), text[plain]; text += plain + 1) {
        buffer_add(b, text, plain);
        buffer_add(b, "\"\"", 2);
    }
    buffer_say(b, text);
    buffer_add(b, "\"", 1);
}

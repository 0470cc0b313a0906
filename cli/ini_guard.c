#include "ini_guard.h"

#include "complain.h"
#include "nearest.h"

#include <string.h>

enum { SECTIONS_MOST = 16 };

typedef struct guard {
    const char *source;
    const char *const *sections;
    size_t section_count;
    int seen[SECTIONS_MOST]; /* the line each section stood on, 0 for not yet */
    bool in_section;
    int line;
} guard;

/* Bytes of the well-formed UTF-8 character at `s` (RFC 3629), 0 if there is none; its code point out. */
static size_t utf8_character(const unsigned char *s, size_t left, unsigned long *code)
{
    static const unsigned long least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t bytes = s[0] < 0x80             ? 1
                   : (s[0] & 0xE0) == 0xC0 ? 2
                   : (s[0] & 0xF0) == 0xE0 ? 3
                   : (s[0] & 0xF8) == 0xF0 ? 4
                                           : 0;
    if (bytes == 0 || bytes > left)
        return 0;
    *code = bytes == 1 ? s[0] : s[0] & (0x7Fu >> bytes);
    for (size_t i = 1; i < bytes; i++) {
        if ((s[i] & 0xC0) != 0x80)
            return 0;
        *code = *code << 6 | (s[i] & 0x3Fu);
    }
    bool surrogate = *code >= 0xD800 && *code <= 0xDFFF;
    return *code < least[bytes] || *code > 0x10FFFF || surrogate ? 0 : bytes;
}

static bool is_control(unsigned long code)
{
    return (code < 0x20 && code != '\t') || (code >= 0x7F && code <= 0x9F) || code == 0xFFFE || code == 0xFFFF;
}

static bool plain_text(const guard *g, const char *line, size_t length)
{
    for (size_t at = 0; at < length;) {
        unsigned long code = 0;
        size_t bytes = utf8_character((const unsigned char *)line + at, length - at, &code);
        const char *wrong = bytes == 0         ? "is not UTF-8 text: this is not a card"
                            : code == 0        ? "holds a NUL: this is not a card"
                            : is_control(code) ? "holds a control character: this is not a card"
                                               : NULL;
        if (wrong) {
            complain_at(g->source, g->line, "byte %zu of the line %s", at + 1, wrong);
            return false;
        }
        at += bytes;
    }
    return true;
}

/* First of `wanted` in the line before a comment begins (a semicolon after a blank), as the parser finds it. */
static const char *find_before_comment(const char *at, const char *end, const char *wanted)
{
    for (bool blank = false; at < end; blank = *at == ' ' || *at == '\t', at++) {
        if (blank && *at == ';')
            return NULL;
        if (strchr(wanted, *at))
            return at;
    }
    return NULL;
}

static bool section_line(guard *g, const char *line, const char *end)
{
    const char *close = find_before_comment(line + 1, end, "]");
    const char *after = close ? close + 1 : end;
    while (after < end && (*after == ' ' || *after == '\t'))
        after++;
    bool comment = after < end && *after == ';' && after > close + 1;
    char name[CARD_LINE_BYTES_MOST + 1] = "";
    if (!close || (after < end && !comment)) {
        complain_at(g->source, g->line, "a section stands alone on its line, in brackets: [measures]");
        return false;
    }
    memcpy(name, line + 1, (size_t)(close - line) - 1);
    for (size_t i = 0; i < g->section_count; i++) {
        if (strcmp(name, g->sections[i]) != 0)
            continue;
        if (g->seen[i]) {
            complain_at(g->source, g->line, "section [%s] stands already on line %d", name, g->seen[i]);
            return false;
        }
        g->seen[i] = g->line;
        g->in_section = true;
        return true;
    }
    const char *near = nearest_name(name, g->sections, g->section_count);
    complain_at(g->source, g->line, "unknown section [%s]%s%s%s", name, near ? ": did you mean [" : "",
                near ? near : "", near ? "]?" : "");
    return false;
}

static bool key_line(const guard *g, const char *line, const char *end)
{
    const char *sign = find_before_comment(line, end, "=:");
    if (!sign || *sign != '=' || sign == line) {
        complain_at(g->source, g->line, "a line is a key, an equals sign and a value: chest_girth = 1016");
        return false;
    }
    if (!g->in_section) {
        complain_at(g->source, g->line, "a key stands before the first section: begin the card with [measures]");
        return false;
    }
    return true;
}

static bool check_line(guard *g, const char *line, size_t length)
{
    if (!plain_text(g, line, length))
        return false;
    if (length > CARD_LINE_BYTES_MOST) {
        complain_at(g->source, g->line, "the line has %zu bytes, %d are the most", length, CARD_LINE_BYTES_MOST);
        return false;
    }
    if (strspn(line, " \t") >= length || line[0] == ';' || line[0] == '#')
        return true;
    if (line[0] == ' ' || line[0] == '\t') {
        complain_at(g->source, g->line, "the line is indented: begin it at the margin");
        return false;
    }
    return line[0] == '[' ? section_line(g, line, line + length) : key_line(g, line, line + length);
}

bool ini_guard(const char *source, const char *text, size_t length, const char *const *sections, size_t section_count)
{
    guard g = {.source = source, .sections = sections, .section_count = section_count};
    const char *end = text + length;
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) /* byte-order mark */
        text += 3;
    while (text < end) {
        const char *stop = memchr(text, '\n', (size_t)(end - text));
        if (!stop)
            stop = end;
        size_t bytes = (size_t)(stop - text);
        if (bytes > 0 && text[bytes - 1] == '\r')
            bytes--;
        g.line++;
        if (!check_line(&g, text, bytes))
            return false;
        text = stop < end ? stop + 1 : end;
    }
    return true;
}

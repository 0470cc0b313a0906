#include "ini_guard.h"

#include "complain.h"
#include "nearest.h"

#include <stdlib.h>
#include <string.h>

enum { SECTIONS_MOST = 16 };

typedef struct guard {
    const char *source;
    const char *const *sections;
    size_t section_count;
    int seen[SECTIONS_MOST]; /* the line each section stood on, 0 for not yet */
    ini_fittings *fittings;
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

bool ini_guard_line(const char *source, int line, const char *text, size_t length, const char *what)
{
    for (size_t at = 0; at < length;) {
        unsigned long code = 0;
        size_t bytes = utf8_character((const unsigned char *)text + at, length - at, &code);
        const char *wrong = bytes == 0         ? "is not UTF-8 text"
                            : code == 0        ? "holds a NUL"
                            : is_control(code) ? "holds a control character"
                                               : NULL;
        if (wrong) {
            complain_at(source, line, "byte %zu of the line %s: this is not %s", at + 1, wrong, what);
            return false;
        }
        at += bytes;
    }
    if (length > CARD_LINE_BYTES_MOST)
        complain_at(source, line, "the line has %zu bytes, %d are the most", length, CARD_LINE_BYTES_MOST);
    return length <= CARD_LINE_BYTES_MOST;
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

/* "fitting 3": fittings stand in their order, so that none is lost or doubled unnoticed. */
static bool fitting_line(guard *g, const char *number)
{
    ini_fittings *all = g->fittings;
    size_t digits = strspn(number, "0123456789");
    long n = digits > 0 && digits < 6 && !number[digits] && number[0] != '0' ? strtol(number, NULL, 10) : 0;
    if (n == 0)
        complain_at(g->source, g->line, "fittings are counted: [fitting 1], [fitting 2] and so on");
    else if (n <= all->count)
        complain_at(g->source, g->line, "section [fitting %ld] stands already on line %d", n, all->line[n - 1]);
    else if (n > all->count + 1)
        complain_at(g->source, g->line, "[fitting %ld] stands where [fitting %d] is expected: none may be missing; one "
                    "that shall not count keeps its place with a line left_out = yes", n, all->count + 1);
    else if (n > FITTINGS_MOST)
        complain_at(g->source, g->line, "a card holds %d fittings at most", FITTINGS_MOST);
    if (n != all->count + 1 || n > FITTINGS_MOST)
        return false;
    all->line[all->count++] = g->line;
    g->in_section = true;
    return true;
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
    if (strncmp(name, "fitting", 7) == 0)
        return fitting_line(g, name[7] == ' ' ? name + 8 : "");
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
    if (!ini_guard_line(g->source, g->line, line, length, "a card"))
        return false;
    if (strspn(line, " \t") >= length || line[0] == ';' || line[0] == '#')
        return true;
    if (line[0] == ' ' || line[0] == '\t') {
        complain_at(g->source, g->line, "the line is indented: begin it at the margin");
        return false;
    }
    return line[0] == '[' ? section_line(g, line, line + length) : key_line(g, line, line + length);
}

bool ini_guard(const char *source, const char *text, size_t length, const char *const *sections, size_t section_count,
               ini_fittings *fittings)
{
    guard g = {.source = source, .sections = sections, .section_count = section_count, .fittings = fittings};
    *fittings = (ini_fittings){0};
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

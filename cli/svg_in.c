#include "svg_in.h"

#include "complain.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ATTRIBUTE = 64, CUBICS_MOST = 4096 };

typedef struct svg {
    const char *source, *begin, *at;
    double scale, x, y; /* a point of the file is ((x' - x) scale, -(y' - y) scale) */
    tailor_builder *builder;
    int pieces;
    tailor_cubic *cubics; /* of the path being read */
    size_t count;
} svg;

static int line_of(const svg *s)
{
    int line = 1;
    for (const char *at = s->begin; at < s->at; at++)
        line += *at == '\n';
    return line;
}

static bool refuse(const svg *s, const char *what)
{
    complain_at(s->source, line_of(s), "%s", what);
    return false;
}

/* ---- elements and attributes */

static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

/* The value of an attribute of the element that begins at `tag`, between its quotes; NULL when it has none. */
static const char *attribute(const char *tag, const char *name, size_t *length)
{
    const char *end = tag + strcspn(tag, ">");
    for (const char *at = tag; at < end; at++) {
        size_t known = strlen(name);
        if (*at == '"' || *at == '\'') { /* over a value */
            const char *close = strchr(at + 1, *at);
            if (!close)
                return NULL;
            if (close > end)
                end = close + strcspn(close, ">");
            at = close;
        } else if (is_blank(*at) && strncmp(at + 1, name, known) == 0) {
            const char *after = at + 1 + known;
            after += strspn(after, " \t\r\n");
            if (*after != '=')
                continue;
            after += 1 + strspn(after + 1, " \t\r\n");
            const char *close = *after == '"' || *after == '\'' ? strchr(after + 1, *after) : NULL;
            *length = close ? (size_t)(close - after - 1) : 0;
            return close ? after + 1 : NULL;
        }
    }
    return NULL;
}

/* A number of SVG, with a point whatever the locale: the program never sets one. False when there is none. */
static bool number(const char **at, const char *end, double *value)
{
    char text[ATTRIBUTE], *stop;
    while (*at < end && (is_blank(**at) || **at == ','))
        (*at)++;
    size_t length = 0;
    for (bool point = false, power = false; *at + length < end && length + 1 < sizeof text; length++) {
        char c = (*at)[length], before = length ? (*at)[length - 1] : '\0';
        bool sign = (c == '-' || c == '+') && (!length || before == 'e' || before == 'E');
        if (!(sign || (c >= '0' && c <= '9') || (c == '.' && !point && !power) ||
              ((c == 'e' || c == 'E') && length && !power)))
            break;
        point |= c == '.';
        power |= c == 'e' || c == 'E';
        text[length] = c;
    }
    text[length] = '\0';
    *value = strtod(text, &stop);
    *at += stop - text;
    return stop > text && isfinite(*value);
}

static bool read_scale(svg *s, const char *tag)
{
    static const struct {
        const char *unit;
        double mm;
    } units[] = {{"mm", 1}, {"cm", 10}, {"in", 25.4}};
    size_t width_length = 0, box_length = 0;
    const char *width = attribute(tag, "width", &width_length), *box = attribute(tag, "viewBox", &box_length);
    double wide = 0, values[4];
    const char *end = width ? width + width_length : NULL;
    if (!width || !box || !number(&width, end, &wide))
        return refuse(s, "the svg element needs a width in mm, cm or in, and a viewBox: else nobody knows how large a "
                         "unit is");
    for (size_t i = 0; i < 3; i++)
        if ((size_t)(end - width) == strlen(units[i].unit) && strncmp(width, units[i].unit, strlen(units[i].unit)) == 0)
            s->scale = units[i].mm * wide;
    end = box + box_length;
    for (size_t i = 0; i < 4; i++)
        if (!number(&box, end, &values[i]))
            return refuse(s, "a viewBox is four numbers");
    if (!(s->scale > 0) || !(values[2] > 0))
        return refuse(s, "the width of the svg element is in mm, cm or in, and more than 0");
    s->scale /= values[2];
    s->x = values[0];
    s->y = values[1] + values[3];
    return true;
}

/* ---- a path */

static tailor_point placed(const svg *s, tailor_point p)
{
    return (tailor_point){(p.x - s->x) * s->scale, (s->y - p.y) * s->scale};
}

static bool add(svg *s, tailor_cubic c)
{
    if (hypot(c.p[3].x - c.p[0].x, c.p[3].y - c.p[0].y) * s->scale < 1e-6 &&
        hypot(c.p[1].x - c.p[0].x, c.p[1].y - c.p[0].y) * s->scale < 1e-6)
        return true; /* of no length */
    if (s->count == CUBICS_MOST)
        return refuse(s, "a path has more than 4096 curves");
    for (int i = 0; i < 4; i++)
        c.p[i] = placed(s, c.p[i]);
    s->cubics[s->count++] = c;
    return true;
}

static tailor_point mix(tailor_point a, tailor_point b, double t)
{
    return (tailor_point){a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
}

/* How many numbers a command takes; -1 for one that is not taken. */
static int numbers_of(char command)
{
    static const char known[] = "MLHVCQZ";
    static const int count[] = {2, 2, 1, 1, 6, 4, 0};
    const char *found = command ? strchr(known, command) : NULL;
    return found ? count[found - known] : -1;
}

static bool read_path(svg *s, const char *d, const char *end)
{
    tailor_point here = {0, 0}, begin = {0, 0};
    char command = '\0';
    bool closed = false;
    s->count = 0;
    for (int first = 1;; first = 0) {
        double n[6];
        while (d < end && (is_blank(*d) || *d == ','))
            d++;
        if (d == end)
            break;
        if ((*d >= 'a' && *d <= 'z') || (*d >= 'A' && *d <= 'Z')) {
            command = *d++;
            if (closed)
                return refuse(s, "a path is one closed outline: something follows its Z");
        } else if (!command || strchr("Zz", command)) {
            return refuse(s, "a path begins with M, and each of its parts with a letter");
        }
        const bool relative = command >= 'a';
        const char big = relative ? (char)(command - 'a' + 'A') : command;
        const int count = numbers_of(big);
        if (count < 0)
            return refuse(s, "a path is made of M, L, H, V, C, Q and Z: turn arcs and smooth curves into C");
        if (first != (big == 'M'))
            return refuse(s, "a path is one closed outline: M stands at its beginning and nowhere else");
        for (int i = 0; i < count; i++)
            if (!number(&d, end, &n[i]))
                return refuse(s, "a number is missing in a path");
        tailor_point p[3] = {here, here, here}, last = here;
        for (int i = 0; i < count / 2; i++)
            p[i] = (tailor_point){n[2 * i] + (relative ? here.x : 0), n[2 * i + 1] + (relative ? here.y : 0)};
        bool good = true;
        switch (big) {
        case 'M':
            begin = last = p[0];
            command = relative ? 'l' : 'L';
            break;
        case 'H': last.x = n[0] + (relative ? here.x : 0); break;
        case 'V': last.y = n[0] + (relative ? here.y : 0); break;
        case 'L': last = p[0]; break;
        case 'Z':
            last = begin;
            closed = true;
            break;
        case 'C':
            last = p[2];
            good = add(s, (tailor_cubic){{here, p[0], p[1], p[2]}});
            break;
        default: /* Q, raised */
            last = p[1];
            good = add(s, (tailor_cubic){{here, mix(here, p[0], 2.0 / 3), mix(p[1], p[0], 2.0 / 3), p[1]}});
        }
        if (strchr("HVLZ", big))
            good = add(s, tailor_cubic_line(here, last));
        if (!good)
            return false;
        here = last;
    }
    return closed ? true : refuse(s, "a path is not closed: end it with Z");
}

/* ---- a piece */

static double direction(const tailor_cubic *c, int at_end)
{
    const tailor_point *p = c->p;
    for (int i = 1; i < 4; i++) {
        const tailor_point a = at_end ? p[3 - i] : p[0], b = at_end ? p[3] : p[i];
        if (hypot(b.x - a.x, b.y - a.y) > 1e-6)
            return atan2(b.y - a.y, b.x - a.x);
    }
    return 0;
}

static bool is_corner(const svg *s, size_t cubic)
{
    const double turn = direction(&s->cubics[cubic], 0) - direction(&s->cubics[(cubic + s->count - 1) % s->count], 1);
    return fabs(remainder(turn, 2 * acos(-1))) > 10 * acos(-1) / 180;
}

static void turn_counter_clockwise(svg *s)
{
    if (tailor_path_area(s->cubics, s->count) >= 0)
        return;
    for (size_t i = 0; i < (s->count + 1) / 2; i++) {
        const tailor_cubic a = s->cubics[i], b = s->cubics[s->count - 1 - i];
        for (int k = 0; k < 4; k++) {
            s->cubics[s->count - 1 - i].p[k] = a.p[3 - k];
            s->cubics[i].p[k] = b.p[3 - k];
        }
    }
}

/* Begin at a corner, so that edges are whole; a piece without any is one edge. */
static bool begin_at_corner(svg *s)
{
    size_t first = 0;
    while (first < s->count && !is_corner(s, first))
        first++;
    if (first == 0 || first == s->count)
        return true;
    tailor_cubic *turned = malloc(s->count * sizeof *turned);
    if (!turned)
        return refuse(s, "out of memory");
    for (size_t i = 0; i < s->count; i++)
        turned[i] = s->cubics[(first + i) % s->count];
    memcpy(s->cubics, turned, s->count * sizeof *turned);
    free(turned);
    return true;
}

static bool said(const svg *s, tailor_status status, const tailor_fault *fault)
{
    return status == TAILOR_OK || refuse(s, fault->sentence);
}

static bool add_piece(svg *s, const char *id, size_t length)
{
    char name[ATTRIBUTE];
    tailor_fault fault;
    tailor_point corners[CUBICS_MOST];
    int edges = 0;
    s->pieces++;
    if (id && length < sizeof name)
        snprintf(name, sizeof name, "%.*s", (int)length, id);
    else
        snprintf(name, sizeof name, "piece_%d", s->pieces);
    if (!s->count)
        return refuse(s, "a path has no length");
    turn_counter_clockwise(s);
    if (!begin_at_corner(s) ||
        !said(s, tailor_builder_add_piece(s->builder, name, 1, 0, TAILOR_SIDE_BOTH, "cloth", &fault), &fault))
        return false;
    for (size_t from = 0, to; from < s->count; from = to) {
        char edge[ATTRIBUTE];
        for (to = from + 1; to < s->count && !is_corner(s, to); to++)
            ;
        corners[edges] = s->cubics[from].p[0];
        snprintf(edge, sizeof edge, "edge_%d", ++edges);
        if (!said(s, tailor_builder_add_edge(s->builder, edge, s->cubics + from, to - from, &fault), &fault))
            return false;
    }
    for (int i = 0; i < edges; i++) {
        char point[ATTRIBUTE];
        snprintf(point, sizeof point, "corner_%d", i + 1);
        if (!said(s, tailor_builder_add_point(s->builder, point, corners[i], &fault), &fault))
            return false;
    }
    return true;
}

static bool is_element(const char *at, const char *name)
{
    size_t length = strlen(name);
    return strncmp(at + 1, name, length) == 0 && (is_blank(at[1 + length]) || strchr("/>", at[1 + length]));
}

static bool read_element(svg *s, const char *tag)
{
    static const char *const others[] = {"rect", "circle", "ellipse", "polygon", "polyline", "use", "image", "symbol"};
    size_t length = 0, id_length = 0;
    s->at = tag;
    if (attribute(tag, "transform", &length))
        return refuse(s, "a transform: write the coordinates where they are meant");
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (is_element(tag, others[i])) {
            complain_at(s->source, line_of(s), "%s: outlines are taken from paths only", others[i]);
            return false;
        }
    if (is_element(tag, "svg"))
        return s->scale > 0 ? refuse(s, "an svg element within another") : read_scale(s, tag);
    if (!is_element(tag, "path"))
        return true;
    if (!(s->scale > 0))
        return refuse(s, "a path before the svg element");
    const char *d = attribute(tag, "d", &length), *id = attribute(tag, "id", &id_length);
    if (!d)
        return refuse(s, "a path without d");
    return read_path(s, d, d + length) && add_piece(s, id, id_length);
}

/* Over comments, declarations and whole texts; to each element's beginning. */
static bool read_all(svg *s)
{
    for (const char *at = s->begin; (at = strchr(at, '<')) != NULL;) {
        static const struct {
            const char *begin, *end;
        } passed[] = {{"<!--", "-->"}, {"<![CDATA[", "]]>"}, {"<?", "?>"}, {"<!", ">"}, {"<style", "</style"}};
        size_t i = 0, kinds = sizeof passed / sizeof passed[0];
        while (i < kinds && strncmp(at, passed[i].begin, strlen(passed[i].begin)) != 0)
            i++;
        if (i < kinds) {
            const char *end = strstr(at + strlen(passed[i].begin), passed[i].end);
            s->at = at;
            if (!end)
                return refuse(s, "something is begun here and never ended: this is not XML");
            at = end + strlen(passed[i].end);
            continue;
        }
        if (!read_element(s, at))
            return false;
        at++;
    }
    s->at = s->begin;
    return s->pieces > 0 || refuse(s, "there is no path in it");
}

tailor_pattern *svg_read(const char *source, const char *text, size_t bytes)
{
    svg s = {.source = source, .begin = text, .at = text};
    tailor_pattern *pattern = NULL;
    tailor_fault fault;
    if (memchr(text, '\0', bytes)) {
        complain_at(source, 0, "a NUL byte: this is not text");
        return NULL;
    }
    s.cubics = malloc(CUBICS_MOST * sizeof *s.cubics);
    bool good = s.cubics && tailor_builder_begin(NULL, &s.builder, &fault) == TAILOR_OK;
    if (!good)
        complain("out of memory");
    if (good && read_all(&s))
        said(&s, tailor_builder_finish(s.builder, NULL, &pattern, &fault), &fault);
    tailor_builder_free(s.builder);
    free(s.cubics);
    return pattern;
}

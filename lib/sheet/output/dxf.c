/* DXF of release 12, ASCII: the form that the most programs and machines read. It knows no cubics, so curves are
 * chords, and no units, so the header says them the way later releases do. A block a piece, in the piece's own axes;
 * nothing but layers, whose names are words, tells what a line is. */
#include "dxf.h"

#include "../layout/lettering.h"
#include "write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double gap = 60, row_width = 3000; /* mm, between pieces; of a row of them */
static const double same = 1e-4;                /* mm: nearer points are one; the last figure that is written */

enum { OUTLINE, NOTCH, GRAIN, BUTTON, HOLE, DART, MARK, FOLD, TEXT, LAYERS };
static const char *const layers[LAYERS] = {"outline", "notch", "grain", "button", "hole",
                                           "dart",    "mark",  "fold",  "text"};

/* ---- groups: a code and a value, a line each */

static void put_code(struct tailor_in_sink *sink, int code)
{
    const char text[] = {code > 99 ? (char)('0' + code / 100) : ' ', code > 9 ? (char)('0' + code / 10 % 10) : ' ',
                         (char)('0' + code % 10), '\n'};
    tailor_in_sink_put(sink, text, sizeof text);
}

static void put_word(struct tailor_in_sink *sink, int code, const char *word)
{
    put_code(sink, code);
    tailor_in_sink_string(sink, word);
    tailor_in_sink_put(sink, "\n", 1);
}

static void put_whole(struct tailor_in_sink *sink, int code, int value)
{
    char text[16];
    snprintf(text, sizeof text, "%d", value);
    put_word(sink, code, text);
}

static void put_number(struct tailor_in_sink *sink, int code, double value)
{
    char text[32];
    put_code(sink, code);
    tailor_in_sink_put(sink, text, tailor_in_number_write(text, value, 4));
    tailor_in_sink_put(sink, "\n", 1);
}

static void put_point(struct tailor_in_sink *sink, int code, tailor_point p)
{
    put_number(sink, code, p.x);
    put_number(sink, code + 10, p.y);
    put_number(sink, code + 20, 0);
}

static void put_entity(struct tailor_in_sink *sink, const char *kind, int layer)
{
    put_word(sink, 0, kind);
    put_word(sink, 8, layers[layer]);
}

/* Text of any script in ASCII; what the format gives a meaning to stands for itself. */
static void put_text_value(struct tailor_in_sink *sink, const char *text)
{
    unsigned before = 0;
    put_code(sink, 1);
    for (unsigned letter; (letter = tailor_in_text_next(&text)) != 0;) {
        char code[16];
        if (letter >= 0x80)
            snprintf(code, sizeof code, "\\U+%04X", letter > 0xFFFF ? 0xFFFD : letter);
        else if (letter == '^')
            snprintf(code, sizeof code, "^ ");
        else if (letter == '%' && (*text == '%' || before == '%'))
            snprintf(code, sizeof code, "%%%%%%");
        else
            snprintf(code, sizeof code, "%c", (char)letter);
        tailor_in_sink_string(sink, code);
        before = letter;
    }
    tailor_in_sink_put(sink, "\n", 1);
}

/* ---- what is drawn */

static double apart(tailor_point a, tailor_point b) { return hypot(a.x - b.x, a.y - b.y); }

/* Into how many chords of equal parameter: the distance of a chord from its curve is an eighth of the second derivative
 * at most, times the step squared. */
static int chords_of(const tailor_cubic *c)
{
    double bend = 0;
    for (int k = 0; k < 2; k++)
        bend = fmax(bend, hypot(c->p[k].x - 2 * c->p[k + 1].x + c->p[k + 2].x,
                                c->p[k].y - 2 * c->p[k + 1].y + c->p[k + 2].y));
    const double chords = ceil(sqrt(6 * bend / (8 * TAILOR_IN_DXF_TOLERANCE)));
    return chords > 1 ? chords < 1e5 ? (int)chords : 100000 : 1;
}

/* Points that hang together, each once. */
static void put_polyline(struct tailor_in_sink *sink, int layer, const tailor_cubic *path, size_t count)
{
    const tailor_point first = path[0].p[0];
    const int closed = count > 1 && apart(first, path[count - 1].p[3]) < same;
    tailor_point last = first;
    put_entity(sink, "POLYLINE", layer);
    put_whole(sink, 66, 1);
    put_point(sink, 10, (tailor_point){0, 0});
    put_whole(sink, 70, closed);
    put_entity(sink, "VERTEX", layer);
    put_point(sink, 10, first);
    for (size_t i = 0; i < count; i++) {
        const int chords = chords_of(&path[i]);
        for (int k = 1; k <= chords; k++) {
            const tailor_point p = k < chords ? tailor_cubic_point(&path[i], (double)k / chords) : path[i].p[3];
            if (apart(p, last) < same || (closed && i == count - 1 && k == chords))
                continue;
            put_entity(sink, "VERTEX", layer);
            put_point(sink, 10, p);
            last = p;
        }
    }
    put_entity(sink, "SEQEND", layer);
}

/* A rim of four quarters is the circle that it stands for. */
static int put_circle(struct tailor_in_sink *sink, int layer, const tailor_cubic *path, size_t count)
{
    if (count != 4)
        return 0;
    const tailor_point centre = {(path[0].p[0].x + path[2].p[0].x) / 2, (path[0].p[0].y + path[2].p[0].y) / 2};
    const double radius = apart(path[0].p[0], centre);
    for (int i = 0; i < 4; i++)
        if (fabs(apart(path[i].p[0], centre) - radius) > same ||
            fabs(apart(tailor_cubic_point(&path[i], 0.5), centre) - radius) > 1e-3 * radius)
            return 0;
    put_entity(sink, "CIRCLE", layer);
    put_point(sink, 10, centre);
    put_number(sink, 40, radius);
    return radius > same;
}

static void put_path(struct tailor_in_sink *sink, int layer, const tailor_cubic *path, size_t count)
{
    for (size_t from = 0, to; from < count; from = to) {
        for (to = from + 1; to < count && apart(path[to - 1].p[3], path[to].p[0]) < same; to++)
            ;
        put_polyline(sink, layer, path + from, to - from);
    }
}

static void put_text(struct tailor_in_sink *sink, tailor_point at, double size, const char *text)
{
    put_entity(sink, "TEXT", TEXT);
    put_point(sink, 10, at);
    put_number(sink, 40, size);
    put_text_value(sink, text);
}

/* Name, how many of what, for which side, and the title. */
static void put_label(struct tailor_in_sink *sink, const tailor_pattern *pattern, int piece, const double box[4],
                      const char *title)
{
    static const char *const sides[] = {"left and right", "right", "left"};
    enum { LINES = 4, LINE = 120 };
    char lines[LINES][LINE];
    const int side = tailor_piece_side(pattern, piece), cut = tailor_piece_copies(pattern, piece);
    tailor_in_words(tailor_piece_name(pattern, piece), "", lines[0], LINE);
    snprintf(lines[1], LINE, "wearer's %s, face up", sides[side >= 0 && side <= TAILOR_SIDE_LEFT ? side : 0]);
    snprintf(lines[2], LINE, "cut %d%s, %s", cut,
             tailor_piece_mirrored(pattern, piece) ? ", mirrored" : cut > 1 ? ", not mirrored" : "",
             tailor_piece_cloth(pattern, piece));
    tailor_in_text_fit(title, 1, 0, 40, lines[3], LINE);
    const double size = fmax(2, fmin(10, fmin((box[2] - box[0]) / 25, (box[3] - box[1]) / 6)));
    for (int i = 0; i < LINES; i++)
        if (lines[i][0])
            put_text(sink, (tailor_point){(box[0] + box[2]) / 2 - 9 * size, (box[1] + box[3]) / 2 - 1.6 * i * size},
                     size, lines[i]);
}

static void put_block(struct tailor_in_sink *sink, const tailor_pattern *pattern, int piece, const char *title)
{
    /* by the mark's kind, a TAILOR_MARK_ */
    static const int layer_of[] = {MARK, NOTCH, GRAIN, BUTTON, HOLE, DART, MARK, FOLD};
    const char *name = tailor_piece_name(pattern, piece);
    double box[4];
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(pattern, piece, &count);
    put_word(sink, 0, "BLOCK");
    put_word(sink, 8, "0");
    put_word(sink, 2, name);
    put_whole(sink, 70, 0);
    put_point(sink, 10, (tailor_point){0, 0});
    put_word(sink, 3, name);
    put_polyline(sink, OUTLINE, outline, count);
    tailor_path_bounds(outline, count, box);
    for (int i = 0, marks = tailor_piece_mark_count(pattern, piece); i < marks; i++) {
        const tailor_cubic *path = tailor_mark_path(pattern, piece, i, &count);
        const int kind = tailor_mark_kind(pattern, piece, i), known = kind > 0 && kind <= TAILOR_MARK_FOLD;
        if (kind != TAILOR_MARK_BUTTON || !put_circle(sink, BUTTON, path, count))
            put_path(sink, layer_of[known ? kind : 0], path, count);
    }
    put_label(sink, pattern, piece, box, title);
    put_word(sink, 0, "ENDBLK");
    put_word(sink, 8, "0");
}

/* ---- the file */

static void put_variable(struct tailor_in_sink *sink, const char *name, int code, int value)
{
    put_word(sink, 9, name);
    put_whole(sink, code, value);
}

static void put_section(struct tailor_in_sink *sink, const char *name)
{
    put_word(sink, 0, "SECTION");
    put_word(sink, 2, name);
}

static void put_table(struct tailor_in_sink *sink, const char *name, int rows)
{
    put_word(sink, 0, "TABLE");
    put_word(sink, 2, name);
    put_whole(sink, 70, rows);
}

static void put_layer(struct tailor_in_sink *sink, const char *name)
{
    put_word(sink, 0, "LAYER");
    put_word(sink, 2, name);
    put_whole(sink, 70, 0);
    put_whole(sink, 62, 7); /* black on white, white on black */
    put_word(sink, 6, "CONTINUOUS");
}

static void put_head(struct tailor_in_sink *sink)
{
    put_section(sink, "HEADER");
    put_word(sink, 9, "$ACADVER");
    put_word(sink, 1, "AC1009");
    put_variable(sink, "$INSUNITS", 70, 4); /* mm */
    put_variable(sink, "$MEASUREMENT", 70, 1);
    put_variable(sink, "$LUNITS", 70, 2);
    put_word(sink, 0, "ENDSEC");
    put_section(sink, "TABLES");
    put_table(sink, "LTYPE", 1);
    put_word(sink, 0, "LTYPE");
    put_word(sink, 2, "CONTINUOUS");
    put_whole(sink, 70, 0);
    put_word(sink, 3, "Solid line");
    put_whole(sink, 72, 65);
    put_whole(sink, 73, 0);
    put_number(sink, 40, 0);
    put_word(sink, 0, "ENDTAB");
    put_table(sink, "LAYER", LAYERS + 1);
    put_layer(sink, "0");
    for (int i = 0; i < LAYERS; i++)
        put_layer(sink, layers[i]);
    put_word(sink, 0, "ENDTAB");
    put_word(sink, 0, "ENDSEC");
}

/* Pieces from left to right, in rows one below another, each block once. */
static void put_inserts(struct tailor_in_sink *sink, const tailor_pattern *pattern)
{
    double x = 0, top = 0, height = 0;
    for (int i = 0, n = tailor_pattern_piece_count(pattern); i < n; i++) {
        size_t count;
        double box[4];
        const tailor_cubic *outline = tailor_piece_outline(pattern, i, &count);
        tailor_path_bounds(outline, count, box);
        if (x > 0 && x + box[2] - box[0] > row_width) {
            x = 0;
            top -= height + gap;
            height = 0;
        }
        put_word(sink, 0, "INSERT");
        put_word(sink, 8, "0");
        put_word(sink, 2, tailor_piece_name(pattern, i));
        put_point(sink, 10, (tailor_point){x - box[0], top - box[3]});
        x += box[2] - box[0] + gap;
        height = fmax(height, box[3] - box[1]);
    }
}

void tailor_in_write_dxf(const tailor_pattern *pattern, const char *title, struct tailor_in_sink *sink)
{
    put_head(sink);
    put_section(sink, "BLOCKS");
    for (int i = 0, n = tailor_pattern_piece_count(pattern); i < n && !sink->broken; i++)
        put_block(sink, pattern, i, title);
    put_word(sink, 0, "ENDSEC");
    put_section(sink, "ENTITIES");
    put_inserts(sink, pattern);
    put_word(sink, 0, "ENDSEC");
    put_word(sink, 0, "EOF");
    tailor_in_sink_flush(sink);
}

#include "lines.h"

#include "lettering.h"

#include <math.h>
#include <string.h>

/** The labels of a section take so much of their column, and stand so far (of a letter's size) from the values. */
static const double label_least = 0.26, label_most = 0.42, label_gap = 0.8;
/** A rank sets a line in by so much of a letter's size; a basis has letters of such a share, and stands so far (of the
 *  size of the text's) behind its text. */
static const double rank_inset = 1, basis_size = 0.8, basis_gap = 0.7;

/** What a line of some kind looks like. */
static const struct {
    double above;  /* free above it unless it stands at the top of a column, of its size */
    int bold, two; /* two: a label, and a value beside it */
} looks[] = {
    [TAILOR_LINE_HEADING] = {0.9, 1, 0}, [TAILOR_LINE_ROW] = {0, 0, 1},     [TAILOR_LINE_GROUP] = {0.25, 1, 1},
    [TAILOR_LINE_TEXT] = {0.25, 0, 0},   [TAILOR_LINE_CAUTION] = {0.3, 1, 0},
};

static const char *or_nothing(const char *text) { return text ? text : ""; }

int tailor_in_line_is_known(const tailor_line *line)
{
    return line->kind >= TAILOR_LINE_HEADING && line->kind <= TAILOR_LINE_CAUTION && line->rank >= 0 &&
           line->rank <= TAILOR_IN_RANKS;
}

const char *tailor_in_line_text(const tailor_line *line)
{
    return line->label && *line->label ? line->label : or_nothing(line->value);
}

double tailor_in_line_label_width(const tailor_line *line)
{
    return looks[line->kind].two ? line->rank * rank_inset +
                                       tailor_in_text_width(or_nothing(line->label), 1, looks[line->kind].bold)
                                 : 0;
}

double tailor_in_line_above(const tailor_line *line) { return looks[line->kind].above; }

/** Copy as much of a text as one line holds, broken at a blank where there is one; returns the rest. A no-break space
 *  is a blank at which it is not broken. */
static const char *take_line(const char *text, double size, int bold, double width, char line[TAILOR_IN_LINE_BYTES])
{
    enum { NO_BREAK_SPACE = 0xA0, CHARACTER_BYTES = 4 };
    text += strspn(text, " ");
    const char *at = text, *blank = NULL;
    size_t bytes = 0, to_blank = 0;
    double used = 0;
    while (*at) {
        const char *before = at;
        char one[CHARACTER_BYTES + 1] = {0};
        const unsigned c = tailor_in_text_next(&at);
        memcpy(one, before, (size_t)(at - before));
        if (c == NO_BREAK_SPACE)
            memcpy(one, " ", 2);
        if (c == ' ' && before > text) {
            blank = before;
            to_blank = bytes;
        }
        used += tailor_in_text_width(one, size, bold);
        if ((used > width && before > text) || bytes + CHARACTER_BYTES >= TAILOR_IN_LINE_BYTES) {
            at = blank ? blank : before;
            bytes = blank ? to_blank : bytes;
            break;
        }
        memcpy(line + bytes, one, strlen(one));
        bytes += strlen(one);
    }
    line[bytes] = 0;
    return at + strspn(at, " ");
}

int tailor_in_set_text(struct tailor_in_drawing *d, const char *text, double size, int bold, double width,
                       tailor_point at, double *last)
{
    char line[TAILOR_IN_LINE_BYTES] = "";
    int lines = 0;
    for (; *text && lines < TAILOR_IN_LINES_MOST; lines++) {
        text = take_line(text, size, bold, width, line);
        const double base = at.y + lines * TAILOR_IN_LINE_HEIGHT * size + size;
        if (d)
            tailor_in_drawing_text_on_page(d, (tailor_point){at.x, base},
                                           (struct tailor_in_lettering){size, 0, 0, bold}, line);
    }
    if (last)
        *last = tailor_in_text_width(line, size, bold);
    return lines;
}

/** Set a text and, in smaller letters, its basis: behind it where its last line has room, else below. Returns how high
 *  both are. */
static double set_with_basis(struct tailor_in_drawing *d, const char *text, const char *basis, double size, int bold,
                             double width, tailor_point at)
{
    const double row = TAILOR_IN_LINE_HEIGHT * size, small = basis_size * size;
    double last;
    const int lines = tailor_in_set_text(d, text, size, bold, width, at, &last);
    if (!*basis)
        return row * lines;
    const double behind = last + basis_gap * size;
    if (lines && tailor_in_set_text(NULL, basis, small, 0, width - behind, at, NULL) == 1 &&
        behind + tailor_in_text_width(basis, small, 0) <= width) {
        const tailor_point end = {at.x + behind, at.y + row * (lines - 1) + size - small}; /* on the same base line */
        tailor_in_set_text(d, basis, small, 0, width - behind, end, NULL);
        return row * lines;
    }
    const tailor_point below = {at.x, at.y + row * lines};
    return row * lines +
           TAILOR_IN_LINE_HEIGHT * small * tailor_in_set_text(d, basis, small, 0, width, below, NULL);
}

double tailor_in_set_line(struct tailor_in_drawing *d, const tailor_line *line, const struct tailor_in_column *column,
                          tailor_point at)
{
    const int kind = line->kind, bold = looks[kind].bold;
    const double size = column->size, width = column->width, row = TAILOR_IN_LINE_HEIGHT * size;
    const double set_in = rank_inset * line->rank * size;
    const char *basis = or_nothing(line->basis);
    if (looks[kind].two) {
        const double gap = label_gap * size;
        const double indent = fmax(label_least * width, fmin(label_most * width, column->labels * size + gap));
        const tailor_point label = {at.x + set_in, at.y}, value = {at.x + indent, at.y};
        const int labels =
            tailor_in_set_text(d, or_nothing(line->label), size, bold, indent - gap - set_in, label, NULL);
        const double values = set_with_basis(d, or_nothing(line->value), basis, size, bold, width - indent, value);
        return fmax(row, fmax(row * labels, values));
    }
    const double inset = set_in + (kind == TAILOR_LINE_CAUTION ? size : 0);
    const double height = set_with_basis(d, tailor_in_line_text(line), basis, size, bold, width - inset,
                                         (tailor_point){at.x + inset, at.y});
    if (d && kind == TAILOR_LINE_CAUTION && height > 0)
        tailor_in_drawing_box(d, TAILOR_IN_INK, (tailor_point){at.x + set_in, at.y + 0.15 * size},
                              (tailor_point){at.x + set_in + 0.4 * size, at.y + height - 0.05 * size});
    if (kind != TAILOR_LINE_HEADING)
        return height;
    if (d)
        tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){at.x, at.y + height + 0.05 * size},
                               (tailor_point){at.x + width, at.y + height + 0.05 * size});
    return height + 0.35 * size;
}

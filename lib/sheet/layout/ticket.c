/* A workroom ticket: headings, rows of label and value, text and cautions, set on one page of A4 in letters as large as
 * they can be. The page is set as often as it takes: from the largest letters down, until all of it fits. */
#include "../output/write.h"
#include "lettering.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static const double page_width = 210, page_height = 297, margin = 13, column_gap = 7;
static const double title_largest = 6.5, title_smallest = 4;
static const double largest = 4, smallest = 1.5, step = 0.05;
/** One column only where the letters are so large that its lines do not get too long. */
static const double one_column_from = 3.4;
/** The labels of a section take so much of their column, and stand so far (of a letter's size) from the values. */
static const double label_least = 0.26, label_most = 0.42, label_gap = 0.8;
enum { LINE_BYTES = 512, LINES_MOST = 400, COLUMNS_MOST = 2 };

struct ticket {
    const int32_t *kinds;
    const char *const *labels, *const *values;
    size_t count;
    const char *title;
    double label_width[LINES_MOST]; /* of the widest label of a line's section, for letters of size 1 */
};

/** How a page is set: size of its letters, columns, their width and how far down they reach. */
struct setting {
    double size, width, bottom;
    int columns;
};

/** Where the next line goes. `y` is the page's, of the line's top. */
struct place {
    int column;
    double x, y;
};

/** What a line of some kind looks like. */
static const struct {
    double before; /* free above it unless it stands at the top of a column, of its size */
    int bold, two; /* two: a label, and a value beside it */
} looks[] = {
    [TAILOR_TICKET_HEADING] = {0.9, 1, 0}, [TAILOR_TICKET_ROW] = {0, 0, 1},     [TAILOR_TICKET_GROUP] = {0.25, 1, 1},
    [TAILOR_TICKET_TEXT] = {0.25, 0, 0},   [TAILOR_TICKET_CAUTION] = {0.3, 1, 0},
};

static const char *label_of(const struct ticket *t, size_t i)
{
    return t->labels && t->labels[i] ? t->labels[i] : "";
}

static const char *value_of(const struct ticket *t, size_t i)
{
    return t->values && t->values[i] ? t->values[i] : "";
}

/** What a line without two parts says: whichever it has. */
static const char *text_of(const struct ticket *t, size_t i)
{
    return *label_of(t, i) ? label_of(t, i) : value_of(t, i);
}

/** Copy as much of a text as one line holds, broken at a blank where there is one; returns the rest. A no-break space
 *  is a blank at which it is not broken. */
static const char *take_line(const char *text, double size, int bold, double width, char line[LINE_BYTES])
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
        if ((used > width && before > text) || bytes + CHARACTER_BYTES >= LINE_BYTES) {
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

/** Set a text in lines from a place down, or only count them where `d` is NULL. Returns how many there are. */
static int set_text(struct tailor_in_drawing *d, const char *text, double size, int bold, double width, double x,
                    double y)
{
    char line[LINE_BYTES];
    int lines = 0;
    for (; *text && lines < LINES_MOST; lines++) {
        text = take_line(text, size, bold, width, line);
        const double base = y + lines * TAILOR_IN_LINE_HEIGHT * size + size;
        if (d)
            tailor_in_drawing_text_on_page(d, (tailor_point){x, base}, (struct tailor_in_lettering){size, 0, 0, bold},
                                           line);
    }
    return lines;
}

static int larger(int a, int b)
{
    return a > b ? a : b;
}

/** Set one line of the ticket in a column of some width. Returns its height without what is free above it. */
static double set_line(struct tailor_in_drawing *d, const struct ticket *t, size_t i, const struct setting *s,
                       double width, double x, double y)
{
    const int kind = t->kinds[i], bold = looks[kind].bold;
    const double size = s->size, row = TAILOR_IN_LINE_HEIGHT * size;
    if (looks[kind].two) {
        const double gap = label_gap * size, indent = fmax(label_least * width, fmin(label_most * width,
                                                                                    t->label_width[i] * size + gap));
        return row * larger(1, larger(set_text(d, label_of(t, i), size, bold, indent - gap, x, y),
                                      set_text(d, value_of(t, i), size, bold, width - indent, x + indent, y)));
    }
    const double inset = kind == TAILOR_TICKET_CAUTION ? size : 0;
    const double height = row * set_text(d, text_of(t, i), size, bold, width - inset, x + inset, y);
    if (d && kind == TAILOR_TICKET_CAUTION && height > 0)
        tailor_in_drawing_box(d, TAILOR_IN_INK, (tailor_point){x, y + 0.15 * size},
                              (tailor_point){x + 0.4 * size, y + height - 0.05 * size});
    if (kind != TAILOR_TICKET_HEADING)
        return height;
    if (d)
        tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){x, y + height + 0.05 * size},
                               (tailor_point){x + width, y + height + 0.05 * size});
    return height + 0.35 * size;
}

static double free_above(const struct ticket *t, size_t i, const struct setting *s)
{
    return looks[t->kinds[i]].before * s->size;
}

/** Height of the lines from `first` to before `end` in one column. */
static double height_of(const struct ticket *t, size_t first, size_t end, const struct setting *s)
{
    double height = 0;
    for (size_t i = first; i < end && height < page_height; i++)
        height += (i > first ? free_above(t, i, s) : 0) + set_line(NULL, t, i, s, s->width, 0, 0);
    return height;
}

static size_t next_heading(const struct ticket *t, size_t i)
{
    while (i < t->count && t->kinds[i] != TAILOR_TICKET_HEADING)
        i++;
    return i;
}

/** Where lines that stay together end, which begin at `i`: a whole section, unless it is longer than half a column; a
 *  group with its rows; a heading with what comes first below it. */
static size_t together(const struct ticket *t, size_t i, const struct setting *s, double top)
{
    const double half = (s->bottom - top) / 2;
    const size_t section = next_heading(t, i + 1);
    size_t first = i, end;
    if (t->kinds[i] == TAILOR_TICKET_HEADING) {
        if (section == i + 1 || height_of(t, i, section, s) <= half)
            return section;
        first = i + 1;
    }
    for (end = first + 1; t->kinds[first] == TAILOR_TICKET_GROUP && end < section; end++)
        if (t->kinds[end] == TAILOR_TICKET_GROUP)
            break;
    return height_of(t, i, end, s) <= half ? end : first + 1;
}

static void begin_section(struct tailor_in_drawing *d, int number, const char *title)
{
    char digits[32], id[40];
    tailor_in_number_write(digits, number, 0);
    snprintf(id, sizeof id, "section-%s", digits);
    tailor_in_drawing_group(d, id, title);
}

/** The heading of a section that goes on in another column. Returns its height. */
static double set_heading_again(struct tailor_in_drawing *d, const struct ticket *t, size_t i, const struct setting *s,
                                double x, double y)
{
    while (t->kinds[i] != TAILOR_TICKET_HEADING)
        i--;
    char again[LINE_BYTES];
    snprintf(again, sizeof again, "%.*s \xE2\x80\xA6", LINE_BYTES - 8, text_of(t, i));
    const int32_t kind = TAILOR_TICKET_HEADING;
    const char *const label = again;
    const struct ticket one = {.kinds = &kind, .labels = &label, .count = 1};
    return set_line(d, &one, 0, s, s->width, x, y);
}

/** Set the columns below `top`, or only try where `d` is NULL. False when they do not hold all lines from `first`. */
static int set_columns(struct tailor_in_drawing *d, const struct ticket *t, size_t first, const struct setting *s,
                       double top)
{
    struct place at = {0, margin, top};
    int groups = 0;
    for (size_t i = first, end; i < t->count; i = end) {
        end = together(t, i, s, top);
        const double above = at.y > top ? free_above(t, i, s) : 0, height = height_of(t, i, end, s);
        if (at.y + above + height > s->bottom + 1e-9) {
            if (++at.column == s->columns)
                return 0;
            at.x += s->width + column_gap;
            at.y = top;
            if (t->kinds[i] != TAILOR_TICKET_HEADING)
                at.y += set_heading_again(d, t, i, s, at.x, at.y);
            if (at.y + height > s->bottom + 1e-9)
                return 0;
        } else
            at.y += above;
        for (size_t k = i; d && k < end; k++) {
            if (t->kinds[k] == TAILOR_TICKET_HEADING) {
                if (groups)
                    tailor_in_drawing_group_end(d);
                begin_section(d, ++groups, text_of(t, k));
            }
            at.y += k > i ? free_above(t, k, s) : 0;
            at.y += set_line(d, t, k, s, s->width, at.x, at.y);
        }
        at.y += d ? 0 : height;
    }
    if (groups)
        tailor_in_drawing_group_end(d);
    return 1;
}

/** Set title and the lines before the first heading over the whole page. Returns where the columns begin. */
static double set_top(struct tailor_in_drawing *d, const struct ticket *t, size_t end, const struct setting *s)
{
    const double width = page_width - 2 * margin;
    double y = margin;
    if (t->title && *t->title) {
        const double whole = tailor_in_text_width(t->title, title_largest, 1);
        const double size = fmax(title_smallest, title_largest * fmin(1, width / whole));
        y += TAILOR_IN_LINE_HEIGHT * size * set_text(d, t->title, size, 1, width + 1e-6, margin, y);
    }
    for (size_t i = 0; i < end && y < page_height; i++) {
        y += i ? free_above(t, i, s) : 0;
        y += set_line(d, t, i, s, width, margin, y);
    }
    return end ? y + s->size : y;
}

/** Find how wide the labels of each section are. */
static void measure_labels(struct ticket *t)
{
    for (size_t i = 0, end; i < t->count; i = end) {
        double widest = 0;
        end = next_heading(t, i + 1);
        for (size_t k = i; k < end; k++)
            if (looks[t->kinds[k]].two)
                widest = fmax(widest, tailor_in_text_width(label_of(t, k), 1, looks[t->kinds[k]].bold));
        for (size_t k = i; k < end; k++)
            t->label_width[k] = widest + 0.01; /* so that the widest itself is not broken for a rounding */
    }
}

static int fits(const struct ticket *t, size_t first, const struct setting *s)
{
    const double top = set_top(NULL, t, first, s);
    return top < s->bottom && set_columns(NULL, t, first, s, top);
}

/** The largest letters with which all of it fits, in columns of about one height. False when there are none. */
static int find_setting(const struct ticket *t, size_t first, struct setting *s)
{
    int found = 0;
    for (int i = 0; !found && largest - i * step > smallest - step / 2; i++)
        for (int columns = 1; !found && columns <= COLUMNS_MOST; columns++) {
            *s = (struct setting){.size = largest - i * step, .bottom = page_height - margin, .columns = columns};
            if (columns == 1 && s->size < one_column_from)
                continue;
            s->width = (page_width - 2 * margin - (columns - 1) * column_gap) / columns;
            found = fits(t, first, s);
        }
    for (struct setting shorter = *s; found && s->columns > 1 && (shorter.bottom -= 1) > 0 && fits(t, first, &shorter);)
        s->bottom = shorter.bottom;
    return found;
}

static int good_kinds(const struct ticket *t, size_t *wrong)
{
    for (*wrong = 0; *wrong < t->count; ++*wrong)
        if (t->kinds[*wrong] < TAILOR_TICKET_HEADING || t->kinds[*wrong] > TAILOR_TICKET_CAUTION)
            return 0;
    return 1;
}

tailor_status tailor_sheet_draw_ticket(const char *title, const int32_t *kinds, const char *const *labels,
                                       const char *const *values, size_t count, int format, tailor_sheet_writer write,
                                       void *user, tailor_fault *fault)
{
    struct ticket t = {.kinds = kinds, .labels = labels, .values = values, .count = count, .title = title};
    struct setting s;
    size_t wrong, first = 0;
    tailor_status status = tailor_in_sheet_ask(format, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (count && !kinds)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, NAN, NAN, NAN, "a ticket's lines have no kinds");
    const int short_enough = count <= LINES_MOST;
    if (short_enough && !good_kinds(&t, &wrong))
        return tailor_in_sheet_fault(
            fault, TAILOR_BAD_ARGUMENT, (double)wrong, NAN, NAN,
            "a ticket's line is of no known kind (its place in the list is the value, from 0)");
    if (short_enough) {
        first = next_heading(&t, 0);
        measure_labels(&t);
    }
    if (!short_enough || !find_setting(&t, first, &s))
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)count, 0, LINES_MOST,
                                     "the ticket is too long for one page that can be read");
    struct tailor_in_drawing drawing;
    tailor_in_drawing_begin(&drawing, title, NULL);
    drawing.width = page_width;
    drawing.height = page_height;
    set_columns(&drawing, &t, first, &s, set_top(&drawing, &t, first, &s));
    status = tailor_in_drawing_write(&drawing, format, write, user, fault);
    tailor_in_drawing_end(&drawing);
    return status;
}

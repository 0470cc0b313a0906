/* A workroom ticket: headings, rows of label and value, text and cautions, set on one page of A4 in letters as large as
 * they can be. The page is set as often as it takes: from the largest letters down, until all of it fits. */
#include "../output/write.h"
#include "cautions.h"
#include "lettering.h"
#include "lines.h"
#include "page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double page_width = 210, page_height = 297, margin = 13, column_gap = 7;
static const double title_largest = 6.5, title_smallest = 4;
static const double largest = 4, smallest = 1.5, step = 0.05;
/** One column only where the letters are so large that its lines do not get too long. */
static const double one_column_from = 3.4;
enum { LINES_MOST = TAILOR_IN_LINES_MOST, COLUMNS_MOST = 2 };

struct ticket {
    const tailor_line *lines;
    size_t count;
    const char *title;
    const struct tailor_in_drawing *said; /* whose cautions stand on it */
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

/** Set one line of the ticket in a column of some width. Returns its height without what is free above it. */
static double set_line(struct tailor_in_drawing *d, const struct ticket *t, size_t i, const struct setting *s,
                       double width, double x, double y)
{
    const struct tailor_in_column column = {s->size, width, t->label_width[i]};
    return tailor_in_set_line(d, &t->lines[i], &column, (tailor_point){x, y});
}

static double free_above(const struct ticket *t, size_t i, const struct setting *s)
{
    return tailor_in_line_above(&t->lines[i]) * s->size;
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
    while (i < t->count && t->lines[i].kind != TAILOR_LINE_HEADING)
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
    if (t->lines[i].kind == TAILOR_LINE_HEADING) {
        if (section == i + 1 || height_of(t, i, section, s) <= half)
            return section;
        first = i + 1;
    }
    for (end = first + 1; t->lines[first].kind == TAILOR_LINE_GROUP && end < section; end++)
        if (t->lines[end].kind == TAILOR_LINE_GROUP)
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
    while (t->lines[i].kind != TAILOR_LINE_HEADING)
        i--;
    char again[TAILOR_IN_LINE_BYTES];
    snprintf(again, sizeof again, "%.*s \xE2\x80\xA6", TAILOR_IN_LINE_BYTES - 8, tailor_in_line_text(&t->lines[i]));
    const tailor_line heading = {.kind = TAILOR_LINE_HEADING, .label = again};
    const struct tailor_in_column column = {s->size, s->width, 0};
    return tailor_in_set_line(d, &heading, &column, (tailor_point){x, y});
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
            if (t->lines[i].kind != TAILOR_LINE_HEADING)
                at.y += set_heading_again(d, t, i, s, at.x, at.y);
            if (at.y + height > s->bottom + 1e-9)
                return 0;
        } else
            at.y += above;
        for (size_t k = i; d && k < end; k++) {
            if (t->lines[k].kind == TAILOR_LINE_HEADING) {
                if (groups)
                    tailor_in_drawing_group_end(d);
                begin_section(d, ++groups, tailor_in_line_text(&t->lines[k]));
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

/** Set title, the coat's cautions and the lines before the first heading over the whole page. Returns where the columns
 *  begin. */
static double set_top(struct tailor_in_drawing *d, const struct ticket *t, size_t end, const struct setting *s)
{
    const double width = page_width - 2 * margin;
    double y = margin;
    int cautions = 0;
    if (*t->title) {
        const double whole = tailor_in_text_width(t->title, title_largest, 1);
        const double size = fmax(title_smallest, title_largest * fmin(1, width / whole));
        y += TAILOR_IN_LINE_HEIGHT * size *
             tailor_in_set_text(d, t->title, size, 1, width + 1e-6, (tailor_point){margin, y}, NULL);
    }
    for (const char *one = NULL; y < page_height && (one = tailor_in_caution_next(t->said, one)); cautions++) {
        const tailor_line line = {.kind = TAILOR_LINE_CAUTION, .label = one};
        const struct tailor_in_column column = {s->size, width, 0};
        y += cautions ? tailor_in_line_above(&line) * s->size : 0;
        y += tailor_in_set_line(d, &line, &column, (tailor_point){margin, y});
    }
    for (size_t i = 0; i < end && y < page_height; i++) {
        y += i || cautions ? free_above(t, i, s) : 0;
        y += set_line(d, t, i, s, width, margin, y);
    }
    return end || cautions ? y + s->size : y;
}

/** Find how wide the labels of each section are. */
static void measure_labels(struct ticket *t)
{
    for (size_t i = 0, end; i < t->count; i = end) {
        double widest = 0;
        end = next_heading(t, i + 1);
        for (size_t k = i; k < end; k++)
            widest = fmax(widest, tailor_in_line_label_width(&t->lines[k]));
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

/** Find how the page is set; `first` is the first heading. TAILOR_BAD_ARGUMENT for what cannot be set. */
static tailor_status find_page(struct ticket *t, size_t *first, struct setting *s, tailor_fault *fault)
{
    for (size_t i = 0; i < t->count && t->count <= LINES_MOST; i++)
        if (!tailor_in_line_is_known(&t->lines[i]))
            return tailor_in_sheet_fault(
                fault, TAILOR_BAD_ARGUMENT, (double)i, NAN, NAN,
                "a ticket's line is of no known kind or rank (its place in the list is the value, from 0)");
    if (t->count <= LINES_MOST) {
        *first = next_heading(t, 0);
        measure_labels(t);
        if (find_setting(t, *first, s))
            return TAILOR_OK;
    }
    return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)t->count, 0, LINES_MOST,
                                 "the ticket is too long for one page that can be read");
}

/** Compose a ticket. The drawing fails where memory is out; then there is no fault. */
static tailor_status compose(struct tailor_in_drawing *d, struct ticket *t, tailor_fault *fault)
{
    struct setting s;
    size_t first = 0;
    const char *said = tailor_in_drawing_title(d);
    char *title = d->allocator.allocate(d->allocator.user, strlen(said) + 1); /* the drawing's own may move */
    if (!title) {
        d->failed = 1;
        return TAILOR_OK;
    }
    memcpy(title, said, strlen(said) + 1);
    t->title = title;
    t->said = d;
    const tailor_status status = find_page(t, &first, &s, fault);
    d->width = page_width;
    d->height = page_height;
    if (status == TAILOR_OK)
        set_columns(d, t, first, &s, set_top(d, t, first, &s));
    d->allocator.release(d->allocator.user, title);
    return status;
}

tailor_status tailor_sheet_draw_ticket(const tailor_line *lines, size_t count, const tailor_page *page,
                                       tailor_writer write, void *user, tailor_fault *fault)
{
    struct ticket t = {.lines = lines, .count = count};
    struct tailor_in_drawing drawing;
    tailor_status status = tailor_in_page_ask(page, 0, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (count && !lines)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)count, NAN, NAN,
                                     "a ticket's lines are missing");
    tailor_in_page_begin(page, "", 0, &drawing);
    status = compose(&drawing, &t, fault);
    if (status == TAILOR_OK)
        return tailor_in_page_end(page, &drawing, write, user, fault);
    tailor_in_drawing_end(&drawing);
    return status;
}

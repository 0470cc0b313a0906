/* The title of a drawing, in three parts: a head (what it is, whose), which order, and a caution. Where they do not fit
 * the head gives way first; the caution is never cut. */
#include "drawing.h"

#include "lettering.h"

#include <math.h>
#include <string.h>

enum { HEAD, ORDER, CAUTION, PARTS, PART_BYTES = 256 };
static const char after_sheet[] = ": ", after_client[] = ", ", before_caution[] = " - ";
static const double most_for_order = 0.6; /* of a line, where both head and order are too long */

static void add(struct tailor_in_drawing *d, const char *before, const char *words)
{
    const char *const both[] = {before, words};
    for (int i = 0; i < 2 && !d->failed && *words; i++) {
        d->text.count--; /* the zero that ends the text so far */
        tailor_in_drawing_keep_text(d, both[i]);
    }
}

void tailor_in_drawing_entitle(struct tailor_in_drawing *d, const struct tailor_in_title *words)
{
    const char *before_client = *words->sheet ? after_sheet : "";
    d->before_order = *words->client ? after_client : before_client;
    d->part[HEAD] = tailor_in_drawing_keep_text(d, words->sheet);
    add(d, before_client, words->client);
    d->part[ORDER] = tailor_in_drawing_keep_text(d, words->order);
    d->part[CAUTION] = tailor_in_drawing_keep_text(d, words->caution);
    d->title = tailor_in_drawing_keep_text(d, words->sheet);
    add(d, before_client, words->client);
    add(d, d->before_order, words->order);
    add(d, *tailor_in_drawing_title(d) ? before_caution : "", words->caution);
}

const char *tailor_in_drawing_title(const struct tailor_in_drawing *d)
{
    return d->failed ? "" : tailor_in_drawing_string(d, d->title);
}

static const char *part_of(const struct tailor_in_drawing *d, int part)
{
    return d->failed ? "" : tailor_in_drawing_string(d, d->part[part]);
}

static int fits(const char *text, double size, int bold, double width, size_t capacity)
{
    return tailor_in_text_width(text, size, bold) <= width && strlen(text) < capacity;
}

/** Head and order in one line, the head cut before the order. */
static void fit_words(const char *head, const char *between, const char *order, double size, int bold, double width,
                      char *fitted, size_t capacity)
{
    char end[PART_BYTES];
    if (!*head || !*order) {
        tailor_in_text_fit(*head ? head : order, size, bold, width, fitted, capacity);
        return;
    }
    const double gap = tailor_in_text_width(between, size, bold), whole = tailor_in_text_width(order, size, bold);
    tailor_in_text_fit(order, size, bold, fmin(whole + 1e-6, most_for_order * width), end,
                       capacity / 2 < sizeof end ? capacity / 2 : sizeof end);
    tailor_in_text_fit(head, size, bold, width - gap - tailor_in_text_width(end, size, bold), fitted,
                       capacity - strlen(between) - strlen(end));
    strcat(strcat(fitted, between), end);
}

void tailor_in_drawing_title_fit(const struct tailor_in_drawing *d, const char *usual, double size, int bold,
                                 double width, char *fitted, size_t capacity)
{
    const char *title = tailor_in_drawing_title(d), *caution = part_of(d, CAUTION);
    const char *head = part_of(d, HEAD), *order = part_of(d, ORDER);
    if (!*head && !*order)
        head = usual;
    else if (fits(title, size, bold, width, capacity)) {
        tailor_in_text_fit(title, size, bold, width, fitted, capacity);
        return;
    }
    const char *before = *caution ? before_caution : "";
    const double taken = tailor_in_text_width(before, size, bold) + tailor_in_text_width(caution, size, bold);
    fit_words(head, d->before_order, order, size, bold, width - taken, fitted,
              capacity - strlen(before) - strlen(caution));
    strcat(strcat(fitted, before), caution);
}

void tailor_in_drawing_title_lines(const struct tailor_in_drawing *d, double size, double width, size_t capacity,
                                   char *const lines[3])
{
    const char *title = tailor_in_drawing_title(d), *rest = NULL;
    int parts = 0;
    for (int i = 0; i < PARTS; i++) {
        parts += *part_of(d, i) != 0;
        lines[i][0] = 0;
    }
    if (tailor_in_text_width(title, size, 0) > width) { /* broken at the last blank that leaves a line */
        for (const char *blank = strchr(title, ' '); blank; blank = strchr(blank + 1, ' ')) {
            const size_t bytes = (size_t)(blank - title);
            if (bytes >= capacity)
                break;
            memcpy(lines[1], title, bytes);
            lines[1][bytes] = 0;
            if (tailor_in_text_width(lines[1], size, 0) > width)
                break;
            memcpy(lines[0], lines[1], bytes + 1);
            rest = blank + 1;
        }
        lines[1][0] = 0;
    }
    if (parts < 2 || fits(rest ? rest : title, size, 0, width, capacity)) {
        tailor_in_text_fit(rest ? rest : title, size, 0, width, lines[rest ? 1 : 0], capacity);
        return;
    }
    for (int i = 0, line = 0; i < PARTS; i++) /* more than two lines: a part each */
        if (*part_of(d, i))
            tailor_in_text_fit(part_of(d, i), size, 0, width, lines[line++], capacity);
}

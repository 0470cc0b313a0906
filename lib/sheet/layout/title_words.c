/* The title of a drawing: words that are cut where they do not fit, and a caution that never is. */
#include "drawing.h"

#include "lettering.h"

#include <string.h>

static const char before_caution[] = " - ";

void tailor_in_drawing_title_add(struct tailor_in_drawing *d, const char *words)
{
    if (d->failed)
        return;
    d->text.count--; /* the zero that ends the title so far */
    tailor_in_drawing_keep_text(d, words);
}

void tailor_in_drawing_title_caution(struct tailor_in_drawing *d, const char *caution)
{
    d->title = tailor_in_drawing_keep_again(d, d->words);
    if (*tailor_in_drawing_title(d))
        tailor_in_drawing_title_add(d, before_caution);
    tailor_in_drawing_title_add(d, caution);
    d->caution = tailor_in_drawing_keep_text(d, caution);
    d->cautioned = 1;
}

const char *tailor_in_drawing_title(const struct tailor_in_drawing *d)
{
    return d->failed ? "" : tailor_in_drawing_string(d, d->title);
}

static int fits(const char *text, double size, int bold, double width, size_t capacity)
{
    return tailor_in_text_width(text, size, bold) <= width && strlen(text) < capacity;
}

void tailor_in_drawing_title_fit(const struct tailor_in_drawing *d, const char *usual, double size, int bold,
                                 double width, char *fitted, size_t capacity)
{
    const char *title = tailor_in_drawing_title(d);
    const char *words = d->failed ? "" : tailor_in_drawing_string(d, d->words);
    if (!d->cautioned || d->failed || (*words && fits(title, size, bold, width, capacity))) {
        tailor_in_text_fit(*title ? title : usual, size, bold, width, fitted, capacity);
        return;
    }
    const char *caution = tailor_in_drawing_string(d, d->caution);
    const double taken = tailor_in_text_width(before_caution, size, bold) + tailor_in_text_width(caution, size, bold);
    tailor_in_text_fit(*words ? words : usual, size, bold, width - taken, fitted,
                       capacity - sizeof before_caution + 1 - strlen(caution));
    strcat(strcat(fitted, before_caution), caution);
}

void tailor_in_drawing_title_lines(const struct tailor_in_drawing *d, double size, double width, size_t capacity,
                                   char *first, char *second)
{
    const char *title = tailor_in_drawing_title(d), *rest = NULL;
    first[0] = second[0] = 0;
    if (tailor_in_text_width(title, size, 0) > width) { /* broken at the last blank that leaves a line */
        for (const char *blank = strchr(title, ' '); blank; blank = strchr(blank + 1, ' ')) {
            const size_t bytes = (size_t)(blank - title);
            if (bytes >= capacity)
                break;
            memcpy(second, title, bytes);
            second[bytes] = 0;
            if (tailor_in_text_width(second, size, 0) > width)
                break;
            memcpy(first, second, bytes + 1);
            rest = blank + 1;
        }
    }
    if (d->cautioned && !d->failed && !fits(rest ? rest : title, size, 0, width, capacity)) {
        tailor_in_text_fit(tailor_in_drawing_string(d, d->words), size, 0, width, first, capacity);
        strcpy(second, tailor_in_drawing_string(d, d->caution));
        return;
    }
    second[0] = 0;
    tailor_in_text_fit(rest ? rest : title, size, 0, width, rest ? second : first, capacity);
}

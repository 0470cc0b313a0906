#include "cautions.h"

#include "lettering.h"

#include <string.h>

enum { SENTENCE_BYTES = 400 };

const char *tailor_in_caution_next(const struct tailor_in_drawing *d, const char *sentence)
{
    const char *next = sentence ? sentence + strlen(sentence) + 1 : d->cautions;
    return next && *next ? next : NULL;
}

double tailor_in_cautions_height(const struct tailor_in_drawing *d, double size)
{
    double height = 0;
    for (const char *one = NULL; (one = tailor_in_caution_next(d, one));)
        height += TAILOR_IN_LINE_HEIGHT * size;
    return height;
}

void tailor_in_draw_cautions(struct tailor_in_drawing *d, tailor_point corner, double size, double width)
{
    const double bar = 0.4 * size, indent = size, row = TAILOR_IN_LINE_HEIGHT * size;
    char text[SENTENCE_BYTES];
    if (!tailor_in_caution_next(d, NULL))
        return;
    tailor_in_drawing_group(d, "cautions", "cautions");
    for (const char *one = NULL; (one = tailor_in_caution_next(d, one)); corner.y += row) {
        /* the mark that a caution has on a ticket */
        tailor_in_drawing_box(d, TAILOR_IN_INK, (tailor_point){corner.x, corner.y + 0.25 * size},
                              (tailor_point){corner.x + bar, corner.y + 1.2 * size});
        tailor_in_text_fit(one, size, 1, width - indent, text, sizeof text);
        tailor_in_drawing_text(d, (tailor_point){corner.x + indent, corner.y + size},
                               (struct tailor_in_lettering){size, 0, 0, 1}, text);
    }
    tailor_in_drawing_group_end(d);
}

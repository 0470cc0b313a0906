/* A drawing: what a sheet shows, composed once in millimetres and then replayed by a writer to SVG, PDF or PNG.
 *
 * It is a display list of groups, paths and texts on a page with the origin at its top left and y downward. Composers
 * draw in the pattern's own axes (y up): everything is taken through `place` as it enters. What is drawn later covers
 * what was drawn earlier. When memory runs out the drawing fails for good: later calls are harmless, and
 * tailor_in_drawing_write() tells. */
#ifndef TAILOR_IN_SHEET_DRAWING_H
#define TAILOR_IN_SHEET_DRAWING_H

#include "style.h"

#include <tailorgeom/sheet.h>

/** How a text is written. `angle` in degrees, clockwise as seen; `anchor` is the part of the text that stands at the
 *  given point: 0 its start, 0.5 its middle, 1 its end. The point lies on the base line. */
struct tailor_in_lettering {
    double size, anchor, angle;
    int bold;
};

enum { TAILOR_IN_GROUP, TAILOR_IN_GROUP_END, TAILOR_IN_PATH, TAILOR_IN_TEXT };

/** A path is `count` cubics from `first`; a text and a group's title are zero-terminated from `first` in `text`, a
 *  group's id is the text from `count`. */
struct tailor_in_item {
    int kind, style, closed;
    size_t first, count;
    tailor_point at;
    struct tailor_in_lettering lettering;
};

struct tailor_in_store {
    void *data;
    size_t count, room;
};

struct tailor_in_drawing {
    tailor_allocator allocator;
    int failed;
    double width, height, line_scale; /* page in mm; factor of all line weights and dashes */
    double place[6];                  /* as in tailor_path_affine() */
    size_t title, part[3];            /* in `text`: the whole title, and its parts */
    const char *before_order;         /* what stands between the first two parts */
    const char *cautions;             /* the page's, see there; NULL for none */
    struct tailor_in_store items, cubics, text;
};

/** Its title, in parts, "" where there is none. */
struct tailor_in_title {
    const char *sheet, *client, *order, *caution;
};

/** Begin an empty drawing; NULL allocator stands for malloc and free, NULL title for none. End it in any case. */
void tailor_in_drawing_begin(struct tailor_in_drawing *d, const struct tailor_in_title *title,
                             const tailor_allocator *allocator);
void tailor_in_drawing_end(struct tailor_in_drawing *d);
/** The allocator itself, or malloc and free for NULL. */
tailor_allocator tailor_in_sheet_allocator(const tailor_allocator *allocator);

/* ---- title_words.c: the title */

/** For tailor_in_drawing_begin() alone. */
void tailor_in_drawing_entitle(struct tailor_in_drawing *d, const struct tailor_in_title *words);
/** The whole title, clean; "" for none. It may move when anything is drawn. */
const char *tailor_in_drawing_title(const struct tailor_in_drawing *d);
/** As much of the title as is not wider than `width`, with an ellipsis where it was cut: sheet and client before the
 *  order, a caution never. `usual` stands for a title without sheet, client and order. */
void tailor_in_drawing_title_fit(const struct tailor_in_drawing *d, const char *usual, double size, int bold,
                                 double width, char *fitted, size_t capacity);
/** The same without `usual` in one line or two, as they fill; or, where that does not hold it, in a line for each part.
 *  Lines without a text are empty. */
void tailor_in_drawing_title_lines(const struct tailor_in_drawing *d, double size, double width, size_t capacity,
                                   char *const lines[3]);

/* ---- where it is drawn */

/** From now on (x, y) stands at (left + x_sense * scale * x, top - scale * y) on the page. */
void tailor_in_drawing_place(struct tailor_in_drawing *d, double left, double top, double scale, double x_sense);
/** From now on (x, y) turned by an angle (degrees, counter-clockwise) stands there, at true size. */
void tailor_in_drawing_place_turned(struct tailor_in_drawing *d, double left, double top, double angle);
/** From now on (x, y) is the place on the page itself. */
void tailor_in_drawing_place_page(struct tailor_in_drawing *d);
tailor_point tailor_in_drawing_on_page(const struct tailor_in_drawing *d, tailor_point p);

/** Groups nest. `id` must be plain ASCII, and unique in the drawing. */
void tailor_in_drawing_group(struct tailor_in_drawing *d, const char *id, const char *title);
void tailor_in_drawing_group_end(struct tailor_in_drawing *d);
void tailor_in_drawing_path(struct tailor_in_drawing *d, int style, const tailor_cubic *path, size_t count, int closed);
void tailor_in_drawing_line(struct tailor_in_drawing *d, int style, tailor_point a, tailor_point b);
void tailor_in_drawing_box(struct tailor_in_drawing *d, int style, tailor_point low, tailor_point high);
void tailor_in_drawing_circle(struct tailor_in_drawing *d, int style, tailor_point centre, double radius);
/** A filled head of an arrow, its tip at `tip`, pointing away from `from`. */
void tailor_in_drawing_arrow_head(struct tailor_in_drawing *d, tailor_point from, tailor_point tip, double length);
/** Text that is not UTF-8, and characters that no file may hold, become U+FFFD. The angle is the page's, not taken
 *  through `place`. */
void tailor_in_drawing_text(struct tailor_in_drawing *d, tailor_point at, struct tailor_in_lettering how,
                            const char *text);

void tailor_in_drawing_text_on_page(struct tailor_in_drawing *d, tailor_point at, struct tailor_in_lettering how,
                                    const char *text);

/** How much a drawing holds at a moment. */
struct tailor_in_moment {
    size_t items, cubics;
};
struct tailor_in_moment tailor_in_drawing_now(const struct tailor_in_drawing *d);
/** Move on the page what was drawn between two moments. */
void tailor_in_drawing_move(struct tailor_in_drawing *d, struct tailor_in_moment from, struct tailor_in_moment to,
                            double across, double down);

const struct tailor_in_item *tailor_in_drawing_items(const struct tailor_in_drawing *d, size_t *count);
const tailor_cubic *tailor_in_drawing_cubics(const struct tailor_in_drawing *d, const struct tailor_in_item *item);
/** Keep a text, clean and zero-terminated. Returns where it begins. */
size_t tailor_in_drawing_keep_text(struct tailor_in_drawing *d, const char *text);
const char *tailor_in_drawing_string(const struct tailor_in_drawing *d, size_t first);

#endif

/* The table beneath a nested piece: how far each of its points goes from a size to the next, seen from where the sizes
 * are laid on each other. */
#include "lettering.h"
#include "nest.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double size = 6.5, row = 9, number = 19, gap = 5, head = 2 * 9 + 4; /* mm */

/* Rows: the points of the piece, then the beginnings of its edges where no point lies there. False past the last. */
static int name_row(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p, int wanted,
                    char name[TAILOR_IN_NEST_NAME])
{
    const tailor_pattern *base = n->patterns[n->base];
    const int points = tailor_piece_point_count(base, p->piece);
    if (wanted < points) {
        snprintf(name, TAILOR_IN_NEST_NAME, "%s", tailor_point_name(base, p->piece, wanted));
        return 1;
    }
    for (int edge = 0, row_number = points; edge < tailor_piece_edge_count(base, p->piece); edge++) {
        size_t count;
        const tailor_cubic *path = tailor_edge_path(base, p->piece, edge, &count);
        int taken = 0;
        for (int i = 0; i < points && !taken; i++) {
            const tailor_point at = tailor_point_place(base, p->piece, i);
            taken = hypot(at.x - path[0].p[0].x, at.y - path[0].p[0].y) < 0.01;
        }
        if (!taken && row_number++ == wanted) {
            snprintf(name, TAILOR_IN_NEST_NAME, "%s.start", tailor_edge_name(base, p->piece, edge));
            return 1;
        }
    }
    return 0;
}

static void words_of(const char *name, char words[TAILOR_IN_NEST_NAME])
{
    char *dot;
    tailor_in_words(name, "", words, TAILOR_IN_NEST_NAME);
    dot = strrchr(words, '.');
    if (dot)
        *dot = ' ';
}

static double name_width(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p, int *rows)
{
    char name[TAILOR_IN_NEST_NAME], words[TAILOR_IN_NEST_NAME];
    double widest = tailor_in_text_width("mm, from a size to the next", size, 0);
    for (*rows = 0; name_row(n, p, *rows, name); (*rows)++) {
        words_of(name, words);
        widest = fmax(widest, tailor_in_text_width(words, size, 0));
    }
    return widest;
}

void tailor_in_nest_table_room(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p, double *width,
                               double *height)
{
    int rows;
    *width = name_width(n, p, &rows) + (double)(n->count - 1) * (2 * number + gap);
    *height = head + rows * row;
}

static void write_text(struct tailor_in_drawing *d, double x, double y, double anchor, int bold, const char *text)
{
    tailor_in_drawing_text(d, (tailor_point){x, y}, (struct tailor_in_lettering){size, anchor, 0, bold}, text);
}

/* To the tenth, with its sign; a plain 0 for what does not move. */
static void write_move(struct tailor_in_drawing *d, double x, double y, double mm)
{
    char text[40] = "-";
    const double tenths = round(10 * mm);
    if (isfinite(mm) && tenths == 0)
        text[0] = '0';
    else if (isfinite(mm) && fabs(tenths) < 1e8)
        snprintf(text, sizeof text, "%c%ld.%d", tenths < 0 ? '-' : '+', (long)(fabs(tenths) / 10),
                 (int)((long)fabs(tenths) % 10));
    write_text(d, x, y, 1, 0, text);
}

static tailor_point place_in(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p, size_t which,
                             const char *name)
{
    tailor_point origin, at;
    const int piece = tailor_in_nest_find(n, p, which, &origin);
    if (piece < 0 || !tailor_in_nest_place(n->patterns[which], piece, name, &at))
        return (tailor_point){NAN, NAN};
    return (tailor_point){at.x - origin.x, at.y - origin.y};
}

void tailor_in_nest_table(struct tailor_in_drawing *d, const struct tailor_in_nest *n,
                          const struct tailor_in_nest_piece *p, tailor_point corner)
{
    int rows;
    char name[TAILOR_IN_NEST_NAME], words[TAILOR_IN_NEST_NAME];
    const double first = corner.x + name_width(n, p, &rows), step = 2 * number + gap;
    const double right = first + (double)(n->count - 1) * step, under = corner.y + head - 4;
    write_text(d, corner.x, corner.y + 2 * row - 3, 0, 0, "mm, from a size to the next");
    for (size_t i = 0; i + 1 < n->count; i++) {
        const double x = first + (double)i * step;
        char sizes[96], fitted[96];
        snprintf(sizes, sizeof sizes, "%.40s \xE2\x80\x93 %.40s", tailor_in_nest_label(n, i),
                 tailor_in_nest_label(n, i + 1));
        tailor_in_text_fit(sizes, size, 1, step - 2, fitted, sizeof fitted);
        write_text(d, x + gap + number, corner.y + row - 3, 0.5, 1, fitted);
        write_text(d, x + gap + number, corner.y + 2 * row - 3, 1, 0, "dx");
        write_text(d, x + gap + 2 * number, corner.y + 2 * row - 3, 1, 0, "dy");
    }
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){corner.x, under}, (tailor_point){right, under});
    for (int r = 0; name_row(n, p, r, name); r++) {
        const double y = corner.y + head + (r + 1) * row - 3;
        words_of(name, words);
        write_text(d, corner.x, y, 0, strcmp(name, p->align) == 0, words);
        for (size_t i = 0; i + 1 < n->count; i++) {
            const tailor_point a = place_in(n, p, i, name), b = place_in(n, p, i + 1, name);
            const double x = first + (double)i * step + gap + number;
            write_move(d, x, y, b.x - a.x);
            write_move(d, x + number, y, b.y - a.y);
        }
    }
}

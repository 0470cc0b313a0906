/* The nest sheet, composed: each piece of the base with the same piece of all sizes on it. */
#include "nest.h"

#include "../output/write.h"
#include "lettering.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/order.h>

/* mm */
static const double margin = 30, heading = 128, gap = 70, caption = 44, least_width = 900;
static const double row_least = 2600, row_most = 4800; /* how long a row may get */
static const double square = 100, label_column = 62, label_row = 10, label_size = 8.5;

/* Where sizes are laid on each other, by common practice: a place that the cutter sets the pattern to, so that the
 * grade runs away from it. Pieces that have none of these lie on the beginning of their first edge. */
static const struct {
    const char *piece, *point;
} usual[] = {{"back", "nape"},           {"sidebody", "scye_bottom"},    {"forepart", "scye_front"},
             {"topsleeve", "front_pitch"}, {"undersleeve", "front_pitch"}, {"under_collar", "crease_back"}};

const char *tailor_in_nest_label(const struct tailor_in_nest *n, size_t size)
{
    return n->labels && n->labels[size] ? n->labels[size] : "";
}

int tailor_in_nest_place(const tailor_pattern *pattern, int piece, const char *name, tailor_point *place)
{
    char edge_name[TAILOR_IN_NEST_NAME];
    const int point = tailor_piece_find_point(pattern, piece, name);
    const char *dot = strrchr(name, '.');
    if (point >= 0) {
        *place = tailor_point_place(pattern, piece, point);
        return 1;
    }
    if (!dot || (size_t)(dot - name) >= sizeof edge_name)
        return 0;
    memcpy(edge_name, name, (size_t)(dot - name));
    edge_name[dot - name] = '\0';
    size_t count = 0;
    const int edge = tailor_piece_find_edge(pattern, piece, edge_name), end = strcmp(dot, ".end") == 0;
    const tailor_cubic *path = edge < 0 ? NULL : tailor_edge_path(pattern, piece, edge, &count);
    if (!path || !count || (!end && strcmp(dot, ".start") != 0))
        return 0;
    *place = end ? path[count - 1].p[3] : path[0].p[0];
    return 1;
}

int tailor_in_nest_find(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p, size_t size,
                        tailor_point *origin)
{
    const int piece = tailor_pattern_find_piece(n->patterns[size], p->name);
    return piece >= 0 && tailor_in_nest_place(n->patterns[size], piece, p->align, origin) ? piece : -1;
}

static void choose_align(const struct tailor_in_nest *n, struct tailor_in_nest_piece *p)
{
    const tailor_pattern *base = n->patterns[n->base];
    const char *name = n->align;
    tailor_point place;
    for (size_t i = 0; i < sizeof usual / sizeof *usual && !name; i++) {
        const size_t length = strlen(usual[i].piece); /* its sides, and what is cut by it, too: forepart_left */
        if (strncmp(p->name, usual[i].piece, length) == 0 && (!p->name[length] || p->name[length] == '_'))
            name = usual[i].point;
    }
    if (name && tailor_in_nest_place(base, p->piece, name, &place))
        snprintf(p->align, sizeof p->align, "%s", name);
    else
        snprintf(p->align, sizeof p->align, "%s.start", tailor_edge_name(base, p->piece, 0));
}

/* Marks that every size has its own of, and that can be told apart: not how it is turned, nor what lies inside. */
static int is_shown(const tailor_pattern *pattern, int piece, int mark, int base)
{
    static const char *const left_out[] = {"_turned", "_rolled", "roll_line"};
    const int kind = tailor_mark_kind(pattern, piece, mark);
    for (size_t i = 0; i < sizeof left_out / sizeof *left_out; i++)
        if (strstr(tailor_mark_name(pattern, piece, mark), left_out[i]))
            return 0;
    return base || kind == TAILOR_MARK_NOTCH || kind == TAILOR_MARK_DART || kind == TAILOR_MARK_FOLD;
}

static void bound(const struct tailor_in_nest *n, struct tailor_in_nest_piece *p)
{
    double *all = p->box, table[2];
    all[0] = all[1] = INFINITY;
    all[2] = all[3] = -INFINITY;
    for (size_t i = 0; i < n->count; i++) {
        tailor_point origin;
        const int piece = tailor_in_nest_find(n, p, i, &origin);
        for (int mark = -1; piece >= 0 && mark < tailor_piece_mark_count(n->patterns[i], piece); mark++) {
            double box[4];
            size_t count;
            const tailor_cubic *path = mark < 0 ? tailor_piece_outline(n->patterns[i], piece, &count)
                                                : tailor_mark_path(n->patterns[i], piece, mark, &count);
            if (!count || (mark >= 0 && !is_shown(n->patterns[i], piece, mark, i == n->base)))
                continue;
            tailor_path_bounds(path, count, box);
            all[0] = fmin(all[0], box[0] - origin.x);
            all[1] = fmin(all[1], box[1] - origin.y);
            all[2] = fmax(all[2], box[2] - origin.x);
            all[3] = fmax(all[3], box[3] - origin.y);
        }
    }
    tailor_in_nest_table_room(n, p, &table[0], &table[1]);
    p->width = fmax(all[2] - all[0] + 2 * label_column, table[0]);
    p->height = fmax(all[3] - all[1], (double)n->count * label_row) + caption + table[1];
}

/* Rows from the left, in columns: a cell that is lower than its row goes below another, as far as there is room. */
static void place_pieces(struct tailor_in_drawing *d, struct tailor_in_nest_piece *pieces, int count)
{
    double left = 0, top = margin + heading, row = 0, column = 0, filled = 0, width = least_width, area = 0;
    for (int i = 0; i < count; i++)
        area += (pieces[i].width + gap) * (pieces[i].height + gap);
    /* a sheet about as high as wide, so that many pieces still fit a page of PDF */
    const double longest_row = fmin(fmax(1.3 * sqrt(area), row_least), row_most);
    for (int i = 0; i < count; i++) {
        struct tailor_in_nest_piece *p = &pieces[i];
        if (filled > 0 && filled + gap + p->height <= 1.05 * row && p->width <= column) {
            filled += gap;
        } else {
            left += filled > 0 ? column + gap : 0;
            if (left > 0 && left + p->width > longest_row) {
                top += row + gap;
                left = row = 0;
            }
            column = p->width;
            filled = 0;
        }
        p->left = margin + left;
        p->top = top + filled;
        p->x = p->left + (p->width - (p->box[2] - p->box[0])) / 2 - p->box[0];
        p->y = p->top + p->box[3];
        filled += p->height;
        row = fmax(row, filled);
        width = fmax(width, left + column);
    }
    d->width = ceil(width + 2 * margin);
    d->height = ceil(top + row + margin);
}

/* The base has the weight of an outline; the others take turns, so that neighbours differ. */
static int style_of(const struct tailor_in_nest *n, size_t size)
{
    const size_t turn = size < n->base ? n->base - 1 - size : size - n->base - 1;
    return size == n->base ? TAILOR_IN_OUTLINE : TAILOR_IN_NEST + (int)(turn % TAILOR_IN_NEST_STYLES);
}

static void write_text(struct tailor_in_drawing *d, double x, double y, double size, double anchor, int bold,
                       const char *text)
{
    tailor_in_drawing_text(d, (tailor_point){x, y}, (struct tailor_in_lettering){size, anchor, 0, bold}, text);
}

static void draw_size(struct tailor_in_drawing *d, const struct tailor_in_nest *n,
                      const struct tailor_in_nest_piece *p, int number, size_t size)
{
    const tailor_pattern *pattern = n->patterns[size];
    tailor_point origin;
    const int piece = tailor_in_nest_find(n, p, size, &origin), base = size == n->base;
    size_t count;
    char id[32], words[TAILOR_IN_NEST_NAME];
    if (piece < 0)
        return;
    snprintf(id, sizeof id, "piece-%d-size-%zu", number, size + 1);
    tailor_in_text_fit(tailor_in_nest_label(n, size), label_size, 0, 200, words, sizeof words);
    tailor_in_drawing_group(d, id, words);
    tailor_in_drawing_place(d, p->x - origin.x, p->y + origin.y, 1, 1);
    const tailor_cubic *path = tailor_piece_outline(pattern, piece, &count);
    tailor_in_drawing_path(d, style_of(n, size), path, count, 1);
    for (int mark = 0; mark < tailor_piece_mark_count(pattern, piece); mark++) {
        const int kind = tailor_mark_kind(pattern, piece, mark);
        path = tailor_mark_path(pattern, piece, mark, &count);
        if (count && is_shown(pattern, piece, mark, base))
            tailor_in_drawing_path(d, base && kind != TAILOR_MARK_GRAIN ? TAILOR_IN_MARKED : TAILOR_IN_THIN, path,
                                   count, 0);
    }
    tailor_in_drawing_place_page(d);
    tailor_in_drawing_group_end(d);
}

/* The corner at which the sizes lie farthest apart: the beginning of an edge of the base. */
static void farthest_corner(const struct tailor_in_nest *n, const struct tailor_in_nest_piece *p,
                            char found[TAILOR_IN_NEST_NAME])
{
    const tailor_pattern *base = n->patterns[n->base];
    double most = -1;
    for (int edge = 0; edge < tailor_piece_edge_count(base, p->piece); edge++) {
        char name[TAILOR_IN_NEST_NAME];
        double least = INFINITY;
        tailor_point last = {NAN, NAN};
        snprintf(name, sizeof name, "%s.start", tailor_edge_name(base, p->piece, edge));
        for (size_t i = 0; i < n->count; i++) {
            tailor_point origin, at;
            const int piece = tailor_in_nest_find(n, p, i, &origin);
            if (piece < 0 || !tailor_in_nest_place(n->patterns[i], piece, name, &at))
                continue;
            at = (tailor_point){at.x - origin.x, at.y - origin.y};
            least = isnan(last.x) ? least : fmin(least, hypot(at.x - last.x, at.y - last.y));
            last = at;
        }
        if (least > most) {
            most = least;
            snprintf(found, TAILOR_IN_NEST_NAME, "%s", name);
        }
    }
}

/* Each size by name, beside the piece, with a line to its corner; in order, upward or downward as the corners are. */
static void label_sizes(struct tailor_in_drawing *d, const struct tailor_in_nest *n,
                        const struct tailor_in_nest_piece *p)
{
    tailor_point at[TAILOR_IN_NEST_SIZES], mean = {0, 0};
    size_t order[TAILOR_IN_NEST_SIZES], count = 0;
    char corner[TAILOR_IN_NEST_NAME] = "", text[96];
    farthest_corner(n, p, corner);
    for (size_t i = 0; i < n->count; i++) {
        tailor_point origin;
        const int piece = tailor_in_nest_find(n, p, i, &origin);
        if (piece < 0 || !tailor_in_nest_place(n->patterns[i], piece, corner, &at[i]))
            continue;
        at[i] = (tailor_point){p->x + at[i].x - origin.x, p->y - at[i].y + origin.y};
        mean.x += at[i].x;
        mean.y += at[i].y;
        order[count++] = i;
    }
    if (!count)
        return;
    const int falling = at[order[0]].y <= at[order[count - 1]].y; /* the smallest is the highest */
    mean = (tailor_point){mean.x / (double)count, mean.y / (double)count};
    const int right = mean.x >= p->x + (p->box[0] + p->box[2]) / 2;
    const double edge = right ? p->x + p->box[2] + 22 : p->x + p->box[0] - 22, half = (double)count * label_row / 2;
    const double top = fmax(fmin(mean.y - half, p->y - p->box[1] - 2 * half), p->top);
    for (size_t k = 0; k < count; k++) {
        const size_t from_above = falling ? k : count - 1 - k;
        const tailor_point foot = {edge, top + ((double)from_above + 0.5) * label_row};
        tailor_in_drawing_line(d, TAILOR_IN_THIN, at[order[k]], foot);
        tailor_in_drawing_circle(d, TAILOR_IN_INK, at[order[k]], 1.1);
        tailor_in_text_fit(tailor_in_nest_label(n, order[k]), label_size, order[k] == n->base, label_column - 24, text,
                           sizeof text);
        write_text(d, foot.x + (right ? 2 : -2), foot.y + 3, label_size, right ? 0 : 1, order[k] == n->base, text);
    }
}

static void draw_piece(struct tailor_in_drawing *d, const struct tailor_in_nest *n,
                       const struct tailor_in_nest_piece *p, int number)
{
    char id[32], words[TAILOR_IN_NEST_NAME], point[TAILOR_IN_NEST_NAME], text[2 * TAILOR_IN_NEST_NAME];
    double width, height;
    snprintf(id, sizeof id, "piece-%d", number);
    tailor_in_words(p->name, "", words, sizeof words);
    tailor_in_words(p->align, "", point, sizeof point);
    tailor_in_drawing_group(d, id, words);
    for (size_t k = 0; k < n->count; k++) /* the base last: it covers */
        if (k != n->base)
            draw_size(d, n, p, number, k);
    draw_size(d, n, p, number, n->base);
    for (int turn = 0; turn < 2; turn++) /* a cross where they are laid on each other */
        tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){p->x - (turn ? 0 : 9), p->y - (turn ? 9 : 0)},
                               (tailor_point){p->x + (turn ? 0 : 9), p->y + (turn ? 9 : 0)});
    tailor_in_drawing_circle(d, TAILOR_IN_MARKED, (tailor_point){p->x, p->y}, 4);
    label_sizes(d, n, p);
    tailor_in_nest_table_room(n, p, &width, &height);
    const double middle = p->left + p->width / 2, below = p->top + p->height - height;
    write_text(d, middle, below - 24, 12, 0.5, 1, words);
    snprintf(text, sizeof text, "laid on each other at %s", point);
    if (strchr(text, '.'))
        *strchr(text, '.') = ' ';
    write_text(d, middle, below - 11, 8, 0.5, 0, text);
    tailor_in_nest_table(d, n, p, (tailor_point){middle - width / 2, below});
    tailor_in_drawing_group_end(d);
}

static void draw_heading(struct tailor_in_drawing *d, const struct tailor_in_nest *n)
{
    const double right = d->width - margin, room = right - square - 40 - margin, sample = 46, column = 130;
    const size_t fit = (size_t)fmax(1, floor(room / column));
    char text[256];
    tailor_in_drawing_group(d, "heading", "heading");
    tailor_in_drawing_title_fit(d, "Nest of sizes", 22, 1, room, text, sizeof text);
    write_text(d, margin, margin + 22, 22, 0, 1, text);
    for (size_t i = 0; i < n->count; i++) {
        const double x = margin + (double)(i % fit) * column, y = margin + 42 + 14 * (double)(i / fit);
        char label[128];
        tailor_in_drawing_line(d, style_of(n, i), (tailor_point){x, y}, (tailor_point){x + sample, y});
        snprintf(label, sizeof label, "%.90s%s", tailor_in_nest_label(n, i), i == n->base ? ", base" : "");
        tailor_in_text_fit(label, 9, i == n->base, column - sample - 12, text, sizeof text);
        write_text(d, x + sample + 5, y + 3, 9, 0, i == n->base, text);
    }
    write_text(d, margin, margin + 92, 10, 0, 0,
               "Net, true to size. dx toward the front, dy up; pockets, buttons and grain are those of the base.");
    snprintf(text, sizeof text, "Edition %d of the drafting rules, libtailorgeom %s.", tailor_edition(),
             tailor_version());
    write_text(d, margin, margin + 107, 10, 0, 0, text);
    tailor_in_drawing_box(d, TAILOR_IN_MARKED, (tailor_point){right - square, margin},
                          (tailor_point){right, margin + square});
    write_text(d, right - square / 2, margin + square / 2 + 4, 12, 0.5, 1, "100 mm");
    tailor_in_drawing_group_end(d);
}

void tailor_in_compose_nest(struct tailor_in_drawing *d, const struct tailor_in_nest *n)
{
    const tailor_pattern *base = n->patterns[n->base];
    const int count = tailor_pattern_piece_count(base);
    struct tailor_in_nest_piece *pieces =
        d->allocator.allocate(d->allocator.user, ((size_t)count + 1) * sizeof *pieces);
    if (!pieces) {
        d->failed = 1;
        return;
    }
    memset(pieces, 0, ((size_t)count + 1) * sizeof *pieces);
    for (int i = 0; i < count; i++) {
        pieces[i].piece = i;
        pieces[i].name = tailor_piece_name(base, i);
        choose_align(n, &pieces[i]);
        bound(n, &pieces[i]);
    }
    place_pieces(d, pieces, count);
    tailor_in_drawing_place_page(d);
    draw_heading(d, n);
    for (int i = 0; i < count; i++)
        draw_piece(d, n, &pieces[i], i + 1);
    d->allocator.release(d->allocator.user, pieces);
}

/* The overlay sheet: two drafts, each piece of one laid on the same piece of the other, at its own origin and true to
 * size. What was before is dashed, what is after is solid. */
#include "../output/write.h"
#include "lettering.h"
#include "overlay.h"
#include "page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/order.h>

/* mm */
static const double margin = 30, heading = 130, gap = 50, caption = 34, longest_row = 2200, least_width = 900;
static const double square = 100;
enum { NAME = 96, SAMPLES = 6 }; /* places on a cubic where the distance is taken */

/* A piece of both drafts: the index in each, -1 where it has none. Where one draft has a piece for both sides of the
 * figure and the other one a side, that of both sides is laid there as the side is: as a mirror image on the left. */
struct pair {
    int piece[2];
    int mirrored[2];
    double box[4], x, y; /* of all that is drawn of it; where its origin stands on the page */
};

struct overlay {
    const tailor_pattern *drafts[2]; /* before, after */
    const char *labels[2];
    int print;
    struct pair *pairs;
    size_t count;
    double width, height;
};

/* Names of pieces without their side. */
static void stem_of(const char *name, char stem[NAME])
{
    static const char *const suffixes[] = {"_left", "_right"};
    snprintf(stem, NAME, "%s", name);
    for (int i = 0; i < 2; i++) {
        size_t length = strlen(stem), more = strlen(suffixes[i]);
        if (length > more && strcmp(stem + length - more, suffixes[i]) == 0)
            stem[length - more] = '\0';
    }
}

/* The piece of draft `other` that belongs to a piece: of the same name, or of both sides where this is of one. */
static void find_partner(const struct overlay *o, struct pair *p, int own)
{
    const char *name = tailor_piece_name(o->drafts[own], p->piece[own]);
    const int other = !own;
    char stem[NAME];
    p->piece[other] = tailor_pattern_find_piece(o->drafts[other], name);
    stem_of(name, stem);
    if (p->piece[other] >= 0 || strcmp(stem, name) == 0)
        return;
    p->piece[other] = tailor_pattern_find_piece(o->drafts[other], stem);
    p->mirrored[other] =
        p->piece[other] >= 0 && tailor_piece_side(o->drafts[own], p->piece[own]) == TAILOR_SIDE_LEFT;
}

/* True when a piece is one side's of a piece that the other draft has for both, or has such sides itself there. */
static int stands_already(const struct overlay *o, int draft, int piece)
{
    char stem[NAME];
    const char *name = tailor_piece_name(o->drafts[draft], piece);
    for (size_t i = 0; i < o->count; i++)
        if (o->pairs[i].piece[draft] == piece)
            return 1;
    for (int i = 0; i < tailor_pattern_piece_count(o->drafts[!draft]); i++) {
        const char *other = tailor_piece_name(o->drafts[!draft], i);
        stem_of(other, stem);
        if (strcmp(stem, name) == 0 && strcmp(other, name) != 0 &&
            tailor_pattern_find_piece(o->drafts[!draft], name) < 0)
            return 1; /* its sides take it */
    }
    return 0;
}

static void pair_pieces(struct overlay *o)
{
    for (int own = 1; own >= 0; own--) {
        for (int i = 0; i < tailor_pattern_piece_count(o->drafts[own]); i++) {
            if (stands_already(o, own, i))
                continue;
            struct pair p = {.piece = {-1, -1}};
            p.piece[own] = i;
            find_partner(o, &p, own);
            o->pairs[o->count++] = p;
        }
    }
}

/* Marks that say where something lies on the piece; not how it is turned or laid on the cloth. */
static int is_shown(const tailor_pattern *pattern, int piece, int mark)
{
    static const char *const left_out[] = {"_turned", "_rolled", "roll_line"};
    const char *name = tailor_mark_name(pattern, piece, mark);
    for (size_t i = 0; i < sizeof left_out / sizeof *left_out; i++)
        if (strstr(name, left_out[i]))
            return 0;
    return tailor_mark_kind(pattern, piece, mark) != TAILOR_MARK_GRAIN;
}

static void grow(struct pair *p, int draft, const tailor_cubic *path, size_t count)
{
    double box[4];
    if (!count)
        return;
    tailor_path_bounds(path, count, box);
    const double sense = p->mirrored[draft] ? -1 : 1;
    p->box[0] = fmin(p->box[0], fmin(sense * box[0], sense * box[2]));
    p->box[1] = fmin(p->box[1], box[1]);
    p->box[2] = fmax(p->box[2], fmax(sense * box[0], sense * box[2]));
    p->box[3] = fmax(p->box[3], box[3]);
}

static void bound(const struct overlay *o, struct pair *p)
{
    p->box[0] = p->box[1] = INFINITY;
    p->box[2] = p->box[3] = -INFINITY;
    for (int draft = 0; draft < 2; draft++) {
        size_t count;
        if (p->piece[draft] < 0)
            continue;
        const tailor_cubic *path = tailor_piece_outline(o->drafts[draft], p->piece[draft], &count);
        grow(p, draft, path, count);
        for (int mark = 0; mark < tailor_piece_mark_count(o->drafts[draft], p->piece[draft]); mark++) {
            path = tailor_mark_path(o->drafts[draft], p->piece[draft], mark, &count);
            if (is_shown(o->drafts[draft], p->piece[draft], mark))
                grow(p, draft, path, count);
        }
    }
    if (!(p->box[0] <= p->box[2])) /* nothing to draw */
        memset(p->box, 0, sizeof p->box);
}

/* Rows from the left, in columns: a piece that is lower than its row goes below another, as far as there is room. */
static void place_pairs(struct overlay *o)
{
    double left = 0, top = margin + heading, row = 0, column = 0, filled = 0;
    o->width = least_width;
    for (size_t i = 0; i < o->count; i++) {
        struct pair *p = &o->pairs[i];
        bound(o, p);
        const double wide = fmax(p->box[2] - p->box[0], 210), tall = p->box[3] - p->box[1] + caption;
        if (filled > 0 && filled + gap + tall <= 1.1 * row && wide <= column) {
            filled += gap;
        } else {
            left += filled > 0 ? column + gap : 0;
            if (left > 0 && left + wide > longest_row) {
                top += row + gap;
                left = row = 0;
            }
            column = wide;
            filled = 0;
        }
        p->x = margin + left + (column - (p->box[2] - p->box[0])) / 2 - p->box[0];
        p->y = top + filled + p->box[3];
        filled += tall;
        row = fmax(row, filled);
        o->width = fmax(o->width, left + column);
    }
    o->width = ceil(o->width + 2 * margin);
    o->height = ceil(top + row + margin);
}

/* How far one outline goes from the other, at most, on the side of `from`. */
static double farthest(const struct overlay *o, const struct pair *p, int from)
{
    size_t count, other_count;
    const tailor_cubic *path = tailor_piece_outline(o->drafts[from], p->piece[from], &count);
    const tailor_cubic *other = tailor_piece_outline(o->drafts[!from], p->piece[!from], &other_count);
    const double sense = p->mirrored[0] != p->mirrored[1] ? -1 : 1;
    double most = 0;
    for (size_t i = 0; i < count * SAMPLES; i++) {
        tailor_point at = tailor_path_point(path, count, (double)i / SAMPLES);
        double distance = 0;
        at.x *= sense;
        tailor_path_nearest(other, other_count, at, &distance);
        most = fmax(most, distance);
    }
    return most;
}

static void write_caption(const struct overlay *o, const struct pair *p, char text[2][NAME])
{
    const int draft = p->piece[1] >= 0;
    int named = draft; /* by its side, where one of them has sides */
    if (p->piece[0] >= 0 && p->piece[1] >= 0 && tailor_piece_side(o->drafts[0], p->piece[0]) != TAILOR_SIDE_BOTH &&
        strlen(tailor_piece_name(o->drafts[0], p->piece[0])) > strlen(tailor_piece_name(o->drafts[1], p->piece[1])))
        named = 0;
    tailor_in_words(tailor_piece_name(o->drafts[named], p->piece[named]), "", text[0], NAME);
    if (p->piece[0] < 0 || p->piece[1] < 0) {
        snprintf(text[1], NAME, "only %s", p->piece[0] < 0 ? "after" : "before");
        return;
    }
    const double apart = fmax(farthest(o, p, 0), farthest(o, p, 1));
    char length[48];
    tailor_in_length_words(apart, o->print, length);
    if (apart < 0.05)
        snprintf(text[1], NAME, "outline as before");
    else
        snprintf(text[1], NAME, "outlines up to %s apart", length);
}

static void draw_draft(struct tailor_in_drawing *d, const struct overlay *o, const struct pair *p, int draft)
{
    const tailor_pattern *pattern = o->drafts[draft];
    const int piece = p->piece[draft], outline = draft ? TAILOR_IN_OUTLINE : TAILOR_IN_FOLD;
    size_t count;
    const tailor_cubic *path = tailor_piece_outline(pattern, piece, &count);
    char id[NAME], title[NAME], words[NAME];
    tailor_in_words(tailor_piece_name(pattern, piece), "", words, NAME);
    snprintf(id, NAME, "%s-%s%s", tailor_piece_name(pattern, piece), draft ? "after" : "before",
             p->mirrored[draft] ? "-mirrored" : "");
    snprintf(title, NAME, "%.70s: %s", words, draft ? "after" : "before");
    tailor_in_drawing_group(d, id, title);
    tailor_in_drawing_place(d, p->x, p->y, 1, p->mirrored[draft] ? -1 : 1);
    tailor_in_drawing_path(d, outline, path, count, 1);
    for (int mark = 0; mark < tailor_piece_mark_count(pattern, piece); mark++) {
        path = tailor_mark_path(pattern, piece, mark, &count);
        if (count && is_shown(pattern, piece, mark))
            tailor_in_drawing_path(d, draft ? TAILOR_IN_THIN : TAILOR_IN_TURNED, path, count, 0);
    }
    tailor_in_drawing_group_end(d);
}

static void write_text(struct tailor_in_drawing *d, double x, double y, double size, double anchor, int bold,
                       const char *text)
{
    tailor_in_drawing_text(d, (tailor_point){x, y}, (struct tailor_in_lettering){size, anchor, 0, bold}, text);
}

static void draw_pair(struct tailor_in_drawing *d, const struct overlay *o, size_t which)
{
    const struct pair *p = &o->pairs[which];
    char id[NAME], text[2][NAME];
    snprintf(id, NAME, "pair-%zu", which + 1);
    write_caption(o, p, text);
    tailor_in_drawing_group(d, id, text[0]);
    for (int draft = 0; draft < 2; draft++)
        if (p->piece[draft] >= 0)
            draw_draft(d, o, p, draft);
    tailor_in_drawing_place_page(d);
    const double middle = p->x + (p->box[0] + p->box[2]) / 2, below = p->y - p->box[1];
    write_text(d, middle, below + 17, 11, 0.5, 1, text[0]);
    write_text(d, middle, below + 30, 9, 0.5, 0, text[1]);
    tailor_in_drawing_group_end(d);
}

static void draw_heading(struct tailor_in_drawing *d, const struct overlay *o)
{
    const double right = o->width - margin, room = right - square - 40 - margin, sample = 60;
    const int line[2] = {TAILOR_IN_FOLD, TAILOR_IN_OUTLINE}, mark[2] = {TAILOR_IN_TURNED, TAILOR_IN_THIN};
    char text[256], label[320];
    tailor_in_drawing_group(d, "heading", "heading");
    tailor_in_drawing_title_fit(d, "Two drafts overlaid", 22, 1, room, text, sizeof text);
    write_text(d, margin, margin + 22, 22, 0, 1, text);
    for (int draft = 0; draft < 2; draft++) {
        const double y = margin + 50 + 20 * draft;
        tailor_in_drawing_line(d, line[draft], (tailor_point){margin, y}, (tailor_point){margin + sample, y});
        tailor_in_drawing_line(d, mark[draft], (tailor_point){margin, y + 5}, (tailor_point){margin + sample, y + 5});
        snprintf(label, sizeof label, "%s, %s%s%.200s", draft ? "after" : "before", draft ? "solid" : "dashed",
                 o->labels[draft] && *o->labels[draft] ? ": " : "", o->labels[draft] ? o->labels[draft] : "");
        tailor_in_text_fit(label, 10, 0, room - sample - 10, text, sizeof text);
        write_text(d, margin + sample + 10, y + 5, 10, 0, 0, text);
    }
    write_text(d, margin, margin + 92, 10, 0, 0,
               "Each piece of both drafts at its own origin, net, true to size: for looking, not for cutting.");
    snprintf(label, sizeof label, "Edition %d of the drafting rules, libtailorgeom %s.", tailor_edition(),
             tailor_version());
    write_text(d, margin, margin + 107, 10, 0, 0, label);
    tailor_in_drawing_box(d, TAILOR_IN_MARKED, (tailor_point){right - square, margin},
                          (tailor_point){right, margin + square});
    write_text(d, right - square / 2, margin + square / 2 + 4, 12, 0.5, 1, "100 mm");
    tailor_in_drawing_group_end(d);
}

void tailor_in_compose_overlay(struct tailor_in_drawing *d, const tailor_pattern *const drafts[2],
                               const char *const labels[2], int print)
{
    struct overlay all = {.drafts = {drafts[0], drafts[1]}, .labels = {labels[0], labels[1]}, .print = print};
    struct overlay *o = &all;
    const size_t most = (size_t)tailor_pattern_piece_count(o->drafts[0]) +
                        (size_t)tailor_pattern_piece_count(o->drafts[1]) + 1;
    o->pairs = d->allocator.allocate(d->allocator.user, most * sizeof *o->pairs);
    if (!o->pairs) {
        d->failed = 1;
        return;
    }
    pair_pieces(o);
    place_pairs(o);
    d->width = o->width;
    d->height = o->height;
    draw_heading(d, o);
    for (size_t i = 0; i < o->count; i++)
        draw_pair(d, o, i);
    d->allocator.release(d->allocator.user, o->pairs);
}

tailor_status tailor_sheet_draw_overlay(const tailor_pattern *before, const tailor_pattern *after,
                                        const char *const labels[2], const tailor_page *page, tailor_writer write,
                                        void *user, tailor_fault *fault)
{
    const tailor_pattern *const drafts[] = {before, after};
    static const char *const no_labels[] = {NULL, NULL};
    struct tailor_in_drawing drawing;
    const tailor_status status = tailor_in_page_ask(page, 0, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (!before || !after)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, NAN, NAN, NAN,
                                     "two patterns are laid on one another: one is missing");
    tailor_in_page_begin(page, "", tailor_in_any_for_toile(drafts, 2), &drawing);
    tailor_in_compose_overlay(&drawing, drafts, labels ? labels : no_labels,
                              tailor_in_page_choice(page, TAILOR_PAGE_UNITS));
    return tailor_in_page_end(page, &drawing, write, user, fault);
}

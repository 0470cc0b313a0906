/* The fronts picture: several coats side by side as worn, at one scale, with the coverage of the chest. */
#include "../output/write.h"
#include "compose.h"
#include "lettering.h"
#include "page.h"
#include "worn.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/order.h>

static const double scale = 1 / 8.0;
/* On the page, mm. */
static const double margin = 12, heading = 32, side_room = 26, label_room = 16, row_gap = 8;
enum { MOST_IN_A_ROW = 5 };

struct picture {
    struct tailor_in_front *fronts;
    size_t count, columns, rows;
    double half_width, high, low; /* the largest of all, in mm of cloth */
};

static struct tailor_in_lettering letters(double size, double anchor, int bold)
{
    return (struct tailor_in_lettering){size, anchor, 0, bold};
}

/** A coverage, drawn across the upper front and written beside it, in inches and mm, at `text` on the page. */
static void draw_coverage(struct tailor_in_drawing *d, const struct tailor_in_front *front, double level,
                          tailor_point text)
{
    const double coverage = tailor_in_front_coverage(front, level), tick = 9;
    char inches[48], mm[48];
    if (!isfinite(coverage))
        return;
    const tailor_point from = {front->scye_front.x, level}, to = {from.x + coverage, level};
    const tailor_point foot = tailor_in_drawing_on_page(d, from);
    tailor_in_length_words(coverage, TAILOR_PRINT_INCH_8, inches);
    tailor_in_length_words(round(coverage), TAILOR_PRINT_MM, mm);
    tailor_in_drawing_line(d, TAILOR_IN_THIN, from, to);
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){to.x, level - tick}, (tailor_point){to.x, level + tick});
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){from.x, level - tick},
                           (tailor_point){from.x, level + tick});
    tailor_in_drawing_line(d, TAILOR_IN_TURNED, from,
                           (tailor_point){from.x - (text.x - 1 - foot.x) / scale, level - (text.y - foot.y) / scale});
    tailor_in_drawing_text_on_page(d, (tailor_point){text.x, text.y - 0.3}, letters(2.9, 0, 1), inches);
    tailor_in_drawing_text_on_page(d, (tailor_point){text.x, text.y + 2.9}, letters(2.5, 0, 0), mm);
}

/** Both coverages; where their levels are close, what is written beside them is moved apart. */
static void draw_coverages(struct tailor_in_drawing *d, const struct tailor_in_front *front, double text_x)
{
    const double level[2] = {front->scye_front.y, front->top_button_level}, apart = 7.5;
    tailor_point text[2];
    for (int i = 0; i < 2; i++)
        text[i] = (tailor_point){text_x, tailor_in_drawing_on_page(d, (tailor_point){0, level[i]}).y};
    const int lower = text[1].y >= text[0].y;
    const double move = fmax(0, apart - fabs(text[1].y - text[0].y)) / 2;
    text[lower].y += move;
    text[!lower].y -= move;
    for (int i = 0; i < 2; i++)
        draw_coverage(d, front, level[i], text[i]);
}

/** What is seen of the back of the collar between the two stand points; drawn freely. */
static void draw_back_of_collar(struct tailor_in_drawing *d, const struct tailor_in_front *front)
{
    const double x = front->centre_front - front->stand_point.x, y = front->stand_point.y;
    const tailor_cubic path[] = {
        {{{-x, y}, {-0.6 * x, y + 16}, {0.6 * x, y + 16}, {x, y}}},
        {{{x, y}, {0.55 * x, y - 22}, {-0.55 * x, y - 22}, {-x, y}}},
    };
    tailor_in_drawing_path(d, TAILOR_IN_BENEATH, path, 2, 1);
}

/** One coat, its centre front at `x` and its nape level at `y` on the page. */
static void draw_coat(struct tailor_in_drawing *d, const struct picture *p, size_t which, const char *label, double x,
                      double y)
{
    const struct tailor_in_front *front = &p->fronts[which];
    const double across = scale * front->centre_front;
    char id[40], text[128];
    snprintf(id, sizeof id, "coat-%zu", which + 1);
    tailor_in_drawing_group(d, id, label);
    tailor_in_drawing_place(d, x, y, scale, 1);
    draw_back_of_collar(d, front);
    snprintf(id, sizeof id, "coat-%zu-right", which + 1);
    tailor_in_drawing_group(d, id, "wearer's right, beneath");
    tailor_in_drawing_place(d, x - across, y, scale, 1);
    tailor_in_draw_front(d, front, 0);
    tailor_in_draw_buttons(d, front, 0);
    tailor_in_drawing_group_end(d);
    snprintf(id, sizeof id, "coat-%zu-left", which + 1);
    tailor_in_drawing_group(d, id, "wearer's left, on top");
    tailor_in_drawing_place(d, x + across, y, scale, -1);
    tailor_in_draw_front(d, front, 1);
    tailor_in_drawing_group_end(d);
    snprintf(id, sizeof id, "coat-%zu-coverage", which + 1);
    tailor_in_drawing_group(d, id, "coverage");
    draw_coverages(d, front, x + scale * p->half_width + 3.5);
    tailor_in_drawing_group_end(d);
    snprintf(id, sizeof id, "coat-%zu-fastening", which + 1);
    tailor_in_drawing_group(d, id, "buttonholes and buttons");
    tailor_in_draw_holes(d, front);
    tailor_in_draw_buttons(d, front, 1);
    tailor_in_drawing_group_end(d);
    tailor_in_text_fit(label, 4.6, 1, 2 * scale * p->half_width + side_room - 4, text, sizeof text);
    tailor_in_drawing_place_page(d);
    tailor_in_drawing_text(d, (tailor_point){x, y - scale * p->low + 9}, letters(4.6, 0.5, 1), text);
    tailor_in_drawing_group_end(d);
}

static void draw_scale_bar(struct tailor_in_drawing *d, double right, double y)
{
    const double left = right - 200 * scale;
    tailor_in_drawing_group(d, "scale-bar", "scale bar: 200 mm of cloth");
    tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){left, y}, (tailor_point){right, y});
    for (int i = 0; i <= 4; i++) {
        const double x = left + i * 50 * scale;
        tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){x, y}, (tailor_point){x, y - (i % 2 ? 1.2 : 2.2)});
    }
    tailor_in_drawing_text(d, (tailor_point){left - 3, y}, letters(3, 1, 0), "scale 1 : 8");
    tailor_in_drawing_text(d, (tailor_point){left, y + 4}, letters(3, 0, 0), "0");
    tailor_in_drawing_text(d, (tailor_point){right, y + 4}, letters(3, 1, 0), "200 mm");
    tailor_in_drawing_group_end(d);
}

static void draw_heading(struct tailor_in_drawing *d)
{
    static const char *const lines[] = {
        "Fronts as worn, the left over the right. Written beside each: how much of the chest is covered, from the",
        "front of the scye to the break line, on the scye line and at the level of a three-button coat's top button.",
        "Thin dashes on a front that rolls by its make: the lapel when it has rolled through to the waist button."};
    char text[256];
    const double room = d->width - 2 * margin - 200 * scale - 30;
    tailor_in_drawing_group(d, "heading", "heading");
    tailor_in_drawing_title_fit(d, "Fronts compared", 7, 1, room, text, sizeof text);
    tailor_in_drawing_text(d, (tailor_point){margin, margin + 6.5}, letters(7, 0, 1), text);
    for (int i = 0; i < 3; i++)
        tailor_in_drawing_text(d, (tailor_point){margin, margin + 13 + 5 * i}, letters(3.4, 0, 0), lines[i]);
    tailor_in_drawing_group_end(d);
    draw_scale_bar(d, d->width - margin, margin + 6.5);
}

static void compose(struct tailor_in_drawing *d, struct picture *p, const char *const *labels)
{
    const double column = 2 * scale * p->half_width + side_room;
    const double row = scale * (p->high - p->low) + label_room;
    d->line_scale = 0.5;
    d->width = ceil(fmax(2 * margin + (double)p->columns * column, 250));
    d->height = ceil(2 * margin + heading + (double)p->rows * row + (double)(p->rows - 1) * row_gap);
    draw_heading(d);
    for (size_t i = 0; i < p->count; i++) {
        const size_t r = i / p->columns, c = i % p->columns;
        const size_t here = r + 1 < p->rows ? p->columns : p->count - r * p->columns; /* the last row is centred */
        const double left = (d->width - (double)here * column) / 2;
        draw_coat(d, p, i, labels && labels[i] ? labels[i] : "", left + ((double)c + 0.5) * column - side_room / 2 + 4,
                  margin + heading + (double)r * (row + row_gap) + scale * p->high);
    }
}

void tailor_in_compose_fronts(struct tailor_in_drawing *d, const tailor_pattern *const *patterns,
                              const char *const *labels, size_t count)
{
    struct picture p = {
        .count = count, .rows = (count + MOST_IN_A_ROW - 1) / MOST_IN_A_ROW, .low = INFINITY, .high = -INFINITY};
    p.columns = (count + p.rows - 1) / p.rows;
    p.fronts = d->allocator.allocate(d->allocator.user, count * sizeof *p.fronts);
    if (!p.fronts) {
        d->failed = 1;
        return;
    }
    size_t ready = 0;
    while (ready < count && tailor_in_front_begin(&p.fronts[ready], patterns[ready], &d->allocator)) {
        const struct tailor_in_front *front = &p.fronts[ready++];
        p.half_width =
            fmax(p.half_width, fmax(front->centre_front - front->bounds[0], front->bounds[2] - front->centre_front));
        p.low = fmin(p.low, front->bounds[1]);
        p.high = fmax(p.high, front->bounds[3] + 12); /* the back of the collar rises above the stand point */
    }
    if (ready == count)
        compose(d, &p, labels);
    else
        d->failed = 1;
    for (size_t i = 0; i < ready; i++)
        tailor_in_front_end(&p.fronts[i], &d->allocator);
    d->allocator.release(d->allocator.user, p.fronts);
}

tailor_status tailor_sheet_draw_fronts(const tailor_pattern *const *patterns, const char *const *labels, size_t count,
                                       const tailor_page *page, tailor_writer write, void *user, tailor_fault *fault)
{
    struct tailor_in_drawing drawing;
    const tailor_status status = tailor_in_page_ask(page, 0, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (!patterns || count < 1 || count > 100)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)count, 1, 100,
                                     "1 to 100 coats can be drawn side by side");
    for (size_t i = 0; i < count; i++)
        if (!tailor_in_front_can_be_read(patterns[i]))
            return tailor_in_sheet_fault(
                fault, TAILOR_BAD_ARGUMENT, (double)i, NAN, NAN,
                "a pattern without a whole forepart cannot be drawn as worn (its place in the list "
                "is the value, from 0)");
    tailor_in_page_begin(page, "", tailor_in_any_for_toile(patterns, count), &drawing);
    tailor_in_compose_fronts(&drawing, patterns, labels, count);
    return tailor_in_page_end(page, &drawing, write, user, fault);
}

/* The section of a lapel across its break line: how high it rolls, how tightly, and whether its edge lies. */
#include "../output/write.h"
#include "cautions.h"
#include "compose.h"
#include "lettering.h"
#include "page.h"

#include <math.h>
#include <tailorgeom/order.h>

static const double scale = 3;
/* On the page, mm. */
static const double margin = 14, heading = 16, left_room = 48, right_room = 62, above = 34, below = 16;
static const double label_line = 5.5, label_top = 10, caution_size = 3.4;
enum { LABELS_MOST = 12, POINTS_LEAST = 3, POINTS_MOST = 10000 };

/* What is measured off the line itself. */
struct section {
    const tailor_point *line;
    size_t count, top, crest, sharpest; /* the highest point; where forepart and lapel meet */
    double radius; /* mm of cloth; infinite where nothing bends */
    tailor_point low, high;
};

static struct tailor_in_lettering letters(double size, double anchor, int bold)
{
    return (struct tailor_in_lettering){size, anchor, 0, bold};
}

static double turn_at(const struct section *s, size_t i)
{
    const tailor_point a = s->line[i - 1], b = s->line[i], c = s->line[i + 1];
    const double before = atan2(b.y - a.y, b.x - a.x), turn = atan2(c.y - b.y, c.x - b.x) - before;
    return fabs(remainder(turn, 2 * 3.14159265358979323846));
}

static struct section measured(const tailor_point *line, size_t count)
{
    struct section s = {
        .line = line, .count = count, .sharpest = 1, .radius = INFINITY, .low = line[0], .high = line[0]};
    for (size_t i = 0; i < count; i++) {
        s.top = line[i].y > line[s.top].y ? i : s.top;
        s.low = (tailor_point){fmin(s.low.x, line[i].x), fmin(s.low.y, line[i].y)};
        s.high = (tailor_point){fmax(s.high.x, line[i].x), fmax(s.high.y, line[i].y)};
        if (i == 0 || i + 1 == count)
            continue;
        const double link = (hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y) +
                             hypot(line[i + 1].x - line[i].x, line[i + 1].y - line[i].y)) / 2;
        const double radius = link / turn_at(&s, i);
        if (radius < s.radius) {
            s.radius = radius;
            s.sharpest = i;
        }
    }
    s.crest = s.top + 1 < count ? s.top : s.sharpest; /* of a lapel that stands up, where it bends most */
    return s;
}

/* A part of the line, rounded between its points: each cubic's handles run along the neighbours (Catmull and Rom). */
static void draw_line(struct tailor_in_drawing *d, const struct section *s, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        const tailor_point a = s->line[i], b = s->line[i + 1];
        const tailor_point before = i > 0 ? s->line[i - 1] : a, after = i + 2 < s->count ? s->line[i + 2] : b;
        const tailor_cubic link = {{a,
                                    {a.x + (b.x - before.x) / 6, a.y + (b.y - before.y) / 6},
                                    {b.x - (after.x - a.x) / 6, b.y - (after.y - a.y) / 6},
                                    b}};
        tailor_in_drawing_path(d, TAILOR_IN_OUTLINE, &link, 1, 0);
    }
}

/* The body under the front: a line with strokes below it. */
static void draw_chest(struct tailor_in_drawing *d, double left, double right)
{
    const double stroke = 6 / scale;
    tailor_in_drawing_group(d, "chest", "chest");
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){left, -0.8}, (tailor_point){right, -0.8});
    for (double x = left + stroke; x <= right; x += stroke)
        tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){x, -0.8},
                               (tailor_point){x - stroke * 0.7, -0.8 - stroke * 0.7});
    tailor_in_drawing_group_end(d);
}

/* An upright dimension between the chest and a height, at x, written beside it. */
static void draw_height(struct tailor_in_drawing *d, double x, double from_x, double height, int print,
                        const char *what)
{
    char length[48];
    const tailor_point foot = {x, 0}, top = {x, height};
    const double out = x > from_x ? 1 : -1, head = fmin(2.4, 0.4 * height * scale);
    tailor_in_length_words(height, print, length);
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){from_x + out, height}, (tailor_point){x + out, height});
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){from_x + out, 0}, (tailor_point){x + out, 0});
    tailor_in_drawing_line(d, TAILOR_IN_THIN, foot, top);
    tailor_in_drawing_arrow_head(d, foot, top, head / scale);
    tailor_in_drawing_arrow_head(d, top, foot, head / scale);
    const tailor_point middle = tailor_in_drawing_on_page(d, (tailor_point){x + 2 * out, height / 2});
    tailor_in_drawing_text_on_page(d, middle, letters(4, out > 0 ? 0 : 1, 1), length);
    tailor_in_drawing_text_on_page(d, (tailor_point){middle.x, middle.y + 4.4}, letters(3.2, out > 0 ? 0 : 1, 0), what);
}

/* A word over or under a place of the line, with a thin line that leads to it. */
static void draw_name(struct tailor_in_drawing *d, tailor_point at, double across, double up, const char *name)
{
    const tailor_point end = {at.x + across, at.y + up}, begin = {at.x + across * 0.08, at.y + up * 0.08};
    tailor_in_drawing_line(d, TAILOR_IN_THIN, begin, end);
    const tailor_point page = tailor_in_drawing_on_page(d, end);
    tailor_in_drawing_text_on_page(d, (tailor_point){page.x, page.y - 1.2}, letters(4, 0.5, 0), name);
}

static void draw_radius(struct tailor_in_drawing *d, const struct section *s, int print)
{
    char length[48], text[64] = "radius ";
    const size_t i = s->sharpest;
    const tailor_point a = s->line[i - 1], p = s->line[i], c = s->line[i + 1];
    const double chord = hypot(c.x - a.x, c.y - a.y);
    if (!(s->radius < 500) || chord == 0)
        return;
    /* inward is where the line turns to */
    const double cross = (p.x - a.x) * (c.y - p.y) - (p.y - a.y) * (c.x - p.x), inward = cross > 0 ? 1 : -1;
    const tailor_point centre = {p.x - inward * s->radius * (c.y - a.y) / chord,
                                 p.y + inward * s->radius * (c.x - a.x) / chord};
    tailor_in_length_words(s->radius, print, length);
    size_t used = 7;
    for (const char *at = length; *at && used + 1 < sizeof text; at++)
        text[used++] = *at;
    text[used] = '\0';
    tailor_in_drawing_circle(d, TAILOR_IN_TURNED, centre, s->radius);
    tailor_in_drawing_line(d, TAILOR_IN_THIN, centre, p);
    tailor_in_drawing_arrow_head(d, centre, p, fmin(2.4 / scale, 0.5 * s->radius));
    /* inside the circle where there is room, above it, so that the arrow stays clear */
    const double room = 2 * s->radius * scale - 4, size = 3.4, across = centre.x - p.x, up = centre.y - p.y;
    const tailor_point page = tailor_in_drawing_on_page(d, centre);
    if (tailor_in_text_width(text, size, 0) <= room)
        tailor_in_drawing_text_on_page(d, (tailor_point){page.x, page.y + (up > 0 ? -1.8 : size + 0.6)},
                                       letters(size, 0.5, 0), text);
    else
        draw_name(d, p, across < 0 ? 4 : 12, s->high.y - p.y + 10, text);
}

static tailor_point between(const struct section *s, double share)
{
    return s->line[s->crest + (size_t)(share * (double)(s->count - 1 - s->crest))];
}

static void draw_scale_bar(struct tailor_in_drawing *d, double right, double y)
{
    const double left = right - 20 * scale;
    tailor_in_drawing_group(d, "scale-bar", "scale bar: 20 mm of cloth");
    tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){left, y}, (tailor_point){right, y});
    for (int i = 0; i <= 4; i++) {
        const double x = left + i * 5 * scale;
        tailor_in_drawing_line(d, TAILOR_IN_MARKED, (tailor_point){x, y}, (tailor_point){x, y - (i % 2 ? 1.2 : 2.2)});
    }
    tailor_in_drawing_text(d, (tailor_point){left - 3, y}, letters(3, 1, 0), "scale 3 : 1");
    tailor_in_drawing_text(d, (tailor_point){left, y + 4}, letters(3, 0, 0), "0");
    tailor_in_drawing_text(d, (tailor_point){right, y + 4}, letters(3, 1, 0), "20 mm");
    tailor_in_drawing_group_end(d);
}

static void draw_dimensions(struct tailor_in_drawing *d, const struct section *s, int print)
{
    const tailor_point edge = s->line[s->count - 1], top = s->line[s->top];
    const int stands_up = s->top + 1 == s->count;
    tailor_in_drawing_group(d, "dimensions", "dimensions");
    draw_height(d, s->high.x + 9, top.x, top.y, print, stands_up ? "height of the edge" : "height of the roll");
    if (edge.y >= 0.2 && !stands_up)
        draw_height(d, s->low.x - 9, edge.x, edge.y, print, "stands off");
    draw_radius(d, s, print);
    tailor_in_drawing_group_end(d);
}

static void draw_names(struct tailor_in_drawing *d, const struct section *s)
{
    const double up = s->high.y + 5;
    const tailor_point edge = s->line[s->count - 1], lapel = between(s, 0.6), crest = s->line[s->crest];
    tailor_in_drawing_group(d, "names", "names");
    if (s->top == s->crest) /* over a lapel that stands up there is no crest to point at */
        draw_name(d, crest, -6, up - crest.y, "crest");
    draw_name(d, lapel, -4, up - lapel.y, "lapel");
    draw_name(d, edge, -6, up - edge.y, edge.y >= 0.2 ? "edge, standing off" : "edge, lying on the chest");
    const tailor_point on = tailor_in_drawing_on_page(d, s->line[s->crest / 3]);
    tailor_in_drawing_text_on_page(d, (tailor_point){on.x - 4, on.y - 2}, letters(4, 1, 0), "forepart");
    const tailor_point chest = tailor_in_drawing_on_page(d, (tailor_point){edge.x, 0});
    tailor_in_drawing_text_on_page(d, (tailor_point){chest.x, chest.y + 11}, letters(4, 0, 0), "chest");
    tailor_in_drawing_group_end(d);
}

static void draw_words(struct tailor_in_drawing *d, const char *const *labels, size_t count, double top)
{
    char text[400];
    tailor_in_drawing_group(d, "labels", "what the section rests on");
    for (size_t i = 0; i < count; i++) {
        tailor_in_text_fit(labels[i] ? labels[i] : "", 3.4, 0, d->width - 2 * margin, text, sizeof text);
        tailor_in_drawing_text(d, (tailor_point){margin, top + label_line * (double)i}, letters(3.4, 0, 0), text);
    }
    tailor_in_drawing_group_end(d);
}

static void compose(struct tailor_in_drawing *d, const struct section *s, const char *const *labels, size_t count,
                    int print)
{
    char text[256];
    const double wide = s->high.x - s->low.x, high = s->high.y;
    d->line_scale = 1;
    d->width = ceil(fmax(2 * margin + left_room + right_room + scale * wide, 297));
    const double cautions = tailor_in_cautions_height(d, caution_size);
    const double level = margin + heading + cautions + above + scale * high;
    const double words = level + below + label_top;
    d->height = ceil(words + label_line * (double)count + margin);
    tailor_in_drawing_group(d, "heading", "heading");
    tailor_in_drawing_title_fit(d, "", 6, 1, d->width - 2 * margin - 100, text, sizeof text);
    tailor_in_drawing_text(d, (tailor_point){margin, margin + 6.5}, letters(6, 0, 1), text);
    tailor_in_drawing_text(d, (tailor_point){margin, margin + 13}, letters(3.4, 0, 0),
                           "Across the break line, the body below; cloth as a line without thickness.");
    tailor_in_drawing_group_end(d);
    tailor_in_draw_cautions(d, (tailor_point){margin, margin + heading}, caution_size, d->width - 2 * margin);
    draw_scale_bar(d, d->width - margin, margin + 6.5);
    const double spare = d->width - 2 * margin - left_room - right_room - scale * wide;
    tailor_in_drawing_place(d, margin + left_room + spare / 2 - scale * s->low.x, level, scale, 1);
    draw_chest(d, s->low.x - 6, s->high.x + 3);
    tailor_in_drawing_group(d, "forepart", "forepart");
    /* it is held where the line begins, and goes on under the lapel */
    tailor_in_drawing_line(d, TAILOR_IN_OUTLINE, (tailor_point){s->low.x - 6, s->line[0].y}, s->line[0]);
    draw_line(d, s, 0, s->crest);
    tailor_in_drawing_group_end(d);
    tailor_in_drawing_group(d, "lapel", "lapel");
    draw_line(d, s, s->crest, s->count - 1);
    tailor_in_drawing_group_end(d);
    draw_dimensions(d, s, print);
    draw_names(d, s);
    tailor_in_drawing_place_page(d);
    draw_words(d, labels, count, words);
}

static tailor_status ask(const tailor_point *line, size_t line_count, const char *const *labels, size_t label_count,
                         tailor_fault *fault)
{
    if (!line || line_count < POINTS_LEAST || line_count > POINTS_MOST)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)line_count, POINTS_LEAST, POINTS_MOST,
                                     "a section is drawn of 3 to 10000 points");
    for (size_t i = 0; i < line_count; i++)
        if (!(fabs(line[i].x) <= 1000 && fabs(line[i].y) <= 1000))
            return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)i, NAN, NAN,
                                         "a point of the section is no number or beyond 1000 mm (its place in the line "
                                         "is the value, from 0)");
    const struct section s = measured(line, line_count);
    if (!(line[s.top].y > line[0].y && line[s.top].y > 0))
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)s.top, NAN, NAN,
                                     "the line of a section rises off the chest after its beginning (the highest "
                                     "point's place in the line is the value, from 0)");
    if (label_count > LABELS_MOST || (!labels && label_count))
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)label_count, 0, LABELS_MOST,
                                     "at most 12 labels stand beneath a section");
    return TAILOR_OK;
}

tailor_status tailor_sheet_draw_section(const tailor_point *line, size_t line_count, const char *const *labels,
                                        size_t label_count, const tailor_page *page, tailor_writer write, void *user,
                                        tailor_fault *fault)
{
    struct tailor_in_drawing drawing;
    tailor_status status = tailor_in_page_ask(page, 0, write, fault);
    if (status == TAILOR_OK)
        status = ask(line, line_count, labels, label_count, fault);
    if (status != TAILOR_OK)
        return status;
    const struct section s = measured(line, line_count);
    tailor_in_page_begin(page, "Section of the roll", 0, &drawing);
    compose(&drawing, &s, labels, label_count, tailor_in_page_choice(page, TAILOR_PAGE_UNITS));
    return tailor_in_page_end(page, &drawing, write, user, fault);
}

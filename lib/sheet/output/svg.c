/* SVG 1.1: one user unit is one millimetre, text stays text, every group has a title. Numbers are written to the
 * thousandth of a millimetre. */
#include "../layout/lettering.h"
#include "write.h"

#include <math.h>

static void put(struct tailor_in_sink *sink, const char *text)
{
    tailor_in_sink_string(sink, text);
}

static void put_number(struct tailor_in_sink *sink, double value)
{
    char text[32];
    tailor_in_sink_put(sink, text, tailor_in_number_write(text, value, 3));
}

static void put_point(struct tailor_in_sink *sink, const char *before, tailor_point p)
{
    put(sink, before);
    put_number(sink, p.x);
    put(sink, " ");
    put_number(sink, p.y);
}

static void put_attribute(struct tailor_in_sink *sink, const char *name, double value)
{
    put(sink, name);
    put_number(sink, value);
    put(sink, "\"");
}

static void put_grey(struct tailor_in_sink *sink, const char *name, double grey)
{
    static const char digits[] = "0123456789abcdef";
    put(sink, name);
    if (grey < 0) {
        put(sink, "none\"");
        return;
    }
    unsigned level = (unsigned)(255 * grey + 0.5);
    const char pair[2] = {digits[level >> 4], digits[level & 15]};
    put(sink, "#");
    for (int i = 0; i < 3; i++)
        tailor_in_sink_put(sink, pair, 2);
    put(sink, "\"");
}

/** A curve whose handles lie on its chord is written as the line that it is. */
static int is_line(const tailor_cubic *c)
{
    const double x = c->p[3].x - c->p[0].x, y = c->p[3].y - c->p[0].y, length = hypot(x, y);
    for (int k = 1; k < 3; k++)
        if (fabs((c->p[k].x - c->p[0].x) * y - (c->p[k].y - c->p[0].y) * x) > 1e-6 * length)
            return 0;
    return length > 0;
}

static void put_path(struct tailor_in_sink *sink, const struct tailor_in_drawing *d, const struct tailor_in_item *item)
{
    const struct tailor_in_style *style = &tailor_in_styles[item->style];
    const tailor_cubic *c = tailor_in_drawing_cubics(d, item);
    put(sink, "<path");
    put_grey(sink, " fill=\"", style->fill);
    if (style->ink >= 0) {
        put_grey(sink, " stroke=\"", style->ink);
        put_attribute(sink, " stroke-width=\"", style->weight * d->line_scale);
        for (int i = 0; i < style->dashes; i++) {
            put(sink, i ? " " : " stroke-dasharray=\"");
            put_number(sink, style->dash[i] * d->line_scale);
        }
        put(sink, style->dashes ? "\"" : "");
    }
    put_point(sink, " d=\"M", c->p[0]);
    for (size_t i = 0; i < item->count; i++, c++) {
        if (is_line(c)) {
            put_point(sink, "L", c->p[3]);
            continue;
        }
        put_point(sink, "C", c->p[1]);
        put_point(sink, " ", c->p[2]);
        put_point(sink, " ", c->p[3]);
    }
    put(sink, item->closed ? "Z\"/>\n" : "\"/>\n");
}

static void put_text(struct tailor_in_sink *sink, const struct tailor_in_drawing *d, const struct tailor_in_item *item)
{
    const struct tailor_in_lettering *how = &item->lettering;
    put_attribute(sink, "<text x=\"", item->at.x);
    put_attribute(sink, " y=\"", item->at.y);
    put_attribute(sink, " font-size=\"", how->size);
    put(sink, how->bold ? " font-weight=\"bold\"" : "");
    if (how->anchor > 0)
        put(sink, how->anchor < 1 ? " text-anchor=\"middle\"" : " text-anchor=\"end\"");
    if (how->angle < 0 || how->angle > 0) {
        put(sink, " transform=\"rotate(");
        put_number(sink, how->angle);
        put_point(sink, " ", item->at);
        put(sink, ")\"");
    }
    put(sink, ">");
    tailor_in_sink_escaped(sink, tailor_in_drawing_string(d, item->first));
    put(sink, "</text>\n");
}

static void put_title(struct tailor_in_sink *sink, const char *title)
{
    put(sink, "<title>");
    tailor_in_sink_escaped(sink, title);
    put(sink, "</title>\n");
}

static void put_group(struct tailor_in_sink *sink, const struct tailor_in_drawing *d, const struct tailor_in_item *item)
{
    put(sink, "<g id=\"");
    tailor_in_sink_escaped(sink, tailor_in_drawing_string(d, item->count));
    put(sink, "\">");
    put_title(sink, tailor_in_drawing_string(d, item->first));
}

tailor_status tailor_in_write_svg(const struct tailor_in_drawing *d, struct tailor_in_sink *sink)
{
    put(sink, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"");
    put(sink, " width=\"");
    put_number(sink, d->width);
    put(sink, "mm\" height=\"");
    put_number(sink, d->height);
    put(sink, "mm\" viewBox=\"");
    put_point(sink, "0 0 ", (tailor_point){d->width, d->height});
    put(sink, "\">\n");
    put_title(sink, tailor_in_drawing_title(d));
    put(sink, "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n"
              "<g font-family=\"" TAILOR_IN_FAMILIES "\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n");
    size_t count;
    const struct tailor_in_item *item = tailor_in_drawing_items(d, &count);
    for (; count && !sink->broken; count--, item++) {
        switch (item->kind) {
        case TAILOR_IN_GROUP: put_group(sink, d, item); break;
        case TAILOR_IN_GROUP_END: put(sink, "</g>\n"); break;
        case TAILOR_IN_PATH: put_path(sink, d, item); break;
        default: put_text(sink, d, item); break;
        }
    }
    put(sink, "</g>\n</svg>\n");
    tailor_in_sink_flush(sink);
    return TAILOR_OK;
}

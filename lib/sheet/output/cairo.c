/* PDF and PNG through cairo. A PDF is one page at true size; a PNG is for looking. */
#include "../layout/lettering.h"
#include "write.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <math.h>

static cairo_status_t hand_on(void *closure, const unsigned char *data, unsigned bytes)
{
    struct tailor_in_sink *sink = closure;
    tailor_in_sink_put(sink, (const char *)data, bytes);
    return sink->broken ? CAIRO_STATUS_WRITE_ERROR : CAIRO_STATUS_SUCCESS;
}

static void draw_path(cairo_t *c, const struct tailor_in_drawing *d, const struct tailor_in_item *item)
{
    const struct tailor_in_style *style = &tailor_in_styles[item->style];
    const tailor_cubic *path = tailor_in_drawing_cubics(d, item);
    cairo_move_to(c, path->p[0].x, path->p[0].y);
    for (size_t i = 0; i < item->count; i++) {
        const tailor_point *p = path[i].p;
        cairo_curve_to(c, p[1].x, p[1].y, p[2].x, p[2].y, p[3].x, p[3].y);
    }
    if (item->closed)
        cairo_close_path(c);
    if (style->fill >= 0) {
        cairo_set_source_rgb(c, style->fill, style->fill, style->fill);
        cairo_fill_preserve(c);
    }
    if (style->ink >= 0) {
        double dash[4];
        for (int i = 0; i < style->dashes; i++)
            dash[i] = style->dash[i] * d->line_scale;
        cairo_set_dash(c, dash, style->dashes, 0);
        cairo_set_line_width(c, style->weight * d->line_scale);
        cairo_set_source_rgb(c, style->ink, style->ink, style->ink);
        cairo_stroke_preserve(c);
    }
    cairo_new_path(c);
}

/** Where another font than ours stands in and runs wider, the text is made smaller: it keeps its place. */
static void draw_text(cairo_t *c, const struct tailor_in_drawing *d, const struct tailor_in_item *item)
{
    const struct tailor_in_lettering *how = &item->lettering;
    const char *text = tailor_in_drawing_string(d, item->first);
    const double room = tailor_in_text_width(text, how->size, how->bold);
    cairo_text_extents_t extents;
    cairo_select_font_face(c, TAILOR_IN_FAMILY, CAIRO_FONT_SLANT_NORMAL,
                           how->bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(c, how->size);
    cairo_text_extents(c, text, &extents);
    if (extents.x_advance > 1.01 * room) {
        cairo_set_font_size(c, how->size * room / extents.x_advance);
        cairo_text_extents(c, text, &extents);
    }
    cairo_save(c);
    cairo_translate(c, item->at.x, item->at.y);
    cairo_rotate(c, how->angle * acos(-1) / 180);
    cairo_move_to(c, -how->anchor * extents.x_advance, 0);
    cairo_set_source_rgb(c, 0, 0, 0);
    cairo_show_text(c, text);
    cairo_restore(c);
    cairo_new_path(c);
}

/** Replay a drawing at `scale` device units a mm on white, and finish the page. */
static cairo_status_t replay(const struct tailor_in_drawing *d, cairo_surface_t *surface, double scale)
{
    cairo_t *c = cairo_create(surface);
    cairo_font_options_t *plain = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(plain,
                                        CAIRO_HINT_METRICS_OFF); /* widths scale with the size, on every device */
    cairo_font_options_set_hint_style(plain, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_antialias(plain, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(c, plain);
    cairo_font_options_destroy(plain);

    cairo_set_source_rgb(c, 1, 1, 1);
    cairo_paint(c);
    cairo_scale(c, scale, scale);
    cairo_set_line_cap(c, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    size_t count;
    const struct tailor_in_item *item = tailor_in_drawing_items(d, &count);
    for (; count && cairo_status(c) == CAIRO_STATUS_SUCCESS; count--, item++) {
        if (item->kind == TAILOR_IN_PATH)
            draw_path(c, d, item);
        else if (item->kind == TAILOR_IN_TEXT)
            draw_text(c, d, item);
    }
    cairo_show_page(c);
    cairo_status_t status = cairo_status(c);
    cairo_destroy(c);
    return status;
}

static tailor_status in_our_words(cairo_status_t status)
{
    if (status == CAIRO_STATUS_SUCCESS || status == CAIRO_STATUS_WRITE_ERROR) /* the sink knows of the latter */
        return TAILOR_OK;
    return status == CAIRO_STATUS_NO_MEMORY ? TAILOR_NO_MEMORY : TAILOR_INTERNAL;
}

tailor_status tailor_in_write_pdf(const struct tailor_in_drawing *d, struct tailor_in_sink *sink)
{
    const double points = 72 / 25.4;
    cairo_surface_t *surface =
        cairo_pdf_surface_create_for_stream(hand_on, sink, d->width * points, d->height * points);
    cairo_pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_5);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, tailor_in_drawing_title(d));
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "libtailorgeom-sheet");
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                   NULL); /* the same call gives the same bytes */
    cairo_status_t status = replay(d, surface, points);
    cairo_surface_finish(surface);
    if (status == CAIRO_STATUS_SUCCESS)
        status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    tailor_in_sink_flush(sink);
    return in_our_words(status);
}

tailor_status tailor_in_write_png(const struct tailor_in_drawing *d, struct tailor_in_sink *sink)
{
    const double scale = TAILOR_IN_PNG_SIDE / fmax(d->width, d->height);
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)ceil(d->width * scale - 1e-6),
                                                          (int)ceil(d->height * scale - 1e-6));
    cairo_status_t status = replay(d, surface, scale);
    if (status == CAIRO_STATUS_SUCCESS)
        status = cairo_surface_write_to_png_stream(surface, hand_on, sink);
    cairo_surface_destroy(surface);
    tailor_in_sink_flush(sink);
    return in_our_words(status);
}

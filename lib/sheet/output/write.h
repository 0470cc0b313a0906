/* Writers: a drawing replayed into a file format, through the caller's function. */
#ifndef TAILOR_IN_SHEET_WRITE_H
#define TAILOR_IN_SHEET_WRITE_H

#include "../layout/drawing.h"

/** Families named in SVG, the first of them asked of cairo: the widths in lettering.c are the first one's, and the
 *  others are no wider. */
#define TAILOR_IN_FAMILY "DejaVu Sans"
#define TAILOR_IN_FAMILIES "DejaVu Sans, Verdana, Arial, Helvetica, sans-serif"

/** Longest side of a PNG in pixels, and of a PDF page in mm (ISO 32000 at a user unit of 1). */
#define TAILOR_IN_PNG_SIDE 2400
#define TAILOR_IN_PDF_SIDE 5080.0

/** What a writer writes to: `broken` is set when the caller's function refuses, and nothing more is handed to it. */
struct tailor_in_sink {
    tailor_writer write;
    void *user;
    int broken;
    size_t held;
    char buffer[4096];
};

/** Fill a fault (NULL allowed) and return its status. */
tailor_status tailor_in_sheet_fault(tailor_fault *fault, tailor_status status, double value, double low, double high,
                                    const char *sentence);

/** Write a drawing in a format that is a drawing's (not DXF), unless it failed. */
tailor_status tailor_in_drawing_write(const struct tailor_in_drawing *d, int format, tailor_writer write,
                                      void *user, tailor_fault *fault);

/* One function a format: TAILOR_OK, TAILOR_NO_MEMORY or TAILOR_INTERNAL; the sink knows whether it broke. */
tailor_status tailor_in_write_svg(const struct tailor_in_drawing *d, struct tailor_in_sink *sink);
tailor_status tailor_in_write_pdf(const struct tailor_in_drawing *d, struct tailor_in_sink *sink);
tailor_status tailor_in_write_png(const struct tailor_in_drawing *d, struct tailor_in_sink *sink);

void tailor_in_sink_put(struct tailor_in_sink *sink, const char *data, size_t bytes);
void tailor_in_sink_string(struct tailor_in_sink *sink, const char *text);
void tailor_in_sink_flush(struct tailor_in_sink *sink);
/** Clean text with the five characters that mean something in XML escaped. */
void tailor_in_sink_escaped(struct tailor_in_sink *sink, const char *text);

#endif

#include "write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct {
    double longest; /* mm */
    tailor_status (*write)(const struct tailor_in_drawing *, struct tailor_in_sink *);
} formats[] = {
    [TAILOR_SHEET_SVG] = {INFINITY, tailor_in_write_svg},
    [TAILOR_SHEET_PDF] = {TAILOR_IN_PDF_SIDE, tailor_in_write_pdf},
    [TAILOR_SHEET_PNG] = {INFINITY, tailor_in_write_png},
};

tailor_status tailor_in_sheet_fault(tailor_fault *fault, tailor_status status, double value, double low, double high,
                                    const char *sentence)
{
    if (fault) {
        *fault = (tailor_fault){.status = status, .value = value, .low = low, .high = high};
        snprintf(fault->sentence, sizeof fault->sentence, "%s", sentence);
    }
    return status;
}

tailor_status tailor_in_drawing_write(const struct tailor_in_drawing *d, int format, tailor_writer write,
                                      void *user, tailor_fault *fault)
{
    const double longest = fmax(d->width, d->height);
    if (d->failed)
        return tailor_in_sheet_fault(fault, TAILOR_NO_MEMORY, NAN, NAN, NAN, "no memory for the drawing of the sheet");
    if (!(longest <= formats[format].longest))
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, longest, NAN, formats[format].longest,
                                     "the sheet is larger than a PDF page may be (5080 mm); SVG has no such limit");
    struct tailor_in_sink sink = {.write = write, .user = user};
    tailor_status status = formats[format].write(d, &sink);
    if (sink.broken)
        return tailor_in_sheet_fault(fault, TAILOR_WRITE_FAILED, NAN, NAN, NAN,
                                     "the sheet could not be written to its end");
    if (status == TAILOR_NO_MEMORY)
        return tailor_in_sheet_fault(fault, status, NAN, NAN, NAN, "no memory for writing the sheet");
    if (status != TAILOR_OK)
        return tailor_in_sheet_fault(fault, status, NAN, NAN, NAN, "cairo could not draw the sheet");
    return TAILOR_OK;
}

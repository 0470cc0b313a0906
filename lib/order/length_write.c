#include <math.h>
#include <tailorgeom/order.h>
#include "../base/number.h"

/* Beyond a kilometre a length is no length of a coat, and below it every part fits the whole numbers used here. */
static const double LONGEST_MM = 1e6;

static void add_inches(tailor_in_text *text, int64_t parts, int64_t denominator)
{
    int64_t whole = parts / denominator, rest = parts % denominator;
    if (whole > 0 || rest == 0)
        tailor_in_text_add_whole(text, whole);
    if (rest == 0)
        return;
    for (; rest % 2 == 0; rest /= 2)
        denominator /= 2;
    tailor_in_text_add(text, whole > 0 ? " " : "");
    tailor_in_text_add_whole(text, rest);
    tailor_in_text_add(text, "/");
    tailor_in_text_add_whole(text, denominator);
}

tailor_status tailor_length_write(double mm, int print, char *text, size_t capacity, size_t *needed)
{
    char buffer[64];
    tailor_in_text built = tailor_in_text_begin(buffer, sizeof buffer);
    int64_t parts; /* tenths of a millimetre, or eighths or sixteenths of an inch */
    if (print != TAILOR_PRINT_MM && print != TAILOR_PRINT_EXACT && print != TAILOR_PRINT_INCH_8 &&
        print != TAILOR_PRINT_INCH_16)
        return TAILOR_BAD_ARGUMENT;
    if (!text && (capacity > 0 || !needed))
        return TAILOR_BAD_ARGUMENT;
    if (!isfinite(mm))
        return TAILOR_NOT_FINITE;
    if (fabs(mm) > LONGEST_MM)
        return TAILOR_OUT_OF_RANGE;
    if (print == TAILOR_PRINT_EXACT) {
        tailor_in_text_add_plain(&built, tailor_in_decimal_of(mm));
        return tailor_in_text_give(&built, text, capacity, needed);
    }
    parts = (int64_t)((print == TAILOR_PRINT_MM ? fabs(mm) * 10.0 : fabs(mm) * print / 25.4) + 0.5);
    if (mm < 0.0 && parts > 0)
        tailor_in_text_add(&built, "-");
    if (print == TAILOR_PRINT_MM)
        tailor_in_text_add_number(&built, (double)parts / 10.0, 1);
    else
        add_inches(&built, parts, print);
    return tailor_in_text_give(&built, text, capacity, needed);
}

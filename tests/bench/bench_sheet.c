/* Sheets per second on one core, in every format, and each one's time as a share of the same sheet written by cairo as
 * PDF. Usage: bench_sheet [seconds a row]. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <tailorgeom/coat.h>
#include <tailorgeom/sheet.h>

enum { COATS = 5 };
static const char *const labels[COATS] = {"one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut"};
static tailor_coat *made[COATS];
static const tailor_pattern *coats[COATS];

static int count(void *user, const void *data, size_t bytes)
{
    (void)data;
    *(size_t *)user += bytes;
    return 0;
}

static int draw(int fronts, const tailor_page *page, size_t *bytes)
{
    return fronts ? tailor_sheet_draw_fronts(coats, labels, COATS, page, count, bytes, NULL)
                  : tailor_sheet_draw_pattern(coats[1], page, count, bytes, NULL);
}

static double now(void)
{
    struct timespec t;
    timespec_get(&t, TIME_UTC);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/** Seconds a sheet; the size of one comes back in bytes. Negative when it cannot be drawn. */
static double measure(int fronts, const tailor_page *page, double seconds, size_t *size)
{
    const double begin = now();
    int sheets = 0;
    do {
        *size = 0;
        if (draw(fronts, page, size) != TAILOR_OK)
            return -1;
        sheets++;
    } while (now() - begin < seconds);
    return (now() - begin) / sheets;
}

int main(int argc, char **argv)
{
    static const struct {
        int format;
        const char *name;
    } formats[] = {{TAILOR_SHEET_PDF, "PDF"}, {TAILOR_SHEET_SVG, "SVG"}, {TAILOR_SHEET_PNG, "PNG"}};
    const double seconds = argc > 1 ? atof(argv[1]) : 1;
    tailor_page *page = NULL;
    if (tailor_page_new(NULL, &page, NULL) != TAILOR_OK ||
        tailor_page_set_text(page, TAILOR_PAGE_TITLE, "Pattern", NULL) != TAILOR_OK)
        return 1;
    for (int i = 0; i < COATS; i++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
        client[TAILOR_FIELD_BUTTONING] = i + 1;
        if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &made[i], NULL) != TAILOR_OK)
            return 1;
        coats[i] = tailor_coat_pattern(made[i]);
    }
    printf("%-10s %-6s %10s %12s %10s %12s\n", "sheet", "format", "ms", "sheets/s", "bytes", "share of PDF");
    for (int fronts = 0; fronts < 2; fronts++) {
        double pdf = 0;
        for (int i = 0; i < 3; i++) {
            size_t size;
            tailor_page_set(page, TAILOR_PAGE_FORMAT, formats[i].format, NULL);
            const double each = measure(fronts, page, seconds, &size);
            if (each < 0)
                return 1;
            pdf = i == 0 ? each : pdf;
            printf("%-10s %-6s %10.3f %12.0f %10zu %12.2f\n", fronts ? "fronts" : "pattern", formats[i].name,
                   1000 * each, 1 / each, size, each / pdf);
        }
    }
    tailor_page_free(page);
    for (int i = 0; i < COATS; i++)
        tailor_coat_free(made[i]);
    return 0;
}

/* Sheets with any title, in every format, with a writer that fails after any number of calls. */
#include <tailorgeom/coat.h>
#include <tailorgeom/sheet.h>
#include "bytes.h"

/* fontconfig's cache looks like a leak: see tests/sheet/fonts.supp. */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void) { return "leak:libfontconfig\n"; }

typedef struct {
    unsigned calls, fail_at;
    size_t written;
} paper;

static int take(void *user, const void *data, size_t size)
{
    paper *p = user;
    const uint8_t *bytes_in = data;
    unsigned sum = 0;
    for (size_t i = 0; i < size; i++)
        sum += bytes_in[i]; /* every byte is there to be read */
    p->written += size + (sum & 0);
    return ++p->calls == p->fail_at;
}

/* Lines of any kind, an unknown one now and then, with texts that are missing, empty, short or long. */
static int draw_ticket(bytes *b, const char *title, const char *label, int format, paper *p, tailor_fault *fault)
{
    enum { LINES = 250 };
    int32_t kinds[LINES];
    const char *labels[LINES], *values[LINES];
    size_t lines = bytes_small(b) % LINES;
    for (size_t i = 0; i < lines; i++) {
        unsigned one = bytes_small(b);
        kinds[i] = one < 250 ? 1 + (int)(one % 5) : (int)one;
        labels[i] = one & 8 ? label : NULL;
        values[i] = one & 16 ? title : "";
    }
    return tailor_sheet_draw_ticket(title, kinds, labels, values, lines, format, take, p, fault);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = { data, size };
    static tailor_coat *made[2]; /* once: here the sheet is on trial */
    static const tailor_pattern *coats[2];
    char title[200], label[80];
    tailor_fault fault;
    for (int i = 0; i < 2; i++) {
        double client[TAILOR_FIELD_COUNT];
        if (coats[i])
            continue;
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1000 + 60 * i;
        check(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &made[i], NULL) == TAILOR_OK);
        coats[i] = tailor_coat_pattern(made[i]);
    }
    int format = (int)bytes_small(&b) % 6, print = (int)bytes_small(&b) % 18;
    if (format == TAILOR_SHEET_PNG && bytes_small(&b) > 8)
        format = TAILOR_SHEET_SVG; /* the others are quicker */
    paper p = { 0, bytes_small(&b), 0 };
    bytes_text(&b, title, sizeof title);
    bytes_text(&b, label, sizeof label);
    const char *labels[2] = { label, title };
    tailor_point line[40];
    size_t points = bytes_small(&b) % 41;
    for (size_t i = 0; i < points; i++)
        line[i] = (tailor_point){bytes_number(&b) / 300, fabs(bytes_number(&b)) / 1000};
    unsigned sheet = bytes_small(&b) % 6;
    int status = sheet == 5
        ? tailor_sheet_draw_section(line, points, labels, 2, title, print, format, take, &p, &fault)
        : sheet == 4
        ? tailor_sheet_draw_nest(coats, labels, 2, print & 1, print & 2 ? title : NULL,
                                 title, format, take, &p, &fault)
        : sheet == 3 ? draw_ticket(&b, title, label, format, &p, &fault)
        : sheet == 0
        ? tailor_sheet_draw_pattern(coats[0], title, print, format, take, &p, &fault)
        : sheet == 1
        ? tailor_sheet_draw_overlay(coats[0], coats[1], label, title, title, print, format, take, &p, &fault)
        : tailor_sheet_draw_fronts(coats, labels, 2, title, format, take, &p, &fault);
    check(status != TAILOR_OK || p.written > 300);
    check(!(p.fail_at && p.calls >= p.fail_at) || status == TAILOR_WRITE_FAILED);
    check(p.fail_at == 0 || p.calls <= p.fail_at);
    return 0;
}

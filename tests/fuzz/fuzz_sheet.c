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

/* Lines of any kind and rank, unknown ones now and then, with texts that are missing, empty, short or long. */
static int draw_ticket(bytes *b, const char *title, const char *label, const tailor_page *page, paper *p,
                       tailor_fault *fault)
{
    enum { LINES = 250 };
    tailor_line lines[LINES];
    size_t count = bytes_small(b) % LINES;
    for (size_t i = 0; i < count; i++) {
        unsigned one = bytes_small(b);
        lines[i] = (tailor_line){.kind = one < 250 ? 1 + (int)(one % 5) : (int)one,
                                 .rank = one & 32 ? (int)(one >> 6) : one == 33 ? -1 : 0,
                                 .label = one & 8 ? label : NULL,
                                 .value = one & 16 ? title : "",
                                 .basis = one & 64 ? label : NULL};
    }
    return tailor_sheet_draw_ticket(lines, count, page, take, p, fault);
}

/* A page with any texts; what it refuses leaves it as it was. Its format is that of the sheets that are quick. */
static tailor_page *any_page(bytes *b, const char *title, const char *label, tailor_fault *fault)
{
    tailor_page *page = NULL;
    check(tailor_page_new(NULL, &page, fault) == TAILOR_OK);
    for (unsigned i = bytes_small(b) % 12; i; i--) {
        const int setting = (int)(bytes_small(b) % 11) - 1;
        const double value = bytes_small(b) % 2 ? (double)(bytes_small(b) % 18) : bytes_number(b);
        const double before = tailor_page_value(page, setting);
        if (tailor_page_set(page, setting, value, fault) != TAILOR_OK) {
            check(fault->sentence[0] != 0);
            check(!(tailor_page_value(page, setting) < before || tailor_page_value(page, setting) > before));
        } else
            check(!(tailor_page_value(page, setting) < value || tailor_page_value(page, setting) > value));
        const char *text = bytes_small(b) % 2 ? title : label;
        if (tailor_page_set_text(page, setting, text, fault) == TAILOR_OK)
            check(strcmp(tailor_page_text(page, setting), text) == 0);
        else
            check(tailor_page_text(page, setting) == NULL);
    }
    if (tailor_page_value(page, TAILOR_PAGE_FORMAT) == TAILOR_SHEET_PNG && bytes_small(b) > 8)
        check(tailor_page_set(page, TAILOR_PAGE_FORMAT, TAILOR_SHEET_SVG, fault) == TAILOR_OK);
    if (bytes_small(b) % 2) /* any text is hardly ever the name of a point */
        check(tailor_page_set_text(page, TAILOR_PAGE_ALIGN, NULL, fault) == TAILOR_OK);
    return page;
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
        client[TAILOR_FIELD_MAKING] = i ? TAILOR_MAKING_MADE_TO_MEASURE : TAILOR_MAKING_BESPOKE;
        check(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &made[i], NULL) == TAILOR_OK);
        coats[i] = tailor_coat_pattern(made[i]);
    }
    paper p = { 0, bytes_small(&b), 0 };
    bytes_text(&b, title, sizeof title);
    bytes_text(&b, label, sizeof label);
    const char *labels[2] = { label, title };
    tailor_page *page = any_page(&b, title, label, &fault);
    if (bytes_small(&b) % 2) /* one of the coats is for a toile only, the other has no caution */
        check(tailor_page_set_coat(page, made[bytes_small(&b) % 2], &fault) == TAILOR_OK);
    tailor_point line[40];
    size_t points = bytes_small(&b) % 41;
    for (size_t i = 0; i < points; i++)
        line[i] = (tailor_point){bytes_number(&b) / 300, fabs(bytes_number(&b)) / 1000};
    unsigned sheet = bytes_small(&b) % 7, base = bytes_small(&b) % 3;
    int status =
        sheet == 6   ? tailor_sheet_draw_coat(made[0], page, take, &p, &fault)
        : sheet == 5 ? tailor_sheet_draw_section(line, points, labels, 2, page, take, &p, &fault)
        : sheet == 4 ? tailor_sheet_draw_nest(coats, labels, 2, base, page, take, &p, &fault)
        : sheet == 3 ? draw_ticket(&b, title, label, page, &p, &fault)
        : sheet == 0 ? tailor_sheet_draw_pattern(coats[0], page, take, &p, &fault)
        : sheet == 1 ? tailor_sheet_draw_overlay(coats[0], coats[1], labels, page, take, &p, &fault)
                     : tailor_sheet_draw_fronts(coats, labels, 2, page, take, &p, &fault);
    tailor_page_free(page);
    check(status != TAILOR_OK || p.written > 300);
    check(!(p.fail_at && p.calls >= p.fail_at) || status == TAILOR_WRITE_FAILED);
    check(p.fail_at == 0 || p.calls <= p.fail_at);
    return 0;
}

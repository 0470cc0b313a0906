/* compare_picture: the fronts of a comparison side by side, as worn. */
#include "comparison.h"
#include "complain.h"
#include "output.h"
#include "sheet_page.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <tailorgeom/sheet.h>

int picture_format(const char *path)
{
    static const struct {
        const char *ending;
        int format;
    } formats[] = {{".svg", TAILOR_SHEET_SVG}, {".pdf", TAILOR_SHEET_PDF}, {".png", TAILOR_SHEET_PNG}};
    const char *ending = strrchr(path, '.');
    for (size_t i = 0; ending && i < sizeof formats / sizeof formats[0]; i++)
        if (strcasecmp(ending, formats[i].ending) == 0)
            return formats[i].format;
    return 0;
}

typedef struct picture {
    const tailor_pattern **patterns;
    const char **labels;
    char (*texts)[128];
    size_t count;
} picture;

static bool gather(const comparison *c, picture *p)
{
    size_t n = c->plan->row_count;
    p->patterns = calloc(n, sizeof *p->patterns);
    p->labels = calloc(n, sizeof *p->labels);
    p->texts = calloc(n, sizeof *p->texts);
    if (!p->patterns || !p->labels || !p->texts) {
        complain("out of memory");
        return false;
    }
    for (size_t row = 0; row < n; row++) {
        if (!good_row(c, row))
            continue;
        by_label(c->plan, row, p->texts[p->count], sizeof p->texts[p->count]);
        p->labels[p->count] = p->texts[p->count];
        p->patterns[p->count++] = c->rows[row].pattern;
    }
    return true;
}

static bool draw_picture(const comparison *c, const picture *p, const tailor_page *page)
{
    output_set set = {.count = 0};
    tailor_fault fault;
    output *file = output_open(&set, c->s->output);
    if (!file)
        return false;
    tailor_status status =
        tailor_sheet_draw_fronts(p->patterns, p->labels, p->count, page, output_write, file, &fault);
    bool good = output_close(file);
    if (good && status != TAILOR_OK)
        complain_at(c->s->output, 0, "%s", fault.sentence);
    good = good && status == TAILOR_OK && output_commit(&set);
    output_discard(&set);
    return good;
}

int comparison_draw(const comparison *c)
{
    picture p = {.count = 0};
    tailor_page *page = sheet_page_of(c->card, first_good(c), c->s);
    if (page)
        sheet_page_format(page, picture_format(c->s->output));
    bool good = page && gather(c, &p) && draw_picture(c, &p, page);
    tailor_page_free(page);
    free(p.patterns);
    free(p.labels);
    free(p.texts);
    if (good && !c->s->json)
        printf("wrote %s\n", c->s->output);
    return good ? EXIT_DONE : EXIT_REFUSED;
}

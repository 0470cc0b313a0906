/* tailorgeom diff: two cards, what differs between their coats, and the two drafts on one another. */
#include "diff.h"

#include "complain.h"
#include "output.h"
#include "sheet_page.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/sheet.h>

static const struct {
    const char *name;
    int format;
} sheets[] = {
    {"overlay.svg", TAILOR_SHEET_SVG}, {"overlay.pdf", TAILOR_SHEET_PDF}, {"overlay.png", TAILOR_SHEET_PNG},
};
enum { SHEET_COUNT = sizeof sheets / sizeof sheets[0] };

/* What the legend calls a card: what it says of itself, or where both say the same its file. That may be named like the
 * client. */
static void label_of(const card *c, const card *other, bool anonymous, char label[HEADING_TEXT])
{
    char title[HEADING_TEXT];
    void (*say)(const card *, char *, size_t) = anonymous ? card_order : card_title;
    say(c, label, HEADING_TEXT);
    say(other, title, HEADING_TEXT);
    const char *slash = strrchr(c->source, '/');
    if (!label[0] || strcmp(label, title) == 0)
        snprintf(label, HEADING_TEXT, "%s", anonymous ? "" : slash ? slash + 1 : c->source);
}

static bool draw(const diff_run *r, tailor_page *page, output_set *set)
{
    char before[HEADING_TEXT], after[HEADING_TEXT];
    const char *const labels[] = {before, after};
    label_of(&r->before, &r->after, r->s->anonymous, before);
    label_of(&r->after, &r->before, r->s->anonymous, after);
    for (size_t i = 0; i < SHEET_COUNT; i++) {
        tailor_fault fault;
        output *file = output_open_in(set, r->s->output, sheets[i].name);
        if (!file)
            return false;
        sheet_page_format(page, sheets[i].format);
        tailor_status status = tailor_sheet_draw_overlay(r->of_before.pattern, r->of_after.pattern, labels, page,
                                                         output_write, file, &fault);
        if (!output_drawn(file, status, &fault))
            return false;
    }
    return output_commit(set);
}

/* The sheets first, so that what is told as written is there. */
static int report(const diff_run *r)
{
    output_set set = {.count = 0};
    tailor_page *page = sheet_page_of(&r->after, &r->of_after, r->s);
    bool good = page && (!r->s->output || (make_directory(r->s->output) && draw(r, page, &set)));
    output_discard(&set);
    tailor_page_free(page);
    if (!good)
        return EXIT_REFUSED;
    int status = r->s->json ? diff_print_json(r) : diff_print(r);
    for (size_t i = 0; i < set.count && !r->s->json; i++)
        printf("%swrote %s\n", i ? "" : "\n", set.files[i].path);
    return status;
}

/* A refused coat is told, and its fellow too: both in one go. */
static bool draft_card(const card *c, drafted *d)
{
    bool good = make_order(c, d);
    if (!good)
        complain_refused(c, d);
    return good;
}

int run_diff(const settings *s)
{
    int status = EXIT_REFUSED;
    if (strcmp(s->operand, "-") == 0 && strcmp(s->second, "-") == 0) {
        complain("the cards cannot both be standard input");
        return EXIT_USAGE;
    }
    diff_run *r = calloc(1, sizeof *r);
    if (!r) {
        complain("out of memory");
        return EXIT_REFUSED;
    }
    r->s = s;
    if (card_read(&r->before, s->operand, s->house) && card_read(&r->after, s->second, s->house)) {
        bool before = draft_card(&r->before, &r->of_before), after = draft_card(&r->after, &r->of_after);
        if (before && after)
            status = report(r);
        drafted_free(&r->of_before);
        drafted_free(&r->of_after);
    }
    free(r);
    return status;
}

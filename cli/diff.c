/* tailorgeom diff: two cards, what differs between their coats, and the two drafts on one another. */
#include "diff.h"

#include "complain.h"
#include "output.h"

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

/* What the legend calls a card: what it says of itself, or its file where both say the same. */
static void label_of(const card *c, const card *other, char label[HEADING_TEXT])
{
    char title[HEADING_TEXT];
    card_title(c, label, HEADING_TEXT);
    card_title(other, title, HEADING_TEXT);
    const char *slash = strrchr(c->source, '/');
    if (!label[0] || strcmp(label, title) == 0)
        snprintf(label, HEADING_TEXT, "%s", slash ? slash + 1 : c->source);
}

static bool draw(const diff_run *r, output_set *set)
{
    char before[HEADING_TEXT], after[HEADING_TEXT], heading[HEADING_TEXT];
    label_of(&r->before, &r->after, before);
    label_of(&r->after, &r->before, after);
    const char *title = sheet_heading(&r->after, &r->of_after, heading) ? heading : NULL;
    for (size_t i = 0; i < SHEET_COUNT; i++) {
        tailor_fault fault;
        output *file = output_open_in(set, r->s->output, sheets[i].name);
        if (!file)
            return false;
        tailor_status status =
            tailor_sheet_draw_overlay(r->of_before.pattern, r->of_after.pattern, before, after, title, r->s->print,
                                      sheets[i].format, output_write, file, &fault);
        if (!output_drawn(file, status, &fault))
            return false;
    }
    return output_commit(set);
}

/* The sheets first, so that what is told as written is there. */
static int report(const diff_run *r)
{
    output_set set = {.count = 0};
    bool good = !r->s->output || (make_directory(r->s->output) && draw(r, &set));
    output_discard(&set);
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

/* The section of the roll as sheets. */
#include "complain.h"
#include "output.h"
#include "roll.h"
#include "sheet_page.h"

#include <stdio.h>
#include <string.h>
#include <tailorgeom/sheet.h>

static const struct {
    const char *name;
    int format;
} sheets[] = {
    {"section.svg", TAILOR_SHEET_SVG}, {"section.pdf", TAILOR_SHEET_PDF}, {"section.png", TAILOR_SHEET_PNG},
};
enum { SHEET_COUNT = sizeof sheets / sizeof sheets[0] };

/* What the section rests on, in lines that a sheet has room for. */
static size_t describe(const roll_table *t, char lines[SECTION_LINES][SECTION_LINE],
                       const char *labels[SECTION_LINES])
{
    const rolling *r = &t->coats[0];
    const double *f = r->d.fields;
    char basis[BASIS_TEXT];
    roll_basis(r, roll_number_of(TAILOR_QUANTITY_ROLL_HEIGHT), basis);
    size_t count = 0;
    snprintf(lines[count++], SECTION_LINE,
             "Lapel %g mm wide, set %g deg, curl %g 1/m; chest leaning back %g deg; canvas at %g deg.",
             f[TAILOR_FIELD_LAPEL_WIDTH], f[TAILOR_FIELD_LAPEL_SET], f[TAILOR_FIELD_LAPEL_CURL],
             f[TAILOR_FIELD_CHEST_LEAN], f[TAILOR_FIELD_CANVAS_ANGLE]);
    /* the basis a clause a line */
    for (char *at = basis; at && count < SECTION_LINES;) {
        char *end = strstr(at, "; ");
        if (end)
            *end = '\0';
        snprintf(lines[count++], SECTION_LINE, "%c%s%s", at[0] - 'a' + 'A', at + 1, end ? ";" : ".");
        at = end ? end + 2 : NULL;
    }
    for (size_t i = 0; i < count; i++)
        labels[i] = lines[i];
    return count;
}

static bool draw(output_set *set, const roll_table *t, tailor_page *page, const char *directory)
{
    char lines[SECTION_LINES][SECTION_LINE];
    const char *labels[SECTION_LINES];
    size_t count = describe(t, lines, labels), points = 0;
    const tailor_point *line = tailor_coat_section(t->coats[0].d.coat, &points);
    for (size_t i = 0; i < SHEET_COUNT; i++) {
        tailor_fault fault;
        output *file = output_open_in(set, directory, sheets[i].name);
        if (!file)
            return false;
        sheet_page_format(page, sheets[i].format);
        tailor_status status =
            tailor_sheet_draw_section(line, points, labels, count, page, output_write, file, &fault);
        if (!output_drawn(file, status, &fault))
            return false;
    }
    return true;
}

int roll_draw(const roll_table *t)
{
    const char *directory = t->s->output ? t->s->output : ".";
    output_set set = {.count = 0};
    tailor_page *page = sheet_page_of(&t->card, &t->coats[0].d, t->s);
    bool good = page && make_directory(directory) && draw(&set, t, page, directory) && output_commit(&set);
    for (size_t i = 0; good && !t->s->json && i < set.count; i++)
        printf("wrote %s\n", set.files[i].path);
    output_discard(&set);
    tailor_page_free(page);
    return good ? EXIT_DONE : EXIT_REFUSED;
}

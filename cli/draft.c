/* tailorgeom draft: the sheets of one coat, or all of it as JSON. */
#include "cautions.h"
#include "commands.h"
#include "complain.h"
#include "drafted.h"
#include "json_out.h"
#include "output.h"
#include "sheet_page.h"
#include "values.h"

#include <stdio.h>
#include <string.h>
#include <tailorgeom/sheet.h>

static const struct {
    const char *name;
    int format;
} sheets[] = {
    {"pattern.svg", TAILOR_SHEET_SVG}, {"pattern.pdf", TAILOR_SHEET_PDF}, {"pattern.png", TAILOR_SHEET_PNG},
};
enum { SHEET_COUNT = sizeof sheets / sizeof sheets[0] };

/* What a cutter looks at first, as far as the library has it. */
static const char *const summary[] = {
    "finished_chest",     "finished_waist", "finished_seat",     "finished_length",
    "cross_back_finished", "cross_chest_finished", "break_length", "coverage_scye",
};

static bool draw_sheets(output_set *set, const drafted *d, const char *directory, tailor_page *page)
{
    for (size_t i = 0; i < SHEET_COUNT; i++) {
        tailor_fault fault;
        output *file = output_open_in(set, directory, sheets[i].name);
        if (!file)
            return false;
        sheet_page_format(page, sheets[i].format);
        tailor_status status = tailor_sheet_draw_coat(d->coat, page, output_write, file, &fault);
        if (!output_drawn(file, status, &fault))
            return false;
    }
    return true;
}

static bool write_sheets(output_set *set, const card *c, const drafted *d, const settings *s)
{
    const char *directory = s->output ? s->output : ".";
    tailor_page *page = sheet_page_of(c, d, s);
    bool good = page && make_directory(directory) && draw_sheets(set, d, directory, page) && output_commit(set);
    output_discard(set);
    tailor_page_free(page);
    return good;
}

static int print_json(const drafted *d) { return json_print(json_coat(d)); }

static void print_summary(const card *c, const drafted *d, const settings *s, const output_set *set)
{
    const tailor_table *table = tailor_quantity_table();
    char text[HEADING_TEXT];
    int assumed = 0, checks = 0;
    card_title(c, text, sizeof text);
    if (text[0])
        printf("%s\n", text);
    for (size_t i = 0; i < sizeof summary / sizeof summary[0]; i++) {
        int number = tailor_table_find(table, summary[i]);
        char value[VALUE_TEXT];
        if (!number || number >= TAILOR_QUANTITY_COUNT)
            continue;
        value_write(table, number, d->quantities[number], s->print, value);
        printf("  %-22s %10s %s\n", summary[i], value, value_unit(table, number, s->print));
    }
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        assumed += d->origins[i] == TAILOR_ORIGIN_RULE;
    for (int i = 1; i < TAILOR_CHECK_COUNT; i++)
        checks += tailor_coat_check(d->coat, i, NULL, NULL) == 1;
    printf("%d checks, all pass\n", checks);
    if (assumed)
        printf("%d values assumed: `tailorgeom check %s` shows them\n", assumed, c->source);
    cautions_print_one(d->coat, false, "");
    for (size_t i = 0; i < set->count; i++)
        printf("wrote %s\n", set->files[i].path);
}

int run_draft(const settings *s)
{
    card c;
    drafted d;
    output_set set = {.count = 0};
    if (!card_read(&c, s->operand, s->house))
        return EXIT_REFUSED;
    int status = EXIT_REFUSED;
    if (!make_order(&c, &d))
        complain_refused(&c, &d);
    else if (s->json && !s->output)
        status = print_json(&d);
    else if (write_sheets(&set, &c, &d, s)) {
        status = EXIT_DONE;
        if (s->json)
            status = print_json(&d);
        else
            print_summary(&c, &d, s, &set);
    }
    drafted_free(&d);
    return status;
}

/* tailorgeom canvas: the canvas and haircloth of one coat, laid on strips of cloth. */
#include "canvas.h"
#include "card.h"
#include "complain.h"
#include "output.h"
#include "sheet_page.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/sheet.h>

static const struct {
    const char *name;
    int format;
} sheets[] = {{"canvas.svg", TAILOR_SHEET_SVG}, {"canvas.pdf", TAILOR_SHEET_PDF}, {"canvas.png", TAILOR_SHEET_PNG}};
enum { SHEETS = sizeof sheets / sizeof sheets[0] };

enum { ITERATIONS = 1000, ITERATION_DIGITS = 9 };

static bool take_length(const char *option, const char *typed, double *mm)
{
    tailor_fault fault;
    if (!typed || tailor_length_read(typed, mm, &fault) == TAILOR_OK)
        return true;
    complain("--%s %s: %s", option, typed, fault.sentence);
    return false;
}

static bool take_angle(const char *typed, double *angle)
{
    tailor_fault fault;
    if (!typed || tailor_value_read(tailor_field_table(), TAILOR_FIELD_CANVAS_ANGLE, typed, angle, &fault) == TAILOR_OK)
        return true;
    complain("--angle %s: %s", typed, fault.sentence);
    return false;
}

static bool take_iterations(const char *typed, int64_t *iterations)
{
    size_t digits = typed ? strspn(typed, "0123456789") : 0;
    *iterations = typed ? strtoll(typed, NULL, 10) : ITERATIONS;
    if (!typed || (digits > 0 && digits <= ITERATION_DIGITS && !typed[digits]))
        return true;
    complain("--iterations takes a number from 0 to 999999999, not %s", typed);
    return false;
}

/* The haircloth's width is its own, and its hair lies level on both sides; what else was chosen holds for both. */
static bool take_choices(const settings *s, double choices[TAILOR_CANVAS_CHOICE_COUNT], double *hair_width,
                         int64_t *iterations)
{
    tailor_fields_clear(choices, TAILOR_CANVAS_CHOICE_COUNT);
    choices[TAILOR_CANVAS_CHOICE_PLIES] = s->doubled ? TAILOR_PLIES_FOLDED : TAILOR_PLIES_SINGLE;
    choices[TAILOR_CANVAS_CHOICE_SIDES] = s->alike ? TAILOR_SIDES_ALIKE : TAILOR_SIDES_MIRRORED;
    return take_angle(s->angle, &choices[TAILOR_CANVAS_CHOICE_ANGLE]) &&
           take_length("width", s->width, &choices[TAILOR_CANVAS_CHOICE_WIDTH]) &&
           take_length("hair-width", s->hair_width, hair_width) &&
           take_length("gap", s->gap, &choices[TAILOR_CANVAS_CHOICE_GAP]) &&
           take_length("join", s->join, &choices[TAILOR_CANVAS_CHOICE_OVERLAP]) &&
           take_iterations(s->iterations, iterations);
}

/* ---- laying */

static bool begin(strips *all, const card *c, double choices[TAILOR_CANVAS_CHOICE_COUNT], double hair_width)
{
    static const char *const cloths[STRIP_MOST] = {"canvas", "haircloth"};
    if (isnan(choices[TAILOR_CANVAS_CHOICE_ANGLE]))
        choices[TAILOR_CANVAS_CHOICE_ANGLE] = all->order.fields[TAILOR_FIELD_CANVAS_ANGLE];
    for (size_t i = 0; i < STRIP_MOST; i++) {
        tailor_fault fault;
        if (i > 0) {
            choices[TAILOR_CANVAS_CHOICE_WIDTH] = hair_width;
            choices[TAILOR_CANVAS_CHOICE_SIDES] = TAILOR_SIDES_MIRRORED;
        }
        if (tailor_canvas_begin(all->order.pattern, cloths[i], choices, TAILOR_CANVAS_CHOICE_COUNT, 1, NULL,
                                &all->strip[i], &fault) != TAILOR_OK) {
            complain_at(c->source, 0, "%s: %s", cloths[i], fault.sentence);
            return false;
        }
        all->count++;
    }
    return true;
}

/* ---- the sheet */

static bool draw(const strips *all, const char *directory, tailor_page *page, output_set *set)
{
    const tailor_canvas *shown[STRIP_MOST];
    for (size_t i = 0; i < all->count; i++)
        shown[i] = all->strip[i];
    for (size_t i = 0; i < SHEETS; i++) {
        tailor_fault fault;
        output *file = output_open_in(set, directory, sheets[i].name);
        if (!file)
            return false;
        sheet_page_format(page, sheets[i].format);
        tailor_status status = tailor_sheet_draw_canvas(shown, all->count, page, output_write, file, &fault);
        if (!output_drawn(file, status, &fault))
            return false;
    }
    return output_commit(set);
}

static int report(const strips *all, const card *c)
{
    const settings *s = all->s;
    const char *directory = s->output ? s->output : ".";
    char heading[HEADING_TEXT];
    output_set set = {.count = 0};
    tailor_page *page = sheet_page_of(c, &all->order, s);
    bool good = page && ((s->json && !s->output) || (make_directory(directory) && draw(all, directory, page, &set)));
    output_discard(&set);
    tailor_page_free(page);
    if (!good)
        return EXIT_REFUSED;
    card_title(c, heading, sizeof heading);
    int status = s->json ? strips_print_json(all) : strips_print(all, heading);
    for (size_t i = 0; !s->json && i < set.count; i++)
        printf("wrote %s\n", set.files[i].path);
    return status == EXIT_DONE && all->iterations < all->wanted ? EXIT_REFUSED : status;
}

int run_canvas(const settings *s)
{
    card c;
    strips all = {.s = s};
    double choices[TAILOR_CANVAS_CHOICE_COUNT], hair_width = NAN;
    if (!take_choices(s, choices, &hair_width, &all.wanted)) {
        complain("see `tailorgeom help canvas`");
        return EXIT_USAGE;
    }
    if (!card_read(&c, s->operand, s->house))
        return EXIT_REFUSED;
    int status = EXIT_REFUSED;
    if (!make_order(&c, &all.order))
        complain_refused(&c, &all.order);
    else if (begin(&all, &c, choices, hair_width) && strips_search(&all))
        status = report(&all, &c);
    for (size_t i = 0; i < STRIP_MOST; i++)
        tailor_canvas_free(all.strip[i]);
    drafted_free(&all.order);
    return status;
}

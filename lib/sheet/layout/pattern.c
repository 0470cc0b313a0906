/* The pattern sheet: every piece at true size. */
#include "../output/dxf.h"
#include "../output/write.h"
#include "compose.h"
#include "heading.h"
#include "lettering.h"
#include "page.h"
#include "piece.h"
#include "shelves.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/order.h>

static const double margin = 30, below_heading = 24; /* mm */

/** A group's heading: what is cut from it, and how many. */
static void draw_group_heading(struct tailor_in_drawing *d, const struct tailor_in_shelf_group *group, int number,
                               tailor_point corner)
{
    char words[64], text[96], id[24];
    const double room = fmax(group->width, TAILOR_IN_GROUP_WIDTH);
    tailor_in_words(*group->name ? group->name : "no cloth named", "", words, sizeof words);
    snprintf(id, sizeof id, "group-%d", number);
    tailor_in_drawing_group(d, id, words);
    tailor_in_text_fit(words, 13, 1, room, text, sizeof text);
    tailor_in_drawing_text(d, (tailor_point){corner.x, corner.y + 11}, (struct tailor_in_lettering){13, 0, 0, 1}, text);
    snprintf(text, sizeof text, "%d %s, %d to cut", group->patterns, group->patterns == 1 ? "pattern" : "patterns",
             group->cut);
    tailor_in_drawing_text(d, (tailor_point){corner.x, corner.y + 21.5}, (struct tailor_in_lettering){7.5, 0, 0, 0},
                           text);
    tailor_in_drawing_line(d, TAILOR_IN_THIN, (tailor_point){corner.x, corner.y + 26},
                           (tailor_point){corner.x + group->width, corner.y + 26});
    tailor_in_drawing_group_end(d);
}

/** What composing needs memory for, an entry a piece each. */
struct work {
    struct tailor_in_drawn_piece *drawn;
    struct tailor_in_shelf_place *places;
    struct tailor_in_shelf_group *groups;
    struct tailor_in_crate *crates;
};

static void compose(struct tailor_in_drawing *d, const tailor_pattern *pattern, struct work *w, int print)
{
    const double top = margin + tailor_in_heading_height(d) + below_heading;
    const int pieces = tailor_pattern_piece_count(pattern),
              groups = tailor_in_shelf_groups(pattern, w->places, w->groups);
    double width, height;
    for (int i = 0; i < pieces && !d->failed; i++) {
        w->drawn[i] = tailor_in_draw_piece(d, pattern, i, print);
        memcpy(w->places[i].room, w->drawn[i].room, sizeof w->places[i].room);
    }
    if (d->failed)
        return;
    tailor_in_shelves(pattern, w->places, w->groups, groups, w->crates, &width, &height);
    const double across = fmax(width, TAILOR_IN_HEADING_WIDTH), left = margin + (across - width) / 2;
    d->width = ceil(across + 2 * margin); /* a narrow pattern stands in the middle */
    d->height = ceil(top + height + margin);
    for (int i = 0; i < pieces; i++)
        tailor_in_drawing_move(d, w->drawn[i].begin, w->drawn[i].end, left + w->places[i].x - w->drawn[i].origin.x,
                               top + w->places[i].y - w->drawn[i].origin.y);
    for (int g = 0; g < groups; g++)
        draw_group_heading(d, &w->groups[g], g + 1, (tailor_point){left + w->groups[g].x, top + w->groups[g].y});
    tailor_in_draw_heading(d, (tailor_point){margin, margin}, d->width - 2 * margin, print);
}

void tailor_in_compose_pattern(struct tailor_in_drawing *d, const tailor_pattern *pattern, int print)
{
    const size_t pieces = (size_t)tailor_pattern_piece_count(pattern) + 1;
    struct work w;
    const size_t bytes = sizeof *w.drawn + sizeof *w.places + sizeof *w.groups + sizeof *w.crates;
    void *block = d->allocator.allocate(d->allocator.user, pieces * bytes);
    if (!block) {
        d->failed = 1;
        return;
    }
    memset(block, 0, pieces * bytes);
    w.drawn = block;
    w.places = (void *)(w.drawn + pieces);
    w.groups = (void *)(w.places + pieces);
    w.crates = (void *)(w.groups + pieces);
    compose(d, pattern, &w, print);
    d->allocator.release(d->allocator.user, block);
}

static tailor_status draw_dxf(const tailor_pattern *pattern, const tailor_page *page, tailor_writer write, void *user,
                              tailor_fault *fault)
{
    char title[400];
    struct tailor_in_drawing words; /* what the page says, and nothing drawn */
    struct tailor_in_sink sink = {.write = write, .user = user};
    tailor_in_page_begin(page, "", tailor_pattern_toile_only(pattern), &words);
    tailor_in_drawing_title_fit(&words, TAILOR_IN_PATTERN_TITLE, 1, 0, 40, title, sizeof title);
    const int failed = words.failed;
    tailor_in_drawing_end(&words);
    if (failed)
        return tailor_in_sheet_fault(fault, TAILOR_NO_MEMORY, NAN, NAN, NAN, "no memory for the drawing of the sheet");
    tailor_in_write_dxf(pattern, title, &sink);
    return sink.broken ? tailor_in_sheet_fault(fault, TAILOR_WRITE_FAILED, NAN, NAN, NAN,
                                               "the sheet could not be written to its end")
                       : TAILOR_OK;
}

tailor_status tailor_sheet_draw_pattern(const tailor_pattern *pattern, const tailor_page *page, tailor_writer write,
                                        void *user, tailor_fault *fault)
{
    struct tailor_in_drawing drawing;
    const tailor_status status = tailor_in_page_ask(page, 1, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (!pattern)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, NAN, NAN, NAN, "there is no pattern to draw");
    if (tailor_in_page_choice(page, TAILOR_PAGE_FORMAT) == TAILOR_SHEET_DXF)
        return draw_dxf(pattern, page, write, user, fault);
    tailor_in_page_begin(page, "", tailor_pattern_toile_only(pattern), &drawing);
    tailor_in_compose_pattern(&drawing, pattern, tailor_in_page_choice(page, TAILOR_PAGE_UNITS));
    return tailor_in_page_end(page, &drawing, write, user, fault);
}

tailor_status tailor_sheet_draw_coat(const tailor_coat *coat, const tailor_page *page, tailor_writer write, void *user,
                                     tailor_fault *fault)
{
    tailor_page own;
    tailor_status status = tailor_in_page_of_coat(page, coat, &own, fault);
    if (status != TAILOR_OK)
        return status;
    status = tailor_sheet_draw_pattern(tailor_coat_pattern(coat), &own, write, user, fault);
    tailor_in_page_of_coat_end(&own);
    return status;
}

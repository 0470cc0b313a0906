/* tailorgeom ticket: what the workroom needs to know of a coat, as text, a page and JSON. */
#include "ticket.h"

#include "commands.h"
#include "comparison.h"
#include "json_out.h"
#include "output.h"
#include "sheet_page.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/sheet.h>

const char *ticket_fill(ticket *t)
{
    static void (*const parts[])(ticket *) = {
        ticket_tell_head,   ticket_tell_cautions, ticket_tell_style,  ticket_tell_measures, ticket_tell_figure,
        ticket_tell_pieces, ticket_tell_buttons,  ticket_tell_making, ticket_tell_assumed,
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        parts[i](t);
    return t->texts.failed ? "out of memory"
           : t->full       ? "the ticket has more to say than it has room for: please report this"
                           : NULL;
}

tailor_status ticket_draw(const ticket *t, const tailor_page *page, tailor_writer write, void *user,
                          tailor_fault *fault)
{
    tailor_line lines[TICKET_LINES_MOST];
    size_t count = 0;
    for (size_t i = 0; i < t->count; i++)
        if (!t->lines[i].of_page)
            lines[count++] = (tailor_line){.kind = t->lines[i].kind,
                                           .label = t->lines[i].label,
                                           .value = t->texts.bytes + t->lines[i].text};
    return tailor_sheet_draw_ticket(lines, count, page, write, user, fault);
}

static bool write_page(output_set *set, const ticket *t, tailor_page *page, const char *where)
{
    tailor_fault fault;
    bool is_file = picture_format(where) != 0; /* a name that ends like a picture; any other is a directory */
    if (!is_file && !make_directory(where))
        return false;
    output *file = is_file ? output_open(set, where) : output_open_in(set, where, "ticket.pdf");
    if (!file)
        return false;
    sheet_page_format(page, picture_format(file->path));
    tailor_status status = ticket_draw(t, page, output_write, file, &fault);
    return output_drawn(file, status, &fault) && output_commit(set);
}

/* The page first, so that what is told as written is there. */
static int report(const ticket *t, const settings *s)
{
    output_set set = {.count = 0};
    char heading[HEADING_TEXT];
    const char *title = sheet_heading(t->c, t->d, s->anonymous, heading) ? heading : NULL;
    tailor_page *page = sheet_page_of(t->c, t->d, s);
    bool good = page && ((s->json && !s->output) || write_page(&set, t, page, s->output ? s->output : "."));
    output_discard(&set);
    tailor_page_free(page);
    if (!good)
        return EXIT_REFUSED;
    if (s->json)
        return json_print(ticket_json(t, title));
    ticket_print(t, title);
    for (size_t i = 0; i < set.count; i++)
        printf("\nwrote %s\n", set.files[i].path);
    return EXIT_DONE;
}

int run_ticket(const settings *s)
{
    card c;
    drafted d;
    if (!card_read(&c, s->operand, s->house))
        return EXIT_REFUSED;
    int status = EXIT_REFUSED;
    ticket *t = calloc(1, sizeof *t);
    if (!make_order(&c, &d))
        complain_refused(&c, &d);
    else if (!t)
        complain("out of memory");
    else {
        t->c = &c;
        t->d = &d;
        t->print = s->print;
        const char *wrong = ticket_fill(t);
        if (wrong)
            complain("%s", wrong);
        else
            status = report(t, s);
        buffer_free(&t->texts);
    }
    free(t);
    drafted_free(&d);
    return status;
}

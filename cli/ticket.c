/* tailorgeom ticket: what the workroom needs to know of a coat, as text, a page and JSON. */
#include "ticket.h"

#include "commands.h"
#include "comparison.h"
#include "json_out.h"
#include "output.h"

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

tailor_status ticket_draw(const ticket *t, const char *title, int format, tailor_sheet_writer write, void *user,
                          tailor_fault *fault)
{
    int32_t kinds[TICKET_LINES_MOST];
    const char *labels[TICKET_LINES_MOST], *texts[TICKET_LINES_MOST];
    for (size_t i = 0; i < t->count; i++) {
        kinds[i] = t->lines[i].kind;
        labels[i] = t->lines[i].label;
        texts[i] = t->texts.bytes + t->lines[i].text;
    }
    return tailor_sheet_draw_ticket(title, kinds, labels, texts, t->count, format, write, user, fault);
}

static bool write_page(output_set *set, const ticket *t, const char *title, const char *where)
{
    tailor_fault fault;
    bool is_file = picture_format(where) != 0; /* a name that ends like a picture; any other is a directory */
    if (!is_file && !make_directory(where))
        return false;
    output *file = is_file ? output_open(set, where) : output_open_in(set, where, "ticket.pdf");
    if (!file)
        return false;
    tailor_status status = ticket_draw(t, title, picture_format(file->path), output_write, file, &fault);
    return output_drawn(file, status, &fault) && output_commit(set);
}

/* The page first, so that what is told as written is there. */
static int report(const ticket *t, const settings *s)
{
    output_set set = {.count = 0};
    char heading[HEADING_TEXT];
    const char *title = sheet_heading(t->c, t->d, heading) ? heading : NULL;
    bool page = s->output || !s->json;
    bool good = !page || write_page(&set, t, title, s->output ? s->output : ".");
    output_discard(&set);
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

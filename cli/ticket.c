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

/* A name that ends like a picture is the file, any other the directory it comes into. */
static bool page_path(const char *where, char path[OUTPUT_PATH_MOST])
{
    size_t length = strlen(where);
    const char *slash = length && where[length - 1] == '/' ? "" : "/";
    int wrote = picture_format(where)       ? snprintf(path, OUTPUT_PATH_MOST, "%s", where)
                : strcmp(where, ".") == 0 ? snprintf(path, OUTPUT_PATH_MOST, "ticket.pdf")
                                          : snprintf(path, OUTPUT_PATH_MOST, "%s%sticket.pdf", where, slash);
    if (wrote >= 0 && wrote < OUTPUT_PATH_MOST)
        return true;
    complain("the path of the directory is too long");
    return false;
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
    char path[OUTPUT_PATH_MOST];
    tailor_fault fault;
    if (!page_path(where, path) || (!picture_format(where) && !make_directory(where)))
        return false;
    output *file = output_open(set, path);
    if (!file)
        return false;
    tailor_status status = ticket_draw(t, title, picture_format(path), output_write, file, &fault);
    if (!output_close(file)) /* a failed write is told here, with its reason */
        return false;
    if (status != TAILOR_OK)
        complain_at(path, 0, "%s", fault.sentence);
    return status == TAILOR_OK && output_commit(set);
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

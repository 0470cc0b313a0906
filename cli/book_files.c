/* What stands in an order's folder, made in memory: nothing is written before all of it is good. */
#include "book.h"

#include "complain.h"
#include "json_out.h"
#include "sheet_page.h"
#include "ticket.h"

#include <stdlib.h>
#include <string.h>
#include <tailorgeom/sheet.h>

static const struct {
    const char *name, *file;
    int format;
} sheets[] = {
    {"svg", "pattern.svg", TAILOR_SHEET_SVG},
    {"pdf", "pattern.pdf", TAILOR_SHEET_PDF},
    {"png", "pattern.png", TAILOR_SHEET_PNG},
    {"dxf", "pattern.dxf", TAILOR_SHEET_DXF},
    {"ticket", "ticket.pdf", BOOK_TICKET},
};
enum { SHEETS = sizeof sheets / sizeof sheets[0] };

static bool take_sheet(book *b, const char *name, size_t length)
{
    for (size_t i = 0; i < SHEETS; i++) {
        if (strlen(sheets[i].name) != length || memcmp(sheets[i].name, name, length) != 0)
            continue;
        for (size_t k = 0; k < b->sheet_count; k++)
            if (b->sheets[k] == sheets[i].format) {
                complain("--sheets: %s stands twice", sheets[i].name);
                return false;
            }
        b->sheets[b->sheet_count++] = sheets[i].format;
        return true;
    }
    complain("--sheets takes svg, pdf, png, dxf and ticket, with commas between");
    return false;
}

bool book_take_sheets(book *b, const char *names)
{
    for (const char *name = names;; name++) {
        size_t length = strcspn(name, ",");
        if (!take_sheet(b, name, length))
            return false;
        name += length;
        if (!*name)
            return true;
    }
}

const char *book_sheet_name(int format)
{
    size_t i = 0;
    while (sheets[i].format != format)
        i++;
    return sheets[i].file;
}

static int into_buffer(void *bytes, const void *data, size_t count)
{
    buffer_add(bytes, data, count);
    return ((buffer *)bytes)->failed;
}

buffer *book_next_file(book_file *files, size_t *count, const char *name)
{
    book_file *file = &files[(*count)++];
    file->name = name;
    file->bytes.length = 0;
    return &file->bytes;
}

static tailor_status draw_ticket(const card *c, const drafted *d, const tailor_page *page, buffer *bytes,
                                 tailor_fault *fault)
{
    ticket *t = calloc(1, sizeof *t);
    if (!t)
        return TAILOR_NO_MEMORY;
    t->c = c;
    t->d = d;
    t->print = TAILOR_PRINT_MM;
    tailor_status status = ticket_fill(t) ? TAILOR_NO_MEMORY
                                          : ticket_draw(t, page, into_buffer, bytes, fault);
    buffer_free(&t->texts);
    free(t);
    return status;
}

tailor_status book_make_files(const book *b, const card *c, const drafted *d, book_file *files, size_t *count,
                              tailor_fault *fault)
{
    tailor_page *page = sheet_page_quietly(c, d, TAILOR_PRINT_MM, b->anonymous);
    tailor_status status = TAILOR_OK;
    *count = 0;
    if (!json_text(json_coat(d), book_next_file(files, count, "pattern.json")) || !page)
        status = TAILOR_NO_MEMORY;
    for (size_t i = 0; status == TAILOR_OK && i < b->sheet_count; i++) {
        buffer *bytes = book_next_file(files, count, book_sheet_name(b->sheets[i]));
        const bool as_ticket = b->sheets[i] == BOOK_TICKET;
        sheet_page_format(page, as_ticket ? TAILOR_SHEET_PDF : b->sheets[i]);
        status = as_ticket ? draw_ticket(c, d, page, bytes, fault)
                           : tailor_sheet_draw_coat(d->coat, page, into_buffer, bytes, fault);
        if (bytes->failed)
            status = TAILOR_NO_MEMORY;
    }
    tailor_page_free(page);
    return status;
}

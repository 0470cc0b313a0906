#include "page.h"

#include "../output/write.h"
#include "lettering.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/order.h>

enum { SETTINGS = TAILOR_IN_PAGE_SETTINGS, CHOICES_MOST = 4 };

/** A number has choices in ascending order, and the words for them; a text has none. */
static const struct {
    const char *name, *words;
    int usual, count, choice[CHOICES_MOST];
} settings[SETTINGS] = {
    [TAILOR_PAGE_FORMAT] = {"format", "1 for SVG, 2 for PDF, 3 for PNG, 4 for DXF", TAILOR_SHEET_SVG, 4,
                            {TAILOR_SHEET_SVG, TAILOR_SHEET_PDF, TAILOR_SHEET_PNG, TAILOR_SHEET_DXF}},
    [TAILOR_PAGE_UNITS] = {"units", "1 for mm, 8 for inches to the eighth, 16 for inches to the sixteenth",
                           TAILOR_PRINT_MM, 3, {TAILOR_PRINT_MM, TAILOR_PRINT_INCH_8, TAILOR_PRINT_INCH_16}},
    [TAILOR_PAGE_ANONYMOUS] = {"anonymous", "0 for no, 1 for yes", 0, 2, {0, 1}},
    [TAILOR_PAGE_CLIENT] = {"client", NULL, 0, 0, {0}},
    [TAILOR_PAGE_TITLE] = {"title", NULL, 0, 0, {0}},
    [TAILOR_PAGE_ALIGN] = {"align", NULL, 0, 0, {0}},
};

static int is_known(int setting) { return setting > 0 && setting < SETTINGS; }

static int is_number(int setting) { return is_known(setting) && settings[setting].count > 0; }

static int is_text(int setting) { return is_known(setting) && settings[setting].count == 0; }

static tailor_status refuse(tailor_fault *fault, double value, const char *sentence)
{
    return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, value, NAN, NAN, sentence);
}

/** Why a page cannot be set so: it is not there, or the setting is unknown or of the other kind. */
static tailor_status refuse_setting(const tailor_page *page, int setting, tailor_fault *fault)
{
    char sentence[160];
    if (!page)
        return refuse(fault, NAN, "there is no page to set");
    if (is_known(setting))
        snprintf(sentence, sizeof sentence, "a page's %s is a %s: tailor_page_set%s() sets it", settings[setting].name,
                 is_text(setting) ? "text" : "number", is_text(setting) ? "_text" : "");
    else
        snprintf(sentence, sizeof sentence, "a page has no setting %d, but 1 to %d", setting, SETTINGS - 1);
    return refuse(fault, setting, sentence);
}

static tailor_page unset(tailor_allocator allocator)
{
    tailor_page page = {.allocator = allocator};
    for (int i = 1; i < SETTINGS; i++)
        page.number[i] = settings[i].usual;
    return page;
}

tailor_status tailor_page_new(const tailor_allocator *allocator, tailor_page **page, tailor_fault *fault)
{
    const tailor_allocator from = tailor_in_sheet_allocator(allocator);
    if (!page)
        return refuse(fault, NAN, "there is no place for the new page");
    tailor_page *made = from.allocate(from.user, sizeof *made);
    if (!made)
        return tailor_in_sheet_fault(fault, TAILOR_NO_MEMORY, NAN, NAN, NAN, "no memory for a page");
    *made = unset(from);
    *page = made;
    return TAILOR_OK;
}

static void forget_coat(tailor_page *page)
{
    if (page->cautions)
        page->allocator.release(page->allocator.user, page->cautions);
    page->cautions = NULL;
    page->toile_only = 0;
}

void tailor_page_free(tailor_page *page)
{
    if (!page)
        return;
    for (int i = 0; i < SETTINGS; i++)
        if (page->text[i])
            page->allocator.release(page->allocator.user, page->text[i]);
    forget_coat(page);
    page->allocator.release(page->allocator.user, page);
}

tailor_status tailor_page_set(tailor_page *page, int setting, double value, tailor_fault *fault)
{
    char number[32], sentence[200];
    if (!page || !is_number(setting))
        return refuse_setting(page, setting, fault);
    const int count = settings[setting].count, *choice = settings[setting].choice;
    for (int i = 0; i < count; i++)
        if (value >= choice[i] && value <= choice[i]) {
            page->number[setting] = choice[i];
            return TAILOR_OK;
        }
    if (fabs(value) < 1e9)
        tailor_in_number_write(number, value, 3);
    else
        snprintf(number, sizeof number, "%s", isnan(value) ? "no number" : "so large a number");
    snprintf(sentence, sizeof sentence, "a page's %s cannot be %s: it is %s", settings[setting].name, number,
             settings[setting].words);
    return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, value, choice[0], choice[count - 1], sentence);
}

tailor_status tailor_page_set_text(tailor_page *page, int setting, const char *text, tailor_fault *fault)
{
    if (!page || !is_text(setting))
        return refuse_setting(page, setting, fault);
    const size_t bytes = text ? strlen(text) + 1 : 1;
    char *copy = NULL;
    if (bytes > 1) {
        copy = page->allocator.allocate(page->allocator.user, bytes);
        if (!copy)
            return tailor_in_sheet_fault(fault, TAILOR_NO_MEMORY, NAN, NAN, NAN, "no memory for a page's text");
        memcpy(copy, text, bytes);
    }
    if (page->text[setting])
        page->allocator.release(page->allocator.user, page->text[setting]);
    page->text[setting] = copy;
    return TAILOR_OK;
}

/** Write a coat's cautions of class caution, a zero after each and one more; `text` may be NULL to ask. Returns the
 *  bytes, 1 when there are none. */
static size_t write_cautions(const tailor_coat *coat, char *text)
{
    size_t bytes = 0;
    tailor_fault caution;
    for (int i = 0, weight; (weight = tailor_coat_caution(coat, i, &caution)) != 0; i++) {
        if (weight != TAILOR_CAUTION_CLASS_CAUTION)
            continue;
        const size_t length = strlen(caution.sentence) + 1;
        if (text)
            memcpy(text + bytes, caution.sentence, length);
        bytes += length;
    }
    if (text)
        text[bytes] = 0;
    return bytes + 1;
}

tailor_status tailor_page_set_coat(tailor_page *page, const tailor_coat *coat, tailor_fault *fault)
{
    if (!page)
        return refuse(fault, NAN, "there is no page to set");
    const tailor_status status = coat ? tailor_coat_status(coat, fault) : TAILOR_OK;
    if (status != TAILOR_OK)
        return status;
    const size_t bytes = write_cautions(coat, NULL);
    char *cautions = NULL;
    if (bytes > 1) {
        cautions = page->allocator.allocate(page->allocator.user, bytes);
        if (!cautions)
            return tailor_in_sheet_fault(fault, TAILOR_NO_MEMORY, NAN, NAN, NAN, "no memory for a coat's cautions");
        write_cautions(coat, cautions);
    }
    forget_coat(page);
    page->cautions = cautions;
    page->toile_only = tailor_pattern_toile_only(tailor_coat_pattern(coat));
    return TAILOR_OK;
}

double tailor_page_value(const tailor_page *page, int setting)
{
    return !is_number(setting) ? NAN : page ? page->number[setting] : settings[setting].usual;
}

const char *tailor_page_text(const tailor_page *page, int setting)
{
    return !is_text(setting) ? NULL : page && page->text[setting] ? page->text[setting] : "";
}

/* ---- as the sheets ask it */

int tailor_in_page_choice(const tailor_page *page, int setting) { return (int)tailor_page_value(page, setting); }

tailor_status tailor_in_page_ask(const tailor_page *page, int dxf, tailor_writer write, tailor_fault *fault)
{
    if (tailor_in_page_choice(page, TAILOR_PAGE_FORMAT) == TAILOR_SHEET_DXF && !dxf)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, TAILOR_SHEET_DXF, TAILOR_SHEET_SVG, TAILOR_SHEET_PNG,
                                     "only a pattern is written as DXF (4): a page of this sheet is SVG, PDF or PNG");
    if (!write)
        return refuse(fault, NAN, "a sheet needs a function to write through");
    return TAILOR_OK;
}

tailor_status tailor_in_page_of_coat(const tailor_page *page, const tailor_coat *coat, tailor_page *own,
                                     tailor_fault *fault)
{
    *own = page ? *page : unset(tailor_in_sheet_allocator(NULL));
    own->cautions = NULL; /* those of the page's coat stay the page's */
    own->toile_only = 0;
    return coat ? tailor_page_set_coat(own, coat, fault) : refuse(fault, NAN, "there is no coat to draw");
}

void tailor_in_page_of_coat_end(tailor_page *own) { forget_coat(own); }

int tailor_in_any_for_toile(const tailor_pattern *const *patterns, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (tailor_pattern_toile_only(patterns[i]))
            return 1;
    return 0;
}

void tailor_in_page_begin(const tailor_page *page, const char *sheet, int toile_only, struct tailor_in_drawing *d)
{
    const struct tailor_in_title words = {
        .sheet = sheet,
        .client = tailor_in_page_choice(page, TAILOR_PAGE_ANONYMOUS) ? "" : tailor_page_text(page, TAILOR_PAGE_CLIENT),
        .order = tailor_page_text(page, TAILOR_PAGE_TITLE),
        .caution = toile_only || (page && page->toile_only) ? "for toile only" : "",
    };
    tailor_in_drawing_begin(d, &words, page ? &page->allocator : NULL);
    d->cautions = page ? page->cautions : NULL;
}

tailor_status tailor_in_page_end(const tailor_page *page, struct tailor_in_drawing *d, tailor_writer write, void *user,
                                 tailor_fault *fault)
{
    const tailor_status status =
        tailor_in_drawing_write(d, tailor_in_page_choice(page, TAILOR_PAGE_FORMAT), write, user, fault);
    tailor_in_drawing_end(d);
    return status;
}

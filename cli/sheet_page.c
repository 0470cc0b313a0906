#include "sheet_page.h"

#include "complain.h"

#include <stdio.h>

typedef struct page_text {
    int setting;
    const char *text;
} page_text;

static tailor_page *page_of(int print, const page_text *texts, size_t count)
{
    tailor_page *page = NULL;
    bool good = tailor_page_new(NULL, &page, NULL) == TAILOR_OK &&
                tailor_page_set(page, TAILOR_PAGE_UNITS, print, NULL) == TAILOR_OK;
    for (size_t i = 0; good && i < count; i++)
        good = tailor_page_set_text(page, texts[i].setting, texts[i].text, NULL) == TAILOR_OK;
    if (good)
        return page;
    tailor_page_free(page);
    return NULL;
}

tailor_page *sheet_page_quietly(const card *c, const drafted *d, int print, bool anonymous)
{
    char order[HEADING_TEXT];
    card_order(c, order, sizeof order);
    const page_text texts[] = {{TAILOR_PAGE_CLIENT, c->text[TEXT_NAME]}, {TAILOR_PAGE_TITLE, order}};
    tailor_page *page = page_of(print, texts, 2);
    if (tailor_page_set(page, TAILOR_PAGE_ANONYMOUS, anonymous, NULL) == TAILOR_OK &&
        tailor_page_set_coat(page, d->coat, NULL) == TAILOR_OK)
        return page;
    tailor_page_free(page);
    return NULL;
}

static tailor_page *or_say(tailor_page *page)
{
    if (!page)
        complain("out of memory");
    return page;
}

tailor_page *sheet_page_of(const card *c, const drafted *d, const settings *s)
{
    return or_say(sheet_page_quietly(c, d, s->print, s->anonymous));
}

tailor_page *sheet_page_titled(const char *title, int print)
{
    const page_text text = {TAILOR_PAGE_TITLE, title};
    return or_say(page_of(print, &text, 1));
}

void sheet_page_format(tailor_page *page, int format) { tailor_page_set(page, TAILOR_PAGE_FORMAT, format, NULL); }

/* The page: how a drawing is set, as the composers and writers ask it. A page may be NULL: nothing of it is set. */
#ifndef TAILOR_IN_SHEET_PAGE_H
#define TAILOR_IN_SHEET_PAGE_H

#include "drawing.h"

enum { TAILOR_IN_PAGE_SETTINGS = TAILOR_PAGE_ALIGN + 1 };

struct tailor_page {
    tailor_allocator allocator;
    double number[TAILOR_IN_PAGE_SETTINGS];
    char *text[TAILOR_IN_PAGE_SETTINGS]; /* NULL where it is not set */
    int toile_only;                      /* the coat that is set is */
    char *cautions; /* its cautions of class caution, a zero after each and one more at the end; NULL for none */
};

/** A number of a page that is a choice. */
int tailor_in_page_choice(const tailor_page *page, int setting);

/** What every sheet asks first: that it can be written through a writer in the page's format, DXF only where `dxf`. */
tailor_status tailor_in_page_ask(const tailor_page *page, int dxf, tailor_writer write, tailor_fault *fault);

/** The page as `own`, of a coat: with its texts, which stay the page's. tailor_in_page_of_coat_end() gives back what is
 *  its own. Fails as tailor_page_set_coat() does, and for no coat. */
tailor_status tailor_in_page_of_coat(const tailor_page *page, const tailor_coat *coat, tailor_page *own,
                                     tailor_fault *fault);
void tailor_in_page_of_coat_end(tailor_page *own);

/** 1 when one of the patterns is for a toile only. */
int tailor_in_any_for_toile(const tailor_pattern *const *patterns, size_t count);

/** Begin the drawing that is set on a page: its memory is the page's, its title what the sheet is (may be ""), then
 *  client and title, and that it is for a toile only: because what is drawn is, or the page's coat. */
void tailor_in_page_begin(const tailor_page *page, const char *sheet, int toile_only, struct tailor_in_drawing *d);
/** Write a drawing in the page's format, unless it failed, and end it. */
tailor_status tailor_in_page_end(const tailor_page *page, struct tailor_in_drawing *d, tailor_writer write, void *user,
                                 tailor_fault *fault);

#endif

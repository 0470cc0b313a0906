/* The page: how a drawing is set, as the composers and writers ask it. A page may be NULL: nothing of it is set. */
#ifndef TAILOR_IN_SHEET_PAGE_H
#define TAILOR_IN_SHEET_PAGE_H

#include "drawing.h"

/** A number of a page that is a choice. */
int tailor_in_page_choice(const tailor_page *page, int setting);

/** What every sheet asks first: that it can be written through a writer in the page's format, DXF only where `dxf`. */
tailor_status tailor_in_page_ask(const tailor_page *page, int dxf, tailor_writer write, tailor_fault *fault);

/** Begin the drawing that is set on a page: its memory is the page's, its title what the sheet is (may be ""), then
 *  client and title, and that it is for a toile only. */
void tailor_in_page_begin(const tailor_page *page, const char *sheet, struct tailor_in_drawing *d);
/** Write a drawing in the page's format, unless it failed, and end it. */
tailor_status tailor_in_page_end(const tailor_page *page, struct tailor_in_drawing *d, tailor_writer write, void *user,
                                 tailor_fault *fault);

#endif

/* sheet_page: the page that the sheets of a run are set on. */
#ifndef CLI_SHEET_PAGE_H
#define CLI_SHEET_PAGE_H

#include "commands.h"
#include "drafted.h"

#include <tailorgeom/sheet.h>

/** The page of a card's coat: client, order and fitting, units, and the coat's cautions; its checks pass. NULL when
 *  memory is out; said. */
tailor_page *sheet_page_of(const card *c, const drafted *d, const settings *s);
/** The same, where a worker that says nothing itself makes it. */
tailor_page *sheet_page_quietly(const card *c, const drafted *d, int print, bool anonymous);
/** A page with another title, and nobody's. NULL when memory is out; said. */
tailor_page *sheet_page_titled(const char *title, int print);
/** Set its format, a TAILOR_SHEET_. */
void sheet_page_format(tailor_page *page, int format);

#endif

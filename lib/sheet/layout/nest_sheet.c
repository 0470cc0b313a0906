/* The nest sheet, as it is asked for. */
#include "../output/write.h"
#include "nest.h"
#include "page.h"

#include <math.h>

static int is_somewhere(const tailor_pattern *pattern, const char *name)
{
    tailor_point place;
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++)
        if (tailor_in_nest_place(pattern, i, name, &place))
            return 1;
    return 0;
}

tailor_status tailor_sheet_draw_nest(const tailor_pattern *const *patterns, const char *const *labels, size_t count,
                                     size_t base, const tailor_page *page, tailor_writer write, void *user,
                                     tailor_fault *fault)
{
    struct tailor_in_drawing drawing;
    const char *align = tailor_page_text(page, TAILOR_PAGE_ALIGN);
    const tailor_status status = tailor_in_page_ask(page, 0, write, fault);
    if (status != TAILOR_OK)
        return status;
    if (!patterns || count < 1 || count > TAILOR_IN_NEST_SIZES)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)count, 1, TAILOR_IN_NEST_SIZES,
                                     "1 to 32 sizes can be laid on each other");
    if (base >= count)
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)base, 0, (double)count - 1,
                                     "the base is one of the sizes, counted from 0");
    for (size_t i = 0; i < count; i++)
        if (!patterns[i])
            return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, (double)i, NAN, NAN,
                                         "a size has no pattern (its place in the list is the value, from 0)");
    if (*align && !is_somewhere(patterns[base], align))
        return tailor_in_sheet_fault(fault, TAILOR_BAD_ARGUMENT, NAN, NAN, NAN,
                                     "no piece has the point that the sizes are to be laid on each other at");
    const struct tailor_in_nest nest = {patterns, labels, count, base, *align ? align : NULL};
    tailor_in_page_begin(page, "", tailor_in_any_for_toile(patterns, count), &drawing);
    tailor_in_compose_nest(&drawing, &nest);
    return tailor_in_page_end(page, &drawing, write, user, fault);
}

/* The inside of a coat: one block, this first, then the line of the section, then the pattern. No pointer lies in it,
 * so it could be copied as it is. */
#ifndef TAILOR_IN_COAT_COAT_H
#define TAILOR_IN_COAT_COAT_H

#include "cautions.h"

struct tailor_coat {
    tailor_allocator allocator;
    tailor_fault fault; /* of the status; zeros when it is TAILOR_OK */
    int extent, drafted, edition, newer;
    int caution_count, toile_count;
    size_t line_count;
    size_t line_offset, pattern_offset;
    double fields[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT], quantities[TAILOR_QUANTITY_COUNT];
    double check_values[TAILOR_CHECK_COUNT], check_limits[TAILOR_CHECK_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT], toile[TAILOR_IN_BESPOKE_MEASURES];
    tailor_in_caution cautions[TAILOR_CAUTION_COUNT];
};

/** What its cautions are found from. */
static inline tailor_in_cautioned tailor_in_coat_cautioned(const tailor_coat *c)
{
    return (tailor_in_cautioned){c->fields, c->quantities, c->origins, c->newer, c->edition};
}

#endif

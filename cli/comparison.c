/* What the ways of showing a comparison ask of it. */
#include "comparison.h"

bool good_row(const comparison *c, size_t row)
{
    return c->rows[row].status == TAILOR_OK;
}

const drafted *first_good(const comparison *c)
{
    size_t row = 0;
    while (!good_row(c, row))
        row++;
    return &c->rows[row];
}

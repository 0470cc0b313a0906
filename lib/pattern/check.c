/* What the checks of the table demand. */
#include <math.h>

#include <tailorgeom/pattern.h>

#include "../base/table.h"

int tailor_check_sense(int check)
{
    const tailor_in_row *row = tailor_in_table_row(tailor_check_table(), check);
    return row ? row->sense : 0;
}

int tailor_check_passes(int check, double value, double limit)
{
    int sense = tailor_check_sense(check);
    if (isnan(value) || !sense)
        return -1;
    return sense > 0 ? value <= limit : value >= limit;
}

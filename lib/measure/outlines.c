/* Checks of the outlines themselves: closed, counter-clockwise, not crossing themselves. */
#include "view.h"

void tailor_in_measure_outlines(const struct tailor_in_view *v, double *value)
{
    double gap = 0, least = INFINITY;
    int crossings = 0;
    for (int i = 0; i < tailor_pattern_piece_count(v->pattern); i++) {
        size_t count;
        if (!tailor_in_serves(v, i))
            continue;
        const tailor_cubic *c = tailor_piece_outline(v->pattern, i, &count);
        for (size_t j = 0; j < count; j++) {
            tailor_point end = c[j].p[3], next = c[(j + 1) % count].p[0];
            gap = fmax(gap, fmax(fabs(next.x - end.x), fabs(next.y - end.y)));
        }
        double area = tailor_path_area(c, count);
        if (tailor_in_net_piece[tailor_piece_number(v->pattern, i)] >= 0 || area < 100) /* jettings, tapes are small */
            least = fmin(least, area);
        int crosses = 0;
        double places[2];
        if (tailor_path_crosses_itself(c, count, 1e-6, &crosses, places) != TAILOR_OK || crosses)
            crossings++;
    }
    value[TAILOR_CHECK_OUTLINE_GAP] = gap;
    value[TAILOR_CHECK_OUTLINE_AREA] = least;
    value[TAILOR_CHECK_OUTLINE_CROSSINGS] = crossings;
}

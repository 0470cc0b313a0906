/* The fold of anybody's forepart: where the break line runs and what the front covers. */
#include <tailorgeom/fold.h>

#include <math.h>
#include <stddef.h>

#include "../geom/kernel.h"

#define RADIANS (TAILOR_IN_PI / 180.0)

tailor_status tailor_fold_stand_point(tailor_point shoulder_end, tailor_point neck_point, double stand,
                                      tailor_point *point)
{
    tailor_point along_shoulder = tailor_in_sub(neck_point, shoulder_end);
    double length = tailor_in_norm(along_shoulder);
    if (!point)
        return TAILOR_BAD_ARGUMENT;
    if (!(isfinite(length) && isfinite(stand)))
        return TAILOR_NOT_FINITE;
    if (!(length > 0))
        return TAILOR_DEGENERATE;
    *point = tailor_in_along(neck_point, along_shoulder, stand / length);
    return TAILOR_OK;
}

double tailor_fold_angle(tailor_point stand_point, tailor_point break_point)
{
    return atan2(break_point.x - stand_point.x, stand_point.y - break_point.y) / RADIANS;
}

tailor_status tailor_fold_coverage(tailor_point stand_point, tailor_point break_point, double scye_front_x,
                                   const tailor_cubic *front_edge, size_t count, double level, double *coverage)
{
    if (!coverage || (!front_edge && count))
        return TAILOR_BAD_ARGUMENT;
    tailor_point line = tailor_in_sub(stand_point, break_point);
    if (!(isfinite(line.x) && isfinite(line.y) && isfinite(scye_front_x) && isfinite(level)))
        return TAILOR_NOT_FINITE;
    if (!(line.y > 0))
        return TAILOR_DEGENERATE;
    if (level > stand_point.y)
        return TAILOR_NO_SOLUTION;
    if (level >= break_point.y) {
        *coverage = break_point.x + line.x * (level - break_point.y) / line.y - scye_front_x;
        return TAILOR_OK;
    }
    /* Below the break point the front is closed: to the front edge, where it is farthest out. */
    double farthest = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        double places[3];
        size_t found = 0;
        tailor_status status = tailor_path_cross_line(&front_edge[i], 1, (tailor_point){0, level},
                                                      (tailor_point){1, level}, places, 3, &found);
        if (status == TAILOR_OVERLAP) { /* it lies on the level: its ends are on the edge too */
            places[0] = 0;
            places[1] = 1;
            found = 2;
        } else if (status != TAILOR_OK)
            return status;
        for (size_t j = 0; j < found; j++)
            farthest = fmax(farthest, tailor_in_point(&front_edge[i], places[j]).x);
    }
    if (farthest == -INFINITY)
        return TAILOR_NO_SOLUTION;
    *coverage = farthest - scye_front_x;
    return TAILOR_OK;
}

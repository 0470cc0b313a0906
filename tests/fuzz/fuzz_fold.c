/* The fold of anybody's forepart: points and paths of any kind. */
#include <tailorgeom/fold.h>
#include <tailorgeom/coat.h>
#include "bytes.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = { data, size };
    tailor_cubic path[8], turned[8], back[8];
    size_t count = bytes_path(&b, path, 8);
    tailor_point shoulder = bytes_point(&b), neck = bytes_point(&b);
    tailor_point stand_point = bytes_point(&b), break_point = bytes_point(&b);
    double stand = bytes_number(&b), coverage = 0;
    int status = tailor_fold_stand_point(shoulder, neck, stand, &stand_point);
    (void)status;
    double angle = tailor_fold_angle(stand_point, break_point);
    check(!(fabs(angle) > 180));
    if (tailor_path_reflect(path, count, stand_point, break_point, turned) == TAILOR_OK && count > 0
        && fabs(turned[0].p[0].x) < 1e6 && fabs(path[0].p[0].x) < 1e6
        && hypot(stand_point.x - break_point.x, stand_point.y - break_point.y) > 1
        && fabs(stand_point.x) + fabs(stand_point.y) < 1e6) {
        /* another cubic of the path may be so large that its image is infinite: that is refused on the way back */
        int again = tailor_path_reflect(turned, count, stand_point, break_point, back);
        check(again == TAILOR_OK || again == TAILOR_NOT_FINITE);
        check(again != TAILOR_OK
              || !(fabs(back[0].p[0].x - path[0].p[0].x) > 1e-3 && fabs(path[0].p[0].y) < 1e6));
    }
    (void)tailor_fold_coverage(stand_point, break_point, shoulder.x, path, count, bytes_number(&b), &coverage);
    return 0;
}

/* The free heavy fold, whose shape is one and the same for every strip: solved once, outside, to 1e-6 (the test solves
 * it again, by another method). */
#include <math.h>
#include <tailorgeom/roll.h>

#define HEIGHT 0.9065967
#define RADIUS 0.3946717
#define ARC 4.6834706

tailor_status tailor_roll_free_fold(double bending_length, double *height, double *radius, double *arc)
{
    if (!isfinite(bending_length))
        return TAILOR_NOT_FINITE;
    if (!(bending_length >= 1e-3 && bending_length <= 1e6))
        return TAILOR_OUT_OF_RANGE;
    if (height)
        *height = HEIGHT * bending_length;
    if (radius)
        *radius = RADIUS * bending_length;
    if (arc)
        *arc = ARC * bending_length;
    return TAILOR_OK;
}

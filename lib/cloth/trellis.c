/* The pin-jointed net: threads that turn at their crossings and do not stretch. */
#include "sheet.h"

double tailor_trellis_line(double shear, double angle)
{
    if (!(shear >= -90 && shear <= 90 && isfinite(angle)))
        return NAN;
    const double square = 1 + sin(shear * TAILOR_IN_DEGREE) * sin(2 * fmod(angle, 180) * TAILOR_IN_DEGREE);
    return sqrt(fmax(square, 0));
}

double tailor_trellis_area(double shear)
{
    return shear >= -90 && shear <= 90 ? fmax(cos(shear * TAILOR_IN_DEGREE), 0) : NAN;
}

double tailor_trellis_shear(double extension)
{
    const double square = (1 + extension) * (1 + extension) - 1; /* the sine of the shear */
    return extension >= -1 && square <= 1 + 1e-12 ? asin(fmin(square, 1)) / TAILOR_IN_DEGREE : NAN;
}

#include "monotone.h"

#include <math.h>

double tailor_in_slope_inner(double h0, double m0, double h1, double m1)
{
    if (!(m0 * m1 > 0))
        return 0;
    double w0 = 2 * h1 + h0, w1 = h1 + 2 * h0;
    return (w0 + w1) / (w0 / m0 + w1 / m1);
}

double tailor_in_slope_end(double h0, double m0, double h1, double m1)
{
    double slope = ((2 * h0 + h1) * m0 - h0 * m1) / (h0 + h1);
    if (!(slope * m0 > 0))
        return 0;
    return m0 * m1 < 0 && fabs(slope) > 3 * fabs(m0) ? 3 * m0 : slope;
}

void tailor_in_slopes(const double *place, const double *value, size_t count, size_t stride, double *slope)
{
    if (count < 2) {
        if (count)
            slope[0] = 0;
        return;
    }
#define H(i) (place[((i) + 1) * stride] - place[(i)*stride])
#define M(i) ((value[((i) + 1) * stride] - value[(i)*stride]) / H(i))
    size_t last = count - 1;
    for (size_t i = 1; i < last; i++)
        slope[i * stride] = tailor_in_slope_inner(H(i - 1), M(i - 1), H(i), M(i));
    if (count == 2) {
        slope[0] = slope[stride] = M(0);
        return;
    }
    slope[0] = tailor_in_slope_end(H(0), M(0), H(1), M(1));
    slope[last * stride] = tailor_in_slope_end(H(last - 1), M(last - 1), H(last - 2), M(last - 2));
#undef M
#undef H
}

double tailor_in_hermite_value(double h, double y0, double d0, double y1, double d1, double t)
{
    double s = 1 - t;
    return y0 + (y1 - y0) * (t * t * (3 - 2 * t)) + h * t * s * (d0 * s - d1 * t);
}

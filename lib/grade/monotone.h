/* Slopes of the monotone cubic through values at rising places: Fritsch and Carlson's interpolant (SIAM J. Numer. Anal.
 * 17, 1980) with the inner slopes of Fritsch and Butland (SIAM J. Sci. Stat. Comput. 5, 1984) and three-point ends. */
#ifndef TAILOR_IN_GRADE_MONOTONE_H
#define TAILOR_IN_GRADE_MONOTONE_H

#include <stddef.h>

/** Slope at a place between two secants m0 (over h0) and m1 (over h1). */
double tailor_in_slope_inner(double h0, double m0, double h1, double m1);
/** Slope at an end whose own secant is m0, the next one m1. */
double tailor_in_slope_end(double h0, double m0, double h1, double m1);
/** Slopes at `count` places; values and slopes lie `stride` apart. A single place has slope 0. */
void tailor_in_slopes(const double *place, const double *value, size_t count, size_t stride, double *slope);
/** Value between two places: `h` apart, values y0 and y1, slopes d0 and d1, at the share t of the way. Equal values
 * with slopes of 0 give that value exactly. */
double tailor_in_hermite_value(double h, double y0, double d0, double y1, double d1, double t);

#endif

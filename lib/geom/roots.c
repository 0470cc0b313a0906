/* Roots of cubic polynomials in Bernstein form, found between their turning points. */
#include "kernel.h"

/** Parameter at which the monotone stretch [t0, t1] of Bernstein values b reaches 0, its end values having opposite
 *  signs. */
double tailor_in_root_between(const double b[4], double t0, double t1, bool rising)
{
    double low = t0, high = t1, t = 0.5 * (t0 + t1);
    for (int i = 0; i < 60; i++) {
        const double s = 1 - t;
        const double value = s * s * s * b[0] + 3 * s * s * t * b[1] + 3 * s * t * t * b[2] + t * t * t * b[3];
        const double slope = 3 * (s * s * (b[1] - b[0]) + 2 * s * t * (b[2] - b[1]) + t * t * (b[3] - b[2]));
        if (value == 0) break;
        if ((value > 0) == rising)
            high = t;
        else
            low = t;
        double next = t - value / slope;
        if (!(next > low && next < high)) next = 0.5 * (low + high);
        if (fabs(next - t) <= 1e-15 || next == t) break;
        t = next;
    }
    return t;
}

/** Parameters where the slope of Bernstein values b changes sign inside (0, 1), ascending. */
int tailor_in_turning_points(const double b[4], double turns[2])
{
    const double u = b[1] - b[0], v = b[2] - b[1], w = b[3] - b[2];
    const double qa = u - 2 * v + w, qb = v - u, disc = qb * qb - qa * u;
    int n = 0;
    if (!(disc > 0)) return 0;
    const double q = qb >= 0 ? -(qb + sqrt(disc)) : sqrt(disc) - qb;
    const double r0 = q / qa, r1 = u / q;
    if (r0 > 0 && r0 < 1) turns[n++] = r0;
    if (r1 > 0 && r1 < 1) turns[n++] = r1;
    if (n == 2 && turns[0] > turns[1]) {
        const double swap = turns[0];
        turns[0] = turns[1];
        turns[1] = swap;
    }
    return n;
}

double tailor_in_value_at(const double b[4], double t)
{
    const double s = 1 - t;
    return s * s * s * b[0] + 3 * s * s * t * b[1] + 3 * s * t * t * b[2] + t * t * t * b[3];
}

int tailor_in_cubic_roots(const double b[4], double zero, double found[4])
{
    double turns[2], node[4] = {0}, value[4];
    const int between = tailor_in_turning_points(b, turns);
    int n = 0;
    node[n++] = 0;
    for (int i = 0; i < between; i++) node[n++] = turns[i];
    node[n++] = 1;
    bool all = true;
    for (int i = 0; i < n; i++) {
        value[i] = i == 0 ? b[0] : i == n - 1 ? b[3] : tailor_in_value_at(b, node[i]);
        if (fabs(value[i]) <= zero)
            value[i] = 0;
        else
            all = false;
    }
    if (all) return -1;
    int roots = 0;
    for (int i = 0; i < n; i++) {
        if (value[i] == 0) {
            /* neighbouring nodes both at nothing are one touch: told at the curve's end if it reaches one */
            if (i > 0 && value[i - 1] == 0) {
                if (i == n - 1) found[roots - 1] = 1;
                continue;
            }
            found[roots++] = node[i];
        } else if (i > 0 && value[i - 1] != 0 && (value[i] > 0) != (value[i - 1] > 0))
            found[roots++] = tailor_in_root_between(b, node[i - 1], node[i], value[i] > 0);
    }
    return roots;
}

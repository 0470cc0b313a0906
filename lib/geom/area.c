/* Area, centroid and moments by Green's theorem: of the curve, not of a polyline. */
#include "kernel.h"

double tailor_path_area(const tailor_cubic *path, size_t count)
{
    if (count == 0) return 0;
    const tailor_point o = path[0].p[0]; /* nearer the outline than the origin: less cancellation */
    double twenty = 0;
    for (size_t i = 0; i < count; i++) {
        const tailor_point a = tailor_in_sub(path[i].p[0], o), b = tailor_in_sub(path[i].p[1], o);
        const tailor_point c = tailor_in_sub(path[i].p[2], o), d = tailor_in_sub(path[i].p[3], o);
        /* 1/2 of the integral of x dy - y dx along the cubic, in its control points */
        twenty += 6 * tailor_in_cross(a, b) + 3 * tailor_in_cross(a, c) + tailor_in_cross(a, d) +
                  3 * tailor_in_cross(b, c) + 3 * tailor_in_cross(b, d) + 6 * tailor_in_cross(c, d);
    }
    return twenty / 20; /* the closing chord runs to o, so it adds nothing */
}

/* Six points integrate x^3 dy of a cubic, a polynomial of degree 11, exactly. */
static const double node6[6] = {-0.93246951420315205006, -0.66120938646626448154, -0.23861918608319690471,
                                0.23861918608319690471,  0.66120938646626448154,  0.93246951420315205006};
static const double weight6[6] = {0.08566224618958517834, 0.18038078652406930313, 0.23395696728634551853,
                                  0.23395696728634551853, 0.18038078652406930313, 0.08566224618958517834};

/** Add what one cubic gives to area, x, y, xx, xy, yy, all about o. */
static void add_moments(const tailor_cubic *c, tailor_point o, double sums[6])
{
    for (int k = 0; k < 6; k++) {
        const double t = 0.5 + 0.5 * node6[k];
        const tailor_point p = tailor_in_sub(tailor_in_point(c, t), o),
                           d = tailor_in_scale(tailor_in_derivative(c, t), weight6[k]);
        const double turn = tailor_in_cross(p, d); /* twice the area swept from o; p's powers are homogeneous, so: */
        sums[0] += turn / 2;
        sums[1] += turn * p.x / 3;
        sums[2] += turn * p.y / 3;
        sums[3] += turn * p.x * p.x / 4;
        sums[4] += turn * p.x * p.y / 4;
        sums[5] += turn * p.y * p.y / 4;
    }
}

/** Moments about the path's own start. */
static void moments_about(const tailor_cubic *path, size_t count, tailor_point o, double sums[6])
{
    for (int k = 0; k < 6; k++) sums[k] = 0;
    for (size_t i = 0; i < count; i++) add_moments(&path[i], o, sums);
}

void tailor_path_moments(const tailor_cubic *path, size_t count, double moments[6])
{
    if (count == 0) {
        for (int k = 0; k < 6; k++) moments[k] = 0;
        return;
    }
    const tailor_point o = path[0].p[0];
    double m[6];
    moments_about(path, count, o, m);
    moments[0] = m[0];
    moments[1] = m[1] + o.x * m[0];
    moments[2] = m[2] + o.y * m[0];
    moments[3] = m[3] + 2 * o.x * m[1] + o.x * o.x * m[0];
    moments[4] = m[4] + o.x * m[2] + o.y * m[1] + o.x * o.y * m[0];
    moments[5] = m[5] + 2 * o.y * m[2] + o.y * o.y * m[0];
}

tailor_status tailor_path_centroid(const tailor_cubic *path, size_t count, tailor_point *centroid)
{
    if (!path || !centroid || count == 0) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    double m[6];
    moments_about(path, count, path[0].p[0], m);
    const double size = tailor_in_path_size(path, count);
    if (!(fabs(m[0]) > 1e-12 * size * size)) return TAILOR_DEGENERATE;
    *centroid = (tailor_point){path[0].p[0].x + m[1] / m[0], path[0].p[0].y + m[2] / m[0]};
    return TAILOR_OK;
}

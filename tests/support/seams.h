/* Seams of a pattern, for tests: their stretches, and how long a side is by the stretches themselves. */
#ifndef TESTS_SUPPORT_SEAMS_H
#define TESTS_SUPPORT_SEAMS_H

#include <math.h>
#include <tailorgeom/pattern.h>

#include "close.h"

static inline tailor_stretch stretch_of(const tailor_pattern *p, int seam, int side, int place)
{
    tailor_stretch sewn = {-1, -1, NAN, NAN};
    assert_int_equal(tailor_seam_stretch(p, seam, side, place, &sewn), TAILOR_OK);
    return sewn;
}

/** How far a stretch reaches beyond its edge, mm; 0 or less when it lies on it. */
static inline double beyond_edge(const tailor_pattern *p, const tailor_stretch *sewn)
{
    size_t count;
    const tailor_cubic *path = tailor_edge_path(p, sewn->piece, sewn->edge, &count);
    assert_non_null(path);
    return fmax(fmax(sewn->from, sewn->to) - tailor_path_length(path, count), -fmin(sewn->from, sewn->to));
}

/** Length of a side; `*beyond` (may be NULL) is how far the worst of its stretches reaches beyond its edge. */
static inline double side_length(const tailor_pattern *p, int seam, int side, double *beyond)
{
    const int count = tailor_seam_stretch_count(p, seam, side);
    double length = 0;
    assert_true(count >= 1);
    for (int i = 0; i < count; i++) {
        const tailor_stretch sewn = stretch_of(p, seam, side, i);
        length += fabs(sewn.to - sewn.from);
        if (beyond)
            *beyond = fmax(*beyond, beyond_edge(p, &sewn));
    }
    return length;
}

#endif

/* Curves for the tests of geom: a fixed sequence of random ones, of every family that patterns and accidents have. */
#ifndef TESTS_GEOM_CURVES_H
#define TESTS_GEOM_CURVES_H

#include <tailorgeom/geom.h>
#include "support/close.h"

/* splitmix64 (Steele, Lea, Flood 2014) */
static inline double random_unit(uint64_t *state)
{
    uint64_t z = (*state += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return (double)((z ^ (z >> 31)) >> 11) / 9007199254740992.0;
}

static inline double random_in(uint64_t *state, double low, double high)
{
    return low + (high - low) * random_unit(state);
}

static inline tailor_point random_point(uint64_t *state, double size)
{
    tailor_point p;
    p.x = random_in(state, -size, size);
    p.y = random_in(state, -size, size);
    return p;
}

enum { SEAM, SCYE, ESS, WILD, NEAR_CUSP, ZERO_HANDLE, STRAIGHT, FAMILIES };

/* A curve some 100 to 500 mm long. */
static inline tailor_cubic random_curve(uint64_t *state, int family)
{
    const tailor_point o = random_point(state, 300);
    const double l = random_in(state, 100, 400), bow = random_in(state, -0.2, 0.2) * l;
    tailor_cubic c = {{{0, 0}, {l / 3, bow}, {2 * l / 3, bow * random_unit(state)}, {l, 0}}};
    double matrix[6];
    const double turn = random_in(state, 0, 6.283185307179586);
    switch (family) {
    case SCYE:
        c = tailor_cubic_arc((tailor_point){0, 0}, l, 0, random_in(state, 30, 90));
        break;
    case ESS:
        c.p[1] = (tailor_point){l * random_in(state, 0.2, 0.6), l * random_in(state, 0.1, 0.5)};
        c.p[2] = (tailor_point){l * random_in(state, 0.4, 0.8), -l * random_in(state, 0.1, 0.5)};
        break;
    case WILD:
        for (int k = 0; k < 4; k++) c.p[k] = random_point(state, l);
        break;
    case NEAR_CUSP: /* crossed handles make a cusp; then it is missed by 1e-9 to 10 mm */
        c = (tailor_cubic){{{0, 0}, {l, l}, {0, l}, {l, 0}}};
        c.p[1].x += pow(10, random_in(state, -9, 1));
        c.p[2].y += pow(10, random_in(state, -9, 1));
        break;
    case ZERO_HANDLE:
        if (random_unit(state) < 0.7) c.p[1] = c.p[0];
        if (random_unit(state) < 0.5) c.p[2] = c.p[3];
        break;
    case STRAIGHT:
        c = tailor_cubic_line((tailor_point){0, 0}, (tailor_point){l, 0});
        break;
    default:
        break;
    }
    matrix[0] = matrix[3] = cos(turn);
    matrix[1] = sin(turn);
    matrix[2] = -sin(turn);
    matrix[4] = o.x;
    matrix[5] = o.y;
    tailor_path_affine(&c, 1, matrix, &c);
    return c;
}

static inline double distance_of(tailor_point a, tailor_point b) { return hypot(a.x - b.x, a.y - b.y); }

#define assert_same_point(a, b, within) assert_close(distance_of((a), (b)), 0, (within))

/* A closed smooth outline round the origin, counter-clockwise: `count` points at radii of 1 -/+ `rough` times
 * `radius`, each joint's direction that of the chord across it. */
static inline void random_outline(uint64_t *state, tailor_cubic *path, size_t count, double radius, double rough)
{
    tailor_point at[64];
    for (size_t i = 0; i < count; i++) {
        const double r = radius * random_in(state, 1 - rough, 1 + rough),
                     turn = 6.283185307179586 * (double)i / (double)count;
        at[i] = (tailor_point){r * cos(turn), r * sin(turn)};
    }
    for (size_t i = 0; i < count; i++) {
        const size_t b = (i + count - 1) % count, n = (i + 1) % count, m = (i + 2) % count;
        path[i] = (tailor_cubic){{at[i],
                                  {at[i].x + (at[n].x - at[b].x) / 6, at[i].y + (at[n].y - at[b].y) / 6},
                                  {at[n].x - (at[m].x - at[i].x) / 6, at[n].y - (at[m].y - at[i].y) / 6},
                                  at[n]}};
    }
}

/* A closed path of straight lines. */
static inline void polygon(const tailor_point *at, size_t count, tailor_cubic *path)
{
    for (size_t i = 0; i < count; i++) path[i] = tailor_cubic_line(at[i], at[(i + 1) % count]);
}

#endif

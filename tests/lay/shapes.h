/* Shapes to lay, and an allocator that fails when it is told to. */
#ifndef TESTS_LAY_SHAPES_H
#define TESTS_LAY_SHAPES_H

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <tailorgeom/lay.h>

/* The same numbers every time: a linear congruence (Knuth, MMIX). */
static inline double chance(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return (double)(*state >> 11) * 0x1p-53;
}

static inline size_t polygon(const tailor_point *p, size_t n, tailor_cubic *c)
{
    for (size_t i = 0; i < n; i++)
        c[i] = tailor_cubic_line(p[i], p[(i + 1) % n]);
    return n;
}

static inline size_t rectangle(double width, double height, tailor_cubic *c)
{
    const tailor_point p[4] = { { 0, 0 }, { width, 0 }, { width, height }, { 0, height } };
    return polygon(p, 4, c);
}

/* A star-shaped polygon round a point: concave at most corners. `spread` 0 is round, 0.95 full of slivers. */
static inline size_t star(uint64_t *state, size_t n, double radius, double spread, tailor_cubic *c)
{
    tailor_point p[64];
    for (size_t i = 0; i < n; i++) {
        const double a = 6.283185307179586 * ((double)i + 0.4 * chance(state)) / (double)n;
        const double r = radius * (1 - spread * chance(state));
        p[i] = (tailor_point){ 700 + r * cos(a), -300 + r * sin(a) };
    }
    return polygon(p, n, c);
}

/* A piece with a hollow, of curves: 190 wide, 210 high. */
static inline size_t hollow(tailor_cubic *c)
{
    c[0] = tailor_cubic_line((tailor_point){ 0, 0 }, (tailor_point){ 180, 10 });
    c[1] = (tailor_cubic){ { { 180, 10 }, { 200, 60 }, { 190, 120 }, { 150, 200 } } };
    c[2] = (tailor_cubic){ { { 150, 200 }, { 100, 150 }, { 60, 120 }, { -10, 190 } } };
    c[3] = (tailor_cubic){ { { -10, 190 }, { 70, 100 }, { 60, 50 }, { 0, 0 } } };
    return 4;
}

typedef struct {
    int calls, fail_at, alive;
} memory;

static inline void *give(void *user, size_t bytes)
{
    memory *m = user;
    if (++m->calls == m->fail_at)
        return NULL;
    m->alive++;
    return malloc(bytes);
}

static inline void take(void *user, void *block)
{
    memory *m = user;
    m->alive -= block != NULL;
    free(block);
}

#endif

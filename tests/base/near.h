/* cmocka compares no doubles: this does, and prints both values and their difference. */
#ifndef TESTS_BASE_NEAR_H
#define TESTS_BASE_NEAR_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#define assert_near(value, expected, within) assert_near_at((value), (expected), (within), #value, __FILE__, __LINE__)

static inline void assert_near_at(double value, double expected, double within, const char *what, const char *file,
                                  int line)
{
    double difference = fabs(value - expected);
    if (!(difference <= within)) {
        print_error("%s is %.17g, not %.17g: off by %.3g, allowed %.3g\n", what, value, expected, difference, within);
        _fail(file, line);
    }
}

/* A fixed sequence of even numbers in 0 .. 1 for tests with many cases. */
static inline double next_random(uint64_t *state)
{
    *state ^= *state << 13; /* Marsaglia's xorshift, 2003 */
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return (double)(*state >> 11) / 9007199254740992.0;
}

#endif

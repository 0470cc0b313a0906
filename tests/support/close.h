/* cmocka compares no doubles: these do, and print both values and their difference. */
#ifndef TESTS_SUPPORT_CLOSE_H
#define TESTS_SUPPORT_CLOSE_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

/* |value - expected| <= within; NaN is close to nothing. */
#define assert_close(value, expected, within) assert_close_at((value), (expected), (within), #value, __FILE__, __LINE__)

/* value <= limit; NaN is below nothing. */
#define assert_at_most(value, limit) assert_at_most_at((value), (limit), #value, __FILE__, __LINE__)

static inline void assert_close_at(double value, double expected, double within, const char *what, const char *file,
                                   int line)
{
    const double difference = fabs(value - expected);
    if (!(difference <= within)) {
        print_error("%s is %.17g, not %.17g: off by %.3g, allowed %.3g\n", what, value, expected, difference, within);
        _fail(file, line);
    }
}

static inline void assert_at_most_at(double value, double limit, const char *what, const char *file, int line)
{
    if (!(value <= limit)) {
        print_error("%s is %.17g, allowed %.17g\n", what, value, limit);
        _fail(file, line);
    }
}

#endif

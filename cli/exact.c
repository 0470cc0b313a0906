#include "exact.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FIGURES = 17 }; /* always enough for a double */

/* Any number at all, slowly. The program never calls setlocale: the point is a point. */
static size_t by_trying(double value, char text[EXACT_TEXT])
{
    for (int figures = 1; figures <= FIGURES; figures++) {
        int length = snprintf(text, EXACT_TEXT, "%.*g", figures, value);
        if (strtod(text, NULL) == value)
            return (size_t)length;
    }
    return strlen(text);
}

/* `figures` times 10 to the power of -decimals, in plain figures. */
static size_t write_plain(uint64_t figures, int decimals, bool negative, char text[EXACT_TEXT])
{
    char digits[EXACT_TEXT], *end = digits + sizeof digits, *begin = end, *at = text;
    for (; decimals > 0 && figures % 10 == 0; decimals--)
        figures /= 10;
    do {
        uint64_t rest = figures / 10;
        *--begin = (char)('0' + (figures - 10 * rest));
        figures = rest;
    } while (figures);
    while (end - begin <= decimals)
        *--begin = '0';
    if (negative)
        *at++ = '-';
    size_t whole = (size_t)(end - begin - decimals);
    memcpy(at, begin, whole);
    at += whole;
    if (decimals > 0) {
        *at++ = '.';
        memcpy(at, end - decimals, (size_t)decimals);
        at += decimals;
    }
    *at = '\0';
    return (size_t)(at - text);
}

#ifdef __SIZEOF_INT128__
__extension__ typedef unsigned __int128 wide;

/* The multiple of `step` nearest to n / 2^shift. */
static uint64_t nearest_multiple(wide n, int shift, uint64_t step)
{
    uint64_t whole = (uint64_t)(n >> shift), over = whole % step;
    wide rest = ((wide)over << shift) + (n - ((wide)whole << shift)), half = ((wide)step << shift) >> 1;
    return whole - over + (rest > half || (rest == half && whole / step & 1) ? step : 0);
}

static wide power_of_ten(int exponent)
{
    static const uint64_t powers[] = {1,       10,       100,       1000,       10000,       100000,
                                      1000000, 10000000, 100000000, 1000000000, 10000000000, 100000000000};
    int most = (int)(sizeof powers / sizeof powers[0]) - 1, first = exponent < most ? exponent : most;
    return (wide)powers[first] * powers[exponent - first];
}

/* value = whole * 2^-shift exactly; times a power of ten it has seventeen figures before the point and fits 128 bits. A
 * decimal reads back as value when it is nearer to it than half the way to the next double. */
static size_t by_halves(double value, uint64_t whole, int shift, int decimals, char text[EXACT_TEXT])
{
    static const uint64_t steps[] = {100, 10, 1}; /* fifteen figures or fewer, sixteen, seventeen */
    wide scale = power_of_ten(decimals), n = whole * scale;
    if (n >> shift >= UINT64_C(100000000000000000)) { /* eighteen */
        scale = power_of_ten(--decimals);
        n = whole * scale;
    }
    uint64_t figures = 0;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
        figures = nearest_multiple(n, shift, steps[i]);
        wide there = (wide)figures << shift, off = there > n ? there - n : n - there;
        if (2 * off < scale)
            break;
    }
    return write_plain(figures, decimals, signbit(value), text);
}

size_t exact_number(double value, char text[EXACT_TEXT])
{
    const uint64_t one = UINT64_C(1) << 52;
    double size = fabs(value);
    uint64_t bits;
    if (size == 0)
        return write_plain(0, 0, signbit(value), text);
    if (!(size >= 1e-5 && size < 1e15))
        return by_trying(value, text);
    memcpy(&bits, &size, sizeof bits); /* IEEE 754: 1.fraction times 2 to the power of exponent */
    int exponent = (int)(bits >> 52) - 1023;
    uint64_t fraction = bits & (one - 1);
    if (fraction == 0) /* a power of two: the next double below is nearer */
        return by_trying(value, text);
    int decimals = FIGURES - 1 - (int)floor(exponent * 0.30103); /* seventeen figures or eighteen */
    return by_halves(value, one | fraction, 52 - exponent, decimals, text);
}
#else
size_t exact_number(double value, char text[EXACT_TEXT]) { return by_trying(value, text); }
#endif

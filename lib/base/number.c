#include "number.h"

#include <math.h>
#include <string.h>

enum { FIGURES = 17 /* always enough for a double */, LIMBS = 40 /* of 32 bits: 10^324 times 2^53, and more */ };

/* ---- any double, by whole numbers of any size: free-format digits after Steele and White (1990) */

typedef struct large {
    int count;
    uint32_t limb[LIMBS]; /* the lowest first */
} large;

static void multiply(large *n, uint32_t by)
{
    uint64_t carry = 0;
    for (int i = 0; i < n->count; i++) {
        carry += (uint64_t)n->limb[i] * by;
        n->limb[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry)
        n->limb[n->count++] = (uint32_t)carry;
}

/* figures times 2 to the power of `shift`. */
static large large_of(uint64_t figures, int shift)
{
    large n = {0};
    n.count = shift / 32;
    for (; figures > 0; figures >>= 32)
        n.limb[n.count++] = (uint32_t)figures;
    multiply(&n, (uint32_t)1 << shift % 32);
    return n;
}

static uint32_t limb(const large *n, int place) { return place < n->count ? n->limb[place] : 0; }

/* The sign of a + b - c. */
static int compare_sum(const large *a, const large *b, const large *c)
{
    int64_t rest = 0; /* of the higher limbs, in units of this one; beyond 2 of them lower ones cannot matter */
    int most = a->count > b->count ? a->count : b->count;
    for (int i = (most > c->count ? most : c->count) - 1; i >= 0; i--) {
        rest = rest * ((int64_t)1 << 32) + (int64_t)limb(a, i) + (int64_t)limb(b, i) - (int64_t)limb(c, i);
        if (rest > 2 || rest < -2)
            return rest > 0 ? 1 : -1;
    }
    return rest > 0 ? 1 : rest < 0 ? -1 : 0;
}

static void subtract(large *n, const large *what)
{
    int64_t carry = 0;
    for (int i = 0; i < n->count; i++) {
        carry += (int64_t)n->limb[i] - (int64_t)limb(what, i);
        n->limb[i] = (uint32_t)(carry & 0xFFFFFFFF);
        carry = carry < 0 ? -1 : 0;
    }
}

static const large NOTHING = {0};

/* whole * 2^exponent. A decimal reads back as it when it is nearer than half the way to the next double above and
 * below; exactly half will do where the double is even. All in units of 1 / one. */
static tailor_in_decimal by_digits(uint64_t whole, int exponent)
{
    int lopsided = whole == UINT64_C(1) << 52 && exponent > -1074; /* the next double below is nearer */
    int up = exponent > 0 ? exponent : 0, down = exponent < 0 ? -exponent : 0;
    large rest = large_of(whole, up + 1 + lopsided), one = large_of(1, down + 1 + lopsided);
    large above = large_of(1, up + lopsided), below = large_of(1, up);
    int even = whole % 2 == 0, power = 0; /* figures so far, times 10^power, is what was taken off */
    for (; compare_sum(&rest, &above, &one) >= (even ? 0 : 1); power++)
        multiply(&one, 10);
    tailor_in_decimal found = {0, power, 0};
    for (int i = 0; i < FIGURES; i++) {
        int digit = 0;
        multiply(&rest, 10);
        multiply(&above, 10);
        multiply(&below, 10);
        for (; compare_sum(&rest, &NOTHING, &one) >= 0; digit++)
            subtract(&rest, &one);
        found.figures = found.figures * 10 + (uint64_t)digit;
        found.exponent--;
        int low = compare_sum(&rest, &NOTHING, &below) < (even ? 1 : 0);
        int high = compare_sum(&rest, &above, &one) >= (even ? 0 : 1);
        int half = compare_sum(&rest, &rest, &one);
        if (found.figures == 0)
            i--; /* leading zeros of a small number are no figures */
        if (!low && !high)
            continue;
        found.figures += high && (!low || half > 0 || (half == 0 && digit % 2));
        break;
    }
    return found;
}

/* ---- the usual sizes, by 128 bits at once */

#ifdef __SIZEOF_INT128__
__extension__ typedef unsigned __int128 wide;

/* The multiple of `step` nearest to n / 2^shift. */
static uint64_t nearest_multiple(wide n, int shift, uint64_t step)
{
    uint64_t whole = (uint64_t)(n >> shift), over = whole % step;
    wide rest = ((wide)over << shift) + (n - ((wide)whole << shift)), half = ((wide)step << shift) >> 1;
    return whole - over + (rest > half || (rest == half && whole / step % 2) ? step : 0);
}

static wide power_of_ten(int exponent)
{
    static const uint64_t powers[] = {1,       10,       100,       1000,       10000,       100000,
                                      1000000, 10000000, 100000000, 1000000000, 10000000000, 100000000000};
    int most = (int)(sizeof powers / sizeof powers[0]) - 1, first = exponent < most ? exponent : most;
    return (wide)powers[first] * powers[exponent - first];
}

/* value = whole * 2^-shift exactly; times a power of ten it has seventeen figures before the point and fits 128 bits.
 *  */
static tailor_in_decimal by_halves(uint64_t whole, int shift, int decimals)
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
    return (tailor_in_decimal){figures, -decimals, 0};
}
#endif

tailor_in_decimal tailor_in_decimal_of(double value)
{
    const uint64_t one = UINT64_C(1) << 52;
    tailor_in_decimal found = {0, 0, signbit(value) != 0};
    double size = fabs(value);
    uint64_t bits;
    if (size == 0)
        return found;
    memcpy(&bits, &size, sizeof bits); /* IEEE 754: 1.fraction times 2 to the power of exponent; 0.fraction when tiny */
    int exponent = (int)(bits >> 52);
    uint64_t fraction = bits & (one - 1), whole = exponent > 0 ? one | fraction : fraction;
    exponent = (exponent > 0 ? exponent : 1) - 1075;
#ifdef __SIZEOF_INT128__
    if (size >= 1e-5 && size < 1e15 && fraction != 0) { /* not a power of two, below which doubles are nearer */
        int bit = exponent + 52, tens = bit * 30103; /* the place of the highest bit; a hundred thousand log10 of 2 */
        tens = tens >= 0 ? tens / 100000 : -((-tens + 99999) / 100000);
        found = by_halves(whole, -exponent, FIGURES - 1 - tens);
    } else
#endif
        found = by_digits(whole, exponent);
    for (; found.figures % 10 == 0; found.exponent++)
        found.figures /= 10;
    found.negative = signbit(value) != 0;
    return found;
}

/* ---- as text */

/* The figures, the first first; how many. */
static int figures_of(uint64_t figures, char digits[FIGURES + 3])
{
    char backwards[FIGURES + 3];
    int count = 0;
    do {
        backwards[count++] = (char)('0' + figures % 10);
        figures /= 10;
    } while (figures > 0);
    for (int i = 0; i < count; i++)
        digits[i] = backwards[count - 1 - i];
    return count;
}

static void add_zeros(tailor_in_text *text, int count)
{
    for (; count > 0; count--)
        tailor_in_text_add(text, "0");
}

/* To the last decimal that is written, halves away from zero. */
static tailor_in_decimal rounded(tailor_in_decimal number)
{
    for (; number.exponent < -TAILOR_IN_MOST_DECIMALS - 1; number.exponent++)
        number.figures /= 10;
    number.figures = (number.figures + 5) / 10;
    for (number.exponent++; number.figures > 0 && number.figures % 10 == 0; number.exponent++)
        number.figures /= 10;
    return number.figures > 0 ? number : (tailor_in_decimal){0, 0, 0};
}

void tailor_in_text_add_plain(tailor_in_text *text, tailor_in_decimal number)
{
    if (number.exponent < -TAILOR_IN_MOST_DECIMALS)
        number = rounded(number);
    char digits[FIGURES + 3];
    int count = figures_of(number.figures, digits), before = count + number.exponent; /* digits before the point */
    if (number.negative)
        tailor_in_text_add(text, "-");
    if (number.exponent >= 0) {
        tailor_in_text_add_bytes(text, digits, (size_t)count);
        add_zeros(text, number.figures ? number.exponent : 0);
        return;
    }
    if (before > 0)
        tailor_in_text_add_bytes(text, digits, (size_t)before);
    tailor_in_text_add(text, before > 0 ? "." : "0.");
    add_zeros(text, -before);
    tailor_in_text_add_bytes(text, digits + (before > 0 ? before : 0), (size_t)(count - (before > 0 ? before : 0)));
}

static void add_with_exponent(tailor_in_text *text, tailor_in_decimal number)
{
    char digits[FIGURES + 3];
    int count = figures_of(number.figures, digits), power = count - 1 + number.exponent;
    tailor_in_text_add(text, number.negative ? "-" : "");
    tailor_in_text_add_bytes(text, digits, 1);
    tailor_in_text_add(text, count > 1 ? "." : "");
    tailor_in_text_add_bytes(text, digits + 1, (size_t)(count - 1));
    tailor_in_text_add(text, power < 0 ? "e-" : "e+");
    tailor_in_text_add(text, power > -10 && power < 10 ? "0" : "");
    tailor_in_text_add_whole(text, power < 0 ? -power : power);
}

tailor_status tailor_in_text_give(const tailor_in_text *built, char *text, size_t capacity, size_t *needed)
{
    if (needed)
        *needed = built->length;
    if (!text)
        return TAILOR_OK;
    if (capacity <= built->length)
        return TAILOR_TOO_SMALL;
    memcpy(text, built->buffer, built->length + 1);
    return TAILOR_OK;
}

tailor_status tailor_number_write(double value, char *text, size_t capacity, size_t *needed)
{
    char buffer[32];
    tailor_in_text built = tailor_in_text_begin(buffer, sizeof buffer);
    if (!text && (capacity > 0 || !needed))
        return TAILOR_BAD_ARGUMENT;
    if (!isfinite(value))
        return TAILOR_NOT_FINITE;
    tailor_in_decimal number = tailor_in_decimal_of(value);
    char digits[FIGURES + 3];
    int count = figures_of(number.figures, digits), power = count - 1 + number.exponent;
    if (number.figures == 0 || (power >= -5 && (power < 15 || power < count)))
        tailor_in_text_add_plain(&built, number);
    else
        add_with_exponent(&built, number);
    return tailor_in_text_give(&built, text, capacity, needed);
}

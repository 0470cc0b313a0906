#include "length_read.h"

#include <math.h>
#include <stdint.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "../base/fault.h"
#include "../base/number.h"

/* A written number as a fraction of whole numbers: over / under / 10^tens. */
typedef struct fraction {
    uint64_t over, under;
    int tens; /* only with `over` below 10^17 and `under` 10^18: more decimals than `under` has room for */
} fraction;

/* How many of the wanted unit one of this unit is: over / under, small enough that nothing here overflows. */
typedef struct unit_row {
    const char *name;
    fraction size;
} unit_row;

/* An inch is 25.4 mm. Its marks: ", the double prime, and the quotes that text programs make of ". */
static const unit_row length_units[] = {
    {"mm", {1, 1, 0}},
    {"cm", {10, 1, 0}},
    {"in", {127, 5, 0}},
    {"\"", {127, 5, 0}},
    {"\xE2\x80\xB3", {127, 5, 0}},
    {"\xE2\x80\x9D", {127, 5, 0}},
    {"\xE2\x80\x9C", {127, 5, 0}},
};
static const unit_row angle_units[] = {{"deg", {1, 1, 0}}, {"\xC2\xB0", {1, 1, 0}}};

enum { MOST_DIGITS = 17, MOST_UNDER = 18, MOST_FRACTION_DIGITS = 4 };

#define LENGTHS ": write it like 102.5 cm, 1025 mm or 40 3/8 in"
typedef enum wrong { FINE, NOT_A_NUMBER, COMMA, POINT, TOO_LONG, FRACTION, FRACTION_UNIT, UNIT, LEFT_OVER } wrong;

/* What to say of a length, and of any other number. */
static const char *const sentences[][2] = {
    [NOT_A_NUMBER] = {"this is not a length" LENGTHS,
                      "this is not a number: write digits with at most one decimal point"},
    [COMMA] = {"a comma is not read: write a decimal point, as in 102.5 cm",
               "a comma is not read: write a decimal point"},
    [POINT] = {"a decimal point needs a digit on either side: write 0.5, not .5 or 5.",
               "a decimal point needs a digit on either side: write 0.5, not .5 or 5."},
    [TOO_LONG] = {"the number has too many digits: 17 at most are read",
                  "the number has too many digits: 17 at most are read"},
    [FRACTION] = {"after a whole number comes a fraction less than one, as in 40 3/8 in",
                  "after a whole number comes a fraction less than one, such as 3/8"},
    [FRACTION_UNIT] = {"a fraction needs its unit, as in 40 3/8 in", "a fraction needs its unit"},
    [UNIT] = {"after the number stands no unit of length" LENGTHS, "after the number stands another unit"},
    [LEFT_OVER] = {"something is left over after the unit" LENGTHS, "something is left over after the unit"},
};

static int is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

static const char *skip_spaces(const char *text)
{
    return text + strspn(text, " \t");
}

/* Digits into a number: how many there were, -1 if they are more than `most` (zeros in front not counted). */
static int read_digits(const char **text, int most, uint64_t *number)
{
    int count = 0, figures = 0;
    for (; is_digit(**text); (*text)++, count++) {
        if (*number > 0 || **text != '0')
            figures++;
        if (figures > most)
            return -1;
        *number = *number * 10 + (uint64_t)(**text - '0');
    }
    return count;
}

/* "3/8" after a whole number. */
static wrong read_fraction(const char **text, uint64_t whole, fraction *number)
{
    uint64_t over = 0, under = 0;
    if (read_digits(text, MOST_FRACTION_DIGITS, &over) < 1 || **text != '/')
        return FRACTION;
    (*text)++;
    if (read_digits(text, MOST_FRACTION_DIGITS, &under) < 1 || over >= under)
        return FRACTION;
    number->over = whole * under + over;
    number->under = under;
    return FINE;
}

/* ".75" after a whole number. */
static wrong read_decimals(const char **text, fraction *number)
{
    const char *first = ++*text;
    while (is_digit(**text)) {
        if (*text - first == TAILOR_IN_MOST_DECIMALS || number->over >= UINT64_C(10000000000000000))
            return TOO_LONG;
        number->over = number->over * 10 + (uint64_t)(**text - '0');
        if (*text - first < MOST_UNDER)
            number->under *= 10;
        else
            number->tens++;
        (*text)++;
    }
    return *text == first ? POINT : FINE;
}

static int is_letter(char letter)
{
    return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z');
}

static char small_letter(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

/* Length of the unit if the text begins with it, not regarding the case of letters, and does not run on into a longer
 * word; else 0. */
static size_t unit_here(const char *text, const char *name)
{
    size_t length = strlen(name);
    for (size_t i = 0; i < length; i++) {
        if (small_letter(text[i]) != small_letter(name[i]))
            return 0;
    }
    return is_letter(name[length - 1]) && is_letter(text[length]) ? 0 : length;
}

static wrong read_written(const char **text, const char *unit, fraction *number, int *broken)
{
    const char *begin = *text, *after;
    *number = (fraction){0, 1, 0};
    *broken = 0;
    if (*begin == '.' || *begin == ',')
        return *begin == '.' && is_digit(begin[1]) ? POINT : *begin == ',' ? COMMA : NOT_A_NUMBER;
    if (!is_digit(*begin))
        return NOT_A_NUMBER;
    if (read_digits(text, MOST_DIGITS, &number->over) < 0)
        return TOO_LONG;
    if (**text == ',')
        return COMMA;
    if (**text == '.') {
        wrong found = read_decimals(text, number);
        return found != FINE ? found : **text == ',' ? COMMA : **text == '/' ? FRACTION : FINE;
    }
    after = skip_spaces(*text);
    if (**text == '/') {
        *broken = 1;
        *text = begin;
        return read_fraction(text, 0, number);
    }
    if (after > *text && is_digit(*after) && !unit_here(after, unit)) { /* 5 1/m is no fraction */
        uint64_t whole = number->over;
        *broken = 1;
        *text = after;
        return whole >= UINT64_C(1000000000) ? TOO_LONG : read_fraction(text, whole, number);
    }
    return FINE;
}

static wrong read_unit(const char **text, const char *unit, int broken, fraction *size)
{
    const unit_row itself[] = {{unit, {1, 1, 0}}};
    const unit_row *units = itself;
    size_t count = 1;
    if (strcmp(unit, "mm") == 0) {
        units = length_units;
        count = sizeof length_units / sizeof length_units[0];
    } else if (strcmp(unit, "deg") == 0) {
        units = angle_units;
        count = sizeof angle_units / sizeof angle_units[0];
    }
    *size = (fraction){1, 1, 0};
    if (**text == '\0')
        return broken ? FRACTION_UNIT : FINE;
    for (size_t i = 0; i < count; i++) {
        size_t length = unit_here(*text, units[i].name);
        if (length > 0) {
            *text = skip_spaces(*text + length);
            *size = units[i].size;
            return **text == '\0' ? FINE : LEFT_OVER;
        }
    }
    return UNIT;
}

/* The double nearest to over / under, ties to even; over > 0, 0 < under < 2^63. Long division yields at least 55
 * bits and whether anything is left, so that turning the whole number into a double is the only rounding. */
static double nearest(uint64_t over, uint64_t under)
{
    uint64_t quotient = over / under, rest = over % under;
    int shift = 0;
    for (; quotient < (UINT64_C(1) << 54); shift--) {
        rest *= 2;
        quotient *= 2;
        if (rest >= under) {
            rest -= under;
            quotient++;
        }
    }
    return ldexp((double)(quotient | (rest != 0)), shift);
}

/* A whole number of two halves. */
typedef struct wide {
    uint64_t high, low;
} wide;

static wide sum(wide a, wide b)
{
    uint64_t low = a.low + b.low;
    return (wide){a.high + b.high + (low < a.low), low};
}

static int less(wide a, wide b) { return a.high != b.high ? a.high < b.high : a.low < b.low; }

static wide difference(wide a, wide b) { return (wide){a.high - b.high - (a.low < b.low), a.low - b.low}; }

/* The same of over / under / 10^tens, which is less than one. */
static double nearest_small(uint64_t over, uint64_t under, int tens)
{
    wide all = {0, under}, rest = {0, over};
    for (; tens > 0; tens--) {
        wide four = sum(sum(all, all), sum(all, all));
        all = sum(sum(four, four), sum(all, all));
    }
    uint64_t quotient = 0;
    int shift = 0;
    for (; quotient < (UINT64_C(1) << 54); shift--) {
        rest = sum(rest, rest);
        quotient *= 2;
        if (!less(rest, all)) {
            rest = difference(rest, all);
            quotient++;
        }
    }
    return ldexp((double)(quotient | (rest.high != 0 || rest.low != 0)), shift);
}

const char *tailor_in_number_read(const char *text, const char *unit, double *value)
{
    fraction number, size;
    int negative, broken;
    wrong found;
    text = skip_spaces(text);
    negative = *text == '-';
    if (*text == '-' || *text == '+')
        text++;
    found = read_written(&text, unit, &number, &broken);
    if (found == FINE) {
        text = skip_spaces(text);
        found = read_unit(&text, unit, broken, &size);
    }
    if (found != FINE)
        return sentences[found][strcmp(unit, "mm") != 0];
    if (number.over == 0) {
        *value = 0.0;
    } else {
        /* less than 1e17 * 127 over 1e18 * 5: the one is below 2^64, the other below 2^63 */
        uint64_t over = number.over * size.over, under = number.under * size.under;
        double amount = number.tens ? nearest_small(over, under, number.tens) : nearest(over, under);
        *value = negative ? -amount : amount;
    }
    return NULL;
}

tailor_status tailor_length_read(const char *text, double *mm, tailor_fault *fault)
{
    const char *problem;
    if (!text || !mm)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "text and mm must not be NULL");
    problem = tailor_in_number_read(text, "mm", mm);
    return problem ? tailor_in_fault_plain(fault, TAILOR_BAD_LENGTH, problem) : TAILOR_OK;
}

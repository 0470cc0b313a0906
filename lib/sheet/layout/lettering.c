#include "lettering.h"

#include <tailorgeom/order.h>

#include <math.h>
#include <string.h>

/* Advance widths of DejaVu Sans, upright and bold, in thousandths of the size, from U+0020 to U+007E. */
static const short advance[2][95] = {
    {318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
     636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
     575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
     611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
     278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838},
    {348, 456,  521, 838, 696, 1002, 872, 306, 457, 457, 523, 838, 380, 415,  380, 365, 696, 696,  696,
     696, 696,  696, 696, 696, 696,  696, 400, 400, 838, 838, 838, 580, 1000, 774, 762, 734, 830,  683,
     683, 821,  837, 372, 372, 775,  637, 995, 837, 850, 733, 850, 770, 720,  682, 812, 774, 1103, 771,
     724, 725,  457, 365, 457, 838,  500, 500, 675, 716, 593, 716, 678, 435,  716, 712, 343, 343,  665,
     343, 1042, 712, 687, 716, 716,  493, 595, 478, 712, 652, 924, 645, 652,  582, 712, 365, 712,  838},
};

enum { REPLACEMENT = 0xFFFD };

static int allowed(unsigned c)
{
    return c >= 0x20 && c != 0x7F && !(c >= 0x80 && c < 0xA0) && !(c >= 0xD800 && c < 0xE000) &&
           (c & 0xFFFE) != 0xFFFE && c < 0x110000;
}

/** Decode one character of a text that may be anything; the pointer moves over what was read, at least one byte. */
static unsigned decode(const unsigned char **text)
{
    static const unsigned least[] = {0, 0x80, 0x800, 0x10000};
    const unsigned char *at = *text;
    unsigned first = *at++;
    int more = first < 0x80 ? 0 : first >= 0xF0 && first < 0xF8 ? 3 : first >= 0xE0 ? 2 : first >= 0xC0 ? 1 : -1;
    if (first >= 0xF8)
        more = -1;
    unsigned c = more <= 0 ? first : first & (0x3Fu >> more);
    int i = 0;
    for (; i < more && (*at & 0xC0) == 0x80; i++)
        c = c << 6 | (*at++ & 0x3Fu);
    *text = at;
    return more < 0 || i < more || c < least[more] || !allowed(c) ? REPLACEMENT : c;
}

static size_t encode(unsigned c, char bytes[4])
{
    static const unsigned char lead[] = {0, 0xC0, 0xE0, 0xF0};
    size_t more = c < 0x80 ? 0 : c < 0x800 ? 1 : c < 0x10000 ? 2 : 3;
    bytes[0] = (char)(lead[more] | c >> 6 * more);
    for (size_t i = 1; i <= more; i++)
        bytes[i] = (char)(0x80 | (c >> 6 * (more - i) & 0x3F));
    return more + 1;
}

size_t tailor_in_text_clean(const char *text, char *clean)
{
    const unsigned char *at = (const unsigned char *)(text ? text : "");
    size_t bytes = 0;
    while (*at) {
        char one[4];
        size_t n = encode(decode(&at), one);
        if (clean)
            memcpy(clean + bytes, one, n);
        bytes += n;
    }
    if (clean)
        clean[bytes] = 0;
    return bytes;
}

unsigned tailor_in_text_next(const char **text)
{
    if (!**text)
        return 0;
    const unsigned char *at = (const unsigned char *)*text;
    unsigned c = decode(&at);
    *text = (const char *)at;
    return c;
}

static double width_of(unsigned c, int bold)
{
    if (c >= 0x20 && c < 0x7F)
        return advance[bold != 0][c - 0x20] / 1000.0;
    return c < 0x1100 ? 0.8 : 1.04; /* a mean of accented, Greek and Cyrillic letters; a square for what lies beyond */
}

double tailor_in_text_width(const char *text, double size, int bold)
{
    double width = 0;
    for (unsigned c; (c = tailor_in_text_next(&text));)
        width += width_of(c, bold);
    return width * size;
}

void tailor_in_text_fit(const char *text, double size, int bold, double width, char *fitted, size_t capacity)
{
    static const char ellipsis[] = "\xE2\x80\xA6";
    int fits = tailor_in_text_width(text, size, bold) <= width && tailor_in_text_clean(text, NULL) < capacity;
    double left = width / size - (fits ? 0 : 1.04);
    size_t bytes = 0;
    const char *at = text;
    for (unsigned c; (c = tailor_in_text_next(&at));) {
        char one[4];
        size_t n = encode(c, one);
        left -= width_of(c, bold);
        if (!fits && (left < 0 || bytes + n + sizeof ellipsis > capacity))
            break;
        memcpy(fitted + bytes, one, n);
        bytes += n;
    }
    if (!fits) {
        memcpy(fitted + bytes, ellipsis, sizeof ellipsis - 1);
        bytes += sizeof ellipsis - 1;
    }
    fitted[bytes] = 0;
}

size_t tailor_in_number_write(char text[32], double value, int decimals)
{
    static const double units[] = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    char digits[24];
    size_t bytes = 0;
    int count = 0;
    const long long whole = fabs(value) < 1e9 ? llround(value * units[decimals]) : 0;
    unsigned long long n = (unsigned long long)(whole < 0 ? -whole : whole);
    for (; decimals && n % 10 == 0; decimals--) /* needless zeros */
        n /= 10;
    do {
        digits[count++] = (char)('0' + n % 10);
        n /= 10;
    } while (n || count <= decimals);
    if (whole < 0)
        text[bytes++] = '-';
    while (count) {
        if (count == decimals)
            text[bytes++] = '.';
        text[bytes++] = digits[--count];
    }
    text[bytes] = 0;
    return bytes;
}

void tailor_in_words(const char *name, const char *prefix, char *words, size_t capacity)
{
    size_t skip = strlen(prefix), i = 0;
    if (strncmp(name, prefix, skip) != 0)
        skip = 0;
    for (; name[skip + i] && i + 1 < capacity; i++)
        words[i] = name[skip + i] == '_' ? ' ' : name[skip + i];
    words[i] = 0;
}

void tailor_in_length_words(double mm, int print, char text[48])
{
    text[0] = 0;
    if (tailor_length_write(mm, print, text, 40, NULL) == TAILOR_OK)
        strcat(text, print == TAILOR_PRINT_MM ? " mm" : " in");
}

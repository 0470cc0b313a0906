#include "text.h"

#include <math.h>
#include <string.h>

tailor_in_text tailor_in_text_begin(char *buffer, size_t capacity)
{
    tailor_in_text text = {buffer, buffer ? capacity : 0, 0, 0};
    if (text.capacity > 0)
        buffer[0] = '\0';
    return text;
}

void tailor_in_text_add_bytes(tailor_in_text *text, const char *more, size_t count)
{
    size_t fits = count;
    if (!text->full && text->length + count >= text->capacity) {
        fits = text->capacity > text->length ? text->capacity - text->length - 1 : 0;
        while (fits > 0 && ((unsigned char)more[fits] & 0xC0) == 0x80)
            fits--;
    }
    if (!text->full && text->capacity > 0) {
        memcpy(text->buffer + text->length, more, fits);
        text->buffer[text->length + fits] = '\0';
    }
    if (fits < count)
        text->full = 1;
    text->length += count;
}

void tailor_in_text_add(tailor_in_text *text, const char *more)
{
    tailor_in_text_add_bytes(text, more, strlen(more));
}

static void add_digits(tailor_in_text *text, uint64_t number, int least)
{
    char digits[20];
    size_t place = sizeof digits;
    do {
        digits[--place] = (char)('0' + number % 10);
        number /= 10;
    } while (number > 0 || sizeof digits - place < (size_t)least);
    tailor_in_text_add_bytes(text, digits + place, sizeof digits - place);
}

void tailor_in_text_add_whole(tailor_in_text *text, int64_t number)
{
    if (number < 0)
        tailor_in_text_add(text, "-");
    add_digits(text, number < 0 ? 0 - (uint64_t)number : (uint64_t)number, 1);
}

/* `scaled` is the number times 10^decimals. */
static void add_decimal(tailor_in_text *text, uint64_t scaled, int decimals)
{
    uint64_t one = 1;
    while (decimals > 0 && scaled % 10 == 0) {
        scaled /= 10;
        decimals--;
    }
    for (int i = 0; i < decimals; i++)
        one *= 10;
    add_digits(text, scaled / one, 1);
    if (decimals > 0) {
        tailor_in_text_add(text, ".");
        add_digits(text, scaled % one, decimals);
    }
}

/* Four figures and an exponent; size > 0 and finite. */
static void add_scientific(tailor_in_text *text, double size)
{
    int exponent = 0;
    uint64_t scaled;
    for (; size >= 10.0; exponent++)
        size /= 10.0;
    for (; size < 1.0; exponent--)
        size *= 10.0;
    scaled = (uint64_t)(size * 1000.0 + 0.5);
    if (scaled == 10000) {
        scaled = 1000;
        exponent++;
    }
    add_decimal(text, scaled, 3);
    tailor_in_text_add(text, "e");
    tailor_in_text_add_whole(text, exponent);
}

void tailor_in_text_add_number(tailor_in_text *text, double number, int decimals)
{
    double size = fabs(number), scale = 1.0;
    uint64_t scaled;
    if (isnan(number)) {
        tailor_in_text_add(text, "nan");
        return;
    }
    for (int i = 0; i < decimals; i++)
        scale *= 10.0;
    scaled = size < 1e9 ? (uint64_t)(size * scale + 0.5) : 1;
    if (number < 0.0 && size > 0.0)
        tailor_in_text_add(text, "-");
    if (isinf(size))
        tailor_in_text_add(text, "inf");
    else if (size >= 1e9 || (scaled == 0 && size > 0.0))
        add_scientific(text, size);
    else
        add_decimal(text, scaled, decimals);
}

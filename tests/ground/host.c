/* host LOCALE: a program that lives in a locale of its own and uses the libraries. What they say must not depend on it.
 * Prints bits, sentences and a sheet, so that two runs can be compared byte by byte. */
#include <inttypes.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/coat.h>
#include <tailorgeom/sheet.h>
#include "orders.h"

static void bits(double value)
{
    uint64_t word;
    memcpy(&word, &value, sizeof word);
    printf("%016" PRIx64 "\n", word);
}

static int to_stdout(void *user, const void *data, size_t bytes)
{
    (void)user;
    return fwrite(data, 1, bytes, stdout) != bytes;
}

int main(int argc, char **argv)
{
    static const char *const typed[] = {
        "102.5 cm", "1025 mm", "40 3/8 in", "40 3/8\"", "102,5 cm", "40.5 in", "1e3", ""
    };
    double client[TAILOR_FIELD_COUNT];
    char text[64];
    tailor_fault fault;
    tailor_coat *coat = NULL;
    tailor_page *page = NULL;
    if (argc != 2 || !setlocale(LC_ALL, argv[1])) {
        fprintf(stderr, "no such locale\n");
        return 3;
    }
    fprintf(stderr, "decimal point %s\n", localeconv()->decimal_point);

    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        double mm = 0;
        size_t needed;
        memset(&fault, 0, sizeof fault);
        int status = tailor_length_read(typed[i], &mm, &fault);
        printf("%s: %s %s\n", typed[i], tailor_status_name(status), fault.sentence);
        bits(mm);
        for (int print = 1; print <= 16; print++)
            if (tailor_length_write(mm, print, text, sizeof text, &needed) == TAILOR_OK)
                puts(text);
    }
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 4012.5;
    int status = tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault);
    printf("%s %s\n", tailor_status_name(status), fault.sentence);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016.5;
    status = tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_SECTION, &coat, &fault);
    for (int i = 0; tailor_coat_caution(coat, i, &fault); i++)
        puts(fault.sentence);
    if (status == TAILOR_OK)
        status = tailor_page_new(NULL, &page, &fault);
    if (status == TAILOR_OK)
        status = tailor_page_set(page, TAILOR_PAGE_UNITS, TAILOR_PRINT_INCH_8, &fault);
    if (status == TAILOR_OK)
        puts(tailor_status_name(tailor_page_set(page, TAILOR_PAGE_FORMAT, 1.5, &fault)));
    if (status == TAILOR_OK)
        puts(fault.sentence); /* "1.5" in any locale */
    if (status == TAILOR_OK)
        status = tailor_sheet_draw_pattern(tailor_coat_pattern(coat), page, to_stdout, NULL, &fault);
    if (status != TAILOR_OK) {
        fprintf(stderr, "%s\n", fault.sentence);
        return 1;
    }
    for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++)
        bits(tailor_coat_quantity(coat, i));
    tailor_page_free(page);
    tailor_coat_free(coat);
    return 0;
}

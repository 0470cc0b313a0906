/* A coat drawn at true size into coat.svg, through a writer of the program's own.
 *
 *     cc sheet.c $(pkg-config --cflags --libs tailorgeom-sheet) && ./a.out
 */
#include <stdio.h>
#include <tailorgeom/coat.h>
#include <tailorgeom/sheet.h>

static int to_file(void *user, const void *data, size_t bytes)
{
    FILE *file = user;
    return fwrite(data, 1, bytes, file) != bytes;
}

int main(void)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    tailor_page *page = NULL;
    tailor_fault fault;

    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_LAPEL] = TAILOR_LAPEL_PEAK;
    FILE *file = fopen("coat.svg", "wb");
    if (!file)
        return 1;
    tailor_status status =
        tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, &fault);
    if (status == TAILOR_OK)
        status = tailor_page_new(NULL, &page, &fault);
    if (status == TAILOR_OK)
        status = tailor_page_set_text(page, TAILOR_PAGE_TITLE, "Order 12", &fault);
    if (status == TAILOR_OK)
        status = tailor_sheet_draw_coat(coat, page, to_file, file, &fault);
    tailor_page_free(page);
    tailor_coat_free(coat);
    if (fclose(file) != 0)
        return 1;
    if (status != TAILOR_OK)
        fprintf(stderr, "%s\n", fault.sentence);
    return status != TAILOR_OK;
}

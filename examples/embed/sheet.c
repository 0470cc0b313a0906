/* A coat drawn at true size into coat.svg, through a writer of the program's own.
 *
 *     cc sheet.c $(pkg-config --cflags --libs tailorgeom-sheet) && ./a.out
 */
#include <stdio.h>
#include <tailorgeom/sheet.h>

static int to_file(void *user, const void *data, size_t bytes)
{
    FILE *file = user;
    return fwrite(data, 1, bytes, file) != bytes;
}

int main(void)
{
    double client[TAILOR_FIELD_COUNT], fields[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_pattern *coat = NULL;
    tailor_page *page = NULL;
    tailor_fault fault;

    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_LAPEL] = TAILOR_LAPEL_PEAK;
    FILE *file = fopen("coat.svg", "wb");
    if (!file)
        return 1;
    tailor_status status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0,
                                                fields, TAILOR_FIELD_COUNT, NULL, 0,
                                                constants, TAILOR_CONSTANT_COUNT, &fault);
    if (status == TAILOR_OK)
        status = tailor_coat_draft(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, &fault);
    if (status == TAILOR_OK)
        status = tailor_page_new(NULL, &page, &fault);
    if (status == TAILOR_OK)
        status = tailor_page_set_text(page, TAILOR_PAGE_TITLE, "Order 12", &fault);
    if (status == TAILOR_OK)
        status = tailor_sheet_draw_pattern(coat, page, to_file, file, &fault);
    tailor_page_free(page);
    tailor_pattern_free(coat);
    if (fclose(file) != 0)
        return 1;
    if (status != TAILOR_OK)
        fprintf(stderr, "%s\n", fault.sentence);
    return status != TAILOR_OK;
}

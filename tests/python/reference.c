/* The same orders through the C library, for test_python_same.py: reads rows of TAILOR_FIELD_COUNT doubles and writes
 * for each the status and TAILOR_QUANTITY_COUNT doubles, all as bytes. */
#include <stdio.h>
#include <string.h>
#include <tailorgeom/coat.h>

int main(void)
{
    double client[TAILOR_FIELD_COUNT];
    while (fread(client, sizeof client, 1, stdin) == 1) {
        double out[TAILOR_QUANTITY_COUNT + 1];
        tailor_coat *coat = NULL;
        tailor_fields_clear(out, TAILOR_QUANTITY_COUNT + 1);
        out[0] = tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_SECTION, &coat, NULL);
        if (out[0] == TAILOR_OK)
            memcpy(out + 1, tailor_coat_quantities(coat, NULL), TAILOR_QUANTITY_COUNT * sizeof *out);
        tailor_coat_free(coat);
        fwrite(out, sizeof out, 1, stdout);
    }
    return 0;
}

/* The same orders through the C library, for test_python_same.py: reads rows of TAILOR_FIELD_COUNT doubles and writes
 * for each the status and TAILOR_QUANTITY_COUNT doubles, all as bytes. */
#include <stdio.h>
#include <tailorgeom/coat.h>

int main(void)
{
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    while (fread(client, sizeof client, 1, stdin) == 1) {
        double out[TAILOR_QUANTITY_COUNT + 1];
        tailor_pattern *coat = NULL;
        tailor_fields_clear(out, TAILOR_QUANTITY_COUNT + 1);
        tailor_status status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0,
                                                    row, TAILOR_FIELD_COUNT, NULL, 0,
                                                    constants, TAILOR_CONSTANT_COUNT, NULL);
        if (status == TAILOR_OK)
            status = tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, NULL);
        if (status == TAILOR_OK)
            status = tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, out + 1,
                                         TAILOR_QUANTITY_COUNT, NULL, NULL, 0, NULL);
        tailor_pattern_free(coat);
        if (status != TAILOR_OK)
            tailor_fields_clear(out, TAILOR_QUANTITY_COUNT + 1);
        out[0] = status;
        fwrite(out, sizeof out, 1, stdout);
    }
    return 0;
}

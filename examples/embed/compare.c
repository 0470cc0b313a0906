/* How much of the chest do five fastenings cover? Everything the library needs to be told is the chest girth.
 *
 *     cc compare.c $(pkg-config --cflags --libs tailorgeom) && ./a.out
 */
#include <stdio.h>
#include <tailorgeom/coat.h>

/* Resolve, draft, measure: a row of fields in, a row of quantities out. */
static tailor_status coverage(const double *client, double *quantities, tailor_fault *fault)
{
    double fields[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_pattern *coat = NULL;
    tailor_status status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0,
                                                fields, TAILOR_FIELD_COUNT, NULL, 0,
                                                constants, TAILOR_CONSTANT_COUNT, fault);
    if (status == TAILOR_OK)
        status = tailor_coat_draft(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, fault);
    if (status == TAILOR_OK)
        status = tailor_coat_measure(coat, fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT,
                                     quantities, TAILOR_QUANTITY_COUNT, NULL, NULL, 0, fault);
    tailor_pattern_free(coat);
    return status;
}

int main(void)
{
    static const char *const names[] = { "one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut" };
    double client[TAILOR_FIELD_COUNT], quantities[TAILOR_QUANTITY_COUNT];
    tailor_fault fault;

    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    for (int buttoning = TAILOR_BUTTONING_ONE_BUTTON; buttoning <= TAILOR_BUTTONING_ROLL_BY_CUT; buttoning++) {
        client[TAILOR_FIELD_BUTTONING] = buttoning;
        if (coverage(client, quantities, &fault) != TAILOR_OK) {
            fprintf(stderr, "%s\n", fault.sentence);
            return 1;
        }
        double mm = quantities[TAILOR_QUANTITY_COVERAGE_TOP_BUTTON];
        printf("%-12s covers %5.1f mm of the chest, %.2f in\n", names[buttoning - 1], mm, mm / 25.4);
    }
    return 0;
}

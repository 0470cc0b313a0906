/* How much of the chest do five fastenings cover? Everything the library needs to be told is the chest girth.
 *
 *     cc compare.c $(pkg-config --cflags --libs tailorgeom) && ./a.out
 */
#include <stdio.h>
#include <tailorgeom/coat.h>

int main(void)
{
    static const char *const names[] = { "one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut" };
    double client[TAILOR_FIELD_COUNT];

    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    for (int buttoning = TAILOR_BUTTONING_ONE_BUTTON; buttoning <= TAILOR_BUTTONING_ROLL_BY_CUT; buttoning++) {
        tailor_coat *coat = NULL;
        tailor_fault fault;
        client[TAILOR_FIELD_BUTTONING] = buttoning;
        if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, &fault) != TAILOR_OK) {
            fprintf(stderr, "%s\n", fault.sentence);
            tailor_coat_free(coat);
            return 1;
        }
        double mm = tailor_coat_quantity(coat, TAILOR_QUANTITY_COVERAGE_TOP_BUTTON);
        printf("%-12s covers %5.1f mm of the chest, %.2f in\n", names[buttoning - 1], mm, mm / 25.4);
        tailor_coat_free(coat);
    }
    return 0;
}

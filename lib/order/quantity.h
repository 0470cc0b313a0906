/* What is said of quantities in quantities.csv besides what people read. */
#ifndef TAILOR_IN_ORDER_QUANTITY_H
#define TAILOR_IN_ORDER_QUANTITY_H

#include <tailorgeom/order.h>

/** What a quantity needs besides the net draft, bits: the pieces of the make, the section of the roll. */
enum { TAILOR_IN_NEEDS_MAKE = 1, TAILOR_IN_NEEDS_SECTION = 2 };

/** What a quantity is where the two sides are not alike: the left's; the sum or the mean of what each side gives; what
 *  the right side gives for the quantity that it is the twin of. */
enum { TAILOR_IN_SIDE_LEFT, TAILOR_IN_SIDE_SUM, TAILOR_IN_SIDE_MEAN, TAILOR_IN_SIDE_TWIN };

typedef struct tailor_in_quantity {
    unsigned char needs, side;
    short twin; /* the left's quantity, 0 for none */
} tailor_in_quantity;

extern const tailor_in_quantity tailor_in_quantities[TAILOR_QUANTITY_COUNT];

/** TAILOR_IN_NEEDS_ bits; 0 for a number that is no quantity. */
int tailor_in_quantity_needs(int quantity);

#endif

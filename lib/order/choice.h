/* Choices of a field or quantity by name. */
#ifndef TAILOR_IN_CHOICE_H
#define TAILOR_IN_CHOICE_H

#include <stddef.h>
#include <tailorgeom/order.h>

/* Number of the choice whose name, or a synonym of it, are these bytes, not regarding the case of letters; 0 if none.
 */
int tailor_in_choice_find(const tailor_table *choices, const char *name, size_t length);

/* Is the value the number of one of the choices? */
int tailor_in_choice_is(const tailor_table *choices, double value);

/* Fill a fault that ends with the list of choices. The sentence is one of tailor_in_fault. */
tailor_status tailor_in_choice_fault(tailor_fault *fault, const tailor_table *table, int index, double value,
                                     const char *sentence);

/* Add a field's choice to a fault's sentence, by its name. */
void tailor_in_fault_say_choice(tailor_fault *fault, int field, double value);

#endif

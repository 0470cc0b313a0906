/* Choices of a field: names separated by single spaces, numbered from 1. */
#ifndef TAILOR_IN_CHOICE_H
#define TAILOR_IN_CHOICE_H

#include <stddef.h>
#include <tailorgeom/order.h>

int tailor_in_choice_count(const char *choices);

/* Number of the choice whose name are these bytes, not regarding the case of letters; 0 if none. */
int tailor_in_choice_find(const char *choices, const char *name, size_t length);

/* Fill a fault that ends with the list of choices. The sentence is one of tailor_in_fault. */
tailor_status tailor_in_choice_fault(tailor_fault *fault, const tailor_table *table, int index, double value,
                                     const char *sentence);

/* Add a field's choice to a fault's sentence, by its name. */
void tailor_in_fault_say_choice(tailor_fault *fault, int field, double value);

#endif

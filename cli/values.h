/* values: numbers as people read them, and as a card can be read back without losing a bit. */
#ifndef CLI_VALUES_H
#define CLI_VALUES_H

#include <stdbool.h>
#include <stddef.h>
#include <tailorgeom/order.h>

/** Room for any value, and for a number as programs read it. */
enum { VALUE_TEXT = 64, EXACT_TEXT = 32 };

/** A value of a table's row as people read it, without its unit: lengths by tailor_length_write in mm or inches, a
 *  choice by its name, "-" for NaN. `print` is a TAILOR_PRINT_. */
void value_write(const tailor_table *table, int number, double value, int print, char text[VALUE_TEXT]);

/** The unit that goes with it: "in" for lengths printed in inches, "" for choices, else the table's. */
const char *value_unit(const tailor_table *table, int number, int print);

/** The rule a default is found by, as people read it; "" where the rule is no more than the value itself. */
const char *rule_text(const tailor_table *table, int number);

/** A length alone, as above. */
void length_text(double mm, int print, char text[VALUE_TEXT]);

/** Name of a choice by its number, into `text`; false when there is no such choice. */
bool choice_name(const tailor_table *table, int number, double value, char text[VALUE_TEXT]);

/** A change of a field as fittings have it: with its sign and its unit, exact. */
void change_write(int field, double change, char text[VALUE_TEXT]);

/** The field of one side of the figure, X_left or X_right of X; 0 where it has no sides. */
int field_of_side(int field, bool left);
/** The field X of both sides that a field is X_left or X_right of; 0 for none. */
int field_of_both_sides(int field);

#endif

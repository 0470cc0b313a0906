/* Numbers typed with a unit, read exactly: the value is the double nearest to what is written. */
#ifndef TAILOR_IN_LENGTH_READ_H
#define TAILOR_IN_LENGTH_READ_H

/* Read a number of a table's unit: "mm" takes mm, cm and inches, any other unit itself; none is that unit too.
 * Returns NULL, or what is wrong as the end of a sentence, and leaves *value alone then. */
const char *tailor_in_number_read(const char *text, const char *unit, double *value);

#endif

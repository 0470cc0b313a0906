/* The inside of a size table: one block. */
#ifndef TAILOR_IN_GRADE_SIZE_TABLE_H
#define TAILOR_IN_GRADE_SIZE_TABLE_H

#include <tailorgeom/grade.h>

struct tailor_size_table {
    tailor_allocator allocator;
    size_t rows, columns;
    int fits;
    int32_t *field; /* columns of them; the first is the key */
    size_t *first;  /* first row of each fit, and the number of rows behind the last */
    double *value;  /* rows x columns */
    double *slope;  /* as many: by the key, within the fit */
    double *step;   /* columns: the table's own step of each measure, 0 where it has none */
};

#endif

/* A matrix of orders for the tests of rows, and the same orders through the scalar calls. */
#ifndef TESTS_ROWS_MATRIX_H
#define TESTS_ROWS_MATRIX_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>
#include <tailorgeom/rows.h>
#include "../ground/orders.h"

enum { ROWS = 300, EVERY_BAD = 7 };

typedef struct matrix {
    int32_t columns[TAILOR_FIELD_COUNT], wanted[TAILOR_QUANTITY_COUNT];
    size_t column_count, wanted_count;
    double *orders, *quantities; /* packed */
    int32_t statuses[ROWS];
    tailor_fault_record records[ROWS];
    void *workspace;
} matrix;

/* Ways in which a row is refused, one after another: by value, by choice, by contradiction, by the draft, by its
 * default, by what is missing. */
static inline void spoil(int number, double *client)
{
    switch (number / EVERY_BAD % 7) {
    case 0: client[TAILOR_FIELD_CHEST_GIRTH] = 40; break;
    case 1: client[TAILOR_FIELD_CHEST_GIRTH] = 2000; break;
    case 2: client[TAILOR_FIELD_BUTTONING] = 1.5; break;
    case 3: client[TAILOR_FIELD_WAIST_GIRTH] = 1750; break;
    case 4: client[TAILOR_FIELD_STATURE] = -INFINITY; break;
    case 5: client[TAILOR_FIELD_CHEST_GIRTH] = NAN; break;
    default: /* sound values, but the scye of this chest does not take the arm in */
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1000;
        client[TAILOR_FIELD_UPPER_ARM_GIRTH] = 490;
        break;
    }
}

static inline int has_row(const tailor_table *table, int number)
{
    return tailor_table_text(table, number, TAILOR_COLUMN_NAME)[0] != 0;
}

static inline void client_of(int number, double *client)
{
    order_make(number, client, TAILOR_FIELD_COUNT);
    if (number % EVERY_BAD == 0)
        spoil(number, client);
}

/* All fields are columns, the last number first; all quantities are wanted. */
static inline matrix matrix_make(void)
{
    matrix m = {.column_count = 0};
    for (int i = TAILOR_FIELD_COUNT - 1; i > 0; i--)
        if (has_row(tailor_field_table(), i))
            m.columns[m.column_count++] = i;
    for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++)
        if (has_row(tailor_quantity_table(), i))
            m.wanted[m.wanted_count++] = i;
    m.orders = calloc(ROWS * m.column_count, sizeof *m.orders);
    m.quantities = calloc(ROWS * m.wanted_count, sizeof *m.quantities);
    m.workspace = malloc(tailor_rows_workspace_bytes());
    assert_non_null(m.orders);
    assert_non_null(m.quantities);
    assert_non_null(m.workspace);
    for (int row = 0; row < ROWS; row++) {
        double client[TAILOR_FIELD_COUNT];
        client_of(row, client);
        for (size_t i = 0; i < m.column_count; i++)
            m.orders[(size_t)row * m.column_count + i] = client[m.columns[i]];
    }
    return m;
}

static inline void matrix_free(matrix *m)
{
    free(m->orders);
    free(m->quantities);
    free(m->workspace);
}

/* Rows first .. first + count - 1 into their places. */
static inline tailor_status matrix_measure(matrix *m, size_t first, size_t count, void *workspace)
{
    return tailor_rows_measure(m->columns, m->column_count, m->orders + first * m->column_count, count, m->column_count,
                               NULL, 0, NULL, 0, m->wanted, m->wanted_count, m->quantities + first * m->wanted_count,
                               m->wanted_count, m->statuses + first, m->records + first, workspace,
                               tailor_rows_workspace_bytes(), NULL);
}

/* One order by the scalar calls; all quantities, NaN when it is refused. */
static inline tailor_status scalar(const double *client, const double *house, const double *constants_given,
                                   double *quantities, tailor_fault *fault)
{
    double row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_pattern *coat = NULL;
    tailor_status status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, house, house ? TAILOR_FIELD_COUNT : 0,
                                                constants_given, constants_given ? TAILOR_CONSTANT_COUNT : 0, row,
                                                TAILOR_FIELD_COUNT, NULL, 0, constants, TAILOR_CONSTANT_COUNT, fault);
    if (status == TAILOR_OK)
        status = tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, fault);
    if (status == TAILOR_OK)
        status = tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, quantities,
                                     TAILOR_QUANTITY_COUNT, NULL, NULL, 0, fault);
    tailor_pattern_free(coat);
    if (status != TAILOR_OK)
        tailor_fields_clear(quantities, TAILOR_QUANTITY_COUNT);
    return status;
}

/* To the bit; but a NaN is a NaN. */
static inline void assert_same(double a, double b)
{
    if (!isnan(a) || !isnan(b))
        assert_memory_equal(&a, &b, sizeof a);
}

static inline void assert_all_same(const double *a, const double *b, size_t count)
{
    for (size_t i = 0; i < count; i++)
        assert_same(a[i], b[i]);
}

#endif

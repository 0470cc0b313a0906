/* A matrix of orders for the tests of rows, and the same orders as coats. */
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

enum { ROWS = 300, EVERY_BAD = 7, EXTENTS_MOST = (TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION) + 1 };

typedef struct matrix {
    int32_t columns[TAILOR_FIELD_COUNT], wanted[TAILOR_QUANTITY_COUNT];
    size_t column_count, wanted_count;
    double *orders, *quantities; /* packed */
    tailor_verdict verdicts[ROWS];
    tailor_rows *plan;
    tailor_rows_worker *worker;
} matrix;

/* Ways in which a row is refused, one after another: by value, by choice, by contradiction, by the draft, by its
 * default, by what is missing. */
static inline void spoil(int number, double *client)
{
    switch (number / EVERY_BAD % 7) {
    case 0:
        client[TAILOR_FIELD_CHEST_GIRTH] = 40;
        break;
    case 1:
        client[TAILOR_FIELD_CHEST_GIRTH] = 2000;
        break;
    case 2:
        client[TAILOR_FIELD_BUTTONING] = 1.5;
        break;
    case 3:
        client[TAILOR_FIELD_WAIST_GIRTH] = 1750;
        break;
    case 4:
        client[TAILOR_FIELD_STATURE] = -INFINITY;
        break;
    case 5:
        client[TAILOR_FIELD_CHEST_GIRTH] = NAN;
        break;
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

static inline tailor_rows_worker *must_worker(const tailor_rows *plan)
{
    tailor_rows_worker *worker = NULL;
    assert_int_equal(tailor_rows_worker_new(plan, 0, 0, &worker, NULL), TAILOR_OK);
    return worker;
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
    assert_non_null(m.orders);
    assert_non_null(m.quantities);
    for (int row = 0; row < ROWS; row++) {
        double client[TAILOR_FIELD_COUNT];
        client_of(row, client);
        for (size_t i = 0; i < m.column_count; i++)
            m.orders[(size_t)row * m.column_count + i] = client[m.columns[i]];
    }
    assert_int_equal(tailor_rows_new(NULL, m.columns, m.column_count, m.wanted, m.wanted_count, &m.plan, NULL),
                     TAILOR_OK);
    m.worker = must_worker(m.plan);
    return m;
}

static inline void matrix_free(matrix *m)
{
    tailor_rows_worker_free(m->worker);
    tailor_rows_free(m->plan);
    free(m->orders);
    free(m->quantities);
}

/* Rows first .. first + count - 1 into their places. */
static inline tailor_status matrix_run(matrix *m, size_t first, size_t count, tailor_rows_worker *worker)
{
    return tailor_rows_run(worker, m->orders + first * m->column_count, count, m->quantities + first * m->wanted_count,
                           m->verdicts + first, NULL);
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

/* The extent that a quantity needs: what a coat must be made to before it has it. Found out, not known. */
static inline int extent_of(int quantity)
{
    static tailor_coat *made[TAILOR_EXTENT_SECTION + 1];
    for (int e = TAILOR_EXTENT_NET; e <= TAILOR_EXTENT_SECTION && !made[e]; e++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
        assert_int_equal(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, e, &made[e], NULL), TAILOR_OK);
    }
    if (isnan(tailor_coat_quantity(made[TAILOR_EXTENT_NET], quantity)))
        for (int e = TAILOR_EXTENT_MAKE; e <= TAILOR_EXTENT_SECTION; e++)
            if (!isnan(tailor_coat_quantity(made[e], quantity)))
                return e;
    return TAILOR_EXTENT_NET;
}

/* What is said of one row is what the coat of that order says: its status and fault, its quantities, its cautions.
 * Returns the status; `why` (may be NULL) becomes the coat's fault. */
static inline tailor_status assert_is_the_coat(const tailor_house *house, const double *client, int extent,
                                               const tailor_verdict *v, const double *quantities, const int32_t *wanted,
                                               size_t wanted_count, tailor_fault *why)
{
    tailor_coat *coat = NULL;
    tailor_fault fault, caution;
    uint32_t bits[4] = {0};
    const tailor_status status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, extent, &coat, &fault);
    assert_int_equal(v->status, status);
    for (size_t i = 0; i < wanted_count; i++)
        assert_same(quantities[i], status == TAILOR_OK ? tailor_coat_quantity(coat, wanted[i]) : (double)NAN);
    if (status == TAILOR_OK) {
        assert_true(v->table == 0 && v->index == 0 && v->origin == 0);
        for (int place = 0, heed; (heed = tailor_coat_caution(coat, place, &caution)) != 0; place++)
            if (heed == TAILOR_CAUTION_CLASS_CAUTION)
                bits[(caution.index - 1) / 32] |= UINT32_C(1) << (caution.index - 1) % 32;
    } else {
        assert_true(v->table == fault.table && v->index == fault.index);
        assert_same(v->value, fault.value);
        assert_same(v->limit, fault.value < fault.low    ? fault.low
                              : fault.value > fault.high ? fault.high
                                                         : (double)NAN);
        if (why)
            *why = fault;
    }
    assert_memory_equal(v->cautions, bits, sizeof bits); /* none of a row that is refused */
    tailor_coat_free(coat);
    return status;
}

#endif

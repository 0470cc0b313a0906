/* For tests of the coat: two that must not differ, a pointer that must not be touched, an order that fails a check. */
#ifndef TESTS_COAT_COATS_H
#define TESTS_COAT_COATS_H

#include "draft/population.h"
#include "draft/same.h"
#include "ground/orders.h"

/** What a failing call must leave alone: no coat, and no harm to compare. */
static inline tailor_coat *poison(void)
{
    static char nowhere;
    return (tailor_coat *)(void *)&nowhere;
}
#define POISON poison()

enum { WHOLE = TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION, EXTENTS = WHOLE + 1 };

/** A coat that is good, or the test fails. */
static inline tailor_coat *must_coat(const tailor_house *house, const double *client, int extent)
{
    tailor_coat *coat = NULL;
    tailor_fault fault;
    if (tailor_coat_new(house, client, TAILOR_FIELD_COUNT, extent, &coat, &fault) != TAILOR_OK)
        fail_msg("%s", fault.sentence);
    return coat;
}

/** Some fields of an order as a whole row. */
static inline void row_from(double *client, const struct given *order)
{
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    for (; order->field; order++)
        client[order->field] = order->value;
}

static inline tailor_coat *coat_from(const struct given *order, int extent)
{
    double client[TAILOR_FIELD_COUNT];
    row_from(client, order);
    return must_coat(NULL, client, extent);
}

/** Quantities and checks are the same, bit by bit. */
static inline void same_measures(const tailor_coat *a, const tailor_coat *b)
{
    assert_memory_equal(tailor_coat_quantities(a, NULL), tailor_coat_quantities(b, NULL),
                        TAILOR_QUANTITY_COUNT * sizeof(double));
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
        double one[2], other[2];
        assert_int_equal(tailor_coat_check(a, check, &one[0], &one[1]),
                         tailor_coat_check(b, check, &other[0], &other[1]));
        assert_memory_equal(one, other, sizeof one);
    }
}

static inline void same_resolved(const tailor_coat *a, const tailor_coat *b)
{
    assert_memory_equal(tailor_coat_fields(a, NULL), tailor_coat_fields(b, NULL), TAILOR_FIELD_COUNT * sizeof(double));
    assert_memory_equal(tailor_coat_constants(a, NULL), tailor_coat_constants(b, NULL),
                        TAILOR_CONSTANT_COUNT * sizeof(double));
}

/** Everything that two coats tell is the same, bit by bit, but for where the values of their fields came from. */
static inline void same_coat(const tailor_coat *a, const tailor_coat *b)
{
    size_t points, as_many;
    tailor_fault one, other;
    assert_int_equal(tailor_coat_extent(a), tailor_coat_extent(b));
    assert_int_equal(tailor_coat_edition(a), tailor_coat_edition(b));
    assert_int_equal(tailor_coat_status(a, &one), tailor_coat_status(b, &other));
    assert_memory_equal(&one, &other, sizeof one);
    const tailor_point *line = tailor_coat_section(a, &points), *another = tailor_coat_section(b, &as_many);
    assert_int_equal(points, as_many);
    assert_int_equal(line == NULL, another == NULL);
    if (line)
        assert_memory_equal(line, another, points * sizeof *line);
    same_resolved(a, b);
    same_measures(a, b);
    same_pattern(tailor_coat_pattern(a), tailor_coat_pattern(b));
}

/** The cautions of two coats are the same. */
static inline void same_cautions(const tailor_coat *a, const tailor_coat *b)
{
    assert_int_equal(tailor_coat_caution_count(a), tailor_coat_caution_count(b));
    for (int place = 0; place < tailor_coat_caution_count(a); place++) {
        tailor_fault one, other;
        assert_int_equal(tailor_coat_caution(a, place, &one), tailor_coat_caution(b, place, &other));
        assert_memory_equal(&one, &other, sizeof one);
    }
}

/** Place of a caution among a coat's; -1 if it is not there. Its fault is filled if it is. */
static inline int caution_of(const tailor_coat *coat, int number, tailor_fault *fault)
{
    for (int place = 0; tailor_coat_caution(coat, place, fault); place++)
        if (fault->index == number)
            return place;
    return -1;
}

/** A house that goes to the end of what one of its constants may be, and an order of which a check then fails. */
static inline void failing_check(double *client, double *constants)
{
    const tailor_table *table = tailor_constant_table();
    for (int number = 2; number < 2 * TAILOR_CONSTANT_COUNT; number++)
        for (int order = 0; order < 10; order++) {
            const int constant = number / 2;
            tailor_coat *coat = NULL;
            tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
            constants[constant] = number % 2 ? tailor_table_high(table, constant) : tailor_table_low(table, constant);
            order_make(order, client, TAILOR_FIELD_COUNT);
            tailor_house *house = house_of(constants);
            tailor_status status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL);
            tailor_house_free(house);
            tailor_coat_free(coat);
            if (status == TAILOR_CHECK_FAILED)
                return;
        }
    fail_msg("every order passes every check");
}

#endif

/* Memory: one allocation a coat, the caller's allocator is the only source, and wherever it fails the call says so. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>
#include <tailorgeom/coat.h>
#include "orders.h"

enum { ORDERS = 40 };

typedef struct {
    int calls;   /* allocations asked for so far */
    int fail_at; /* which of them fails, from 1; 0 none */
    int alive;
} memory;

static void *give(void *user, size_t bytes)
{
    memory *m = user;
    if (++m->calls == m->fail_at)
        return NULL;
    m->alive++;
    return malloc(bytes);
}

static void take(void *user, void *block)
{
    memory *m = user;
    m->alive -= block != NULL;
    free(block);
}

static int resolved(int number, double *row, double *constants)
{
    double client[TAILOR_FIELD_COUNT];
    order_make(number, client, TAILOR_FIELD_COUNT);
    return tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, row, TAILOR_FIELD_COUNT, NULL, 0,
                                constants, TAILOR_CONSTANT_COUNT, NULL) == TAILOR_OK;
}

static int draft(const double *row, const double *constants, const tailor_allocator *allocator,
                 tailor_pattern **coat, tailor_fault *fault)
{
    return tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, allocator, coat, fault);
}

static void every_allocation_fails_in_turn(void **state)
{
    (void)state;
    double row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    int drafted = 0;
    for (int number = 0; number < ORDERS; number++) {
        if (!resolved(number, row, constants))
            continue;
        memory m = { 0, 0, 0 };
        const tailor_allocator allocator = { give, take, &m };
        tailor_pattern *coat = NULL;
        tailor_fault fault = { 0 };
        int status = draft(row, constants, &allocator, &coat, &fault);
        const int needed = m.calls;
        if (status == TAILOR_OK) {
            drafted++;
            assert_int_equal(m.alive, 1);
            tailor_pattern_free(coat);
        }
        assert_int_equal(m.alive, 0);
        for (int k = 1; k <= needed; k++) {
            m = (memory){ 0, k, 0 };
            coat = NULL;
            status = draft(row, constants, &allocator, &coat, &fault);
            assert_int_equal(status, TAILOR_NO_MEMORY);
            assert_int_equal(fault.status, TAILOR_NO_MEMORY);
            assert_string_not_equal(fault.sentence, "");
            assert_null(coat);
            assert_int_equal(m.alive, 0);
        }
    }
    assert_true(drafted > ORDERS / 2);
}

static void a_coat_is_one_allocation(void **state)
{
    (void)state;
    double row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    int drafted = 0;
    for (int number = 0; number < ORDERS; number++) {
        memory m = { 0, 0, 0 };
        const tailor_allocator allocator = { give, take, &m };
        tailor_pattern *coat = NULL;
        if (!resolved(number, row, constants) || draft(row, constants, &allocator, &coat, NULL) != TAILOR_OK)
            continue;
        drafted++;
        assert_int_equal(m.calls, 1);
        tailor_pattern_free(coat);
    }
    assert_true(drafted > ORDERS / 2);
}

static void freeing_nothing_is_allowed(void **state)
{
    (void)state;
    tailor_pattern_free(NULL);
    assert_int_equal(tailor_pattern_piece_count(NULL), 0);
}

int test_allocation(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_allocation_fails_in_turn),
        cmocka_unit_test(a_coat_is_one_allocation),
        cmocka_unit_test(freeing_nothing_is_allowed),
    };
    return cmocka_run_group_tests_name("allocation", tests, NULL, NULL);
}

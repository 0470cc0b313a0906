/* No state is shared: coats drafted in several threads at once, in any order, are those drafted alone, bit for bit. */
#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>
#include <tailorgeom/coat.h>
#include "orders.h"

enum { ORDERS = 64, THREADS = 4 };

typedef struct {
    int status;
    double quantities[TAILOR_QUANTITY_COUNT];
} answer;

typedef struct {
    answer answers[ORDERS];
    int step; /* odd: each thread goes through all orders, in an order of its own */
} work;

static answer one(int number)
{
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_pattern *coat = NULL;
    answer a;
    memset(&a, 0, sizeof a);
    order_make(number, client, TAILOR_FIELD_COUNT);
    a.status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, row, TAILOR_FIELD_COUNT, NULL, 0,
                                    constants, TAILOR_CONSTANT_COUNT, NULL);
    if (a.status == TAILOR_OK)
        a.status = tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, NULL);
    if (a.status == TAILOR_OK)
        a.status = tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, a.quantities,
                                       TAILOR_QUANTITY_COUNT, NULL, NULL, 0, NULL);
    tailor_pattern_free(coat);
    return a;
}

static void *all(void *user)
{
    work *w = user;
    for (int i = 0; i < ORDERS; i++) {
        int number = i * w->step % ORDERS;
        w->answers[number] = one(number);
    }
    return NULL;
}

static void threads_do_not_meet(void **state)
{
    (void)state;
    static work alone, together[THREADS];
    pthread_t threads[THREADS];
    int drafted = 0;
    alone.step = 1;
    all(&alone);
    for (int i = 0; i < THREADS; i++) {
        together[i].step = 2 * i + 3;
        assert_int_equal(pthread_create(&threads[i], NULL, all, &together[i]), 0);
    }
    for (int i = 0; i < THREADS; i++)
        assert_int_equal(pthread_join(threads[i], NULL), 0);
    for (int i = 0; i < THREADS; i++)
        assert_memory_equal(together[i].answers, alone.answers, sizeof alone.answers);
    for (int i = 0; i < ORDERS; i++)
        drafted += alone.answers[i].status == TAILOR_OK;
    assert_true(drafted > ORDERS / 2);
}

int test_threads(void)
{
    const struct CMUnitTest tests[] = { cmocka_unit_test(threads_do_not_meet) };
    return cmocka_run_group_tests_name("threads", tests, NULL, NULL);
}

/* The same order gives the same coat, byte for byte, whatever memory it is laid in; and a failing allocator leaves
 * nothing. */
#include "draft/same.h"

/* ---- an allocator that fills what it gives, tells its size, and fails when told */

struct memory {
    int fill;    /* byte to fill with */
    int fail_at; /* the call that fails, from 1; 0 none */
    int calls, alive;
    size_t bytes; /* of the last block */
};

static void *allocate(void *user, size_t bytes)
{
    struct memory *m = user;
    if (++m->calls == m->fail_at)
        return NULL;
    void *block = malloc(bytes);
    assert_non_null(block);
    memset(block, m->fill, bytes);
    m->alive++;
    m->bytes = bytes;
    return block;
}

static void release(void *user, void *block)
{
    struct memory *m = user;
    m->alive -= block != NULL;
    free(block);
}

static tailor_pattern *draft_in(const struct made *m, struct memory *memory)
{
    const tailor_allocator allocator = {allocate, release, memory};
    tailor_pattern *coat = NULL;
    tailor_fault fault;
    if (tailor_coat_draft(m->row, TAILOR_FIELD_COUNT, m->constants, TAILOR_CONSTANT_COUNT, &allocator, &coat, &fault) !=
        TAILOR_OK)
        fail_msg("%s", fault.sentence);
    return coat;
}

static void any_client(struct dice *d, struct made *m)
{
    tailor_fields_clear(m->client, TAILOR_FIELD_COUNT);
    m->client[TAILOR_FIELD_CHEST_GIRTH] = between(d, 880, 1280);
    m->client[TAILOR_FIELD_WAIST_GIRTH] = m->client[TAILOR_FIELD_CHEST_GIRTH] - between(d, -50, 150);
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
        if (!is_measure(field) && even(d) < 0.4)
            m->client[field] = any_value(d, field, 0.4);
    agree_with_itself(m->client);
}

/** A client whose coat is drafted with all its checks passing. */
static void good_client(struct dice *d, struct made *m)
{
    for (int tries = 0; tries < 50; tries++) {
        any_client(d, m);
        if (make_client(m, NULL) == TAILOR_OK)
            return;
        unmake(m);
    }
    fail_msg("fifty clients in a row refused: %s", m->fault.sentence);
}

static void drafted_twice(void **state)
{
    (void)state;
    struct dice d = {41};
    static struct made m;
    for (int n = 0; n < 60; n++) {
        good_client(&d, &m);
        struct memory memory = {0x00, 0, 0, 0, 0}, other = {0xff, 0, 0, 0, 0};
        tailor_pattern *first = draft_in(&m, &memory);
        const size_t bytes = memory.bytes;
        tailor_pattern *second = draft_in(&m, &memory);
        assert_int_equal(memory.bytes, bytes);
        assert_memory_equal(first, second, bytes); /* the whole block */
        tailor_pattern *third = draft_in(&m, &other);
        same_pattern(first, third); /* nothing is read that was never written */
        same_pattern(first, m.coat);
        static struct made again;
        again = m;
        again.coat = third;
        assert_int_equal(measure_of(&again), TAILOR_OK);
        assert_memory_equal(again.q, m.q, sizeof m.q);
        assert_memory_equal(again.value, m.value, sizeof m.value);
        assert_memory_equal(again.limit, m.limit, sizeof m.limit);
        tailor_pattern_free(first);
        tailor_pattern_free(second);
        tailor_pattern_free(third);
        assert_int_equal(memory.alive + other.alive, 0);
        unmake(&m);
    }
}

/** A pattern keeps a copy of the allocator: the struct need not live on. */
static void the_allocator_struct_may_go(void **state)
{
    (void)state;
    static struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}));
    struct memory memory = {0, 0, 0, 0, 0};
    tailor_allocator allocator = {allocate, release, &memory};
    tailor_pattern *coat = NULL;
    assert_int_equal(
        tailor_coat_draft(m.row, TAILOR_FIELD_COUNT, m.constants, TAILOR_CONSTANT_COUNT, &allocator, &coat, NULL),
        TAILOR_OK);
    memset(&allocator, 0, sizeof allocator);
    tailor_pattern_free(coat);
    assert_int_equal(memory.alive, 0);
    unmake(&m);
}

static void every_allocation_that_fails(void **state)
{
    (void)state;
    struct dice d = {42};
    static struct made m;
    for (int n = 0; n < 20; n++) {
        good_client(&d, &m);
        struct memory memory = {0, 0, 0, 0, 0};
        tailor_pattern_free(draft_in(&m, &memory));
        const int calls = memory.calls;
        assert_int_equal(calls, 1); /* one block */
        for (int k = 1; k <= calls; k++) {
            struct memory failing = {0, k, 0, 0, 0};
            const tailor_allocator allocator = {allocate, release, &failing};
            tailor_pattern *const untouched = m.coat;
            tailor_pattern *coat = untouched;
            tailor_fault fault = {0};
            assert_int_equal(tailor_coat_draft(m.row, TAILOR_FIELD_COUNT, m.constants, TAILOR_CONSTANT_COUNT,
                                               &allocator, &coat, &fault),
                             TAILOR_NO_MEMORY);
            assert_int_equal(fault.status, TAILOR_NO_MEMORY);
            assert_ptr_equal(coat, untouched);
            assert_int_equal(failing.alive, 0);
        }
        unmake(&m);
    }
}

/** An order that is refused asks for no memory, or gives all of it back. */
static void a_refused_order_leaves_nothing(void **state)
{
    (void)state;
    struct dice d = {43};
    static struct made m;
    int refused = 0;
    for (int n = 0; n < 400; n++) {
        any_client(&d, &m);
        m.client[TAILOR_FIELD_WAIST_GIRTH] = m.client[TAILOR_FIELD_CHEST_GIRTH] - between(&d, 200, 330);
        struct memory memory = {0, 0, 0, 0, 0};
        const tailor_allocator allocator = {allocate, release, &memory};
        tailor_pattern *coat = NULL;
        if (tailor_order_resolve(m.client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, m.row, TAILOR_FIELD_COUNT, NULL, 0,
                                 m.constants, TAILOR_CONSTANT_COUNT, NULL) != TAILOR_OK)
            continue;
        if (tailor_coat_draft(m.row, TAILOR_FIELD_COUNT, m.constants, TAILOR_CONSTANT_COUNT, &allocator, &coat, NULL) !=
            TAILOR_OK) {
            refused++;
            assert_null(coat);
        }
        tailor_pattern_free(coat);
        assert_int_equal(memory.alive, 0);
    }
    assert_true(refused > 20);
}

int test_same(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(drafted_twice),
        cmocka_unit_test(the_allocator_struct_may_go),
        cmocka_unit_test(every_allocation_that_fails),
        cmocka_unit_test(a_refused_order_leaves_nothing),
    };
    return cmocka_run_group_tests_name("same", tests, NULL, NULL);
}

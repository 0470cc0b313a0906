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

/** The coat of m->client in memory of this kind; its house is gone by then. */
static tailor_status try_in(const struct made *m, struct memory *memory, int extent, tailor_coat **coat,
                            tailor_fault *fault)
{
    tailor_allocator allocator = {allocate, release, memory};
    tailor_house *house = NULL;
    tailor_status status = tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, fault);
    memset(&allocator, 0, sizeof allocator); /* the struct need not live on */
    if (status == TAILOR_OK)
        status = tailor_coat_new(house, m->client, TAILOR_FIELD_COUNT, extent, coat, fault);
    tailor_house_free(house);
    return status;
}

static tailor_coat *coat_in(const struct made *m, struct memory *memory, int extent)
{
    tailor_coat *coat = NULL;
    tailor_fault fault;
    if (try_in(m, memory, extent, &coat, &fault) != TAILOR_OK)
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

static void same_rows(const tailor_coat *a, const tailor_coat *b)
{
    static struct made one, other;
    read_measures(&one, a);
    read_measures(&other, b);
    assert_memory_equal(one.q, other.q, sizeof one.q);
    assert_memory_equal(one.value, other.value, sizeof one.value);
    assert_memory_equal(one.limit, other.limit, sizeof one.limit);
    assert_memory_equal(tailor_coat_fields(a, NULL), tailor_coat_fields(b, NULL), TAILOR_FIELD_COUNT * sizeof(double));
    assert_memory_equal(tailor_coat_origins(a, NULL), tailor_coat_origins(b, NULL),
                        TAILOR_FIELD_COUNT * sizeof(int32_t));
    assert_memory_equal(tailor_coat_constants(a, NULL), tailor_coat_constants(b, NULL),
                        TAILOR_CONSTANT_COUNT * sizeof(double));
}

static void drafted_twice(void **state)
{
    (void)state;
    struct dice d = {41};
    static struct made m;
    for (int n = 0; n < 60; n++) {
        good_client(&d, &m);
        const int extent = TAILOR_EXTENT_SECTION | (n % 2 ? TAILOR_EXTENT_MAKE : TAILOR_EXTENT_NET);
        struct memory memory = {0x00, 0, 0, 0, 0}, other = {0xff, 0, 0, 0, 0};
        tailor_coat *first = coat_in(&m, &memory, extent);
        const size_t bytes = memory.bytes;
        tailor_coat *second = coat_in(&m, &memory, extent);
        assert_int_equal(memory.bytes, bytes);
        assert_memory_equal(first, second, bytes); /* the whole block */
        tailor_coat *third = coat_in(&m, &other, extent);
        same_pattern(tailor_coat_pattern(first), tailor_coat_pattern(third)); /* nothing is read but what was written */
        same_rows(first, third);
        if (n % 2 == 0) {
            same_pattern(tailor_coat_pattern(first), m.coat);
            same_rows(first, m.object);
        }
        tailor_coat_free(first);
        tailor_coat_free(second);
        tailor_coat_free(third);
        assert_int_equal(memory.alive + other.alive, 0);
        unmake(&m);
    }
}

static void every_allocation_that_fails(void **state)
{
    (void)state;
    struct dice d = {42};
    static struct made m;
    for (int n = 0; n < 20; n++) {
        good_client(&d, &m);
        struct memory memory = {0, 0, 0, 0, 0};
        tailor_coat_free(coat_in(&m, &memory, n % 4));
        const int calls = memory.calls;
        assert_int_equal(calls, 2); /* the house and the coat, a block each */
        for (int k = 1; k <= calls; k++) {
            struct memory failing = {0, k, 0, 0, 0};
            tailor_coat *coat = m.object;
            tailor_fault fault = {0};
            assert_int_equal(try_in(&m, &failing, n % 4, &coat, &fault), TAILOR_NO_MEMORY);
            assert_int_equal(fault.status, TAILOR_NO_MEMORY);
            assert_ptr_equal(coat, m.object);
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
        tailor_coat *coat = NULL;
        tailor_status status = try_in(&m, &memory, n % 4, &coat, NULL);
        if (status != TAILOR_OK && status != TAILOR_CHECK_FAILED) {
            refused += status >= TAILOR_FRAME_UNSOLVED; /* some do not even resolve */
            assert_null(coat);
            assert_int_equal(memory.alive, 0);
        }
        tailor_coat_free(coat);
        assert_int_equal(memory.alive, 0);
    }
    assert_true(refused > 20);
}

int test_same(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(drafted_twice),
        cmocka_unit_test(every_allocation_that_fails),
        cmocka_unit_test(a_refused_order_leaves_nothing),
    };
    return cmocka_run_group_tests_name("same", tests, NULL, NULL);
}

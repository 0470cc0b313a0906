/* The worker's block is the only memory: a run allocates nothing, writes nothing beside it, and what it held does not
 * matter. */
#include "matrix.h"

static volatile int allocations;

#if defined(__SANITIZE_ADDRESS__)
int __sanitizer_install_malloc_and_free_hooks(void (*)(const volatile void *, size_t), void (*)(const volatile void *));
static void on_malloc(const volatile void *memory, size_t bytes) { (void)memory, (void)bytes, allocations++; }
static void on_free(const volatile void *memory) { (void)memory; }
static void count_allocations(void) { assert_true(__sanitizer_install_malloc_and_free_hooks(on_malloc, on_free) > 0); }
#else
/* The C library's own door behind malloc; a program may put its malloc before it. */
void *__libc_malloc(size_t bytes);
void *__libc_calloc(size_t count, size_t bytes);
void *__libc_realloc(void *memory, size_t bytes);
void *malloc(size_t bytes)
{
    allocations++;
    return __libc_malloc(bytes);
}
void *calloc(size_t count, size_t bytes)
{
    allocations++;
    return __libc_calloc(count, bytes);
}
void *realloc(void *memory, size_t bytes)
{
    allocations++;
    return __libc_realloc(memory, bytes);
}
static void count_allocations(void) {}
#endif

static void nothing_is_allocated(void **state)
{
    (void)state;
    matrix m = matrix_make();
    tailor_coat *coat = NULL;
    double client[TAILOR_FIELD_COUNT];
    count_allocations();

    int before = allocations; /* the count does count: a coat is one */
    order_make(1, client, TAILOR_FIELD_COUNT);
    assert_int_equal(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL), TAILOR_OK);
    assert_int_equal(allocations - before, 1);
    tailor_coat_free(coat);

    before = allocations;
    tailor_status status = matrix_run(&m, 0, ROWS, m.worker); /* good rows and refused ones */
    int after = allocations;
    assert_int_equal(status, TAILOR_OK);
    assert_int_equal(after - before, 0);
    matrix_free(&m);
}

/* ---- an allocator that fills what it gives and puts a guard on either side of it */

enum { GUARD = 4096 };

struct memory {
    int fill, calls, alive;
    size_t bytes, before; /* of the last block, and of the one before it */
};

static void *give(void *user, size_t bytes)
{
    struct memory *m = user;
    unsigned char *around = malloc(bytes + 2 * GUARD);
    assert_non_null(around);
    memset(around, 0xA5, bytes + 2 * GUARD);
    memset(around + GUARD, m->fill, bytes);
    m->calls++;
    m->alive++;
    m->before = m->bytes;
    m->bytes = bytes;
    return around + GUARD;
}

static void take(void *user, void *memory)
{
    struct memory *m = user;
    if (!memory)
        return;
    m->alive--;
    free((unsigned char *)memory - GUARD);
}

/* The matrix with a plan and a worker in such memory; the house is gone. */
static matrix matrix_in(struct memory *memory)
{
    matrix m = matrix_make();
    const tailor_allocator allocator = {give, take, memory};
    tailor_house *house = NULL;
    tailor_rows_worker_free(m.worker);
    tailor_rows_free(m.plan);
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, NULL), TAILOR_OK);
    assert_int_equal(tailor_rows_new(house, m.columns, m.column_count, m.wanted, m.wanted_count, &m.plan, NULL),
                     TAILOR_OK);
    tailor_house_free(house);
    m.worker = must_worker(m.plan);
    return m;
}

static void nothing_beside_it_is_written(void **state)
{
    (void)state;
    struct memory memory = {0};
    matrix m = matrix_in(&memory);
    assert_true(memory.calls == 3 && memory.alive == 2); /* a plan and a worker */
    const unsigned char *worker = (const unsigned char *)m.worker, *plan = (const unsigned char *)m.plan;
    unsigned char *kept = malloc(memory.before); /* the plan: what is in it stays as it is */
    memcpy(kept, plan, memory.before);
    assert_int_equal(matrix_run(&m, 0, ROWS, m.worker), TAILOR_OK);
    for (size_t i = 1; i <= GUARD; i++)
        assert_true(worker[memory.bytes + i - 1] == 0xA5 && worker[-(ptrdiff_t)i] == 0xA5);
    assert_memory_equal(kept, plan, memory.before);
    free(kept);
    matrix_free(&m);
    assert_int_equal(memory.alive, 0);
}

static void what_it_held_does_not_matter(void **state)
{
    (void)state;
    struct memory zeros = {.fill = 0x00}, ones = {.fill = 0xFF};
    matrix one = matrix_in(&zeros), other = matrix_in(&ones);
    assert_int_equal(matrix_run(&one, 0, ROWS, one.worker), TAILOR_OK);
    assert_int_equal(matrix_run(&other, 0, ROWS, other.worker), TAILOR_OK);
    assert_all_same(one.quantities, other.quantities, ROWS * one.wanted_count);
    assert_int_equal(matrix_run(&one, 0, ROWS, other.worker), TAILOR_OK); /* nor what the call before left */
    assert_all_same(one.quantities, other.quantities, ROWS * one.wanted_count);
    assert_memory_equal(one.verdicts, other.verdicts, sizeof one.verdicts);
    matrix_free(&one);
    matrix_free(&other);
}

/* Its size is as rows.h says: with the make only where a quantity needs it. */
static void its_size_is_modest(void **state)
{
    (void)state;
    int sizes = 0;
    for (int q = 1; q < TAILOR_QUANTITY_COUNT; q++) {
        struct memory memory = {0};
        const tailor_allocator allocator = {give, take, &memory};
        const int32_t column = TAILOR_FIELD_CHEST_GIRTH, wanted = q;
        tailor_house *house = NULL;
        tailor_rows *plan = NULL;
        if (!has_row(tailor_quantity_table(), q))
            continue;
        assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, NULL), TAILOR_OK);
        assert_int_equal(tailor_rows_new(house, &column, 1, &wanted, 1, &plan, NULL), TAILOR_OK);
        tailor_rows_worker *worker = must_worker(plan);
        if (extent_of(q) & TAILOR_EXTENT_MAKE)
            assert_in_range(memory.bytes, 150000, 250000);
        else
            assert_in_range(memory.bytes, 60000, 100000);
        sizes++;
        tailor_rows_worker_free(worker);
        tailor_rows_free(plan);
        tailor_house_free(house);
    }
    assert_true(sizes > 90);
}

int test_worker(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_allocated),
        cmocka_unit_test(nothing_beside_it_is_written),
        cmocka_unit_test(what_it_held_does_not_matter),
        cmocka_unit_test(its_size_is_modest),
    };
    return cmocka_run_group_tests_name("worker of rows", tests, NULL, NULL);
}

/* The workspace is the only memory: nothing is allocated, nothing beside it is written, and what it held does not
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
    tailor_pattern *coat = NULL;
    double row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    count_allocations();

    int before = allocations; /* the count does count: a coat by the scalar call is one */
    order_make(1, row, TAILOR_FIELD_COUNT);
    assert_int_equal(tailor_order_resolve(row, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, row, TAILOR_FIELD_COUNT, NULL, 0,
                                          constants, TAILOR_CONSTANT_COUNT, NULL),
                     TAILOR_OK);
    assert_int_equal(tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, NULL),
                     TAILOR_OK);
    assert_int_equal(allocations - before, 1);
    tailor_pattern_free(coat);

    before = allocations;
    tailor_status status = matrix_measure(&m, 0, ROWS, m.workspace); /* good rows and refused ones */
    int after = allocations;
    assert_int_equal(status, TAILOR_OK);
    assert_int_equal(after - before, 0);
    matrix_free(&m);
}

static void nothing_beside_it_is_written(void **state)
{
    (void)state;
    enum { GUARD = 4096 };
    matrix m = matrix_make();
    size_t bytes = tailor_rows_workspace_bytes();
    unsigned char *around = malloc(bytes + 2 * GUARD);
    memset(around, 0xA5, bytes + 2 * GUARD);
    assert_int_equal(matrix_measure(&m, 0, ROWS, around + GUARD), TAILOR_OK);
    for (size_t i = 0; i < GUARD; i++)
        assert_true(around[i] == 0xA5 && around[GUARD + bytes + i] == 0xA5);
    free(around);
    matrix_free(&m);
}

static void what_it_held_does_not_matter(void **state)
{
    (void)state;
    matrix one = matrix_make(), other = matrix_make();
    memset(one.workspace, 0, tailor_rows_workspace_bytes());
    memset(other.workspace, 0xFF, tailor_rows_workspace_bytes());
    assert_int_equal(matrix_measure(&one, 0, ROWS, one.workspace), TAILOR_OK);
    assert_int_equal(matrix_measure(&other, 0, ROWS, other.workspace), TAILOR_OK);
    assert_all_same(one.quantities, other.quantities, ROWS * one.wanted_count);
    assert_int_equal(matrix_measure(&one, 0, ROWS, other.workspace), TAILOR_OK); /* nor what the call before left */
    assert_all_same(one.quantities, other.quantities, ROWS * one.wanted_count);
    assert_memory_equal(one.statuses, other.statuses, sizeof one.statuses);
    matrix_free(&one);
    matrix_free(&other);
}

static void its_size_is_modest(void **state)
{
    (void)state;
    assert_true(tailor_rows_workspace_bytes() % 16 == 0);
    assert_in_range(tailor_rows_workspace_bytes(), 20000, 100000); /* rows.h says some 40 KiB */
}

int test_workspace(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_allocated),
        cmocka_unit_test(nothing_beside_it_is_written),
        cmocka_unit_test(what_it_held_does_not_matter),
        cmocka_unit_test(its_size_is_modest),
    };
    return cmocka_run_group_tests_name("workspace of rows", tests, NULL, NULL);
}

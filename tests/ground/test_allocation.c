/* Memory: the caller's allocator is the only source of what is made with it, each object is one allocation, and
 * wherever it fails, at the first call or at the last, the call says so and leaves nothing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <cmocka.h>
#include <tailorgeom/grade.h>
#include <tailorgeom/rows.h>
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

/* A coat of the same order from malloc: what is resolved and drafted before anything fails. NULL: refused. */
static tailor_coat *coat_of(int number, int extent)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    order_make(number, client, TAILOR_FIELD_COUNT);
    if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, extent, &coat, NULL) == TAILOR_OK)
        return coat;
    tailor_coat_free(coat);
    return NULL;
}

/* ---- whatever is made: each act makes one kind of thing of an order and gives all of it back */

typedef tailor_status act(const tailor_allocator *allocator, int number, tailor_fault *fault);

/* The pointer that a failing call must leave alone. */
static char somewhere;
#define UNTOUCHED(type) ((type *)(void *)&somewhere)

static tailor_status make_house(const tailor_allocator *allocator, int number, tailor_fault *fault)
{
    tailor_house *house = UNTOUCHED(tailor_house);
    double fields[TAILOR_FIELD_COUNT];
    order_make(number, fields, TAILOR_FIELD_COUNT);
    tailor_status status = tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, allocator, &house, fault);
    if (status == TAILOR_OK)
        tailor_house_free(house);
    else
        assert_ptr_equal(house, UNTOUCHED(tailor_house));
    return status;
}

/* A coat, by one of the three calls, of one of the four extents. */
static tailor_status make_coat(const tailor_allocator *allocator, int number, int way, tailor_fault *fault)
{
    tailor_house *house = NULL;
    tailor_coat *coat = UNTOUCHED(tailor_coat), *before = coat_of(number, number % 4);
    double client[TAILOR_FIELD_COUNT];
    order_make(number, client, TAILOR_FIELD_COUNT);
    tailor_status status = tailor_house_new(NULL, 0, NULL, 0, allocator, &house, fault);
    if (status == TAILOR_OK && way == 0)
        status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, number % 4, &coat, fault);
    else if (status == TAILOR_OK && way == 1)
        status = tailor_coat_again(house, tailor_coat_fields(before, NULL), tailor_coat_origins(before, NULL),
                                   TAILOR_FIELD_COUNT, number % 4, &coat, fault);
    else if (status == TAILOR_OK)
        status = tailor_coat_of_pattern(house, tailor_coat_fields(before, NULL), NULL, TAILOR_FIELD_COUNT,
                                        tailor_coat_pattern(before), &coat, fault);
    tailor_house_free(house); /* a coat outlives its house */
    if (status == TAILOR_OK)
        tailor_coat_free(coat);
    else
        assert_ptr_equal(coat, UNTOUCHED(tailor_coat));
    tailor_coat_free(before);
    return status;
}

static tailor_status make_new(const tailor_allocator *allocator, int number, tailor_fault *fault)
{
    return make_coat(allocator, number, 0, fault);
}

static tailor_status make_again(const tailor_allocator *allocator, int number, tailor_fault *fault)
{
    return make_coat(allocator, number, 1, fault);
}

static tailor_status make_of_pattern(const tailor_allocator *allocator, int number, tailor_fault *fault)
{
    return make_coat(allocator, number, 2, fault);
}

static tailor_status make_rows(const tailor_allocator *allocator, int number, tailor_fault *fault)
{
    static const int32_t column = TAILOR_FIELD_CHEST_GIRTH;
    const int32_t wanted[] = {TAILOR_QUANTITY_COVERAGE_SCYE, TAILOR_QUANTITY_ROLL_HEIGHT};
    const double orders[] = {900.0 + number, 40};
    double quantities[4];
    tailor_house *house = NULL;
    tailor_rows *rows = UNTOUCHED(tailor_rows);
    tailor_rows_worker *worker = UNTOUCHED(tailor_rows_worker);
    tailor_status status = tailor_house_new(NULL, 0, NULL, 0, allocator, &house, fault);
    if (status == TAILOR_OK)
        status = tailor_rows_new(house, &column, 1, wanted, number % 2 ? 2 : 1, &rows, fault);
    tailor_house_free(house); /* the plan has a copy of it */
    if (status != TAILOR_OK) {
        assert_ptr_equal(rows, UNTOUCHED(tailor_rows));
        return status;
    }
    status = tailor_rows_worker_new(rows, 0, 0, &worker, fault);
    if (status == TAILOR_OK) {
        const memory *m = allocator->user;
        const int before = m->calls;
        status = tailor_rows_run(worker, orders, 2, quantities, NULL, fault);
        assert_int_equal(m->calls, before); /* nothing is allocated row by row */
        tailor_rows_worker_free(worker);
    } else {
        assert_ptr_equal(worker, UNTOUCHED(tailor_rows_worker));
    }
    tailor_rows_free(rows);
    return status;
}

static tailor_status make_sizes(const tailor_allocator *allocator, int number, tailor_fault *fault)
{
    static const int32_t columns[2] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH};
    const double rows[3][2] = {{900, 760}, {960, 820}, {1040, 915.0 + number}};
    tailor_size_table *table = UNTOUCHED(tailor_size_table);
    tailor_status status = tailor_size_table_make(columns, 2, rows[0], 3, 2, NULL, allocator, &table, fault);
    if (status == TAILOR_OK)
        tailor_size_table_free(table);
    else
        assert_ptr_equal(table, UNTOUCHED(tailor_size_table));
    return status;
}

static const struct {
    const char *name;
    act *act;
    int allocations;
} acts[] = {
    {"house", make_house, 1},      {"coat_new", make_new, 2},
    {"coat_again", make_again, 2}, {"coat_of_pattern", make_of_pattern, 2},
    {"rows", make_rows, 3},        {"size_table", make_sizes, 1},
};

static void every_allocation_fails_in_turn(void **state)
{
    (void)state;
    int drafted = 0;
    for (int number = 0; number < ORDERS; number++) {
        tailor_coat *sound = coat_of(number, TAILOR_EXTENT_NET);
        tailor_coat_free(sound);
        if (!sound)
            continue;
        drafted++;
        for (size_t i = 0; i < sizeof acts / sizeof *acts; i++) {
            memory m = {0, 0, 0};
            const tailor_allocator allocator = {give, take, &m};
            tailor_fault fault = {0};
            if (acts[i].act(&allocator, number, &fault) != TAILOR_OK)
                fail_msg("%s: %s", acts[i].name, fault.sentence);
            assert_int_equal(m.alive, 0);
            assert_int_equal(m.calls, acts[i].allocations); /* one for each object */
            for (int k = 1; k <= acts[i].allocations; k++) {
                m = (memory){0, k, 0};
                memset(&fault, 0, sizeof fault);
                assert_int_equal(acts[i].act(&allocator, number, &fault), TAILOR_NO_MEMORY);
                assert_int_equal(fault.status, TAILOR_NO_MEMORY);
                assert_string_not_equal(fault.sentence, "");
                assert_int_equal(m.alive, 0);
                m = (memory){0, k, 0};
                assert_int_equal(acts[i].act(&allocator, number, NULL), TAILOR_NO_MEMORY);
                assert_int_equal(m.alive, 0);
            }
        }
    }
    assert_true(drafted > ORDERS / 2);
}

/* A refused order costs no memory that is not given back, refused before a block is asked for or after. */
static void a_refusal_leaves_nothing(void **state)
{
    (void)state;
    static const struct {
        int field;
        double value;
        tailor_status status;
    } refused[] = {
        {TAILOR_FIELD_CHEST_GIRTH, 40, TAILOR_WRONG_UNIT},
        {TAILOR_FIELD_WAIST_GIRTH, 1700, TAILOR_CONTRADICTION},
        {TAILOR_FIELD_UPPER_ARM_GIRTH, 490, TAILOR_SLEEVE_UNSOLVED},
    };
    memory m = {0, 0, 0};
    const tailor_allocator allocator = {give, take, &m};
    tailor_house *house = NULL;
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, NULL), TAILOR_OK);
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        for (int extent = 0; extent < 4; extent++) {
            double client[TAILOR_FIELD_COUNT];
            tailor_coat *coat = UNTOUCHED(tailor_coat);
            tailor_fields_clear(client, TAILOR_FIELD_COUNT);
            client[TAILOR_FIELD_CHEST_GIRTH] = 1000;
            client[refused[i].field] = refused[i].value;
            assert_int_equal(tailor_coat_new(house, client, TAILOR_FIELD_COUNT, extent, &coat, NULL),
                             refused[i].status);
            assert_ptr_equal(coat, UNTOUCHED(tailor_coat));
            assert_int_equal(m.alive, 1); /* the house */
        }
    tailor_house_free(house);
    assert_int_equal(m.alive, 0);
}

static void freeing_nothing_is_allowed(void **state)
{
    (void)state;
    tailor_pattern_free(NULL);
    tailor_house_free(NULL);
    tailor_coat_free(NULL);
    tailor_rows_free(NULL);
    tailor_rows_worker_free(NULL);
    assert_int_equal(tailor_pattern_piece_count(NULL), 0);
}

int test_allocation(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_allocation_fails_in_turn),
        cmocka_unit_test(a_refusal_leaves_nothing),
        cmocka_unit_test(freeing_nothing_is_allowed),
    };
    return cmocka_run_group_tests_name("allocation", tests, NULL, NULL);
}

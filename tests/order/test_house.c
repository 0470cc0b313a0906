/* A house: its values checked once and by themselves, its constants filled with their defaults, copies of what was
 * given, one allocation from the allocator that it is given. */
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "base/near.h"

#define F(name) TAILOR_FIELD_##name
#define K(name) TAILOR_CONSTANT_##name

static double fields[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
static tailor_fault fault;
static char nowhere;
#define POISON ((tailor_house *)(void *)&nowhere)

static int fresh(void **state)
{
    (void)state;
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
    memset(&fault, 0, sizeof fault);
    return 0;
}

static tailor_house *must_house(void)
{
    tailor_house *house = NULL;
    if (tailor_house_new(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &house, &fault) !=
        TAILOR_OK)
        fail_msg("%s", fault.sentence);
    return house;
}

static void assert_refused(tailor_status status, int table, int index)
{
    tailor_house *house = POISON;
    memset(&fault, 0x5a, sizeof fault);
    assert_int_equal(
        tailor_house_new(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &house, &fault), status);
    assert_ptr_equal(house, POISON);
    assert_int_equal(fault.status, status);
    assert_int_equal(fault.table, table);
    assert_int_equal(fault.index, index);
    const char *end = strstr(fault.sentence, " (in the house's values)");
    assert_true(end && strlen(end) == strlen(" (in the house's values)"));
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &house, NULL),
                     status);
    assert_ptr_equal(house, POISON);
}

/* The default of a constant stands in its rule column. */
static double default_of(int constant)
{
    char *end;
    const char *rule = tailor_table_text(tailor_constant_table(), constant, TAILOR_COLUMN_RULE);
    const double value = strtod(rule, &end);
    assert_true(rule[0] != '\0' && *end == '\0');
    return value;
}

static void nothing_given_is_the_defaults(void **state)
{
    (void)state;
    tailor_house *houses[3] = {must_house(), NULL, NULL};
    size_t count;
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, NULL, &houses[1], NULL), TAILOR_OK);
    assert_int_equal(tailor_house_new(fields, 5, constants, 1, NULL, &houses[2], NULL), TAILOR_OK);
    for (int i = 0; i < 3; i++) {
        const double *row = tailor_house_fields(houses[i], &count);
        assert_int_equal(count, TAILOR_FIELD_COUNT);
        for (size_t k = 0; k < count; k++)
            assert_true(isnan(row[k]));
        row = tailor_house_constants(houses[i], &count);
        assert_int_equal(count, TAILOR_CONSTANT_COUNT);
        assert_true(isnan(row[0]));
        for (int place = 0, number; (number = tailor_table_at(tailor_constant_table(), place)) != 0; place++)
            assert_near(row[number], default_of(number), 0);
        tailor_house_free(houses[i]);
    }
}

static void what_is_given_stands(void **state)
{
    (void)state;
    const tailor_table *table = tailor_constant_table();
    for (int place = 0, number; (number = tailor_table_at(table, place)) != 0; place++) {
        fresh(NULL);
        constants[number] = place % 2 ? tailor_table_high(table, number) : tailor_table_low(table, number);
        fields[F(LAPEL_WIDTH)] = 95;
        tailor_house *house = must_house();
        for (int i = 1; i < TAILOR_CONSTANT_COUNT; i++)
            if (i == number)
                assert_true(tailor_house_constants(house, NULL)[i] == constants[number]);
            else if (tailor_table_text(table, i, TAILOR_COLUMN_NAME)[0])
                assert_near(tailor_house_constants(house, NULL)[i], default_of(i), 0);
        for (int i = 0; i < TAILOR_FIELD_COUNT; i++)
            assert_true(i == F(LAPEL_WIDTH) ? tailor_house_fields(house, NULL)[i] == 95
                                            : isnan(tailor_house_fields(house, NULL)[i]));
        tailor_house_free(house);
    }
}

/* No house at all reads as nothing, and resolves as one that gives nothing. */
static void null_is_nobody(void **state)
{
    (void)state;
    size_t count = 7;
    assert_null(tailor_house_fields(NULL, &count));
    assert_int_equal(count, 0);
    count = 7;
    assert_null(tailor_house_constants(NULL, &count));
    assert_int_equal(count, 0);
    assert_true(!tailor_house_fields(NULL, NULL) && !tailor_house_constants(NULL, NULL));
    tailor_house_free(NULL);

    double client[TAILOR_FIELD_COUNT], with[TAILOR_FIELD_COUNT], without[TAILOR_FIELD_COUNT];
    double altered[2][TAILOR_FIELD_COUNT];
    tailor_house *house = must_house();
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[F(CHEST_GIRTH)] = 1000;
    assert_int_equal(tailor_order_resolve(house, client, TAILOR_FIELD_COUNT, with, NULL, TAILOR_FIELD_COUNT, NULL),
                     TAILOR_OK);
    assert_int_equal(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, without, NULL, TAILOR_FIELD_COUNT, NULL),
                     TAILOR_OK);
    assert_memory_equal(with, without, sizeof with);
    assert_int_equal(tailor_order_alter(house, client, NULL, altered[0], TAILOR_FIELD_COUNT, NULL), TAILOR_OK);
    assert_int_equal(tailor_order_alter(NULL, client, NULL, altered[1], TAILOR_FIELD_COUNT, NULL), TAILOR_OK);
    assert_memory_equal(altered[0], altered[1], sizeof altered[0]);
    tailor_house_free(house);
}

/* The caller's arrays may change, and go, once the house is made. */
static void it_has_copies(void **state)
{
    (void)state;
    double *given = malloc(sizeof fields), *own = malloc(sizeof constants), row[TAILOR_FIELD_COUNT];
    double client[TAILOR_FIELD_COUNT];
    tailor_house *house = NULL;
    assert_true(given && own);
    memcpy(given, fields, sizeof fields);
    memcpy(own, constants, sizeof constants);
    given[F(LAPEL_WIDTH)] = 99;
    own[K(HOLLOW_SHARE)] = 0.3;
    assert_int_equal(tailor_house_new(given, TAILOR_FIELD_COUNT, own, TAILOR_CONSTANT_COUNT, NULL, &house, NULL),
                     TAILOR_OK);
    given[F(LAPEL_WIDTH)] = 5000;
    own[K(HOLLOW_SHARE)] = INFINITY;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[F(CHEST_GIRTH)] = 1000;
    assert_int_equal(tailor_order_resolve(house, client, TAILOR_FIELD_COUNT, row, NULL, TAILOR_FIELD_COUNT, NULL),
                     TAILOR_OK);
    assert_true(row[F(LAPEL_WIDTH)] == 99);
    free(given);
    free(own);
    assert_true(tailor_house_fields(house, NULL)[F(LAPEL_WIDTH)] == 99);
    assert_true(tailor_house_constants(house, NULL)[K(HOLLOW_SHARE)] == 0.3);
    tailor_house_free(house);
}

/* ---- refusals: once, when it is made; each with whose value it was */

static void a_value_by_itself(void **state)
{
    (void)state;
    const tailor_table *tables[2] = {tailor_field_table(), tailor_constant_table()};
    for (int t = 0; t < 2; t++)
        for (int place = 0, number; (number = tailor_table_at(tables[t], place)) != 0; place++) {
            const int choice = tailor_table_choices(tables[t], number) != NULL;
            const double low = tailor_table_low(tables[t], number), high = tailor_table_high(tables[t], number);
            const int outside = choice ? TAILOR_NOT_A_CHOICE : TAILOR_OUT_OF_RANGE;
            const struct {
                double value;
                int status;
            } bad[] = {{nextafter(low, -INFINITY), outside},
                       {nextafter(high, INFINITY), outside},
                       {-INFINITY, TAILOR_NOT_FINITE},
                       {INFINITY, TAILOR_NOT_FINITE}};
            double *row = t ? constants : fields;
            for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
                fresh(NULL);
                row[number] = bad[i].value;
                assert_refused(bad[i].status, t ? TAILOR_TABLE_CONSTANT : TAILOR_TABLE_FIELD, number);
                assert_non_null(strstr(fault.sentence, tailor_table_text(tables[t], number, TAILOR_COLUMN_NAME)));
            }
        }
    fresh(NULL);
    fields[F(CHEST_GIRTH)] = 40;
    assert_refused(TAILOR_WRONG_UNIT, TAILOR_TABLE_FIELD, F(CHEST_GIRTH));
    assert_string_equal(fault.sentence, "chest_girth 40 mm is too small: 700 to 1600 mm is allowed; did you mean 40 in "
                                        "(1016 mm)? (in the house's values)");
    fields[F(CHEST_GIRTH)] = NAN;
    fields[F(LAPEL)] = 1.5;
    assert_refused(TAILOR_NOT_A_CHOICE, TAILOR_TABLE_FIELD, F(LAPEL));
}

/* Fields are looked at before constants. What two fields are to one another depends on the client: it is resolving that
 * looks at it. */
static void what_is_looked_at(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    (void)state;
    fields[F(LAPEL_WIDTH)] = 900;
    constants[K(HOLLOW_SHARE)] = 7;
    assert_refused(TAILOR_OUT_OF_RANGE, TAILOR_TABLE_FIELD, F(LAPEL_WIDTH));
    fields[F(LAPEL_WIDTH)] = NAN;
    assert_refused(TAILOR_OUT_OF_RANGE, TAILOR_TABLE_CONSTANT, K(HOLLOW_SHARE));
    constants[K(HOLLOW_SHARE)] = NAN;
    fields[F(WAIST_GIRTH)] = 1700; /* sound for some men */
    tailor_house *house = must_house();
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[F(CHEST_GIRTH)] = 900;
    assert_int_equal(tailor_order_resolve(house, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault),
                     TAILOR_CONTRADICTION);
    client[F(CHEST_GIRTH)] = 1550;
    assert_int_equal(tailor_order_resolve(house, client, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault), TAILOR_OK);
    tailor_house_free(house);
}

static void unknown_numbers(void **state)
{
    enum { LONG = TAILOR_FIELD_COUNT + TAILOR_CONSTANT_COUNT };
    double longer[LONG];
    (void)state;
    fields[0] = 0;
    assert_refused(TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_FIELD, 0);
    fields[0] = NAN;
    constants[0] = 1;
    assert_refused(TAILOR_UNKNOWN_FIELD, TAILOR_TABLE_CONSTANT, 0);
    tailor_fields_clear(longer, LONG);
    for (int past = 0; past < 3; past++) {
        tailor_house *house = NULL;
        assert_int_equal(tailor_house_new(longer, LONG, longer, LONG, NULL, &house, NULL), TAILOR_OK);
        tailor_house_free(house);
        house = POISON;
        longer[TAILOR_FIELD_COUNT + past] = 1;
        assert_int_equal(tailor_house_new(longer, LONG, NULL, 0, NULL, &house, &fault), TAILOR_UNKNOWN_FIELD);
        assert_true(fault.table == TAILOR_TABLE_FIELD && fault.index == TAILOR_FIELD_COUNT + past);
        longer[TAILOR_FIELD_COUNT + past] = NAN;
        longer[TAILOR_CONSTANT_COUNT + past] = 1;
        assert_int_equal(tailor_house_new(NULL, 0, longer, LONG, NULL, &house, &fault), TAILOR_UNKNOWN_FIELD);
        assert_true(fault.table == TAILOR_TABLE_CONSTANT && fault.index == TAILOR_CONSTANT_COUNT + past);
        longer[TAILOR_CONSTANT_COUNT + past] = NAN;
        assert_ptr_equal(house, POISON);
    }
}

static void bad_calls(void **state)
{
    (void)state;
    tailor_house *house = POISON;
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, NULL, NULL, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, NULL, NULL, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_house_new(NULL, 1, NULL, 0, NULL, &house, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 1, NULL, &house, &fault), TAILOR_BAD_ARGUMENT);
    assert_ptr_equal(house, POISON);
}

/* ---- its allocator; what is made from it comes from there too: tests/ground/test_allocation.c */

struct memory {
    int calls, alive, fail;
    size_t bytes;
};

static void *give(void *user, size_t bytes)
{
    struct memory *m = user;
    m->calls++;
    m->bytes = bytes;
    if (m->fail)
        return NULL;
    m->alive++;
    return malloc(bytes);
}

static void take(void *user, void *block)
{
    struct memory *m = user;
    m->alive -= block != NULL;
    free(block);
}

static void its_allocator(void **state)
{
    (void)state;
    struct memory m = {0, 0, 0, 0};
    tailor_allocator allocator = {give, take, &m};
    tailor_house *house = NULL;
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, &allocator, &house, NULL), TAILOR_OK);
    memset(&allocator, 0, sizeof allocator); /* it was copied */
    assert_true(m.calls == 1 && m.alive == 1);
    assert_in_range(m.bytes, 2000, 4000); /* order.h says some 3 KB */
    tailor_house_free(house);
    assert_int_equal(m.alive, 0);

    allocator = (tailor_allocator){give, take, &m};
    m = (struct memory){0, 0, 1, 0};
    house = POISON;
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, &fault), TAILOR_NO_MEMORY);
    assert_int_equal(fault.status, TAILOR_NO_MEMORY);
    assert_ptr_equal(house, POISON);
    fields[F(LAPEL_WIDTH)] = 900; /* what is refused asks for no memory */
    m = (struct memory){0, 0, 0, 0};
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, &allocator, &house, NULL),
                     TAILOR_OUT_OF_RANGE);
    assert_int_equal(m.calls, 0);
    assert_ptr_equal(house, POISON);
}

int test_house(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(nothing_given_is_the_defaults, fresh),
        cmocka_unit_test_setup(what_is_given_stands, fresh),
        cmocka_unit_test_setup(null_is_nobody, fresh),
        cmocka_unit_test_setup(it_has_copies, fresh),
        cmocka_unit_test_setup(a_value_by_itself, fresh),
        cmocka_unit_test_setup(what_is_looked_at, fresh),
        cmocka_unit_test_setup(unknown_numbers, fresh),
        cmocka_unit_test_setup(bad_calls, fresh),
        cmocka_unit_test_setup(its_allocator, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

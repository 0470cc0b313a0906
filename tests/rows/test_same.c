/* Rows answer what coats answer, to the bit, whatever is wanted and however they are cut, strided or shared among
 * threads. */
#include "draft/making.h"
#include "matrix.h"
#include <pthread.h>

static void rows_are_coats(void **state)
{
    (void)state;
    matrix m = matrix_make();
    int seen[1000] = {0}, extent = 0;
    for (size_t i = 0; i < m.wanted_count; i++)
        extent |= extent_of(m.wanted[i]);
    assert_int_equal(matrix_run(&m, 0, ROWS, m.worker), TAILOR_OK);
    for (int row = 0; row < ROWS; row++) {
        double client[TAILOR_FIELD_COUNT];
        client_of(row, client);
        seen[assert_is_the_coat(NULL, client, extent, &m.verdicts[row], m.quantities + (size_t)row * m.wanted_count,
                                m.wanted, m.wanted_count, NULL)]++;
    }
    assert_true(seen[TAILOR_OK] > ROWS / 2); /* and the rest is refused in many ways */
    assert_true(seen[TAILOR_WRONG_UNIT] && seen[TAILOR_OUT_OF_RANGE] && seen[TAILOR_NOT_A_CHOICE]);
    assert_true(seen[TAILOR_CONTRADICTION] && seen[TAILOR_NOT_FINITE] && seen[TAILOR_MISSING]);
    assert_true(seen[TAILOR_SLEEVE_UNSOLVED]);
    matrix_free(&m);
}

/* Thousands of orders of every kind: men as they are, any style on them, values from the whole of their ranges and from
 * the ends; each with another set of wanted quantities, so that every extent comes. */
static void any_orders_to_any_extent(void **state)
{
    (void)state;
    enum { CHUNK = 50 };
    static const struct drawing drawings[] = {{1, 0, 1}, {1, 0.5, 0.6}, {1, 0.5, 1}, {0, 0.1, 1}, {0, 0.3, 0}};
    static double orders[CHUNK][TAILOR_FIELD_COUNT - 1], quantities[CHUNK][TAILOR_QUANTITY_COUNT];
    struct dice d = {29};
    int32_t columns[TAILOR_FIELD_COUNT - 1], by_need[EXTENTS_MOST][TAILOR_QUANTITY_COUNT];
    size_t have[EXTENTS_MOST] = {0};
    int good = 0, failed = 0, cautioned = 0, extents[EXTENTS_MOST] = {0}, tried = 0;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        columns[i - 1] = i;
    for (int q = 1; q < TAILOR_QUANTITY_COUNT; q++)
        if (has_row(tailor_quantity_table(), q)) {
            const int need = extent_of(q);
            by_need[need][have[need]++] = q;
        }
    for (int chunk = 0; chunk < how_many(80, 1200); chunk++) {
        int32_t wanted[TAILOR_QUANTITY_COUNT];
        size_t want = 0;
        int extent = 0;
        /* Some of the net ones, and one of each kind that the extent in turn is made of. */
        for (int need = 0; need < EXTENTS_MOST; need++)
            for (size_t i = 0; i < have[need]; i++)
                if (need == 0 ? even(&d) < 0.4 : (chunk % EXTENTS_MOST & need) && i == (size_t)chunk % have[need]) {
                    wanted[want++] = by_need[need][i];
                    extent |= need;
                }
        extents[extent]++;
        tailor_rows *plan = NULL;
        assert_int_equal(tailor_rows_new(NULL, columns, TAILOR_FIELD_COUNT - 1, wanted, want, &plan, NULL), TAILOR_OK);
        tailor_rows_worker *worker = must_worker(plan);
        static tailor_verdict verdicts[CHUNK];
        for (int row = 0; row < CHUNK; row++) {
            double client[TAILOR_FIELD_COUNT];
            draw_client(&d, client, drawings[(chunk + row) % 5]);
            memcpy(orders[row], client + 1, sizeof orders[row]);
        }
        memset(verdicts, 0x5a, sizeof verdicts);
        assert_int_equal(tailor_rows_run(worker, orders[0], CHUNK, quantities[0], verdicts, NULL), TAILOR_OK);
        for (int row = 0; row < CHUNK; row++, tried++) {
            double client[TAILOR_FIELD_COUNT] = {NAN};
            memcpy(client + 1, orders[row], sizeof orders[row]);
            const tailor_status status = assert_is_the_coat(NULL, client, extent, &verdicts[row],
                                                            quantities[0] + (size_t)row * want, wanted, want, NULL);
            good += status == TAILOR_OK;
            failed += status == TAILOR_CHECK_FAILED;
            cautioned += (verdicts[row].cautions[0] & 2) != 0; /* the scye is much deeper */
        }
        tailor_rows_worker_free(worker);
        tailor_rows_free(plan);
    }
    print_message("# %d rows are their coats: %d good, %d of which a check fails, %d with a much deeper scye\n", tried,
                  good, failed, cautioned);
    assert_true(good > tried / 4 && good < tried && failed > 0 && cautioned > 0);
    for (int need = 0; need < EXTENTS_MOST; need++)
        assert_true(extents[need] > 0 || have[need & TAILOR_EXTENT_MAKE] == 0);
}

static void chunks_do_not_matter(void **state)
{
    (void)state;
    static const size_t sizes[] = {1, 7, 64, 299};
    matrix whole = matrix_make();
    assert_int_equal(matrix_run(&whole, 0, ROWS, whole.worker), TAILOR_OK);
    for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
        matrix m = matrix_make();
        for (size_t first = ROWS; first > 0;) { /* from the last to the first */
            size_t count = first < sizes[k] ? first : sizes[k];
            first -= count;
            assert_int_equal(matrix_run(&m, first, count, m.worker), TAILOR_OK);
        }
        assert_all_same(m.quantities, whole.quantities, ROWS * m.wanted_count);
        assert_memory_equal(m.verdicts, whole.verdicts, sizeof m.verdicts);
        matrix_free(&m);
    }
    matrix_free(&whole);
}

typedef struct share {
    matrix *m;
    size_t first, count;
    tailor_status status;
} share;

static void *work(void *given)
{
    share *s = given;
    tailor_rows_worker *worker = NULL;
    s->status = tailor_rows_worker_new(s->m->plan, 0, 0, &worker, NULL);
    for (size_t row = s->first; row < s->first + s->count && s->status == TAILOR_OK; row++)
        s->status = matrix_run(s->m, row, 1, worker);
    tailor_rows_worker_free(worker);
    return NULL;
}

/* Two workers of one plan, each in a thread of its own. */
static void threads_do_not_matter(void **state)
{
    (void)state;
    matrix one = matrix_make(), two = matrix_make();
    share shares[2] = {{&two, 0, ROWS / 2, TAILOR_OK}, {&two, ROWS / 2, ROWS - ROWS / 2, TAILOR_OK}};
    pthread_t threads[2];
    assert_int_equal(matrix_run(&one, 0, ROWS, one.worker), TAILOR_OK);
    for (int i = 0; i < 2; i++)
        assert_int_equal(pthread_create(&threads[i], NULL, work, &shares[i]), 0);
    for (int i = 0; i < 2; i++) {
        pthread_join(threads[i], NULL);
        assert_int_equal(shares[i].status, TAILOR_OK);
    }
    assert_all_same(two.quantities, one.quantities, ROWS * one.wanted_count);
    assert_memory_equal(two.verdicts, one.verdicts, sizeof one.verdicts);
    matrix_free(&one);
    matrix_free(&two);
}

/* A part of a wider matrix is read where it lies, and what lies between the answers is not touched. */
static void strides(void **state)
{
    (void)state;
    enum { COLUMNS = 3, WIDE = 11, WANTED = 2, APART = 5 };
    static const int32_t columns[COLUMNS] = {TAILOR_FIELD_BUTTONING, TAILOR_FIELD_CHEST_GIRTH,
                                             TAILOR_FIELD_WAIST_GIRTH};
    static const int32_t wanted[WANTED] = {TAILOR_QUANTITY_BREAK_LENGTH, TAILOR_QUANTITY_COVERAGE_SCYE};
    static double wide[ROWS][WIDE], apart[ROWS][APART];
    static tailor_verdict verdicts[ROWS];
    tailor_rows *plan = NULL;
    tailor_rows_worker *worker = NULL;
    for (int row = 0; row < ROWS; row++) {
        double client[TAILOR_FIELD_COUNT];
        order_make(row, client, TAILOR_FIELD_COUNT);
        for (int i = 0; i < WIDE; i++)
            wide[row][i] = i % 2 ? INFINITY : -1; /* would be refused if it were looked at */
        for (int i = 0; i < COLUMNS; i++)
            wide[row][4 + i] = client[columns[i]];
        for (int i = 0; i < APART; i++)
            apart[row][i] = row;
    }
    assert_int_equal(tailor_rows_new(NULL, columns, COLUMNS, wanted, WANTED, &plan, NULL), TAILOR_OK);
    assert_int_equal(tailor_rows_worker_new(plan, WIDE, APART, &worker, NULL), TAILOR_OK);
    assert_int_equal(tailor_rows_run(worker, &wide[0][4], ROWS, &apart[0][1], verdicts, NULL), TAILOR_OK);
    for (int row = 0; row < ROWS; row++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        for (int i = 0; i < COLUMNS; i++)
            client[columns[i]] = wide[row][4 + i];
        assert_is_the_coat(NULL, client, TAILOR_EXTENT_NET, &verdicts[row], &apart[row][1], wanted, WANTED, NULL);
        assert_true(apart[row][0] == row && apart[row][3] == row && apart[row][4] == row);
    }
    tailor_rows_worker_free(worker);
    /* A stride that is just its row is that of 0, for either matrix. */
    static double packed[2][ROWS][WANTED], tight[ROWS][COLUMNS];
    for (int row = 0; row < ROWS; row++)
        memcpy(tight[row], &wide[row][4], sizeof tight[row]);
    for (size_t k = 0; k < 2; k++) {
        assert_int_equal(tailor_rows_worker_new(plan, k * COLUMNS, k * WANTED, &worker, NULL), TAILOR_OK);
        assert_int_equal(tailor_rows_run(worker, tight[0], ROWS, packed[k][0], NULL, NULL), TAILOR_OK);
        tailor_rows_worker_free(worker);
    }
    assert_all_same(packed[0][0], packed[1][0], ROWS * WANTED);
    for (int row = 0; row < ROWS; row++)
        assert_all_same(packed[0][row], &apart[row][1], WANTED);
    tailor_rows_free(plan);
}

/* The house stands where a row gives nothing, as for a coat; its arrays may be shorter than the library knows. The plan
 * has a copy of it. */
static void the_house_stands_below(void **state)
{
    (void)state;
    static const int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_LAPEL_WIDTH},
                         wanted[] = {TAILOR_QUANTITY_LAPEL_AREA};
    static const double orders[3][2] = {{1000, NAN}, {1000, 95}, {NAN, NAN}};
    double fields[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT], areas[3];
    tailor_verdict verdicts[3];
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
    fields[TAILOR_FIELD_LAPEL_WIDTH] = 80;
    constants[TAILOR_CONSTANT_BLADE_EASE] = 5;
    for (int way = 0; way < 3; way++) {
        const int shorter = way == 1;
        tailor_house *house = NULL;
        tailor_rows *plan = NULL;
        if (way == 2)
            fields[TAILOR_FIELD_CHEST_GIRTH] = 1000; /* now the last row has a chest too */
        assert_int_equal(tailor_house_new(fields, shorter ? TAILOR_FIELD_LAPEL_WIDTH + 1 : TAILOR_FIELD_COUNT,
                                          constants, shorter ? TAILOR_CONSTANT_BLADE_EASE + 1 : TAILOR_CONSTANT_COUNT,
                                          NULL, &house, NULL),
                         TAILOR_OK);
        assert_int_equal(tailor_rows_new(house, columns, 2, wanted, 1, &plan, NULL), TAILOR_OK);
        tailor_rows_worker *worker = must_worker(plan);
        tailor_house_free(house);
        assert_int_equal(tailor_rows_run(worker, orders[0], 3, areas, verdicts, NULL), TAILOR_OK);
        assert_int_equal(
            tailor_house_new(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &house, NULL),
            TAILOR_OK);
        for (int row = 0; row < 3; row++) {
            double client[TAILOR_FIELD_COUNT];
            tailor_fields_clear(client, TAILOR_FIELD_COUNT);
            client[columns[0]] = orders[row][0];
            client[columns[1]] = orders[row][1];
            assert_is_the_coat(house, client, TAILOR_EXTENT_NET, &verdicts[row], &areas[row], wanted, 1, NULL);
        }
        assert_true(areas[0] < areas[1]); /* 80 of the house's, 95 of the client's */
        assert_int_equal(verdicts[2].status, way == 2 ? TAILOR_OK : TAILOR_MISSING);
        if (way == 2)
            assert_same(areas[2], areas[0]);
        tailor_house_free(house);
        tailor_rows_worker_free(worker);
        tailor_rows_free(plan);
    }
    /* And no column at all is enough, of as many rows as are asked for. */
    tailor_house *house = NULL;
    tailor_rows *plan = NULL;
    double alone[4];
    assert_int_equal(tailor_house_new(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &house, NULL),
                     TAILOR_OK);
    assert_int_equal(tailor_rows_new(house, NULL, 0, wanted, 1, &plan, NULL), TAILOR_OK);
    tailor_rows_worker *worker = must_worker(plan);
    assert_int_equal(tailor_rows_run(worker, NULL, 4, alone, NULL, NULL), TAILOR_OK);
    for (int row = 0; row < 4; row++)
        assert_same(alone[row], areas[0]);
    tailor_rows_worker_free(worker);
    tailor_rows_free(plan);
    tailor_house_free(house);
}

/* With nothing wanted each coat is measured and checked all the same. */
static void nothing_wanted_is_checked(void **state)
{
    (void)state;
    matrix m = matrix_make();
    static tailor_verdict verdicts[ROWS];
    tailor_rows *plan = NULL;
    assert_int_equal(matrix_run(&m, 0, ROWS, m.worker), TAILOR_OK);
    assert_int_equal(tailor_rows_new(NULL, m.columns, m.column_count, NULL, 0, &plan, NULL), TAILOR_OK);
    tailor_rows_worker *worker = must_worker(plan);
    assert_int_equal(tailor_rows_run(worker, m.orders, ROWS, NULL, verdicts, NULL), TAILOR_OK);
    assert_memory_equal(verdicts, m.verdicts, sizeof verdicts); /* cautions and all */
    tailor_rows_worker_free(worker);
    tailor_rows_free(plan);
    matrix_free(&m);
}

/* A house that goes to the end of what one of its constants may be, and an order of which a check then fails. */
static tailor_house *find_failing_check(double *client)
{
    const tailor_table *table = tailor_constant_table();
    for (int number = 2; number < 2 * TAILOR_CONSTANT_COUNT; number++)
        for (int order = 0; order < 10; order++) {
            double constants[TAILOR_CONSTANT_COUNT];
            const int constant = number / 2;
            tailor_house *house = NULL;
            tailor_coat *coat = NULL;
            tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
            constants[constant] = number % 2 ? tailor_table_high(table, constant) : tailor_table_low(table, constant);
            order_make(order, client, TAILOR_FIELD_COUNT);
            assert_int_equal(tailor_house_new(NULL, 0, constants, TAILOR_CONSTANT_COUNT, NULL, &house, NULL),
                             TAILOR_OK);
            tailor_status status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL);
            tailor_coat_free(coat);
            if (status == TAILOR_CHECK_FAILED)
                return house;
            tailor_house_free(house);
        }
    fail_msg("every order passes every check");
    return NULL;
}

/* A coat of which a check fails is refused like any other, whether something is wanted of it or not. */
static void a_check_that_fails(void **state)
{
    (void)state;
    matrix m = matrix_make();
    double client[TAILOR_FIELD_COUNT], order[TAILOR_FIELD_COUNT], quantity = 7;
    tailor_house *house = find_failing_check(client);
    for (size_t i = 0; i < m.column_count; i++)
        order[i] = client[m.columns[i]];
    for (size_t wanted = 0; wanted <= 1; wanted++) {
        tailor_rows *plan = NULL;
        tailor_verdict verdict;
        tailor_fault is, expands;
        assert_int_equal(tailor_rows_new(house, m.columns, m.column_count, m.wanted, wanted, &plan, NULL), TAILOR_OK);
        tailor_rows_worker *worker = must_worker(plan);
        assert_int_equal(tailor_rows_run(worker, order, 1, &quantity, &verdict, NULL), TAILOR_OK);
        assert_int_equal(verdict.status, TAILOR_CHECK_FAILED);
        assert_is_the_coat(house, client, TAILOR_EXTENT_NET, &verdict, &quantity, m.wanted, wanted, &is);
        assert_int_equal(isnan(quantity), wanted);
        tailor_verdict_fault(&verdict, &expands);
        assert_true(expands.table == is.table && expands.index == is.index);
        assert_same(expands.value, is.value);
        assert_same(expands.low, is.low);
        assert_same(expands.high, is.high);
        size_t same = strcspn(is.sentence, ":") + 2; /* "check NAME: value, ..." up to what to look at */
        assert_memory_equal(expands.sentence, is.sentence, same + strcspn(is.sentence + same, ":"));
        tailor_rows_worker_free(worker);
        tailor_rows_free(plan);
    }
    tailor_house_free(house);
    matrix_free(&m);
}

int test_same(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_coats),
        cmocka_unit_test(any_orders_to_any_extent),
        cmocka_unit_test(chunks_do_not_matter),
        cmocka_unit_test(threads_do_not_matter),
        cmocka_unit_test(strides),
        cmocka_unit_test(the_house_stands_below),
        cmocka_unit_test(nothing_wanted_is_checked),
        cmocka_unit_test(a_check_that_fails),
    };
    return cmocka_run_group_tests_name("rows are coats", tests, NULL, NULL);
}

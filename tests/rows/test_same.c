/* Rows answer what the scalar calls answer, to the bit, however they are cut, strided or shared among threads. */
#include "matrix.h"
#include <pthread.h>

static void rows_are_scalar_calls(void **state)
{
    (void)state;
    matrix m = matrix_make();
    int seen[1000] = {0}, good = 0;
    assert_int_equal(matrix_measure(&m, 0, ROWS, m.workspace), TAILOR_OK);
    for (int row = 0; row < ROWS; row++) {
        double client[TAILOR_FIELD_COUNT], quantities[TAILOR_QUANTITY_COUNT];
        client_of(row, client);
        tailor_status status = scalar(client, NULL, NULL, quantities, NULL);
        assert_int_equal(m.statuses[row], status);
        for (size_t i = 0; i < m.wanted_count; i++)
            assert_same(m.quantities[(size_t)row * m.wanted_count + i], quantities[m.wanted[i]]);
        seen[status]++;
        good += status == TAILOR_OK;
    }
    assert_true(good > ROWS / 2); /* and the rest is refused in many ways */
    assert_true(seen[TAILOR_WRONG_UNIT] && seen[TAILOR_OUT_OF_RANGE] && seen[TAILOR_NOT_A_CHOICE]);
    assert_true(seen[TAILOR_CONTRADICTION] && seen[TAILOR_NOT_FINITE] && seen[TAILOR_MISSING]);
    assert_true(seen[TAILOR_SLEEVE_UNSOLVED]);
    matrix_free(&m);
}

static void chunks_do_not_matter(void **state)
{
    (void)state;
    static const size_t sizes[] = {1, 7, 64, 299};
    matrix whole = matrix_make();
    assert_int_equal(matrix_measure(&whole, 0, ROWS, whole.workspace), TAILOR_OK);
    for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
        matrix m = matrix_make();
        for (size_t first = ROWS; first > 0;) { /* from the last to the first */
            size_t count = first < sizes[k] ? first : sizes[k];
            first -= count;
            assert_int_equal(matrix_measure(&m, first, count, m.workspace), TAILOR_OK);
        }
        assert_all_same(m.quantities, whole.quantities, ROWS * m.wanted_count);
        assert_memory_equal(m.statuses, whole.statuses, sizeof m.statuses);
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
    void *workspace = malloc(tailor_rows_workspace_bytes());
    for (size_t row = s->first; row < s->first + s->count && s->status == TAILOR_OK; row++)
        s->status = workspace ? matrix_measure(s->m, row, 1, workspace) : TAILOR_NO_MEMORY;
    free(workspace);
    return NULL;
}

static void threads_do_not_matter(void **state)
{
    (void)state;
    matrix one = matrix_make(), two = matrix_make();
    share shares[2] = {{&two, 0, ROWS / 2, TAILOR_OK}, {&two, ROWS / 2, ROWS - ROWS / 2, TAILOR_OK}};
    pthread_t threads[2];
    assert_int_equal(matrix_measure(&one, 0, ROWS, one.workspace), TAILOR_OK);
    for (int i = 0; i < 2; i++)
        assert_int_equal(pthread_create(&threads[i], NULL, work, &shares[i]), 0);
    for (int i = 0; i < 2; i++) {
        pthread_join(threads[i], NULL);
        assert_int_equal(shares[i].status, TAILOR_OK);
    }
    assert_all_same(two.quantities, one.quantities, ROWS * one.wanted_count);
    assert_memory_equal(two.statuses, one.statuses, sizeof one.statuses);
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
    void *workspace = malloc(tailor_rows_workspace_bytes());
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
    assert_int_equal(tailor_rows_measure(columns, COLUMNS, &wide[0][4], ROWS, WIDE, NULL, 0, NULL, 0, wanted, WANTED,
                                         &apart[0][1], APART, NULL, NULL, workspace, tailor_rows_workspace_bytes(),
                                         NULL),
                     TAILOR_OK);
    for (int row = 0; row < ROWS; row++) {
        double client[TAILOR_FIELD_COUNT], quantities[TAILOR_QUANTITY_COUNT];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        for (int i = 0; i < COLUMNS; i++)
            client[columns[i]] = wide[row][4 + i];
        scalar(client, NULL, NULL, quantities, NULL);
        for (int i = 0; i < WANTED; i++)
            assert_same(apart[row][1 + i], quantities[wanted[i]]);
        assert_true(apart[row][0] == row && apart[row][3] == row && apart[row][4] == row);
    }
    free(workspace);
}

/* The house stands where a row gives nothing, as in the scalar call; its arrays may be shorter than the library knows.
 */
static void the_house_stands_below(void **state)
{
    (void)state;
    static const int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_LAPEL_WIDTH},
                         wanted[] = {TAILOR_QUANTITY_LAPEL_AREA};
    static const double orders[3][2] = {{1000, NAN}, {1000, 95}, {NAN, NAN}};
    double house[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT], areas[3];
    int32_t statuses[3];
    void *workspace = malloc(tailor_rows_workspace_bytes());
    tailor_fields_clear(house, TAILOR_FIELD_COUNT);
    tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
    house[TAILOR_FIELD_LAPEL_WIDTH] = 80;
    constants[TAILOR_CONSTANT_BLADE_EASE] = 5;
    for (int shorter = 0; shorter < 2; shorter++) {
        size_t house_count = shorter ? TAILOR_FIELD_LAPEL_WIDTH + 1 : TAILOR_FIELD_COUNT;
        size_t constant_count = shorter ? TAILOR_CONSTANT_BLADE_EASE + 1 : TAILOR_CONSTANT_COUNT;
        assert_int_equal(tailor_rows_measure(columns, 2, orders[0], 3, 2, house, house_count, constants, constant_count,
                                             wanted, 1, areas, 1, statuses, NULL, workspace,
                                             tailor_rows_workspace_bytes(), NULL),
                         TAILOR_OK);
        for (int row = 0; row < 3; row++) {
            double client[TAILOR_FIELD_COUNT], quantities[TAILOR_QUANTITY_COUNT];
            tailor_fields_clear(client, TAILOR_FIELD_COUNT);
            client[columns[0]] = orders[row][0];
            client[columns[1]] = orders[row][1];
            assert_int_equal(statuses[row], scalar(client, house, constants, quantities, NULL));
            assert_same(areas[row], quantities[TAILOR_QUANTITY_LAPEL_AREA]);
        }
        assert_true(areas[0] < areas[1]); /* 80 of the house's, 95 of the client's */
        assert_int_equal(statuses[2], TAILOR_MISSING);
    }
    house[TAILOR_FIELD_CHEST_GIRTH] = 1000; /* now the last row has a chest too; and no column at all is enough */
    double alone;
    assert_int_equal(tailor_rows_measure(columns, 2, orders[0], 3, 2, house, TAILOR_FIELD_COUNT, constants,
                                         TAILOR_CONSTANT_COUNT, wanted, 1, areas, 1, statuses, NULL, workspace,
                                         tailor_rows_workspace_bytes(), NULL),
                     TAILOR_OK);
    assert_int_equal(tailor_rows_measure(NULL, 0, NULL, 1, 0, house, TAILOR_FIELD_COUNT, constants,
                                         TAILOR_CONSTANT_COUNT, wanted, 1, &alone, 1, NULL, NULL, workspace,
                                         tailor_rows_workspace_bytes(), NULL),
                     TAILOR_OK);
    assert_int_equal(statuses[2], TAILOR_OK);
    assert_same(areas[2], areas[0]);
    assert_same(alone, areas[0]);
    free(workspace);
}

/* With nothing wanted a row's status is that of the draft. */
static void drafted_only(void **state)
{
    (void)state;
    matrix m = matrix_make();
    int32_t statuses[ROWS];
    assert_int_equal(matrix_measure(&m, 0, ROWS, m.workspace), TAILOR_OK);
    assert_int_equal(tailor_rows_measure(m.columns, m.column_count, m.orders, ROWS, m.column_count, NULL, 0, NULL, 0,
                                         NULL, 0, NULL, 0, statuses, NULL, m.workspace, tailor_rows_workspace_bytes(),
                                         NULL),
                     TAILOR_OK);
    for (int row = 0; row < ROWS; row++)
        assert_int_equal(statuses[row], m.statuses[row] == TAILOR_CHECK_FAILED ? TAILOR_OK : m.statuses[row]);
    matrix_free(&m);
}

/* A house that goes to the end of what one of its constants may be, and an order of which a check then fails. */
static int find_failing_check(double *client, double *constants)
{
    const tailor_table *table = tailor_constant_table();
    for (int number = 1; number < 2 * TAILOR_CONSTANT_COUNT; number++)
        for (int order = 0; order < 10; order++) {
            double quantities[TAILOR_QUANTITY_COUNT];
            int constant = number / 2;
            tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
            constants[constant] = number % 2 ? tailor_table_high(table, constant) : tailor_table_low(table, constant);
            order_make(order, client, TAILOR_FIELD_COUNT);
            if (scalar(client, NULL, constants, quantities, NULL) == TAILOR_CHECK_FAILED)
                return 1;
        }
    return 0;
}

/* A coat of which a check fails is refused like any other; drafted only, it is not looked at. */
static void a_check_that_fails(void **state)
{
    (void)state;
    matrix m = matrix_make();
    double client[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT], order[TAILOR_FIELD_COUNT];
    double quantities[TAILOR_QUANTITY_COUNT];
    int32_t status = -1;
    tailor_fault_record record;
    tailor_fault is, expands;
    assert_true(find_failing_check(client, constants));
    scalar(client, NULL, constants, quantities, &is);
    for (size_t i = 0; i < m.column_count; i++)
        order[i] = client[m.columns[i]];
    for (size_t wanted = 0; wanted <= 1; wanted++) {
        assert_int_equal(tailor_rows_measure(m.columns, m.column_count, order, 1, m.column_count, NULL, 0, constants,
                                             TAILOR_CONSTANT_COUNT, m.wanted, wanted, quantities, 1, &status, &record,
                                             m.workspace, tailor_rows_workspace_bytes(), NULL),
                         TAILOR_OK);
        assert_int_equal(status, wanted ? TAILOR_CHECK_FAILED : TAILOR_OK);
    }
    assert_true(isnan(quantities[0]));
    tailor_fault_expand(&record, &expands);
    assert_true(expands.table == is.table && expands.index == is.index);
    assert_same(expands.value, is.value);
    assert_same(expands.low, is.low);
    assert_same(expands.high, is.high);
    size_t same = strcspn(is.sentence, ":") + 2; /* "check NAME: value, ..." up to what to look at */
    assert_memory_equal(expands.sentence, is.sentence, same + strcspn(is.sentence + same, ":"));
    matrix_free(&m);
}

int test_same(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_scalar_calls),  cmocka_unit_test(chunks_do_not_matter),
        cmocka_unit_test(threads_do_not_matter),  cmocka_unit_test(strides),
        cmocka_unit_test(the_house_stands_below), cmocka_unit_test(drafted_only),
        cmocka_unit_test(a_check_that_fails),
    };
    return cmocka_run_group_tests_name("rows are scalar calls", tests, NULL, NULL);
}

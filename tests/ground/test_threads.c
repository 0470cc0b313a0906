/* No state is shared: coats made in several threads at once, in any order, are those made alone, bit for bit; one coat
 * and one plan may be read by all of them, a worker of the plan belongs to each. */
#include <math.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>
#include <tailorgeom/rows.h>
#include "orders.h"

enum { ORDERS = 64, THREADS = 4 };

/* Run one function in so many threads, each with its own part of an array. */
static void in_threads(void *(*run)(void *), void *parts, size_t bytes)
{
    pthread_t threads[THREADS];
    for (size_t i = 0; i < THREADS; i++)
        assert_int_equal(pthread_create(&threads[i], NULL, run, (char *)parts + i * bytes), 0);
    for (int i = 0; i < THREADS; i++)
        assert_int_equal(pthread_join(threads[i], NULL), 0);
}

/* ---- coats made at the same time */

typedef struct {
    int status;
    double quantities[TAILOR_QUANTITY_COUNT];
} answer;

typedef struct {
    answer answers[ORDERS];
    int step; /* odd: each thread goes through all orders, in an order of its own */
    const tailor_house *house;
} work;

static answer one(const tailor_house *house, int number)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    answer a;
    memset(&a, 0, sizeof a);
    order_make(number, client, TAILOR_FIELD_COUNT);
    a.status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, number % 4, &coat, NULL);
    if (coat)
        memcpy(a.quantities, tailor_coat_quantities(coat, NULL), sizeof a.quantities);
    tailor_coat_free(coat);
    return a;
}

static void *all(void *user)
{
    work *w = user;
    for (int i = 0; i < ORDERS; i++) {
        int number = i * w->step % ORDERS;
        w->answers[number] = one(w->house, number);
    }
    return NULL;
}

static void threads_do_not_meet(void **state)
{
    (void)state;
    static work alone, together[THREADS];
    tailor_house *house = NULL;
    int drafted = 0;
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, NULL, &house, NULL), TAILOR_OK);
    alone.step = 1;
    all(&alone);
    for (int i = 0; i < THREADS; i++) {
        together[i].step = 2 * i + 3;
        together[i].house = house; /* one for all */
    }
    in_threads(all, together, sizeof *together);
    for (int i = 0; i < THREADS; i++)
        assert_memory_equal(together[i].answers, alone.answers, sizeof alone.answers);
    for (int i = 0; i < ORDERS; i++)
        drafted += alone.answers[i].status == TAILOR_OK;
    assert_true(drafted > ORDERS / 2);
    tailor_house_free(house);
}

/* ---- one coat read by all */

enum { READINGS = 200 };

typedef struct {
    const tailor_coat *coat;
    uint64_t seen; /* of all that a coat tells */
} reader;

static void see(uint64_t *seen, const void *data, size_t bytes)
{
    const unsigned char *byte = data;
    for (size_t i = 0; i < bytes; i++)
        *seen = (*seen ^ byte[i]) * UINT64_C(1099511628211); /* FNV-1a */
}

static void see_pattern(uint64_t *seen, const tailor_pattern *pattern)
{
    size_t count;
    for (int piece = 0; piece < tailor_pattern_piece_count(pattern); piece++) {
        const tailor_cubic *path = tailor_piece_outline(pattern, piece, &count);
        see(seen, path, count * sizeof *path);
        see(seen, tailor_piece_name(pattern, piece), strlen(tailor_piece_name(pattern, piece)));
        for (int mark = 0; mark < tailor_piece_mark_count(pattern, piece); mark++) {
            path = tailor_mark_path(pattern, piece, mark, &count);
            see(seen, path, count * sizeof *path);
        }
    }
}

static void *read_coat(void *user)
{
    reader *r = user;
    const tailor_coat *coat = r->coat;
    for (int n = 0; n < READINGS; n++) {
        uint64_t seen = UINT64_C(14695981039346656037);
        size_t count;
        tailor_fault fault;
        double numbers[2];
        const tailor_point *line = tailor_coat_section(coat, &count);
        see(&seen, line, count * sizeof *line);
        see(&seen, tailor_coat_fields(coat, &count), TAILOR_FIELD_COUNT * sizeof(double));
        see(&seen, tailor_coat_origins(coat, &count), TAILOR_FIELD_COUNT * sizeof(int32_t));
        see(&seen, tailor_coat_constants(coat, &count), TAILOR_CONSTANT_COUNT * sizeof(double));
        see(&seen, tailor_coat_quantities(coat, &count), TAILOR_QUANTITY_COUNT * sizeof(double));
        for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
            tailor_coat_check(coat, check, &numbers[0], &numbers[1]);
            see(&seen, numbers, sizeof numbers);
        }
        for (int place = 0; tailor_coat_caution(coat, place, &fault); place++)
            see(&seen, &fault, sizeof fault);
        tailor_coat_status(coat, &fault);
        see(&seen, &fault, sizeof fault);
        see_pattern(&seen, tailor_coat_pattern(coat));
        if (n == 0)
            r->seen = seen;
        if (seen != r->seen) { /* cmocka's asserts belong to the first thread */
            r->seen = 0;
            return NULL;
        }
    }
    return NULL;
}

static void many_threads_read_one_coat(void **state)
{
    (void)state;
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    reader readers[THREADS], alone;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_LOW_SHOULDER_LEFT] = 8;
    assert_int_equal(
        tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION, &coat, NULL),
        TAILOR_OK);
    for (int i = 0; i < THREADS; i++)
        readers[i] = (reader){coat, 0};
    alone = readers[0];
    in_threads(read_coat, readers, sizeof *readers);
    read_coat(&alone);
    assert_true(alone.seen != 0);
    for (int i = 0; i < THREADS; i++)
        assert_true(readers[i].seen == alone.seen);
    tailor_coat_free(coat);
}

/* ---- workers of one plan */

enum { ROWS = 120 };
static const int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH, TAILOR_FIELD_BUTTONING};
static const int32_t wanted[] = {TAILOR_QUANTITY_COVERAGE_SCYE, TAILOR_QUANTITY_LAPEL_AREA,
                                 TAILOR_QUANTITY_ROLL_HEIGHT};
static double orders[ROWS][3];

typedef struct {
    const tailor_rows *rows;
    int first, every; /* the rows that this thread has; the others stay as they are */
    int done;
    double (*quantities)[3];
    tailor_verdict *verdicts;
} share;

static void *run_share(void *user)
{
    share *s = user;
    tailor_rows_worker *worker = NULL;
    if (tailor_rows_worker_new(s->rows, 0, 0, &worker, NULL) != TAILOR_OK)
        return NULL;
    for (int row = s->first; row < ROWS; row += s->every)
        s->done += tailor_rows_run(worker, orders[row], 1, s->quantities[row], &s->verdicts[row], NULL) == TAILOR_OK;
    tailor_rows_worker_free(worker);
    return NULL;
}

static void workers_of_one_plan(void **state)
{
    (void)state;
    static double alone_q[ROWS][3], together_q[ROWS][3], each_q[THREADS][ROWS][3];
    static tailor_verdict alone_v[ROWS], together_v[ROWS], each_v[THREADS][ROWS];
    share shares[THREADS];
    tailor_rows *rows = NULL;
    int good = 0;
    for (int i = 0; i < ROWS; i++) {
        double client[TAILOR_FIELD_COUNT];
        order_make(i, client, TAILOR_FIELD_COUNT);
        for (int j = 0; j < 3; j++)
            orders[i][j] = i % 9 ? client[columns[j]] : 40;
    }
    assert_int_equal(tailor_rows_new(NULL, columns, 3, wanted, 3, &rows, NULL), TAILOR_OK);
    share alone = {rows, 0, 1, 0, alone_q, alone_v};
    run_share(&alone);
    assert_int_equal(alone.done, ROWS);
    for (int i = 0; i < THREADS; i++) /* the rows shared among them */
        shares[i] = (share){rows, i, THREADS, 0, together_q, together_v};
    in_threads(run_share, shares, sizeof *shares);
    assert_memory_equal(together_q, alone_q, sizeof alone_q);
    assert_memory_equal(together_v, alone_v, sizeof alone_v);
    for (int i = 0; i < THREADS; i++) /* and all rows by each of them */
        shares[i] = (share){rows, 0, 1, 0, each_q[i], each_v[i]};
    in_threads(run_share, shares, sizeof *shares);
    for (int i = 0; i < THREADS; i++) {
        assert_int_equal(shares[i].done, ROWS);
        assert_memory_equal(each_q[i], alone_q, sizeof alone_q);
        assert_memory_equal(each_v[i], alone_v, sizeof alone_v);
    }
    for (int i = 0; i < ROWS; i++)
        good += alone_v[i].status == TAILOR_OK;
    assert_true(good > ROWS / 2 && good < ROWS);
    tailor_rows_free(rows);
}

int test_threads(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(threads_do_not_meet),
        cmocka_unit_test(many_threads_read_one_coat),
        cmocka_unit_test(workers_of_one_plan),
    };
    return cmocka_run_group_tests_name("threads", tests, NULL, NULL);
}

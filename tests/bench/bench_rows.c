/* Orders a second from C, one net quantity wanted and all of them, each coat drafted, measured and checked whole; one
 * thread, and two with a worker each. Beside it, in the same run, the peer: GEOS given the same finished pieces as
 * polygons (flattened at 0.05 mm) and asked only for their areas, lengths and validity, one coat after another.
 *
 *     bench_rows [orders]
 */
#include <geos_c.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include <tailorgeom/rows.h>

#include "../ground/orders.h"

enum { CHUNK = 1024, ROUNDS = 3, THREADS_MOST = 2 };

static size_t order_count = 40000;
static double *orders, *quantities;
static tailor_verdict *verdicts;
static int32_t columns[TAILOR_FIELD_COUNT], wanted[TAILOR_QUANTITY_COUNT];
static size_t column_count, wanted_count;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static void make_orders(void)
{
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (tailor_table_text(tailor_field_table(), i, TAILOR_COLUMN_NAME)[0])
            columns[column_count++] = i;
    for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++)
        if (tailor_table_text(tailor_quantity_table(), i, TAILOR_COLUMN_NAME)[0])
            wanted[wanted_count++] = i;
    orders = malloc(order_count * column_count * sizeof *orders);
    quantities = malloc(order_count * wanted_count * sizeof *quantities);
    verdicts = malloc(order_count * sizeof *verdicts);
    for (size_t row = 0; row < order_count; row++) {
        double client[TAILOR_FIELD_COUNT];
        order_make((int)row, client, TAILOR_FIELD_COUNT);
        for (size_t i = 0; i < column_count; i++)
            orders[row * column_count + i] = client[columns[i]];
    }
}

typedef struct share {
    const tailor_rows *rows;
    size_t first, count;
    pthread_t thread;
} share;

static void *work(void *given)
{
    share *s = given;
    tailor_rows_worker *worker = NULL;
    if (tailor_rows_worker_new(s->rows, 0, wanted_count, &worker, NULL) != TAILOR_OK)
        abort();
    for (size_t done = 0; done < s->count; done += CHUNK) {
        size_t row = s->first + done, rows = s->count - done < CHUNK ? s->count - done : CHUNK;
        if (tailor_rows_run(worker, orders + row * column_count, rows, quantities + row * wanted_count, verdicts + row,
                            NULL) != TAILOR_OK)
            abort();
    }
    tailor_rows_worker_free(worker);
    return NULL;
}

/* Seconds for all orders, best of some rounds. */
static double measure(size_t threads, const int32_t *wants, size_t wants_count)
{
    double best = 1e300;
    tailor_rows *rows = NULL;
    if (tailor_rows_new(NULL, columns, column_count, wants, wants_count, &rows, NULL) != TAILOR_OK)
        abort();
    for (int round = 0; round < ROUNDS; round++) {
        share shares[THREADS_MOST];
        double begin = now();
        for (size_t i = 0; i < threads; i++) {
            size_t first = order_count * i / threads;
            shares[i] = (share){.rows = rows, .first = first, .count = order_count * (i + 1) / threads - first};
            pthread_create(&shares[i].thread, NULL, work, &shares[i]);
        }
        for (size_t i = 0; i < threads; i++)
            pthread_join(shares[i].thread, NULL);
        double spent = now() - begin;
        best = spent < best ? spent : best;
    }
    tailor_rows_free(rows);
    return best;
}

/* The peer's part of one coat: area, length and validity of its pieces as polygons. The flattening is not timed. */
static double peer_coat(const tailor_pattern *coat, GEOSContextHandle_t geos)
{
    double spent = 0;
    for (int i = 0; i < tailor_pattern_piece_count(coat); i++) {
        static tailor_point points[20000];
        size_t count, needed = 0;
        const tailor_cubic *outline = tailor_piece_outline(coat, i, &count);
        if (tailor_path_flatten(outline, count, 0.05, points, 20000, &needed) != TAILOR_OK)
            abort();
        GEOSCoordSequence *s = GEOSCoordSeq_create_r(geos, (unsigned)needed + 1, 2);
        for (unsigned j = 0; j <= (unsigned)needed; j++)
            GEOSCoordSeq_setXY_r(geos, s, j, points[j % needed].x, points[j % needed].y);
        GEOSGeometry *polygon = GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, s), NULL, 0);
        double area = 0, length = 0, begin = now();
        GEOSArea_r(geos, polygon, &area);
        GEOSLength_r(geos, polygon, &length);
        if (!GEOSisValid_r(geos, polygon) || !(area > 0))
            abort();
        spent += now() - begin;
        GEOSGeom_destroy_r(geos, polygon);
    }
    return spent;
}

/* Seconds of the peer for one coat, over a sample of the orders. */
static double peer(void)
{
    double spent = 0;
    int coats = 0;
    GEOSContextHandle_t geos = GEOS_init_r();
    for (int number = 0; number < 400; number++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_coat *coat = NULL;
        order_make(number, client, TAILOR_FIELD_COUNT);
        if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL) == TAILOR_OK) {
            spent += peer_coat(tailor_coat_pattern(coat), geos);
            coats++;
        }
        tailor_coat_free(coat);
    }
    GEOS_finish_r(geos);
    return coats ? spent / coats : -1;
}

/* The orders as a table in a file that has no name any more; its descriptor. */
static int write_table(void)
{
    char path[] = "/tmp/bench_rows.XXXXXX";
    int fd = mkstemp(path);
    FILE *file = fd >= 0 ? fdopen(dup(fd), "w") : NULL;
    if (!file)
        return -1;
    unlink(path);
    for (size_t i = 0; i < column_count; i++)
        fprintf(file, "%s%c", tailor_table_text(tailor_field_table(), columns[i], TAILOR_COLUMN_NAME),
                i + 1 < column_count ? ',' : '\n');
    for (size_t row = 0; row < order_count; row++)
        for (size_t i = 0; i < column_count; i++) {
            double value = orders[row * column_count + i];
            const tailor_table *choices = tailor_choice_table(columns[i]);
            if (value == value && choices)
                fputs(tailor_table_text(choices, (int)value, TAILOR_COLUMN_NAME), file);
            else if (value == value)
                fprintf(file, "%.17g", value);
            fputc(i + 1 < column_count ? ',' : '\n', file);
        }
    return fclose(file) == 0 ? fd : -1;
}

static void command_line(const char *program)
{
    char command[4096];
    const char *slash = strrchr(program, '/');
    int fd = write_table();
    for (int jobs = 1; fd >= 0 && jobs <= THREADS_MOST; jobs++) {
        snprintf(command, sizeof command, "%.*s/../cli/tailorgeom rows /dev/fd/%d --jobs %d >/dev/null 2>&1",
                 slash ? (int)(slash - program) : 1, slash ? program : ".", fd, jobs);
        double begin = now();
        int status = system(command); /* 1: some order was refused */
        double spent = now() - begin;
        if (status == -1 || (status != 0 && status >> 8 != 1))
            printf("  the command line cannot be run\n");
        else
            printf("  command line, %d job%s %38.0f\n", jobs, jobs > 1 ? "s" : " ", (double)order_count / spent);
    }
    if (fd >= 0)
        close(fd);
}

int main(int argc, char **argv)
{
    if (argc > 1)
        order_count = strtoul(argv[1], NULL, 10);
    make_orders();
    double one = peer();
    const int32_t few = TAILOR_QUANTITY_COVERAGE_SCYE;
    size_t good = 0;
    printf("rows, %zu orders in chunks of %d, best of %d rounds, orders a second\n", order_count, CHUNK, ROUNDS);
    for (size_t threads = 1; threads <= THREADS_MOST; threads++) {
        double net = (double)order_count / measure(threads, &few, 1),
               all = (double)order_count / measure(threads, wanted, wanted_count);
        printf("  %zu thread%s  one net quantity %8.0f   all %zu quantities %8.0f", threads, threads > 1 ? "s" : " ",
               net, wanted_count, all);
        printf(threads == 1 ? "   (%.1f and %.1f us)\n" : "\n", 1e6 / net, 1e6 / all);
        if (threads == 1)
            printf("  peer      %.1f us: GEOS on the finished pieces, area, length and validity only; ratio %.1f\n",
                   one * 1e6, one * all);
    }
    command_line(argv[0]);
    for (size_t row = 0; row < order_count; row++)
        good += verdicts[row].status == TAILOR_OK;
    printf("  %.1f %% of the orders are good\n", 100.0 * (double)good / (double)order_count);
    free(orders);
    free(quantities);
    free(verdicts);
    return good > order_count / 2 ? 0 : 1;
}

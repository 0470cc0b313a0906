/* How long one whole coat takes: resolving its order, drafting it, measuring it. Beside it, in the same run, the peer:
 * GEOS given the same finished pieces as polygons (flattened at 0.05 mm) and asked only for their areas, lengths and
 * validity.
 *
 *     bench_coat [rounds]
 */
#include <geos_c.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <tailorgeom/coat.h>

#include "../ground/orders.h"

enum { ORDERS = 64 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static int allocations;

static void *counted(void *user, size_t bytes)
{
    (void)user;
    allocations++;
    return malloc(bytes);
}

static void release(void *user, void *memory)
{
    (void)user;
    free(memory);
}

static double row[ORDERS][TAILOR_FIELD_COUNT], constants[ORDERS][TAILOR_CONSTANT_COUNT],
    client[ORDERS][TAILOR_FIELD_COUNT];

/* Orders that draft with all checks passing. */
static int choose_orders(void)
{
    int chosen = 0;
    for (int number = 0; chosen < ORDERS && number < 10 * ORDERS; number++) {
        double q[TAILOR_QUANTITY_COUNT];
        tailor_pattern *coat = NULL;
        order_make(number, client[chosen], TAILOR_FIELD_COUNT);
        if (tailor_order_resolve(client[chosen], TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, row[chosen], TAILOR_FIELD_COUNT,
                                 NULL, 0, constants[chosen], TAILOR_CONSTANT_COUNT, NULL) != TAILOR_OK ||
            tailor_coat_draft(row[chosen], TAILOR_FIELD_COUNT, constants[chosen], TAILOR_CONSTANT_COUNT, NULL, &coat,
                              NULL) != TAILOR_OK)
            continue;
        chosen += tailor_coat_measure(coat, row[chosen], TAILOR_FIELD_COUNT, constants[chosen], TAILOR_CONSTANT_COUNT,
                                      q, TAILOR_QUANTITY_COUNT, NULL, NULL, 0, NULL) == TAILOR_OK;
        tailor_pattern_free(coat);
    }
    return chosen;
}

/* The peer's part: area, length and validity of the pieces as polygons. The flattening is not timed. */
static double peer(const tailor_pattern *coat, GEOSContextHandle_t geos)
{
    double spent = 0, sum = 0;
    for (int i = 0; i < tailor_pattern_piece_count(coat); i++) {
        static tailor_point points[20000];
        size_t count, needed = 0;
        const tailor_cubic *outline = tailor_piece_outline(coat, i, &count);
        if (tailor_path_flatten(outline, count, 0.05, points, 20000, &needed) != TAILOR_OK)
            return -1;
        GEOSCoordSequence *s = GEOSCoordSeq_create_r(geos, (unsigned)needed + 1, 2);
        for (unsigned j = 0; j <= (unsigned)needed; j++)
            GEOSCoordSeq_setXY_r(geos, s, j, points[j % needed].x, points[j % needed].y);
        GEOSGeometry *polygon = GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, s), NULL, 0);
        double area = 0, length = 0, begin = now();
        GEOSArea_r(geos, polygon, &area);
        GEOSLength_r(geos, polygon, &length);
        sum += area + length + GEOSisValid_r(geos, polygon);
        spent += now() - begin;
        GEOSGeom_destroy_r(geos, polygon);
    }
    return sum > 0 ? spent : -1;
}

int main(int argc, char **argv)
{
    int rounds = argc > 1 ? atoi(argv[1]) : 200, orders = choose_orders();
    double best[4] = {1e300, 1e300, 1e300, 1e300};
    tailor_allocator allocator = {counted, release, NULL};
    GEOSContextHandle_t geos = GEOS_init_r();
    if (orders < ORDERS)
        return fprintf(stderr, "only %d orders draft\n", orders), 1;
    for (int round = 0; round < rounds; round++) {
        double spent[4] = {0};
        for (int i = 0; i < orders; i++) {
            double q[TAILOR_QUANTITY_COUNT], value[TAILOR_CHECK_COUNT], limit[TAILOR_CHECK_COUNT];
            tailor_pattern *coat = NULL;
            double begin = now();
            tailor_order_resolve(client[i], TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, row[i], TAILOR_FIELD_COUNT, NULL, 0,
                                 constants[i], TAILOR_CONSTANT_COUNT, NULL);
            double resolved = now();
            tailor_coat_draft(row[i], TAILOR_FIELD_COUNT, constants[i], TAILOR_CONSTANT_COUNT, &allocator, &coat, NULL);
            double drafted = now();
            tailor_coat_measure(coat, row[i], TAILOR_FIELD_COUNT, constants[i], TAILOR_CONSTANT_COUNT, q,
                                TAILOR_QUANTITY_COUNT, value, limit, TAILOR_CHECK_COUNT, NULL);
            double measured = now();
            spent[0] += resolved - begin;
            spent[1] += drafted - resolved;
            spent[2] += measured - drafted;
            if (round < 5)
                spent[3] += peer(coat, geos);
            tailor_pattern_free(coat);
        }
        for (int k = 0; k < 4; k++)
            if (spent[k] > 0 && spent[k] / orders < best[k])
                best[k] = spent[k] / orders;
    }
    GEOS_finish_r(geos);
    double whole = best[0] + best[1] + best[2];
    printf("one coat, best of %d rounds over %d orders, us\n", rounds, orders);
    printf("  resolve %6.2f\n  draft   %6.2f (%.2f allocations)\n  measure %6.2f\n  whole   %6.2f: %.0f a second\n",
           best[0], best[1], (double)allocations / rounds / orders, best[2], whole, 1e6 / whole);
    printf("  peer    %6.2f: GEOS on the finished pieces, area, length and validity only; ratio %.1f\n", best[3],
           best[3] / whole);
    return 0;
}

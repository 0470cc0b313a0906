/* How long one whole coat takes, by each call that makes one and to each extent: resolved, drafted, measured, checked.
 * Beside it, in the same run, the peer: GEOS given the same finished pieces as polygons (flattened at 0.05 mm) and
 * asked only for their areas, lengths and validity.
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

static double client[ORDERS][TAILOR_FIELD_COUNT];

/* Orders that draft with all checks passing. */
static int choose_orders(void)
{
    int chosen = 0;
    for (int number = 0; chosen < ORDERS && number < 10 * ORDERS; number++) {
        tailor_coat *coat = NULL;
        order_make(number, client[chosen], TAILOR_FIELD_COUNT);
        chosen +=
            tailor_coat_new(NULL, client[chosen], TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL) == TAILOR_OK;
        tailor_coat_free(coat);
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

enum { NET, MAKE, SECTION, BOTH, AGAIN, OF_PATTERN, RESOLVE, PEER, KINDS };
static const struct {
    const char *name;
    int extent;
} kinds[KINDS] = {
    {"net", TAILOR_EXTENT_NET},
    {"with the make", TAILOR_EXTENT_MAKE},
    {"net, with the section", TAILOR_EXTENT_SECTION},
    {"make and section", TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION},
    {"again, net", TAILOR_EXTENT_NET},
    {"of its pattern", TAILOR_EXTENT_SECTION},
    {"resolved alone", 0},
    {"peer", 0},
};

/* One thing done with one order; microseconds. `net` is the same order's coat. */
static double spend(int kind, const tailor_house *house, const double *order, const tailor_coat *net,
                    GEOSContextHandle_t geos)
{
    tailor_coat *coat = NULL;
    double row[TAILOR_FIELD_COUNT], begin = now();
    switch (kind) {
    case RESOLVE:
        tailor_order_resolve(house, order, TAILOR_FIELD_COUNT, row, NULL, TAILOR_FIELD_COUNT, NULL);
        break;
    case AGAIN:
        tailor_coat_again(house, tailor_coat_fields(net, NULL), tailor_coat_origins(net, NULL), TAILOR_FIELD_COUNT,
                          kinds[kind].extent, &coat, NULL);
        break;
    case OF_PATTERN:
        tailor_coat_of_pattern(house, tailor_coat_fields(net, NULL), tailor_coat_origins(net, NULL), TAILOR_FIELD_COUNT,
                               tailor_coat_pattern(net), &coat, NULL);
        break;
    case PEER:
        return peer(tailor_coat_pattern(net), geos);
    default:
        tailor_coat_new(house, order, TAILOR_FIELD_COUNT, kinds[kind].extent, &coat, NULL);
    }
    double spent = now() - begin;
    tailor_coat_free(coat);
    return spent;
}

int main(int argc, char **argv)
{
    int rounds = argc > 1 ? atoi(argv[1]) : 100, orders = choose_orders();
    double best[KINDS];
    int asked[KINDS] = {0};
    const tailor_allocator allocator = {counted, release, NULL};
    tailor_house *house = NULL;
    GEOSContextHandle_t geos = GEOS_init_r();
    if (orders < ORDERS || tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, NULL) != TAILOR_OK)
        return fprintf(stderr, "only %d orders draft\n", orders), 1;
    for (int kind = 0; kind < KINDS; kind++)
        best[kind] = 1e300;
    for (int round = 0; round < rounds; round++) {
        double spent[KINDS] = {0};
        for (int i = 0; i < orders; i++) {
            tailor_coat *net = NULL;
            if (tailor_coat_new(house, client[i], TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &net, NULL) != TAILOR_OK)
                return 1;
            for (int kind = 0; kind < (round < 5 ? KINDS : PEER); kind++) {
                int before = allocations;
                spent[kind] += spend(kind, house, client[i], net, geos);
                asked[kind] += allocations - before;
            }
            tailor_coat_free(net);
        }
        for (int kind = 0; kind < KINDS; kind++)
            if (spent[kind] > 0 && spent[kind] / orders < best[kind])
                best[kind] = spent[kind] / orders;
    }
    GEOS_finish_r(geos);
    tailor_house_free(house);
    printf("one coat, best of %d rounds over %d orders\n", rounds, orders);
    for (int kind = 0; kind < PEER; kind++)
        printf("  %-22s %6.2f us: %7.0f a second (%.2f allocations)\n", kinds[kind].name, best[kind], 1e6 / best[kind],
               (double)asked[kind] / rounds / orders);
    printf("  %-22s %6.2f us: GEOS on the finished pieces, area, length and validity only; ratio to net %.1f\n",
           kinds[PEER].name, best[PEER], best[PEER] / best[NET]);
    return 0;
}

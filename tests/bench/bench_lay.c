/* What a lay costs: making it, an iteration, its proof; and how soon it is good, for one coat's canvas and for many
 * pieces. Shapes are made up.
 *
 *     bench_lay [seconds of search for each, 4]
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "../lay/shapes.h"

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

/* One coat's canvas: body canvas, chest piece, shoulder piece, collar canvas; grain along y. */
static const tailor_cubic body[] = {
    { { { 0, 0 }, { 80, 10 }, { 150, 40 }, { 190, 60 } } },
    { { { 190, 60 }, { 215, 250 }, { 225, 420 }, { 265, 560 } } },
    { { { 265, 560 }, { 330, 640 }, { 285, 700 }, { 250, 760 } } },
    { { { 250, 760 }, { 197, 807 }, { 143, 853 }, { 90, 900 } } },
    { { { 90, 900 }, { 85, 800 }, { 95, 730 }, { -60, 640 } } },
    { { { -60, 640 }, { -30, 450 }, { -70, 200 }, { 0, 0 } } },
};
static const tailor_cubic chest[] = {
    { { { 0, 0 }, { 73, 13 }, { 147, 27 }, { 220, 40 } } },
    { { { 220, 40 }, { 240, 140 }, { 225, 230 }, { 150, 300 } } },
    { { { 150, 300 }, { 107, 310 }, { 63, 320 }, { 20, 330 } } },
    { { { 20, 330 }, { 40, 240 }, { -20, 180 }, { -60, 150 } } },
    { { { -60, 150 }, { -40, 80 }, { -20, 40 }, { 0, 0 } } },
};
static const tailor_cubic shoulder[] = {
    { { { 0, 0 }, { 50, -17 }, { 100, -33 }, { 150, -50 } } },
    { { { 150, -50 }, { 170, 20 }, { 190, 60 }, { 230, 110 } } },
    { { { 230, 110 }, { 150, 170 }, { 80, 180 }, { 30, 170 } } },
    { { { 30, 170 }, { 40, 110 }, { 20, 60 }, { 0, 0 } } },
};
static const tailor_cubic collar[] = {
    { { { 0, 0 }, { 60, 25 }, { 130, 25 }, { 200, 0 } } },
    { { { 200, 0 }, { 205, 23 }, { 210, 47 }, { 215, 70 } } },
    { { { 215, 70 }, { 130, 105 }, { 60, 100 }, { -5, 90 } } },
    { { { -5, 90 }, { -3, 60 }, { -2, 30 }, { 0, 0 } } },
};

static double search_for = 4;

static void canvas(tailor_lay *lay, double angle)
{
    tailor_fault fault;
    const struct {
        const tailor_cubic *outline;
        size_t count;
    } pieces[] = { { body, 6 }, { chest, 5 }, { shoulder, 4 }, { collar, 4 } };
    for (int i = 0; i < 4; i++)
        if (tailor_lay_add(lay, pieces[i].outline, pieces[i].count, angle, 1, 1, 1, &fault) != TAILOR_OK)
            puts(fault.sentence);
}

static void stars(tailor_lay *lay, double copies)
{
    uint64_t chances = 11;
    for (int i = 0; i < 8; i++) {
        tailor_cubic c[64];
        const size_t n = star(&chances, 5 + (size_t)i, 30 + 12 * (double)i, 0.4, c);
        tailor_lay_add(lay, c, n, 0, 1, (int)copies, 0, NULL);
    }
}

static void measure(const char *name, double width, double gap, void (*fill)(tailor_lay *, double), double how)
{
    static const double marks[] = { 0.25, 1, 1e9 };
    tailor_lay *lay = NULL;
    tailor_fault fault;
    if (tailor_lay_new(width, gap, 0.25, 0, NULL, &lay, &fault) != TAILOR_OK)
        abort();
    fill(lay, how);
    double begin = now();
    if (tailor_lay_begin(lay, 1, &fault) != TAILOR_OK) {
        puts(fault.sentence);
        abort();
    }
    printf("%-34s %3d places, begin %6.1f ms %6.2f %%", name, tailor_lay_place_count(lay), (now() - begin) * 1e3,
           100 * tailor_lay_yield(lay));
    begin = now();
    for (int i = 0; now() - begin < search_for;) {
        tailor_lay_step(lay, 1);
        if (now() - begin > marks[i]) {
            printf(", %.2f s %6.2f %%", marks[i], 100 * tailor_lay_yield(lay));
            i++;
        }
    }
    const double each = (now() - begin) / (double)tailor_lay_iterations(lay);
    printf(", %.0f s %6.2f %%, %.0f us an iteration", search_for, 100 * tailor_lay_yield(lay), each * 1e6);
    begin = now();
    if (tailor_lay_overlap_free(lay, NULL, NULL, NAN, &fault) != TAILOR_OK)
        abort();
    printf(", proof %.0f us\n", (now() - begin) * 1e6);
    tailor_lay_free(lay);
}

int main(int argc, char **argv)
{
    if (argc > 1)
        search_for = strtod(argv[1], NULL);
    printf("lay, one thread; yield at the start and after so many seconds of search\n");
    measure("canvas at 45 deg on 750 mm", 750, 5, canvas, 45);
    measure("canvas at 45 deg on 1500 mm", 1500, 5, canvas, 45);
    measure("canvas straight on 750 mm", 750, 5, canvas, 90);
    measure("canvas straight on 1500 mm", 1500, 5, canvas, 90);
    measure("stars, 3 of each of 8", 600, 0, stars, 3);
    measure("stars, 12 of each of 8", 1000, 0, stars, 12);
    return 0;
}

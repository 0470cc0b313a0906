/* The canvas of one coat: how long the first lay takes, and how near it comes within a second to the best found in a
 * longer search, at several angles and widths.
 *
 *     bench_canvas [seconds of the long search, 4]
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <tailorgeom/canvas.h>
#include <tailorgeom/coat.h>

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static tailor_coat *make_coat(void)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_MAKE, &coat, NULL) != TAILOR_OK)
        abort();
    return coat;
}

static void measure(const tailor_pattern *coat, const char *cloth, double angle, double width, double plies,
                    double search_for)
{
    double choices[TAILOR_CANVAS_CHOICE_COUNT];
    tailor_canvas *canvas = NULL;
    tailor_fault fault;
    tailor_fields_clear(choices, TAILOR_CANVAS_CHOICE_COUNT);
    choices[TAILOR_CANVAS_CHOICE_ANGLE] = angle;
    choices[TAILOR_CANVAS_CHOICE_WIDTH] = width;
    choices[TAILOR_CANVAS_CHOICE_PLIES] = plies;
    double begin = now();
    if (tailor_canvas_begin(coat, cloth, choices, TAILOR_CANVAS_CHOICE_COUNT, 1, NULL, &canvas, &fault) != TAILOR_OK) {
        printf("%-10s %3.0f deg %5.0f mm plies %.0f: %s\n", cloth, angle, width, plies, fault.sentence);
        return;
    }
    const double made = now() - begin, first = tailor_canvas_result(canvas, TAILOR_CANVAS_RESULT_LENGTH);
    double at_second = first;
    long long iterations = 0;
    for (begin = now(); now() - begin < search_for;) {
        tailor_canvas_step(canvas, 20);
        if (now() - begin <= 1) {
            at_second = tailor_canvas_result(canvas, TAILOR_CANVAS_RESULT_LENGTH);
            iterations = (long long)tailor_lay_iterations(tailor_canvas_lay(canvas, 0));
        }
    }
    const double best = tailor_canvas_result(canvas, TAILOR_CANVAS_RESULT_LENGTH);
    printf("%-10s %3.0f deg %5.0f mm plies %.0f: first %6.1f mm in %5.1f ms; after 1 s (%5lld iterations) %6.1f, "
           "+%.2f %% over the best of %.0f s, %.1f; yield %.1f %%, straight %.1f, extra %.1f\n",
           cloth, angle, width, plies, first, made * 1e3, iterations, at_second, 100 * (at_second / best - 1),
           search_for, best, 100 * tailor_canvas_result(canvas, TAILOR_CANVAS_RESULT_YIELD),
           tailor_canvas_result(canvas, TAILOR_CANVAS_RESULT_STRAIGHT_LENGTH),
           tailor_canvas_result(canvas, TAILOR_CANVAS_RESULT_EXTRA));
    fflush(stdout);
    tailor_canvas_free(canvas);
}

int main(int argc, char **argv)
{
    static const double angles[] = {0, 20, 45}, widths[] = {750, 1500};
    const double search_for = argc > 1 ? strtod(argv[1], NULL) : 2;
    tailor_coat *made = make_coat();
    const tailor_pattern *coat = tailor_coat_pattern(made);
    for (int a = 0; a < 3; a++)
        for (int w = 0; w < 2; w++)
            measure(coat, "canvas", angles[a], widths[w], TAILOR_PLIES_SINGLE, search_for);
    measure(coat, "canvas", 20, 1500, TAILOR_PLIES_FOLDED, search_for);
    measure(coat, "canvas", 20, 750, TAILOR_PLIES_LAYERS, search_for);
    measure(coat, "haircloth", 0, 500, TAILOR_PLIES_SINGLE, search_for);
    tailor_coat_free(made);
    return 0;
}

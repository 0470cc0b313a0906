/* Runs tests/truth/geom.truth. What is asked of a case, `expect KEY`, is answered by one function a key. */
#include <stdlib.h>
#include <string.h>
#include "geom/curves.h"
#include "support/truth.c"

enum { ROOM = 64 };

/** The path of a case: its cubics and arcs in order, or its polygon. */
static size_t path_of(const truth_case *one, tailor_cubic *path)
{
    size_t count = 0;
    double n[2 * ROOM];
    for (size_t i = 0; i < one->given_count; i++) {
        const truth_pair *given = &one->given[i];
        if (strcmp(given->key, "cubic") == 0) {
            truth_numbers(one, given->text, n, 8);
            for (int k = 0; k < 4; k++) path[count].p[k] = (tailor_point){n[2 * k], n[2 * k + 1]};
            count++;
        } else if (strcmp(given->key, "arc") == 0) {
            truth_numbers(one, given->text, n, 5);
            path[count++] = tailor_cubic_arc((tailor_point){n[0], n[1]}, n[2], n[3], n[4]);
        } else if (strcmp(given->key, "polygon") == 0) {
            tailor_point at[ROOM];
            size_t corners = 0;
            char *end = NULL;
            for (const char *text = given->text;; corners++, text = end) {
                at[corners].x = strtod(text, &end);
                if (end == text) break;
                at[corners].y = strtod(end, &end);
            }
            polygon(at, corners, path);
            count = corners;
        }
    }
    return count;
}

static void numbers_of(const truth_case *one, const char *key, double *n, size_t count)
{
    const char *text = truth_given(one, key);
    if (!text) truth_broken(one, "something that the answer needs is not given");
    truth_numbers(one, text, n, count);
}

static tailor_point point_of(const truth_case *one)
{
    double n[2];
    numbers_of(one, "point", n, 2);
    return (tailor_point){n[0], n[1]};
}

static void line_of(const truth_case *one, tailor_point line[2])
{
    double n[4];
    numbers_of(one, "line", n, 4);
    line[0] = (tailor_point){n[0], n[1]};
    line[1] = (tailor_point){n[2], n[3]};
}

static double length(const truth_case *one)
{
    tailor_cubic path[ROOM];
    return tailor_path_length(path, path_of(one, path));
}

static double line_length(const truth_case *one)
{
    tailor_point line[2];
    line_of(one, line);
    const tailor_cubic c = tailor_cubic_line(line[0], line[1]);
    return tailor_cubic_length(&c);
}

static double area(const truth_case *one)
{
    tailor_cubic path[ROOM];
    return tailor_path_area(path, path_of(one, path));
}

static tailor_point centroid(const truth_case *one)
{
    tailor_cubic path[ROOM];
    tailor_point centre = {NAN, NAN};
    assert_int_equal(tailor_path_centroid(path, path_of(one, path), &centre), TAILOR_OK);
    return centre;
}

static double centroid_x(const truth_case *one) { return centroid(one).x; }
static double centroid_y(const truth_case *one) { return centroid(one).y; }

static tailor_point reflected(const truth_case *one)
{
    tailor_point line[2];
    line_of(one, line);
    return tailor_point_reflect(point_of(one), line[0], line[1]);
}

static double reflected_x(const truth_case *one) { return reflected(one).x; }
static double reflected_y(const truth_case *one) { return reflected(one).y; }

/** Angle of the line from the point to the place `along` past the line's start, from the vertical. */
static double angle_from_vertical(const truth_case *one)
{
    tailor_point line[2];
    double along;
    line_of(one, line);
    numbers_of(one, "along", &along, 1);
    const tailor_cubic c = tailor_cubic_line(line[0], line[1]);
    const tailor_point u = tailor_cubic_direction(&c, 0), from = {line[0].x + u.x * along, line[0].y + u.y * along};
    const tailor_cubic to = tailor_cubic_line(point_of(one), from);
    const tailor_point v = tailor_cubic_direction(&to, 0);
    return fabs(atan2(v.x, v.y)) * 57.29577951308232;
}

/** x where the upper halves of two circles meet, by crossing their arcs: short ones, so that cubics carry them. */
static double meeting_x(const truth_case *one)
{
    double a[3], b[3], p_place, q_place;
    tailor_cubic first[90], second[90];
    size_t found = 0;
    numbers_of(one, "circle", a, 3);
    numbers_of(one, "second_circle", b, 3);
    for (int i = 0; i < 90; i++) {
        first[i] = tailor_cubic_arc((tailor_point){a[0], a[1]}, a[2], 2 * i, 2 * i + 2);
        second[i] = tailor_cubic_arc((tailor_point){b[0], b[1]}, b[2], 2 * i, 2 * i + 2);
    }
    assert_int_equal(tailor_path_cross_path(first, 90, second, 90, 1e-9, &p_place, &q_place, 1, &found), TAILOR_OK);
    assert_int_equal(found, 1);
    assert_same_point(tailor_path_point(first, 90, p_place), tailor_path_point(second, 90, q_place), 1e-9);
    return tailor_path_point(first, 90, p_place).x;
}

/** Greatest distance of a curve from a line, less that of the curve turned over the line. */
static double width_change_when_turned(const truth_case *one)
{
    tailor_point line[2];
    tailor_cubic path[ROOM];
    double width[2] = {0, 0};
    line_of(one, line);
    path_of(one, path);
    assert_int_equal(tailor_path_reflect(path, 1, line[0], line[1], &path[1]), TAILOR_OK);
    const double l = distance_of(line[0], line[1]);
    for (int k = 0; k < 2; k++)
        for (int i = 0; i <= 1000; i++) {
            const tailor_point q = tailor_cubic_point(&path[k], i / 1000.0);
            const double away =
                fabs((line[1].x - line[0].x) * (q.y - line[0].y) - (line[1].y - line[0].y) * (q.x - line[0].x)) / l;
            width[k] = fmax(width[k], away);
        }
    assert_true(width[0] > 1);
    return width[1] - width[0];
}

/** How far the path strays outside the unit circle. */
static double outside_circle(const truth_case *one)
{
    tailor_cubic path[ROOM];
    const size_t count = path_of(one, path);
    double most = 0;
    for (size_t i = 0; i < count * 1000; i++) {
        const tailor_point q = tailor_path_point(path, count, (double)i / 1000);
        most = fmax(most, hypot(q.x, q.y) - 1);
    }
    return most;
}

static size_t offset_of(const truth_case *one, tailor_cubic *offset, size_t room)
{
    static const char *const corners[] = {"mitre", "round", "bevel"};
    tailor_cubic path[ROOM];
    double distances[ROOM], distance, limit;
    int corner = 0;
    size_t needed = 99;
    const size_t count = path_of(one, path);
    numbers_of(one, "distance", &distance, 1);
    numbers_of(one, "limit", &limit, 1);
    for (size_t i = 0; i < count; i++) distances[i] = distance;
    for (int k = 0; k < 3; k++)
        if (strcmp(truth_given(one, "corner"), corners[k]) == 0) corner = k + 1;
    assert_int_equal(tailor_outline_offset(path, count, distances, corner, limit, 0.01, offset, room, &needed),
                     TAILOR_OK);
    return needed;
}

static double offset_area(const truth_case *one)
{
    tailor_cubic offset[ROOM];
    return tailor_path_area(offset, offset_of(one, offset, ROOM));
}

static double offset_count(const truth_case *one)
{
    tailor_cubic offset[ROOM];
    return (double)offset_of(one, offset, ROOM);
}

static const struct {
    const char *key;
    double (*answer)(const truth_case *one);
} answers[] = {
    {"length", length},
    {"line_length", line_length},
    {"area", area},
    {"centroid_x", centroid_x},
    {"centroid_y", centroid_y},
    {"reflected_x", reflected_x},
    {"reflected_y", reflected_y},
    {"angle_from_vertical", angle_from_vertical},
    {"meeting_x", meeting_x},
    {"width_change_when_turned", width_change_when_turned},
    {"outside_circle", outside_circle},
    {"offset_area", offset_area},
    {"offset_count", offset_count},
};

static void run_case(const truth_case *one)
{
    for (size_t i = 0; i < one->expect_count; i++) {
        size_t k = 0;
        double expected;
        while (k < sizeof answers / sizeof *answers && strcmp(answers[k].key, one->expect[i].key) != 0) k++;
        if (k == sizeof answers / sizeof *answers) truth_broken(one, "nothing answers this");
        truth_numbers(one, one->expect[i].text, &expected, 1);
        const double answer = answers[k].answer(one);
        print_message("# %s: %s = %.15g\n", one->name, one->expect[i].key, answer);
        assert_close(answer, expected, one->expect[i].within);
    }
}

static void truths(void **state)
{
    (void)state;
    assert_true(truth_run("geom.truth", run_case) >= 15);
}

int test_truth(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(truths)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

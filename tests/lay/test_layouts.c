/* Lays of shapes: free of overlap for polygons of any kind, the same whatever the steps, the best where that is
 * known. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>
#include <cmocka.h>
#include "shapes.h"

static tailor_fault fault;

static tailor_lay *empty(double width, double gap, double tolerance, int doubled)
{
    tailor_lay *lay = NULL;
    assert_int_equal(tailor_lay_new(width, gap, tolerance, doubled, NULL, &lay, &fault), TAILOR_OK);
    return lay;
}

static void add(tailor_lay *lay, const tailor_cubic *c, size_t n, double angle, int half_turn, int copies, int mirrored)
{
    const int status = tailor_lay_add(lay, c, n, angle, half_turn, copies, mirrored, &fault);
    if (status != TAILOR_OK)
        print_error("%s\n", fault.sentence);
    assert_int_equal(status, TAILOR_OK);
}

static void begin(tailor_lay *lay, uint64_t seed)
{
    const int status = tailor_lay_begin(lay, seed, &fault);
    if (status != TAILOR_OK)
        print_error("%s\n", fault.sentence);
    assert_int_equal(status, TAILOR_OK);
}

static void free_of_overlap(const tailor_lay *lay)
{
    assert_int_equal(tailor_lay_overlap_free(lay, NULL, NULL, NAN, &fault), TAILOR_OK);
    assert_true(tailor_lay_yield(lay) <= 1);
    assert_true(tailor_lay_length(lay) >= tailor_lay_length_bound(lay) * (1 - 1e-6));
}

/* Sizes that tile the strip: nothing shorter is possible, and it is found. */
static void rectangles_are_laid_without_waste(void **state)
{
    (void)state;
    static const struct {
        double width, sizes[4][3], best; /* length, width, copies */
    } cases[] = {
        { 60, { { 20, 20, 6 } }, 40 },
        { 100, { { 50, 60, 2 }, { 50, 40, 2 } }, 100 },
        { 100, { { 30, 100, 1 }, { 40, 50, 2 }, { 25, 25, 4 } }, 95 },
        { 90, { { 60, 30, 3 }, { 30, 45, 2 } }, 90 },
        { 1500, { { 900, 500, 3 }, { 100, 750, 4 } }, 1100 },
        { 750.3, { { 250.1, 750.3, 1 }, { 100, 750.3, 2 } }, 450.1 },
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        tailor_lay *lay = empty(cases[i].width, 0, 0, 0);
        for (int k = 0; k < 4 && cases[i].sizes[k][2] > 0; k++) {
            tailor_cubic c[4];
            rectangle(cases[i].sizes[k][0], cases[i].sizes[k][1], c);
            add(lay, c, 4, 0, 0, (int)cases[i].sizes[k][2], 0);
        }
        begin(lay, 1);
        assert_int_equal(tailor_lay_step(lay, 400), TAILOR_OK);
        free_of_overlap(lay);
        assert_true(fabs(tailor_lay_length(lay) - cases[i].best) < 1e-2);
        assert_true(tailor_lay_length(lay) >= tailor_lay_length_bound(lay) - 4 * tailor_lay_step_of_grid(lay));
        tailor_lay_free(lay);
    }
}

/* n squares of side a beside each other with gap g on a strip k a + (k - 1) g wide: rows of k. */
static void the_gap_is_kept_and_no_more(void **state)
{
    (void)state;
    const double a = 100, g = 8;
    tailor_cubic c[4];
    rectangle(a, a, c);
    tailor_lay *lay = empty(3 * a + 2 * g, g, 0, 0);
    add(lay, c, 4, 90, 1, 6, 0);
    begin(lay, 1);
    tailor_lay_step(lay, 200);
    free_of_overlap(lay);
    assert_true(tailor_lay_length(lay) >= 2 * a + g && tailor_lay_length(lay) < 2 * a + g + 1e-2);
    tailor_lay_free(lay);
}

/* Two right triangles make a square only if one of them may be turned. */
static void half_turns_are_used_where_allowed(void **state)
{
    (void)state;
    const tailor_point p[3] = { { 0, 0 }, { 100, 0 }, { 0, 100 } };
    tailor_cubic c[3];
    polygon(p, 3, c);
    for (int half_turn = 0; half_turn < 2; half_turn++) {
        tailor_lay *lay = empty(100, 0, 0, 0);
        add(lay, c, 3, 0, half_turn, 2, 0);
        begin(lay, 3);
        tailor_lay_step(lay, 300);
        free_of_overlap(lay);
        const double length = tailor_lay_length(lay);
        int turned = 0, either = 0;
        for (int i = 0; i < 2; i++) {
            assert_int_equal(tailor_lay_place(lay, i, NULL, NULL, &turned, NULL), TAILOR_OK);
            either += turned;
        }
        assert_int_equal(either, half_turn);
        assert_true(half_turn ? fabs(length - 100) < 0.1 : fabs(length - 200) < 0.1);
        tailor_lay_free(lay);
    }
}

static void doubled_cloth_is_half_as_wide(void **state)
{
    (void)state;
    tailor_cubic c[4];
    const size_t n = hollow(c);
    tailor_lay *doubled = empty(800, 3, 0.25, 1), *half = empty(400, 3, 0.25, 0);
    add(doubled, c, n, 30, 1, 3, 3);
    add(half, c, n, 30, 1, 3, 0);
    begin(doubled, 5);
    begin(half, 5);
    tailor_lay_step(doubled, 50);
    tailor_lay_step(half, 50);
    assert_int_equal(tailor_lay_place_count(doubled), 3);
    assert_true(tailor_lay_length(doubled) == tailor_lay_length(half));
    free_of_overlap(doubled);
    tailor_lay_free(doubled);
    tailor_lay_free(half);
}

/* Polygons of any kind: convex, concave, slivers; all angles, gaps, half turns, mirror images. */
static void random_polygons_never_overlap(void **state)
{
    (void)state;
    uint64_t seed = 20261125;
    for (int trial = 0; trial < 60; trial++) {
        static const double spreads[4] = { 0, 0.5, 0.9, 0.99 };
        static const double gaps[3] = { 0, 1, 7.7 };
        tailor_lay *lay = empty(320 + 200 * chance(&seed), gaps[trial % 3], trial % 2 ? 0.3 : 0, 0);
        const int kinds = 1 + (int)(5 * chance(&seed));
        int places = 0, added = 0;
        for (int k = 0; k < kinds; k++) {
            tailor_cubic c[64];
            const size_t n = star(&seed, 3 + (size_t)(30 * chance(&seed)), 20 + 130 * chance(&seed),
                                  spreads[trial % 4], c);
            const int copies = (int)(4 * chance(&seed)), mirrored = copies ? (int)(3 * chance(&seed)) : 1;
            const int status = tailor_lay_add(lay, c, n, 360 * chance(&seed), trial % 5 > 1, copies, mirrored, &fault);
            assert_int_equal(status, TAILOR_OK);
            places += copies + mirrored;
            added++;
        }
        const int status = tailor_lay_begin(lay, (uint64_t)trial, &fault);
        if (status == TAILOR_DEGENERATE && trial % 4 == 3) { /* a sliver can be thinner than the grid */
            tailor_lay_free(lay);
            continue;
        }
        assert_int_equal(status, TAILOR_OK);
        assert_int_equal(tailor_lay_place_count(lay), places);
        double last = tailor_lay_length(lay);
        for (int step = 0; step < 6; step++) {
            free_of_overlap(lay);
            assert_int_equal(tailor_lay_step(lay, 5), TAILOR_OK);
            assert_true(tailor_lay_length(lay) <= last);
            last = tailor_lay_length(lay);
        }
        free_of_overlap(lay);
        tailor_lay_free(lay);
    }
}

static tailor_lay *coat(uint64_t seed)
{
    tailor_cubic c[64];
    uint64_t chances = 99;
    tailor_lay *lay = empty(400, 4, 0.3, 0);
    add(lay, c, hollow(c), 45, 1, 2, 2);
    add(lay, c, star(&chances, 12, 90, 0.6, c), -20, 1, 2, 1);
    add(lay, c, rectangle(150, 40, c), 45, 0, 3, 0);
    begin(lay, seed);
    return lay;
}

static void same(const tailor_lay *a, const tailor_lay *b)
{
    for (int i = 0; i < tailor_lay_place_count(a); i++) {
        tailor_point pa, pb;
        int ta, tb;
        assert_int_equal(tailor_lay_place(a, i, NULL, NULL, &ta, &pa), TAILOR_OK);
        assert_int_equal(tailor_lay_place(b, i, NULL, NULL, &tb, &pb), TAILOR_OK);
        assert_true(pa.x == pb.x && pa.y == pb.y && ta == tb);
    }
    assert_true(tailor_lay_length(a) == tailor_lay_length(b));
    assert_true(tailor_lay_iterations(a) == tailor_lay_iterations(b));
}

static void steps_add_up(void **state)
{
    (void)state;
    tailor_lay *once = coat(7), *parts = coat(7), *other = coat(8);
    tailor_lay_step(once, 300);
    for (int i = 0, n = 0; i < 300; i += n) {
        n = i % 7 + 1 < 300 - i ? i % 7 + 1 : 300 - i;
        tailor_lay_step(parts, n);
        tailor_lay_step(parts, 0);
    }
    tailor_lay_step(other, 300);
    same(once, parts);
    tailor_point a, b;
    int differ = 0;
    for (int i = 0; i < tailor_lay_place_count(once); i++) {
        tailor_lay_place(once, i, NULL, NULL, NULL, &a);
        tailor_lay_place(other, i, NULL, NULL, NULL, &b);
        differ += a.x != b.x || a.y != b.y;
    }
    assert_true(differ > 0); /* the seed matters */
    tailor_lay_free(once);
    tailor_lay_free(parts);
    tailor_lay_free(other);
}

/* The matrix lays the drawing where the polygon is: every point of the true curve is near the polygon and inside the
 * strip, and the areas agree to what the tolerance explains. */
static void the_matrix_lays_the_drawing(void **state)
{
    (void)state;
    tailor_cubic c[4], laid[4], ring[1000];
    tailor_point points[1000];
    const size_t n = hollow(c);
    tailor_lay *lay = empty(400, 4, 0.3, 0);
    add(lay, c, n, 45, 1, 3, 3);
    begin(lay, 2);
    tailor_lay_step(lay, 100);
    int turns = 0, mirrors = 0;
    for (int i = 0; i < tailor_lay_place_count(lay); i++) {
        double matrix[6], box[4];
        int mirrored, turned;
        size_t count;
        assert_int_equal(tailor_lay_place(lay, i, NULL, &mirrored, &turned, NULL), TAILOR_OK);
        assert_int_equal(tailor_lay_matrix(lay, i, matrix), TAILOR_OK);
        assert_int_equal(tailor_lay_polygon(lay, i, points, 1000, &count), TAILOR_OK);
        turns += turned;
        mirrors += mirrored;
        assert_true((matrix[0] * matrix[3] - matrix[1] * matrix[2] < 0) == (mirrored == 1));
        tailor_path_affine(c, n, matrix, laid);
        tailor_path_bounds(laid, n, box);
        assert_true(box[0] >= -1e-3 && box[1] >= -1e-3 && box[2] <= tailor_lay_length(lay) + 1e-3 &&
                    box[3] <= 400 + 1e-3);
        polygon(points, count, ring);
        assert_true(tailor_path_area(ring, count) > 0);
        for (int k = 0; k <= 400; k++) {
            double distance;
            const tailor_point p = tailor_path_point(laid, n, (double)k / 100);
            tailor_path_nearest(ring, count, p, &distance);
            assert_true(distance <= 0.3);
        }
        assert_true(fabs(tailor_path_area(ring, count) - fabs(tailor_path_area(c, n))) < 0.3 * 900);
    }
    assert_int_equal(mirrors, 3);
    assert_true(turns > 0);
    assert_true(fabs(tailor_lay_area(lay) - 6 * fabs(tailor_path_area(c, n))) < 1e-6 * tailor_lay_area(lay));
    tailor_lay_free(lay);
}

/* The proof can fail: pieces moved on top of each other, into the gap, or off the strip. */
static void the_proof_sees_what_is_wrong(void **state)
{
    (void)state;
    tailor_cubic c[4];
    rectangle(100, 50, c);
    tailor_lay *lay = empty(200, 10, 0, 0);
    add(lay, c, 4, 0, 1, 2, 0);
    begin(lay, 1);
    const double step = tailor_lay_step_of_grid(lay);
    static const struct {
        double x, y;
        int status;
    } cases[] = {
        { 0, 60, TAILOR_OK },       { 110, 0, TAILOR_OK },         { 107, 57.1875, TAILOR_OK },
        { 0, 0, TAILOR_OVERLAP },   { 25, 10, TAILOR_OVERLAP },    { 100, 0, TAILOR_OVERLAP },
        { 0, 50, TAILOR_OVERLAP },  { 107, 57.125, TAILOR_OVERLAP },   { 0, 151, TAILOR_OUT_OF_RANGE },
        { 0, -61, TAILOR_OUT_OF_RANGE }, { 201, 100, TAILOR_OUT_OF_RANGE }, { 0, 150, TAILOR_OK },
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const tailor_point at[2] = { { 0, 0 }, { cases[i].x, cases[i].y } };
        const int turned[2] = { 0, 0 };
        assert_int_equal(tailor_lay_overlap_free(lay, at, turned, 300, &fault), cases[i].status);
    }
    /* by one step of the grid */
    tailor_point at[2] = { { 0, 0 }, { 0, 60 } };
    int turned[2] = { 0, 0 };
    at[1].y -= step;
    assert_int_equal(tailor_lay_overlap_free(lay, at, turned, 300, &fault), TAILOR_OVERLAP);
    assert_non_null(strstr(fault.sentence, "1 and 2"));
    at[1].y = 60 + step / 2;
    assert_int_equal(tailor_lay_overlap_free(lay, at, turned, 300, &fault), TAILOR_BAD_ARGUMENT);
    at[1].y = NAN;
    assert_int_equal(tailor_lay_overlap_free(lay, at, turned, 300, &fault), TAILOR_BAD_ARGUMENT);
    at[1] = (tailor_point){ 100, 110 };
    turned[1] = 1;
    assert_int_equal(tailor_lay_overlap_free(lay, at, turned, 300, &fault), TAILOR_OK);
    turned[1] = 2;
    assert_int_equal(tailor_lay_overlap_free(lay, at, turned, 300, &fault), TAILOR_BAD_ARGUMENT);
    turned[1] = 0;
    at[1] = (tailor_point){ 0, 60 };
    assert_int_equal(tailor_lay_overlap_free(lay, at, turned, 99.9, &fault), TAILOR_OUT_OF_RANGE);
    tailor_lay_free(lay);
}

int test_layouts(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rectangles_are_laid_without_waste),
        cmocka_unit_test(the_gap_is_kept_and_no_more),
        cmocka_unit_test(half_turns_are_used_where_allowed),
        cmocka_unit_test(doubled_cloth_is_half_as_wide),
        cmocka_unit_test(random_polygons_never_overlap),
        cmocka_unit_test(steps_add_up),
        cmocka_unit_test(the_matrix_lays_the_drawing),
        cmocka_unit_test(the_proof_sees_what_is_wrong),
    };
    return cmocka_run_group_tests_name("layouts", tests, NULL, NULL);
}

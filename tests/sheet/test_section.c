/* The section of a lapel as a sheet: what is drawn is what the line says, and what is no such line is refused. */
#include "coats.h"

#include <stdio.h>
#include <tailorgeom/roll.h>

enum { POINTS = 81 };

/* A half circle between two level parts: radius 6, so the height is 12 wherever it stands. */
static void hairpin(tailor_point line[POINTS], double radius)
{
    const double pi = 3.14159265358979323846, link = pi * radius / 40;
    for (int i = 0; i < POINTS; i++) {
        const double turn = pi * (i - 20) / 40;
        line[i] = i < 20    ? (tailor_point){30 - (20 - i) * link, 0}
                  : i <= 60 ? (tailor_point){30 + radius * sin(turn), radius - radius * cos(turn)}
                            : (tailor_point){30 - (i - 60) * link, 2 * radius};
    }
}

static int says(const struct kept *kept, const char *text)
{
    const size_t length = strlen(text);
    for (size_t i = 0; i + length <= kept->bytes; i++)
        if (memcmp(kept->data + i, text, length) == 0)
            return 1;
    return 0;
}

static tailor_status draw(const tailor_point *line, size_t count, int print, int format, struct kept *kept,
                          tailor_fault *fault)
{
    static const char *const labels[] = {"set 165 deg", NULL, "a <label> & another"};
    return tailor_sheet_draw_section(line, count, labels, 3, page_of("Order 12", print, format), keep, kept, fault);
}

static void dimensions_are_the_lines(void **state)
{
    tailor_point line[POINTS];
    (void)state;
    for (int radius = 4; radius <= 12; radius += 4) {
        struct kept kept = {0};
        char height[40], small[40];
        hairpin(line, radius);
        snprintf(height, sizeof height, ">%d mm<", 2 * radius);
        snprintf(small, sizeof small, ">radius %d mm<", radius);
        assert_int_equal(draw(line, POINTS, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_OK);
        assert_true(says(&kept, height) && says(&kept, small));
        assert_true(says(&kept, ">Section of the roll: Order 12<") && says(&kept, "a &lt;label&gt; &amp; another"));
        assert_true(says(&kept, ">height of the edge<") || says(&kept, ">stands off<"));
        free(kept.data);
    }
}

static void the_same_bytes_in_every_format(void **state)
{
    tailor_point line[POINTS];
    (void)state;
    hairpin(line, 6);
    line[POINTS - 1].y = 0.1; /* the edge lies */
    for (int format = TAILOR_SHEET_SVG; format <= TAILOR_SHEET_PNG; format++) {
        struct kept first = {0}, second = {0};
        assert_int_equal(draw(line, POINTS, TAILOR_PRINT_INCH_8, format, &first, NULL), TAILOR_OK);
        assert_int_equal(draw(line, POINTS, TAILOR_PRINT_INCH_8, format, &second, NULL), TAILOR_OK);
        assert_true(first.bytes > 2000 && first.bytes == second.bytes);
        assert_memory_equal(first.data, second.data, first.bytes);
        assert_true(format != TAILOR_SHEET_SVG || (says(&first, ">4/8 in<") || says(&first, ">1/2 in<")));
        assert_true(format != TAILOR_SHEET_SVG ||
                    (says(&first, "lying on the chest") && !says(&first, ">stands off<")));
        free(first.data);
        free(second.data);
    }
}

static void real_sections_can_be_drawn(void **state)
{
    (void)state;
    for (int i = 0; i < 60; i++) {
        const double section[TAILOR_SECTION_COUNT] = {
            NAN, 12 + i % 5 * 8, 50 + i % 7 * 12, i % 11 * 18, 20, i % 13 - 6, i % 10 * 9, 13, 30, i % 2 ? 40 : 200};
        tailor_point line[TAILOR_ROLLED_LINE_COUNT];
        double rolled[TAILOR_ROLLED_COUNT];
        struct kept kept = {0};
        if (tailor_roll_section(section, TAILOR_SECTION_COUNT, rolled, TAILOR_ROLLED_COUNT, line,
                                TAILOR_ROLLED_LINE_COUNT, NULL) != TAILOR_OK)
            continue;
        assert_int_equal(draw(line, i % 2 ? 41 : 201, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, NULL),
                         rolled[TAILOR_ROLLED_CREST_HEIGHT] > 0 ? TAILOR_OK : TAILOR_BAD_ARGUMENT);
        free(kept.data);
    }
}

static void what_is_no_section_is_refused(void **state)
{
    tailor_point line[POINTS], flat[3] = {{0, 0}, {1, 0}, {2, -1}};
    struct kept kept = {0};
    tailor_fault fault;
    (void)state;
    hairpin(line, 6);
    assert_int_equal(draw(NULL, POINTS, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(draw(line, 2, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(draw(line, 10001, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(draw(flat, 3, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(draw(line, POINTS, TAILOR_PRINT_MM, TAILOR_SHEET_DXF, &kept, &fault), TAILOR_BAD_ARGUMENT);
    line[17].x = NAN;
    assert_int_equal(draw(line, POINTS, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_true(fault.value == 17);
    line[17].x = 1001;
    assert_int_equal(draw(line, POINTS, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_BAD_ARGUMENT);
    hairpin(line, 6);
    assert_int_equal(tailor_sheet_draw_section(line, POINTS, NULL, 1, NULL, keep, &kept, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_section(line, POINTS, NULL, 0, NULL, NULL, NULL, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_int_equal(kept.bytes, 0);
}

int test_section(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(dimensions_are_the_lines),
        cmocka_unit_test(the_same_bytes_in_every_format),
        cmocka_unit_test(real_sections_can_be_drawn),
        cmocka_unit_test(what_is_no_section_is_refused),
    };
    return cmocka_run_group_tests_name("sheet_section", tests, NULL, NULL);
}

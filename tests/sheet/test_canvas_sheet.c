/* The canvas sheet: the same bytes again, writers that refuse, what it will not draw. What
 * it shows is read back in tests/python/test_python_canvas.py. */
#include "coats.h"

#include <tailorgeom/coat.h>

static const int formats[] = {TAILOR_SHEET_SVG, TAILOR_SHEET_PDF, TAILOR_SHEET_PNG};
static tailor_pattern *coat;
static tailor_canvas *canvases[2];

static int begin(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    double choices[TAILOR_CANVAS_CHOICE_COUNT];
    (void)state;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    tailor_fields_clear(choices, TAILOR_CANVAS_CHOICE_COUNT);
    choices[TAILOR_CANVAS_CHOICE_ANGLE] = 20;
    coat = own_pattern(client, TAILOR_EXTENT_MAKE, NULL);
    return !coat ||
           tailor_canvas_begin(coat, "canvas", choices, TAILOR_CANVAS_CHOICE_COUNT, 1, NULL, &canvases[0], NULL) !=
               TAILOR_OK ||
           tailor_canvas_begin(coat, "haircloth", NULL, 0, 1, NULL, &canvases[1], NULL) != TAILOR_OK;
}

static int end(void **state)
{
    (void)state;
    tailor_canvas_free(canvases[0]);
    tailor_canvas_free(canvases[1]);
    tailor_pattern_free(coat);
    return 0;
}

static tailor_status draw(size_t count, int print, int format, struct kept *kept, tailor_fault *fault)
{
    return tailor_sheet_draw_canvas((const tailor_canvas *const *)canvases, count,
                                    page_of("Order 12 <&>", print, format), keep, kept, fault);
}

static void the_same_bytes_and_refusing_writers(void **state)
{
    (void)state;
    for (int i = 0; i < 3; i++) {
        struct kept first = {0}, second = {0};
        assert_int_equal(draw(2, TAILOR_PRINT_MM, formats[i], &first, NULL), TAILOR_OK);
        assert_int_equal(draw(2, TAILOR_PRINT_MM, formats[i], &second, NULL), TAILOR_OK);
        assert_true(first.bytes > 5000);
        assert_int_equal(first.bytes, second.bytes);
        assert_memory_equal(first.data, second.data, first.bytes);
        for (int k = 1; k <= first.calls; k += first.calls > 8 ? first.calls / 8 : 1) {
            struct kept kept = {.refuse = k};
            tailor_fault fault = {0};
            assert_int_equal(draw(2, TAILOR_PRINT_MM, formats[i], &kept, &fault), TAILOR_WRITE_FAILED);
            assert_int_equal(kept.calls_after, 0);
            free(kept.data);
        }
        free(first.data);
        free(second.data);
    }
}

static void what_is_not_drawn(void **state)
{
    (void)state;
    struct kept kept = {0};
    tailor_fault fault;
    const tailor_canvas *gap[2] = {canvases[0], NULL};
    assert_int_equal(draw(0, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(draw(11, TAILOR_PRINT_MM, TAILOR_SHEET_SVG, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_non_null(strstr(fault.sentence, "1 to 10"));
    assert_int_equal(draw(1, TAILOR_PRINT_MM, TAILOR_SHEET_DXF, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_canvas(gap, 2, NULL, keep, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_canvas(NULL, 1, NULL, keep, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_canvas(gap, 1, NULL, NULL, NULL, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(kept.calls, 0);
}

static void the_straight_lay_is_drawn_beside_a_slanting_one(void **state)
{
    (void)state;
    struct kept kept = {0};
    assert_int_equal(draw(2, TAILOR_PRINT_INCH_8, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_OK);
    assert_non_null(strstr(kept.data, "body canvas at 20\xC2\xB0"));
    assert_non_null(strstr(kept.data, "body canvas straight, to compare"));
    assert_non_null(strstr(kept.data, "id=\"lay-3\""));
    assert_null(strstr(kept.data, "id=\"lay-4\""));
    assert_non_null(strstr(kept.data, "Order 12 &lt;&amp;&gt;"));
    assert_null(strstr(kept.data, " mm<")); /* all lengths in inches */
    free(kept.data);
}

int test_canvas_sheet(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_bytes_and_refusing_writers),
        cmocka_unit_test(what_is_not_drawn),
        cmocka_unit_test(the_straight_lay_is_drawn_beside_a_slanting_one),
    };
    return cmocka_run_group_tests(tests, begin, end);
}

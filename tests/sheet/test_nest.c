/* The nest sheet: every size of every piece is there, where it is said to be; what cannot be drawn is refused. With
 * TAILOR_SHEETS set to a directory, the sheet is written there for looking. */
#include "coats.h"

#include <stdio.h>

enum { SIZES = 7 };
static const double chests[SIZES] = {914, 965, 1016, 1067, 1118, 1168, 1219};
static const char *const labels[SIZES] = {"36", "38", "40", "42", "44", "46", "48"};
static const tailor_pattern *patterns[SIZES];

static int begin(void **state)
{
    (void)state;
    for (int i = 0; i < SIZES; i++)
        patterns[i] = draft(chests[i], 0, 1);
    return 0;
}

static int end(void **state)
{
    (void)state;
    for (int i = 0; i < SIZES; i++)
        tailor_pattern_free((tailor_pattern *)(uintptr_t)patterns[i]);
    return 0;
}

static const tailor_page *nest_page(const char *title, const char *align, int format)
{
    tailor_page *page = page_of(title, TAILOR_PRINT_MM, format);
    assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_ALIGN, align, NULL), TAILOR_OK);
    return page;
}

static struct kept nest(size_t count, size_t base, const char *align, int format)
{
    struct kept k = {0};
    tailor_fault fault = {0};
    if (tailor_sheet_draw_nest(patterns, labels, count, base, nest_page("House sizes", align, format), keep, &k,
                               &fault) != TAILOR_OK)
        fail_msg("%s", fault.sentence);
    return k;
}

static int times(const char *text, const char *what)
{
    int found = 0;
    for (const char *at = text; (at = strstr(at, what)) != NULL; at++)
        found++;
    return found;
}

static void every_size_of_every_piece_is_there(void **state)
{
    (void)state;
    struct kept k = nest(SIZES, 2, NULL, TAILOR_SHEET_SVG);
    const int pieces = tailor_pattern_piece_count(patterns[2]);
    for (int i = 1; i <= pieces; i++)
        for (int size = 1; size <= SIZES; size++) {
            char id[48];
            snprintf(id, sizeof id, "id=\"piece-%d-size-%d\"", i, size);
            assert_int_equal(times(k.data, id), 1);
        }
    for (int size = 0; size < SIZES; size++) { /* in the legend, and beside each piece */
        char text[24];
        snprintf(text, sizeof text, ">%s</text>", labels[size]);
        assert_int_equal(times(k.data, text), pieces + (size != 2));
    }
    assert_int_equal(times(k.data, ">40, base</text>"), 1);
    assert_int_equal(times(k.data, "laid on each other at"), pieces);
    const char *directory = getenv("TAILOR_SHEETS");
    if (directory) {
        char path[1024];
        snprintf(path, sizeof path, "%s/nest.svg", directory);
        FILE *file = fopen(path, "wb");
        assert_non_null(file);
        assert_int_equal(fwrite(k.data, 1, k.bytes, file), k.bytes);
        assert_int_equal(fclose(file), 0);
    }
    free(k.data);
}

/* What stands in the table is what the patterns say, rounded. */
static void the_table_tells_the_grade(void **state)
{
    (void)state;
    struct kept k = nest(2, 0, "nape", TAILOR_SHEET_SVG);
    int piece[2];
    tailor_point nape[2], end_point[2];
    for (int i = 0; i < 2; i++) {
        piece[i] = tailor_pattern_find_piece(patterns[i], "back");
        nape[i] = tailor_point_place(patterns[i], piece[i],
                                     tailor_piece_find_point(patterns[i], piece[i], "nape"));
        end_point[i] = tailor_point_place(patterns[i], piece[i],
                                          tailor_piece_find_point(patterns[i], piece[i], "shoulder_end"));
    }
    const char *row = strstr(k.data, ">shoulder end</text>");
    assert_non_null(row);
    const double moves[2] = {end_point[1].x - end_point[0].x - nape[1].x + nape[0].x,
                             end_point[1].y - end_point[0].y - nape[1].y + nape[0].y};
    for (int i = 0; i < 2; i++) {
        row = strchr(row + 1, '>'); /* the end of the last text, */
        row = strstr(row, "<text"); /* then the next */
        row = strchr(row, '>') + 1;
        assert_true(fabs(atof(row) - moves[i]) <= 0.0501);
    }
    free(k.data);
}

static void all_formats_and_the_same_bytes(void **state)
{
    (void)state;
    static const char *const magic[] = {"", "<?xml", "%PDF-", "\x89PNG"};
    for (int format = TAILOR_SHEET_SVG; format <= TAILOR_SHEET_PNG; format++) {
        struct kept a = nest(SIZES, 3, "hem.start", format), b = nest(SIZES, 3, "hem.start", format);
        assert_int_equal(a.bytes, b.bytes);
        assert_memory_equal(a.data, b.data, a.bytes);
        assert_memory_equal(a.data, magic[format], strlen(magic[format]));
        free(a.data);
        free(b.data);
    }
}

static void one_size_and_many_without_labels(void **state)
{
    (void)state;
    const tailor_pattern *many[32];
    struct kept k = nest(1, 0, NULL, TAILOR_SHEET_SVG);
    assert_true(k.bytes > 1000);
    free(k.data);
    for (int i = 0; i < 32; i++)
        many[i] = patterns[i % SIZES];
    k = (struct kept){0};
    assert_int_equal(tailor_sheet_draw_nest(many, NULL, 32, 31, NULL, keep, &k, NULL), TAILOR_OK);
    assert_int_equal(times(k.data, "Nest of sizes"), 1);
    free(k.data);
}

static void what_cannot_be_drawn_is_refused(void **state)
{
    (void)state;
    struct kept k = {0};
    const tailor_pattern *missing[2] = {patterns[0], NULL};
    const struct {
        const tailor_pattern *const *list;
        size_t count, base;
        const char *align;
        int format;
        tailor_writer write;
    } bad[] = {
        {NULL, 1, 0, NULL, TAILOR_SHEET_SVG, keep},     {patterns, 0, 0, NULL, TAILOR_SHEET_SVG, keep},
        {patterns, 33, 0, NULL, TAILOR_SHEET_SVG, keep}, {patterns, 2, 2, NULL, TAILOR_SHEET_SVG, keep},
        {missing, 2, 0, NULL, TAILOR_SHEET_SVG, keep},   {patterns, 2, 0, "nowhere", TAILOR_SHEET_SVG, keep},
        {patterns, 2, 0, "hem.side", TAILOR_SHEET_SVG, keep}, {patterns, 2, 0, ".start", TAILOR_SHEET_SVG, keep},
        {patterns, 2, 0, NULL, TAILOR_SHEET_DXF, keep},                 {patterns, 2, 0, NULL, TAILOR_SHEET_SVG, NULL},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        tailor_fault fault = {0};
        assert_int_equal(tailor_sheet_draw_nest(bad[i].list, labels, bad[i].count, bad[i].base,
                                                nest_page(NULL, bad[i].align, bad[i].format), bad[i].write, &k,
                                                &fault),
                         TAILOR_BAD_ARGUMENT);
        assert_true(strlen(fault.sentence) > 10);
    }
    assert_int_equal(k.calls, 0);
}

static void a_writer_that_refuses_is_not_called_again(void **state)
{
    (void)state;
    for (int at = 1; at < 6; at++) {
        struct kept k = {.refuse = at};
        assert_int_equal(tailor_sheet_draw_nest(patterns, labels, 3, 1, NULL, keep, &k, NULL),
                         TAILOR_WRITE_FAILED);
        assert_int_equal(k.calls_after, 0);
        free(k.data);
    }
}

int test_nest(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_size_of_every_piece_is_there), cmocka_unit_test(the_table_tells_the_grade),
        cmocka_unit_test(all_formats_and_the_same_bytes),     cmocka_unit_test(one_size_and_many_without_labels),
        cmocka_unit_test(what_cannot_be_drawn_is_refused),
        cmocka_unit_test(a_writer_that_refuses_is_not_called_again),
    };
    return cmocka_run_group_tests(tests, begin, end);
}

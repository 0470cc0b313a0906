/* The public calls: refusals, writers that fail, the same bytes again. With TAILOR_SHEETS set to a directory it writes
 * sheets there, and beside them what the library itself says of them, for test_read_back.py. */
#include "coats.h"

#include <stdio.h>

static const int formats[] = {TAILOR_SHEET_SVG, TAILOR_SHEET_PDF, TAILOR_SHEET_PNG};
/* Of a pattern and of fronts; DXF of a pattern only. */
static const struct {
    int sheet, format;
} drawn[] = {{0, TAILOR_SHEET_SVG}, {0, TAILOR_SHEET_PDF}, {0, TAILOR_SHEET_PNG}, {0, TAILOR_SHEET_DXF},
             {1, TAILOR_SHEET_SVG}, {1, TAILOR_SHEET_PDF}, {1, TAILOR_SHEET_PNG}};
enum { DRAWN = sizeof drawn / sizeof *drawn };
static const char *const endings[] = {"svg", "pdf", "png"};
static const char title[] = "Order 12 <&> \"Mr Fallowell\" \xC3\x85";

static tailor_pattern *coats[FASTENINGS];

static tailor_status draw(int sheet, int format, struct kept *kept, tailor_fault *fault)
{
    const tailor_page *page = page_of(title, TAILOR_PRINT_MM, format);
    return sheet == 0 ? tailor_sheet_draw_pattern(coats[1], page, keep, kept, fault)
                      : tailor_sheet_draw_fronts((const tailor_pattern *const *)coats, fastenings, FASTENINGS, page,
                                                 keep, kept, fault);
}

static void the_same_call_gives_the_same_bytes(void **state)
{
    (void)state;
    for (int i = 0; i < DRAWN; i++) {
        struct kept first = {0}, second = {0};
        assert_int_equal(draw(drawn[i].sheet, drawn[i].format, &first, NULL), TAILOR_OK);
        assert_int_equal(draw(drawn[i].sheet, drawn[i].format, &second, NULL), TAILOR_OK);
        assert_true(first.bytes > 5000);
        assert_int_equal(first.bytes, second.bytes);
        assert_memory_equal(first.data, second.data, first.bytes);
        free(first.data);
        free(second.data);
    }
}

static void a_refusing_writer_ends_the_drawing(void **state)
{
    (void)state;
    for (int i = 0; i < DRAWN; i++) {
        struct kept whole = {0};
        assert_int_equal(draw(drawn[i].sheet, drawn[i].format, &whole, NULL), TAILOR_OK);
        for (int k = 1; k <= whole.calls; k += whole.calls > 12 ? whole.calls / 12 : 1) {
            struct kept kept = {.refuse = k};
            tailor_fault fault = {0};
            assert_int_equal(draw(drawn[i].sheet, drawn[i].format, &kept, &fault), TAILOR_WRITE_FAILED);
            assert_int_equal(fault.status, TAILOR_WRITE_FAILED);
            assert_int_equal(kept.calls_after, 0);
            assert_memory_equal(kept.data ? kept.data : "", whole.data, kept.bytes);
            free(kept.data);
        }
        free(whole.data);
    }
}

static void senseless_calls_are_refused(void **state)
{
    const tailor_pattern *const *list = (const tailor_pattern *const *)coats;
    struct kept kept = {0};
    tailor_fault fault;
    (void)state;
    const tailor_page *dxf = page_of(title, TAILOR_PRINT_MM, TAILOR_SHEET_DXF);
    const tailor_status refused[] = {
        tailor_sheet_draw_pattern(NULL, NULL, keep, &kept, &fault),
        tailor_sheet_draw_pattern(NULL, dxf, keep, &kept, &fault),
        tailor_sheet_draw_pattern(coats[0], NULL, NULL, &kept, NULL),
        tailor_sheet_draw_pattern(coats[0], dxf, NULL, &kept, &fault),
        tailor_sheet_draw_fronts(list, fastenings, 1, dxf, keep, &kept, &fault),
        tailor_sheet_draw_fronts(NULL, fastenings, 1, NULL, keep, &kept, &fault),
        tailor_sheet_draw_fronts(list, fastenings, 0, NULL, keep, &kept, &fault),
        tailor_sheet_draw_fronts(list, fastenings, 101, NULL, keep, &kept, &fault),
        tailor_sheet_draw_fronts(list, fastenings, 1, NULL, NULL, &kept, &fault),
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        assert_int_equal(refused[i], TAILOR_BAD_ARGUMENT);
    assert_int_equal(kept.calls, 0);
}

static void a_pdf_has_its_limit(void **state)
{
    const tailor_pattern *many[100];
    struct kept kept = {0};
    tailor_fault fault = {0};
    (void)state;
    for (int i = 0; i < 100; i++)
        many[i] = coats[i % FASTENINGS];
    assert_int_equal(tailor_sheet_draw_fronts(many, NULL, 100, NULL, keep, &kept, &fault), TAILOR_OK);
    free(kept.data);
    kept = (struct kept){0};
    const tailor_page *pdf = page_of(NULL, TAILOR_PRINT_MM, TAILOR_SHEET_PDF);
    const tailor_status status = tailor_sheet_draw_fronts(many, NULL, 100, pdf, keep, &kept, &fault);
    if (status == TAILOR_BAD_ARGUMENT) { /* only where the sheet is too long */
        assert_true(fault.value > 5080 && fault.high <= 5080);
        assert_int_equal(kept.calls, 0);
    } else {
        assert_int_equal(status, TAILOR_OK);
    }
    free(kept.data);
}

static void any_text_is_borne(void **state)
{
    static char long_title[4000];
    (void)state;
    memset(long_title, 'W', sizeof long_title - 1);
    const char *const titles[] = {NULL,
                                  "",
                                  "\xFF\xC0 broken",
                                  "line\nline\x01",
                                  long_title,
                                  "\xD0\x9F\xD0\xB0\xD0\xBB\xD1\x8C\xD1\x82\xD0\xBE",
                                  "\xE6\xBC\xA2",
                                  "</svg>"};
    for (size_t i = 0; i < sizeof titles / sizeof *titles; i++) {
        for (int format = TAILOR_SHEET_SVG; format <= TAILOR_SHEET_PDF; format++) {
            struct kept kept = {0};
            const tailor_page *page = page_of(titles[i], TAILOR_PRINT_INCH_8, format);
            assert_int_equal(tailor_sheet_draw_pattern(coats[0], page, keep, &kept, NULL), TAILOR_OK);
            free(kept.data);
            kept = (struct kept){0};
            assert_int_equal(tailor_sheet_draw_fronts((const tailor_pattern *const *)coats, &titles[i], 1, page, keep,
                                                      &kept, NULL),
                             TAILOR_OK);
            free(kept.data);
        }
    }
}

static FILE *open_in(const char *directory, const char *name, const char *ending)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s.%s", directory, name, ending);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    return file;
}

/** What the library says: per piece its edges with their cubics and lengths, and the points of each coat's fold. */
static void write_facts(const char *directory, const char *name, tailor_pattern *const *patterns, int count)
{
    static const char *const points[] = {"stand_point", "break_point", "scye_front", "top_button_level"};
    FILE *file = open_in(directory, name, "facts");
    for (int piece = 0; piece < tailor_pattern_piece_count(patterns[0]); piece++)
        for (int edge = 0; edge < tailor_piece_edge_count(patterns[0], piece); edge++) {
            size_t cubics;
            const tailor_cubic *path = tailor_edge_path(patterns[0], piece, edge, &cubics);
            fprintf(file, "edge %s %s %zu %.9f\n", tailor_piece_name(patterns[0], piece),
                    tailor_edge_name(patterns[0], piece, edge), cubics, tailor_path_length(path, cubics));
        }
    for (int i = 0; i < count; i++) {
        const int piece = tailor_pattern_find_piece(patterns[i], "forepart");
        fprintf(file, "coat");
        for (int k = 0; k < 4; k++) {
            const tailor_point p =
                tailor_point_place(patterns[i], piece, tailor_piece_find_point(patterns[i], piece, points[k]));
            fprintf(file, " %.9f %.9f", p.x, p.y);
        }
        fprintf(file, "\n");
    }
    assert_int_equal(fclose(file), 0);
}

static void men_of_every_size_can_be_drawn(void **state)
{
    static const struct {
        const char *name;
        double chest, waist;
    } men[] = {{"regular", 1016, 0}, {"small", 860, 0}, {"stout", 1200, 1220}};
    const char *directory = getenv("TAILOR_SHEETS");
    (void)state;
    for (int man = 0; man < 3; man++) {
        tailor_pattern *his[FASTENINGS];
        for (int i = 0; i < FASTENINGS; i++)
            his[i] = draft(men[man].chest, men[man].waist, i);
        if (directory)
            write_facts(directory, men[man].name, his, FASTENINGS);
        for (int i = 0; i < 6; i++) {
            char name[64];
            struct kept kept = {0};
            snprintf(name, sizeof name, "%s-%s", men[man].name, i < 3 ? "pattern" : "fronts");
            const tailor_page *page = page_of(title, TAILOR_PRINT_MM, formats[i % 3]);
            const tailor_status status =
                i < 3 ? tailor_sheet_draw_pattern(his[0], page, keep, &kept, NULL)
                      : tailor_sheet_draw_fronts((const tailor_pattern *const *)his, fastenings, FASTENINGS, page,
                                                 keep, &kept, NULL);
            assert_int_equal(status, TAILOR_OK);
            FILE *file = directory ? open_in(directory, name, endings[i % 3]) : NULL;
            if (file) {
                assert_int_equal(fwrite(kept.data, 1, kept.bytes, file), kept.bytes);
                assert_int_equal(fclose(file), 0);
            }
            free(kept.data);
        }
        for (int i = 0; i < FASTENINGS; i++)
            tailor_pattern_free(his[i]);
    }
}

static int begin(void **state)
{
    (void)state;
    for (int i = 0; i < FASTENINGS; i++)
        coats[i] = draft(1016, 0, i);
    return 0;
}

static int end(void **state)
{
    (void)state;
    for (int i = 0; i < FASTENINGS; i++)
        tailor_pattern_free(coats[i]);
    return 0;
}

int test_sheets(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_call_gives_the_same_bytes),
        cmocka_unit_test(a_refusing_writer_ends_the_drawing),
        cmocka_unit_test(senseless_calls_are_refused),
        cmocka_unit_test(a_pdf_has_its_limit),
        cmocka_unit_test(any_text_is_borne),
        cmocka_unit_test(men_of_every_size_can_be_drawn),
    };
    return cmocka_run_group_tests(tests, begin, end);
}

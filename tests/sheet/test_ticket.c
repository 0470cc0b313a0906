/* The workroom ticket as any program may call it: what is refused, what fits one page, that nothing is lost. */
#include "coats.h"

#include <stdio.h>

/* As in test_sheets.c. */
enum { SVG = TAILOR_SHEET_SVG, PDF = TAILOR_SHEET_PDF, MOST = 450 };

static const int32_t kinds[] = {TAILOR_TICKET_TEXT, TAILOR_TICKET_CAUTION, TAILOR_TICKET_HEADING, TAILOR_TICKET_GROUP,
                                TAILOR_TICKET_ROW,  TAILOR_TICKET_ROW,     TAILOR_TICKET_TEXT};
static const char *const labels[] = {NULL, "Mind the left side", "Pieces & cloth", "cloth", "back", NULL, "the end"};
static const char *const values[] = {"net", NULL, NULL, "2 in all", "2, mirrored", "no label", ""};
enum { LINES = sizeof kinds / sizeof *kinds };

static tailor_status draw(size_t count, int format, struct kept *kept, tailor_fault *fault)
{
    return tailor_sheet_draw_ticket("Order 12", kinds, labels, values, count, format, keep, kept, fault);
}

/** How often a text stands in the file that was kept. */
static int times(const struct kept *kept, const char *text)
{
    int found = 0;
    for (const char *at = kept->data; at && (at = strstr(at, text)); at++)
        found++;
    return found;
}

static void every_text_stands_once_on_a_page_of_a4(void **state)
{
    (void)state;
    static const char *const texts[] = {">Mind the left side<", ">cloth<", ">back<",       ">the end<",    ">net<",
                                        ">2 in all<",           ">2, mirrored<", ">no label<"};
    struct kept kept = {0};
    assert_int_equal(draw(LINES, SVG, &kept, NULL), TAILOR_OK);
    assert_non_null(strstr(kept.data, "width=\"210mm\" height=\"297mm\""));
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        assert_int_equal(times(&kept, texts[i]), 1);
    assert_int_equal(times(&kept, ">Pieces &amp; cloth</text>"), 1);
    assert_int_equal(times(&kept, "<title>Pieces &amp; cloth</title>"), 1);
    assert_int_equal(times(&kept, "<g "), times(&kept, "</g>"));
    free(kept.data);
}

static void the_same_call_gives_the_same_bytes(void **state)
{
    (void)state;
    for (int format = TAILOR_SHEET_SVG; format <= TAILOR_SHEET_PNG; format++) {
        struct kept first = {0}, second = {0};
        assert_int_equal(draw(LINES, format, &first, NULL), TAILOR_OK);
        assert_int_equal(draw(LINES, format, &second, NULL), TAILOR_OK);
        assert_int_equal(first.bytes, second.bytes);
        assert_memory_equal(first.data, second.data, first.bytes);
        free(first.data);
        free(second.data);
    }
}

static void a_refusing_writer_ends_the_drawing(void **state)
{
    (void)state;
    for (int format = TAILOR_SHEET_SVG; format <= TAILOR_SHEET_PNG; format++) {
        struct kept whole = {0};
        assert_int_equal(draw(LINES, format, &whole, NULL), TAILOR_OK);
        for (int k = 1; k <= whole.calls; k++) {
            struct kept kept = {.refuse = k};
            tailor_fault fault = {0};
            assert_int_equal(draw(LINES, format, &kept, &fault), TAILOR_WRITE_FAILED);
            assert_int_equal(fault.status, TAILOR_WRITE_FAILED);
            assert_int_equal(kept.calls_after, 0);
            free(kept.data);
        }
        free(whole.data);
    }
}

static void senseless_calls_are_refused(void **state)
{
    (void)state;
    struct kept kept = {0};
    tailor_fault fault;
    static const int32_t unknown[] = {1, 2, 6, 2}, zero[] = {2, 0};
    assert_int_equal(draw(LINES, 0, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(draw(LINES, 4, &kept, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_ticket("", kinds, labels, values, LINES, SVG, NULL, &kept, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_ticket("", NULL, labels, values, 1, SVG, keep, &kept, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_ticket("", unknown, NULL, NULL, 4, SVG, keep, &kept, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_true(fault.value == 2);
    assert_int_equal(tailor_sheet_draw_ticket("", zero, NULL, NULL, 2, SVG, keep, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_true(fault.value == 1);
    assert_int_equal(kept.calls, 0);
}

static void what_is_missing_is_empty(void **state)
{
    (void)state;
    struct kept kept = {0};
    assert_int_equal(tailor_sheet_draw_ticket(NULL, NULL, NULL, NULL, 0, SVG, keep, &kept, NULL), TAILOR_OK);
    assert_int_equal(tailor_sheet_draw_ticket("", kinds, NULL, NULL, LINES, SVG, keep, &kept, NULL), TAILOR_OK);
    assert_int_equal(times(&kept, "<text"), 0);
    free(kept.data);
}

/** Rows under a heading, all alike. Returns the status, and the size of the letters in the SVG. */
static tailor_status rows(size_t count, const char *label, const char *value, double *size)
{
    int32_t all[MOST];
    const char *left[MOST], *right[MOST];
    struct kept kept = {0};
    tailor_fault fault = {0};
    for (size_t i = 0; i < count; i++) {
        all[i] = i ? TAILOR_TICKET_ROW : TAILOR_TICKET_HEADING;
        left[i] = label;
        right[i] = value;
    }
    tailor_status status = tailor_sheet_draw_ticket(NULL, all, left, right, count, SVG, keep, &kept, &fault);
    const char *found = kept.data ? strstr(kept.data, "font-size=\"") : NULL;
    *size = found ? strtod(found + 11, NULL) : 0;
    if (status == TAILOR_OK) /* a heading is repeated where its section goes on in the other column */
        assert_in_range((unsigned)times(&kept, "<text"), 2 * count - 1, 2 * count);
    else {
        assert_int_equal(kept.calls, 0);
        assert_true(fault.value == (double)count);
        assert_non_null(strstr(fault.sentence, "too long"));
    }
    free(kept.data);
    return status;
}

static void letters_shrink_until_all_fits_and_no_further(void **state)
{
    (void)state;
    double size = 4, before = 4;
    assert_int_equal(rows(2, "chest", "1126 mm", &size), TAILOR_OK);
    assert_true(size == 4);
    size_t fitted = 0;
    for (size_t count = 10; count < MOST; count += 10) {
        if (rows(count, "chest", "1126 mm", &size) != TAILOR_OK)
            break;
        assert_true(size <= before && size >= 1.5);
        before = size;
        fitted = count;
    }
    assert_in_range(fitted, 200, 266); /* at most two columns of 271 mm in lines of 2.025 mm */
}

static void a_text_too_long_for_a_line_is_broken_and_not_cut(void **state)
{
    (void)state;
    static char wide[3000], words[3000];
    static const int32_t text = TAILOR_TICKET_TEXT;
    const char *const all[] = {wide, words};
    memset(wide, 'W', sizeof wide - 1);
    for (size_t i = 0; i < sizeof words - 1; i++)
        words[i] = i % 3 == 2 ? ' ' : 'x';
    for (int i = 0; i < 2; i++) {
        struct kept kept = {0};
        assert_int_equal(tailor_sheet_draw_ticket(NULL, &text, &all[i], NULL, 1, SVG, keep, &kept, NULL), TAILOR_OK);
        int letters = times(&kept, i ? "xx" : "W");
        assert_int_equal(letters, i ? 1000 : 2999);
        assert_true(times(&kept, "<text") > 10);
        free(kept.data);
    }
}

static void a_no_break_space_holds_words_together(void **state)
{
    (void)state;
    static const int32_t text = TAILOR_TICKET_TEXT;
    char words[2000] = "";
    for (int i = 0; i < 100; i++)
        strcat(words, i % 7 ? "bridle\xC2\xA0" "9\xC2\xA0mm " : "and bridle\xC2\xA0" "9\xC2\xA0mm ");
    const char *const label = words;
    struct kept kept = {0};
    assert_int_equal(tailor_sheet_draw_ticket(NULL, &text, &label, NULL, 1, SVG, keep, &kept, NULL), TAILOR_OK);
    assert_int_equal(times(&kept, "bridle 9 mm"), 100);
    assert_true(times(&kept, "<text") > 3);
    free(kept.data);
}

static void any_text_is_borne(void **state)
{
    (void)state;
    static char enormous[100000];
    memset(enormous, 'm', sizeof enormous - 1);
    const char *const texts[] = {"\xFF\xC0 broken", "line\nline\x01", "   ", "\xE6\xBC\xA2", "</svg>", "\xC2\xA0",
                                 "\xF0\x9F", enormous};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        const char *same[LINES];
        for (size_t k = 0; k < LINES; k++)
            same[k] = texts[i];
        for (int format = SVG; format <= PDF; format++) {
            struct kept kept = {0};
            const int status =
                tailor_sheet_draw_ticket(texts[i], kinds, same, same, LINES, format, keep, &kept, NULL);
            assert_int_equal(status, texts[i] == enormous ? TAILOR_BAD_ARGUMENT : TAILOR_OK);
            free(kept.data);
        }
    }
}

int test_ticket(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_text_stands_once_on_a_page_of_a4),
        cmocka_unit_test(the_same_call_gives_the_same_bytes),
        cmocka_unit_test(a_refusing_writer_ends_the_drawing),
        cmocka_unit_test(senseless_calls_are_refused),
        cmocka_unit_test(what_is_missing_is_empty),
        cmocka_unit_test(letters_shrink_until_all_fits_and_no_further),
        cmocka_unit_test(a_text_too_long_for_a_line_is_broken_and_not_cut),
        cmocka_unit_test(a_no_break_space_holds_words_together),
        cmocka_unit_test(any_text_is_borne),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

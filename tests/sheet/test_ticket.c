/* The workroom ticket as any program may call it: what is refused, what fits one page, that nothing is lost. */
#include "coats.h"

#include <stdio.h>

/* As in test_sheets.c. */
enum { SVG = TAILOR_SHEET_SVG, PDF = TAILOR_SHEET_PDF, MOST = 450 };

static const tailor_line lines[] = {
    {.kind = TAILOR_LINE_TEXT, .value = "net"},
    {.kind = TAILOR_LINE_CAUTION, .label = "Mind the left side"},
    {.kind = TAILOR_LINE_HEADING, .label = "Pieces & cloth"},
    {.kind = TAILOR_LINE_GROUP, .label = "cloth", .value = "2 in all"},
    {.kind = TAILOR_LINE_ROW, .label = "back", .value = "2, mirrored"},
    {.kind = TAILOR_LINE_ROW, .value = "no label"},
    {.kind = TAILOR_LINE_TEXT, .label = "the end", .value = ""},
};
enum { LINES = sizeof lines / sizeof *lines };

static tailor_status draw(size_t count, int format, struct kept *kept, tailor_fault *fault)
{
    return tailor_sheet_draw_ticket(lines, count, page_of("Order 12", TAILOR_PRINT_MM, format), keep, kept, fault);
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
    static const tailor_line wrong[][3] = {
        {{.kind = 1}, {.kind = 2}, {.kind = 6}},
        {{.kind = 1}, {.kind = 2}, {.kind = 0}},
        {{.kind = 1}, {.kind = 2, .rank = 8}, {.kind = 2, .rank = 9}},
        {{.kind = 1}, {.kind = 2}, {.kind = 2, .rank = -1}},
    };
    assert_int_equal(draw(LINES, TAILOR_SHEET_DXF, &kept, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_ticket(lines, LINES, NULL, NULL, &kept, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_ticket(NULL, 1, NULL, keep, &kept, &fault), TAILOR_BAD_ARGUMENT);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        assert_int_equal(tailor_sheet_draw_ticket(wrong[i], 3, NULL, keep, &kept, &fault), TAILOR_BAD_ARGUMENT);
        assert_true(fault.value == 2);
    }
    assert_int_equal(kept.calls, 0);
}

static void what_is_missing_is_empty(void **state)
{
    (void)state;
    struct kept kept = {0};
    tailor_line bare[LINES];
    for (size_t i = 0; i < LINES; i++)
        bare[i] = (tailor_line){.kind = lines[i].kind};
    assert_int_equal(tailor_sheet_draw_ticket(NULL, 0, NULL, keep, &kept, NULL), TAILOR_OK);
    assert_int_equal(tailor_sheet_draw_ticket(bare, LINES, page_of("", TAILOR_PRINT_MM, SVG), keep, &kept, NULL),
                     TAILOR_OK);
    assert_int_equal(times(&kept, "<text"), 0);
    free(kept.data);
}

/** Rows under a heading, all alike. Returns the status, and the size of the letters in the SVG. */
static tailor_status rows(size_t count, const char *label, const char *value, double *size)
{
    tailor_line all[MOST];
    struct kept kept = {0};
    tailor_fault fault = {0};
    for (size_t i = 0; i < count; i++)
        all[i] = (tailor_line){i ? TAILOR_LINE_ROW : TAILOR_LINE_HEADING, 0, label, value, NULL};
    tailor_status status = tailor_sheet_draw_ticket(all, count, NULL, keep, &kept, &fault);
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
    const tailor_line all[] = {{.kind = TAILOR_LINE_TEXT, .label = wide}, {.kind = TAILOR_LINE_TEXT, .label = words}};
    memset(wide, 'W', sizeof wide - 1);
    for (size_t i = 0; i < sizeof words - 1; i++)
        words[i] = i % 3 == 2 ? ' ' : 'x';
    for (int i = 0; i < 2; i++) {
        struct kept kept = {0};
        assert_int_equal(tailor_sheet_draw_ticket(&all[i], 1, NULL, keep, &kept, NULL), TAILOR_OK);
        int letters = times(&kept, i ? "xx" : "W");
        assert_int_equal(letters, i ? 1000 : 2999);
        assert_true(times(&kept, "<text") > 10);
        free(kept.data);
    }
}

static void a_no_break_space_holds_words_together(void **state)
{
    (void)state;
    char words[2000] = "";
    for (int i = 0; i < 100; i++)
        strcat(words, i % 7 ? "bridle\xC2\xA0" "9\xC2\xA0mm " : "and bridle\xC2\xA0" "9\xC2\xA0mm ");
    const tailor_line text = {.kind = TAILOR_LINE_TEXT, .label = words};
    struct kept kept = {0};
    assert_int_equal(tailor_sheet_draw_ticket(&text, 1, NULL, keep, &kept, NULL), TAILOR_OK);
    assert_int_equal(times(&kept, "bridle 9 mm"), 100);
    assert_true(times(&kept, "<text") > 3);
    free(kept.data);
}

/** Where a text begins in the SVG, in which letters: x, y, size. */
static void place_of(const struct kept *kept, const char *text, double found[3])
{
    static const char *const attributes[] = {" x=\"", " y=\"", "font-size=\""};
    char end[160] = ">";
    strcat(strcat(end, text), "</text>");
    const char *at = strstr(kept->data, end);
    if (!at)
        fail_msg("%s is not there", text);
    while (strncmp(at, "<text", 5) != 0)
        at--;
    for (int i = 0; i < 3; i++)
        found[i] = strtod(strstr(at, attributes[i]) + strlen(attributes[i]), NULL);
}

static void a_rank_sets_in_and_a_basis_follows(void **state)
{
    (void)state;
    const char long_basis[] = "assumed from chest and drop as the house has it; nobody measured the waist";
    const tailor_line all[] = {
        {TAILOR_LINE_HEADING, 0, "Measures", NULL, NULL},
        {TAILOR_LINE_ROW, 0, "chest", "1126 mm", "measured"},
        {TAILOR_LINE_ROW, 2, "of it ease", "110 mm", NULL},
        {TAILOR_LINE_ROW, 0, "waist", "890 mm", long_basis},
        {TAILOR_LINE_ROW, 0, "seat", "1080 mm", NULL},
        {TAILOR_LINE_ROW, 0, "length", NULL, "not known"},
        {TAILOR_LINE_TEXT, 1, "as drafted", NULL, "edition 1"},
    };
    double chest[3], value[3], basis[3], ease[3], ease_value[3], waist[3], rest[3], seat[3], alone[3], text[3];
    double plain[3];
    struct kept kept = {0}, bare = {0};
    tailor_line without[sizeof all / sizeof *all];
    assert_int_equal(tailor_sheet_draw_ticket(all, 7, NULL, keep, &kept, NULL), TAILOR_OK);
    place_of(&kept, "chest", chest);
    place_of(&kept, "1126 mm", value);
    place_of(&kept, "measured", basis);
    assert_true(fabs(basis[1] - value[1]) < 1e-3 && basis[0] > value[0] + 3 * value[2]); /* behind it, on its line */
    assert_true(fabs(basis[2] - 0.8 * value[2]) < 1e-3);
    place_of(&kept, "of it ease", ease);
    place_of(&kept, "110 mm", ease_value);
    assert_true(fabs(ease[0] - chest[0] - 2 * chest[2]) < 2e-3 && fabs(ease_value[0] - value[0]) < 1e-3);
    place_of(&kept, "890 mm", waist);
    place_of(&kept, "assumed from chest and drop as the house has it; nobody measured the waist", rest);
    assert_true(fabs(rest[0] - waist[0]) < 1e-3 && rest[1] > waist[1] + rest[2]); /* below, as there is no room */
    place_of(&kept, "1080 mm", seat);
    assert_true(seat[1] > rest[1] + seat[2]);
    place_of(&kept, "not known", alone);
    assert_true(fabs(alone[0] - value[0]) < 1e-3);
    place_of(&kept, "as drafted", text);
    assert_true(fabs(text[0] - chest[0] - chest[2]) < 2e-3);
    for (size_t i = 0; i < 7; i++) {
        without[i] = all[i];
        without[i].basis = "";
    }
    assert_int_equal(tailor_sheet_draw_ticket(without, 7, NULL, keep, &bare, NULL), TAILOR_OK);
    place_of(&bare, "1080 mm", plain);
    assert_true(plain[1] < seat[1]); /* nothing where there is no basis */
    free(kept.data);
    free(bare.data);
}

static void any_text_is_borne(void **state)
{
    (void)state;
    static char enormous[100000];
    memset(enormous, 'm', sizeof enormous - 1);
    const char *const texts[] = {"\xFF\xC0 broken", "line\nline\x01", "   ", "\xE6\xBC\xA2", "</svg>", "\xC2\xA0",
                                 "\xF0\x9F", enormous};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        tailor_line same[LINES];
        for (size_t k = 0; k < LINES; k++)
            same[k] = (tailor_line){lines[k].kind, (int32_t)k % 3, texts[i], texts[i], k % 2 ? texts[i] : NULL};
        for (int format = SVG; format <= PDF; format++) {
            struct kept kept = {0};
            const tailor_page *page = page_of(texts[i], TAILOR_PRINT_MM, format);
            const int status = tailor_sheet_draw_ticket(same, LINES, page, keep, &kept, NULL);
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
        cmocka_unit_test(a_rank_sets_in_and_a_basis_follows),
        cmocka_unit_test(any_text_is_borne),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

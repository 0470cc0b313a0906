/* The page: what it takes and refuses, what is drawn of it, and that all memory is the allocator's. */
#include "coats.h"

#include <stdio.h>

/* As in test_sheets.c. */
static tailor_pattern *coat;
static tailor_coat *toile; /* of a man of whom little is known, with a strong arm */

static int begin(void **state)
{
    (void)state;
    coat = draft(1016, 0, 1);
    toile = strong_arm();
    return 0;
}

static int end(void **state)
{
    (void)state;
    tailor_pattern_free(coat);
    tailor_coat_free(toile);
    return 0;
}

static tailor_page *new_page(void)
{
    tailor_page *page = NULL;
    assert_int_equal(tailor_page_new(NULL, &page, NULL), TAILOR_OK);
    return page;
}

static int times(const struct kept *kept, const char *text)
{
    int found = 0;
    for (const char *at = kept->data; at && (at = strstr(at, text)); at++)
        found++;
    return found;
}

static void numbers_are_what_the_header_says(void **state)
{
    static const struct {
        int setting, usual, count, choices[4];
    } numbers[] = {{TAILOR_PAGE_FORMAT, 1, 4, {1, 2, 3, 4}},
                   {TAILOR_PAGE_UNITS, 1, 3, {1, 8, 16}},
                   {TAILOR_PAGE_ANONYMOUS, 0, 2, {0, 1}}};
    static const double wrong[] = {-1, 0.5, 5, 7, 17, 1e9, -1e300, INFINITY, NAN};
    (void)state;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        const int n = numbers[i].setting;
        tailor_page *page = new_page();
        tailor_fault fault;
        assert_true(tailor_page_value(NULL, n) == numbers[i].usual && tailor_page_value(page, n) == numbers[i].usual);
        assert_null(tailor_page_text(page, n));
        for (int k = 0; k < numbers[i].count; k++) {
            assert_int_equal(tailor_page_set(page, n, numbers[i].choices[k], &fault), TAILOR_OK);
            assert_true(tailor_page_value(page, n) == numbers[i].choices[k]);
        }
        const double last = tailor_page_value(page, n);
        for (size_t k = 0; k < sizeof wrong / sizeof *wrong; k++) {
            assert_int_equal(tailor_page_set(page, n, wrong[k], &fault), TAILOR_BAD_ARGUMENT);
            assert_true(fault.low == numbers[i].choices[0] && fault.high == last);
            assert_true(fault.value == wrong[k] || isnan(wrong[k]));
            assert_non_null(strstr(fault.sentence, "cannot be "));
            assert_true(tailor_page_value(page, n) == last);
        }
        assert_int_equal(tailor_page_set_text(page, n, "1", &fault), TAILOR_BAD_ARGUMENT);
        assert_non_null(strstr(fault.sentence, "is a number"));
        tailor_page_free(page);
    }
}

static void texts_are_kept_and_unset(void **state)
{
    static const int texts[] = {TAILOR_PAGE_CLIENT, TAILOR_PAGE_TITLE, TAILOR_PAGE_ALIGN};
    (void)state;
    for (int i = 0; i < 3; i++) {
        tailor_page *page = new_page();
        char own[] = "Mr Example";
        tailor_fault fault;
        assert_string_equal(tailor_page_text(NULL, texts[i]), "");
        assert_string_equal(tailor_page_text(page, texts[i]), "");
        assert_true(isnan(tailor_page_value(page, texts[i])));
        assert_int_equal(tailor_page_set_text(page, texts[i], own, NULL), TAILOR_OK);
        memset(own, 'x', sizeof own - 1); /* the page has its copy */
        assert_string_equal(tailor_page_text(page, texts[i]), "Mr Example");
        assert_int_equal(tailor_page_set(page, texts[i], 1, &fault), TAILOR_BAD_ARGUMENT);
        assert_non_null(strstr(fault.sentence, "is a text"));
        assert_string_equal(tailor_page_text(page, texts[i]), "Mr Example");
        assert_int_equal(tailor_page_set_text(page, texts[i], i == 1 ? "" : NULL, NULL), TAILOR_OK);
        assert_string_equal(tailor_page_text(page, texts[i]), "");
        tailor_page_free(page);
    }
}

static void what_is_no_setting_is_refused(void **state)
{
    static const int unknown[] = {-1, 0, 7, 1000};
    tailor_page *page = new_page();
    tailor_fault fault;
    (void)state;
    for (int i = 0; i < 4; i++) {
        assert_int_equal(tailor_page_set(page, unknown[i], 1, &fault), TAILOR_BAD_ARGUMENT);
        assert_true(fault.value == unknown[i]);
        assert_non_null(strstr(fault.sentence, "no setting"));
        assert_int_equal(tailor_page_set_text(page, unknown[i], "x", &fault), TAILOR_BAD_ARGUMENT);
        assert_true(isnan(tailor_page_value(page, unknown[i])));
        assert_null(tailor_page_text(page, unknown[i]));
    }
    assert_int_equal(tailor_page_set(NULL, TAILOR_PAGE_FORMAT, 1, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_page_set_text(NULL, TAILOR_PAGE_TITLE, "x", NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_page_new(NULL, NULL, &fault), TAILOR_BAD_ARGUMENT);
    tailor_page_free(NULL);
    tailor_page_free(page);
}

/** A pattern on a page of a client, a title, or neither. */
static struct kept drawn(const char *client, const char *title, int anonymous, int toile_only)
{
    struct kept kept = {0};
    tailor_page *page = new_page();
    assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_CLIENT, client, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_TITLE, title, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set(page, TAILOR_PAGE_ANONYMOUS, anonymous, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_coat(page, toile_only ? toile : NULL, NULL), TAILOR_OK);
    assert_int_equal(tailor_sheet_draw_pattern(coat, page, keep, &kept, NULL), TAILOR_OK);
    tailor_page_free(page);
    return kept;
}

static void the_words_are_client_title_and_caution(void **state)
{
    static const struct {
        const char *client, *title;
        int anonymous, toile_only;
        const char *heading, *on_pieces;
    } cases[] = {{"Mr A", "order 12", 0, 0, "Mr A, order 12", "Mr A, order 12"},
                 {"Mr A", "order 12", 1, 0, "order 12", "order 12"},
                 {"Mr A", "order 12", 0, 1, "Mr A, order 12 - for toile only", "Mr A, order 12 - for toile only"},
                 {"Mr A", "", 1, 1, "Coat pattern - for toile only", "for toile only"},
                 {"Mr A", NULL, 0, 0, "Mr A", "Mr A"},
                 {NULL, NULL, 0, 1, "Coat pattern - for toile only", "for toile only"},
                 {NULL, NULL, 0, 0, "Coat pattern", NULL}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct kept k = drawn(cases[i].client, cases[i].title, cases[i].anonymous, cases[i].toile_only);
        char text[64];
        snprintf(text, sizeof text, "font-weight=\"bold\">%s</text>", cases[i].heading);
        assert_int_equal(times(&k, text), 1);
        snprintf(text, sizeof text, "\n<title>%s</title>", cases[i].on_pieces ? cases[i].on_pieces : "");
        assert_int_equal(times(&k, text), 1); /* the file's */
        snprintf(text, sizeof text, ">%s</text>", cases[i].on_pieces ? cases[i].on_pieces : "");
        assert_true(!cases[i].on_pieces || times(&k, text) == tailor_pattern_piece_count(coat) +
                                                                  !strcmp(cases[i].on_pieces, cases[i].heading));
        assert_true(!cases[i].anonymous || times(&k, "Mr A") == 0);
        free(k.data);
    }
}

/** Every sheet says it, however long the client's name is, and which order it is; so does the file. An order that is
 *  too long gives way, too. */
static void for_toile_only_is_never_cut_off(void **state)
{
    static const char order[] = "order 12", ellipsis[] = "\xE2\x80\xA6";
    static char one_word[1000], words[1000];
    const char *const clients[] = {one_word, words};
    const tailor_pattern *const list[] = {coat, coat};
    tailor_point line[60];
    tailor_page *page = new_page();
    (void)state;
    memset(one_word, 'W', sizeof one_word - 1);
    for (size_t i = 0; i < sizeof words - 1; i++)
        words[i] = i % 7 ? 'w' : ' ';
    for (int i = 0; i < 60; i++)
        line[i] = (tailor_point){i, sin(i / 20.0)};
    assert_int_equal(tailor_page_set_coat(page, toile, NULL), TAILOR_OK);
    for (int i = 0; i < 4; i++) {
        struct kept k[6] = {{0}};
        char heading[64], text[80];
        snprintf(heading, sizeof heading, i < 2 ? "%s, order 12 - for toile only" : "%s - for toile only", ellipsis);
        assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_CLIENT, clients[i % 2], NULL), TAILOR_OK);
        assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_TITLE, i < 2 ? order : clients[1 - i % 2], NULL),
                         TAILOR_OK);
        assert_int_equal(tailor_page_set(page, TAILOR_PAGE_FORMAT, TAILOR_SHEET_SVG, NULL), TAILOR_OK);
        assert_int_equal(tailor_sheet_draw_pattern(coat, page, keep, &k[0], NULL), TAILOR_OK);
        assert_int_equal(tailor_sheet_draw_fronts(list, NULL, 2, page, keep, &k[1], NULL), TAILOR_OK);
        assert_int_equal(tailor_sheet_draw_overlay(coat, coat, NULL, page, keep, &k[2], NULL), TAILOR_OK);
        assert_int_equal(tailor_sheet_draw_nest(list, NULL, 2, 0, page, keep, &k[3], NULL), TAILOR_OK);
        assert_int_equal(tailor_sheet_draw_section(line, 60, NULL, 0, page, keep, &k[4], NULL), TAILOR_OK);
        assert_int_equal(times(&k[0], ">for toile only</text>"), tailor_pattern_piece_count(coat));
        if (i < 2)
            assert_int_equal(times(&k[0], ">order 12</text>"), tailor_pattern_piece_count(coat));
        snprintf(text, sizeof text, "%s</text>", heading);
        for (int sheet = 0; sheet < 5; sheet++) {
            assert_int_equal(times(&k[sheet], text), 1);
            assert_int_equal(times(&k[sheet], " - for toile only</title>"), 1);
        }
        assert_int_equal(tailor_page_set(page, TAILOR_PAGE_FORMAT, TAILOR_SHEET_DXF, NULL), TAILOR_OK);
        assert_int_equal(tailor_sheet_draw_pattern(coat, page, keep, &k[5], NULL), TAILOR_OK);
        assert_int_equal(times(&k[5], i < 2 ? "\\U+2026, order 12 - for toile only\n" : "\\U+2026 - for toile only\n"),
                         tailor_pattern_piece_count(coat));
        for (int sheet = 0; sheet < 6; sheet++)
            free(k[sheet].data);
    }
    tailor_page_free(page);
}

/* Memory that is refused at one request, and counted. */
struct purse {
    long asked, refuse, out;
};

static void *ask(void *user, size_t bytes)
{
    struct purse *purse = user;
    if (++purse->asked == purse->refuse)
        return NULL;
    purse->out++;
    return malloc(bytes);
}

static void give_back(void *user, void *memory)
{
    struct purse *purse = user;
    assert_non_null(memory);
    purse->out--;
    free(memory);
}

/** A page with its texts, and seven sheets on it. Returns the first status that is not TAILOR_OK. */
static tailor_status all_sheets(const tailor_allocator *allocator, struct kept *kept)
{
    static const tailor_line lines[] = {{.kind = TAILOR_LINE_HEADING, .label = "a"},
                                        {.kind = TAILOR_LINE_ROW, .label = "b", .value = "c", .basis = "d"}};
    static const tailor_point line[] = {{0, 0}, {1, 1}, {2, 0}};
    const tailor_pattern *const list[] = {coat, coat};
    tailor_page *page = NULL;
    tailor_status status[12] = {tailor_page_new(allocator, &page, NULL)};
    if (!page)
        return status[0];
    status[1] = tailor_page_set_text(page, TAILOR_PAGE_CLIENT, "Mr A", NULL);
    status[2] = tailor_page_set_text(page, TAILOR_PAGE_TITLE, "order 12", NULL);
    status[10] = tailor_page_set_coat(page, toile, NULL);
    status[11] = tailor_sheet_draw_coat(toile, page, keep, kept, NULL);
    status[3] = tailor_sheet_draw_pattern(coat, page, keep, kept, NULL);
    status[4] = tailor_sheet_draw_fronts(list, NULL, 2, page, keep, kept, NULL);
    status[5] = tailor_sheet_draw_overlay(coat, coat, NULL, page, keep, kept, NULL);
    status[6] = tailor_sheet_draw_nest(list, NULL, 2, 0, page, keep, kept, NULL);
    status[7] = tailor_sheet_draw_ticket(lines, 2, page, keep, kept, NULL);
    status[8] = tailor_sheet_draw_section(line, 3, NULL, 0, page, keep, kept, NULL);
    tailor_page_set(page, TAILOR_PAGE_FORMAT, TAILOR_SHEET_DXF, NULL);
    status[9] = tailor_sheet_draw_pattern(coat, page, keep, kept, NULL);
    tailor_page_free(page);
    for (int i = 0; i < 12; i++)
        if (status[i] != TAILOR_OK)
            return status[i];
    return TAILOR_OK;
}

static void every_memory_is_the_allocators(void **state)
{
    struct kept whole = {0}, plain = {0};
    struct purse all = {0};
    (void)state;
    const tailor_allocator counting = {ask, give_back, &all};
    assert_int_equal(all_sheets(&counting, &whole), TAILOR_OK);
    assert_int_equal(all.out, 0);
    assert_int_equal(all_sheets(NULL, &plain), TAILOR_OK);
    assert_int_equal(plain.bytes, whole.bytes);
    assert_memory_equal(plain.data, whole.data, whole.bytes);
    assert_true(all.asked > 50);
    for (long k = 1; k <= all.asked; k++) {
        struct purse purse = {.refuse = k};
        struct kept kept = {0};
        const tailor_allocator allocator = {ask, give_back, &purse};
        assert_int_equal(all_sheets(&allocator, &kept), TAILOR_NO_MEMORY);
        assert_int_equal(purse.out, 0);
        free(kept.data);
    }
    free(whole.data);
    free(plain.data);
}

static void a_text_that_finds_no_memory_leaves_the_old(void **state)
{
    struct purse purse = {.refuse = 3};
    const tailor_allocator allocator = {ask, give_back, &purse};
    tailor_page *page = NULL;
    (void)state;
    assert_int_equal(tailor_page_new(&allocator, &page, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_TITLE, "old", NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_TITLE, "new", NULL), TAILOR_NO_MEMORY);
    assert_string_equal(tailor_page_text(page, TAILOR_PAGE_TITLE), "old");
    tailor_page_free(page);
    assert_int_equal(purse.out, 0);
}

int test_page(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_what_the_header_says),
        cmocka_unit_test(texts_are_kept_and_unset),
        cmocka_unit_test(what_is_no_setting_is_refused),
        cmocka_unit_test(the_words_are_client_title_and_caution),
        cmocka_unit_test(for_toile_only_is_never_cut_off),
        cmocka_unit_test(every_memory_is_the_allocators),
        cmocka_unit_test(a_text_that_finds_no_memory_leaves_the_old),
    };
    return cmocka_run_group_tests(tests, begin, end);
}

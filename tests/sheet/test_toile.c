/* "for toile only" and a coat's cautions: on every sheet, whoever draws it, and on no other. */
#include "coats.h"

#include <stdio.h>
#include <tailorgeom/roll.h>

static const char words[] = "for toile only";
static tailor_coat *toile, *failing;
static tailor_pattern *measured; /* of a coat that is no toile */

static int begin(void **state)
{
    (void)state;
    measured = draft(1016, 0, 1);
    toile = strong_arm();
    /* measured as the coat of a stouter man: its girths are not those ordered */
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *other = NULL;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1100;
    client[TAILOR_FIELD_BUTTONING] = TAILOR_BUTTONING_TWO_BUTTON;
    client[TAILOR_FIELD_MAKING] = TAILOR_MAKING_MADE_TO_MEASURE;
    if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &other, NULL) != TAILOR_OK)
        return 1;
    const tailor_status status =
        tailor_coat_of_pattern(NULL, tailor_coat_fields(other, NULL), tailor_coat_origins(other, NULL),
                               TAILOR_FIELD_COUNT, measured, &failing, NULL);
    tailor_coat_free(other);
    return status != TAILOR_CHECK_FAILED;
}

static int end(void **state)
{
    (void)state;
    tailor_pattern_free(measured);
    tailor_coat_free(toile);
    tailor_coat_free(failing);
    return 0;
}

static int times(const struct kept *kept, const char *text)
{
    int found = 0;
    for (const char *at = kept->data; at && (at = strstr(at, text)); at++)
        found++;
    return found;
}

/** Draw one of the sheets of patterns, of the two, on no page. */
static struct kept sheet_of(int sheet, const tailor_pattern *a, const tailor_pattern *b)
{
    const tailor_pattern *const both[] = {a, b};
    struct kept kept = {0};
    tailor_status status;
    if (sheet == 0)
        status = tailor_sheet_draw_pattern(b, NULL, keep, &kept, NULL);
    else if (sheet == 1)
        status = tailor_sheet_draw_fronts(both, NULL, 2, NULL, keep, &kept, NULL);
    else if (sheet == 2)
        status = tailor_sheet_draw_overlay(a, b, NULL, NULL, keep, &kept, NULL);
    else
        status = tailor_sheet_draw_nest(both, NULL, 2, 0, NULL, keep, &kept, NULL);
    assert_int_equal(status, TAILOR_OK);
    return kept;
}

static void every_sheet_of_patterns_says_it(void **state)
{
    static const char *const usual[] = {"Coat pattern", "Fronts compared", "Two drafts overlaid", "Nest of sizes"};
    const tailor_pattern *const little = tailor_coat_pattern(toile);
    const tailor_pattern *const pairs[][2] = {{measured, measured}, {measured, little}, {little, measured}};
    (void)state;
    for (int sheet = 0; sheet < 4; sheet++)
        for (int i = 0; i < 3; i++) {
            struct kept k = sheet_of(sheet, pairs[i][0], pairs[i][1]);
            char heading[64];
            const int says = sheet ? i > 0 : i == 1; /* the pattern alone is the second */
            snprintf(heading, sizeof heading, ">%s%s%s</text>", usual[sheet], says ? " - " : "", says ? words : "");
            assert_int_equal(times(&k, heading), 1);
            assert_true(says || times(&k, "toile") == 0);
            assert_true(!says || sheet || times(&k, words) >= tailor_pattern_piece_count(little) + 2);
            assert_int_equal(times(&k, "id=\"cautions\""), 0); /* a pattern has none */
            free(k.data);
        }
}

static void canvas_says_it(void **state)
{
    (void)state;
    for (int makes = 0; makes < 2; makes++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_canvas *canvas = NULL;
        struct kept k = {0};
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
        client[TAILOR_FIELD_MAKING] = makes ? TAILOR_MAKING_MADE_TO_MEASURE : TAILOR_MAKING_BESPOKE;
        tailor_pattern *coat = own_pattern(client, TAILOR_EXTENT_MAKE, NULL);
        assert_int_equal(tailor_canvas_begin(coat, "canvas", NULL, 0, 1, NULL, &canvas, NULL), TAILOR_OK);
        const tailor_canvas *const list[] = {canvas};
        assert_int_equal(tailor_sheet_draw_canvas(list, 1, NULL, keep, &k, NULL), TAILOR_OK);
        assert_int_equal(times(&k, makes ? ">Canvas layout</text>" : ">Canvas layout - for toile only</text>"), 1);
        assert_int_equal(times(&k, words) > 0, !makes);
        free(k.data);
        tailor_canvas_free(canvas);
        tailor_pattern_free(coat);
    }
}

/** The number behind `name="` in the tag that begins before `at`. */
static double attribute(const char *at, const char *name)
{
    char wanted[16];
    while (*at != '<' || at[1] == '/')
        at--;
    snprintf(wanted, sizeof wanted, " %s=\"", name);
    const char *found = strstr(at, wanted);
    assert_non_null(found);
    return strtod(found + strlen(wanted), NULL);
}

static void sentence_of(int number, char text[256])
{
    tailor_fault caution;
    for (int i = 0; tailor_coat_caution(toile, i, &caution); i++)
        if (caution.index == number) {
            snprintf(text, 256, ">%s</text>", caution.sentence);
            return;
        }
    fail_msg("the coat has no caution %d", number);
}

static void a_coats_sheet_has_its_cautions(void **state)
{
    struct kept k = {0}, without = {0};
    char first[256], second[256];
    (void)state;
    sentence_of(TAILOR_CAUTION_TOILE_ONLY, first);
    sentence_of(TAILOR_CAUTION_SCYE_DEEPENED, second);
    assert_int_equal(tailor_sheet_draw_coat(toile, NULL, keep, &k, NULL), TAILOR_OK);
    assert_int_equal(tailor_sheet_draw_pattern(tailor_coat_pattern(toile), NULL, keep, &without, NULL), TAILOR_OK);
    assert_int_equal(times(&k, first), 1);
    assert_int_equal(times(&k, second), 1);
    assert_int_equal(times(&k, ">Coat pattern - for toile only</text>"), 1);
    assert_int_equal(times(&without, first) + times(&without, second), 0);
    /* They have rows of their own, and all else has moved below them. */
    const double square = attribute(strstr(k.data, ">test square</text>"), "y");
    const double rows[] = {attribute(strstr(k.data, first), "y"), attribute(strstr(k.data, second), "y")};
    const char *group = ">cloth</text>";
    const double below = attribute(strstr(k.data, group), "y"), before = attribute(strstr(without.data, group), "y");
    assert_true(rows[0] > square + 68 + 8 && rows[1] > rows[0] + 10); /* its box ends 68 below its first line */
    assert_true(below > rows[1] + 13 && below - before > 2 * 13 && below - before < 2 * 14);
    assert_true(attribute(strstr(without.data, ">test square</text>"), "y") <= square);
    free(k.data);
    free(without.data);
}

/** A caution that is merely worth knowing is not for every sheet. */
static void what_is_worth_knowing_is_not_on_it(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    tailor_fault told;
    struct kept k = {0};
    (void)state;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_MAKING] = TAILOR_MAKING_MADE_TO_MEASURE;
    for (double arm = 330; arm < 420 && tailor_coat_caution(coat, 0, &told) != TAILOR_CAUTION_CLASS_TOLD; arm++) {
        tailor_coat_free(coat);
        client[TAILOR_FIELD_UPPER_ARM_GIRTH] = arm;
        assert_int_equal(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, 0, &coat, NULL), TAILOR_OK);
    }
    assert_int_equal(tailor_coat_caution(coat, 0, &told), TAILOR_CAUTION_CLASS_TOLD);
    assert_int_equal(tailor_sheet_draw_coat(coat, NULL, keep, &k, NULL), TAILOR_OK);
    assert_int_equal(times(&k, "The scye is") + times(&k, "id=\"cautions\"") + times(&k, "toile"), 0);
    free(k.data);
    tailor_coat_free(coat);
}

static void a_coat_whose_check_failed_is_refused(void **state)
{
    tailor_fault fault, own;
    struct kept k = {0};
    tailor_page *page = NULL;
    (void)state;
    assert_int_equal(tailor_coat_status(failing, &own), TAILOR_CHECK_FAILED);
    for (int format = TAILOR_SHEET_SVG; format <= TAILOR_SHEET_DXF; format++) {
        memset(&fault, 0, sizeof fault);
        assert_int_equal(
            tailor_sheet_draw_coat(failing, page_of("", TAILOR_PRINT_MM, format), keep, &k, &fault),
            TAILOR_CHECK_FAILED);
        assert_memory_equal(&fault, &own, sizeof fault);
    }
    assert_int_equal(tailor_sheet_draw_coat(failing, NULL, keep, &k, NULL), TAILOR_CHECK_FAILED);
    assert_int_equal(tailor_sheet_draw_coat(NULL, NULL, keep, &k, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_coat(toile, NULL, NULL, &k, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(k.calls, 0);
    assert_int_equal(tailor_page_new(NULL, &page, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_coat(page, toile, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_coat(page, failing, &fault), TAILOR_CHECK_FAILED);
    assert_memory_equal(&fault, &own, sizeof fault);
    assert_int_equal(tailor_page_set_coat(NULL, toile, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_sheet_draw_ticket(NULL, 0, page, keep, &k, NULL), TAILOR_OK);
    assert_true(times(&k, words) > 0); /* the page is as it was */
    free(k.data);
    tailor_page_free(page);
}

static void ticket_and_section_are_of_the_pages_coat(void **state)
{
    static const tailor_line lines[] = {{.kind = TAILOR_LINE_TEXT, .label = "", .value = "first"},
                                        {.kind = TAILOR_LINE_HEADING, .label = "a"},
                                        {.kind = TAILOR_LINE_ROW, .label = "b", .value = "c"}};
    tailor_coat *coat = strong_arm();
    tailor_point line[TAILOR_ROLLED_LINE_COUNT];
    size_t points = 0;
    char first[256], second[256];
    tailor_page *page = NULL;
    (void)state;
    sentence_of(TAILOR_CAUTION_TOILE_ONLY, first);
    sentence_of(TAILOR_CAUTION_SCYE_DEEPENED, second);
    const tailor_point *own = tailor_coat_section(coat, &points);
    memcpy(line, own, points * sizeof *line);
    assert_int_equal(tailor_page_new(NULL, &page, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_TITLE, "order 12", NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_coat(page, coat, NULL), TAILOR_OK);
    tailor_coat_free(coat); /* what the page needs is copied */
    for (int of_coat = 1; of_coat >= 0; of_coat--) {
        struct kept ticket = {0}, section = {0};
        assert_int_equal(tailor_sheet_draw_ticket(lines, 3, page, keep, &ticket, NULL), TAILOR_OK);
        assert_int_equal(tailor_sheet_draw_section(line, points, NULL, 0, page, keep, &section, NULL), TAILOR_OK);
        assert_int_equal(times(&ticket, ">order 12 - for toile only</text>"), of_coat);
        assert_int_equal(times(&section, ">Section of the roll: order 12 - for toile only</text>"), of_coat);
        assert_int_equal(times(&ticket, ">Cut a toile only: "), of_coat);
        assert_int_equal(times(&ticket, second), of_coat);
        assert_int_equal(times(&section, ">Cut a toile only: "), of_coat);
        assert_int_equal(times(&section, second), of_coat);
        if (of_coat) {
            const double scale = attribute(strstr(section.data, ">Across the break line"), "y");
            const double rows[] = {attribute(strstr(section.data, ">Cut a toile"), "y"),
                                   attribute(strstr(section.data, second), "y")};
            assert_true(rows[0] > scale + 4 && rows[1] > rows[0] + 4);
            assert_true(attribute(strstr(section.data, ">crest</text>"), "y") > rows[1] + 4);
            assert_true(attribute(strstr(ticket.data, ">first</text>"), "y") >
                        attribute(strstr(ticket.data, second), "y") + 2);
        }
        assert_int_equal(tailor_page_set_coat(page, NULL, NULL), TAILOR_OK);
        free(ticket.data);
        free(section.data);
    }
    tailor_page_free(page);
}

/** A page's coat counts for nothing where another is drawn. */
static void the_coat_that_is_drawn_counts(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    struct kept k = {0}, after = {0};
    tailor_page *page = NULL;
    (void)state;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_MAKING] = TAILOR_MAKING_MADE_TO_MEASURE;
    assert_int_equal(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, 0, &coat, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_new(NULL, &page, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_coat(page, toile, NULL), TAILOR_OK);
    assert_int_equal(tailor_sheet_draw_coat(coat, page, keep, &k, NULL), TAILOR_OK);
    assert_int_equal(times(&k, "toile"), 0);
    assert_int_equal(tailor_sheet_draw_pattern(tailor_coat_pattern(coat), page, keep, &after, NULL), TAILOR_OK);
    assert_int_equal(times(&after, ">Cut a toile only: "), 1); /* the page keeps its own */
    free(k.data);
    free(after.data);
    tailor_page_free(page);
    tailor_coat_free(coat);
}

int test_toile(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_sheet_of_patterns_says_it),
        cmocka_unit_test(canvas_says_it),
        cmocka_unit_test(a_coats_sheet_has_its_cautions),
        cmocka_unit_test(what_is_worth_knowing_is_not_on_it),
        cmocka_unit_test(a_coat_whose_check_failed_is_refused),
        cmocka_unit_test(ticket_and_section_are_of_the_pages_coat),
        cmocka_unit_test(the_coat_that_is_drawn_counts),
    };
    return cmocka_run_group_tests(tests, begin, end);
}

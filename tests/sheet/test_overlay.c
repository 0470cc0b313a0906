/* Two drafts on one another: which pieces belong together, where they lie, what is said of them, and all that may
 * fail. */
#include "coats.h"
#include "../../lib/sheet/layout/overlay.h"
#include "../../lib/sheet/output/write.h"

static tailor_pattern *plain, *longer, *low_left, *whole;

static tailor_pattern *order(const double *client, int all_pieces)
{
    tailor_fault fault;
    tailor_pattern *coat = own_pattern(client, all_pieces ? TAILOR_EXTENT_MAKE : TAILOR_EXTENT_NET, &fault);
    if (!coat)
        fail_msg("%s", fault.sentence);
    return coat;
}

static int draft_all(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    (void)state;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_COAT_LENGTH] = 760;
    plain = order(client, 0);
    whole = order(client, 1);
    client[TAILOR_FIELD_COAT_LENGTH] = 780;
    longer = order(client, 0);
    client[TAILOR_FIELD_LOW_HIP_LEFT] = 8;
    low_left = order(client, 0);
    return 0;
}

static int free_all(void **state)
{
    (void)state;
    tailor_pattern_free(plain);
    tailor_pattern_free(longer);
    tailor_pattern_free(low_left);
    tailor_pattern_free(whole);
    return 0;
}

static tailor_status overlay(const tailor_pattern *before, const tailor_pattern *after, int format, struct kept *kept,
                             tailor_fault *fault)
{
    static const char *const labels[] = {"old <&>", "new"};
    return tailor_sheet_draw_overlay(before, after, labels, page_of("Order 12 \xC3\x85", TAILOR_PRINT_MM, format), keep,
                                     kept, fault);
}

static int occurrences(const char *text, const char *part)
{
    int count = 0;
    for (const char *at = strstr(text, part); at; at = strstr(at + 1, part))
        count++;
    return count;
}

static void a_draft_on_itself(void **state)
{
    struct kept kept = {0};
    (void)state;
    assert_int_equal(overlay(plain, plain, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_OK);
    assert_int_equal(occurrences(kept.data, ">outline as before</text>"), tailor_pattern_piece_count(plain));
    assert_int_equal(occurrences(kept.data, " apart</text>"), 0);
    assert_int_equal(occurrences(kept.data, ">only "), 0);
    assert_int_equal(occurrences(kept.data, ">before, dashed: old &lt;&amp;&gt;</text>"), 1);
    assert_int_equal(occurrences(kept.data, ">after, solid: new</text>"), 1);
    free(kept.data);
}

/* A back that is 20 longer: its hem is 20 away, and no point of either outline is farther from the other than that, but
 * for the corners of the slanting side. */
static void the_distance_is_told(void **state)
{
    struct kept kept = {0};
    char inches[] = "outlines up to 3/4 in apart";
    (void)state;
    assert_int_equal(overlay(plain, longer, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_OK);
    assert_true(occurrences(kept.data, ">outlines up to 20 mm apart</text>") >= 1);
    free(kept.data);
    kept = (struct kept){0};
    assert_int_equal(tailor_sheet_draw_overlay(plain, longer, NULL,
                                               page_of(NULL, TAILOR_PRINT_INCH_8, TAILOR_SHEET_SVG), keep, &kept,
                                               NULL),
                     TAILOR_OK);
    assert_true(occurrences(kept.data, inches) >= 1);
    assert_int_equal(occurrences(kept.data, ">Two drafts overlaid - for toile only</text>"), 1);
    assert_int_equal(occurrences(kept.data, ">before, dashed</text>"), 1);
    free(kept.data);
}

/* Bounds of the heavy line in a group, on the page. */
static void bounds_of(const struct tailor_in_drawing *d, const char *id, double box[4])
{
    size_t count;
    int inside = 0, found = 0;
    const struct tailor_in_item *item = tailor_in_drawing_items(d, &count);
    for (size_t i = 0; i < count && !found; i++) {
        if (item[i].kind == TAILOR_IN_GROUP)
            inside = strcmp(tailor_in_drawing_string(d, item[i].count), id) == 0;
        if (!inside || item[i].kind != TAILOR_IN_PATH || !item[i].closed)
            continue;
        tailor_path_bounds(tailor_in_drawing_cubics(d, &item[i]), item[i].count, box);
        found = 1;
    }
    if (!found)
        fail_msg("no outline in %s", id);
}

static void pieces_lie_at_their_own_origin(void **state)
{
    static const char *const names[] = {"back", "sidebody", "forepart"};
    const tailor_pattern *const drafts[] = {plain, longer};
    const char *const labels[] = {NULL, NULL};
    struct tailor_in_drawing d;
    (void)state;
    tailor_in_drawing_begin(&d, NULL, NULL);
    tailor_in_compose_overlay(&d, drafts, labels, TAILOR_PRINT_MM);
    for (int i = 0; i < 3; i++) {
        double page[2][4], own[2][4];
        for (int draft = 0; draft < 2; draft++) {
            size_t count;
            char id[64];
            const tailor_cubic *path =
                tailor_piece_outline(drafts[draft], tailor_pattern_find_piece(drafts[draft], names[i]), &count);
            tailor_path_bounds(path, count, own[draft]);
            strcpy(id, names[i]);
            strcat(id, draft ? "-after" : "-before");
            bounds_of(&d, id, page[draft]);
        }
        for (int k = 0; k < 4; k += 2) /* x to the right on both, y down on the page */
            assert_true(fabs((page[1][k] - page[0][k]) - (own[1][k] - own[0][k])) < 1e-9);
        assert_true(fabs((page[1][3] - page[0][3]) + (own[1][1] - own[0][1])) < 1e-9);
        assert_true(fabs((page[1][1] - page[0][1]) + (own[1][3] - own[0][3])) < 1e-9);
        assert_true(page[0][0] > 0 && page[1][2] < d.width && page[0][1] > 0 && page[1][3] < d.height);
    }
    tailor_in_drawing_end(&d);
}

static void a_piece_of_both_sides_is_laid_on_each(void **state)
{
    struct kept kept = {0}, back = {0};
    (void)state;
    assert_true(tailor_pattern_find_piece(low_left, "forepart_left") >= 0);
    assert_int_equal(overlay(longer, low_left, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_OK);
    assert_int_equal(occurrences(kept.data, "id=\"forepart-before\""), 1);
    assert_int_equal(occurrences(kept.data, "id=\"forepart-before-mirrored\""), 1);
    assert_int_equal(occurrences(kept.data, "id=\"forepart_left-after\""), 1);
    assert_int_equal(occurrences(kept.data, ">forepart left</text>"), 1);
    assert_int_equal(occurrences(kept.data, ">forepart</text>"), 0);
    assert_int_equal(occurrences(kept.data, ">only "), 0);
    assert_int_equal(overlay(low_left, longer, TAILOR_SHEET_SVG, &back, NULL), TAILOR_OK);
    assert_int_equal(occurrences(back.data, "id=\"forepart-after-mirrored\""), 1);
    assert_int_equal(occurrences(back.data, ">forepart left</text>"), 1);
    assert_int_equal(occurrences(back.data, ">only "), 0);
    /* the side that is as it was lies on it exactly: mirrored, too, it is the same outline */
    assert_int_equal(occurrences(kept.data, ">outline as before</text>"),
                     occurrences(back.data, ">outline as before</text>"));
    assert_true(occurrences(kept.data, ">outline as before</text>") >= 1);
    free(kept.data);
    free(back.data);
}

static void what_one_draft_lacks_is_noted(void **state)
{
    struct kept kept = {0};
    int more = 0;
    (void)state;
    for (int i = 0; i < tailor_pattern_piece_count(whole); i++)
        more += tailor_pattern_find_piece(plain, tailor_piece_name(whole, i)) < 0;
    assert_true(more > 5);
    assert_int_equal(overlay(plain, whole, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_OK);
    assert_int_equal(occurrences(kept.data, ">only after</text>"), more);
    free(kept.data);
    kept = (struct kept){0};
    assert_int_equal(overlay(whole, plain, TAILOR_SHEET_SVG, &kept, NULL), TAILOR_OK);
    assert_int_equal(occurrences(kept.data, ">only before</text>"), more);
    free(kept.data);
}

/* Memory that is refused from the k-th request on, and counted. */
struct purse {
    long asked, refuse_from, out;
};
static void *ask(void *user, size_t bytes)
{
    struct purse *purse = user;
    if (++purse->asked >= purse->refuse_from)
        return NULL;
    purse->out++;
    return malloc(bytes);
}
static void give_back(void *user, void *memory)
{
    struct purse *purse = user;
    purse->out -= memory != NULL;
    free(memory);
}

static void memory_may_run_out_anywhere(void **state)
{
    const tailor_pattern *const drafts[] = {longer, low_left};
    const char *const labels[] = {"a", "b"};
    long k = 1;
    int failed = 1;
    (void)state;
    for (; failed; k++) {
        struct purse purse = {.refuse_from = k};
        const tailor_allocator allocator = {ask, give_back, &purse};
        struct tailor_in_drawing d;
        struct kept kept = {0};
        tailor_in_drawing_begin(&d, NULL, &allocator);
        tailor_in_compose_overlay(&d, drafts, labels, TAILOR_PRINT_MM);
        failed = purse.asked >= k;
        assert_int_equal(tailor_in_drawing_write(&d, TAILOR_SHEET_SVG, keep, &kept, NULL),
                         failed ? TAILOR_NO_MEMORY : TAILOR_OK);
        tailor_in_drawing_end(&d);
        assert_int_equal(purse.out, 0);
        free(kept.data);
    }
    assert_true(k > 5);
}

static void the_same_bytes_and_refusing_writers(void **state)
{
    (void)state;
    for (int format = TAILOR_SHEET_SVG; format <= TAILOR_SHEET_PNG; format++) {
        struct kept first = {0}, second = {0}, broken = {.refuse = 2};
        tailor_fault fault;
        assert_int_equal(overlay(plain, low_left, format, &first, &fault), TAILOR_OK);
        assert_int_equal(overlay(plain, low_left, format, &second, &fault), TAILOR_OK);
        assert_int_equal(first.bytes, second.bytes);
        assert_memory_equal(first.data, second.data, first.bytes);
        assert_int_equal(overlay(plain, low_left, format, &broken, &fault), TAILOR_WRITE_FAILED);
        assert_int_equal(broken.calls_after, 0);
        free(first.data);
        free(second.data);
        free(broken.data);
    }
}

static void senseless_calls_are_refused(void **state)
{
    struct kept kept = {0};
    tailor_fault fault;
    (void)state;
    const tailor_page *dxf = page_of(NULL, TAILOR_PRINT_MM, TAILOR_SHEET_DXF);
    const tailor_status refused[] = {
        tailor_sheet_draw_overlay(NULL, plain, NULL, NULL, keep, &kept, &fault),
        tailor_sheet_draw_overlay(plain, NULL, NULL, NULL, keep, &kept, NULL),
        tailor_sheet_draw_overlay(plain, plain, NULL, dxf, keep, &kept, &fault),
        tailor_sheet_draw_overlay(plain, plain, NULL, NULL, NULL, &kept, &fault),
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++)
        assert_int_equal(refused[i], TAILOR_BAD_ARGUMENT);
    assert_int_equal(kept.calls, 0);
}

int test_overlay(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_draft_on_itself),
        cmocka_unit_test(the_distance_is_told),
        cmocka_unit_test(pieces_lie_at_their_own_origin),
        cmocka_unit_test(a_piece_of_both_sides_is_laid_on_each),
        cmocka_unit_test(what_one_draft_lacks_is_noted),
        cmocka_unit_test(memory_may_run_out_anywhere),
        cmocka_unit_test(the_same_bytes_and_refusing_writers),
        cmocka_unit_test(senseless_calls_are_refused),
    };
    return cmocka_run_group_tests(tests, draft_all, free_all);
}

/* Composing: memory that runs out at any point, pieces of any shape, and what a drawing then holds. */
#include "coats.h"
#include "../../lib/pattern/build.h"
#include "../../lib/sheet/layout/compose.h"
#include "../../lib/sheet/output/write.h"

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
    assert_non_null(memory);
    purse->out--;
    free(memory);
}

static void compose_one(struct tailor_in_drawing *d, tailor_pattern **coats)
{
    tailor_in_compose_pattern(d, coats[0], TAILOR_PRINT_MM);
}

static void compose_all(struct tailor_in_drawing *d, tailor_pattern **coats)
{
    tailor_in_compose_fronts(d, (const tailor_pattern *const *)coats, fastenings, FASTENINGS);
}

static void memory_may_run_out_anywhere(void **state)
{
    static void (*const compose[])(struct tailor_in_drawing *, tailor_pattern **) = {compose_one, compose_all};
    (void)state;
    tailor_pattern *coats[FASTENINGS];
    for (int i = 0; i < FASTENINGS; i++)
        coats[i] = draft(1016, 0, i);
    for (int which = 0; which < 2; which++) {
        int failed = 1;
        for (long k = 1; failed; k++) {
            struct purse purse = {0, k, 0};
            const tailor_allocator allocator = {ask, give_back, &purse};
            struct tailor_in_drawing drawing;
            struct kept kept = {0};
            tailor_fault fault = {0};
            tailor_in_drawing_begin(&drawing, &(const struct tailor_in_title){"", "a", "b", "c"}, &allocator);
            compose[which](&drawing, coats);
            failed = drawing.failed;
            const tailor_status status = tailor_in_drawing_write(&drawing, TAILOR_SHEET_SVG, keep, &kept, &fault);
            assert_int_equal(status, failed ? TAILOR_NO_MEMORY : TAILOR_OK);
            assert_int_equal(fault.status, failed ? TAILOR_NO_MEMORY : 0);
            assert_true(failed == (kept.bytes == 0));
            tailor_in_drawing_end(&drawing);
            assert_int_equal(purse.out, 0);
            assert_true(k < 200);
            if (k > 5 && !failed)
                assert_true(purse.asked == k - 1);
            free(kept.data);
        }
    }
    for (int i = 0; i < FASTENINGS; i++)
        tailor_pattern_free(coats[i]);
}

/* A pattern of one piece with four straight edges. */
static tailor_pattern *box_pattern(const char *piece, double width, double height)
{
    static const char *const edges[] = {"hem", "front_edge", "shoulder", "centre_back"};
    const int capacity[TAILOR_IN_ARRAYS] = {1, 4, 0, 1, 0, 0, 8};
    const tailor_point corners[] = {{0, 0}, {width, 0}, {width, height}, {0, height}};
    tailor_pattern *p =
        tailor_in_pattern_begin(malloc(tailor_in_pattern_bytes(capacity)), capacity, tailor_in_allocator(NULL));
    tailor_in_add_piece(p, tailor_table_find(tailor_piece_table(), piece), 1, 0, TAILOR_SIDE_LEFT, "cloth");
    for (int i = 0; i < 4; i++) {
        const tailor_cubic side = tailor_cubic_line(corners[i], corners[(i + 1) % 4]);
        tailor_in_add_edge(p, tailor_table_find(tailor_edge_table(), edges[i]), &side, 1);
    }
    const tailor_cubic slant =
        tailor_cubic_line((tailor_point){width / 2, height / 4}, (tailor_point){width / 2 + height / 4, height / 2});
    tailor_in_add_mark(p, tailor_table_find(tailor_mark_table(), "grain"), TAILOR_MARK_GRAIN, &slant, 1);
    assert_int_equal(tailor_in_pattern_end(p), TAILOR_OK);
    return p;
}

static void pieces_of_any_size_are_drawn_and_named(void **state)
{
    static const double sizes[][2] = {{200, 700}, {5, 5}, {0, 0}, {2000, 3}, {3, 2000}, {4000, 4000}};
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        tailor_pattern *p = box_pattern("back", sizes[i][0], sizes[i][1]);
        struct kept kept = {0};
        const tailor_page *page = page_of(NULL, TAILOR_PRINT_INCH_16, TAILOR_SHEET_SVG);
        assert_int_equal(tailor_sheet_draw_pattern(p, page, keep, &kept, NULL), TAILOR_OK);
        assert_non_null(strstr(kept.data, ">back</text>"));
        assert_non_null(strstr(kept.data, ">wearer&#39;s left, face up</text>"));
        assert_non_null(strstr(kept.data, ">cut 1</text>"));
        assert_null(strstr(kept.data, "nan"));
        assert_null(strstr(kept.data, "inf"));
        free(kept.data);
        tailor_pattern_free(p);
    }
}

static void a_grain_is_laid_upright(void **state)
{
    struct tailor_in_drawing drawing;
    tailor_pattern *p = box_pattern("back", 300, 400); /* its grain runs at 45 degrees */
    size_t count;
    int seen = 0;
    (void)state;
    tailor_in_drawing_begin(&drawing, NULL, NULL);
    tailor_in_compose_pattern(&drawing, p, TAILOR_PRINT_MM);
    const struct tailor_in_item *item = tailor_in_drawing_items(&drawing, &count);
    for (size_t i = 0; i < count; i++) {
        const tailor_point *line;
        if (item[i].kind != TAILOR_IN_PATH || item[i].style != TAILOR_IN_GRAIN)
            continue;
        line = tailor_in_drawing_cubics(&drawing, &item[i])->p;
        if (fabs(line[3].x - line[0].x) < 1e-9) {
            assert_true(fabs(fabs(line[3].y - line[0].y) - sqrt(2) * 100) < 1e-9);
            seen++;
        }
    }
    assert_int_equal(seen, 1); /* the one in the legend lies level */
    tailor_in_drawing_end(&drawing);
    tailor_pattern_free(p);
}

static void only_a_whole_forepart_is_worn(void **state)
{
    tailor_pattern *box = box_pattern("back", 200, 700), *bare = box_pattern("forepart", 300, 700),
                   *coat = draft(1000, 0, 1);
    const tailor_pattern *const lists[][2] = {{box, coat}, {coat, box}, {bare, coat}, {coat, NULL}};
    (void)state;
    for (int i = 0; i < 4; i++) {
        struct kept kept = {0};
        tailor_fault fault = {0};
        assert_int_equal(tailor_sheet_draw_fronts(lists[i], NULL, 2, NULL, keep, &kept, &fault),
                         TAILOR_BAD_ARGUMENT);
        assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
        assert_true(fault.value == i % 2);
        assert_int_equal(kept.calls, 0);
    }
    tailor_pattern_free(box);
    tailor_pattern_free(bare);
    tailor_pattern_free(coat);
}

int test_layout(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(memory_may_run_out_anywhere),
        cmocka_unit_test(pieces_of_any_size_are_drawn_and_named),
        cmocka_unit_test(a_grain_is_laid_upright),
        cmocka_unit_test(only_a_whole_forepart_is_worn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

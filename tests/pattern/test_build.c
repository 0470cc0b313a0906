/* Building a pattern: what has no room is refused at the end and does no harm before; a finished one is a block without
 * pointers out of it, which may be copied as it is. */
#include "../../lib/pattern/build.h"
#include "draft/same.h"
#include "support/seams.h"

static const tailor_cubic line[2] = {{{{0, 0}, {1, 0}, {2, 0}, {3, 0}}}, {{{3, 0}, {2, 1}, {1, 1}, {0, 0}}}};

/** Two pieces, as far as there is room: of each an edge of two cubics, a point, a mark; a seam between them. */
static tailor_status build(const int capacity[TAILOR_IN_ARRAYS], tailor_pattern **made)
{
    const tailor_allocator memory = tailor_in_allocator(NULL);
    const size_t bytes = tailor_in_pattern_bytes(capacity);
    void *block = memory.allocate(memory.user, bytes); /* no more than that: a sanitizer sees whoever writes past it */
    assert_non_null(block);
    memset(block, 0xee, bytes);
    tailor_pattern *p = tailor_in_pattern_begin(block, capacity, memory);
    for (int i = 0; i < 2; i++) {
        tailor_in_add_piece(p, TAILOR_PIECE_BACK + i, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
        tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, line, 2);
        tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, (tailor_point){i, 5});
        tailor_in_add_mark(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, line, 1);
    }
    tailor_in_add_seam(p, "shoulder", "", 0.5);
    tailor_in_add_stretch(p, 1, (tailor_stretch){1, 0, 3, 0.5}); /* the first side's come before it all the same */
    tailor_in_add_stretch(p, 0, (tailor_stretch){0, 0, 0, 3});
    tailor_in_add_stretch(p, 0, (tailor_stretch){1, 0, 0.25, 0.5});
    *made = p;
    return tailor_in_pattern_end(p);
}

static const int enough[TAILOR_IN_ARRAYS] = {2, 2, 2, 2, 1, 3, 6};

static void just_enough_room(void **state)
{
    (void)state;
    tailor_pattern *p;
    assert_int_equal(build(enough, &p), TAILOR_OK);
    assert_int_equal(tailor_pattern_piece_count(p), 2);
    assert_string_equal(tailor_piece_name(p, 1), "sidebody");
    size_t count;
    const tailor_cubic *path = tailor_piece_outline(p, 1, &count);
    assert_int_equal(count, 2);
    assert_memory_equal(path, line, sizeof line);
    assert_null(tailor_edge_name(p, 0, 1));
    assert_close(tailor_point_place(p, 1, 0).x, 1, 0);
    assert_string_equal(tailor_mark_name(p, 0, 0), "grain");
    static const tailor_stretch sewn[3] = {{0, 0, 0, 3}, {1, 0, 0.25, 0.5}, {1, 0, 3, 0.5}};
    assert_int_equal(tailor_seam_stretch_count(p, 0, 0), 2);
    assert_int_equal(tailor_seam_stretch_count(p, 0, 1), 1);
    for (int i = 0; i < 3; i++) {
        const tailor_stretch at = stretch_of(p, 0, i == 2, i % 2);
        assert_memory_equal(&at, &sewn[i], sizeof at);
    }
    tailor_pattern_free(p);
}

static void one_too_few_of_anything(void **state)
{
    (void)state;
    for (int array = 0; array < TAILOR_IN_ARRAYS; array++)
        for (int less = 1; less <= enough[array]; less++) {
            int capacity[TAILOR_IN_ARRAYS];
            memcpy(capacity, enough, sizeof capacity);
            capacity[array] -= less;
            tailor_pattern *p;
            assert_int_equal(build(capacity, &p), TAILOR_INTERNAL);
            tailor_pattern_free(p);
        }
}

/** A seam to an edge that is not there. */
static void a_seam_of_nothing(void **state)
{
    (void)state;
    const tailor_allocator memory = tailor_in_allocator(NULL);
    void *block = memory.allocate(memory.user, tailor_in_pattern_bytes(enough));
    assert_non_null(block);
    tailor_pattern *p = tailor_in_pattern_begin(block, enough, memory);
    tailor_in_add_piece(p, TAILOR_PIECE_BACK, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, line, 2);
    tailor_in_add_seam(p, "shoulder", "", 0);
    tailor_in_add_stretch(p, 0, (tailor_stretch){0, 0, 0, 1});
    assert_int_equal(tailor_in_pattern_end(p), TAILOR_OK);
    tailor_in_add_stretch(p, 1, (tailor_stretch){-1, -1, 1, 0});
    assert_int_equal(tailor_in_pattern_end(p), TAILOR_INTERNAL);
    tailor_pattern_free(p);
}

static size_t last_bytes;

static void *telling(void *user, size_t bytes)
{
    (void)user;
    last_bytes = bytes;
    return malloc(bytes);
}

static void release(void *user, void *block)
{
    (void)user;
    free(block);
}

/** A drafted coat moved to another place in memory is read the same, after the first place is gone. */
static void a_coat_may_be_copied(void **state)
{
    (void)state;
    static struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}));
    const tailor_allocator allocator = {telling, release, NULL};
    tailor_house *house = NULL;
    tailor_coat *first = NULL;
    assert_int_equal(tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, NULL), TAILOR_OK);
    assert_int_equal(tailor_coat_new(house, m.client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_SECTION, &first, NULL),
                     TAILOR_OK);
    const size_t bytes = last_bytes;
    tailor_coat *copy = malloc(bytes);
    assert_non_null(copy);
    memcpy(copy, first, bytes);
    memset(first, 0xdd, bytes);
    free(first);
    tailor_house_free(house);
    static struct made moved;
    moved = m;
    read_measures(&moved, copy);
    assert_memory_equal(moved.q, m.q, sizeof m.q);
    assert_memory_equal(moved.value, m.value, sizeof m.value);
    same_pattern(tailor_coat_pattern(copy), m.coat);
    moved.coat = tailor_coat_pattern(copy);
    assert_int_equal(measure_of(&moved), TAILOR_OK);
    assert_memory_equal(moved.q, m.q, sizeof m.q);
    assert_memory_equal(moved.value, m.value, sizeof m.value);
    for (int piece = 0; piece < tailor_pattern_piece_count(m.coat); piece++)
        assert_string_equal(tailor_piece_name(moved.coat, piece), tailor_piece_name(m.coat, piece));
    free(copy);
    unmake(&m);
}

int test_build(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(just_enough_room),
        cmocka_unit_test(one_too_few_of_anything),
        cmocka_unit_test(a_seam_of_nothing),
        cmocka_unit_test(a_coat_may_be_copied),
    };
    return cmocka_run_group_tests_name("building a pattern", tests, NULL, NULL);
}

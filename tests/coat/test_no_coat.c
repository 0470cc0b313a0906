/* What is no coat is refused, and the fault names the piece, the edge or the mark that is missing, and on which piece
 * of the pattern. */
#include "../../lib/pattern/build.h" /* to build a pattern that is no coat */
#include "rebuild.h"

#define F(name) TAILOR_FIELD_##name

static tailor_coat *good;

static int set_up(void **state)
{
    (void)state;
    good = coat_from(ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}), TAILOR_EXTENT_SECTION);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    tailor_coat_free(good);
    return 0;
}

/** Measured as the coat of this order: 1 if it is refused, and then nothing is written and this row is named. */
static int is_missed(const tailor_coat *order, struct spoilt s, int table, int index, int place)
{
    tailor_pattern *p = rebuild(tailor_coat_pattern(order), s, 0, NULL);
    tailor_coat *coat = POISON;
    tailor_fault fault;
    memset(&fault, 0x5a, sizeof fault);
    const tailor_status status = measure_as(order, p, &coat, &fault);
    tailor_pattern_free(p);
    if (status != TAILOR_BAD_ARGUMENT) {
        assert_true(status == TAILOR_OK || status == TAILOR_CHECK_FAILED);
        tailor_coat_free(coat);
        return 0;
    }
    assert_ptr_equal(coat, POISON);
    assert_int_equal(fault.status, status);
    assert_int_equal(fault.table, table);
    assert_int_equal(fault.index, index);
    assert_int_equal(fault.place, place);
    const tailor_table *named = table == TAILOR_TABLE_PIECE  ? tailor_piece_table()
                                : table == TAILOR_TABLE_EDGE ? tailor_edge_table()
                                                             : tailor_mark_table();
    assert_non_null(strstr(fault.sentence, tailor_table_text(named, index, TAILOR_COLUMN_NAME)));
    return 1;
}

/** Every piece of the net coat, in turn; of a coat whose sides differ each side's. */
static void a_missing_piece_is_named(void **state)
{
    (void)state;
    tailor_coat *uneven = coat_from(
        ORDER({F(CHEST_GIRTH), 1016}, {F(LOW_SHOULDER_LEFT), 12}, {F(ARM_LENGTH_LEFT), 610}), TAILOR_EXTENT_NET);
    const tailor_coat *coats[2] = {good, uneven};
    assert_true(tailor_pattern_piece_count(tailor_coat_pattern(uneven)) > 6);
    for (int k = 0; k < 2; k++) {
        const tailor_pattern *p = tailor_coat_pattern(coats[k]);
        for (int i = 0; i < tailor_pattern_piece_count(p); i++)
            assert_int_equal(is_missed(coats[k], (struct spoilt){i, NONE, NONE, 0}, TAILOR_TABLE_PIECE,
                                       tailor_piece_number(p, i), 0),
                             1);
    }
    tailor_coat_free(uneven);
}

/** The edges that measuring asks for: all of the net pieces but those that a shawl, say, does not have. */
static void a_missing_edge_is_named(void **state)
{
    (void)state;
    const tailor_pattern *p = tailor_coat_pattern(good);
    int missed = 0, edges = 0;
    for (int i = 0; i < tailor_pattern_piece_count(p); i++)
        for (int e = 0; e < tailor_piece_edge_count(p, i); e++, edges++)
            missed +=
                is_missed(good, (struct spoilt){i, e, NONE, 0}, TAILOR_TABLE_EDGE, tailor_edge_number(p, i, e), i + 1);
    print_message("# %d of %d edges are asked for\n", missed, edges);
    assert_true(missed >= 28 && missed < edges);
}

/** Marks: left out, and with one curve of several. */
static void a_missing_mark_is_named(void **state)
{
    (void)state;
    const tailor_pattern *p = tailor_coat_pattern(good);
    int missed[2] = {0, 0};
    for (int i = 0; i < tailor_pattern_piece_count(p); i++)
        for (int e = 0; e < tailor_piece_mark_count(p, i); e++)
            for (size_t cubics = 0; cubics < 2; cubics++)
                missed[cubics] += is_missed(good, (struct spoilt){i, NONE, e, cubics}, TAILOR_TABLE_MARK,
                                            tailor_mark_number(p, i, e), i + 1);
    print_message("# %d marks are asked for, %d of them whole\n", missed[0], missed[1]);
    assert_true(missed[0] >= 4); /* crease, turned lapel, welt, pocket */
    assert_true(missed[1] >= 4); /* crease, turned lapel, welt; a button is four quarters where there is one */
}

/** Patterns of nothing, of one piece and so on, each with a hem alone. */
static void pieces_without_their_edges(void **state)
{
    (void)state;
    static const int capacity[TAILOR_IN_ARRAYS] = {
        [TAILOR_IN_PIECES] = 8, [TAILOR_IN_EDGES] = 8, [TAILOR_IN_CUBICS] = 32};
    const tailor_allocator memory = tailor_in_allocator(NULL);
    for (int pieces = 0; pieces <= TAILOR_PIECE_UNDER_COLLAR; pieces++) {
        void *block = memory.allocate(memory.user, tailor_in_pattern_bytes(capacity));
        assert_non_null(block);
        tailor_pattern *p = tailor_in_pattern_begin(block, capacity, memory);
        for (int piece = 1; piece <= pieces; piece++) {
            const tailor_point corner[3] = {{0, 0}, {100, 0}, {0, 100}};
            tailor_in_add_piece(p, piece, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
            tailor_cubic path[3];
            for (int i = 0; i < 3; i++)
                path[i] = tailor_cubic_line(corner[i], corner[(i + 1) % 3]);
            tailor_in_add_edge(p, TAILOR_EDGE_HEM, path, 3);
        }
        assert_int_equal(tailor_in_pattern_end(p), TAILOR_OK);
        tailor_coat *coat = POISON;
        tailor_fault fault = {0};
        assert_int_equal(measure_as(good, p, &coat, &fault), TAILOR_BAD_ARGUMENT);
        assert_ptr_equal(coat, POISON);
        assert_true(strlen(fault.sentence) > 8);
        assert_int_equal(measure_as(good, p, &coat, NULL), TAILOR_BAD_ARGUMENT);
        tailor_pattern_free(p);
    }
}

int test_no_coat(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_missing_piece_is_named),
        cmocka_unit_test(a_missing_edge_is_named),
        cmocka_unit_test(a_missing_mark_is_named),
        cmocka_unit_test(pieces_without_their_edges),
    };
    return cmocka_run_group_tests_name("no coat", tests, set_up, tear_down);
}

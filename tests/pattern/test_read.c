/* Reading a pattern: every function bears any pattern and any index, and what is there is consistent in itself. */
#include <limits.h>
#include "draft/drafting.h"

static const int wild[] = {-1, -2, INT_MIN, INT_MAX, 1000, 1 << 30};
enum { WILD = sizeof wild / sizeof *wild };

static struct made coat; /* one coat for all tests here */

static int set_up(void **state)
{
    (void)state;
    return make(&coat, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016},
                             {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_THREE_BUTTON})) != TAILOR_OK;
}

static int tear_down(void **state)
{
    (void)state;
    unmake(&coat);
    return 0;
}

/** Everything that takes an edge, point or mark of a piece, for an index that is not there. */
static void nothing_there(const tailor_pattern *p, int piece, int index)
{
    size_t count = 77;
    assert_null(tailor_edge_name(p, piece, index));
    assert_int_equal(tailor_edge_number(p, piece, index), 0);
    assert_null(tailor_edge_path(p, piece, index, &count));
    assert_int_equal(count, 0);
    assert_null(tailor_edge_path(p, piece, index, NULL));
    assert_null(tailor_point_name(p, piece, index));
    assert_int_equal(tailor_point_number(p, piece, index), 0);
    const tailor_point place = tailor_point_place(p, piece, index);
    assert_true(isnan(place.x) && isnan(place.y));
    assert_null(tailor_mark_name(p, piece, index));
    assert_int_equal(tailor_mark_number(p, piece, index), 0);
    assert_int_equal(tailor_mark_kind(p, piece, index), 0);
    count = 77;
    assert_null(tailor_mark_path(p, piece, index, &count));
    assert_int_equal(count, 0);
    assert_null(tailor_mark_path(p, piece, index, NULL));
}

static void no_piece_there(const tailor_pattern *p, int piece)
{
    size_t count = 77;
    assert_null(tailor_piece_name(p, piece));
    assert_int_equal(tailor_piece_number(p, piece), 0);
    assert_int_equal(tailor_piece_copies(p, piece), 0);
    assert_int_equal(tailor_piece_mirrored(p, piece), 0);
    assert_int_equal(tailor_piece_side(p, piece), 0);
    assert_null(tailor_piece_cloth(p, piece));
    assert_null(tailor_piece_outline(p, piece, &count));
    assert_int_equal(count, 0);
    assert_null(tailor_piece_outline(p, piece, NULL));
    assert_int_equal(tailor_piece_edge_count(p, piece), 0);
    assert_int_equal(tailor_piece_point_count(p, piece), 0);
    assert_int_equal(tailor_piece_mark_count(p, piece), 0);
    assert_int_equal(tailor_piece_find_edge(p, piece, "scye"), -1);
    assert_int_equal(tailor_piece_find_point(p, piece, "neck_point"), -1);
    assert_int_equal(tailor_piece_find_mark(p, piece, "grain"), -1);
    nothing_there(p, piece, 0);
}

static void no_seam_there(const tailor_pattern *p, int seam)
{
    tailor_stretch sewn = {77, 77, 77, 77};
    assert_null(tailor_seam_name(p, seam));
    assert_true(isnan(tailor_seam_ease(p, seam)));
    for (int side = -1; side <= 2; side++) {
        assert_int_equal(tailor_seam_stretch_count(p, seam, side), 0);
        for (int place = -1; place <= 1; place++)
            assert_int_equal(tailor_seam_stretch(p, seam, side, place, &sewn), TAILOR_BAD_ARGUMENT);
    }
    assert_true(sewn.piece == 77 && sewn.edge == 77 && sewn.from == 77 && sewn.to == 77);
}

static void no_pattern(void **state)
{
    (void)state;
    assert_int_equal(tailor_pattern_piece_count(NULL), 0);
    assert_int_equal(tailor_pattern_seam_count(NULL), 0);
    assert_int_equal(tailor_pattern_find_piece(NULL, "back"), -1);
    assert_int_equal(tailor_pattern_find_seam(NULL, "shoulder"), -1);
    no_piece_there(NULL, 0);
    no_seam_there(NULL, 0);
    tailor_pattern_free(NULL);
}

static void any_index(void **state)
{
    (void)state;
    const tailor_pattern *p = coat.coat;
    const int pieces = tailor_pattern_piece_count(p), seams = tailor_pattern_seam_count(p);
    for (int i = 0; i < WILD; i++) {
        no_piece_there(p, wild[i]);
        no_seam_there(p, wild[i]);
        for (int piece = 0; piece < pieces; piece++)
            nothing_there(p, piece, wild[i]);
    }
    no_piece_there(p, pieces);
    no_seam_there(p, seams);
    for (int piece = 0; piece < pieces; piece++) { /* one past the last is not the next piece's first */
        assert_null(tailor_edge_name(p, piece, tailor_piece_edge_count(p, piece)));
        assert_null(tailor_point_name(p, piece, tailor_piece_point_count(p, piece)));
        assert_null(tailor_mark_name(p, piece, tailor_piece_mark_count(p, piece)));
    }
}

static void names_that_are_not_there(void **state)
{
    (void)state;
    static const char *const names[] = {
        NULL, "", "Back", "bac", "backs", "forepart ", "no such name, and a very long one at that, longer than any"};
    const tailor_pattern *p = coat.coat;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        assert_int_equal(tailor_pattern_find_piece(p, names[i]), -1);
        assert_int_equal(tailor_pattern_find_seam(p, names[i]), -1);
        for (int piece = 0; piece < tailor_pattern_piece_count(p); piece++) {
            assert_int_equal(tailor_piece_find_edge(p, piece, names[i]), -1);
            assert_int_equal(tailor_piece_find_point(p, piece, names[i]), -1);
            assert_int_equal(tailor_piece_find_mark(p, piece, names[i]), -1);
        }
    }
}

static void a_stretch_that_is_not_there(void **state)
{
    (void)state;
    tailor_stretch sewn = {77, 77, 77, 77};
    const tailor_pattern *p = coat.coat;
    assert_int_equal(tailor_seam_stretch(p, 0, 0, 0, NULL), TAILOR_BAD_ARGUMENT);
    for (int seam = 0; seam < tailor_pattern_seam_count(p); seam++) {
        static const int none[][2] = {{-1, 0}, {2, 0}, {0, -1}, {1, 1}, {0, 1}, {1, 1 << 30}};
        for (size_t i = 0; i < sizeof none / sizeof *none; i++)
            assert_int_equal(tailor_seam_stretch(p, seam, none[i][0], none[i][1], &sewn), TAILOR_BAD_ARGUMENT);
    }
    assert_true(sewn.piece == 77 && sewn.edge == 77 && sewn.from == 77 && sewn.to == 77);
    assert_int_equal(tailor_seam_stretch(p, 0, 1, 0, &sewn), TAILOR_OK);
    assert_true(sewn.piece != 77 && sewn.to != 77);
}

/** A name stands once among its kin, is found where it stands, and is that of its table's row. */
static void named(const tailor_table *table, const char *name, int number, int index, int found)
{
    assert_non_null(name);
    assert_string_not_equal(name, "");
    assert_int_equal(found, index); /* the first of that name is this one: so no other has it */
    assert_int_equal(tailor_table_find(table, name), number);
    assert_true(number > 0);
}

static void names_are_unique_and_in_their_tables(void **state)
{
    (void)state;
    struct made m;
    for (int fastening = 1; fastening <= 5; fastening++)
        for (int stout = 0; stout <= 1; stout++) {
            must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1060}, {TAILOR_FIELD_BUTTONING, fastening},
                                {TAILOR_FIELD_WAIST_GIRTH, stout ? 1080 : 920}, {TAILOR_FIELD_LAPEL, 1 + stout},
                                {TAILOR_FIELD_FRONT_CUT, 1 + stout}));
            const tailor_pattern *p = m.coat;
            assert_int_equal(tailor_pattern_piece_count(p), TAILOR_PIECE_UNDER_COLLAR);
            for (int piece = 0; piece < tailor_pattern_piece_count(p); piece++) {
                const char *name = tailor_piece_name(p, piece);
                named(tailor_piece_table(), name, tailor_piece_number(p, piece), piece,
                      tailor_pattern_find_piece(p, name));
                for (int i = 0; i < tailor_piece_edge_count(p, piece); i++)
                    named(tailor_edge_table(), tailor_edge_name(p, piece, i), tailor_edge_number(p, piece, i), i,
                          tailor_piece_find_edge(p, piece, tailor_edge_name(p, piece, i)));
                for (int i = 0; i < tailor_piece_point_count(p, piece); i++)
                    named(tailor_point_table(), tailor_point_name(p, piece, i), tailor_point_number(p, piece, i), i,
                          tailor_piece_find_point(p, piece, tailor_point_name(p, piece, i)));
                for (int i = 0; i < tailor_piece_mark_count(p, piece); i++) {
                    named(tailor_mark_table(), tailor_mark_name(p, piece, i), tailor_mark_number(p, piece, i), i,
                          tailor_piece_find_mark(p, piece, tailor_mark_name(p, piece, i)));
                    assert_in_range(tailor_mark_kind(p, piece, i), TAILOR_MARK_NOTCH, TAILOR_MARK_FOLD);
                }
                assert_int_equal(tailor_piece_copies(p, piece), 2); /* a man has two sides, alike so far */
                assert_int_equal(tailor_piece_mirrored(p, piece), 1);
                assert_int_equal(tailor_piece_side(p, piece), TAILOR_SIDE_RIGHT);
                assert_string_equal(tailor_piece_cloth(p, piece),
                                    tailor_piece_number(p, piece) == TAILOR_PIECE_UNDER_COLLAR ? "melton" : "cloth");
            }
            for (int i = 0; i < tailor_pattern_seam_count(p); i++)
                assert_int_equal(tailor_pattern_find_seam(p, tailor_seam_name(p, i)), i);
            unmake(&m);
        }
}

int test_read(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_pattern),
        cmocka_unit_test(any_index),
        cmocka_unit_test(names_that_are_not_there),
        cmocka_unit_test(a_stretch_that_is_not_there),
        cmocka_unit_test(names_are_unique_and_in_their_tables),
    };
    return cmocka_run_group_tests_name("reading a pattern", tests, set_up, tear_down);
}

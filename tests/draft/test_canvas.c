/* Canvas, chest piece, shoulder piece, collar canvas and tapes: sound outlines for every coat that can be drafted, and
 * the few lengths that the recipe fixes. */
#include "draft/front_make.h"

static const int pieces[] = {TAILOR_PIECE_BODY_CANVAS,   TAILOR_PIECE_CHEST_PIECE, TAILOR_PIECE_SHOULDER_PIECE,
                             TAILOR_PIECE_COLLAR_CANVAS, TAILOR_PIECE_BRIDLE,      TAILOR_PIECE_EDGE_TAPE};
enum { PIECES = sizeof pieces / sizeof *pieces };

static void look_over(const struct made *m)
{
    int seen[PIECES] = {0};
    for (int i = 0; i < tailor_pattern_piece_count(m->coat); i++)
        for (int j = 0; j < PIECES; j++)
            if (tailor_piece_number(m->coat, i) == pieces[j]) {
                look_at_piece(m, i);
                seen[j]++;
            }
    for (int j = 0; j < PIECES; j++)
        if (!seen[j])
            FAIL_ORDER(m, "no %s", tailor_table_text(tailor_piece_table(), pieces[j], TAILOR_COLUMN_NAME));
}

static void every_canvas(void **state)
{
    (void)state;
    make_of_every_kind(look_over);
}

/** Both edges of dart and slit are equally long: the one is butted, the other was one before it was spread. */
static void dart_and_slit(void **state)
{
    (void)state;
    struct made m;
    must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}));
    static const int edges[] = {TAILOR_EDGE_DART_EDGE, TAILOR_EDGE_SLIT_EDGE};
    double mouth[] = {m.constants[TAILOR_CONSTANT_CANVAS_DART], m.constants[TAILOR_CONSTANT_CANVAS_SLIT_SPREAD]};
    double length[] = {m.constants[TAILOR_CONSTANT_CANVAS_DART_LENGTH], m.constants[TAILOR_CONSTANT_CANVAS_SLIT]};
    for (int i = 0; i < 2; i++) {
        size_t count;
        const tailor_cubic *path = edge_of(m.coat, TAILOR_PIECE_BODY_CANVAS, edges[i], &count);
        assert_int_equal(count, 2);
        assert_close(tailor_cubic_length(&path[0]), tailor_cubic_length(&path[1]), 1e-9);
        assert_close(apart(path[0].p[0], path[1].p[3]), mouth[i], 0.1); /* the dart's is measured along the edge */
        assert_close(tailor_cubic_length(&path[0]), length[i], 0.4);
    }
    unmake(&m);
}

/** The bridle is shorter than the fold it holds by what the order draws in, and by nothing else. */
static void bridle(void **state)
{
    (void)state;
    for (int drawn = 0; drawn <= 4; drawn += 2) {
        struct made m;
        must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_BRIDLE_DRAWN_IN, drawn}));
        size_t count;
        const tailor_cubic *line = mark_of(m.coat, TAILOR_PIECE_BODY_CANVAS, TAILOR_MARKED_BRIDLE_LINE, &count);
        assert_non_null(line);
        double held = tailor_path_length(line, count);
        assert_close(LENGTH(&m, BRIDLE, BREAK_EDGE), held * (1 - drawn / 100.0), 1e-9);
        /* From 25 above the break point to the gorge, some 62 below the stand point: the break line without both. */
        tailor_point fold = POINT(&m, FOREPART, BREAK_POINT), stand = POINT(&m, FOREPART, STAND_POINT);
        assert_close(held, apart(fold, stand) - 25 - m.row[TAILOR_FIELD_GORGE_DEPTH], 12);
        /* Both ends of what is drawn in lie a quarter of the fold from the tape's. */
        const tailor_cubic *from = mark_of(m.coat, TAILOR_PIECE_BRIDLE, TAILOR_MARKED_NOTCH_DRAWN_FROM, &count);
        const tailor_cubic *to = mark_of(m.coat, TAILOR_PIECE_BRIDLE, TAILOR_MARKED_NOTCH_DRAWN_TO, &count);
        assert_close(from->p[0].y, held / 4, 1e-9);
        assert_close(to->p[0].y - from->p[0].y, held / 2 - held * drawn / 100.0, 1e-9);
        unmake(&m);
    }
}

static void edge_tape(void **state)
{
    (void)state;
    struct made m;
    must_make_whole(&m,
                    ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_THREE_BUTTON}));
    assert_close(LENGTH(&m, EDGE_TAPE, BREAK_EDGE),
                 LENGTH(&m, FOREPART, FRONT_EDGE) + LENGTH(&m, FOREPART, LAPEL_EDGE) +
                     LENGTH(&m, FOREPART, LAPEL_STEP) + LENGTH(&m, FACING, HEM),
                 1e-9);
    unmake(&m);
}

/** The collar canvas is the under collar's. */
static void collar_canvas(void **state)
{
    (void)state;
    struct made m;
    must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}));
    size_t a, b;
    const tailor_cubic *canvas = tailor_piece_outline(m.coat, piece_of(m.coat, TAILOR_PIECE_COLLAR_CANVAS), &a);
    const tailor_cubic *under = tailor_piece_outline(m.coat, piece_of(m.coat, TAILOR_PIECE_UNDER_COLLAR), &b);
    assert_int_equal(a, b);
    assert_memory_equal(canvas, under, a * sizeof *canvas);
    unmake(&m);
}

int test_canvas(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_canvas), cmocka_unit_test(dart_and_slit), cmocka_unit_test(bridle),
        cmocka_unit_test(edge_tape),    cmocka_unit_test(collar_canvas),
    };
    return cmocka_run_group_tests_name("canvas", tests, NULL, NULL);
}

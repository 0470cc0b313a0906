/* Pieces of the pockets: which there are for each kind, as long as their mouths, closed and whole on every coat. */
#include "draft/making.h"

static int has(const struct made *m, int number)
{
    for (int i = 0; i < tailor_pattern_piece_count(m->coat); i++)
        if (tailor_piece_number(m->coat, i) == number)
            return 1;
    return 0;
}

static const int pieces[] = {TAILOR_PIECE_BREAST_WELT,           TAILOR_PIECE_BREAST_BAG,
                             TAILOR_PIECE_POCKET_FLAP,           TAILOR_PIECE_FLAP_LINING,
                             TAILOR_PIECE_POCKET_JETTING,        TAILOR_PIECE_POCKET_BAG,
                             TAILOR_PIECE_PATCH_POCKET,          TAILOR_PIECE_PATCH_LINING,
                             TAILOR_PIECE_INSIDE_POCKET_JETTING, TAILOR_PIECE_INSIDE_POCKET_BAG};
enum { PIECES = sizeof pieces / sizeof *pieces };

static void pieces_by_kind(void **state)
{
    (void)state;
    static const int expected[][PIECES] = {[TAILOR_HIP_POCKETS_NONE] = {1, 1, 0, 0, 0, 0, 0, 0, 1, 1},
                                           [TAILOR_HIP_POCKETS_JETTED] = {1, 1, 0, 0, 1, 1, 0, 0, 1, 1},
                                           [TAILOR_HIP_POCKETS_FLAPPED] = {1, 1, 1, 1, 1, 1, 0, 0, 1, 1},
                                           [TAILOR_HIP_POCKETS_PATCH] = {1, 1, 0, 0, 0, 0, 1, 1, 1, 1}};
    for (int kind = TAILOR_HIP_POCKETS_NONE; kind <= TAILOR_HIP_POCKETS_PATCH; kind++) {
        struct made m;
        must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1780},
                                  {TAILOR_FIELD_HIP_POCKETS, kind}));
        for (int i = 0; i < PIECES; i++)
            assert_int_equal(has(&m, pieces[i]), expected[kind][i]);
        unmake(&m);
    }
}

/** Length of the mouth on the coat: on the forepart and, where it crosses the front seam, on the sidebody. */
static double mouth_on_coat(const struct made *m)
{
    size_t count, more;
    const tailor_cubic *fore = mark_of(m->coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_HIP_POCKET, &count);
    double length = tailor_path_length(fore, count);
    const tailor_cubic *side = mark_of(m->coat, TAILOR_PIECE_SIDEBODY, TAILOR_MARKED_HIP_POCKET, &more);
    return side ? length + tailor_path_length(side, more) : length;
}

static void flap_jetting_and_patch_fit_the_mouth(void **state)
{
    (void)state;
    for (double slant = 0; slant <= 40; slant += 5) {
        struct made m;
        size_t count;
        must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1780},
                                  {TAILOR_FIELD_POCKET_SLANT, slant}));
        const double mouth = mouth_on_coat(&m);
        assert_close(LENGTH(&m, POCKET_FLAP, MOUTH), mouth, 1e-9);
        assert_close(LENGTH(&m, POCKET_JETTING, MOUTH), mouth, 1e-9);
        assert_true(LENGTH(&m, POCKET_BAG, MOUTH) > mouth);
        assert_true(LENGTH(&m, FLAP_LINING, MOUTH) < mouth);
        /* The slant as ordered, and the height plumb. The front end of a flap is the coat's grain. */
        const tailor_cubic *edge = EDGE(&m, POCKET_FLAP, MOUTH, &count);
        assert_close(edge[0].p[0].y - edge[0].p[3].y, slant, 0.2);
        const tailor_cubic *rear = EDGE(&m, POCKET_FLAP, REAR_END, &count);
        assert_close(rear[0].p[0].x - rear[0].p[3].x, 0, 1e-9);
        assert_close(rear[0].p[0].y - rear[0].p[3].y, m.constants[TAILOR_CONSTANT_FLAP_HEIGHT], 1e-9);
        unmake(&m);

        must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1780},
                                  {TAILOR_FIELD_POCKET_SLANT, slant},
                                  {TAILOR_FIELD_HIP_POCKETS, TAILOR_HIP_POCKETS_PATCH}));
        const tailor_cubic *fold = mark_of(m.coat, TAILOR_PIECE_PATCH_POCKET, TAILOR_MARKED_FOLD_LINE, &count);
        assert_close(tailor_path_length(fold, count), mouth, 1e-9);
        assert_close(fold[0].p[0].y - fold[0].p[3].y, slant, 0.2);
        unmake(&m);
    }
}

/** A mouth is as long as the house says, along itself, however it slants. */
static void a_slant_does_not_lengthen_the_mouth(void **state)
{
    (void)state;
    struct made level, slanting;
    for (double chest = 900; chest <= 1150; chest += 50) {
        must_make(&level, ORDER({TAILOR_FIELD_CHEST_GIRTH, chest}));
        for (double slant = 10; slant <= 40; slant += 10) {
            must_make(&slanting, ORDER({TAILOR_FIELD_CHEST_GIRTH, chest}, {TAILOR_FIELD_POCKET_SLANT, slant}));
            assert_close(mouth_on_coat(&slanting), mouth_on_coat(&level), 1e-9);
            unmake(&slanting);
        }
        assert_close(mouth_on_coat(&level), 0.05 * chest + 105, 1e-9);
        unmake(&level);
    }
}

static double nearest(const tailor_cubic *path, size_t count, tailor_point to)
{
    double least = INFINITY;
    for (size_t i = 0; i < count; i++)
        for (int j = 0; j <= 100; j++)
            least = fmin(least, apart(tailor_cubic_point(&path[i], j / 100.0), to));
    return least;
}

/** However wide the wrap, no button of a double-breasted front comes near the hip pocket or the dart. */
static void buttons_keep_clear(void **state)
{
    (void)state;
    static const double wraps[] = {60, 82.55, 100, 115}, diameters[] = {15, 20.32, 25, 30};
    struct dice d = {45};
    int tried = 0;
    double least = INFINITY;
    const int orders = how_many(600, 6000);
    for (int n = 0; n < orders; n++) {
        struct made m;
        tailor_fields_clear(m.client, TAILOR_FIELD_COUNT);
        draw_body(&d, m.client);
        m.client[TAILOR_FIELD_BUTTONING] = n & 1 ? TAILOR_BUTTONING_DOUBLE_SIX : TAILOR_BUTTONING_DOUBLE_FOUR;
        m.client[TAILOR_FIELD_WRAP] = wraps[n / 2 % 4];
        m.client[TAILOR_FIELD_BUTTON_DIAMETER] = diameters[n / 8 % 4];
        m.client[TAILOR_FIELD_POCKET_SLANT] = n % 3 * 15;
        if (make_client(&m, NULL) == TAILOR_OK) {
            tried++;
            for (int row = 0; row < 3; row++) {
                size_t count, more;
                const tailor_cubic *button =
                    mark_of(m.coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_BUTTON_1 + row, &count);
                if (!button)
                    continue;
                double box[4];
                tailor_path_bounds(button, count, box);
                const tailor_point centre = {(box[0] + box[2]) / 2, (box[1] + box[3]) / 2};
                static const int clear_of[] = {TAILOR_MARKED_HIP_POCKET, TAILOR_MARKED_DART};
                for (int i = 0; i < 2; i++) {
                    const tailor_cubic *path = mark_of(m.coat, TAILOR_PIECE_FOREPART, clear_of[i], &more);
                    least = fmin(least, nearest(path, more, centre) - m.row[TAILOR_FIELD_BUTTON_DIAMETER] / 2);
                }
            }
        }
        unmake(&m);
    }
    print_message("# buttons: %d of %d drafted, %.2f mm clear at least\n", tried, orders, least);
    assert_true(tried > orders / 3);
    assert_true(least >= 10);
}

/** The welt is as the mark on the forepart says, twice as high, and its inner half lies on the outer when folded. */
static void welt_folds_onto_itself(void **state)
{
    (void)state;
    struct made m;
    size_t count;
    must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1780}));
    const tailor_cubic *welt = mark_of(m.coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_BREAST_WELT, &count);
    const int piece = piece_of(m.coat, TAILOR_PIECE_BREAST_WELT);
    assert_int_equal(tailor_piece_copies(m.coat, piece), 1);
    assert_int_equal(tailor_piece_mirrored(m.coat, piece), 0);
    assert_int_equal(tailor_piece_side(m.coat, piece), TAILOR_SIDE_LEFT);
    size_t outline_count;
    const tailor_cubic *outline = tailor_piece_outline(m.coat, piece, &outline_count);
    assert_close(tailor_path_area(outline, outline_count), 2 * tailor_path_area(welt, count), 1e-6);
    const tailor_cubic *fold = mark_of(m.coat, TAILOR_PIECE_BREAST_WELT, TAILOR_MARKED_FOLD_LINE, &count);
    const tailor_cubic *bottom = EDGE(&m, BREAST_WELT, BOTTOM, &count), *inner = EDGE(&m, BREAST_WELT, MOUTH, &count);
    const tailor_point folded = tailor_point_reflect(inner[0].p[0], fold[0].p[0], fold[0].p[3]);
    assert_close(apart(folded, bottom[0].p[3]), 0, 1e-9);
    unmake(&m);
}

/** No pocket piece of a coat is broken; those of the hip stay above the hem where the coat has room. */
static void whole_on_every_coat(void **state)
{
    (void)state;
    static const struct drawing drawings[] = {{1, 0.5, 1}, {0, 0.1, 1}, {0, 0.3, 0}};
    struct dice d = {21};
    struct made m;
    double house[TAILOR_CONSTANT_COUNT];
    int drafted = 0, bad = 0;
    const int orders = how_many(6000, 60000);
    for (int n = 0; n < orders; n++) {
        draw_client(&d, m.client, drawings[n % 3]);
        draw_house(&d, house);
        const double *by_house = n % 2 ? house : NULL;
        make_whole_client(&m, by_house);
        if (!m.coat)
            continue;
        drafted++;
        for (int piece = 0; piece < tailor_pattern_piece_count(m.coat); piece++) {
            const int number = tailor_piece_number(m.coat, piece);
            size_t count;
            const tailor_cubic *outline = tailor_piece_outline(m.coat, piece, &count);
            int of_pocket = 0;
            for (int i = 0; i < PIECES; i++)
                of_pocket |= number == pieces[i];
            const char *what = of_pocket ? bad_outline(outline, count) : NULL;
            if (what && bad++ < 3) {
                print_error("# %s %s:\n", tailor_piece_name(m.coat, piece), what);
                print_client(&m, by_house);
            }
        }
        unmake(&m);
    }
    print_message("# pockets: %d orders, %d drafted, %d bad\n", orders, drafted, bad);
    assert_int_equal(bad, 0);
    assert_true(drafted > orders / 3);
}

int test_pockets(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_by_kind),
        cmocka_unit_test(flap_jetting_and_patch_fit_the_mouth),
        cmocka_unit_test(a_slant_does_not_lengthen_the_mouth),
        cmocka_unit_test(buttons_keep_clear),
        cmocka_unit_test(welt_folds_onto_itself),
        cmocka_unit_test(whole_on_every_coat),
    };
    return cmocka_run_group_tests_name("pockets", tests, NULL, NULL);
}

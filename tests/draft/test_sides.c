/* Figures whose sides differ: a right and a left piece where they differ, one for both where they do not; each side is
 * the coat that would be drafted if the whole figure were so. */
#include "draft/making.h"

#define F(name) TAILOR_FIELD_##name
#define Q(m, name) (m)->q[TAILOR_QUANTITY_##name]

static int count_pieces(const tailor_pattern *p, int number, int side)
{
    int count = 0;
    for (int i = 0; i < tailor_pattern_piece_count(p); i++)
        count += tailor_piece_number(p, i) == number && tailor_piece_side(p, i) == side;
    return count;
}

/** The piece of a side, by its table's name and what follows it. */
static int find(const tailor_pattern *p, int number, const char *suffix)
{
    char name[64] = "";
    strcat(name, tailor_table_text(tailor_piece_table(), number, TAILOR_COLUMN_NAME));
    strcat(name, suffix);
    return tailor_pattern_find_piece(p, name);
}

/** A left piece is the mirror image of what the right would be: same edges in reverse, same points and marks at -x. */
static void assert_mirrored(const tailor_pattern *p, int piece, const tailor_pattern *as_right, int right)
{
    size_t count, other;
    const tailor_cubic *a = tailor_piece_outline(p, piece, &count);
    const tailor_cubic *b = tailor_piece_outline(as_right, right, &other);
    assert_int_equal(count, other);
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++) {
            assert_close(a[i].p[k].x, -b[count - 1 - i].p[3 - k].x, 0);
            assert_close(a[i].p[k].y, b[count - 1 - i].p[3 - k].y, 0);
        }
    const int edges = tailor_piece_edge_count(p, piece);
    assert_int_equal(edges, tailor_piece_edge_count(as_right, right));
    for (int e = 0; e < edges; e++) {
        assert_string_equal(tailor_edge_name(p, piece, e), tailor_edge_name(as_right, right, edges - 1 - e));
        a = tailor_edge_path(p, piece, e, &count);
        b = tailor_edge_path(as_right, right, edges - 1 - e, &other);
        assert_int_equal(count, other);
        assert_close(a[0].p[0].x, -b[other - 1].p[3].x, 0);
        assert_close(a[0].p[0].y, b[other - 1].p[3].y, 0);
    }
    assert_int_equal(tailor_piece_point_count(p, piece), tailor_piece_point_count(as_right, right));
    for (int i = 0; i < tailor_piece_point_count(p, piece); i++) {
        assert_close(tailor_point_place(p, piece, i).x, -tailor_point_place(as_right, right, i).x, 0);
        assert_close(tailor_point_place(p, piece, i).y, tailor_point_place(as_right, right, i).y, 0);
    }
    assert_int_equal(tailor_piece_mark_count(p, piece), tailor_piece_mark_count(as_right, right));
    for (int i = 0; i < tailor_piece_mark_count(p, piece); i++) {
        a = tailor_mark_path(p, piece, i, &count);
        b = tailor_mark_path(as_right, right, i, &other);
        assert_int_equal(count, other);
        assert_close(a[0].p[0].x, -b[0].p[0].x, 0);
        assert_close(a[0].p[0].y, b[0].p[0].y, 0);
    }
    assert_true(tailor_path_area(tailor_piece_outline(p, piece, &count), count) > 0); /* still counter-clockwise */
}

/** One arm longer: sleeves of two sides, all else of both. */
static void one_long_arm(void **state)
{
    (void)state;
    struct made both, left, right;
    must_make(&both, ORDER({F(CHEST_GIRTH), 1000}, {F(ARM_LENGTH_LEFT), 640}, {F(ARM_LENGTH_RIGHT), 612}));
    must_make(&left, ORDER({F(CHEST_GIRTH), 1000}, {F(ARM_LENGTH), 640}));
    must_make(&right, ORDER({F(CHEST_GIRTH), 1000}, {F(ARM_LENGTH), 612}));
    assert_int_equal(tailor_pattern_piece_count(both.coat), 8);
    static const int sleeves[] = {TAILOR_PIECE_TOPSLEEVE, TAILOR_PIECE_UNDERSLEEVE};
    for (int i = 0; i < 2; i++) {
        const int l = find(both.coat, sleeves[i], "_left"), r = find(both.coat, sleeves[i], "_right");
        assert_true(l >= 0 && r >= 0 && find(both.coat, sleeves[i], "") < 0);
        assert_true(tailor_piece_side(both.coat, l) == TAILOR_SIDE_LEFT && tailor_piece_copies(both.coat, l) == 1);
        assert_true(tailor_piece_side(both.coat, r) == TAILOR_SIDE_RIGHT && !tailor_piece_mirrored(both.coat, r));
        assert_mirrored(both.coat, l, left.coat, find(left.coat, sleeves[i], ""));
        size_t count, other;
        const tailor_cubic *a = tailor_piece_outline(both.coat, r, &count);
        const tailor_cubic *b = tailor_piece_outline(right.coat, find(right.coat, sleeves[i], ""), &other);
        assert_int_equal(count, other);
        assert_memory_equal(a, b, count * sizeof *a);
    }
    static const int shared[] = {TAILOR_PIECE_BACK, TAILOR_PIECE_SIDEBODY, TAILOR_PIECE_FOREPART,
                                 TAILOR_PIECE_UNDER_COLLAR};
    for (int i = 0; i < 4; i++) {
        const int piece = find(both.coat, shared[i], "");
        assert_true(piece >= 0 && tailor_piece_mirrored(both.coat, piece) &&
                    tailor_piece_copies(both.coat, piece) == 2);
    }
    assert_close(Q(&both, SLEEVE_LENGTH) - Q(&both, SLEEVE_LENGTH_RIGHT), 28, 1e-9);
    assert_close(Q(&both, SLEEVE_LENGTH), Q(&left, SLEEVE_LENGTH), 0);
    unmake(&both);
    unmake(&left);
    unmake(&right);
}

/** One arm measured by itself, the other from the centre back: the first rules its own sleeve only. */
static void one_arm_of_its_own(void **state)
{
    (void)state;
    struct made both, own, other;
    const struct given centre = {F(SLEEVE_FROM_CENTRE_BACK), 850};
    must_make(&own, ORDER({F(CHEST_GIRTH), 1000}, {F(ARM_LENGTH), 600}));
    must_make(&other, ORDER({F(CHEST_GIRTH), 1000}, {F(ARM_LENGTH), 600}, centre));
    assert_true(Q(&own, SLEEVE_LENGTH) - Q(&other, SLEEVE_LENGTH) > 20);
    static const int sided[] = {F(ARM_LENGTH_LEFT), F(ARM_LENGTH_RIGHT)};
    for (int i = 0; i < 2; i++) {
        must_make(&both, ORDER({F(CHEST_GIRTH), 1000}, {F(ARM_LENGTH), 600}, centre, {sided[i], 600}));
        assert_close(Q(&both, SLEEVE_LENGTH), Q(i == 0 ? &own : &other, SLEEVE_LENGTH), 0);
        assert_close(Q(&both, SLEEVE_LENGTH_RIGHT), Q(i == 1 ? &own : &other, SLEEVE_LENGTH), 0);
        unmake(&both);
    }
    must_make(&both, ORDER({F(CHEST_GIRTH), 1000}, centre, {sided[0], 600}, {sided[1], 600}));
    assert_int_equal(count_pieces(both.coat, TAILOR_PIECE_TOPSLEEVE, TAILOR_SIDE_LEFT), 0);
    assert_close(Q(&both, SLEEVE_LENGTH), Q(&own, SLEEVE_LENGTH), 0);
    unmake(&both);
    unmake(&own);
    unmake(&other);
}

/** Quantities of a coat with two sides are the left's and the right's own, as if each had the whole figure. */
static void quantities_of_two_sides(void **state)
{
    (void)state;
    struct made both, left, right;
    must_make(&both, ORDER({F(CHEST_GIRTH), 1040}, {F(LOW_HIP_LEFT), 12}, {F(SIDE_LET_OUT_RIGHT), 5},
                           {F(ARM_PITCH_LEFT), 10}, {F(FORWARD_SHOULDER), 6}));
    must_make(&left, ORDER({F(CHEST_GIRTH), 1040}, {F(LOW_HIP), 12}, {F(ARM_PITCH), 10}, {F(FORWARD_SHOULDER), 6}));
    must_make(&right, ORDER({F(CHEST_GIRTH), 1040}, {F(SIDE_LET_OUT), 5}, {F(FORWARD_SHOULDER), 6}));
    assert_close(Q(&both, HALF_GIRTH_WAIST), Q(&left, HALF_GIRTH_WAIST), 0);
    assert_close(Q(&both, HALF_GIRTH_WAIST_RIGHT), Q(&right, HALF_GIRTH_WAIST), 0);
    assert_close(Q(&both, FINISHED_WAIST), Q(&left, HALF_GIRTH_WAIST) + Q(&right, HALF_GIRTH_WAIST), 1e-12);
    assert_close(Q(&both, SLEEVE_HANG), Q(&left, SLEEVE_HANG), 0);
    assert_close(Q(&both, SLEEVE_HANG_RIGHT), Q(&right, SLEEVE_HANG), 0);
    assert_close(Q(&both, SCYE_LENGTH_RIGHT), Q(&right, SCYE_LENGTH), 0);
    assert_close(both.value[TAILOR_CHECK_SIDES_MEET], 0, 1e-9);
    unmake(&both);
    unmake(&left);
    unmake(&right);
}

/** What one shoulder is lower than the other is padded up to 6 mm, the rest is cut: the pad of the lower side says so.
 */
static void a_low_shoulder_is_padded_first(void **state)
{
    (void)state;
    struct made m;
    for (double low = 0; low <= 20; low += 2) {
        must_make(&m, ORDER({F(CHEST_GIRTH), 1000}, {F(LOW_SHOULDER_RIGHT), low}));
        assert_close(Q(&m, EXTRA_PAD_RIGHT), fmin(low, 6), 0);
        assert_close(Q(&m, EXTRA_PAD), 0, 0);
        const int cut = low > 6;
        assert_int_equal(count_pieces(m.coat, TAILOR_PIECE_BACK, TAILOR_SIDE_LEFT), cut);
        assert_true(cut ? Q(&m, SCYE_DEPTH_DRAFTED_RIGHT) > Q(&m, SCYE_DEPTH_DRAFTED)
                        : Q(&m, SCYE_DEPTH_DRAFTED_RIGHT) == Q(&m, SCYE_DEPTH_DRAFTED));
        unmake(&m);
    }
}

/** A shoulder that is high leaves the other as it was: neither padded nor cut. */
static void a_high_shoulder_leaves_the_other(void **state)
{
    (void)state;
    struct made both, plain, high;
    must_make(&plain, ORDER({F(CHEST_GIRTH), 1000}));
    must_make(&high, ORDER({F(CHEST_GIRTH), 1000}, {F(LOW_SHOULDER), -8}));
    must_make(&both, ORDER({F(CHEST_GIRTH), 1000}, {F(LOW_SHOULDER_LEFT), -8}));
    assert_close(Q(&both, EXTRA_PAD), 0, 0);
    assert_close(Q(&both, EXTRA_PAD_RIGHT), 0, 0);
    assert_close(Q(&both, SCYE_DEPTH_DRAFTED), Q(&high, SCYE_DEPTH_DRAFTED), 0);
    assert_close(Q(&both, SCYE_DEPTH_DRAFTED_RIGHT), Q(&plain, SCYE_DEPTH_DRAFTED), 0);
    size_t count, other;
    const int right = find(both.coat, TAILOR_PIECE_BACK, "_right");
    assert_true(right >= 0);
    const tailor_cubic *a = tailor_piece_outline(both.coat, right, &count);
    const tailor_cubic *b = tailor_piece_outline(plain.coat, find(plain.coat, TAILOR_PIECE_BACK, ""), &other);
    assert_int_equal(count, other);
    assert_memory_equal(a, b, count * sizeof *a);
    unmake(&both);
    unmake(&plain);
    unmake(&high);
}

/** What a note for one side has nothing to do with is cut for both at once. */
static void what_a_note_leaves_alone(void **state)
{
    (void)state;
    static const int collars[] = {TAILOR_PIECE_UNDER_COLLAR, TAILOR_PIECE_TOP_COLLAR, TAILOR_PIECE_COLLAR_CANVAS};
    static const int pockets[] = {TAILOR_PIECE_POCKET_FLAP, TAILOR_PIECE_FLAP_LINING, TAILOR_PIECE_POCKET_JETTING,
                                  TAILOR_PIECE_POCKET_BAG};
    static const int sleeves[] = {TAILOR_PIECE_TOPSLEEVE, TAILOR_PIECE_UNDERSLEEVE};
    static const struct given notes[] = {
        {F(PROMINENT_BLADES_LEFT), 8}, {F(LOW_HIP_LEFT), 10}, {F(SIDE_LET_OUT_LEFT), 6}, {F(SIDE_LET_OUT_LEFT), -6}};
    static const double chests[] = {900, 950, 1016, 1100, 1180};
    for (int c = 0; c < 5; c++)
        for (int n = 0; n < 4; n++) {
            struct made m;
            must_make_whole(&m, ORDER({F(CHEST_GIRTH), chests[c]}, {F(STATURE), 1785.62}, notes[n]));
            assert_true(find(m.coat, TAILOR_PIECE_BACK, "_left") >= 0);
            for (int i = 0; i < 3; i++)
                assert_true(find(m.coat, collars[i], "") >= 0);
            for (int i = 0; i < 4; i++)
                assert_true(find(m.coat, pockets[i], "") >= 0);
            for (int i = 0; i < 2 && n > 0; i++)
                assert_true(find(m.coat, sleeves[i], "") >= 0);
            unmake(&m);
        }
}

/** Seams of pieces of one side say so, join pieces of that side, and are as long as their ease says. */
static void seams_keep_to_their_side(void **state)
{
    (void)state;
    struct dice d = {4711};
    int tried = 0;
    for (int n = 0; n < 150; n++) {
        struct made m;
        tailor_fields_clear(m.client, TAILOR_FIELD_COUNT);
        m.client[F(CHEST_GIRTH)] = between(&d, 900, 1200);
        static const int own[] = {F(LOW_SHOULDER_LEFT),     F(LOW_SHOULDER_RIGHT), F(FORWARD_SHOULDER_LEFT),
                                  F(PROMINENT_BLADES_LEFT), F(LOW_HIP_RIGHT),      F(ARM_PITCH_RIGHT),
                                  F(SIDE_LET_OUT_LEFT)};
        for (size_t i = 0; i < sizeof own / sizeof *own; i++)
            if (even(&d) < 0.5)
                m.client[own[i]] = any_value(&d, own[i], 0.8);
        if (make_client(&m, NULL) != TAILOR_OK) {
            unmake(&m);
            continue;
        }
        tried++;
        for (int s = 0; s < tailor_pattern_seam_count(m.coat); s++) {
            double length[2], beyond = 0;
            int which = 0;
            for (int k = 0; k < 2; k++) {
                length[k] = side_length(m.coat, s, k, &beyond);
                for (int i = 0; i < tailor_seam_stretch_count(m.coat, s, k); i++) {
                    const int piece = stretch_of(m.coat, s, k, i).piece;
                    const int side = tailor_piece_mirrored(m.coat, piece) ? 0 : tailor_piece_side(m.coat, piece);
                    assert_true(!side || !which || side == which);
                    which = side ? side : which;
                }
            }
            assert_at_most(beyond, 1e-6);
            assert_close(length[0] - length[1], tailor_seam_ease(m.coat, s), 0.05);
            const char *name = tailor_seam_name(m.coat, s);
            assert_int_equal(strstr(name, "_left") != NULL, which == TAILOR_SIDE_LEFT);
            assert_int_equal(strstr(name, "_right") != NULL, which == TAILOR_SIDE_RIGHT);
        }
        unmake(&m);
    }
    assert_in_range(tried, 120, 150);
}

int test_sides(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_long_arm),
        cmocka_unit_test(one_arm_of_its_own),
        cmocka_unit_test(quantities_of_two_sides),
        cmocka_unit_test(a_low_shoulder_is_padded_first),
        cmocka_unit_test(a_high_shoulder_leaves_the_other),
        cmocka_unit_test(what_a_note_leaves_alone),
        cmocka_unit_test(seams_keep_to_their_side),
    };
    return cmocka_run_group_tests_name("sides", tests, NULL, NULL);
}

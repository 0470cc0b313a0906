/* Buttonholes: which side is worked, which side shows as drawn and rolled through, the stiff bar of a hole worked on
 * both sides; and the double-breasted front, whose buttons mirror its holes. */
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name
#define Q(m, name) (m)->q[TAILOR_QUANTITY_##name]

enum { NONE = 0, GOOD = 1, REVERSE = 2, OUT = TAILOR_HOLE_FACE_1_OUT, IN = TAILOR_HOLE_FACE_1_IN };

static void assert_is(double value, int wanted)
{
    if (wanted == NONE)
        assert_true(isnan(value));
    else
        assert_close(value, wanted, 0);
}

/** The table of holes and faces for the seven buttonings, worked as is usual (common practice): a hole on the turned
 *  lapel shows the inside of the front, every other the outside. */
static void usual_faces(void **state)
{
    (void)state;
    static const struct {
        int buttoning, holes, face[3], drawn[3], rolled[3];
    } table[] = {
        {TAILOR_BUTTONING_ONE_BUTTON, 1, {OUT}, {GOOD}, {NONE}},
        {TAILOR_BUTTONING_TWO_BUTTON, 2, {OUT, OUT}, {GOOD, GOOD}, {NONE}},
        {TAILOR_BUTTONING_THREE_BUTTON, 3, {OUT, OUT, OUT}, {GOOD, GOOD, GOOD}, {REVERSE, GOOD, GOOD}},
        {TAILOR_BUTTONING_ROLL_BY_MAKE, 3, {IN, OUT, OUT}, {REVERSE, GOOD, GOOD}, {GOOD, GOOD, GOOD}},
        {TAILOR_BUTTONING_ROLL_BY_CUT, 3, {IN, OUT, OUT}, {GOOD, GOOD, GOOD}, {GOOD, GOOD, GOOD}},
        {TAILOR_BUTTONING_DOUBLE_FOUR, 2, {OUT, OUT}, {GOOD, GOOD}, {NONE}},
        {TAILOR_BUTTONING_DOUBLE_SIX, 2, {OUT, OUT}, {GOOD, GOOD}, {NONE}},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct made m;
        must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(BUTTONING), table[i].buttoning}));
        assert_close(Q(&m, HOLE_COUNT), table[i].holes, 0);
        for (int hole = 0; hole < 3; hole++) {
            assert_is(m.q[TAILOR_QUANTITY_HOLE_1_FACE + hole], table[i].face[hole]);
            assert_is(m.q[TAILOR_QUANTITY_HOLE_1_SHOWS + hole], table[i].drawn[hole]);
            assert_is(m.q[TAILOR_QUANTITY_HOLE_1_SHOWS_ROLLED + hole], table[i].rolled[hole]);
        }
        assert_true(isnan(Q(&m, HOLE_BAR)) && isnan(Q(&m, HOLE_BAR_FROM_BREAK)));
        unmake(&m);
    }
}

/** A top hole worked on both sides shows its face either way, and is a bar in the roll: as long as the slit's part
 * along the break line, and so far from the line as the middle of the slit is. */
static void a_hole_worked_on_both_sides(void **state)
{
    (void)state;
    static const int rolls[] = {TAILOR_BUTTONING_THREE_BUTTON, TAILOR_BUTTONING_ROLL_BY_MAKE,
                                TAILOR_BUTTONING_ROLL_BY_CUT};
    for (size_t i = 0; i < 3; i++) {
        struct made m;
        must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(BUTTONING), rolls[i]},
                            {F(HOLE_FACE_1), TAILOR_HOLE_FACE_1_BOTH}));
        assert_close(Q(&m, HOLE_1_SHOWS), GOOD, 0);
        assert_close(Q(&m, HOLE_1_SHOWS_ROLLED), GOOD, 0);
        size_t count;
        const tailor_cubic *slit = mark_of(m.coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_HOLE_1, &count);
        const tailor_point eye = slit->p[0], inner = slit->p[3], middle = {(eye.x + inner.x) / 2, eye.y};
        const tailor_point stand = POINT(&m, FOREPART, STAND_POINT), low = POINT(&m, FOREPART, BREAK_POINT);
        /* Rolled through, the line ends on the front edge, plumb there, a break rise above the waist button. */
        const tailor_point rolled = {low.x, POINT(&m, FOREPART, WAIST_BUTTON).y + m.row[F(BREAK_RISE)]};
        const double lean = atan2(rolled.x - stand.x, stand.y - rolled.y);
        assert_close(Q(&m, HOLE_BAR), (eye.x - inner.x) * sin(lean), 1e-6);
        const double angle = atan2(low.x - stand.x, stand.y - low.y);
        const double off = (middle.x - low.x) * cos(angle) + (middle.y - low.y) * sin(angle);
        assert_close(Q(&m, HOLE_BAR_FROM_BREAK), off, 1e-6);
        unmake(&m);
    }
}

/** Length of a hole: the button and 2.5 (common practice: thickness and 1), or its own thickness and 1. */
static void length_of_a_hole(void **state)
{
    (void)state;
    struct made m;
    must_make(&m, ORDER({F(CHEST_GIRTH), 1000}));
    assert_close(Q(&m, HOLE_LENGTH), 20.32 + 2.5, 1e-9);
    assert_close(Q(&m, HOLE_FROM_EDGE), m.row[F(BUTTON_STAND)] - 2.5, 1e-9);
    unmake(&m);
    must_make(&m, ORDER({F(CHEST_GIRTH), 1000}, {F(BUTTON_DIAMETER), 22}, {F(BUTTON_THICKNESS), 4}));
    assert_close(Q(&m, HOLE_LENGTH), 22 + 4 + 1, 1e-9);
    unmake(&m);
}

/** Show buttons mirror the holes about the centre front exactly: W.D.F. Vincent's rule for double-breasted fronts, with
 *  any wrap, stand, spacing and figure. */
static void buttons_mirror_the_holes(void **state)
{
    (void)state;
    struct dice d = {66};
    int drafted = 0;
    for (int n = 0; n < 300; n++) {
        struct made m;
        const int six = n % 2;
        const double chest = between(&d, 900, 1240);
        if (make(&m, ORDER({F(CHEST_GIRTH), chest}, {F(WAIST_GIRTH), chest - between(&d, -20, 150)},
                           {F(BUTTONING), six ? TAILOR_BUTTONING_DOUBLE_SIX : TAILOR_BUTTONING_DOUBLE_FOUR},
                           {F(WRAP), between(&d, 60, 115)}, {F(BUTTON_STAND), between(&d, 14, 26)},
                           {F(BUTTON_SPACING), between(&d, 85, 120)})) != TAILOR_OK) {
            unmake(&m);
            continue;
        }
        drafted++;
        size_t count, edge_count;
        const tailor_cubic *edge = EDGE(&m, FOREPART, FRONT_EDGE, &edge_count);
        assert_close(Q(&m, BUTTON_COUNT), six ? 6 : 4, 0);
        assert_close(Q(&m, HOLE_COUNT), 2, 0);
        assert_close(m.value[TAILOR_CHECK_SHOW_BUTTON_MIRROR], 0, 1e-9);
        for (int hole = 0; hole < 2; hole++) {
            const tailor_cubic *slit = mark_of(m.coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_HOLE_1 + hole, &count);
            const tailor_cubic *rim =
                mark_of(m.coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_BUTTON_1 + hole + six, &count);
            const tailor_point eye = slit->p[0];
            const tailor_point button = {(rim[0].p[0].x + rim[2].p[0].x) / 2, (rim[0].p[0].y + rim[2].p[0].y) / 2};
            double places[4];
            size_t found = 0;
            tailor_path_cross_line(edge, edge_count, (tailor_point){0, eye.y}, (tailor_point){1, eye.y}, places, 4,
                                   &found);
            assert_true(found >= 1);
            const double centre = tailor_path_point(edge, edge_count, places[0]).x - m.row[F(WRAP)];
            assert_close(eye.x - centre, centre - button.x, 1e-9);
            assert_close(eye.y, button.y, 1e-9);
        }
        unmake(&m);
    }
    assert_in_range(drafted, 270, 300);
}

/** A shawl: no step; its edge runs on from the collar's leaf without a corner and is as wide as ordered. */
static void a_shawl_has_one_edge(void **state)
{
    (void)state;
    for (int buttoning = 1; buttoning <= 7; buttoning++)
        for (double width = 64; width <= 96; width += 8) {
            struct made m;
            must_make(&m, ORDER({F(CHEST_GIRTH), 1040}, {F(LAPEL), TAILOR_LAPEL_SHAWL}, {F(BUTTONING), buttoning},
                                {F(LAPEL_WIDTH), width}));
            size_t count, leaf_count;
            const tailor_cubic *lapel = EDGE(&m, FOREPART, LAPEL_EDGE, &count);
            const tailor_cubic *leaf = EDGE(&m, UNDER_COLLAR, LEAF, &leaf_count);
            const tailor_point end = lapel[count - 1].p[3];
            assert_close(apart(end, leaf[0].p[0]), 0, 1e-9);
            const tailor_point a = tailor_cubic_direction(&lapel[count - 1], 1), b = tailor_cubic_direction(leaf, 0);
            assert_close(a.x * b.y - a.y * b.x, 0, 1e-9);
            assert_true(a.x * b.x + a.y * b.y > 0);
            const tailor_point stand = POINT(&m, FOREPART, STAND_POINT), low = POINT(&m, FOREPART, BREAK_POINT);
            double widest = 0; /* by many points: not by the library's own root */
            for (int i = 0; i <= 4000; i++) {
                const tailor_point p = tailor_cubic_point(lapel, i / 4000.0);
                widest = fmax(widest, ((p.x - low.x) * (stand.y - low.y) - (p.y - low.y) * (stand.x - low.x)) /
                                          apart(stand, low));
            }
            assert_close(widest, width, 1e-4);
            unmake(&m);
        }
}

/** Refused, each with what would do: holes that the coat lacks, a round double-breasted front, a belly on a figure
 *  without one. */
static void contradictions(void **state)
{
    (void)state;
    static const struct {
        struct given order[4];
        int field;
        const char *says;
    } cases[] = {
        {{{F(CHEST_GIRTH), 1000}, {F(BUTTONING), 4}, {F(HOLES), 2}},
         F(HOLES),
         "holes two does not go with buttoning roll-by-make, which has three: give that number, or another buttoning"},
        {{{F(CHEST_GIRTH), 1000}, {F(BUTTONING), 2}, {F(HOLE_FACE_3), 1}},
         F(HOLE_FACE_3),
         "hole_face_3 is given, but buttoning two-button has no such hole, only two, counted from the top: leave it "
         "out"},
        {{{F(CHEST_GIRTH), 1000}, {F(BUTTONING), 7}, {F(FRONT_CUT), 1}},
         F(FRONT_CUT),
         "front_cut round does not go with a double-breasted buttoning: leave it out or give square"},
        {{{F(CHEST_GIRTH), 1000}, {F(WAIST_GIRTH), 790}, {F(BELLY), 5}}, F(BELLY), "figure without such a belly"},
        {{{F(CHEST_GIRTH), 1000}, {F(WAIST_GIRTH), 850}, {F(BELLY_LEVEL), 470}}, 0, ""}, /* unused, so harmless */
        {{
             {F(CHEST_GIRTH), 1000},
             {F(BUTTONING), 6},
             {F(WRAP), 60},
         },
         0,
         ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct made m;
        if (!cases[i].field) {
            must_make(&m, cases[i].order);
            unmake(&m);
            continue;
        }
        assert_int_equal(make(&m, cases[i].order), TAILOR_CONTRADICTION);
        assert_int_equal(m.fault.index, cases[i].field);
        if (!strstr(m.fault.sentence, cases[i].says))
            fail_msg("%s", m.fault.sentence);
    }
}

int test_holes(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(usual_faces),          cmocka_unit_test(a_hole_worked_on_both_sides),
        cmocka_unit_test(length_of_a_hole),     cmocka_unit_test(buttons_mirror_the_holes),
        cmocka_unit_test(a_shawl_has_one_edge), cmocka_unit_test(contradictions),
    };
    return cmocka_run_group_tests_name("holes", tests, NULL, NULL);
}

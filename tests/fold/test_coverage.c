/* The five fastenings on one draft: the higher the break point, the more of the chest is covered and the shorter is the
 * break line; and nothing else of the coat moves. */
#include "draft/drafting.h"

enum { FASTENINGS = 5 };

#define Q(m, name) ((m)->q[TAILOR_QUANTITY_##name])

/** One body and style in all five fastenings; 0 when one of them is refused. All have the same level of the waist
 * button. */
static int five_coats(const double *client, struct made coats[FASTENINGS])
{
    int drafted = 1;
    for (int i = 0; i < FASTENINGS; i++) {
        memcpy(coats[i].client, client, sizeof coats[i].client);
        coats[i].client[TAILOR_FIELD_BUTTONING] = TAILOR_BUTTONING_ONE_BUTTON + i;
        make_client(&coats[i], NULL);
        drafted &= coats[i].status == TAILOR_OK;
    }
    return drafted;
}

static void any_client(struct dice *d, double *client)
{
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = between(d, 880, 1280);
    client[TAILOR_FIELD_STATURE] = between(d, 1640, 1960);
    client[TAILOR_FIELD_WAIST_GIRTH] = client[TAILOR_FIELD_CHEST_GIRTH] - between(d, -30, 170);
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
        if (!is_measure(field) && even(d) < 0.3)
            client[field] = any_value(d, field, 0.5);
    client[TAILOR_FIELD_BUTTONING] = TAILOR_BUTTONING_ONE_BUTTON; /* tried with five: what is given must suit each */
    agree_with_itself(client);
    both_sides_alike(client);
    client[TAILOR_FIELD_HOLE_FACE_1] = client[TAILOR_FIELD_HOLES] = NAN;
}

/** Quantities that the fastening decides; all others are the same whatever the fastening. */
static int of_the_fastening(int quantity)
{
    static const int front[] = {
        TAILOR_QUANTITY_BREAK_LENGTH,
        TAILOR_QUANTITY_BREAK_ANGLE,
        TAILOR_QUANTITY_COVERAGE_SCYE,
        TAILOR_QUANTITY_COVERAGE_TOP_BUTTON,
        TAILOR_QUANTITY_COVERAGE_SCYE_ROLLED,
        TAILOR_QUANTITY_COVERAGE_TOP_BUTTON_ROLLED,
        TAILOR_QUANTITY_VEE_DEPTH,
        TAILOR_QUANTITY_VEE_AREA,
        TAILOR_QUANTITY_LAPEL_AREA,
        TAILOR_QUANTITY_LAPEL_EDGE_LENGTH,
        TAILOR_QUANTITY_LAPEL_TIP_TO_SCYE,
        TAILOR_QUANTITY_LAPEL_TIP_TO_SCYE_RIGHT,
        TAILOR_QUANTITY_BUTTON_COUNT,
        TAILOR_QUANTITY_TOP_BUTTON_LEVEL,
        TAILOR_QUANTITY_BREAK_LEVEL,
        TAILOR_QUANTITY_FRONTS_PART_ABOVE_HEM,
        /* the gorge is laid to the break line, and the neck seam and the collar follow it */
        TAILOR_QUANTITY_GORGE_LENGTH,
        TAILOR_QUANTITY_NECK_SEAM_LENGTH,
        TAILOR_QUANTITY_BACK_NECK_LENGTH,
        TAILOR_QUANTITY_COLLAR_TURN,
        TAILOR_QUANTITY_COLLAR_LAY_OVER,
        TAILOR_QUANTITY_CREASE_DRAWN_IN,
        TAILOR_QUANTITY_COLLAR_LEAF_LENGTH,
        TAILOR_QUANTITY_CLOTH_AREA,
        TAILOR_QUANTITY_COVERAGE_SCYE_RIGHT,
        TAILOR_QUANTITY_COVERAGE_TOP_BUTTON_RIGHT,
        TAILOR_QUANTITY_BRIDLE_LENGTH,
        TAILOR_QUANTITY_BRIDLE_TAKEN_IN,
        TAILOR_QUANTITY_HOLE_COUNT,
        TAILOR_QUANTITY_HOLE_1_FACE,
        TAILOR_QUANTITY_HOLE_2_FACE,
        TAILOR_QUANTITY_HOLE_3_FACE,
        TAILOR_QUANTITY_HOLE_1_SHOWS,
        TAILOR_QUANTITY_HOLE_2_SHOWS,
        TAILOR_QUANTITY_HOLE_3_SHOWS,
        TAILOR_QUANTITY_HOLE_1_SHOWS_ROLLED,
        TAILOR_QUANTITY_HOLE_2_SHOWS_ROLLED,
        TAILOR_QUANTITY_HOLE_3_SHOWS_ROLLED,
        TAILOR_QUANTITY_HOLE_BAR,
        TAILOR_QUANTITY_HOLE_BAR_FROM_BREAK,
        /* what lies along the break line, and how it rolls */
        TAILOR_QUANTITY_BREAK_STRETCH,
        TAILOR_QUANTITY_BREAK_BENDING,
        TAILOR_QUANTITY_ROLL_HEIGHT,
        TAILOR_QUANTITY_ROLL_RADIUS,
        TAILOR_QUANTITY_LAPEL_LIES,
        TAILOR_QUANTITY_BRIDLE_TENSION,
        TAILOR_QUANTITY_BUTTONHOLE_RATIO,
        TAILOR_QUANTITY_ROLL_CLASS,
        TAILOR_QUANTITY_ROLL_DISTANCE,
        TAILOR_QUANTITY_ROLL_BAND,
    };
    for (size_t i = 0; i < sizeof front / sizeof *front; i++)
        if (front[i] == quantity)
            return 1;
    return 0;
}

static void compare(const struct made c[FASTENINGS])
{
    const struct made *one = &c[0], *two = &c[1], *three = &c[2], *make = &c[3], *cut = &c[4];
    for (int i = 1; i < FASTENINGS; i++)
        for (int quantity = 1; quantity < TAILOR_QUANTITY_COUNT; quantity++)
            if (!of_the_fastening(quantity))
                assert_close(c[i].q[quantity], one->q[quantity], 1e-9);

    static const int order[FASTENINGS] = {1, 2, 3, 3, 3};
    for (int i = 0; i < FASTENINGS; i++)
        assert_close(Q(&c[i], BUTTON_COUNT), order[i], 0);

    /* A roll by make is cut as a three, but for its top hole, worked for the lapel; a roll by cut breaks where the two
     * does. */
    assert_close(Q(three, HOLE_1_FACE), TAILOR_HOLE_FACE_1_OUT, 0);
    assert_close(Q(make, HOLE_1_FACE), TAILOR_HOLE_FACE_1_IN, 0);
    assert_close(Q(cut, HOLE_1_FACE), TAILOR_HOLE_FACE_1_IN, 0);
    assert_close(Q(make, HOLE_1_SHOWS), 2, 0); /* buttoned up as drawn; see test_holes.c for the rest */
    for (int quantity = 1; quantity < TAILOR_QUANTITY_COUNT; quantity++)
        if (!isnan(three->q[quantity]) && quantity != TAILOR_QUANTITY_HOLE_1_FACE &&
            quantity != TAILOR_QUANTITY_HOLE_1_SHOWS && quantity != TAILOR_QUANTITY_HOLE_1_SHOWS_ROLLED)
            assert_close(make->q[quantity], three->q[quantity], 0);
    assert_close(Q(cut, BREAK_LENGTH), Q(two, BREAK_LENGTH), 1e-9);
    assert_close(Q(cut, COVERAGE_SCYE), Q(two, COVERAGE_SCYE), 1e-9);
    assert_close(Q(cut, COVERAGE_TOP_BUTTON), Q(two, COVERAGE_TOP_BUTTON), 1e-9);
    assert_close(Q(cut, TOP_BUTTON_LEVEL), Q(three, TOP_BUTTON_LEVEL), 1e-9);

    /* Rolled through to the waist button, a three covers what a two covers. */
    for (int i = 2; i < FASTENINGS; i++) {
        assert_close(Q(&c[i], COVERAGE_SCYE_ROLLED), Q(two, COVERAGE_SCYE), 1e-6);
        assert_close(Q(&c[i], COVERAGE_TOP_BUTTON_ROLLED), Q(two, COVERAGE_TOP_BUTTON), 1e-6);
    }
    assert_true(isnan(Q(one, COVERAGE_SCYE_ROLLED)) && isnan(Q(two, COVERAGE_TOP_BUTTON_ROLLED)));

    /* The higher the break point, the more is covered, and the shorter the line. */
    const struct made *higher[3] = {one, two, three};
    for (int i = 0; i < 2; i++) {
        const double rise = Q(higher[i], BREAK_LEVEL) - Q(higher[i + 1], BREAK_LEVEL);
        if (!isnan(one->client[TAILOR_FIELD_WAIST_BUTTON_RISE]) &&
            i == 0) { /* given, it is the same for one and two buttons */
            assert_close(rise, 0, 1e-9);
            continue;
        }
        assert_true(rise > 1);
        assert_true(Q(higher[i + 1], COVERAGE_SCYE) > Q(higher[i], COVERAGE_SCYE) + 0.01 * rise);
        assert_true(Q(higher[i + 1], COVERAGE_TOP_BUTTON) > Q(higher[i], COVERAGE_TOP_BUTTON) + 0.01 * rise);
        assert_true(Q(higher[i + 1], BREAK_LENGTH) < Q(higher[i], BREAK_LENGTH) - 0.5 * rise);
        assert_true(Q(higher[i + 1], BREAK_ANGLE) > Q(higher[i], BREAK_ANGLE));
        assert_close(Q(higher[i], VEE_DEPTH) - Q(higher[i + 1], VEE_DEPTH), rise, 1e-9);
        assert_true(Q(higher[i + 1], VEE_AREA) < Q(higher[i], VEE_AREA));
    }
}

static void the_five_fastenings_of_many_clients(void **state)
{
    (void)state;
    struct dice d = {31};
    static struct made coats[FASTENINGS];
    double client[TAILOR_FIELD_COUNT];
    const int clients = how_many(300, 3000);
    int compared = 0;
    for (int n = 0; n < clients; n++) {
        any_client(&d, client);
        client[TAILOR_FIELD_BUTTONING] = NAN;
        if (five_coats(client, coats)) {
            compare(coats);
            compared++;
        }
        for (int i = 0; i < FASTENINGS; i++)
            unmake(&coats[i]);
    }
    print_message("# %d of %d clients have all five\n", compared, clients);
    assert_true(compared > clients / 2);
}

/** Coverage rises steadily with the break point, in small steps of break_rise and of the waist button. */
static void coverage_rises_step_by_step(void **state)
{
    (void)state;
    static const struct {
        int field;
        double low, high;
    } raises[] = {{TAILOR_FIELD_BREAK_RISE, 0, 30}, {TAILOR_FIELD_WAIST_BUTTON_RISE, -25, 35}};
    static const struct {
        double chest, waist, stature;
    } figures[] = {{1000, 870, 1780}, {1100, 1130, 1740}, {900, 760, 1700}, {960, 800, 1950}};
    static struct made before, now;
    for (size_t f = 0; f < sizeof figures / sizeof *figures; f++)
        for (size_t r = 0; r < 2; r++)
            for (int fastening = 1; fastening <= FASTENINGS; fastening++) {
                for (int step = 0; step <= 20; step++) {
                    must_make(&now,
                              ORDER({TAILOR_FIELD_CHEST_GIRTH, figures[f].chest},
                                    {TAILOR_FIELD_WAIST_GIRTH, figures[f].waist},
                                    {TAILOR_FIELD_STATURE, figures[f].stature}, {TAILOR_FIELD_BUTTONING, fastening},
                                    {TAILOR_FIELD_COAT_LENGTH, 0.45 * figures[f].stature},
                                    {raises[r].field, raises[r].low + (raises[r].high - raises[r].low) * step / 20}));
                    if (step) {
                        assert_true(Q(&now, BREAK_LEVEL) < Q(&before, BREAK_LEVEL));
                        assert_true(Q(&now, COVERAGE_SCYE) > Q(&before, COVERAGE_SCYE));
                        assert_true(Q(&now, BREAK_LENGTH) < Q(&before, BREAK_LENGTH));
                        /* the top button's level stays when only the break rises; a three is covered there to the edge
                         */
                        const int high = fastening == TAILOR_BUTTONING_THREE_BUTTON ||
                                         fastening == TAILOR_BUTTONING_ROLL_BY_MAKE;
                        if (raises[r].field == TAILOR_FIELD_BREAK_RISE && !high)
                            assert_true(Q(&now, COVERAGE_TOP_BUTTON) > Q(&before, COVERAGE_TOP_BUTTON));
                    }
                    unmake(&now);
                    before = now;
                }
            }
}

/** The three-button coat at the top button's level is covered to the front edge: front width and button stand. */
static void a_high_break_covers_to_the_edge(void **state)
{
    (void)state;
    struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_THREE_BUTTON}));
    const double edge = POINT(&m, FOREPART, CENTRE_FRONT_SCYE).x + m.row[TAILOR_FIELD_BUTTON_STAND];
    assert_close(Q(&m, COVERAGE_TOP_BUTTON), edge - POINT(&m, FOREPART, SCYE_FRONT).x, 1e-9);
    unmake(&m);
}

/** Which button the break point belongs to, by the table of fastenings (common practice): the top one of a three-button
 * and of a roll by make, else the waist button. Every fastening has its top button's level at the same place. */
static void the_break_belongs_to_its_button(void **state)
{
    (void)state;
    static const int above[FASTENINGS] = {0, 0, 1, 1, 0};
    double top = NAN;
    for (int i = 0; i < FASTENINGS; i++) {
        struct made m;
        must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_BUTTONING, i + 1},
                            {TAILOR_FIELD_BUTTON_SPACING, 101}, {TAILOR_FIELD_BREAK_RISE, 11}));
        const double waist = -m.row[TAILOR_FIELD_BACK_WAIST_LENGTH];
        const double button = waist + (i == 0 ? -6 : 6); /* a one-button's stands 12 lower */
        const tailor_point at_break = POINT(&m, FOREPART, BREAK_POINT), edge = POINT(&m, FOREPART, CENTRE_FRONT_WAIST);
        assert_close(POINT(&m, FOREPART, WAIST_BUTTON).y, button, 1e-9);
        assert_close(at_break.y, button + above[i] * 101 + 11, 1e-9);
        assert_close(at_break.x, edge.x + m.row[TAILOR_FIELD_BUTTON_STAND], 1e-9);
        assert_close(Q(&m, BREAK_LEVEL), -at_break.y, 1e-9);
        if (i > 0)
            assert_close(POINT(&m, FOREPART, TOP_BUTTON_LEVEL).y, top, 1e-9);
        top = POINT(&m, FOREPART, TOP_BUTTON_LEVEL).y;
        assert_close(top, waist + 6 + 101, 1e-9);
        unmake(&m);
    }
}

int test_coverage(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_five_fastenings_of_many_clients),
        cmocka_unit_test(coverage_rises_step_by_step),
        cmocka_unit_test(a_high_break_covers_to_the_edge),
        cmocka_unit_test(the_break_belongs_to_its_button),
    };
    return cmocka_run_group_tests_name("coverage", tests, NULL, NULL);
}

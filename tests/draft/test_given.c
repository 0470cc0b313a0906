/* Given measures win: what the client's measure says is found again on the pieces, read off points and edges here, not
 * taken from the library's own quantities. */
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name
#define K(m, name) ((m)->constants[TAILOR_CONSTANT_##name])

static const struct figure {
    double chest, waist, stature;
} figures[] = {
    {1016, 884, 1780},  /* regular */
    {914, 760, 1700},   /* slim */
    {1120, 1130, 1760}, /* stout */
    {1000, 860, 1950},  /* tall */
    {1220, 1120, 1800},
};
enum { FIGURES = sizeof figures / sizeof *figures };

/** A figure with a measure of its own, and perhaps another (0 for none). */
static void make_figure(struct made *m, int i, int field, double value, int other, double other_value)
{
    tailor_fields_clear(m->client, TAILOR_FIELD_COUNT);
    m->client[F(CHEST_GIRTH)] = figures[i].chest;
    m->client[F(WAIST_GIRTH)] = figures[i].waist;
    m->client[F(STATURE)] = figures[i].stature;
    m->client[field] = value;
    if (other)
        m->client[other] = other_value;
    if (make_client(m, NULL) != TAILOR_OK)
        fail_msg("chest %g: %s", figures[i].chest, m->fault.sentence);
}

/** The value that a field has by the rules for a figure. */
static double by_rule(int i, int field)
{
    struct made m;
    make_figure(&m, i, F(CHEST_GIRTH), figures[i].chest, 0, 0);
    unmake(&m);
    return m.row[field];
}

static tailor_point middle(const tailor_cubic *c) { return tailor_cubic_point(c, 0.5); }

/* ---- the direct measures */

/** Nape to neck point, then neck point to the front of scye, both straight. The neck point lies on Vincent's arc: about
 * the front of scye, with what the measure leaves beyond the back neck (part 13 p. 54). */
static void front_shoulder(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++)
        for (double more = -14; more <= 14; more += 7) {
            struct made m;
            make_figure(&m, i, F(CHEST_GIRTH), figures[i].chest, 0, 0);
            const double natural = m.q[TAILOR_QUANTITY_FRONT_SHOULDER_DRAFTED] - K(&m, FRONT_SHOULDER_EASE);
            unmake(&m);
            make_figure(&m, i, F(FRONT_SHOULDER), natural + more, 0, 0);
            const tailor_point neck = POINT(&m, FOREPART, NECK_POINT), back_neck = POINT(&m, BACK, NECK_POINT);
            const double level = -(m.row[F(SCYE_DEPTH)] + m.row[F(SCYE_DROP)]);
            const tailor_point scye = {POINT(&m, FOREPART, SCYE_FRONT).x, level};
            const double radius = natural + more + K(&m, FRONT_SHOULDER_EASE) - hypot(back_neck.x, back_neck.y);
            const tailor_cubic arc[2] = {tailor_cubic_arc(scye, radius, 45, 90),
                                         tailor_cubic_arc(scye, radius, 90, 135)};
            double off;
            tailor_path_nearest(arc, 2, neck, &off);
            assert_close(off, 0, 5e-6 * radius); /* as near as a cubic comes to a circle over 45 degrees */
            assert_close(apart(neck, scye), radius, 1e-8);
            unmake(&m);
        }
}

/** Centre back to the middle of the back shoulder, and from the middle of the front shoulder to the front of scye. */
static void over_shoulder(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++)
        for (double more = -12; more <= 12; more += 6) {
            struct made m;
            make_figure(&m, i, F(CHEST_GIRTH), figures[i].chest, 0, 0);
            const double natural = m.q[TAILOR_QUANTITY_OVER_SHOULDER_DRAFTED] - K(&m, OVER_SHOULDER_EASE);
            unmake(&m);
            make_figure(&m, i, F(OVER_SHOULDER), natural + more, 0, 0);
            size_t count;
            const tailor_point behind = middle(EDGE(&m, BACK, SHOULDER, &count)),
                               before = middle(EDGE(&m, FOREPART, SHOULDER, &count));
            const double level = -(m.row[F(SCYE_DEPTH)] + m.row[F(SCYE_DROP)]);
            const tailor_point centre = {K(&m, CENTRE_BACK_AT_SCYE), level},
                               scye = {POINT(&m, FOREPART, SCYE_FRONT).x, level};
            assert_close(apart(centre, behind) + apart(before, scye), natural + more + K(&m, OVER_SHOULDER_EASE), 1e-6);
            unmake(&m);
        }
}

static void both_shoulder_measures(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++) {
        struct made m;
        make_figure(&m, i, F(CHEST_GIRTH), figures[i].chest, 0, 0);
        const double front = m.q[TAILOR_QUANTITY_FRONT_SHOULDER_DRAFTED] - K(&m, FRONT_SHOULDER_EASE);
        const double over = m.q[TAILOR_QUANTITY_OVER_SHOULDER_DRAFTED] - K(&m, OVER_SHOULDER_EASE);
        unmake(&m);
        make_figure(&m, i, F(FRONT_SHOULDER), front + 5, F(OVER_SHOULDER), over - 4);
        assert_close(m.q[TAILOR_QUANTITY_FRONT_SHOULDER_DRAFTED], front + 5 + K(&m, FRONT_SHOULDER_EASE), 1e-6);
        assert_close(m.q[TAILOR_QUANTITY_OVER_SHOULDER_DRAFTED], over - 4 + K(&m, OVER_SHOULDER_EASE), 1e-6);
        assert_at_most(m.value[TAILOR_CHECK_FRONT_SHOULDER_ERROR], 1e-6);
        assert_at_most(m.value[TAILOR_CHECK_OVER_SHOULDER_ERROR], 1e-6);
        unmake(&m);
    }
}

/** Nape to neck point, then straight down to the waist. */
static void front_waist_length(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++)
        for (double more = -10; more <= 10; more += 5) {
            struct made m;
            make_figure(&m, i, F(CHEST_GIRTH), figures[i].chest, 0, 0);
            tailor_point neck = POINT(&m, FOREPART, NECK_POINT), back = POINT(&m, BACK, NECK_POINT);
            const double natural = hypot(back.x, back.y) + neck.y + m.row[F(BACK_WAIST_LENGTH)] -
                                   K(&m, FRONT_SHOULDER_EASE);
            unmake(&m);
            make_figure(&m, i, F(FRONT_WAIST_LENGTH), natural + more, 0, 0);
            neck = POINT(&m, FOREPART, NECK_POINT);
            back = POINT(&m, BACK, NECK_POINT);
            assert_close(hypot(back.x, back.y) + neck.y - POINT(&m, FOREPART, CENTRE_FRONT_WAIST).y,
                         natural + more + K(&m, FRONT_SHOULDER_EASE), 1e-6);
            assert_at_most(m.value[TAILOR_CHECK_FRONT_WAIST_LENGTH_ERROR], 1e-6);
            unmake(&m);
        }
}

/** Centre back to shoulder end across the back, and the sleeve from there to the cuff, less the way over the bent
 *  elbow. It wins over arm_length. */
static void sleeve_from_centre_back(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++) {
        struct made m;
        const double sleeve = by_rule(i, F(ARM_LENGTH)) + 0.5 * by_rule(i, F(BACK_WIDTH)) + 100;
        make_figure(&m, i, F(SLEEVE_FROM_CENTRE_BACK), sleeve, 0, 0);
        const double down = POINT(&m, TOPSLEEVE, CROWN_NOTCH).y - POINT(&m, TOPSLEEVE, CUFF_MIDDLE).y;
        assert_close(POINT(&m, BACK, SHOULDER_END).x + down, sleeve + K(&m, CUFF_PAST_WRIST) - K(&m, ELBOW_BEND),
                     1e-8);
        assert_close(m.q[TAILOR_QUANTITY_SLEEVE_LENGTH], down, 1e-9);
        unmake(&m);
        struct made other;
        make_figure(&other, i, F(SLEEVE_FROM_CENTRE_BACK), sleeve, F(ARM_LENGTH), by_rule(i, F(ARM_LENGTH)) + 15);
        assert_close(other.q[TAILOR_QUANTITY_SLEEVE_LENGTH], down, 1e-9);
        unmake(&other);
    }
}

/** Given, cross-chest and back width stand, and the scye closes the girth. */
static void cross_chest_and_back_width(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++)
        for (double more = -16; more <= 16; more += 8) {
            struct made m;
            const double chest = by_rule(i, F(CROSS_CHEST)) + more, back = by_rule(i, F(BACK_WIDTH)) - more / 2;
            make_figure(&m, i, F(CROSS_CHEST), chest, F(BACK_WIDTH), back);
            const double ease = m.row[F(CHEST_EASE)], behind = K(&m, EASE_SHARE_BACK), under = K(&m, EASE_SHARE_SCYE);
            const double front = 2 * (POINT(&m, FOREPART, CENTRE_FRONT_SCYE).x - POINT(&m, FOREPART, SCYE_FRONT).x);
            assert_close(front, chest + (1 - behind - under) * ease, 1e-9);
            size_t count, found;
            const tailor_cubic *centre = EDGE(&m, BACK, CENTRE_BACK, &count);
            const tailor_point cross = POINT(&m, BACK, CROSS_BACK);
            double place;
            assert_int_equal(tailor_path_cross_line(centre, count, (tailor_point){0, cross.y},
                                                    (tailor_point){1, cross.y}, &place, 1, &found),
                             TAILOR_OK);
            assert_int_equal(found, 1);
            assert_close(2 * (cross.x - tailor_path_point(centre, count, place).x), back + behind * ease, 1e-9);
            assert_close(POINT(&m, FOREPART, CENTRE_FRONT_SCYE).x - K(&m, CENTRE_BACK_AT_SCYE),
                         (figures[i].chest + ease) / 2, 1e-9);
            unmake(&m);
        }
}

/* ---- levels, lengths, widths */

static void levels_and_lengths(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++) {
        struct made m;
        const double more = 9;
        make_figure(&m, i, F(SCYE_DEPTH), by_rule(i, F(SCYE_DEPTH)) + more, 0, 0);
        const double deepened = m.q[TAILOR_QUANTITY_SCYE_DEEPENED];
        assert_close(-POINT(&m, FOREPART, SCYE_FRONT).y - deepened,
                     by_rule(i, F(SCYE_DEPTH)) + more + m.row[F(SCYE_DROP)], 1e-9);
        assert_close(POINT(&m, SIDEBODY, SCYE_BOTTOM).y, POINT(&m, FOREPART, SCYE_FRONT).y, 1);
        unmake(&m);

        make_figure(&m, i, F(BACK_WAIST_LENGTH), by_rule(i, F(BACK_WAIST_LENGTH)) + more, 0, 0);
        const double waist = -by_rule(i, F(BACK_WAIST_LENGTH)) - more;
        assert_close(POINT(&m, BACK, WAIST).y, waist, 1e-9);
        assert_close(POINT(&m, SIDEBODY, WAIST).y, waist, 1e-9);
        assert_close(POINT(&m, FOREPART, CENTRE_FRONT_WAIST).y, waist, 1e-9);
        assert_close(POINT(&m, FOREPART, WAIST_BUTTON).y, waist + m.row[F(WAIST_BUTTON_RISE)], 1e-9);
        unmake(&m);

        make_figure(&m, i, F(SEAT_LEVEL), by_rule(i, F(SEAT_LEVEL)) + more, F(COAT_LENGTH), 800);
        assert_close(POINT(&m, BACK, SEAT).y, -by_rule(i, F(SEAT_LEVEL)) - more, 1e-9);
        assert_close(POINT(&m, FOREPART, CENTRE_FRONT_SEAT).y, -by_rule(i, F(SEAT_LEVEL)) - more, 1e-9);
        size_t count;
        const tailor_cubic *centre = EDGE(&m, BACK, CENTRE_BACK, &count);
        assert_close(centre[count - 1].p[3].y, -800, 1e-9);
        unmake(&m);

        make_figure(&m, i, F(ARM_LENGTH), by_rule(i, F(ARM_LENGTH)) + more, F(CUFF_WIDTH), 150);
        assert_close(POINT(&m, TOPSLEEVE, CROWN_NOTCH).y - POINT(&m, TOPSLEEVE, CUFF_MIDDLE).y,
                     by_rule(i, F(ARM_LENGTH)) + more + K(&m, CUFF_PAST_WRIST), 1e-9);
        const tailor_cubic *top = EDGE(&m, TOPSLEEVE, CUFF, &count), *under = EDGE(&m, UNDERSLEEVE, CUFF, &count);
        assert_close(fabs(top->p[3].x - top->p[0].x) + fabs(under->p[3].x - under->p[0].x), 2 * 150, 1e-6);
        unmake(&m);
    }
}

static void neck_arm_and_shoulder(void **state)
{
    (void)state;
    for (int i = 0; i < FIGURES; i++) {
        struct made m;
        make_figure(&m, i, F(NECK_GIRTH), by_rule(i, F(NECK_GIRTH)) + 12, 0, 0);
        assert_close(POINT(&m, BACK, NECK_POINT).x, (by_rule(i, F(NECK_GIRTH)) + 12) / 6 + K(&m, BACK_NECK_ALLOWANCE),
                     1e-9);
        unmake(&m);

        make_figure(&m, i, F(SHOULDER_SLOPE), 23.5, F(SHOULDER_PAD), 12);
        const tailor_point neck = POINT(&m, BACK, NECK_POINT), end = POINT(&m, BACK, SHOULDER_END);
        const double slope = atan2(neck.y - end.y, end.x - neck.x) * 180 / 3.14159265358979324;
        assert_close(slope, 23.5 - 12 * K(&m, PAD_LIFT) - K(&m, SHOULDER_SPLIT), 1e-9);
        unmake(&m);

        const double arm = by_rule(i, F(UPPER_ARM_GIRTH)) + 40; /* a strong arm, for which the scye is cut deeper */
        make_figure(&m, i, F(UPPER_ARM_GIRTH), arm, 0, 0);
        const double half = (POINT(&m, UNDERSLEEVE, BACK_PITCH).x - POINT(&m, TOPSLEEVE, BACK_PITCH).x) / 2;
        assert_close(half, arm / 2 + K(&m, ARM_ALLOWANCE), 1e-6);
        assert_at_most(half / m.q[TAILOR_QUANTITY_SCYE_LENGTH], K(&m, SLEEVE_SHARE_MOST) + 1e-9);
        assert_true(m.q[TAILOR_QUANTITY_SCYE_DEEPENED] >= 0);
        unmake(&m);
    }
}

/* ---- style */

static void style(void **state)
{
    (void)state;
    struct made m;
    must_make(&m, ORDER({F(CHEST_GIRTH), 1016}, {F(LAPEL_WIDTH), 80}, {F(GORGE_SLOPE), 25}, {F(GORGE_DEPTH), 70},
                        {F(COLLAR_STAND), 32}, {F(COLLAR_FALL), 48}, {F(BUTTON_SPACING), 100}, {F(BUTTON_DIAMETER), 22},
                        {F(BUTTON_STAND), 24}, {F(BREAK_RISE), 8}, {F(SHOULDER_EASE), 6}, {F(CROWN_FULLNESS), 40},
                        {F(BUTTONING), TAILOR_BUTTONING_ROLL_BY_CUT}));
    const tailor_point stand = POINT(&m, FOREPART, STAND_POINT), at_break = POINT(&m, FOREPART, BREAK_POINT),
                       tip = POINT(&m, FOREPART, TIP);
    const double l = apart(stand, at_break), ux = (stand.x - at_break.x) / l, uy = (stand.y - at_break.y) / l;
    assert_close(fabs(ux * (tip.y - at_break.y) - uy * (tip.x - at_break.x)), 80, 1e-9); /* square to the break line */
    const tailor_point crossing = POINT(&m, FOREPART, GORGE_CROSSING);
    assert_close(apart(stand, crossing), 70, 1e-9);
    const tailor_point worn = tailor_point_reflect(POINT(&m, FOREPART, COLLAR_END), stand, at_break);
    assert_close(atan2(crossing.y - worn.y, crossing.x - worn.x) * 180 / 3.14159265358979324, 25, 1e-9);

    size_t count;
    const tailor_cubic *centre = EDGE(&m, UNDER_COLLAR, CENTRE_BACK, &count);
    assert_close(tailor_path_length(centre, count), 32 + 48, 1e-9);
    double off;
    tailor_path_nearest(centre, count, POINT(&m, UNDER_COLLAR, CREASE_BACK), &off);
    assert_close(off, 0, 1e-9);
    const tailor_cubic *neck = EDGE(&m, UNDER_COLLAR, NECK, &count);
    assert_close(apart(neck[0].p[0], POINT(&m, UNDER_COLLAR, CREASE_BACK)), 32, 1e-9);

    tailor_point button[3];
    for (int i = 0; i < 3; i++) {
        double box[4];
        const tailor_cubic *circle = mark_of(m.coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_BUTTON_1 + i, &count);
        assert_non_null(circle);
        tailor_path_bounds(circle, count, box);
        assert_close(box[2] - box[0], 22, 1e-9);
        button[i] = (tailor_point){(box[0] + box[2]) / 2, (box[1] + box[3]) / 2};
    }
    assert_null(mark_of(m.coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_BUTTON_4, &count));
    assert_close(button[0].y - button[1].y, 100, 1e-9);
    assert_close(button[1].y - button[2].y, 100, 1e-9);
    assert_close(at_break.y - button[1].y, 8, 1e-9); /* a roll by cut breaks above its middle button */
    assert_close(at_break.x - button[1].x, 24, 1e-9);
    assert_close(LENGTH(&m, BACK, SHOULDER) - LENGTH(&m, FOREPART, SHOULDER), 6, 1e-6);
    const double scye = LENGTH(&m, BACK, SCYE) + LENGTH(&m, SIDEBODY, SCYE) + LENGTH(&m, FOREPART, SCYE);
    assert_close(LENGTH(&m, TOPSLEEVE, CROWN) + LENGTH(&m, UNDERSLEEVE, CROWN) - scye, 40, 1e-6);
    unmake(&m);
}

int test_given(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(front_shoulder),
        cmocka_unit_test(over_shoulder),
        cmocka_unit_test(both_shoulder_measures),
        cmocka_unit_test(front_waist_length),
        cmocka_unit_test(sleeve_from_centre_back),
        cmocka_unit_test(cross_chest_and_back_width),
        cmocka_unit_test(levels_and_lengths),
        cmocka_unit_test(neck_arm_and_shoulder),
        cmocka_unit_test(style),
    };
    return cmocka_run_group_tests_name("given", tests, NULL, NULL);
}

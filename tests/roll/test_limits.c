/* The roll at its limits: what is refused and how it is said, defaults, ranges in which nothing is said, arrays of
 * other lengths, and that any section within its ranges comes to rest. */
#include <string.h>
#include <tailorgeom/roll.h>
#include "base/near.h"

static const double wool[TAILOR_CLOTH_COUNT] = {NAN, 280, 4900, 3300, 50, 0.15, 12, 8, 2.2, 0.6};
static const double hair[TAILOR_CLOTH_COUNT] = {NAN, 200, 8000, 12000, 100, 0.05, 30, 250, 8, 0.5};
static const double making_good[TAILOR_ROLLING_COUNT] = {NAN, 88, 105, 115, 329, 13.2, 150, 3, 1e-6, 1, 1};

static void front_of(double canvas_angle, double *front)
{
    double cloths[2][TAILOR_CLOTH_COUNT];
    const double angles[2] = {0, canvas_angle}, holds[2] = {1, 1};
    const int joints[2] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED};
    memcpy(cloths[0], wool, sizeof wool);
    memcpy(cloths[1], hair, sizeof hair);
    assert_int_equal(
        tailor_layers_join(cloths[0], 2, TAILOR_CLOTH_COUNT, angles, joints, holds, front, TAILOR_LAYERS_COUNT, NULL),
        TAILOR_OK);
}

static int estimate(const double *making, size_t count, double *roll, tailor_fault *fault)
{
    double front[TAILOR_LAYERS_COUNT];
    front_of(0, front);
    return tailor_roll_estimate(making, count, front, TAILOR_LAYERS_COUNT, roll, TAILOR_ROLL_COUNT, fault);
}

static void refused_so(int input, double value, int status, const char *sentence)
{
    double making[TAILOR_ROLLING_COUNT], roll[TAILOR_ROLL_COUNT] = {7, 7};
    tailor_fault fault;
    memcpy(making, making_good, sizeof making);
    making[input] = value;
    assert_int_equal(estimate(making, TAILOR_ROLLING_COUNT, roll, &fault), status);
    assert_string_equal(fault.sentence, sentence);
    assert_int_equal(estimate(making, TAILOR_ROLLING_COUNT, roll, NULL), status);
    assert_near(roll[1], 7, 0);
}

static void refusals_of_the_estimate(void **state)
{
    (void)state;
    refused_so(TAILOR_ROLLING_LAPEL_WIDTH, NAN, TAILOR_MISSING, "the lapel width is not given");
    refused_so(TAILOR_ROLLING_BREAK_ANGLE, INFINITY, TAILOR_NOT_FINITE, "the angle of the break line is infinite");
    refused_so(TAILOR_ROLLING_BRIDLE_DRAWN_IN, -1, TAILOR_OUT_OF_RANGE,
               "how far the bridle is drawn in is -1 mm: 0 to 1000 mm is allowed");
    refused_so(TAILOR_ROLLING_BUTTONHOLE_SIDES, 0, TAILOR_OUT_OF_RANGE,
               "the number of worked sides of the buttonhole is 0: 1 to 2 is allowed");
    refused_so(TAILOR_ROLLING_BUTTONHOLE_SIDES, 1.5, TAILOR_OUT_OF_RANGE,
               "a buttonhole is worked on one side or on two");
    double roll[TAILOR_ROLL_COUNT], more[TAILOR_ROLLING_COUNT + 1], front[TAILOR_LAYERS_COUNT];
    tailor_fault fault;
    memcpy(more, making_good, sizeof making_good);
    more[TAILOR_ROLLING_COUNT] = 3;
    assert_int_equal(estimate(more, TAILOR_ROLLING_COUNT + 1, roll, &fault), TAILOR_UNKNOWN_FIELD);
    assert_int_equal(estimate(NULL, 3, roll, &fault), TAILOR_BAD_ARGUMENT);
    front_of(0, front);
    front[TAILOR_LAYERS_WEIGHT] = NAN;
    assert_int_equal(
        tailor_roll_estimate(more, TAILOR_ROLLING_COUNT, front, TAILOR_LAYERS_COUNT, roll, TAILOR_ROLL_COUNT, &fault),
        TAILOR_MISSING);
    assert_int_equal(tailor_roll_estimate(more, TAILOR_ROLLING_COUNT, NULL, 0, roll, TAILOR_ROLL_COUNT, &fault),
                     TAILOR_BAD_ARGUMENT);
}

/* Outside the block there is no class, no distance and no band; what does not rest on the fit is told all the same. */
static void no_number_out_of_range(void **state)
{
    (void)state;
    static const struct {
        int input;
        double least, most;
    } block[] = {{TAILOR_ROLLING_LAPEL_WIDTH, 60, 110},   {TAILOR_ROLLING_BUTTON_SPACING, 95, 115},
                 {TAILOR_ROLLING_BREAK_ABOVE, 95, 135},   {TAILOR_ROLLING_BREAK_LENGTH, 280, 400},
                 {TAILOR_ROLLING_BREAK_ANGLE, 8, 24},     {TAILOR_ROLLING_BRIDLE_STIFFNESS, 0, 800},
                 {TAILOR_ROLLING_BRIDLE_DRAWN_IN, 0, 10}, {TAILOR_ROLLING_BUTTONHOLE_BAR, 0, 1e-4},
                 {TAILOR_ROLLING_HANG_LOAD, 0.5, 2}};
    for (size_t i = 0; i < sizeof block / sizeof block[0]; i++)
        for (int k = 0; k < 4; k++) {
            double making[TAILOR_ROLLING_COUNT], roll[TAILOR_ROLL_COUNT];
            const double edge = k < 2 ? block[i].least : block[i].most, outside = k % 2 ? 1e-6 * block[i].most : 0;
            if (k == 1 && edge == 0)
                continue; /* below zero is refused */
            memcpy(making, making_good, sizeof making);
            making[block[i].input] = k < 2 ? edge - outside : edge + outside;
            assert_int_equal(estimate(making, TAILOR_ROLLING_COUNT, roll, NULL), TAILOR_OK);
            assert_near(roll[TAILOR_ROLL_IN_RANGE], outside == 0, 0);
            tailor_fault fault = {0};
            assert_int_equal(tailor_roll_in_range(making, TAILOR_ROLLING_COUNT, &fault),
                             outside == 0 ? TAILOR_OK : TAILOR_OUT_OF_RANGE);
            assert_true(outside == 0 || (fault.value == making[block[i].input] && fault.low == block[i].least &&
                                         fault.high == block[i].most && strstr(fault.sentence, "the law speaks of ")));
            assert_int_equal(isnan(roll[TAILOR_ROLL_CLASS]), outside != 0);
            assert_int_equal(isnan(roll[TAILOR_ROLL_DISTANCE]), outside != 0);
            assert_int_equal(isnan(roll[TAILOR_ROLL_BAND]), outside != 0);
            for (int r = TAILOR_ROLL_BRIDLE_TENSION; r < TAILOR_ROLL_COUNT; r++)
                assert_true(isfinite(roll[r]));
        }
    double making[TAILOR_ROLLING_COUNT], roll[TAILOR_ROLL_COUNT]; /* two sides of a bar that alone would be in range */
    memcpy(making, making_good, sizeof making);
    making[TAILOR_ROLLING_BUTTONHOLE_BAR] = 0.6e-4;
    assert_int_equal(estimate(making, TAILOR_ROLLING_COUNT, roll, NULL), TAILOR_OK);
    assert_near(roll[TAILOR_ROLL_IN_RANGE], 1, 0);
    making[TAILOR_ROLLING_BUTTONHOLE_SIDES] = 2;
    assert_int_equal(estimate(making, TAILOR_ROLLING_COUNT, roll, NULL), TAILOR_OK);
    assert_near(roll[TAILOR_ROLL_IN_RANGE], 0, 0);
    tailor_fault fault = {0};
    assert_int_equal(tailor_roll_in_range(making, TAILOR_ROLLING_COUNT, &fault), TAILOR_OUT_OF_RANGE);
    assert_true(fault.value == 1.2e-4);
    making[TAILOR_ROLLING_LAPEL_WIDTH] = NAN;
    assert_int_equal(tailor_roll_in_range(making, TAILOR_ROLLING_COUNT, &fault), TAILOR_MISSING);
    assert_int_equal(tailor_roll_in_range(NULL, 3, NULL), TAILOR_BAD_ARGUMENT);
}

/* Beside the one front that was simulated the band is wider; the distance is the law's all the same. */
static void the_band_is_wider_beside_the_block(void **state)
{
    (void)state;
    static const struct {
        int input;
        double value, band;
    } cases[] = {{TAILOR_ROLLING_BUTTON_SPACING, 100, 12},   {TAILOR_ROLLING_BUTTON_SPACING, 99.9, 18},
                 {TAILOR_ROLLING_BUTTON_SPACING, 110.1, 18}, {TAILOR_ROLLING_BREAK_LENGTH, 345, 12},
                 {TAILOR_ROLLING_BREAK_LENGTH, 346, 18},     {TAILOR_ROLLING_BREAK_ANGLE, 16, 12},
                 {TAILOR_ROLLING_BREAK_ANGLE, 18.1, 18},     {TAILOR_ROLLING_LAPEL_WIDTH, 60, 12}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double making[TAILOR_ROLLING_COUNT], roll[TAILOR_ROLL_COUNT];
        memcpy(making, making_good, sizeof making);
        making[cases[i].input] = cases[i].value;
        assert_int_equal(estimate(making, TAILOR_ROLLING_COUNT, roll, NULL), TAILOR_OK);
        assert_near(roll[TAILOR_ROLL_BAND], cases[i].band, 0);
        assert_true(isfinite(roll[TAILOR_ROLL_DISTANCE]));
    }
}

static void defaults_are_no_bridle_and_no_bar(void **state)
{
    (void)state;
    double roll[TAILOR_ROLL_COUNT], same[TAILOR_ROLL_COUNT];
    const double full[TAILOR_ROLLING_COUNT] = {NAN, 88, 105, 115, 329, 13.2, 0, 0, 0, 1, 1};
    assert_int_equal(estimate(making_good, TAILOR_ROLLING_BRIDLE_STIFFNESS, roll, NULL), TAILOR_OK);
    assert_int_equal(estimate(full, TAILOR_ROLLING_COUNT, same, NULL), TAILOR_OK);
    assert_int_equal(memcmp(roll + 1, same + 1, sizeof roll - sizeof roll[0]), 0);
    assert_near(roll[TAILOR_ROLL_BRIDLE_TENSION], 0, 0);
    assert_near(roll[TAILOR_ROLL_BUTTONHOLE_RATIO], 0, 0);
    assert_near(roll[TAILOR_ROLL_CLASS], TAILOR_ROLL_CLASS_THROUGH, 0);
}

/* More bridle, more bar, less width: the lapel holds higher. The canvas angle alone does not make it roll: without
 * bridle and bar the distance is the same at every angle. */
static void trends(void **state)
{
    (void)state;
    double making[TAILOR_ROLLING_COUNT], roll[TAILOR_ROLL_COUNT], before;
    static const struct {
        int input;
        double from, to;
        int sign;
    } moves[] = {{TAILOR_ROLLING_BRIDLE_DRAWN_IN, 0, 10, -1},
                 {TAILOR_ROLLING_BUTTONHOLE_BAR, 0, 1e-4, -1},
                 {TAILOR_ROLLING_LAPEL_WIDTH, 60, 110, 1}};
    for (size_t i = 0; i < sizeof moves / sizeof moves[0]; i++) {
        before = NAN;
        for (int k = 0; k <= 20; k++) {
            memcpy(making, making_good, sizeof making);
            if (moves[i].input == TAILOR_ROLLING_LAPEL_WIDTH)
                making[TAILOR_ROLLING_BRIDLE_DRAWN_IN] = 0;
            making[moves[i].input] = moves[i].from + k * (moves[i].to - moves[i].from) / 20;
            assert_int_equal(estimate(making, TAILOR_ROLLING_COUNT, roll, NULL), TAILOR_OK);
            assert_true(k == 0 || (roll[TAILOR_ROLL_DISTANCE] - before) * moves[i].sign > 0);
            before = roll[TAILOR_ROLL_DISTANCE];
        }
    }
    before = NAN;
    for (int angle = -90; angle <= 90; angle += 5) {
        double front[TAILOR_LAYERS_COUNT];
        front_of(angle, front);
        assert_int_equal(tailor_roll_estimate(making_good, TAILOR_ROLLING_BRIDLE_STIFFNESS, front, TAILOR_LAYERS_COUNT,
                                              roll, TAILOR_ROLL_COUNT, NULL),
                         TAILOR_OK);
        assert_true(angle == -90 || roll[TAILOR_ROLL_DISTANCE] == before);
        before = roll[TAILOR_ROLL_DISTANCE];
    }
}

/* ---- section */

static void refusals_of_the_section(void **state)
{
    (void)state;
    static const struct {
        int input;
        double value;
        int status;
        const char *sentence;
    } bad[] = {
        {TAILOR_SECTION_BENDING_LENGTH, NAN, TAILOR_MISSING, "the bending length of a section is not given"},
        {TAILOR_SECTION_BENDING_LENGTH, 7.9, TAILOR_OUT_OF_RANGE,
         "the bending length of a section is 7.9 mm: 8 to 80 mm is allowed"},
        {TAILOR_SECTION_LAPEL_WIDTH, -85, TAILOR_OUT_OF_RANGE,
         "the lapel width of a section is -85 mm: 15 to 250 mm is allowed"},
        {TAILOR_SECTION_SET, 181, TAILOR_OUT_OF_RANGE, "the set of a section is 181 deg: 0 to 180 deg is allowed"},
        {TAILOR_SECTION_CURL, -INFINITY, TAILOR_NOT_FINITE, "the curl of a section is infinite"},
        {TAILOR_SECTION_BENDING_LENGTH, 8, TAILOR_OK, ""},
        {TAILOR_SECTION_LAPEL_WIDTH, 250, TAILOR_OK, ""},
        {TAILOR_SECTION_FREE, 200, TAILOR_OK, ""},
        {TAILOR_SECTION_LINKS, 201, TAILOR_OUT_OF_RANGE,
         "the number of links of a section is 201: 20 to 200 is allowed"},
        {TAILOR_SECTION_LINKS, 40.5, TAILOR_OUT_OF_RANGE, "a section has a whole number of links"},
        {TAILOR_SECTION_LINKS, 20, TAILOR_OK, ""},
        {TAILOR_SECTION_CHEST_LEAN, 0, TAILOR_OK, ""},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        double section[TAILOR_SECTION_COUNT] = {NAN, 22, 85, NAN, NAN, NAN, NAN, NAN, NAN, NAN}, out[2] = {7, 7};
        tailor_fault fault;
        fault.sentence[0] = '\0';
        section[bad[i].input] = bad[i].value;
        assert_int_equal(tailor_roll_section(section, TAILOR_SECTION_COUNT, out, 2, NULL, 0, &fault), bad[i].status);
        assert_string_equal(fault.sentence, bad[i].sentence);
        assert_int_equal(out[1] == 7, bad[i].status != TAILOR_OK);
    }
    const double section[TAILOR_SECTION_COUNT] = {NAN, 10, 120, NAN, NAN, NAN, NAN, NAN, 60, NAN};
    double out[TAILOR_ROLLED_COUNT];
    tailor_point line[TAILOR_ROLLED_LINE_COUNT];
    tailor_fault fault;
    assert_int_equal(tailor_roll_section(section, TAILOR_SECTION_COUNT, out, 2, NULL, 0, &fault), TAILOR_OUT_OF_RANGE);
    assert_string_equal(fault.sentence,
                        "lapel and free forepart of a section are 180 mm: 160 mm, 16 bending lengths, is most");
    assert_int_equal(tailor_roll_section(section, 8, out, 2, line, TAILOR_ROLLED_LINE_COUNT - 1, &fault),
                     TAILOR_TOO_SMALL);
    assert_int_equal(tailor_roll_section(section, 8, out, 2, line, TAILOR_ROLLED_LINE_COUNT, &fault), TAILOR_OK);
    assert_int_equal(tailor_roll_section(section, 8, NULL, 2, line, TAILOR_ROLLED_LINE_COUNT, &fault),
                     TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_roll_section(section, 8, NULL, 0, line, TAILOR_ROLLED_LINE_COUNT, NULL), TAILOR_OK);
    assert_int_equal(tailor_roll_free_fold(NAN, NULL, NULL, NULL), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_roll_free_fold(0, NULL, NULL, NULL), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_roll_free_fold(1, NULL, NULL, NULL), TAILOR_OK);
}

/* Anywhere within the ranges the chain comes to rest, on or above the chest, with the same bits when asked again. */
static void any_section_comes_to_rest(void **state)
{
    (void)state;
    static const double low[TAILOR_SECTION_COUNT] = {0, 8, 15, 0, 4, -10, 0, -45, 0, 20};
    static const double high[TAILOR_SECTION_COUNT] = {0, 80, 250, 180, 40, 10, 90, 45, 200, 200};
    uint64_t dice = 20261125;
    int made = 0;
    for (int i = 0; i < 2000; i++) {
        double section[TAILOR_SECTION_COUNT] = {NAN}, out[TAILOR_ROLLED_COUNT], again[TAILOR_ROLLED_COUNT];
        tailor_point line[TAILOR_ROLLED_LINE_COUNT];
        for (int k = 1; k < TAILOR_SECTION_COUNT; k++)
            section[k] = low[k] + (high[k] - low[k]) * next_random(&dice);
        const int links = i % 3 ? 200 : (int)section[TAILOR_SECTION_LINKS];
        section[TAILOR_SECTION_LINKS] = links;
        if (section[TAILOR_SECTION_LAPEL_WIDTH] + section[TAILOR_SECTION_FREE] >
            16 * section[TAILOR_SECTION_BENDING_LENGTH])
            continue;
        made++;
        assert_int_equal(tailor_roll_section(section, TAILOR_SECTION_COUNT, out, TAILOR_ROLLED_COUNT, line,
                                             TAILOR_ROLLED_LINE_COUNT, NULL),
                         TAILOR_OK);
        for (int k = 0; k <= links; k++)
            assert_true(line[k].y > (links == 200 ? -0.5 : -2) && fabs(line[k].x) < 600);
        for (int k = 1; k < TAILOR_ROLLED_COUNT; k++)
            assert_true(isfinite(out[k]) || k == TAILOR_ROLLED_CREST_RADIUS);
        if (i % 20 == 0) {
            assert_int_equal(
                tailor_roll_section(section, TAILOR_SECTION_COUNT, again, TAILOR_ROLLED_COUNT, NULL, 0, NULL),
                TAILOR_OK);
            assert_int_equal(memcmp(out + 1, again + 1, sizeof out - sizeof out[0]), 0);
        }
    }
    assert_true(made > 1000);
}

int test_limits(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refusals_of_the_estimate),
        cmocka_unit_test(no_number_out_of_range),
        cmocka_unit_test(the_band_is_wider_beside_the_block),
        cmocka_unit_test(defaults_are_no_bridle_and_no_bar),
        cmocka_unit_test(trends),
        cmocka_unit_test(refusals_of_the_section),
        cmocka_unit_test(any_section_comes_to_rest),
    };
    return cmocka_run_group_tests_name("roll_limits", tests, NULL, NULL);
}

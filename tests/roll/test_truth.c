/* Runs tests/truth/roll.truth. What is asked of a case, `expect KEY`, is answered by one function a key. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/roll.h>
#include "support/close.h"
#include "support/truth.c"

static void numbers_of(const truth_case *one, const char *key, double *n, size_t count)
{
    const char *text = truth_given(one, key);
    if (!text)
        truth_broken(one, "something that the answer needs is not given");
    truth_numbers(one, text, n, count);
}

static double rolled(const truth_case *one, int entry)
{
    double section[TAILOR_SECTION_COUNT] = {NAN}, out[TAILOR_ROLLED_COUNT];
    tailor_fault fault;
    numbers_of(one, "section", section + 1, TAILOR_SECTION_FREE);
    section[TAILOR_SECTION_LINKS] = NAN;
    if (tailor_roll_section(section, TAILOR_SECTION_COUNT, out, TAILOR_ROLLED_COUNT, NULL, 0, &fault))
        truth_broken(one, fault.sentence);
    return out[entry];
}

static double crest_height(const truth_case *one) { return rolled(one, TAILOR_ROLLED_CREST_HEIGHT); }
static double crest_radius(const truth_case *one) { return rolled(one, TAILOR_ROLLED_CREST_RADIUS); }
static double lies(const truth_case *one) { return rolled(one, TAILOR_ROLLED_LIES); }

static double free_fold(const truth_case *one, int which)
{
    double length, out[3];
    numbers_of(one, "bending_length", &length, 1);
    assert_int_equal(tailor_roll_free_fold(length, &out[0], &out[1], &out[2]), TAILOR_OK);
    return out[which];
}

static double free_height(const truth_case *one) { return free_fold(one, 0); }
static double free_radius(const truth_case *one) { return free_fold(one, 1); }
static double free_arc(const truth_case *one) { return free_fold(one, 2); }

static double tension(const truth_case *one)
{
    double n[5];
    numbers_of(one, "bridle", n, 5);
    return tailor_roll_bridle_tension(n[0], n[1], n[2], n[3], n[4]);
}

static double ratio(const truth_case *one)
{
    double n[2];
    numbers_of(one, "bar", n, 2);
    return tailor_roll_buttonhole_ratio(n[0], n[1]);
}

/** An order in the block whose bridle and bar come to the two groups that are given. */
static double estimated(const truth_case *one, int entry)
{
    const double cloth[TAILOR_CLOTH_COUNT] = {NAN, 450, 6000, 5000, 150, 0.1, 32, 38, 7, 1}, zero = 0;
    const int joint = TAILOR_JOINT_PADDED;
    double group[3], front[TAILOR_LAYERS_COUNT], along[TAILOR_ALONG_COUNT], roll[TAILOR_ROLL_COUNT];
    double making[TAILOR_ROLLING_COUNT] = {NAN, 0, 105, 115, 328.66, 13.19, 0, 0, 0, 1, 1};
    tailor_fault fault;
    numbers_of(one, "group", group, 3);
    assert_int_equal(
        tailor_layers_join(cloth, 1, TAILOR_CLOTH_COUNT, &zero, &joint, &zero, front, TAILOR_LAYERS_COUNT, NULL),
        TAILOR_OK);
    assert_int_equal(tailor_layers_along(front, TAILOR_LAYERS_COUNT, 13.19, along, TAILOR_ALONG_COUNT, NULL),
                     TAILOR_OK);
    const double strip = along[TAILOR_ALONG_STRETCH] * 0.030;
    making[TAILOR_ROLLING_LAPEL_WIDTH] = group[2];
    if (group[0] < 0.8) { /* undrawn, so stiff that it takes this share of the hang load */
        making[TAILOR_ROLLING_BRIDLE_STIFFNESS] = group[0] * strip / (1 - group[0]);
    } else { /* firm, drawn in for what the hang load leaves */
        const double hang = group[0] < 1 ? 0.5 : group[0] < 1.8 ? 1 : 2;
        making[TAILOR_ROLLING_HANG_LOAD] = hang;
        making[TAILOR_ROLLING_BRIDLE_STIFFNESS] = 800;
        making[TAILOR_ROLLING_BRIDLE_DRAWN_IN] = (group[0] * (800 + strip) / 800 - hang) * 328.66 / strip;
    }
    making[TAILOR_ROLLING_BUTTONHOLE_BAR] = group[1] * 38e-6 * 0.022; /* the bar lies along the weft */
    if (tailor_roll_estimate(making, TAILOR_ROLLING_COUNT, front, TAILOR_LAYERS_COUNT, roll, TAILOR_ROLL_COUNT, &fault))
        truth_broken(one, fault.sentence);
    assert_close(roll[TAILOR_ROLL_BRIDLE_TENSION], group[0], 1e-9);
    assert_close(roll[TAILOR_ROLL_BUTTONHOLE_RATIO], group[1], 1e-9);
    return roll[entry];
}

static double distance(const truth_case *one) { return estimated(one, TAILOR_ROLL_DISTANCE); }
static double class_(const truth_case *one) { return estimated(one, TAILOR_ROLL_CLASS); }

static const struct {
    const char *key;
    double (*answer)(const truth_case *one);
} answers[] = {
    {"crest_height", crest_height},
    {"crest_radius", crest_radius},
    {"lies", lies},
    {"free_height", free_height},
    {"free_radius", free_radius},
    {"free_arc", free_arc},
    {"tension", tension},
    {"ratio", ratio},
    {"distance", distance},
    {"class", class_},
};

static void run_case(const truth_case *one)
{
    for (size_t i = 0; i < one->expect_count; i++) {
        size_t k = 0;
        double expected;
        while (k < sizeof answers / sizeof *answers && strcmp(answers[k].key, one->expect[i].key) != 0)
            k++;
        if (k == sizeof answers / sizeof *answers)
            truth_broken(one, "nothing answers this");
        truth_numbers(one, one->expect[i].text, &expected, 1);
        const double answer = answers[k].answer(one);
        print_message("# %s: %s = %.15g, not more than %g from %.15g\n", one->name, one->expect[i].key, answer,
                      one->expect[i].within, expected);
        assert_close(answer, expected, one->expect[i].within);
    }
}

static void truths(void **state)
{
    (void)state;
    assert_true(truth_run("roll.truth", run_case) >= 60);
}

int test_truth(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(truths)};
    return cmocka_run_group_tests_name("roll_truth", tests, NULL, NULL);
}

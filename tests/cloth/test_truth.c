/* Runs tests/truth/cloth.truth. What is asked of a case, `expect KEY`, is answered by one function a key. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/cloth.h>
#include "support/close.h"
#include "support/truth.c"

static void numbers_of(const truth_case *one, const char *key, double *n, size_t count)
{
    const char *text = truth_given(one, key);
    if (!text)
        truth_broken(one, "something that the answer needs is not given");
    truth_numbers(one, text, n, count);
}

static double number_of(const truth_case *one, const char *key)
{
    double n;
    numbers_of(one, key, &n, 1);
    return n;
}

/* ---- sheets */

static double along_of(const truth_case *one, int entry)
{
    double cloth[TAILOR_CLOTH_COUNT] = {NAN}, along[TAILOR_ALONG_COUNT];
    tailor_fault fault;
    numbers_of(one, "cloth", cloth + 1, TAILOR_CLOTH_COUNT - 1);
    if (tailor_cloth_along(cloth, TAILOR_CLOTH_COUNT, number_of(one, "angle"), along, TAILOR_ALONG_COUNT, &fault))
        truth_broken(one, fault.sentence);
    return along[entry];
}

static double stretch(const truth_case *one) { return along_of(one, TAILOR_ALONG_STRETCH); }
static double bending(const truth_case *one) { return along_of(one, TAILOR_ALONG_BENDING); }
static double bending_narrow(const truth_case *one) { return along_of(one, TAILOR_ALONG_BENDING_NARROW); }
static double bending_length(const truth_case *one) { return along_of(one, TAILOR_ALONG_BENDING_LENGTH); }
static double drape_length(const truth_case *one) { return along_of(one, TAILOR_ALONG_DRAPE_LENGTH); }

static double bending_peirce(const truth_case *one)
{
    double n[2];
    numbers_of(one, "warp_and_weft", n, 2);
    return tailor_cloth_bending_peirce(n[0], n[1], number_of(one, "angle"));
}

static double of_tests(const truth_case *one, int entry)
{
    double tests[TAILOR_TEST_COUNT], cloth[TAILOR_CLOTH_COUNT];
    tailor_fault fault;
    tests[0] = NAN;
    numbers_of(one, "tests", tests + 1, TAILOR_TEST_COUNT - 1);
    if (tailor_cloth_from_tests(tests, TAILOR_TEST_COUNT, cloth, TAILOR_CLOTH_COUNT, &fault))
        truth_broken(one, fault.sentence);
    return cloth[entry];
}

static double tests_shear(const truth_case *one) { return of_tests(one, TAILOR_CLOTH_SHEAR); }
static double tests_bending_warp(const truth_case *one) { return of_tests(one, TAILOR_CLOTH_BENDING_WARP); }
static double tests_stretch_warp(const truth_case *one) { return of_tests(one, TAILOR_CLOTH_STRETCH_WARP); }
static double tests_cooper_j(const truth_case *one) { return 4 * of_tests(one, TAILOR_CLOTH_TWIST); }

static double bending_of_length(const truth_case *one)
{
    return tailor_cloth_bending_of_length(number_of(one, "bending_length"), number_of(one, "weight"));
}

static double shear_of_bias(const truth_case *one)
{
    return tailor_cloth_shear_of_bias_stretch(number_of(one, "percent"));
}

static double formability(const truth_case *one)
{
    double n[3];
    numbers_of(one, "bending_and_stretches", n, 3);
    return tailor_cloth_formability(n[0], n[1], n[2]);
}

/* ---- layers: given layer = ANGLE JOINT HOLD CLOTH, the first one first */

static void layers_of(const truth_case *one, double *layers)
{
    double cloths[TAILOR_LAYERS_MOST][TAILOR_CLOTH_COUNT], angles[TAILOR_LAYERS_MOST], holds[TAILOR_LAYERS_MOST];
    int joints[TAILOR_LAYERS_MOST];
    size_t count = 0;
    tailor_fault fault;
    for (size_t i = 0; i < one->given_count; i++)
        if (strcmp(one->given[i].key, "layer") == 0) {
            double n[TAILOR_CLOTH_COUNT + 2];
            truth_numbers(one, one->given[i].text, n, TAILOR_CLOTH_COUNT + 2);
            angles[count] = n[0];
            joints[count] = (int)n[1];
            holds[count] = n[2];
            cloths[count][0] = NAN;
            memcpy(cloths[count] + 1, n + 3, (TAILOR_CLOTH_COUNT - 1) * sizeof *n);
            count++;
        }
    if (tailor_layers_join(cloths[0], count, TAILOR_CLOTH_COUNT, angles, joints, holds, layers, TAILOR_LAYERS_COUNT,
                           &fault))
        truth_broken(one, fault.sentence);
}

static double layers_along(const truth_case *one, int entry)
{
    double layers[TAILOR_LAYERS_COUNT], along[TAILOR_ALONG_COUNT];
    layers_of(one, layers);
    assert_int_equal(
        tailor_layers_along(layers, TAILOR_LAYERS_COUNT, number_of(one, "angle"), along, TAILOR_ALONG_COUNT, NULL),
        TAILOR_OK);
    return along[entry];
}

static double layers_stretch(const truth_case *one) { return layers_along(one, TAILOR_ALONG_STRETCH); }
static double layers_bending(const truth_case *one) { return layers_along(one, TAILOR_ALONG_BENDING); }
static double layers_across(const truth_case *one) { return layers_along(one, TAILOR_ALONG_BENDING_ACROSS); }
static double layers_length_across(const truth_case *one)
{
    return layers_along(one, TAILOR_ALONG_BENDING_LENGTH_ACROSS);
}

static double percent(const truth_case *one)
{
    double layers[TAILOR_LAYERS_COUNT], value;
    layers_of(one, layers);
    assert_int_equal(tailor_layers_stretch(layers, TAILOR_LAYERS_COUNT, number_of(one, "angle"),
                                           number_of(one, "tension"), &value, NULL, NULL),
                     TAILOR_OK);
    return value;
}

static double greatest_stretch_angle(const truth_case *one)
{
    double layers[TAILOR_LAYERS_COUNT], angle;
    layers_of(one, layers);
    assert_int_equal(tailor_layers_greatest_stretch(layers, TAILOR_LAYERS_COUNT, &angle, NULL, NULL), TAILOR_OK);
    return angle;
}

/* ---- trellis */

static double trellis_extension(const truth_case *one)
{
    return tailor_trellis_line(number_of(one, "shear"), number_of(one, "angle")) - 1;
}

static double trellis_area(const truth_case *one) { return tailor_trellis_area(number_of(one, "shear")); }
static double trellis_shear(const truth_case *one) { return tailor_trellis_shear(number_of(one, "extension")); }

static double trellis_invariant(const truth_case *one)
{
    const double shear = number_of(one, "shear"), a = tailor_trellis_line(shear, 45),
                 b = tailor_trellis_line(shear, -45);
    return a * a + b * b;
}

/* ---- droop: given strip = WEIGHT LOAD RISE */

static double hangs(const truth_case *one, int entry)
{
    double n[3], droop[TAILOR_DROOP_COUNT];
    numbers_of(one, "strip", n, 3);
    assert_int_equal(tailor_cloth_elastica_hang(n[0], n[1], n[2], droop, TAILOR_DROOP_COUNT, NULL), TAILOR_OK);
    return droop[entry];
}

static double chord_angle(const truth_case *one) { return hangs(one, TAILOR_DROOP_CHORD_ANGLE); }
static double tip_angle(const truth_case *one) { return hangs(one, TAILOR_DROOP_TIP_ANGLE); }
static double reach(const truth_case *one) { return hangs(one, TAILOR_DROOP_REACH); }
static double foreshortening(const truth_case *one) { return 1 - hangs(one, TAILOR_DROOP_REACH); }
static double drop(const truth_case *one) { return hangs(one, TAILOR_DROOP_DROP); }
static double drop_over_beam(const truth_case *one)
{
    double n[3];
    numbers_of(one, "strip", n, 3);
    return hangs(one, TAILOR_DROOP_DROP) / (n[0] / 8);
}

static double length_of_droop(const truth_case *one)
{
    double found;
    assert_int_equal(tailor_cloth_droop_bending_length(1, number_of(one, "chord"), &found, NULL), TAILOR_OK);
    return found;
}

/** How much more than the exact bending length Peirce's closed form gives, %. */
static double closed_form_more(const truth_case *one)
{
    const double a = number_of(one, "chord") * acos(-1) / 180, closed = cbrt(cos(a / 2) / (8 * tan(a)));
    return 100 * (closed / length_of_droop(one) - 1);
}

static double standing_cubed(const truth_case *one)
{
    const double height = tailor_cloth_standing_height(number_of(one, "bending_length"));
    return height * height * height;
}

static const struct {
    const char *key;
    double (*answer)(const truth_case *one);
} answers[] = {
    {"stretch", stretch},
    {"bending", bending},
    {"bending_narrow", bending_narrow},
    {"bending_length", bending_length},
    {"drape_length", drape_length},
    {"bending_peirce", bending_peirce},
    {"tests_shear", tests_shear},
    {"tests_bending_warp", tests_bending_warp},
    {"tests_stretch_warp", tests_stretch_warp},
    {"tests_cooper_j", tests_cooper_j},
    {"bending_of_length", bending_of_length},
    {"shear_of_bias", shear_of_bias},
    {"formability", formability},
    {"layers_stretch", layers_stretch},
    {"layers_bending", layers_bending},
    {"layers_across", layers_across},
    {"layers_length_across", layers_length_across},
    {"percent", percent},
    {"greatest_stretch_angle", greatest_stretch_angle},
    {"trellis_extension", trellis_extension},
    {"trellis_area", trellis_area},
    {"trellis_shear", trellis_shear},
    {"trellis_invariant", trellis_invariant},
    {"chord_angle", chord_angle},
    {"tip_angle", tip_angle},
    {"reach", reach},
    {"foreshortening", foreshortening},
    {"drop", drop},
    {"drop_over_beam", drop_over_beam},
    {"length_of_droop", length_of_droop},
    {"closed_form_more", closed_form_more},
    {"standing_cubed", standing_cubed},
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
    assert_true(truth_run("cloth.truth", run_case) >= 60);
}

int test_truth(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(truths)};
    return cmocka_run_group_tests_name("cloth_truth", tests, NULL, NULL);
}

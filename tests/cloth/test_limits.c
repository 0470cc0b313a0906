/* Sheets at their limits: what is refused and how it is said, what arrays of other lengths do, and what must hold at
 * any angle for any sheet. */
#include <float.h>
#include <string.h>
#include <tailorgeom/cloth.h>
#include "base/near.h"

enum { MANY = 2000 };

static const double medium[TAILOR_CLOTH_COUNT] = {NAN, 280, 4900, 3300, 50, 0.15, 12, 8, 2.2, 0.6};
static const double hair[TAILOR_CLOTH_COUNT] = {NAN, 200, 8000, 12000, 100, 0.05, 30, 250, 8, 0.5};

static double between(uint64_t *state, double low, double high) { return low * pow(high / low, next_random(state)); }

static void any_cloth(uint64_t *state, double *cloth)
{
    cloth[0] = NAN;
    cloth[TAILOR_CLOTH_WEIGHT] = between(state, 50, 800);
    cloth[TAILOR_CLOTH_STRETCH_WARP] = between(state, 500, 20000);
    cloth[TAILOR_CLOTH_STRETCH_WEFT] = between(state, 500, 20000);
    cloth[TAILOR_CLOTH_SHEAR] = between(state, 5, 500);
    cloth[TAILOR_CLOTH_CONTRACTION] =
        0.9 * next_random(state) * sqrt(cloth[TAILOR_CLOTH_STRETCH_WARP] / cloth[TAILOR_CLOTH_STRETCH_WEFT]);
    if (cloth[TAILOR_CLOTH_CONTRACTION] > 2)
        cloth[TAILOR_CLOTH_CONTRACTION] = 2;
    cloth[TAILOR_CLOTH_BENDING_WARP] = between(state, 1, 500);
    cloth[TAILOR_CLOTH_BENDING_WEFT] = between(state, 1, 500);
    cloth[TAILOR_CLOTH_TWIST] = between(state, 0.2, 50);
    cloth[TAILOR_CLOTH_THICKNESS] = between(state, 0.1, 3);
}

/* ---- refusals, word for word */

static void refused_so(int property, double value, int status, const char *sentence)
{
    double cloth[TAILOR_CLOTH_COUNT], along[TAILOR_ALONG_COUNT] = {7, 7};
    tailor_fault fault;
    memcpy(cloth, medium, sizeof cloth);
    cloth[property] = value;
    assert_int_equal(tailor_cloth_check(cloth, TAILOR_CLOTH_COUNT, &fault), status);
    assert_string_equal(fault.sentence, sentence);
    assert_int_equal(fault.table, TAILOR_TABLE_CLOTH);
    assert_int_equal(fault.index, property);
    assert_int_equal(tailor_cloth_check(cloth, TAILOR_CLOTH_COUNT, NULL), status);
    assert_int_equal(tailor_cloth_along(cloth, TAILOR_CLOTH_COUNT, 45, along, TAILOR_ALONG_COUNT, &fault), status);
    assert_near(along[1], 7, 0); /* nothing is written */
}

static void refusals(void **state)
{
    (void)state;
    refused_so(TAILOR_CLOTH_WEIGHT, NAN, TAILOR_MISSING, "weight of a cloth is not given");
    refused_so(TAILOR_CLOTH_SHEAR, INFINITY, TAILOR_NOT_FINITE, "shear of a cloth is infinite");
    refused_so(TAILOR_CLOTH_SHEAR, -INFINITY, TAILOR_NOT_FINITE, "shear of a cloth is infinite");
    refused_so(TAILOR_CLOTH_WEIGHT, -280, TAILOR_OUT_OF_RANGE,
               "weight of a cloth is -280 g/m2: 20 to 2000 g/m2 is allowed");
    refused_so(TAILOR_CLOTH_SHEAR, 0, TAILOR_OUT_OF_RANGE, "shear of a cloth is 0 N/m: 0.1 to 1000000 N/m is allowed");
    refused_so(TAILOR_CLOTH_TWIST, -0.1, TAILOR_OUT_OF_RANGE,
               "twist of a cloth is -0.1 uN.m: 0 to 1000000 uN.m is allowed");
    refused_so(TAILOR_CLOTH_CONTRACTION, 2.1, TAILOR_OUT_OF_RANGE, "contraction of a cloth is 2.1: 0 to 2 is allowed");
    refused_so(TAILOR_CLOTH_CONTRACTION, 1.3, TAILOR_CONTRADICTION,
               "contraction of a cloth is 1.3: times itself, stretch_weft and 1/stretch_warp it must stay below 1");
    tailor_fault fault;
    assert_int_equal(tailor_cloth_check(NULL, 0, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_cloth_check(medium, TAILOR_CLOTH_THICKNESS, &fault), TAILOR_MISSING);
    assert_string_equal(fault.sentence, "thickness of a cloth is not given");
    double longer[TAILOR_CLOTH_COUNT + 2];
    memcpy(longer, medium, sizeof medium);
    longer[TAILOR_CLOTH_COUNT] = longer[TAILOR_CLOTH_COUNT + 1] = NAN;
    assert_int_equal(tailor_cloth_check(longer, TAILOR_CLOTH_COUNT + 2, &fault), TAILOR_OK);
    longer[TAILOR_CLOTH_COUNT + 1] = 0;
    assert_int_equal(tailor_cloth_check(longer, TAILOR_CLOTH_COUNT + 2, &fault), TAILOR_UNKNOWN_FIELD);
    assert_int_equal(tailor_cloth_along(medium, TAILOR_CLOTH_COUNT, NAN, longer, 3, &fault), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_cloth_along(medium, TAILOR_CLOTH_COUNT, INFINITY, longer, 3, &fault), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_cloth_along(medium, TAILOR_CLOTH_COUNT, 0, NULL, 3, &fault), TAILOR_BAD_ARGUMENT);
}

static void refusals_of_layers(void **state)
{
    (void)state;
    double cloths[2][TAILOR_CLOTH_COUNT], layers[TAILOR_LAYERS_COUNT] = {7, 7};
    double angles[2] = {0, 20}, holds[2] = {1, 1};
    int joints[2] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED};
    tailor_fault fault;
    memcpy(cloths[0], medium, sizeof medium);
    memcpy(cloths[1], hair, sizeof hair);
#define JOIN(n)                                                                                                        \
    tailor_layers_join(cloths[0], n, TAILOR_CLOTH_COUNT, angles, joints, holds, layers, TAILOR_LAYERS_COUNT, &fault)
    assert_int_equal(JOIN(0), TAILOR_BAD_ARGUMENT);
    assert_int_equal(JOIN(TAILOR_LAYERS_MOST + 1), TAILOR_BAD_ARGUMENT);
    cloths[1][TAILOR_CLOTH_TWIST] = NAN;
    assert_int_equal(JOIN(2), TAILOR_MISSING);
    assert_string_equal(fault.sentence, "twist of a cloth is not given, layer 2");
    cloths[1][TAILOR_CLOTH_TWIST] = 8;
    angles[1] = 181;
    assert_int_equal(JOIN(2), TAILOR_OUT_OF_RANGE);
    assert_string_equal(fault.sentence, "the angle of a layer is 181 deg: -180 to 180 deg is allowed");
    angles[1] = NAN;
    assert_int_equal(JOIN(2), TAILOR_OUT_OF_RANGE);
    angles[1] = 20;
    holds[1] = -0.1;
    assert_int_equal(JOIN(2), TAILOR_OUT_OF_RANGE);
    holds[1] = 1;
    joints[1] = 3;
    assert_int_equal(JOIN(2), TAILOR_BAD_ARGUMENT);
    joints[1] = 1;
    joints[0] = 99; /* of the first layer neither joint nor hold counts */
    holds[0] = NAN;
    assert_near(layers[1], 7, 0);
    assert_int_equal(JOIN(2), TAILOR_OK);
    double value, along[TAILOR_ALONG_COUNT];
    int beyond;
    assert_int_equal(tailor_layers_along(layers, TAILOR_LAYERS_COUNT - 1, 0, along, 2, &fault), TAILOR_MISSING);
    assert_int_equal(tailor_layers_along(NULL, 0, 0, along, 2, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_layers_stretch(layers, TAILOR_LAYERS_COUNT, 0, -1, &value, &beyond, &fault),
                     TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_layers_stretch(layers, TAILOR_LAYERS_COUNT, 0, NAN, &value, &beyond, &fault),
                     TAILOR_NOT_FINITE);
    assert_int_equal(tailor_layers_stretch(layers, TAILOR_LAYERS_COUNT, 0, 0, &value, &beyond, &fault), TAILOR_OK);
    assert_near(value, 0, 0);
    assert_int_equal(beyond, 0);
    layers[TAILOR_LAYERS_STRETCH_12] = 1e6; /* no plate */
    assert_int_equal(tailor_layers_along(layers, TAILOR_LAYERS_COUNT, 0, along, 2, &fault), TAILOR_OUT_OF_RANGE);
    layers[TAILOR_LAYERS_STRETCH_12] = INFINITY;
    assert_int_equal(tailor_layers_along(layers, TAILOR_LAYERS_COUNT, 0, along, 2, &fault), TAILOR_NOT_FINITE);
}

static void refusals_of_tests(void **state)
{
    (void)state;
    const double good[TAILOR_TEST_COUNT] = {NAN, 280, 0.6, 16.3, 14.3, NAN, 2, 3, 2.5, NAN};
    double tests[TAILOR_TEST_COUNT], cloth[TAILOR_CLOTH_COUNT];
    tailor_fault fault;
    static const struct {
        int test;
        double value;
        int status;
        const char *sentence;
    } bad[] = {
        {TAILOR_TEST_WEIGHT, NAN, TAILOR_MISSING, "a test of the cloth, weight, is not given"},
        {TAILOR_TEST_THICKNESS, INFINITY, TAILOR_NOT_FINITE, "a test of the cloth, thickness, is infinite"},
        {TAILOR_TEST_STRETCH_WARP, 0, TAILOR_OUT_OF_RANGE,
         "a test of the cloth, stretch along the warp, must be above zero"},
        {TAILOR_TEST_CONTRACTION, -0.1, TAILOR_OUT_OF_RANGE, "a test of the cloth, contraction, must be above zero"},
        {TAILOR_TEST_STRETCH_BIAS, 0.01, TAILOR_CONTRADICTION,
         "a test of the cloth, stretch on the bias, is less than what warp and weft give alone"},
        {TAILOR_TEST_BENDING_LENGTH_BIAS, 5, TAILOR_CONTRADICTION,
         "a test of the cloth, bending length on the bias, is less than what warp and weft give alone"},
        {TAILOR_TEST_WEIGHT, 5, TAILOR_OUT_OF_RANGE, "weight of a cloth is 5 g/m2: 20 to 2000 g/m2 is allowed"},
    };
    memcpy(tests, good, sizeof tests);
    assert_int_equal(tailor_cloth_from_tests(tests, TAILOR_TEST_COUNT, cloth, TAILOR_CLOTH_COUNT, NULL), TAILOR_OK);
    assert_near(cloth[TAILOR_CLOTH_CONTRACTION], 0.1, 0);
    assert_near(cloth[TAILOR_CLOTH_TWIST],
                0.225 * sqrt(cloth[TAILOR_CLOTH_BENDING_WARP] * cloth[TAILOR_CLOTH_BENDING_WEFT]), 1e-12);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        memcpy(tests, good, sizeof tests);
        tests[bad[i].test] = bad[i].value;
        assert_int_equal(tailor_cloth_from_tests(tests, TAILOR_TEST_COUNT, cloth, TAILOR_CLOTH_COUNT, &fault),
                         bad[i].status);
        assert_string_equal(fault.sentence, bad[i].sentence);
    }
    assert_int_equal(tailor_cloth_from_tests(NULL, 0, cloth, TAILOR_CLOTH_COUNT, NULL), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_cloth_from_tests(good, 5, cloth, TAILOR_CLOTH_COUNT, NULL), TAILOR_MISSING);
    /* the strips a sheet would give tell of the sheet again */
    double along[TAILOR_ALONG_COUNT], percent = 100 * 4.903325;
    assert_int_equal(tailor_cloth_from_tests(good, TAILOR_TEST_COUNT, cloth, TAILOR_CLOTH_COUNT, NULL), TAILOR_OK);
    assert_int_equal(tailor_cloth_along(cloth, TAILOR_CLOTH_COUNT, 45, along, TAILOR_ALONG_COUNT, NULL), TAILOR_OK);
    assert_near(percent / along[TAILOR_ALONG_STRETCH], 2.5, 1e-12);
    assert_int_equal(tailor_cloth_along(cloth, TAILOR_CLOTH_COUNT, 90, along, TAILOR_ALONG_COUNT, NULL), TAILOR_OK);
    assert_near(along[TAILOR_ALONG_BENDING_LENGTH], 14.3, 1e-12);
}

static void numbers_alone(void **state)
{
    (void)state;
    const double bad[] = {NAN, -1, 0, -INFINITY};
    for (size_t i = 0; i < 4; i++) {
        assert_true(isnan(tailor_cloth_bending_of_length(bad[i], 200)) &&
                    isnan(tailor_cloth_bending_of_length(20, bad[i])));
        assert_true(isnan(tailor_cloth_bending_length(bad[i], 200)) && isnan(tailor_cloth_bending_length(20, bad[i])));
        assert_true(isnan(tailor_cloth_shear_of_bias_stretch(bad[i])) && isnan(tailor_cloth_standing_height(bad[i])));
        assert_true(isnan(tailor_cloth_bending_peirce(bad[i], 1, 0)) &&
                    isnan(tailor_cloth_bending_peirce(1, bad[i], 0)));
    }
    assert_true(isnan(tailor_cloth_standing_height(INFINITY)) && isnan(tailor_cloth_formability(1, NAN, 2)));
    assert_true(isnan(tailor_cloth_bending_peirce(1, 1, INFINITY)) && isnan(tailor_trellis_line(90.1, 0)));
    assert_true(isnan(tailor_trellis_line(NAN, 0)) && isnan(tailor_trellis_line(0, INFINITY)));
    assert_true(isnan(tailor_trellis_area(-91)) && isnan(tailor_trellis_shear(0.42)) &&
                isnan(tailor_trellis_shear(-1.01)) && isnan(tailor_trellis_shear(NAN)));
    assert_near(tailor_trellis_shear(-1), -90, 1e-12);
    assert_near(tailor_trellis_line(90, -45), 0, 1e-12);
    for (int i = -9; i <= 9; i++) /* there and back */
        assert_near(tailor_trellis_shear(tailor_trellis_line(10 * i, 45) - 1), 10 * i, 1e-6);
}

/* ---- what holds for any sheet */

static void a_strip_is_the_inverse_of_the_plate(void **state)
{
    (void)state; /* 1 / (C^-1)_11 in the line's frame is the off-axis formula: Jones; 1e-10 */
    uint64_t dice = 20261125;
    for (int i = 0; i < MANY; i++) {
        double cloth[TAILOR_CLOTH_COUNT], layers[TAILOR_LAYERS_COUNT], one[TAILOR_ALONG_COUNT], two[TAILOR_ALONG_COUNT];
        const double turned = 360 * next_random(&dice) - 180, line = 360 * next_random(&dice) - 180, hold = 1;
        const int joint = TAILOR_JOINT_PADDED;
        any_cloth(&dice, cloth);
        assert_int_equal(
            tailor_layers_join(cloth, 1, TAILOR_CLOTH_COUNT, &turned, &joint, &hold, layers, TAILOR_LAYERS_COUNT, NULL),
            TAILOR_OK);
        assert_int_equal(tailor_layers_along(layers, TAILOR_LAYERS_COUNT, line, one, TAILOR_ALONG_COUNT, NULL),
                         TAILOR_OK);
        assert_int_equal(tailor_cloth_along(cloth, TAILOR_CLOTH_COUNT, line - turned, two, TAILOR_ALONG_COUNT, NULL),
                         TAILOR_OK);
        for (int k = 1; k < TAILOR_ALONG_COUNT; k++)
            assert_near(one[k] / two[k], 1, 1e-10);
        const double a = (line - turned) * acos(-1) / 180, c2 = cos(a) * cos(a), s2 = 1 - c2;
        const double *e = cloth;
        const double formula =
            c2 * c2 / e[TAILOR_CLOTH_STRETCH_WARP] + s2 * s2 / e[TAILOR_CLOTH_STRETCH_WEFT] +
            s2 * c2 * (1 / e[TAILOR_CLOTH_SHEAR] - 2 * e[TAILOR_CLOTH_CONTRACTION] / e[TAILOR_CLOTH_STRETCH_WARP]);
        assert_near(one[TAILOR_ALONG_STRETCH] * formula, 1, 1e-10);
        /* a strip with free edges is never stiffer than one that is held a cylinder */
        assert_true(one[TAILOR_ALONG_BENDING_NARROW] <= one[TAILOR_ALONG_BENDING] * (1 + 1e-12));
    }
}

static void warp_and_weft_are_themselves(void **state)
{
    (void)state;
    uint64_t dice = 3;
    for (int i = 0; i < MANY; i++) {
        double cloth[TAILOR_CLOTH_COUNT], along[TAILOR_ALONG_COUNT];
        any_cloth(&dice, cloth);
        static const int at[] = {0, 90, 180, 270, -90, 360};
        for (int k = 0; k < 6; k++) {
            const int weft = at[k] % 180 != 0;
            assert_int_equal(tailor_cloth_along(cloth, TAILOR_CLOTH_COUNT, at[k], along, TAILOR_ALONG_COUNT, NULL),
                             TAILOR_OK);
            assert_near(along[TAILOR_ALONG_STRETCH] / cloth[TAILOR_CLOTH_STRETCH_WARP + weft], 1, 1e-12);
            assert_near(along[TAILOR_ALONG_BENDING] / cloth[TAILOR_CLOTH_BENDING_WARP + weft], 1, 1e-12);
            assert_near(along[TAILOR_ALONG_BENDING_NARROW] / cloth[TAILOR_CLOTH_BENDING_WARP + weft], 1, 1e-12);
            assert_near(along[TAILOR_ALONG_BENDING_ACROSS] / cloth[TAILOR_CLOTH_BENDING_WEFT - weft], 1, 1e-12);
            assert_near(tailor_cloth_bending_of_length(along[TAILOR_ALONG_BENDING_LENGTH], cloth[TAILOR_CLOTH_WEIGHT]) /
                            along[TAILOR_ALONG_BENDING],
                        1, 1e-12);
        }
    }
}

static void greatest_stretch_is_the_greatest(void **state)
{
    (void)state;
    uint64_t dice = 77;
    for (int i = 0; i < MANY / 4; i++) {
        double cloths[3][TAILOR_CLOTH_COUNT], layers[TAILOR_LAYERS_COUNT], along[TAILOR_ALONG_COUNT], angle, least;
        double angles[3], holds[3] = {1, next_random(&dice), next_random(&dice)};
        const int joints[3] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED, TAILOR_JOINT_FUSED};
        for (int k = 0; k < 3; k++) {
            any_cloth(&dice, cloths[k]);
            angles[k] = 180 * next_random(&dice) - 90;
        }
        assert_int_equal(tailor_layers_join(cloths[0], 1 + (size_t)(i % 3), TAILOR_CLOTH_COUNT, angles, joints, holds,
                                            layers, TAILOR_LAYERS_COUNT, NULL),
                         TAILOR_OK);
        assert_int_equal(tailor_layers_greatest_stretch(layers, TAILOR_LAYERS_COUNT, &angle, &least, NULL), TAILOR_OK);
        assert_true(angle > -90 && angle <= 90);
        for (int a = -900; a <= 900; a++) {
            assert_int_equal(
                tailor_layers_along(layers, TAILOR_LAYERS_COUNT, a / 10.0, along, TAILOR_ALONG_COUNT, NULL), TAILOR_OK);
            assert_true(along[TAILOR_ALONG_STRETCH] >= least * (1 - 1e-12));
        }
        assert_int_equal(tailor_layers_along(layers, TAILOR_LAYERS_COUNT, angle, along, 2, NULL), TAILOR_OK);
        assert_near(along[TAILOR_ALONG_STRETCH] / least, 1, 1e-12);
        assert_int_equal(tailor_layers_greatest_stretch(layers, TAILOR_LAYERS_COUNT, NULL, NULL, NULL), TAILOR_OK);
    }
    const double alike[TAILOR_CLOTH_COUNT] = {NAN, 200, 1000, 1000, 400, 0.25, 10, 10, 5, 0.5}, zero = 0;
    const int joint = TAILOR_JOINT_PADDED;
    double layers[TAILOR_LAYERS_COUNT], angle = 7;
    assert_int_equal(
        tailor_layers_join(alike, 1, TAILOR_CLOTH_COUNT, &zero, &joint, &zero, layers, TAILOR_LAYERS_COUNT, NULL),
        TAILOR_OK);
    assert_int_equal(tailor_layers_greatest_stretch(layers, TAILOR_LAYERS_COUNT, &angle, NULL, NULL), TAILOR_OK);
    assert_near(angle, 0, 0);
}

/* ---- a made-up front */

static double front_stretch(double canvas_angle, double hold, double *across)
{
    double cloths[2][TAILOR_CLOTH_COUNT], layers[TAILOR_LAYERS_COUNT], along[TAILOR_ALONG_COUNT];
    const double angles[2] = {0, canvas_angle}, holds[2] = {1, hold};
    const int joints[2] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED};
    memcpy(cloths[0], medium, sizeof medium);
    memcpy(cloths[1], hair, sizeof hair);
    assert_int_equal(
        tailor_layers_join(cloths[0], 2, TAILOR_CLOTH_COUNT, angles, joints, holds, layers, TAILOR_LAYERS_COUNT, NULL),
        TAILOR_OK);
    assert_int_equal(tailor_layers_along(layers, TAILOR_LAYERS_COUNT, 13.19, along, TAILOR_ALONG_COUNT, NULL),
                     TAILOR_OK);
    if (across)
        *across = along[TAILOR_ALONG_BENDING_ACROSS];
    return 10 * 100 / along[TAILOR_ALONG_STRETCH]; /* % at 0.1 N/cm */
}

/* What the study found of a wool front whose canvas is padded to it, along its break line. */
static void two_plies_brace_each_other(void **state)
{
    (void)state;
    double least = 99, most = 0, at_least = 0, at_most = 0, plus, minus;
    for (int a = -89; a <= 90; a++) {
        const double stretch = front_stretch(a, 1, NULL);
        if (stretch < least) {
            least = stretch;
            at_least = a;
        }
        if (stretch > most) {
            most = stretch;
            at_most = a;
        }
    }
    assert_true((at_least >= 15 && at_least <= 25) || (at_least >= -80 && at_least <= -65));
    assert_true(least >= 0.055 && least <= 0.105);
    assert_true((at_most >= -6 && at_most <= 0) || at_most >= 84);
    assert_true(most >= 0.38 && most <= 0.60);
    assert_near(front_stretch(30, 0, NULL), 1.17, 0.006); /* canvas that slides: wool alone */
    assert_near(front_stretch(-60, 0, NULL), front_stretch(30, 0, NULL), 1e-12);
    front_stretch(45, 1, &plus);
    front_stretch(-45, 1, &minus);
    assert_near(plus, 147, 0.7); /* the hair lies across the roll ... */
    assert_near(minus, 49, 0.3); /* ... or along it: the sign counts */
}

static void thin_and_thick(void **state)
{
    (void)state; /* a thin fused layer adds what the parallel axis says; a thick one far more */
    double cloths[2][TAILOR_CLOTH_COUNT], layers[TAILOR_LAYERS_COUNT];
    const double angles[2] = {0, 0}, holds[2] = {1, 1};
    const int joints[2] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_FUSED};
    for (double thick = 0.02; thick <= 20; thick *= 10) {
        memcpy(cloths[0], medium, sizeof medium);
        memcpy(cloths[1], medium, sizeof medium);
        cloths[0][TAILOR_CLOTH_CONTRACTION] = cloths[1][TAILOR_CLOTH_CONTRACTION] = 0;
        cloths[0][TAILOR_CLOTH_THICKNESS] = cloths[1][TAILOR_CLOTH_THICKNESS] = thick;
        assert_int_equal(tailor_layers_join(cloths[0], 2, TAILOR_CLOTH_COUNT, angles, joints, holds, layers,
                                            TAILOR_LAYERS_COUNT, NULL),
                         TAILOR_OK);
        /* two equal plies a thickness apart: 2 C (t/2)^2 besides twice the bending */
        const double expected = 2 * 12 + 2 * 4900 * thick * thick / 4;
        assert_near(layers[TAILOR_LAYERS_BENDING_11] / expected, 1, 1e-12);
        assert_near(layers[TAILOR_LAYERS_THICKNESS], 2 * thick, 1e-12);
    }
}

static void beyond_the_linear_range(void **state)
{
    (void)state; /* a bias canvas at 1 N/cm: a nominal 25 % */
    const double zero = 0;
    const int joint = TAILOR_JOINT_PADDED;
    double layers[TAILOR_LAYERS_COUNT], percent;
    int beyond;
    assert_int_equal(
        tailor_layers_join(hair, 1, TAILOR_CLOTH_COUNT, &zero, &joint, &zero, layers, TAILOR_LAYERS_COUNT, NULL),
        TAILOR_OK);
    assert_int_equal(tailor_layers_stretch(layers, TAILOR_LAYERS_COUNT, 45, 1, &percent, &beyond, NULL), TAILOR_OK);
    assert_near(percent, 25.5, 0.05);
    assert_int_equal(beyond, 1);
    assert_int_equal(tailor_layers_stretch(layers, TAILOR_LAYERS_COUNT, 45, 0.1, &percent, &beyond, NULL), TAILOR_OK);
    assert_int_equal(beyond, 0);
}

static void arrays_of_any_length(void **state)
{
    (void)state;
    double out[TAILOR_ALONG_COUNT + 5], full[TAILOR_ALONG_COUNT];
    assert_int_equal(tailor_cloth_along(hair, TAILOR_CLOTH_COUNT, 30, full, TAILOR_ALONG_COUNT, NULL), TAILOR_OK);
    for (size_t n = 0; n <= TAILOR_ALONG_COUNT + 4; n++) {
        for (size_t i = 0; i < TAILOR_ALONG_COUNT + 5; i++)
            out[i] = 7;
        assert_int_equal(tailor_cloth_along(hair, TAILOR_CLOTH_COUNT, 30, n ? out : NULL, n, NULL), TAILOR_OK);
        for (size_t i = 0; i < TAILOR_ALONG_COUNT + 5; i++)
            if (i >= n)
                assert_near(out[i], 7, 0);
            else if (i > 0 && i < TAILOR_ALONG_COUNT)
                assert_near(out[i], full[i], 0);
            else
                assert_true(isnan(out[i]));
    }
}

int test_limits(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refusals),
        cmocka_unit_test(refusals_of_layers),
        cmocka_unit_test(refusals_of_tests),
        cmocka_unit_test(numbers_alone),
        cmocka_unit_test(a_strip_is_the_inverse_of_the_plate),
        cmocka_unit_test(warp_and_weft_are_themselves),
        cmocka_unit_test(greatest_stretch_is_the_greatest),
        cmocka_unit_test(two_plies_brace_each_other),
        cmocka_unit_test(thin_and_thick),
        cmocka_unit_test(beyond_the_linear_range),
        cmocka_unit_test(arrays_of_any_length),
    };
    return cmocka_run_group_tests_name("cloth_limits", tests, NULL, NULL);
}

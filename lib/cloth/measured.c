/* From what strips tell to a sheet, and the conversions that go with it. */
#include "sheet.h"

#include "../base/fault.h"

/* Tensions of the two stretch tests, N/m: 100 and 5 gf/cm. */
#define FULL_TENSION (0.1 * TAILOR_IN_GRAVITY * 100)
#define BIAS_TENSION (0.005 * TAILOR_IN_GRAVITY * 100)

static const char *const test_names[TAILOR_TEST_COUNT] = {
    "",
    "weight",
    "thickness",
    "bending length along the warp",
    "bending length along the weft",
    "bending length on the bias",
    "stretch along the warp",
    "stretch along the weft",
    "stretch on the bias",
    "contraction",
};

static tailor_status refused(tailor_fault *fault, tailor_status status, int test, double value, const char *what)
{
    tailor_in_fault(fault, status, NULL, 0, value, NAN, NAN, "a test of the cloth, ");
    if (fault) {
        tailor_in_fault_say(fault, test_names[test]);
        tailor_in_fault_say(fault, what);
    }
    return status;
}

double tailor_cloth_bending_of_length(double bending_length, double weight)
{
    if (!(bending_length > 0 && weight > 0))
        return NAN;
    return weight * TAILOR_IN_GRAVITY * bending_length * bending_length * bending_length * 1e-6;
}

double tailor_cloth_bending_length(double bending, double weight)
{
    return bending > 0 && weight > 0 ? cbrt(bending / (weight * TAILOR_IN_GRAVITY * 1e-6)) : NAN;
}

double tailor_cloth_shear_of_bias_stretch(double percent) { return percent > 0 ? 123 / percent : NAN; }

double tailor_cloth_formability(double bending, double stretch_5, double stretch_20)
{
    const double area = bending * (stretch_20 - stretch_5) / 14.7;
    return isfinite(area) ? area : NAN;
}

double tailor_cloth_bending_peirce(double warp, double weft, double angle)
{
    if (!(warp > 0 && weft > 0 && isfinite(angle)))
        return NAN;
    const double turn = fmod(angle, 360) * TAILOR_IN_DEGREE, c = cos(turn), s = sin(turn);
    const double root = c * c / sqrt(warp) + s * s / sqrt(weft);
    return 1 / (root * root);
}

static tailor_status check_tests(const double *tests, size_t count, tailor_fault *fault)
{
    for (int i = 1; i < TAILOR_TEST_COUNT; i++) {
        const int may_lack = i == TAILOR_TEST_BENDING_LENGTH_BIAS || i == TAILOR_TEST_CONTRACTION;
        if ((size_t)i >= count || isnan(tests[i])) {
            if (may_lack)
                continue;
            return refused(fault, TAILOR_MISSING, i, NAN, ", is not given");
        }
        if (isinf(tests[i]))
            return refused(fault, TAILOR_NOT_FINITE, i, tests[i], ", is infinite");
        if (!(tests[i] > 0 || (i == TAILOR_TEST_CONTRACTION && tests[i] == 0)))
            return refused(fault, TAILOR_OUT_OF_RANGE, i, tests[i], ", must be above zero");
    }
    for (size_t i = TAILOR_TEST_COUNT; i < count; i++)
        if (!isnan(tests[i]))
            return tailor_in_fault_plain(fault, TAILOR_UNKNOWN_FIELD, "a test that this library does not know");
    return TAILOR_OK;
}

static double given_or(const double *tests, size_t count, size_t test, double rule)
{
    return test < count && !isnan(tests[test]) ? tests[test] : rule;
}

tailor_status tailor_cloth_from_tests(const double *tests, size_t test_count, double *cloth, size_t cloth_count,
                                      tailor_fault *fault)
{
    if (!tests || (!cloth && cloth_count))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the tests or the cloth are NULL");
    tailor_status status = check_tests(tests, test_count, fault);
    if (status != TAILOR_OK)
        return status;
    const double weight = tests[TAILOR_TEST_WEIGHT], v = given_or(tests, test_count, TAILOR_TEST_CONTRACTION, 0.1);
    const double warp = 100 * FULL_TENSION / tests[TAILOR_TEST_STRETCH_WARP];
    const double weft = 100 * FULL_TENSION / tests[TAILOR_TEST_STRETCH_WEFT];
    /* 4/E45 = 1/E1 + 1/E2 - 2v/E1 + 1/G */
    const double slack = 4 * tests[TAILOR_TEST_STRETCH_BIAS] / (100 * BIAS_TENSION) - (1 - 2 * v) / warp - 1 / weft;
    if (!(slack > 0))
        return refused(fault, TAILOR_CONTRADICTION, TAILOR_TEST_STRETCH_BIAS, tests[TAILOR_TEST_STRETCH_BIAS],
                       ", is less than what warp and weft give alone");
    const double b1 = tailor_cloth_bending_of_length(tests[TAILOR_TEST_BENDING_LENGTH_WARP], weight);
    const double b2 = tailor_cloth_bending_of_length(tests[TAILOR_TEST_BENDING_LENGTH_WEFT], weight);
    double twist = 0.9 * sqrt(b1 * b2) / 4;
    const double bias = given_or(tests, test_count, TAILOR_TEST_BENDING_LENGTH_BIAS, NAN);
    if (!isnan(bias)) { /* 4 B45 = B1 + B2 + 4 Bt */
        twist = tailor_cloth_bending_of_length(bias, weight) - (b1 + b2) / 4;
        if (!(twist >= 0))
            return refused(fault, TAILOR_CONTRADICTION, TAILOR_TEST_BENDING_LENGTH_BIAS, bias,
                           ", is less than what warp and weft give alone");
    }
    const double row[TAILOR_CLOTH_COUNT] = {
        [TAILOR_CLOTH_WEIGHT] = weight,
        [TAILOR_CLOTH_STRETCH_WARP] = warp,
        [TAILOR_CLOTH_STRETCH_WEFT] = weft,
        [TAILOR_CLOTH_SHEAR] = 1 / slack,
        [TAILOR_CLOTH_CONTRACTION] = v,
        [TAILOR_CLOTH_BENDING_WARP] = b1,
        [TAILOR_CLOTH_BENDING_WEFT] = b2,
        [TAILOR_CLOTH_TWIST] = twist,
        [TAILOR_CLOTH_THICKNESS] = tests[TAILOR_TEST_THICKNESS],
    };
    status = tailor_cloth_check(row, TAILOR_CLOTH_COUNT, fault);
    if (status == TAILOR_OK)
        tailor_in_row_out(row, TAILOR_CLOTH_COUNT, cloth, cloth_count);
    return status;
}

/* Holds at the drawn break, or rolls through: the law of two groups. */
#include "given.h"

#include "../base/fault.h"

/* Width of front that a bridle gathers, and length of a bar, mm: as in the simulation. */
#define GATHERED 30.0
#define BAR_LENGTH 22.0

/* The law, fitted to 70 runs of the simulation. */
#define D0 35.38026314516987
#define D1 2.118031510107648
#define WIDTH 85.0
#define WIDTH_POWER 0.6775401913853771
#define TENSION 1.0878423000079818
#define TENSION_POWER 9
#define RATIO 8.681488736620654
#define RATIO_POWER 0.7796765097316203
#define BAND 12.0
#define BAND_BESIDE 18.0

/* What is refused (low, high) ... */
static const tailor_in_given inputs[TAILOR_ROLLING_COUNT] = {
    [TAILOR_ROLLING_LAPEL_WIDTH] = {"the lapel width", "mm", 0, 1000, NAN},
    [TAILOR_ROLLING_BUTTON_SPACING] = {"the button spacing", "mm", 0, 1000, NAN},
    [TAILOR_ROLLING_BREAK_ABOVE] = {"the height of the break above the button", "mm", -1000, 1000, NAN},
    [TAILOR_ROLLING_BREAK_LENGTH] = {"the length of the break line", "mm", 1, 2000, NAN},
    [TAILOR_ROLLING_BREAK_ANGLE] = {"the angle of the break line", "deg", -90, 90, NAN},
    [TAILOR_ROLLING_BRIDLE_STIFFNESS] = {"the stiffness of the bridle", "N", 0, 1e6, 0},
    [TAILOR_ROLLING_BRIDLE_DRAWN_IN] = {"how far the bridle is drawn in", "mm", 0, 1000, 0},
    [TAILOR_ROLLING_BUTTONHOLE_BAR] = {"the stiffness of the buttonhole bar", "N.m2", 0, 1, 0},
    [TAILOR_ROLLING_BUTTONHOLE_SIDES] = {"the number of worked sides of the buttonhole", "count", 1, 2, 1},
    [TAILOR_ROLLING_HANG_LOAD] = {"the hang load", "N", 0, 1000, 1},
};

/* ... and where the law speaks; of what the simulation held fixed, besides, how near is as good as the block itself. */
static const struct {
    double low, high, near_low, near_high;
} block[TAILOR_ROLLING_COUNT] = {
    [TAILOR_ROLLING_LAPEL_WIDTH] = {60, 110, 60, 110}, [TAILOR_ROLLING_BUTTON_SPACING] = {95, 115, 100, 110},
    [TAILOR_ROLLING_BREAK_ABOVE] = {95, 135, 95, 135}, [TAILOR_ROLLING_BREAK_LENGTH] = {280, 400, 300, 345},
    [TAILOR_ROLLING_BREAK_ANGLE] = {8, 24, 11, 16},    [TAILOR_ROLLING_BRIDLE_STIFFNESS] = {0, 800, 0, 800},
    [TAILOR_ROLLING_BRIDLE_DRAWN_IN] = {0, 10, 0, 10}, [TAILOR_ROLLING_BUTTONHOLE_BAR] = {0, 1e-4, 0, 1e-4},
    [TAILOR_ROLLING_BUTTONHOLE_SIDES] = {1, 2, 1, 2},  [TAILOR_ROLLING_HANG_LOAD] = {0.5, 2, 0.5, 2},
};

double tailor_roll_bridle_tension(double stiffness, double drawn_in, double length, double front_stretch,
                                  double hang_load)
{
    if (!(stiffness >= 0 && drawn_in >= 0 && length > 0 && front_stretch > 0 && hang_load >= 0))
        return NAN;
    const double front = front_stretch * GATHERED * 1e-3;
    const double tension = stiffness * (front * drawn_in / length + hang_load) / (stiffness + front);
    return isfinite(tension) ? tension : NAN;
}

double tailor_roll_buttonhole_ratio(double bar, double bending)
{
    if (!(bar >= 0 && bending > 0))
        return NAN;
    const double ratio = bar / (bending * 1e-6 * BAR_LENGTH * 1e-3);
    return isfinite(ratio) ? ratio : NAN;
}

static double law(double width, double tension, double ratio)
{
    const double t = tension / TENSION;
    double power = 1;
    for (int i = 0; i < TENSION_POWER; i++)
        power *= t;
    return D0 * pow(width / WIDTH, WIDTH_POWER) / (1 + power + pow(ratio / RATIO, RATIO_POWER)) - D1;
}

static int class_of(double tension, double ratio)
{
    return tension > 1.4 || ratio > 40  ? TAILOR_ROLL_CLASS_HOLDS
           : tension < 0.9 && ratio < 3 ? TAILOR_ROLL_CLASS_THROUGH
                                        : TAILOR_ROLL_CLASS_BETWEEN;
}

tailor_status tailor_roll_in_range(const double *making, size_t making_count, tailor_fault *fault)
{
    double m[TAILOR_ROLLING_COUNT];
    tailor_status status = tailor_in_given_read(inputs, TAILOR_ROLLING_COUNT, making, making_count, m, fault);
    if (status != TAILOR_OK)
        return status;
    m[TAILOR_ROLLING_BUTTONHOLE_BAR] *= m[TAILOR_ROLLING_BUTTONHOLE_SIDES];
    for (int i = 1; i < TAILOR_ROLLING_COUNT; i++) {
        if (m[i] >= block[i].low && m[i] <= block[i].high)
            continue;
        tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, m[i], block[i].low, block[i].high, inputs[i].words);
        tailor_in_fault_say(fault, " is ");
        tailor_in_fault_say_number(fault, m[i], inputs[i].unit);
        tailor_in_fault_say(fault, "; the law speaks of ");
        tailor_in_fault_say_number(fault, block[i].low, "");
        tailor_in_fault_say(fault, " to ");
        tailor_in_fault_say_number(fault, block[i].high, inputs[i].unit);
        return TAILOR_OUT_OF_RANGE;
    }
    return TAILOR_OK;
}

tailor_status tailor_roll_estimate(const double *making, size_t making_count, const double *front, size_t front_count,
                                   double *roll, size_t roll_count, tailor_fault *fault)
{
    double m[TAILOR_ROLLING_COUNT], along[TAILOR_ALONG_COUNT], level[TAILOR_ALONG_COUNT];
    tailor_status status = tailor_in_given_read(inputs, TAILOR_ROLLING_COUNT, making, making_count, m, fault);
    if (status == TAILOR_OK && m[TAILOR_ROLLING_BUTTONHOLE_SIDES] != floor(m[TAILOR_ROLLING_BUTTONHOLE_SIDES]))
        return tailor_in_fault_plain(fault, TAILOR_OUT_OF_RANGE, "a buttonhole is worked on one side or on two");
    if (status == TAILOR_OK)
        status =
            tailor_layers_along(front, front_count, m[TAILOR_ROLLING_BREAK_ANGLE], along, TAILOR_ALONG_COUNT, fault);
    if (status == TAILOR_OK)
        status = tailor_layers_along(front, front_count, 90, level, TAILOR_ALONG_COUNT, fault);
    if (status != TAILOR_OK)
        return status;
    if (!roll && roll_count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is nowhere to write to");

    m[TAILOR_ROLLING_BUTTONHOLE_BAR] *= m[TAILOR_ROLLING_BUTTONHOLE_SIDES];
    int in_range = 1, near = 1;
    for (int i = 1; i < TAILOR_ROLLING_COUNT; i++) {
        in_range &= m[i] >= block[i].low && m[i] <= block[i].high;
        near &= m[i] >= block[i].near_low && m[i] <= block[i].near_high;
    }
    const double tension = tailor_roll_bridle_tension(m[TAILOR_ROLLING_BRIDLE_STIFFNESS],
                                                      m[TAILOR_ROLLING_BRIDLE_DRAWN_IN], m[TAILOR_ROLLING_BREAK_LENGTH],
                                                      along[TAILOR_ALONG_STRETCH], m[TAILOR_ROLLING_HANG_LOAD]);
    const double ratio = tailor_roll_buttonhole_ratio(m[TAILOR_ROLLING_BUTTONHOLE_BAR], level[TAILOR_ALONG_BENDING]);
    const double row[TAILOR_ROLL_COUNT] = {
        [TAILOR_ROLL_IN_RANGE] = in_range,
        [TAILOR_ROLL_CLASS] = in_range ? (double)class_of(tension, ratio) : (double)NAN,
        [TAILOR_ROLL_DISTANCE] = in_range ? law(m[TAILOR_ROLLING_LAPEL_WIDTH], tension, ratio) : NAN,
        [TAILOR_ROLL_BAND] = !in_range ? NAN
                             : near    ? BAND
                                       : BAND_BESIDE,
        [TAILOR_ROLL_BRIDLE_TENSION] = tension,
        [TAILOR_ROLL_BUTTONHOLE_RATIO] = ratio,
        [TAILOR_ROLL_BREAK_STRETCH] = 100 * 100 / along[TAILOR_ALONG_STRETCH],
        [TAILOR_ROLL_BENDING_ACROSS] = along[TAILOR_ALONG_BENDING_ACROSS],
        [TAILOR_ROLL_BENDING_LENGTH] = along[TAILOR_ALONG_BENDING_LENGTH_ACROSS],
    };
    tailor_in_row_out(row, TAILOR_ROLL_COUNT, roll, roll_count);
    return TAILOR_OK;
}

/* The heavy elastica, exactly: one unknown, the slope of the tip.
 *
 * Seen from the tip (u = 0) to the clamp (u = 1) with p = 90 deg - slope below the horizontal,
 *
 *     p'' = (load + weight u) sin p,   p(0) = e,  p'(0) = 0,  p(1) = 90 deg + rise.
 *
 * From a small e the solution climbs; the greater e, the sooner it gets there. The e that arrives just at the clamp is
 * found in its logarithm, since it shrinks exponentially with the length of the strip. */
#include "sheet.h"

#include "../base/fault.h"

/** Greatest weight and load together: 20 bending lengths. */
#define MOST 8000.0

typedef struct swing {
    double weight, load, goal;
    double most; /* greatest start */
    int steps;   /* even */
} swing;

/** p at the clamp for a start e (run on in its tangent where it gets there early) and, if asked, the place of the tip:
 * Nystrom's method and Simpson's rule, both of fourth order. */
static double swung(const swing *w, double e, double *reach, double *drop)
{
    const double h = 1.0 / w->steps;
    double p = e, v = 0, sine = sin(e), across = sine, down = cos(e);
    for (int i = 0; i < w->steps; i++) {
        const double q = w->load + w->weight * (i * h), middle = q + w->weight * (h / 2), next = q + w->weight * h;
        const double k1 = q * sine;
        const double k2 = middle * sin(p + h / 2 * v + h * h / 8 * k1);
        const double k3 = next * sin(p + h * v + h * h / 2 * k2);
        p += h * v + h * h / 6 * (k1 + 2 * k2);
        v += h / 6 * (k1 + 4 * k2 + k3);
        if (p > w->goal && i + 1 < w->steps)
            return p + v * (1 - (i + 1) * h);
        sine = sin(p);
        if (reach) {
            const double share = i + 1 == w->steps ? 1 : i % 2 ? 2 : 4;
            across += share * sine;
            down += share * cos(p);
        }
    }
    if (reach) {
        *reach = across * h / 3;
        *drop = down * h / 3;
    }
    return p;
}

/** Root of a function that rises from below 0 at `low` to above it at `high`: the secant of Illinois, kept between,
 * until the function is within `enough` of 0. */
static double rising_root(double (*function)(const void *with, double x), const void *with, double low, double high,
                          double enough)
{
    double x = low, at_low = function(with, low), at_high = function(with, high);
    int side = 0;
    for (int i = 0; i < 100; i++) {
        const double before = x;
        x = (low * at_high - high * at_low) / (at_high - at_low);
        if (!(x > low && x < high) || i % 12 == 11)
            x = (low + high) / 2;
        const double at = function(with, x);
        if (fabs(at) <= enough || fabs(x - before) <= 1e-15)
            break;
        if (at < 0) {
            low = x;
            at_low = at;
            at_high = side < 0 ? at_high / 2 : at_high;
            side = -1;
        } else {
            high = x;
            at_high = at;
            at_low = side > 0 ? at_low / 2 : at_low;
            side = 1;
        }
    }
    return x;
}

static double swung_too_far(const void *with, double x)
{
    const swing *w = with;
    return log(swung(w, exp(x), NULL, NULL) / w->goal);
}

/** The droop of a strip that does bend. */
static void hang(const swing *w, double row[TAILOR_DROOP_COUNT])
{
    const double low = log(w->goal) - sqrt(w->load) - 0.7 * sqrt(w->weight) - 4, high = log(w->most);
    const double e = exp(rising_root(swung_too_far, w, low, high, 1e-12));
    double reach = 0, drop = 0;
    swung(w, e, &reach, &drop);
    row[TAILOR_DROOP_CHORD_ANGLE] = atan2(drop, reach) / TAILOR_IN_DEGREE;
    row[TAILOR_DROOP_TIP_ANGLE] = (TAILOR_IN_RIGHT_ANGLE - e) / TAILOR_IN_DEGREE;
    row[TAILOR_DROOP_REACH] = reach;
    row[TAILOR_DROOP_DROP] = drop;
}

/** All that is checked already; lengths as shares of the strip's. */
static void hang_any(double weight, double load, double rise, double row[TAILOR_DROOP_COUNT])
{
    const double goal = TAILOR_IN_RIGHT_ANGLE + rise * TAILOR_IN_DEGREE;
    const swing w = {weight, load, goal, rise == 90 ? goal - 1e-5 : goal, 160 + 2 * (int)(16 * sqrt(weight + load))};
    const double c = cos(rise * TAILOR_IN_DEGREE), s = sin(rise * TAILOR_IN_DEGREE);
    /* Straight without load; and upright strips that are short stand: even the widest swing does not get there. */
    if (weight + load == 0 || (rise == 90 && swung(&w, w.most, NULL, NULL) < goal)) {
        row[TAILOR_DROOP_CHORD_ANGLE] = row[TAILOR_DROOP_TIP_ANGLE] = -rise;
        row[TAILOR_DROOP_REACH] = rise == 90 ? 0 : c;
        row[TAILOR_DROOP_DROP] = -s;
        return;
    }
    hang(&w, row);
}

static tailor_status check_rise(double rise, const double *droop, size_t count, tailor_fault *fault)
{
    if (!droop && count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is nowhere to write to");
    if (!isfinite(rise))
        return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "the rise of the clamp is not finite");
    if (!(rise > -89.9 && rise <= 90))
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, rise, -89.9, 90,
                               "the rise of the clamp is %v deg: above %l, to %h deg is allowed");
    return TAILOR_OK;
}

tailor_status tailor_cloth_elastica_hang(double weight, double load, double rise, double *droop, size_t count,
                                   tailor_fault *fault)
{
    double row[TAILOR_DROOP_COUNT] = {0};
    const tailor_status status = check_rise(rise, droop, count, fault);
    if (status != TAILOR_OK)
        return status;
    if (!(isfinite(weight) && isfinite(load)))
        return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "weight or load of the strip is not finite");
    if (!(weight >= 0 && load >= 0 && weight + load <= MOST))
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, weight + load, 0, MOST,
                               "weight and load of the strip come to %v: %l to %h is allowed, and neither below 0");
    hang_any(weight, load, rise, row);
    tailor_in_row_out(row, TAILOR_DROOP_COUNT, droop, count);
    return TAILOR_OK;
}

static tailor_status check_length(double length, double overhang, tailor_fault *fault)
{
    if (!(isfinite(length) && isfinite(overhang)))
        return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "bending length or overhang is not finite");
    if (!(length > 0 && overhang > 0))
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, length > 0 ? overhang : length, 0, NAN,
                               "bending length and overhang must be above zero: one is %v mm");
    if (!(overhang <= 20 * length))
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, overhang, 0, 20 * length,
                               "an overhang of %v mm is more than 20 bending lengths, %h mm");
    return TAILOR_OK;
}

tailor_status tailor_cloth_droop(double bending_length, double overhang, double rise, double *droop, size_t count,
                           tailor_fault *fault)
{
    double row[TAILOR_DROOP_COUNT] = {0};
    tailor_status status = check_rise(rise, droop, count, fault);
    if (status == TAILOR_OK)
        status = check_length(bending_length, overhang, fault);
    if (status != TAILOR_OK)
        return status;
    const double ratio = overhang / bending_length;
    hang_any(ratio * ratio * ratio, 0, rise, row);
    row[TAILOR_DROOP_REACH] *= overhang;
    row[TAILOR_DROOP_DROP] *= overhang;
    tailor_in_row_out(row, TAILOR_DROOP_COUNT, droop, count);
    return TAILOR_OK;
}

static double droops_too_far(const void *with, double x)
{
    double row[TAILOR_DROOP_COUNT] = {0};
    hang_any(exp(x), 0, 0, row);
    return log(row[TAILOR_DROOP_CHORD_ANGLE] / *(const double *)with);
}

tailor_status tailor_cloth_droop_bending_length(double overhang, double chord_angle, double *bending_length,
                                          tailor_fault *fault)
{
    if (!bending_length)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is nowhere to write to");
    const tailor_status status = check_length(overhang, overhang, fault);
    if (status != TAILOR_OK)
        return status;
    if (isnan(chord_angle))
        return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "the chord angle is not a number");
    if (!(chord_angle >= 0.1 && chord_angle <= 89))
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, chord_angle, 0.1, 89,
                               "a chord angle of %v deg: %l to %h deg is allowed");
    /* At first the angle is weight / 8 of a radian, later less. */
    const double x = rising_root(droops_too_far, &chord_angle, log(chord_angle * 0.1), log(MOST), 1e-10);
    *bending_length = overhang / exp(x / 3);
    return TAILOR_OK;
}

double tailor_cloth_standing_height(double bending_length)
{
    /* w L^3 / B = 9/4 j^2, j = 1.8663508... the first zero of the Bessel function of order -1/3 (Greenhill 1881) */
    return bending_length > 0 && isfinite(bending_length) ? bending_length * cbrt(7.837347438925595) : NAN;
}

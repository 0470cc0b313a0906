/* Choices and notes that contradict one another. Each refusal says what would do. */
#include <math.h>
#include "../base/fault.h"
#include "choice.h"
#include "hole_faces.h"
#include "traits.h"
#include "validate.h"

static tailor_status contradiction(tailor_fault *fault, int field, double value, double low, double high,
                                   const char *sentence)
{
    return tailor_in_fault(fault, TAILOR_CONTRADICTION, tailor_field_table(), field, value, low, high, sentence);
}

/* The choice of `holes` that says so many; NaN for none. */
static double holes_choice(int count)
{
    const tailor_table *table = tailor_choice_table(TAILOR_FIELD_HOLES);
    for (int number = 1; number < tailor_table_size(table); number++)
        if (tailor_in_trait(TAILOR_FIELD_HOLES, number, TAILOR_IN_TRAIT_HOW_MANY) == count)
            return number;
    return NAN;
}

static void say_holes(tailor_fault *fault, int count)
{
    if (isnan(holes_choice(count)))
        tailor_in_fault_say_number(fault, count, "");
    else
        tailor_in_fault_say_choice(fault, TAILOR_FIELD_HOLES, holes_choice(count));
}

static tailor_status check_holes(const double *f, tailor_fault *fault)
{
    int has = tailor_in_hole_rows(f);
    double told = f[TAILOR_FIELD_HOLES], right = holes_choice(has);
    if (!isnan(told) && tailor_in_trait(TAILOR_FIELD_HOLES, told, TAILOR_IN_TRAIT_HOW_MANY) != has) {
        contradiction(fault, TAILOR_FIELD_HOLES, told, right, right, "%n ");
        tailor_in_fault_say_choice(fault, TAILOR_FIELD_HOLES, told);
        tailor_in_fault_say(fault, " does not go with buttoning ");
        tailor_in_fault_say_choice(fault, TAILOR_FIELD_BUTTONING, f[TAILOR_FIELD_BUTTONING]);
        tailor_in_fault_say(fault, ", which has ");
        say_holes(fault, has);
        tailor_in_fault_say(fault, ": give that number, or another buttoning");
        return TAILOR_CONTRADICTION;
    }
    for (int i = has; i < TAILOR_IN_MOST_HOLES; i++)
        if (!isnan(f[tailor_in_hole_faces[i]])) {
            contradiction(fault, tailor_in_hole_faces[i], f[tailor_in_hole_faces[i]], NAN, NAN,
                          "%n is given, but buttoning ");
            tailor_in_fault_say_choice(fault, TAILOR_FIELD_BUTTONING, f[TAILOR_FIELD_BUTTONING]);
            tailor_in_fault_say(fault, " has no such hole, only ");
            say_holes(fault, has);
            tailor_in_fault_say(fault, ", counted from the top: leave it out");
            return TAILOR_CONTRADICTION;
        }
    return TAILOR_OK;
}

static tailor_status check_double_breasted(const double *f, tailor_fault *fault)
{
    if (tailor_in_buttoning(f, TAILOR_IN_TRAIT_BREASTS) < 2)
        return TAILOR_OK;
    if (f[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_ROUND)
        return contradiction(fault, TAILOR_FIELD_FRONT_CUT, f[TAILOR_FIELD_FRONT_CUT], TAILOR_FRONT_CUT_SQUARE,
                             TAILOR_FRONT_CUT_SQUARE,
                             "%n round does not go with a double-breasted buttoning: leave it out or give square");
    double most = f[TAILOR_FIELD_WRAP] - 1.5 * f[TAILOR_FIELD_BUTTON_DIAMETER];
    if (f[TAILOR_FIELD_BUTTON_STAND] > most)
        return contradiction(fault, TAILOR_FIELD_BUTTON_STAND, f[TAILOR_FIELD_BUTTON_STAND], NAN, most,
                             "%n %v%u puts the two rows of buttons on one another: with this wrap and button_diameter "
                             "at most %h%u is allowed");
    return TAILOR_OK;
}

/** A belly where the figure has none: more than its drop from chest to waist leaves room for. A drop of 200 has no
 *  belly at all; each mm less leaves 0.3 of allowance (own judgement). */
static tailor_status check_belly(const double *f, tailor_fault *fault)
{
    double waist = f[TAILOR_FIELD_BELLY_GIRTH] > f[TAILOR_FIELD_WAIST_GIRTH] ? f[TAILOR_FIELD_BELLY_GIRTH]
                                                                             : f[TAILOR_FIELD_WAIST_GIRTH];
    double drop = f[TAILOR_FIELD_CHEST_GIRTH] - waist, most = 0.3 * (200 - drop), belly = f[TAILOR_FIELD_BELLY];
    if (belly > 0 && belly > most)
        return contradiction(fault, TAILOR_FIELD_BELLY, belly, 0, most > 0 ? most : 0,
                             "%n %v%u, but chest_girth and waist_girth tell of a figure without such a belly: at most "
                             "%h%u is allowed; give belly_girth, or measure the waist again");
    return TAILOR_OK;
}

/** A sheet whose contraction and that across multiply to 1 or more would give way without force. */
static tailor_status check_contraction(const double *f, int contraction, int warp, int weft, tailor_fault *fault)
{
    double most = sqrt(f[warp] / f[weft]);
    if (f[contraction] < most)
        return TAILOR_OK;
    return contradiction(fault, contraction, f[contraction], 0, most,
                         "%n %v is too much for the stretch of warp and weft: below %h is allowed");
}

tailor_status tailor_in_style_check(const double *fields, tailor_fault *fault)
{
    tailor_status status = check_holes(fields, fault);
    if (status == TAILOR_OK)
        status = check_double_breasted(fields, fault);
    if (status == TAILOR_OK)
        status = check_belly(fields, fault);
    if (status == TAILOR_OK)
        status = check_contraction(fields, TAILOR_FIELD_CLOTH_CONTRACTION, TAILOR_FIELD_CLOTH_STRETCH_WARP,
                                   TAILOR_FIELD_CLOTH_STRETCH_WEFT, fault);
    if (status == TAILOR_OK)
        status = check_contraction(fields, TAILOR_FIELD_CANVAS_CONTRACTION, TAILOR_FIELD_CANVAS_STRETCH_WARP,
                                   TAILOR_FIELD_CANVAS_STRETCH_WEFT, fault);
    return status;
}

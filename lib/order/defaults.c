#include "defaults.h"

#include "traits.h"

static int buttoning_trait(double buttoning, int trait)
{
    return tailor_in_trait(TAILOR_FIELD_BUTTONING, buttoning, trait);
}

static int double_breasted(double buttoning) { return buttoning_trait(buttoning, TAILOR_IN_TRAIT_BREASTS) == 2; }

/* 110 for cloth of 280 to 340 g/m2 (common practice); 10 less up to 240, 10 more from 450 on, and in proportion
 * between (own judgement: heavy cloth takes up more of the room it is given). */
double tailor_in_chest_ease_by_weight(const double *given)
{
    static const double weights[] = {240.0, 280.0, 340.0, 450.0};
    static const double eases[] = {100.0, 110.0, 110.0, 120.0};
    double weight = given[0];
    if (weight <= weights[0])
        return eases[0];
    for (int i = 1; i < 4; i++)
        if (weight <= weights[i])
            return eases[i - 1] + (eases[i] - eases[i - 1]) * (weight - weights[i - 1]) / (weights[i] - weights[i - 1]);
    return eases[3];
}

/* 0.43 of the height (common practice), but never less than 40 below the fullest seat, which a coat covers, and 250
 * below the natural waist, which the buttons and the round below them need, also on a man whose back is long for his
 * height (own judgement). */
double tailor_in_coat_length_of_body(const double *given)
{
    double by_height = 0.43 * given[0], over_seat = given[1] + 40.0, below_waist = given[2] + 250.0;
    double longer = over_seat > below_waist ? over_seat : below_waist;
    return by_height > longer ? by_height : longer;
}

/* The fastening button stands 6 above the natural waist; 12 lower on a one-button (common practice). */
double tailor_in_waist_button_rise_by_buttoning(const double *given)
{
    int others =
        buttoning_trait(given[0], TAILOR_IN_TRAIT_ROWS_ABOVE) + buttoning_trait(given[0], TAILOR_IN_TRAIT_ROWS_BELOW);
    return others == 0 ? -6.0 : 6.0;
}

/* The edge lies 9 beyond the rim of the button, and never less than 19 beyond the centre front (common practice). */
double tailor_in_button_stand_by_button(const double *given)
{
    double beyond_rim = given[0] / 2.0 + 9.0;
    return beyond_rim > 19.0 ? beyond_rim : 19.0;
}

/* 90 (common practice), but more where half the coat would have to lose more than 100 between scye line and waist: the
 * seams do not bear it (own judgement). Never more than the table allows. */
double tailor_in_waist_ease_by_drop(const double *given)
{
    double chest = given[0], waist = given[1], chest_ease = given[2], needed = chest + chest_ease - waist - 2 * 100.0;
    return needed < 90.0 ? 90.0 : needed > 160.0 ? 160.0 : needed;
}

/* 88, and 100 on a double-breasted coat (common practice), but no more than 0.098 of the chest, or 0.104: a boy's or a
 * slight man's front has no room for it (own judgement). */
double tailor_in_lapel_width_by_chest(const double *given)
{
    int wide = double_breasted(given[1]);
    double most = (wide ? 0.104 : 0.098) * given[0], usual = wide ? 100.0 : 88.0;
    return most < usual ? most : usual;
}

/* Peaked on a double-breasted coat, else with a step (common practice). */
double tailor_in_lapel_by_buttoning(const double *given)
{
    return double_breasted(given[0]) ? TAILOR_LAPEL_PEAK : TAILOR_LAPEL_STEP;
}

/* Square on a double-breasted coat, else round (common practice). */
double tailor_in_front_cut_by_buttoning(const double *given)
{
    return double_breasted(given[0]) ? TAILOR_FRONT_CUT_SQUARE : TAILOR_FRONT_CUT_ROUND;
}

/* What the back and a scye of an eighth of the chest less 5 leave (common practice), for the usual back of 102 + 0.278
 * of the chest; half of what a back is wider or narrower come out of the scye, but never so much that it falls under a
 * tenth of the chest (own judgement). */
double tailor_in_cross_chest_by_back(const double *given)
{
    double chest = given[0], back = given[1];
    double shared = -41.0 + 0.611 * chest - 0.5 * back, most = 0.8 * chest - back - 2.0;
    return shared < most ? shared : most;
}

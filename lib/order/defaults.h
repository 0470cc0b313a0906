/* Defaults that are no linear form: the functions that fields.csv names with `call`. Each is given the values of
 * the fields that its rule names, in that order. */
#ifndef TAILOR_IN_DEFAULTS_H
#define TAILOR_IN_DEFAULTS_H

double tailor_in_chest_ease_by_weight(const double *given);       /* cloth_weight */
double tailor_in_coat_length_of_body(const double *given);      /* stature, seat_level, back_waist_length */
double tailor_in_waist_button_rise_by_buttoning(const double *given); /* buttoning */
double tailor_in_button_stand_by_button(const double *given);     /* button_diameter */
double tailor_in_cross_chest_by_back(const double *given); /* chest_girth, back_width */
double tailor_in_waist_ease_by_drop(const double *given); /* chest_girth, waist_girth, chest_ease */
double tailor_in_lapel_width_by_chest(const double *given); /* chest_girth, buttoning */
double tailor_in_lapel_by_buttoning(const double *given);     /* buttoning */
double tailor_in_front_cut_by_buttoning(const double *given); /* buttoning */

#endif

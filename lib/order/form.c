#include "form.h"

double tailor_in_form_value(const tailor_in_form *form, const double *fields)
{
    double sum = form->constant;
    for (int i = 0; i < form->count; i++)
        sum += form->terms[i].factor * fields[form->terms[i].field];
    return sum;
}

double tailor_in_rule_value(const tailor_in_rule *rule, const double *fields)
{
    double given[TAILOR_IN_MOST_TERMS] = {0};
    if (!rule->call)
        return tailor_in_form_value(&rule->form, fields);
    for (int i = 0; i < rule->form.count; i++)
        given[i] = fields[rule->form.terms[i].field];
    return rule->call(given);
}

/* Linear forms over fields: what most defaults and most limits between fields are. */
#ifndef TAILOR_IN_FORM_H
#define TAILOR_IN_FORM_H

#define TAILOR_IN_MOST_TERMS 4

/* constant + sum of factor * field, added up from left to right. */
typedef struct tailor_in_form {
    double constant;
    int count;
    struct { double factor; int field; } terms[TAILOR_IN_MOST_TERMS];
} tailor_in_form;

/* How one field is found when nobody gives it: by its form, or, where `call` is set, by that function, which is
 * given the values of the form's fields in their order (and can therefore read no others). */
typedef struct tailor_in_rule {
    int field;
    tailor_in_form form;
    double (*call)(const double *given);
} tailor_in_rule;

/* Written by generate_tables.py, in an order in which each rule finds its fields resolved. */
extern const tailor_in_rule tailor_in_rules[];
extern const int tailor_in_rule_count;
extern const double tailor_in_constant_defaults[];

/* NaN when one of the fields is. */
double tailor_in_form_value(const tailor_in_form *form, const double *fields);
double tailor_in_rule_value(const tailor_in_rule *rule, const double *fields);

#endif

/* Rules of a grade from two lists of names, as tests have them. */
#ifndef TESTS_SUPPORT_RULES_H
#define TESTS_SUPPORT_RULES_H

#include <stdlib.h>
#include <tailorgeom/grade.h>

/** Good until the next call. */
static inline const tailor_rule *rules_of(const char *const *piece, const char *const *point, size_t count)
{
    static tailor_rule rules[2048];
    if (count > sizeof rules / sizeof *rules)
        abort();
    for (size_t i = 0; i < count; i++)
        rules[i] = (tailor_rule){piece[i], point[i]};
    return rules;
}

#endif

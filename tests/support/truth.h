/* Truths as text: cases that an expert can read and extend, each with its source. A file of them is
 *
 *     # a remark
 *     case NAME
 *     given KEY = TEXT          any number of these; a key may come again
 *     expect KEY = TEXT         any number of these, at least one
 *     within NUMBER             what the expect before it allows
 *     because TEXT              the source, or how the value follows: without it the case is refused
 *
 * with an empty line between cases. What keys and texts mean is for the test to say. It includes truth.c. */
#ifndef TESTS_SUPPORT_TRUTH_H
#define TESTS_SUPPORT_TRUTH_H

#include <stddef.h>

enum { TRUTH_LINE = 1024, TRUTH_PAIRS = 64 };

typedef struct truth_pair {
    char key[64];
    char text[TRUTH_LINE];
    double within; /* of an expect; NaN when none is given */
} truth_pair;

typedef struct truth_case {
    const char *file;
    int line; /* where it begins */
    char name[TRUTH_LINE];
    char because[TRUTH_LINE];
    truth_pair given[TRUTH_PAIRS], expect[TRUTH_PAIRS];
    size_t given_count, expect_count;
} truth_case;

/* Run every case of a file of tests/truth. The tree is found through TAILOR_SOURCE, or upward from where the test
 * runs. Fails the cmocka test, with file and line, on anything that is not as above. Returns the number of cases. */
size_t truth_run(const char *file, void (*run)(const truth_case *one));

/* The text of the first `given` of a key, or NULL. */
const char *truth_given(const truth_case *one, const char *key);

/* The numbers in a text, parted by spaces; fails the test if there are other than `count` of them, or other things. */
void truth_numbers(const truth_case *one, const char *text, double *numbers, size_t count);

/* Fail the test, naming file, line and case. */
void truth_broken(const truth_case *one, const char *why);

#endif

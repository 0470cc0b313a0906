/* by: the rows of a comparison: one order, some of its values exchanged. */
#ifndef CLI_BY_H
#define CLI_BY_H

#include "card.h"
#include "commands.h"

enum { BY_VALUES_MOST = 64, BY_ROWS_MOST = 1000, BY_TEXT = 32 };

/** One --by: a field, a house constant, or with a NULL table a CLOTH_PLACE, and its values. */
typedef struct by_axis {
    const tailor_table *table;
    int number;
    size_t count;
    double values[BY_VALUES_MOST];
    char labels[BY_VALUES_MOST][BY_TEXT]; /* as typed, or the names of the choices */
} by_axis;

typedef struct by_plan {
    by_axis axes[BY_MOST];
    size_t axis_count;
    size_t row_count; /* product of the counts */
} by_plan;

/** Read the --by of the command line; without any, the choices of buttoning. An exit status. */
int by_read(by_plan *plan, const settings *s);

/** Which of an axis's values a row takes: the last axis changes fastest. */
size_t by_choice(const by_plan *plan, size_t row, size_t axis);
/** Exchange a row's values in a card; the client's own choice of these fields is put aside. */
void by_apply(const by_plan *plan, size_t row, card *c);
/** "two-button" or, of several axes, "two-button, 88". */
void by_label(const by_plan *plan, size_t row, char *text, size_t capacity);
/** True when the value at fault is one of those exchanged. */
bool by_has(const by_plan *plan, const tailor_fault *fault);
/** Name of the field or constant of an axis. */
const char *by_name(const by_axis *axis);

#endif

/* diff: two cards, and what differs between their coats. */
#ifndef CLI_DIFF_H
#define CLI_DIFF_H

#include "commands.h"
#include "drafted.h"

typedef struct diff_run {
    const settings *s;
    card before, after;
    drafted of_before, of_after;
} diff_run;

/** The values of one table on both cards. */
typedef struct diff_table {
    const char *name;
    const tailor_table *table;
    const double *before, *after;
    int count;
    bool as_printed; /* a difference counts when it shows as printed in mm: of what is measured off, not typed */
} diff_table;
enum { DIFF_TABLES = 3 };
void diff_tables(const diff_run *r, diff_table tables[DIFF_TABLES]);
/** True when a row of a table differs. */
bool diff_differs(const diff_table *t, int number);

/** Each prints on standard output; an exit status. */
int diff_print(const diff_run *r);
int diff_print_json(const diff_run *r);

#endif

/* graded: sizes of a table, asked for by name or by measures, each an order that is drafted. */
#ifndef CLI_GRADED_H
#define CLI_GRADED_H

#include "drafted.h"
#include "sizes.h"

enum { GRADED_MOST = 32 };

/** Where a measure of a size comes from. */
enum { FROM_NOWHERE, FROM_TABLE, FROM_BETWEEN, FROM_BEYOND, FROM_GIVEN };

typedef struct graded {
    char label[SIZE_TEXT]; /* "40", "chest_girth=1013" */
    double fields[TAILOR_FIELD_COUNT];
    int from[TAILOR_FIELD_COUNT]; /* a FROM_ */
    double beyond;                /* steps beyond the table, 0 within it */
    drafted drafted;
    tailor_pattern *by_rules; /* instead of it: the pattern that rules have graded */
    bool good;                /* drafted, and all checks pass */
} graded;

typedef struct graded_list {
    graded *list;
    size_t count, good;
} graded_list;

/** The sizes that --sizes asks for, or for NULL all of the fit. What the card says of the style stands over the table.
 *  False when the list is refused; said. */
bool graded_ask(graded_list *all, const sizes *t, int fit, const char *wanted, const card *c);
/** Draft them all; one that no coat closes on is said, and the rest go on. */
void graded_draft(graded_list *all, const card *c);
/** Draft one row of fields with the house of the card. True when every step went well. */
bool graded_order(const double *fields, const card *c, drafted *d);
/** Its pieces. */
const tailor_pattern *graded_pattern(const graded *g);
void graded_free(graded_list *all);

#endif

/* rows_plan: what a table of orders is taken for: which of its columns are fields, what is measured, what the house
 * gives. */
#ifndef CLI_ROWS_PLAN_H
#define CLI_ROWS_PLAN_H

#include "card.h"
#include "commands.h"
#include "csv_in.h"

#include <tailorgeom/rows.h>

enum { CLOTH_COLUMN = -1 };
enum { ROLES_MOST = 4 };

typedef struct rows_plan {
    size_t column_count;                /* of the table */
    int *field_of;                      /* by column: its field, 0 for one that is carried through, CLOTH_COLUMN - place
                                           for one of names of cloths */
    int32_t fields[TAILOR_FIELD_COUNT]; /* the fields among them, in their order; then those that only names fill */
    size_t field_count;
    bool has_names[CLOTH_PLACES];       /* which places have a column of names, and in which of `fields` each */
    size_t slots[CLOTH_PLACES][TAILOR_CLOTH_COUNT]; /* property stands */
    int32_t wanted[TAILOR_QUANTITY_COUNT];
    size_t wanted_count;
    card house;
    tailor_house *made; /* of it; like the next NULL until rows_make_plan */
    tailor_rows *rows;
    const char *const *roles;           /* columns that mean something beside fields: ROLES_MOST names or NULL; set
                                           between begin and header, like the next two; NULL for none */
    const char *extra;                  /* a column that the output has before the quantities; then it carries fields
                                           through as well */
    bool fieldless;                     /* the table may do without fields */
    int role_column[ROLES_MOST];        /* each one's column, -1 for none */
    buffer head; /* the header of the output, with its line end */
} rows_plan;

/** What --want asks for, and the house's file. An exit status; said. */
int rows_plan_begin(rows_plan *plan, const settings *s);
/** Take the header of the table. False when it is refused; said. */
bool rows_plan_header(rows_plan *plan, const char *source, const csv_line *header);
void rows_plan_free(rows_plan *plan);

/** SHA-256 of the house's values and the user's own cloths, by their bits. False when memory ran out. */
bool rows_plan_hash_house(const rows_plan *plan, char text[CSV_HASH_TEXT]);

/** The names of what is wanted, with commas between. */
void rows_plan_wanted(const rows_plan *plan, buffer *names);

#endif

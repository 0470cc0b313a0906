/* sections: which keys stand under which heading of a card.
 *
 *     [client]    name, order, date, note: free text, used for the heading of a sheet and nowhere else
 *     [measures]  [figure]  [style]  [cloth]: fields of the order, by the group of their row in the table of fields
 *     [house]     the cutter's own constants, and fields that he gives where the client's card does not
 *     [assumed]   what a resolved card had filled in by rule: fields and constants that nobody gave
 *     [card]      edition: which edition of the rules filled it in
 *     [fitting 1] [fitting 2] ...: what was altered after each fitting; fittings.h reads them
 */
#ifndef CLI_SECTIONS_H
#define CLI_SECTIONS_H

#include <stdbool.h>
#include <stddef.h>

enum { SECTION_COUNT = 8 };
extern const char *const section_names[SECTION_COUNT];

/** Free texts of [client]. */
enum { TEXT_NAME, TEXT_ORDER, TEXT_DATE, TEXT_NOTE, TEXT_COUNT };
extern const char *const text_names[TEXT_COUNT];

/** The section a field is printed under. */
const char *section_of_field(int field);
/** True when a field may stand in a section: its own, or another that its group is welcome in. */
bool section_takes_field(const char *section, int field);

#endif

#include "sections.h"

#include <string.h>
#include <tailorgeom/order.h>

const char *const section_names[SECTION_COUNT] = {"client", "measures", "figure",  "style",
                                                  "cloth",  "house",    "assumed", "card"};
const char *const text_names[TEXT_COUNT] = {"name", "order", "date", "note"};

/* The first row of a group is where its fields are printed. Ease is a matter of style, but crook and balance speak of
 * the figure: they may stand there too. */
static const struct {
    const char *group, *section;
} homes[] = {
    {"measures", "measures"}, {"figure", "figure"}, {"ease", "style"}, {"ease", "figure"},
    {"style", "style"},       {"cloth", "cloth"},
};
enum { HOME_COUNT = sizeof homes / sizeof homes[0] };

static const char *group_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_GROUP);
}

const char *section_of_field(int field)
{
    for (size_t i = 0; i < HOME_COUNT; i++)
        if (strcmp(homes[i].group, group_of(field)) == 0)
            return homes[i].section;
    return "style"; /* a group that a newer library brings */
}

bool section_takes_field(const char *section, int field)
{
    for (size_t i = 0; i < HOME_COUNT; i++)
        if (strcmp(homes[i].group, group_of(field)) == 0 && strcmp(homes[i].section, section) == 0)
            return true;
    return strcmp(section_of_field(field), section) == 0;
}

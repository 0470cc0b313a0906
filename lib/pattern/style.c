/* What a pattern was drafted as: edition and style, and whether it is for a toile only. */
#include "builder.h"

#include <math.h>

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/validate.h"

static int is_choice(int field)
{
    const tailor_in_row *row = tailor_in_table_row(tailor_field_table(), field);
    return row && row->choices;
}

void tailor_in_pattern_remember(tailor_pattern *p, int edition, const double *fields)
{
    p->edition = edition;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) /* NaN is no choice that was made */
        p->style[i] = is_choice(i) && fields[i] >= 1 ? (unsigned char)fields[i] : 0;
}

void tailor_in_pattern_agree(tailor_pattern *p, const tailor_pattern *other)
{
    if (p->edition != other->edition)
        p->edition = 0;
    p->toile_only |= other->toile_only;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (p->style[i] != other->style[i])
            p->style[i] = 0;
}

int tailor_pattern_edition(const tailor_pattern *p) { return p ? p->edition : 0; }

int tailor_pattern_style(const tailor_pattern *p, int field)
{
    return p && field > 0 && field < TAILOR_FIELD_COUNT ? p->style[field] : 0;
}

int tailor_pattern_toile_only(const tailor_pattern *p) { return p ? p->toile_only : 0; }

tailor_status tailor_builder_set_toile_only(tailor_builder *b, int toile_only, tailor_fault *fault)
{
    if (!b)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder is NULL");
    if (toile_only != 0 && toile_only != 1)
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, toile_only, 0, 1,
                               "a pattern is for a toile only, %h, or not, %l: there is no %v");
    b->work->toile_only = toile_only;
    return TAILOR_OK;
}

tailor_status tailor_builder_set_style(tailor_builder *b, int edition, const double *fields, size_t field_count,
                                       tailor_fault *fault)
{
    if (!b)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "builder is NULL");
    if (edition < 0)
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, edition, 0, (double)NAN,
                               "an edition is a number from %l, not %v");
    double row[TAILOR_FIELD_COUNT];
    tailor_status status = tailor_in_row_take(tailor_field_table(), fields, field_count, row, fault);
    for (int i = 1; i < TAILOR_FIELD_COUNT && status == TAILOR_OK; i++)
        if (is_choice(i))
            status = tailor_in_value_check(tailor_field_table(), i, row[i], fault);
    if (status == TAILOR_OK)
        tailor_in_pattern_remember(b->work, edition, row);
    return status;
}

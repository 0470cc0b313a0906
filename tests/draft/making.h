/* Coats with all that the make needs, for tests: drawn, looked over piece by piece, and their seams measured. */
#ifndef TESTS_COAT_MAKING_H
#define TESTS_COAT_MAKING_H

#include "draft/population.h"
#include "support/agree.h"
#include "support/seams.h"

/** Make the coat of m->client with all its pieces; m->status tells. */
static inline tailor_status make_whole_client(struct made *m, const double *house)
{
    return make_extent(m, house, TAILOR_EXTENT_MAKE);
}

static inline void must_make_whole(struct made *m, const struct given *order)
{
    tailor_fields_clear(m->client, TAILOR_FIELD_COUNT);
    for (; order->field; order++)
        m->client[order->field] = order->value;
    if (make_whole_client(m, NULL) != TAILOR_OK)
        fail_msg("%s: %s", tailor_status_name(m->status), m->fault.sentence);
}

/** How an order is drawn: body plausible or from the tables; how many of the other fields are given; the middle part of
 *  their ranges, or their ends when `part` is 0. */
struct drawing {
    int plausible;
    double share, part;
};

static inline void draw_client(struct dice *d, double *client, struct drawing how)
{
    const tailor_table *table = tailor_field_table();
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = between(d, 800, 1300);
    if (how.plausible)
        draw_body(d, client);
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        if (field == TAILOR_FIELD_CHEST_GIRTH || ((how.plausible || how.part == 0) && is_measure(field)) ||
            even(d) >= how.share)
            continue;
        if (how.part > 0)
            client[field] = any_value(d, field, how.part);
        else
            client[field] = even(d) < 0.5 ? tailor_table_low(table, field) : tailor_table_high(table, field);
    }
    agree_with_itself(client);
}

/** House constants of the make drawn from the whole of their ranges, the others as the library has them. */
static inline void draw_house(struct dice *d, double *house)
{
    const tailor_table *table = tailor_constant_table();
    for (int i = 0; i < TAILOR_CONSTANT_COUNT; i++) {
        const char *group = i ? tailor_table_text(table, i, TAILOR_COLUMN_GROUP) : "";
        house[i] = NAN;
        if (strcmp(group, "making") == 0 || strcmp(group, "lining") == 0 || strcmp(group, "facing") == 0 ||
            strcmp(group, "pockets") == 0)
            house[i] = between(d, tailor_table_low(table, i), tailor_table_high(table, i));
    }
}

/** Is the path closed, counter-clockwise and free of crossings? What is wrong, or NULL. */
static inline const char *bad_outline(const tailor_cubic *path, size_t count)
{
    int crosses = 1;
    for (size_t i = 0; i < count; i++)
        for (int j = 0; j < 4; j++)
            if (!isfinite(path[i].p[j].x) || !isfinite(path[i].p[j].y))
                return "is not finite";
    if (!count || tailor_path_gap(path, count, 1) > 1e-9)
        return "is not closed";
    if (!(tailor_path_area(path, count) > 0))
        return "is not counter-clockwise";
    if (tailor_path_crosses_itself(path, count, 1e-3, &crosses, NULL) != TAILOR_OK || crosses)
        return "crosses itself";
    return NULL;
}

/** How far a seam of the pattern is from the ease it states, mm; beyond the end of an edge counts as well. */
static inline double seam_error(const tailor_pattern *coat, int seam)
{
    double worst = 0;
    const double first = side_length(coat, seam, 0, &worst), second = side_length(coat, seam, 1, &worst);
    return fmax(worst, fabs(first - second - tailor_seam_ease(coat, seam)));
}

/** Print an order, and the house constants, so that it can be tried by hand. */
static inline void print_client(const struct made *m, const double *house)
{
    for (int i = 1; house && i < TAILOR_CONSTANT_COUNT; i++)
        if (!isnan(house[i]))
            print_error("#     %s = %.4f\n", tailor_table_text(tailor_constant_table(), i, TAILOR_COLUMN_NAME),
                        house[i]);
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
        if (!isnan(m->client[field]))
            print_error("#     %s = %.4f\n", tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME),
                        m->client[field]);
}

#endif

/* The one body that measures a coat: a view of it, its quantities, its checks. */
#include "body.h"
#include "view.h"

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/validate.h"

int tailor_check_sense(int check)
{
    const tailor_in_row *row = tailor_in_table_row(tailor_check_table(), check);
    return row ? row->sense : 0;
}

int tailor_check_passes(int check, double value, double limit)
{
    int sense = tailor_check_sense(check);
    if (isnan(value) || !sense)
        return -1;
    return sense > 0 ? value <= limit : value >= limit;
}

/** The first check that does not hold, 0 if all do. */
static int failing(const double *value, const double *limit)
{
    const tailor_table *table = tailor_check_table();
    for (int place = 0, check; (check = tailor_table_at(table, place)); place++)
        if (!tailor_check_passes(check, value[check], limit[check]))
            return check;
    return 0;
}

/** Checks that not every coat has: against measures that may not be given, of a belly, of a round cut. */
static int may_be_absent(int check)
{
    return check == TAILOR_CHECK_FRONT_SHOULDER_ERROR || check == TAILOR_CHECK_OVER_SHOULDER_ERROR ||
           check == TAILOR_CHECK_FRONT_WAIST_LENGTH_ERROR || check == TAILOR_CHECK_BELLY_LENGTH_LEAST ||
           check == TAILOR_CHECK_FRONTS_PART_LEAST;
}

tailor_status tailor_in_coat_measure(const tailor_pattern *pattern, const double *f, const double *k, double *q,
                                     double *value, double *limit, tailor_fault *fault)
{
    struct tailor_in_view view;
    if (!tailor_in_view_coat(&view, pattern, f, k))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "the pattern is not a drafted coat: a piece, an edge or a mark is missing");
    const tailor_table *table = tailor_check_table();
    for (int i = 0; i < TAILOR_CHECK_COUNT; i++) {
        const tailor_in_row *row = tailor_in_table_row(table, i);
        value[i] = NAN;
        limit[i] = !row ? (double)NAN : row->sense > 0 ? row->high : row->low;
    }
    tailor_in_measure_quantities(&view, q);
    tailor_in_measure_checks(&view, q, value, limit);
    for (int i = 1; i < TAILOR_CHECK_COUNT; i++) /* what cannot be measured does not hold */
        if (isnan(value[i]) && !may_be_absent(i))
            value[i] = tailor_check_sense(i) > 0 ? (double)INFINITY : -(double)INFINITY;

    int check = failing(value, limit);
    if (!check)
        return TAILOR_OK;
    int most = tailor_check_sense(check) > 0;
    tailor_in_fault(fault, TAILOR_CHECK_FAILED, table, check, value[check], most ? NAN : limit[check],
                    most ? limit[check] : NAN,
                    most ? "check %n: %v%u, at most %h%u is allowed" : "check %n: %v%u, at least %l%u is needed");
    if (fault) {
        int field = tailor_in_table_row(table, check)->field;
        tailor_in_fault_say(fault, ": look at ");
        tailor_in_fault_say(fault, tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME));
        if (!isnan(f[field])) {
            tailor_in_fault_say(fault, " ");
            tailor_in_fault_say_number(fault, f[field],
                                       tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_UNIT));
        }
    }
    return TAILOR_CHECK_FAILED;
}

static void copy_row(double *to, size_t to_count, const double *from, size_t from_count)
{
    for (size_t i = 0; i < to_count; i++)
        to[i] = i < from_count ? from[i] : NAN;
}

tailor_status tailor_coat_measure(const tailor_pattern *pattern, const double *fields, size_t field_count,
                                  const double *constants, size_t constant_count, double *quantities,
                                  size_t quantity_count, double *check_values, double *check_limits, size_t check_count,
                                  tailor_fault *fault)
{
    if (!pattern || (quantity_count && !quantities) || (check_count && (!check_values || !check_limits)))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "pattern, quantities or checks are NULL");
    double f[TAILOR_FIELD_COUNT], k[TAILOR_CONSTANT_COUNT], q[TAILOR_QUANTITY_COUNT];
    double value[TAILOR_CHECK_COUNT], limit[TAILOR_CHECK_COUNT];
    tailor_status status = tailor_in_order_accept(fields, field_count, constants, constant_count, f, k, fault);
    if (status != TAILOR_OK)
        return status;
    status = tailor_in_coat_measure(pattern, f, k, q, value, limit, fault);
    if (status != TAILOR_OK && status != TAILOR_CHECK_FAILED)
        return status;
    copy_row(quantities, quantity_count, q, TAILOR_QUANTITY_COUNT);
    copy_row(check_values, check_count, value, TAILOR_CHECK_COUNT);
    copy_row(check_limits, check_count, limit, TAILOR_CHECK_COUNT);
    return status;
}

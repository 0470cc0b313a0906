/* The one body that measures a coat: a view of it, its quantities, its checks. */
#include "body.h"
#include "view.h"
#include "when.h"

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/quantity.h"

/** The first check that does not hold, 0 if all do. */
static int failing(const double *value, const double *limit)
{
    const tailor_table *table = tailor_check_table();
    for (int place = 0, check; (check = tailor_table_at(table, place)); place++)
        if (!tailor_check_passes(check, value[check], limit[check]))
            return check;
    return 0;
}

/** What one side gives, and the lengths of the centre back, of back and under collar, which both sides share. */
struct side {
    double *q, *value, *limit;
    double back, collar;
};

/** One side: its quantities, its checks. The view, 41 KB of stack, is gone with it. */
static tailor_status measure_side(const tailor_pattern *pattern, const double *f, const double *k, int side,
                                  struct tailor_in_section *section, struct side *to, tailor_fault *fault)
{
    double *q = to->q, *value = to->value, *limit = to->limit;
    struct tailor_in_view view;
    tailor_in_figure figure;
    tailor_in_figure_of(f, k, side, &figure);
    tailor_status status = tailor_in_view_coat(&view, pattern, side, &figure, fault);
    if (status != TAILOR_OK)
        return status;
    const tailor_table *table = tailor_check_table();
    for (int i = 0; i < TAILOR_CHECK_COUNT; i++) {
        const tailor_in_row *row = tailor_in_table_row(table, i);
        value[i] = NAN;
        limit[i] = !row ? (double)NAN : row->sense > 0 ? row->high : row->low;
    }
    for (int i = 0; i < TAILOR_QUANTITY_COUNT; i++)
        q[i] = NAN;
    tailor_in_measure_quantities(&view, q, section);
    tailor_in_measure_checks(&view, q, value, limit);
    to->back = view.length[TAILOR_IN_NET_PIECE_BACK][TAILOR_IN_NET_EDGE_CENTRE_BACK];
    to->collar = view.length[TAILOR_IN_NET_PIECE_UNDER_COLLAR][TAILOR_IN_NET_EDGE_CENTRE_BACK];
    return TAILOR_OK;
}

/** The left front's quantities, with those of the right where the table of quantities wants them: beside them, as the
 *  sum or as the mean. */
static void join_sides(double *q, const double *right)
{
    for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++) {
        int side = tailor_in_quantities[i].side;
        if (side == TAILOR_IN_SIDE_TWIN) /* of a quantity of the left, which stays as it is */
            q[i] = right[tailor_in_quantities[i].twin];
        else if (side == TAILOR_IN_SIDE_SUM)
            q[i] = q[i] + right[i];
        else if (side == TAILOR_IN_SIDE_MEAN)
            q[i] = (q[i] + right[i]) / 2;
    }
}

/** Of two sides each check keeps the one that has less left to its limit. */
static void keep_worse(double *value, double *limit, const double *other, const double *other_limit)
{
    for (int i = 1; i < TAILOR_CHECK_COUNT; i++) {
        double spare = limit[i] - value[i], other_spare = other_limit[i] - other[i];
        if (tailor_check_sense(i) < 0) {
            spare = -spare;
            other_spare = -other_spare;
        }
        if (isnan(value[i]) || other_spare < spare || other[i] == -(double)INFINITY || other[i] == (double)INFINITY) {
            value[i] = other[i];
            limit[i] = other_limit[i];
        }
    }
}

/** What both sides share must be as long on each: the centre back, and that of the collar. */
static double sides_meet(const struct side *left, const struct side *right)
{
    return fmax(fabs(left->back - right->back), fabs(left->collar - right->collar));
}

tailor_status tailor_in_measure_coat(const tailor_pattern *pattern, const double *f, const double *k,
                                     struct tailor_in_section *section, double *q, double *value, double *limit,
                                     tailor_fault *fault)
{
    double right_q[TAILOR_QUANTITY_COUNT], right_value[TAILOR_CHECK_COUNT], right_limit[TAILOR_CHECK_COUNT];
    struct side left = {q, value, limit, 0, 0}, right = {right_q, right_value, right_limit, 0, 0};
    int sides = tailor_in_figure_differs(f);
    tailor_status status = measure_side(pattern, f, k, TAILOR_SIDE_LEFT, section, &left, fault);
    if (status == TAILOR_OK && sides)
        status = measure_side(pattern, f, k, TAILOR_SIDE_RIGHT, NULL, &right, fault);
    if (status != TAILOR_OK)
        return status;
    if (sides)
        value[TAILOR_CHECK_SIDES_MEET] = right_value[TAILOR_CHECK_SIDES_MEET] = sides_meet(&left, &right);
    tailor_in_checks_judge(&(tailor_in_case){pattern, TAILOR_SIDE_LEFT, sides, f, q}, value);
    if (sides) {
        tailor_in_checks_judge(&(tailor_in_case){pattern, TAILOR_SIDE_RIGHT, sides, f, right_q}, right_value);
        keep_worse(value, limit, right_value, right_limit);
    }
    join_sides(q, sides ? right_q : q);
    const tailor_table *table = tailor_check_table();

    int check = failing(value, limit);
    if (!check)
        return TAILOR_OK;
    int most = tailor_check_sense(check) > 0;
    tailor_in_fault(fault, TAILOR_CHECK_FAILED, table, check, value[check], most ? NAN : limit[check],
                    most ? limit[check] : NAN,
                    most ? "check %n: %v%u, at most %h%u is allowed" : "check %n: %v%u, at least %l%u is needed");
    int field = tailor_in_table_row(table, check)->field;
    if (fault && field) {
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

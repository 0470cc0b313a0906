/* The one body that measures a coat: a view of it, its quantities, its checks. */
#include "body.h"
#include "view.h"

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/validate.h"

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
           check == TAILOR_CHECK_FRONTS_PART_LEAST || check == TAILOR_CHECK_SHOW_BUTTON_MIRROR ||
           check >= TAILOR_CHECK_SIDES_MEET; /* two sides, and pieces of the make */
}

/** The lengths of the centre back, of back and under collar. */
struct shared {
    double back, collar;
};

/** One side: its quantities, its checks. The view, 41 KB of stack, is gone with it. */
static tailor_status measure_side(const tailor_pattern *pattern, const double *f, const double *k, int side,
                                  struct tailor_in_section *section, struct shared *shared, double *q, double *value,
                                  double *limit, tailor_fault *fault)
{
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
    tailor_in_measure_quantities(&view, q, section);
    tailor_in_measure_checks(&view, q, value, limit);
    for (int i = 1; i < TAILOR_CHECK_COUNT; i++) /* what cannot be measured does not hold */
        if (isnan(value[i]) && !may_be_absent(i))
            value[i] = tailor_check_sense(i) > 0 ? (double)INFINITY : -(double)INFINITY;
    shared->back = view.length[TAILOR_PIECE_BACK][TAILOR_EDGE_CENTRE_BACK];
    shared->collar = view.length[TAILOR_PIECE_UNDER_COLLAR][TAILOR_EDGE_CENTRE_BACK];
    return TAILOR_OK;
}

/* Quantities that have a twin of the right side. */
static const struct twin {
    int left, right;
} twins[] = {
#define TWIN(name)                                                                                                     \
    {                                                                                                                  \
        TAILOR_QUANTITY_##name, TAILOR_QUANTITY_##name##_RIGHT                                                         \
    }
    TWIN(HALF_GIRTH_WAIST), TWIN(HALF_GIRTH_SEAT),      TWIN(SCYE_DEPTH_DRAFTED),    TWIN(SCYE_LENGTH),
    TWIN(SCYE_WIDTH),       TWIN(BACK_SHOULDER_LENGTH), TWIN(FRONT_SHOULDER_LENGTH), TWIN(CROWN_LENGTH),
    TWIN(CROWN_HEIGHT),     TWIN(SLEEVE_HALF_WIDTH),    TWIN(SLEEVE_LENGTH),         TWIN(SLEEVE_HANG),
    TWIN(EXTRA_PAD),        TWIN(COVERAGE_SCYE),        TWIN(COVERAGE_TOP_BUTTON),   TWIN(FRONT_HEM_BELOW_BACK),
    TWIN(SUPPRESSION),      TWIN(SIDEBODY_AT_WAIST),    TWIN(LAPEL_TIP_TO_SCYE),     TWIN(OVER_SHOULDER_DRAFTED)};

/** The left front's quantities with those of the right beside them; what goes round the body is the sum of both. */
static void join_sides(double *q, const double *right)
{
    for (size_t i = 0; i < sizeof twins / sizeof *twins; i++)
        q[twins[i].right] = right[twins[i].left];
    static const int round[][2] = {{TAILOR_QUANTITY_FINISHED_CHEST, TAILOR_QUANTITY_HALF_GIRTH_SCYE},
                                   {TAILOR_QUANTITY_FINISHED_WAIST, TAILOR_QUANTITY_HALF_GIRTH_WAIST},
                                   {TAILOR_QUANTITY_FINISHED_SEAT, TAILOR_QUANTITY_HALF_GIRTH_SEAT}};
    for (size_t i = 0; i < sizeof round / sizeof *round; i++)
        q[round[i][0]] = q[round[i][1]] + right[round[i][1]];
    static const int across[] = {TAILOR_QUANTITY_CROSS_BACK_FINISHED, TAILOR_QUANTITY_CROSS_CHEST_FINISHED};
    for (size_t i = 0; i < sizeof across / sizeof *across; i++)
        q[across[i]] = (q[across[i]] + right[across[i]]) / 2;
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
static double sides_meet(const struct shared *left, const struct shared *right)
{
    return fmax(fabs(left->back - right->back), fabs(left->collar - right->collar));
}

tailor_status tailor_in_measure_coat(const tailor_pattern *pattern, const double *f, const double *k,
                                     struct tailor_in_section *section, double *q, double *value, double *limit,
                                     tailor_fault *fault)
{
    struct shared left, right;
    tailor_status status = measure_side(pattern, f, k, TAILOR_SIDE_LEFT, section, &left, q, value, limit, fault);
    if (status != TAILOR_OK)
        return status;
    if (tailor_in_figure_differs(f)) {
        double right_q[TAILOR_QUANTITY_COUNT], right_value[TAILOR_CHECK_COUNT], right_limit[TAILOR_CHECK_COUNT];
        status = measure_side(pattern, f, k, TAILOR_SIDE_RIGHT, NULL, &right, right_q, right_value, right_limit, fault);
        if (status != TAILOR_OK)
            return status;
        keep_worse(value, limit, right_value, right_limit);
        value[TAILOR_CHECK_SIDES_MEET] = sides_meet(&left, &right);
        join_sides(q, right_q);
    } else
        for (size_t i = 0; i < sizeof twins / sizeof *twins; i++)
            q[twins[i].right] = q[twins[i].left];
    const tailor_table *table = tailor_check_table();

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

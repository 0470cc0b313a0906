/* The size nearest to a client, and which measure made it so. */
#include <math.h>

#include "../base/fault.h"
#include "../order/validate.h"
#include "size_table.h"

/** How far a row is off in one measure, in the table's own steps, squared; 0 for what either does not say. */
static double off(const tailor_size_table *t, const double *client, size_t row, size_t column)
{
    double value = t->value[row * t->columns + column], wanted = client[t->field[column]];
    if (isnan(value) || isnan(wanted) || !(t->step[column] > 0))
        return 0;
    double steps = (wanted - value) / t->step[column];
    return steps * steps;
}

static double off_in_all(const tailor_size_table *t, const double *client, size_t row)
{
    double sum = 0;
    for (size_t column = 0; column < t->columns; column++)
        sum += off(t, client, row, column);
    return sum;
}

tailor_status tailor_size_table_nearest(const tailor_size_table *t, const double *given, size_t given_count,
                                        size_t *row, int32_t *decided_by, double *distance, double *differences,
                                        size_t difference_count, tailor_fault *fault)
{
    double client[TAILOR_FIELD_COUNT];
    if (!t || !row || (difference_count && !differences))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "table, row or differences are NULL");
    tailor_status status = tailor_in_row_take(tailor_field_table(), given, given_count, client, fault);
    for (int i = 1; i < TAILOR_FIELD_COUNT && status == TAILOR_OK; i++)
        status = tailor_in_value_check(tailor_field_table(), i, client[i], fault);
    if (status != TAILOR_OK)
        return status;
    if (isnan(client[t->field[0]]))
        return tailor_in_fault(fault, TAILOR_MISSING, tailor_field_table(), t->field[0], NAN, NAN, NAN,
                               "%n is what the sizes go by, and not given");
    size_t best = 0, second = t->rows;
    double least = off_in_all(t, client, 0), next = INFINITY;
    for (size_t i = 1; i < t->rows; i++) {
        double here = off_in_all(t, client, i);
        if (here < least) {
            second = best;
            next = least;
            best = i;
            least = here;
        } else if (here < next) {
            second = i;
            next = here;
        }
    }
    int32_t decided = t->field[0];
    double most = -INFINITY;
    for (size_t column = 0; column < t->columns && second < t->rows; column++) {
        double gained = off(t, client, second, column) - off(t, client, best, column);
        if (gained > most) {
            most = gained;
            decided = t->field[column];
        }
    }
    *row = best;
    if (decided_by)
        *decided_by = decided;
    if (distance)
        *distance = sqrt(least);
    tailor_fields_clear(differences, difference_count);
    for (size_t column = 0; column < t->columns; column++)
        if ((size_t)t->field[column] < difference_count)
            differences[t->field[column]] = client[t->field[column]] - t->value[best * t->columns + column];
    return TAILOR_OK;
}

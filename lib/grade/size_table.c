/* Size tables: taken over, looked at, read between their rows. */
#include "size_table.h"

#include <math.h>
#include <string.h>

#include "../base/fault.h"
#include "../base/table.h"
#include "../order/validate.h"
#include "../pattern/build.h"
#include "monotone.h"

static tailor_status at_row(tailor_fault *fault, tailor_status status, size_t row)
{
    tailor_in_fault_say(fault, " (row ");
    tailor_in_fault_say_number(fault, (double)(row + 1), "");
    tailor_in_fault_say(fault, " of the table)");
    return tailor_in_fault_at(fault, status, row);
}

static tailor_status bad_cell(const tailor_size_table *t, tailor_fault *fault, tailor_status status, size_t row,
                              size_t column, double low, double high, const char *sentence)
{
    tailor_in_fault(fault, status, tailor_field_table(), t->field[column], t->value[row * t->columns + column], low,
                    high, sentence);
    return at_row(fault, status, row);
}

static int is_choice(int field) { return tailor_in_table_row(tailor_field_table(), field)->choices != NULL; }

/** Every column a field, none twice. */
static tailor_status look_at_columns(const int32_t *columns, size_t count, tailor_fault *fault)
{
    int seen[TAILOR_FIELD_COUNT] = {0};
    for (size_t i = 0; i < count; i++) {
        const tailor_table *fields = tailor_field_table();
        if (!tailor_in_table_row(fields, columns[i]))
            return tailor_in_fault(fault, TAILOR_UNKNOWN_FIELD, fields, columns[i], columns[i], NAN, NAN,
                                   "a column is for field number %v, which this library does not know");
        if (seen[columns[i]]++)
            return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, fields, columns[i], NAN, NAN, NAN, "%n has two columns");
    }
    if (is_choice(columns[0]))
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, tailor_field_table(), columns[0], NAN, NAN, NAN,
                               "%n is a choice: sizes cannot go by it");
    return TAILOR_OK;
}

static tailor_status look_at_fits(const int32_t *fits, size_t rows, tailor_fault *fault)
{
    for (size_t i = 0; fits && i < rows; i++)
        if (fits[i] != (i ? fits[i - 1] : 1) && !(i && fits[i] == fits[i - 1] + 1)) {
            tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, fits[i], NAN, NAN,
                            "fits are numbered from 1, each fit's rows together");
            return at_row(fault, TAILOR_BAD_ARGUMENT, i);
        }
    return TAILOR_OK;
}

/** One column of one fit: all cells or none, in range; a measure never turns back, a choice never changes. */
static tailor_status look_at_column(const tailor_size_table *t, size_t from, size_t to, size_t column,
                                    tailor_fault *fault)
{
    double way = 0;
    for (size_t row = from; row < to; row++) {
        const double *cell = t->value + row * t->columns + column, *before = cell - t->columns;
        tailor_status status = tailor_in_value_check(tailor_field_table(), t->field[column], *cell, fault);
        if (status != TAILOR_OK)
            return at_row(fault, status, row);
        if (isnan(*cell) && column == 0)
            return bad_cell(t, fault, TAILOR_MISSING, row, column, NAN, NAN, "%n is what sizes go by, and not given");
        if (row == from)
            continue;
        if (isnan(*cell) != isnan(*before))
            return bad_cell(t, fault, TAILOR_MISSING, row, column, NAN, NAN,
                            "%n is given for some sizes of a fit and not for others");
        if (column == 0 && !(*cell > *before))
            return bad_cell(t, fault, TAILOR_CONTRADICTION, row, column, *before, NAN,
                            "sizes go backwards: %n %v%u is not more than %l%u of the size before");
        if (is_choice(t->field[column]) && *cell != *before)
            return bad_cell(t, fault, TAILOR_CONTRADICTION, row, column, *before, *before,
                            "%n changes within a fit: a choice is the same for all its sizes");
        double change = *cell - *before;
        if (change * way < 0)
            return bad_cell(t, fault, TAILOR_CONTRADICTION, row, column, way > 0 ? *before : (double)NAN,
                            way < 0 ? *before : (double)NAN,
                            way > 0 ? "%n turns back: %v%u after %l%u, though it rose before"
                                    : "%n turns back: %v%u after %h%u, though it fell before");
        if (change != 0)
            way = change;
    }
    return TAILOR_OK;
}

/** The table's own step of a measure: the largest change from one size to the next, or from one fit's mean to that of
 * the next fit. */
static double step_of(const tailor_size_table *t, size_t column)
{
    double step = 0, mean_before = NAN;
    for (int fit = 0; fit < t->fits; fit++) {
        double sum = 0;
        for (size_t row = t->first[fit]; row < t->first[fit + 1]; row++) {
            double value = t->value[row * t->columns + column];
            sum += value;
            if (row > t->first[fit])
                step = fmax(step, fabs(value - t->value[(row - 1) * t->columns + column]));
        }
        double mean = sum / (double)(t->first[fit + 1] - t->first[fit]);
        step = fmax(step, fabs(mean - mean_before)); /* fmax passes over NaN */
        mean_before = mean;
    }
    return step;
}

static tailor_status look_and_prepare(tailor_size_table *t, tailor_fault *fault)
{
    tailor_status status = TAILOR_OK;
    for (int fit = 0; fit < t->fits; fit++)
        for (size_t column = 0; column < t->columns && status == TAILOR_OK; column++)
            status = look_at_column(t, t->first[fit], t->first[fit + 1], column, fault);
    for (int fit = 0; fit < t->fits && status == TAILOR_OK; fit++)
        for (size_t column = 0; column < t->columns; column++) {
            size_t at = t->first[fit] * t->columns;
            tailor_in_slopes(t->value + at, t->value + at + column, t->first[fit + 1] - t->first[fit], t->columns,
                             t->slope + at + column);
        }
    for (size_t column = 0; column < t->columns && status == TAILOR_OK; column++)
        t->step[column] = is_choice(t->field[column]) ? 0 : step_of(t, column);
    return status;
}

tailor_status tailor_size_table_make(const int32_t *columns, size_t column_count, const double *values,
                                     size_t row_count, size_t stride, const int32_t *fits,
                                     const tailor_allocator *allocator, tailor_size_table **table, tailor_fault *fault)
{
    if (!columns || !column_count || !values || !row_count || !table || stride < column_count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "a size table needs columns, rows, a stride that spans them, and a place to go");
    if (row_count > 1 << 20 || column_count > TAILOR_FIELD_COUNT)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "a size table has at most 1048576 rows");
    tailor_status status = look_at_columns(columns, column_count, fault);
    if (status == TAILOR_OK)
        status = look_at_fits(fits, row_count, fault);
    if (status != TAILOR_OK)
        return status;
    size_t cells = row_count * column_count, fit_count = fits ? (size_t)fits[row_count - 1] : 1;
    size_t bytes = sizeof(tailor_size_table) + (2 * cells + column_count) * sizeof(double) +
                   (fit_count + 1) * sizeof(size_t) + column_count * sizeof(int32_t);
    tailor_allocator memory = tailor_in_allocator(allocator);
    tailor_size_table *t = memory.allocate(memory.user, bytes);
    if (!t)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the size table");
    t->allocator = memory;
    t->rows = row_count;
    t->columns = column_count;
    t->fits = (int)fit_count;
    t->value = (double *)(void *)(t + 1);
    t->slope = t->value + cells;
    t->step = t->slope + cells;
    t->first = (size_t *)(void *)(t->step + column_count);
    t->field = (int32_t *)(void *)(t->first + fit_count + 1);
    memcpy(t->field, columns, column_count * sizeof *columns);
    t->first[0] = 0;
    for (size_t row = 0; row < row_count; row++) {
        memcpy(t->value + row * column_count, values + row * stride, column_count * sizeof *values);
        t->first[fits ? fits[row] : 1] = row + 1;
    }
    status = look_and_prepare(t, fault);
    if (status != TAILOR_OK) {
        tailor_size_table_free(t);
        return status;
    }
    *table = t;
    return TAILOR_OK;
}

void tailor_size_table_free(tailor_size_table *t)
{
    if (t)
        t->allocator.release(t->allocator.user, t);
}

size_t tailor_size_table_row_count(const tailor_size_table *t) { return t ? t->rows : 0; }

int tailor_size_table_fit_count(const tailor_size_table *t) { return t ? t->fits : 0; }

tailor_status tailor_size_table_row(const tailor_size_table *t, size_t row, double *fields, size_t field_count)
{
    if (!t || row >= t->rows || !fields)
        return TAILOR_BAD_ARGUMENT;
    tailor_fields_clear(fields, field_count);
    for (size_t column = 0; column < t->columns; column++)
        if ((size_t)t->field[column] < field_count)
            fields[t->field[column]] = t->value[row * t->columns + column];
    return TAILOR_OK;
}

/* ---- between the rows */

/** The sizes of a whole fit: its least and greatest key, and how far one step goes beyond either. */
static void bounds_of_fit(const tailor_size_table *t, int fit, double bounds[4])
{
    size_t from = t->first[fit], last = t->first[fit + 1] - 1;
    double low = t->value[from * t->columns], high = t->value[last * t->columns];
    int steps = last > from;
    bounds[0] = low;
    bounds[1] = high;
    bounds[2] = steps ? low - (t->value[(from + 1) * t->columns] - low) : low;
    bounds[3] = steps ? high + (high - t->value[(last - 1) * t->columns]) : high;
}

/** Split a fit into the fit below and the share of the next; 0 if there is no such fit. */
static int split_fit(const tailor_size_table *t, double fit, int *below, double *share)
{
    if (!t || !(fit >= 1 && fit <= t->fits))
        return 0;
    *below = (int)fit < t->fits || t->fits == 1 ? (int)fit - 1 : t->fits - 2;
    *share = fit - 1 - *below;
    return 1;
}

tailor_status tailor_size_table_range(const tailor_size_table *t, double fit, double *low, double *high, double *least,
                                      double *most)
{
    int below;
    double share, bounds[4], next[4];
    if (!split_fit(t, fit, &below, &share) || !low || !high || !least || !most)
        return TAILOR_BAD_ARGUMENT;
    bounds_of_fit(t, below, bounds);
    if (share > 0) { /* between two fits: where both are */
        bounds_of_fit(t, below + 1, next);
        bounds[0] = fmax(bounds[0], next[0]);
        bounds[1] = fmin(bounds[1], next[1]);
        bounds[2] = fmax(bounds[2], next[2]);
        bounds[3] = fmin(bounds[3], next[3]);
    }
    *low = bounds[0];
    *high = bounds[1];
    *least = bounds[2];
    *most = bounds[3];
    return TAILOR_OK;
}

/** A column of a fit at a key: the monotone cubic between two rows, its tangent beyond the ends. */
static double column_at(const tailor_size_table *t, size_t row, size_t to, size_t column, double key)
{
    const double *cell = t->value + row * t->columns, *slope = t->slope + row * t->columns;
    double off = key - cell[0];
    if (off < 0 || row + 1 == to) /* before the first row or behind the last */
        return column == 0 ? key : cell[column] + slope[column] * off;
    const double *next = cell + t->columns, *next_slope = slope + t->columns;
    double h = next[0] - cell[0];
    return column == 0
               ? key
               : tailor_in_hermite_value(h, cell[column], slope[column], next[column], next_slope[column], off / h);
}

/** Last row of a fit whose key is not above the given one; the first row where all are. */
static size_t row_below(const tailor_size_table *t, int fit, double key)
{
    size_t low = t->first[fit], high = t->first[fit + 1];
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (t->value[middle * t->columns] <= key)
            low = middle;
        else
            high = middle;
    }
    return low;
}

static tailor_status out_of_sizes(const tailor_size_table *t, double key, const double bounds[4], tailor_fault *fault)
{
    tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, tailor_field_table(), t->field[0], key, bounds[2], bounds[3],
                    "%n %v%u lies more than one step beyond the sizes of this fit: %l to %h%u is allowed");
    return TAILOR_OUT_OF_RANGE;
}

tailor_status tailor_size_table_at(const tailor_size_table *t, double fit, const double *given, size_t given_count,
                                   double *fields, size_t field_count, double *beyond, tailor_fault *fault)
{
    int below;
    double share, bounds[4], client[TAILOR_FIELD_COUNT];
    if (!split_fit(t, fit, &below, &share))
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, fit, 1, t ? t->fits : 0,
                               "fit %v is not in the table: %l to %h is allowed");
    if (!fields && field_count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "fields is NULL though its count is not 0");
    tailor_status status = tailor_in_row_take(tailor_field_table(), given, given_count, client, fault);
    for (int i = 1; i < TAILOR_FIELD_COUNT && status == TAILOR_OK; i++)
        status = tailor_in_value_check(tailor_field_table(), i, client[i], fault);
    if (status != TAILOR_OK)
        return status;
    double key = client[t->field[0]];
    if (isnan(key))
        return tailor_in_fault(fault, TAILOR_MISSING, tailor_field_table(), t->field[0], NAN, NAN, NAN,
                               "%n is what the sizes go by, and not given");
    tailor_size_table_range(t, fit, &bounds[0], &bounds[1], &bounds[2], &bounds[3]);
    if (!(key >= bounds[2] && key <= bounds[3]))
        return out_of_sizes(t, key, bounds, fault);
    size_t row = row_below(t, below, key), next_row = share > 0 ? row_below(t, below + 1, key) : 0;
    for (size_t column = 0; column < t->columns; column++) {
        int field = t->field[column];
        if (!isnan(client[field]))
            continue;
        client[field] = column_at(t, row, t->first[below + 1], column, key);
        if (share > 0) {
            double other = column_at(t, next_row, t->first[below + 2], column, key);
            client[field] = is_choice(field) ? (share < 0.5 ? client[field] : other)
                                             : client[field] + share * (other - client[field]);
        }
    }
    for (size_t i = 0; i < field_count; i++)
        fields[i] = i < TAILOR_FIELD_COUNT ? client[i] : NAN;
    if (beyond)
        *beyond = key > bounds[1]   ? (key - bounds[1]) / (bounds[3] - bounds[1])
                  : key < bounds[0] ? (key - bounds[0]) / (bounds[0] - bounds[2])
                                    : 0;
    return TAILOR_OK;
}

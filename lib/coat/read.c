/* Reading a coat: every function accepts NULL and any number. */
#include <math.h>

#include "../base/fault.h"
#include "coat.h"

tailor_status tailor_coat_status(const tailor_coat *coat, tailor_fault *fault)
{
    if (!coat)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the coat is NULL");
    if (fault)
        *fault = coat->fault;
    return coat->fault.status;
}

int tailor_coat_extent(const tailor_coat *coat) { return coat ? coat->extent : 0; }

int tailor_coat_edition(const tailor_coat *coat) { return coat ? coat->edition : 0; }

int tailor_coat_drafted(const tailor_coat *coat) { return coat ? coat->drafted : 0; }

const tailor_pattern *tailor_coat_pattern(const tailor_coat *coat)
{
    return coat ? (const tailor_pattern *)(const void *)((const char *)coat + coat->pattern_offset) : NULL;
}

const tailor_point *tailor_coat_section(const tailor_coat *coat, size_t *count)
{
    size_t points = coat ? coat->line_count : 0;
    if (count)
        *count = points;
    return points ? (const tailor_point *)(const void *)((const char *)coat + coat->line_offset) : NULL;
}

static const double *row(const tailor_coat *coat, const double *values, size_t length, size_t *count)
{
    if (count)
        *count = coat ? length : 0;
    return values;
}

const double *tailor_coat_fields(const tailor_coat *coat, size_t *count)
{
    return row(coat, coat ? coat->fields : NULL, TAILOR_FIELD_COUNT, count);
}

const double *tailor_coat_constants(const tailor_coat *coat, size_t *count)
{
    return row(coat, coat ? coat->constants : NULL, TAILOR_CONSTANT_COUNT, count);
}

const double *tailor_coat_quantities(const tailor_coat *coat, size_t *count)
{
    return row(coat, coat ? coat->quantities : NULL, TAILOR_QUANTITY_COUNT, count);
}

const int32_t *tailor_coat_origins(const tailor_coat *coat, size_t *count)
{
    if (count)
        *count = coat ? TAILOR_FIELD_COUNT : 0;
    return coat ? coat->origins : NULL;
}

double tailor_coat_quantity(const tailor_coat *coat, int quantity)
{
    return coat && quantity > 0 && quantity < TAILOR_QUANTITY_COUNT ? coat->quantities[quantity] : (double)NAN;
}

int tailor_coat_check(const tailor_coat *coat, int check, double *value, double *limit)
{
    int known = coat && check > 0 && check < TAILOR_CHECK_COUNT;
    int passes = known ? tailor_check_passes(check, coat->check_values[check], coat->check_limits[check]) : -1;
    if (value)
        *value = passes < 0 ? (double)NAN : coat->check_values[check];
    if (limit)
        *limit = passes < 0 ? (double)NAN : coat->check_limits[check];
    return passes;
}

const int32_t *tailor_coat_toile_fields(const tailor_coat *coat, size_t *count)
{
    size_t missing = coat ? (size_t)coat->toile_count : 0;
    if (count)
        *count = missing;
    return missing ? coat->toile : NULL;
}

int tailor_coat_caution_count(const tailor_coat *coat) { return coat ? coat->caution_count : 0; }

int tailor_coat_caution(const tailor_coat *coat, int place, tailor_fault *fault)
{
    if (place < 0 || place >= tailor_coat_caution_count(coat))
        return 0;
    tailor_in_cautioned cautioned = tailor_in_coat_cautioned(coat);
    tailor_in_caution_fault(&cautioned, &coat->cautions[place], fault);
    return coat->cautions[place].class_;
}

/* Preloaded under the program for test_cli_tables.py: a coat like any other, of which the first check does not hold. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <string.h>
#include <tailorgeom/coat.h>

typedef tailor_status measure(const tailor_pattern *, const double *, size_t, const double *, size_t, double *, size_t,
                              double *, double *, size_t, tailor_fault *);

tailor_status tailor_coat_measure(const tailor_pattern *pattern, const double *fields, size_t field_count,
                                  const double *constants, size_t constant_count, double *quantities,
                                  size_t quantity_count, double *check_values, double *check_limits,
                                  size_t check_count, tailor_fault *fault)
{
    measure *real;
    *(void **)&real = dlsym(RTLD_NEXT, "tailor_coat_measure");
    int first = tailor_table_at(tailor_check_table(), 0);
    tailor_status status = real(pattern, fields, field_count, constants, constant_count, quantities, quantity_count,
                                check_values, check_limits, check_count, fault);
    if (status != TAILOR_OK || fields[TAILOR_FIELD_BUTTONING] != TAILOR_BUTTONING_THREE_BUTTON)
        return status;
    check_values[first] = check_limits[first] + 1 * tailor_check_sense(first);
    fault->status = TAILOR_CHECK_FAILED;
    fault->table = TAILOR_TABLE_CHECK;
    fault->index = first;
    strcpy(fault->sentence, "the first check does not hold");
    return TAILOR_CHECK_FAILED;
}

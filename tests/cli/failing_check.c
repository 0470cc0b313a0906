/* Preloaded under the program for test_cli_tables.py: a coat like any other, of which the first check does not hold. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <string.h>
#include <tailorgeom/coat.h>

static int fails(const tailor_coat *coat)
{
    const double *fields = tailor_coat_fields(coat, NULL);
    return fields && fields[TAILOR_FIELD_BUTTONING] == TAILOR_BUTTONING_THREE_BUTTON;
}

typedef tailor_status again(const tailor_house *, const double *, const int32_t *, size_t, int, tailor_coat **,
                            tailor_fault *);

tailor_status tailor_coat_again(const tailor_house *house, const double *fields, const int32_t *origins, size_t count,
                                int extent, tailor_coat **coat, tailor_fault *fault)
{
    again *real;
    *(void **)&real = dlsym(RTLD_NEXT, "tailor_coat_again");
    tailor_status status = real(house, fields, origins, count, extent, coat, fault);
    if (status != TAILOR_OK || !fails(*coat))
        return status;
    memset(fault, 0, sizeof *fault);
    fault->status = TAILOR_CHECK_FAILED;
    fault->table = TAILOR_TABLE_CHECK;
    fault->index = tailor_table_at(tailor_check_table(), 0);
    strcpy(fault->sentence, "the first check does not hold");
    return TAILOR_CHECK_FAILED;
}

typedef int one_check(const tailor_coat *, int, double *, double *);

int tailor_coat_check(const tailor_coat *coat, int check, double *value, double *limit)
{
    double real_value, real_limit;
    one_check *real;
    *(void **)&real = dlsym(RTLD_NEXT, "tailor_coat_check");
    int passes = real(coat, check, &real_value, &real_limit);
    if (fails(coat) && check == tailor_table_at(tailor_check_table(), 0)) {
        passes = 0;
        real_value = real_limit + tailor_check_sense(check);
    }
    if (value)
        *value = real_value;
    if (limit)
        *limit = real_limit;
    return passes;
}

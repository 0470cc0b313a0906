#include "given.h"

#include "../base/fault.h"

/** "WORDS is VALUE: LOW to HIGH is allowed" */
static tailor_status out_of_range(tailor_fault *fault, const tailor_in_given *about, double value)
{
    tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, value, about->low, about->high, about->words);
    tailor_in_fault_say(fault, " is ");
    tailor_in_fault_say_number(fault, value, about->unit);
    tailor_in_fault_say(fault, ": ");
    tailor_in_fault_say_number(fault, about->low, "");
    tailor_in_fault_say(fault, " to ");
    tailor_in_fault_say_number(fault, about->high, about->unit);
    tailor_in_fault_say(fault, " is allowed");
    return TAILOR_OUT_OF_RANGE;
}

static tailor_status refused(tailor_fault *fault, tailor_status status, const tailor_in_given *about, const char *what)
{
    tailor_in_fault(fault, status, NULL, 0, NAN, about->low, about->high, about->words);
    tailor_in_fault_say(fault, what);
    return status;
}

tailor_status tailor_in_given_read(const tailor_in_given *about, size_t known, const double *from, size_t count,
                                   double *row, tailor_fault *fault)
{
    if (!from && count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the inputs are NULL");
    row[0] = NAN;
    for (size_t i = 1; i < known; i++) {
        row[i] = i < count && !isnan(from[i]) ? from[i] : about[i].rule;
        if (isnan(row[i]))
            return refused(fault, TAILOR_MISSING, &about[i], " is not given");
        if (isinf(row[i]))
            return refused(fault, TAILOR_NOT_FINITE, &about[i], " is infinite");
        if (!(row[i] >= about[i].low && row[i] <= about[i].high))
            return out_of_range(fault, &about[i], row[i]);
    }
    for (size_t i = known; i < count; i++)
        if (!isnan(from[i]))
            return tailor_in_fault_plain(fault, TAILOR_UNKNOWN_FIELD, "an input that this library does not know");
    return TAILOR_OK;
}

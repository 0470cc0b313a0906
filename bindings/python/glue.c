/* draft() in one call instead of four: what crossing from Python to C costs, it costs once. Nothing here but calls of
 * the public functions; cffi puts it into _core. The block is laid out as in tailorgeom/pattern.py: client's row,
 * resolved row, constants, quantities, values and limits of the checks. `whole` asks for the pieces of the make too.
 * Entry 0 of the resolved row, which is no field's, takes the status. Returns the pattern (for a check that fails too),
 * NULL for any other refusal. */
#include <tailorgeom/canvas.h>
#include <tailorgeom/fold.h>
#include <tailorgeom/grade.h>
#include <tailorgeom/lay.h>
#include <tailorgeom/roll.h>
#include <tailorgeom/rows.h>

static tailor_pattern *tailor_python_draft(double *block, const double *house, size_t house_count,
                                           const double *house_constants, size_t house_constant_count, int whole)
{
    const size_t fields = (size_t)tailor_table_size(tailor_field_table());
    const size_t constants = (size_t)tailor_table_size(tailor_constant_table());
    const size_t quantities = (size_t)tailor_table_size(tailor_quantity_table());
    const size_t checks = (size_t)tailor_table_size(tailor_check_table());
    double *row = block + fields, *constant = row + fields, *quantity = constant + constants;
    double *value = quantity + quantities, *limit = value + checks;
    tailor_pattern *pattern = NULL;
    tailor_status status = tailor_order_resolve(block, fields, house, house_count, house_constants,
                                                house_constant_count, row, fields, NULL, 0, constant, constants, NULL);
    if (status == TAILOR_OK)
        status = (whole ? tailor_coat_make : tailor_coat_draft)(row, fields, constant, constants, NULL, &pattern, NULL);
    if (status == TAILOR_OK)
        status = tailor_coat_measure(pattern, row, fields, constant, constants, quantity, quantities, value, limit,
                                     checks, NULL);
    if (status != TAILOR_OK && status != TAILOR_CHECK_FAILED) {
        tailor_pattern_free(pattern);
        pattern = NULL;
    }
    row[0] = status;
    return pattern;
}

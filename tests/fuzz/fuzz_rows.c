/* Matrices of any kind through the rows call: it stays within the caller's arrays, answers each row as the scalar calls
 * do, writes nothing when the call itself is refused, and expands any record. */
#include <tailorgeom/rows.h>
#include "bytes.h"

enum { ROWS = 4, COLUMNS = 8, WANTED = 6, STRIDE = 10 };

static const double UNTOUCHED = 12345.5;

static double some_value(bytes *b, const tailor_table *table, int number)
{
    double low = tailor_table_low(table, number), high = tailor_table_high(table, number);
    unsigned place = bytes_small(b);
    if (place >= 250)
        return bytes_number(b);
    if (place >= 220 || !(low <= high))
        return NAN;
    return tailor_table_choices(table, number) ? 1 + place % 5
                                                                      : low + (high - low) * place / 219.0;
}

static int same(double a, double b) { return memcmp(&a, &b, sizeof a) == 0 || (isnan(a) && isnan(b)); }

/* The same row through the scalar calls. */
static int scalar(const double *client, const double *house, double *quantities)
{
    double row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_pattern *coat = NULL;
    int status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, house, TAILOR_FIELD_COUNT, NULL, 0, row,
                                      TAILOR_FIELD_COUNT, NULL, 0, constants, TAILOR_CONSTANT_COUNT, NULL);
    if (status == TAILOR_OK)
        status = tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, NULL);
    if (status == TAILOR_OK)
        status = tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, quantities,
                                     TAILOR_QUANTITY_COUNT, NULL, NULL, 0, NULL);
    tailor_pattern_free(coat);
    return status;
}

static void expand(bytes *b)
{
    tailor_fault_record record = {(int)bytes_small(b) * 4,  (int)bytes_small(b) % 12 - 1,
                                  (int)bytes_small(b) - 20, (int)bytes_small(b) % 5,
                                  bytes_number(b),          bytes_number(b)};
    tailor_fault fault;
    memset(&fault, 'x', sizeof fault);
    tailor_fault_expand(&record, &fault);
    check(memchr(fault.sentence, 0, sizeof fault.sentence) && (fault.sentence[0] != 0) == (record.status != 0));
    check(fault.status == record.status);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static max_align_t workspace[1 << 14];
    static double orders[ROWS * STRIDE], quantities[ROWS * STRIDE];
    bytes b = {data, size};
    const tailor_table *fields = tailor_field_table();
    int32_t columns[COLUMNS], wanted[WANTED], statuses[ROWS];
    tailor_fault_record records[ROWS];
    double house[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    size_t rows = bytes_small(&b) % (ROWS + 1), column_count = bytes_small(&b) % COLUMNS + 1,
           wants = bytes_small(&b) % (WANTED + 1);
    size_t order_stride = column_count + bytes_small(&b) % (STRIDE - COLUMNS),
           stride = wants + bytes_small(&b) % (STRIDE - WANTED);
    size_t needed = tailor_rows_workspace_bytes(), room = bytes_small(&b) ? needed : needed - 1;
    check(needed <= sizeof workspace);
    expand(&b);

    columns[0] = TAILOR_FIELD_CHEST_GIRTH;
    for (size_t i = 1; i < column_count; i++)
        columns[i] = (int)bytes_small(&b) % (TAILOR_FIELD_COUNT + 1);
    for (size_t i = 0; i < wants; i++)
        wanted[i] = (int)bytes_small(&b) % (TAILOR_QUANTITY_COUNT + 1);
    tailor_fields_clear(house, TAILOR_FIELD_COUNT);
    for (unsigned given = bytes_small(&b) % 4; given > 0; given--) {
        int field = (int)bytes_small(&b) % TAILOR_FIELD_COUNT;
        house[field] = some_value(&b, fields, field);
    }
    for (size_t row = 0; row < rows; row++)
        for (size_t i = 0; i < column_count; i++)
            orders[row * order_stride + i] = some_value(&b, fields, columns[i]);
    for (size_t i = 0; i < ROWS * STRIDE; i++)
        quantities[i] = UNTOUCHED;
    memset(statuses, -1, sizeof statuses);
    int status = tailor_rows_measure(columns, column_count, orders, rows, order_stride, house, TAILOR_FIELD_COUNT, NULL,
                                     0, wanted, wants, quantities, stride, statuses, records, workspace, room, &fault);
    if (status != TAILOR_OK) {
        check(fault.status == status && fault.sentence[0]);
        for (size_t i = 0; i < ROWS * STRIDE; i++)
            check(same(quantities[i], UNTOUCHED));
        for (size_t row = 0; row < ROWS; row++)
            check(statuses[row] == -1);
        return 0;
    }
    for (size_t row = 0; row < rows; row++) {
        double client[TAILOR_FIELD_COUNT], all[TAILOR_QUANTITY_COUNT];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        for (size_t i = 0; i < column_count; i++)
            client[columns[i]] = orders[row * order_stride + i];
        int expected = scalar(client, house, all);
        check(statuses[row] == expected ||
              (wants == 0 && expected == TAILOR_CHECK_FAILED && statuses[row] == TAILOR_OK));
        check(records[row].status == statuses[row]);
        tailor_fault_expand(&records[row], &fault);
        check((fault.sentence[0] != 0) == (statuses[row] != TAILOR_OK));
        for (size_t i = 0; i < wants; i++)
            check(same(quantities[row * stride + i], statuses[row] == TAILOR_OK ? all[wanted[i]] : (double)NAN));
        for (size_t i = wants; i < stride; i++)
            check(same(quantities[row * stride + i], UNTOUCHED));
    }
    return 0;
}

/* Matrices of any kind through a plan and its worker: they stay within the caller's arrays, answer each row as
 * tailor_coat_new() does, write nothing when a call is refused; and any verdict becomes a fault. */
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

/* What a verdict says of the coat that the same order makes. */
static void compare(const tailor_house *house, const double *client, int extent, const tailor_verdict *v,
                    const double *quantities, const int32_t *wanted, size_t wants)
{
    tailor_coat *coat = NULL;
    tailor_fault fault, why;
    uint32_t cautions[4] = {0};
    int status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, extent, &coat, &why);
    check(v->status == status);
    tailor_verdict_fault(v, &fault);
    check(fault.status == status && (fault.sentence[0] != 0) == (status != TAILOR_OK));
    if (status != TAILOR_OK)
        check(v->table == why.table && v->index == why.index && same(v->value, why.value));
    for (int place = 0, heed; status == TAILOR_OK && (heed = tailor_coat_caution(coat, place, &fault)) != 0; place++)
        if (heed == TAILOR_CAUTION_CLASS_CAUTION)
            cautions[(fault.index - 1) / 32] |= UINT32_C(1) << (fault.index - 1) % 32;
    check(memcmp(cautions, v->cautions, sizeof cautions) == 0);
    for (size_t i = 0; i < wants; i++)
        check(same(quantities[i], status == TAILOR_OK ? tailor_coat_quantity(coat, wanted[i]) : (double)NAN));
    tailor_coat_free(coat);
}

static void any_verdict(bytes *b)
{
    const tailor_verdict verdict = {.status = (int)bytes_small(b) * 4,
                                    .table = (int)bytes_small(b) % 14 - 1,
                                    .index = (int)bytes_small(b) - 20,
                                    .origin = (int)bytes_small(b) % 5,
                                    .value = bytes_number(b),
                                    .limit = bytes_number(b),
                                    .cautions = {bytes_small(b), 0, 0, bytes_small(b)}};
    tailor_fault fault;
    memset(&fault, 'x', sizeof fault);
    tailor_verdict_fault(&verdict, &fault);
    check(memchr(fault.sentence, 0, sizeof fault.sentence) && (fault.sentence[0] != 0) == (verdict.status != 0));
    check(fault.status == verdict.status);
}

/* The extent that the wanted quantities need: what a coat must be made to before it has them. */
static int extent_of(const int32_t *wanted, size_t wants)
{
    static tailor_coat *made[TAILOR_EXTENT_SECTION + 1];
    int extent = TAILOR_EXTENT_NET;
    for (int e = TAILOR_EXTENT_NET; e <= TAILOR_EXTENT_SECTION; e++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
        if (!made[e])
            check(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, e, &made[e], NULL) == TAILOR_OK);
        for (size_t i = 0; i < wants; i++)
            if (isnan(tailor_coat_quantity(made[TAILOR_EXTENT_NET], wanted[i])) &&
                !isnan(tailor_coat_quantity(made[e], wanted[i])))
                extent |= e;
    }
    return extent;
}

/* Run a plan over a matrix of any kind, and look at every row and at all that lies between them. */
static void run(bytes *b, const tailor_house *house, const tailor_rows *plan, const int32_t *columns,
                size_t column_count, const int32_t *wanted, size_t wants)
{
    static double orders[ROWS * STRIDE], quantities[ROWS * STRIDE];
    tailor_verdict verdicts[ROWS];
    tailor_rows_worker *worker = NULL;
    tailor_fault fault;
    size_t rows = bytes_small(b) % (ROWS + 1);
    size_t order_stride = column_count + bytes_small(b) % (STRIDE - COLUMNS),
           stride = wants + bytes_small(b) % (STRIDE - WANTED);
    int small = bytes_small(b) > 250;
    int status = tailor_rows_worker_new(plan, order_stride - (small && column_count > 1), stride, &worker, &fault);
    check(status == (small && column_count > 1 && order_stride == column_count ? TAILOR_BAD_ARGUMENT : TAILOR_OK));
    if (status != TAILOR_OK || small) {
        check((worker != NULL) == (status == TAILOR_OK));
        tailor_rows_worker_free(worker);
        return;
    }
    for (size_t row = 0; row < rows; row++)
        for (size_t i = 0; i < column_count; i++)
            orders[row * order_stride + i] = some_value(b, tailor_field_table(), columns[i]);
    for (size_t i = 0; i < ROWS * STRIDE; i++)
        quantities[i] = UNTOUCHED;
    check(tailor_rows_run(worker, orders, rows, quantities, verdicts, &fault) == TAILOR_OK);
    for (size_t row = 0; row < rows; row++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        for (size_t i = 0; i < column_count; i++)
            client[columns[i]] = orders[row * order_stride + i];
        compare(house, client, extent_of(wanted, wants), &verdicts[row], quantities + row * stride, wanted, wants);
        for (size_t i = wants; i < stride; i++)
            check(same(quantities[row * stride + i], UNTOUCHED));
    }
    for (size_t i = rows * stride; i < ROWS * STRIDE; i++)
        check(same(quantities[i], UNTOUCHED));
    tailor_rows_worker_free(worker);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = {data, size};
    int32_t columns[COLUMNS], wanted[WANTED];
    double fields[TAILOR_FIELD_COUNT];
    tailor_house *house = NULL;
    tailor_rows *plan = NULL;
    tailor_fault fault;
    size_t column_count = bytes_small(&b) % COLUMNS + 1, wants = bytes_small(&b) % (WANTED + 1);
    any_verdict(&b);
    columns[0] = TAILOR_FIELD_CHEST_GIRTH;
    for (size_t i = 1; i < column_count; i++)
        columns[i] = (int)bytes_small(&b) % (TAILOR_FIELD_COUNT + 1);
    for (size_t i = 0; i < wants; i++)
        wanted[i] = (int)bytes_small(&b) % (TAILOR_QUANTITY_COUNT + 1);
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    for (unsigned given = bytes_small(&b) % 4; given > 0; given--) {
        int field = (int)bytes_small(&b) % TAILOR_FIELD_COUNT;
        fields[field] = some_value(&b, tailor_field_table(), field);
    }
    if (tailor_house_new(fields, TAILOR_FIELD_COUNT, NULL, 0, NULL, &house, &fault) != TAILOR_OK)
        check(!house && fault.sentence[0]);
    int status = tailor_rows_new(house, columns, column_count, wanted, wants, &plan, &fault);
    check((plan != NULL) == (status == TAILOR_OK));
    if (plan)
        run(&b, house, plan, columns, column_count, wanted, wants);
    else
        check(fault.status == status && fault.sentence[0] && fault.place > 0 &&
              (size_t)fault.place <= (fault.table == TAILOR_TABLE_FIELD ? column_count : wants));
    tailor_rows_free(plan);
    tailor_house_free(house);
    return 0;
}

/* A program of some past version: compiled against kept headers, run against today's library, with arrays of every
 * length that a past or future version may have. Each array is allocated to the byte, so that the address sanitizer
 * sees a library that writes or reads past it. Of what the library hands out it takes the count that it is told, which
 * is at least what its own headers know. Prints how many calls it made; stops at the first that went wrong. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/rows.h>

enum { MORE = 20 };

static int calls;

static double *row_of(size_t count)
{
    double *row = malloc(count ? count * sizeof *row : 1);
    if (!row)
        exit(3);
    for (size_t i = 0; i < count; i++)
        row[i] = -1; /* not NaN: what the library leaves unwritten will show */
    return row;
}

static double *nothing_given(size_t count)
{
    double *row = row_of(count);
    tailor_fields_clear(row, count);
    return row;
}

static void expect(int holds, const char *what, size_t count)
{
    calls++;
    if (holds)
        return;
    fprintf(stderr, "%s, count %zu\n", what, count);
    exit(1);
}

static int same(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

/** The rows of a coat are at least as long as these headers know, and hold what a sum over all of each can read. */
static void read_to_the_end(const tailor_coat *coat)
{
    size_t count, i;
    double sum = 0;
    const double *row = tailor_coat_fields(coat, &count);
    for (i = 0; i < count; i++)
        sum += isnan(row[i]) ? 0 : row[i];
    expect(count >= TAILOR_FIELD_COUNT && isnan(row[0]), "fields of a coat", count);
    const int32_t *origins = tailor_coat_origins(coat, &count);
    for (i = 0; i < count; i++)
        sum += origins[i];
    expect(count >= TAILOR_FIELD_COUNT && origins[TAILOR_FIELD_CHEST_GIRTH] == TAILOR_ORIGIN_CLIENT, "origins", count);
    row = tailor_coat_constants(coat, &count);
    for (i = 0; i < count; i++)
        sum += isnan(row[i]) ? 0 : row[i];
    expect(count >= TAILOR_CONSTANT_COUNT && isnan(row[0]), "constants of a coat", count);
    row = tailor_coat_quantities(coat, &count);
    for (i = 0; i < count; i++)
        expect(same(row[i], tailor_coat_quantity(coat, (int)i)), "quantity by number", i);
    expect(count >= TAILOR_QUANTITY_COUNT && isnan(row[0]), "quantities", count);
    const tailor_point *line = tailor_coat_section(coat, &count);
    for (i = 0; i < count; i++)
        sum += line[i].x + line[i].y;
    expect(count > 1, "section", count);
    expect(isfinite(sum), "sum of all", count);
    for (i = 1; i < TAILOR_CHECK_COUNT; i++) {
        double value = -1, limit = -1;
        int passes = tailor_coat_check(coat, (int)i, &value, &limit);
        expect(passes == 0 || passes == 1 ? !isnan(value) : passes == -1 && isnan(value) && isnan(limit), "check", i);
    }
    for (int place = 0; place < tailor_coat_caution_count(coat); place++) {
        tailor_fault fault;
        expect(tailor_coat_caution(coat, place, &fault) > 0 && fault.table == TAILOR_TABLE_CAUTION, "caution",
               (size_t)place);
    }
}

/* A client's row of another length, in and out; and changes to it. */
static void rows_of_any_length(const double *row)
{
    tailor_fault fault;
    for (size_t n = 0; n < TAILOR_FIELD_COUNT + MORE; n++) {
        double *in = nothing_given(n), *out = row_of(n), *deltas = nothing_given(n), *altered = row_of(n);
        int32_t *origins = malloc(n ? n * sizeof *origins : 1);
        const int known = n > TAILOR_FIELD_CHEST_GIRTH;
        if (known)
            in[TAILOR_FIELD_CHEST_GIRTH] = 1016;
        int status = tailor_order_resolve(NULL, in, n, out, origins, n, &fault);
        expect(status == (known ? TAILOR_OK : TAILOR_MISSING), "resolve of a short row", n);
        for (size_t i = 0; status == TAILOR_OK && i < n; i++)
            expect(i < TAILOR_FIELD_COUNT ? same(out[i], row[i]) : isnan(out[i]) || out[i] != -1, "resolved row", n);
        if (n > TAILOR_FIELD_CHEST_EASE)
            deltas[TAILOR_FIELD_CHEST_EASE] = 4;
        status = tailor_order_alter(NULL, in, deltas, altered, n, &fault);
        expect(status == (known ? TAILOR_OK : TAILOR_MISSING), "alter of a short row", n);
        for (size_t i = 0; status == TAILOR_OK && i < n; i++)
            expect(i == TAILOR_FIELD_CHEST_EASE ? altered[i] == row[i] + 4 : same(altered[i], in[i]), "altered", n);
        free(in);
        free(out);
        free(deltas);
        free(altered);
        free(origins);
    }
}

/* A house's fields and constants of another length, none of them given. */
static void houses_of_any_length(const double *client, const tailor_coat *coat)
{
    const size_t longest = TAILOR_FIELD_COUNT > TAILOR_CONSTANT_COUNT ? TAILOR_FIELD_COUNT : TAILOR_CONSTANT_COUNT;
    for (size_t n = 0; n < longest + MORE; n++) {
        double *fields = nothing_given(n), *constants = nothing_given(n), *out = row_of(TAILOR_FIELD_COUNT);
        tailor_house *house = NULL;
        tailor_fault fault;
        size_t count;
        expect(tailor_house_new(fields, n, constants, n, NULL, &house, &fault) == TAILOR_OK, "house", n);
        free(fields);
        free(constants);
        const double *given = tailor_house_fields(house, &count);
        expect(count >= TAILOR_FIELD_COUNT && isnan(given[count - 1]), "fields of a house", n);
        given = tailor_house_constants(house, &count);
        expect(count >= TAILOR_CONSTANT_COUNT, "constants of a house", n);
        for (size_t i = 0; i < TAILOR_CONSTANT_COUNT; i++)
            expect(same(given[i], tailor_coat_constants(coat, NULL)[i]), "constant", i);
        expect(tailor_order_resolve(house, client, TAILOR_FIELD_COUNT, out, NULL, TAILOR_FIELD_COUNT, &fault) ==
                   TAILOR_OK,
               "resolve with a house", n);
        free(out);
        tailor_house_free(house);
    }
}

/* A resolved row as an earlier version wrote it: the coat is the same, and says what is newer. */
static void coats_of_any_length(const double *row, const tailor_coat *coat)
{
    for (size_t n = 0; n < TAILOR_FIELD_COUNT + MORE; n++) {
        double *in = nothing_given(n);
        int32_t *origins = calloc(n + 1, sizeof *origins);
        tailor_coat *again = NULL;
        tailor_fault fault;
        for (size_t i = 0; i < n && i < TAILOR_FIELD_COUNT; i++) {
            in[i] = row[i];
            origins[i] = isnan(row[i]) ? TAILOR_ORIGIN_NONE : TAILOR_ORIGIN_CLIENT;
        }
        int status = tailor_coat_again(NULL, in, origins, n, TAILOR_EXTENT_SECTION, &again, &fault);
        expect(status == (n > TAILOR_FIELD_CHEST_GIRTH ? TAILOR_OK : TAILOR_MISSING), "again of a short row", n);
        free(in);
        free(origins);
        int newer = 0;
        for (int place = 0; tailor_coat_caution(again, place, &fault); place++)
            newer |= fault.index == TAILOR_CAUTION_FIELDS_NEWER;
        for (size_t i = n; i < TAILOR_FIELD_COUNT; i++)
            newer |= again && !isnan(row[i]) ? 2 : 0;
        if (again)
            expect(newer != 2, "fields are newer, and nothing says so", n);
        for (int i = 1; again && i < TAILOR_QUANTITY_COUNT; i++)
            expect(same(tailor_coat_quantity(again, i), tailor_coat_quantity(coat, i)), "quantity", n);
        tailor_coat_free(again);
        again = NULL;
        if (n <= TAILOR_FIELD_CHEST_GIRTH || n > TAILOR_FIELD_COUNT)
            continue;
        in = row_of(n);
        memcpy(in, row, n * sizeof *in);
        expect(tailor_coat_of_pattern(NULL, in, NULL, n, tailor_coat_pattern(coat), &again, &fault) == TAILOR_OK,
               "a short row beside a pattern", n);
        free(in);
        tailor_coat_free(again);
    }
}

/* Rows of every width, and of every number of quantities. */
static void matrices_of_any_width(const double *row, const tailor_coat *coat)
{
    for (size_t n = 0; n < TAILOR_QUANTITY_COUNT + MORE; n++) {
        int32_t *columns = calloc(n + 1, sizeof *columns), *wanted = calloc(n + 1, sizeof *wanted);
        double *order, *quantities;
        tailor_verdict *verdict = malloc(sizeof *verdict);
        tailor_rows *rows = NULL;
        tailor_rows_worker *worker = NULL;
        size_t column_count = 0, want = 0;
        columns[column_count++] = TAILOR_FIELD_CHEST_GIRTH;
        for (size_t i = 1; i < TAILOR_FIELD_COUNT && column_count < n + 1; i++)
            if (!isnan(row[i]) && i != TAILOR_FIELD_CHEST_GIRTH)
                columns[column_count++] = (int32_t)i;
        for (size_t i = 1; i < TAILOR_QUANTITY_COUNT && want < n; i++)
            if (tailor_table_text(tailor_quantity_table(), (int)i, TAILOR_COLUMN_NAME)[0])
                wanted[want++] = (int32_t)i;
        order = row_of(column_count);
        quantities = row_of(want);
        for (size_t i = 0; i < column_count; i++)
            order[i] = row[columns[i]];
        expect(tailor_rows_new(NULL, columns, column_count, wanted, want, &rows, NULL) == TAILOR_OK, "plan", n);
        expect(tailor_rows_worker_new(rows, 0, 0, &worker, NULL) == TAILOR_OK, "worker", n);
        expect(tailor_rows_run(worker, order, 1, quantities, verdict, NULL) == TAILOR_OK, "run", n);
        expect(verdict->status == TAILOR_OK && sizeof *verdict == 48, "verdict", n);
        for (size_t i = 0; i < want; i++)
            expect(same(quantities[i], tailor_coat_quantity(coat, wanted[i])), "quantity of a row", n);
        tailor_rows_worker_free(worker);
        tailor_rows_free(rows);
        free(columns);
        free(wanted);
        free(order);
        free(quantities);
        free(verdict);
    }
}

int main(void)
{
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    tailor_fault fault;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    expect(tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, row, NULL, TAILOR_FIELD_COUNT, &fault) == TAILOR_OK,
           "resolve", 0);
    expect(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_SECTION, &coat, &fault) == TAILOR_OK, "new",
           0);
    read_to_the_end(coat);
    rows_of_any_length(row);
    houses_of_any_length(client, coat);
    coats_of_any_length(row, coat);
    matrices_of_any_width(row, coat);
    tailor_coat_free(coat);
    printf("%d calls\n", calls);
    return 0;
}

/* A program of some past version: compiled against kept headers, run against today's library, with arrays of every
 * length that a past or future version may have. Each array is allocated to the byte, so that the address sanitizer
 * sees a library that writes or reads past it. Prints how many calls it made; stops at the first that went wrong. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <tailorgeom/coat.h>

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

static void expect(int holds, const char *what, size_t count)
{
    calls++;
    if (holds)
        return;
    fprintf(stderr, "%s, count %zu\n", what, count);
    exit(1);
}

static int same(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

int main(void)
{
    enum { MORE = 20 };
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    double quantities[TAILOR_QUANTITY_COUNT];
    tailor_pattern *coat = NULL;
    tailor_fault fault;

    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    expect(tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, row, TAILOR_FIELD_COUNT, NULL, 0,
                                constants, TAILOR_CONSTANT_COUNT, &fault) == TAILOR_OK, "resolve", 0);
    expect(tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, &fault)
           == TAILOR_OK, "draft", 0);
    expect(tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, quantities,
                               TAILOR_QUANTITY_COUNT, NULL, NULL, 0, &fault) == TAILOR_OK, "measure", 0);

    for (size_t n = 0; n < TAILOR_FIELD_COUNT + MORE; n++) { /* a client's row of another length, in */
        double *in = row_of(n), *out = row_of(n);
        int32_t *origins = calloc(n + 1, sizeof *origins);
        tailor_fields_clear(in, n);
        if (n > TAILOR_FIELD_CHEST_GIRTH)
            in[TAILOR_FIELD_CHEST_GIRTH] = 1016;
        int status = tailor_order_resolve(in, n, NULL, 0, NULL, 0, out, n, origins, n, NULL, 0, &fault);
        expect(status == (n > TAILOR_FIELD_CHEST_GIRTH ? TAILOR_OK : TAILOR_MISSING), "resolve of a short row", n);
        for (size_t i = 0; status == TAILOR_OK && i < n; i++)
            expect(i < TAILOR_FIELD_COUNT ? same(out[i], row[i]) : isnan(out[i]) || out[i] != -1, "resolved row", n);
        free(in);
        free(out);
        free(origins);
    }
    for (size_t n = 0; n < TAILOR_QUANTITY_COUNT + MORE; n++) { /* quantities out */
        double *out = row_of(n);
        int status = tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, out, n,
                                         NULL, NULL, 0, &fault);
        expect(status == TAILOR_OK, "measure into a row of another length", n);
        for (size_t i = 1; i < n; i++)
            expect(i < TAILOR_QUANTITY_COUNT ? same(out[i], quantities[i]) : out[i] != -1, "quantity", n);
        free(out);
    }
    for (size_t n = 0; n < TAILOR_CHECK_COUNT + MORE; n++) { /* checks out */
        double *values = row_of(n), *limits = row_of(n);
        expect(tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, 0,
                                   values, limits, n, &fault) == TAILOR_OK, "checks into rows of another length", n);
        for (size_t i = 1; i < n; i++)
            expect(values[i] != -1 || limits[i] != -1, "check", n);
        free(values);
        free(limits);
    }
    for (size_t n = 0; n < TAILOR_CONSTANT_COUNT + MORE; n++) { /* a house's constants in, all of them not given */
        double *house = row_of(n), *out = row_of(n);
        tailor_fields_clear(house, n);
        expect(tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, house, n, NULL, 0, NULL, 0, out, n, &fault)
               == TAILOR_OK, "house constants of another length", n);
        for (size_t i = 1; i < n; i++)
            expect(i < TAILOR_CONSTANT_COUNT ? same(out[i], constants[i]) : out[i] != -1, "constant", n);
        free(house);
        free(out);
    }
    tailor_pattern_free(coat);
    printf("%d calls\n", calls);
    return 0;
}

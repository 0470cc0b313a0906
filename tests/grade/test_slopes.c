/* Slopes at both ends of a size table: the three-point rule (Fritsch and Carlson, SIAM J. Numer. Anal. 17, 1980;
 * Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5, 1984), worked out here from the rows and found again in what the
 * table gives between and beyond them. */
#include <tailorgeom/grade.h>

#include "draft/drafting.h"

enum { KEY = TAILOR_FIELD_CHEST_GIRTH, MEASURE = TAILOR_FIELD_WAIST_GIRTH };

static double measure_at(const tailor_size_table *table, double key)
{
    double given[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT], beyond;
    tailor_fields_clear(given, TAILOR_FIELD_COUNT);
    given[KEY] = key;
    assert_int_equal(tailor_size_table_at(table, 1, given, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, &beyond, NULL),
                     TAILOR_OK);
    return row[MEASURE];
}

/** The parabola's slope at the end of three points, held monotone. */
static double three_points(double h0, double m0, double h1, double m1)
{
    double slope = m0 + (m0 - m1) * h0 / (h0 + h1);
    return slope * m0 > 0 ? slope : 0;
}

static void ends_follow_three_points(void **state)
{
    struct dice d = {5};
    int held = 0, free_ends = 0;
    (void)state;
    for (int round = 0; round < how_many(2000, 50000); round++) {
        enum { MOST = 7 };
        double value[MOST][2];
        const int32_t fields[2] = {KEY, MEASURE};
        size_t rows = 3 + (size_t)(even(&d) * (MOST - 3));
        for (size_t i = 0; i < rows; i++) {
            value[i][0] = i ? value[i - 1][0] + between(&d, 10, 60) : between(&d, 800, 850);
            value[i][1] = i ? value[i - 1][1] + between(&d, 0.5, 60) : 700;
        }
        tailor_size_table *table = NULL;
        assert_int_equal(tailor_size_table_make(fields, 2, value[0], rows, 2, NULL, NULL, &table, NULL), TAILOR_OK);
        for (int end = 0; end < 2; end++) {
            size_t at[3] = {end ? rows - 1 : 0, end ? rows - 2 : 1, end ? rows - 3 : 2};
            double h0 = fabs(value[at[1]][0] - value[at[0]][0]), h1 = fabs(value[at[2]][0] - value[at[1]][0]);
            double m0 = fabs(value[at[1]][1] - value[at[0]][1]) / h0, m1 = fabs(value[at[2]][1] - value[at[1]][1]) / h1;
            double slope = three_points(h0, m0, h1, m1), out = end ? h0 / 2 : -h0 / 2;
            /* beyond the table its tangent goes on */
            double beyond = measure_at(table, value[at[0]][0] + out);
            assert_close((beyond - value[at[0]][1]) / out, slope, 1e-9);
            double inside = 1e-5 * h0 * (end ? -1 : 1);
            assert_close((measure_at(table, value[at[0]][0] + inside) - value[at[0]][1]) / inside, slope,
                         1e-3 * (1 + m0));
            held += slope == 0;
            free_ends += slope > 0;
        }
        for (size_t i = 1; i + 1 < rows; i++) { /* within, the weighted harmonic mean of Fritsch and Butland */
            double h0 = value[i][0] - value[i - 1][0], h1 = value[i + 1][0] - value[i][0], e = 1e-5 * fmin(h0, h1);
            double m0 = (value[i][1] - value[i - 1][1]) / h0, m1 = (value[i + 1][1] - value[i][1]) / h1;
            double slope = 3 * (h0 + h1) / ((2 * h1 + h0) / m0 + (h1 + 2 * h0) / m1);
            double found = (measure_at(table, value[i][0] + e) - measure_at(table, value[i][0] - e)) / (2 * e);
            assert_close(found, slope, 1e-3 * (m0 + m1));
        }
        tailor_size_table_free(table);
    }
    assert_true(held > 50 && free_ends > 1000);
}

int test_slopes(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(ends_follow_three_points)};
    return cmocka_run_group_tests_name("slopes", tests, NULL, NULL);
}

/* Size tables: through their rows, between them, around them, and what is no table. Vincent's rules are the outside. */
#include <stdio.h>
#include <tailorgeom/grade.h>

#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name

static tailor_fault fault;

static void must(tailor_status status)
{
    if (status != TAILOR_OK)
        fail_msg("%s: %s", tailor_status_name(status), fault.sentence);
}

/* Two fits, the second taller. Waist grows unevenly. */
static const int32_t columns[] = {F(CHEST_GIRTH), F(WAIST_GIRTH), F(STATURE), F(LAPEL)};
enum { COLUMNS = 4, ROWS = 7 };
static const double sizes[ROWS][COLUMNS] = {
    {920, 760, 1700, 1}, {960, 800, 1704, 1},  {1000, 850, 1708, 1}, {1060, 912, 1714, 1},
    {940, 790, 1790, 2}, {1000, 850, 1800, 2}, {1040, 900, 1804, 2},
};
static const int32_t fits[ROWS] = {1, 1, 1, 1, 2, 2, 2};

static tailor_size_table *two_fits(void)
{
    tailor_size_table *table = NULL;
    must(tailor_size_table_make(columns, COLUMNS, sizes[0], ROWS, COLUMNS, fits, NULL, &table, &fault));
    return table;
}

static tailor_status at(const tailor_size_table *table, double fit, double key, double *row, double *beyond)
{
    double given[TAILOR_FIELD_COUNT];
    tailor_fields_clear(given, TAILOR_FIELD_COUNT);
    given[F(CHEST_GIRTH)] = key;
    return tailor_size_table_at(table, fit, given, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, beyond, &fault);
}

static void its_rows_come_back(void **state)
{
    (void)state;
    tailor_size_table *table = two_fits();
    double row[TAILOR_FIELD_COUNT], read[TAILOR_FIELD_COUNT], beyond;
    assert_int_equal(tailor_size_table_row_count(table), ROWS);
    assert_int_equal(tailor_size_table_fit_count(table), 2);
    for (size_t i = 0; i < ROWS; i++) {
        must(at(table, fits[i], sizes[i][0], row, &beyond));
        must(tailor_size_table_row(table, i, read, TAILOR_FIELD_COUNT));
        assert_close(beyond, 0, 0);
        for (size_t c = 0; c < COLUMNS; c++) {
            assert_close(row[columns[c]], sizes[i][c], 0);
            assert_close(read[columns[c]], sizes[i][c], 0);
        }
        assert_true(isnan(row[F(SEAT_GIRTH)]) && isnan(read[F(SEAT_GIRTH)]));
    }
    assert_int_equal(tailor_size_table_row(table, ROWS, read, TAILOR_FIELD_COUNT), TAILOR_BAD_ARGUMENT);
    tailor_size_table_free(table);
}

static void around_the_rows(void **state)
{
    (void)state;
    tailor_size_table *table = two_fits();
    double row[TAILOR_FIELD_COUNT], given[TAILOR_FIELD_COUNT], low, high, least, most, beyond;
    /* One step beyond the ends, as long as the step there, and flagged; the tangent goes on. */
    must(tailor_size_table_range(table, 1, &low, &high, &least, &most));
    assert_close(low, 920, 0);
    assert_close(high, 1060, 0);
    assert_close(least, 880, 0);
    assert_close(most, 1120, 0);
    double a[TAILOR_FIELD_COUNT], b[TAILOR_FIELD_COUNT], c[TAILOR_FIELD_COUNT];
    must(at(table, 1, 1120, a, &beyond));
    assert_close(beyond, 1, 1e-15);
    must(at(table, 1, 1090, b, &beyond));
    assert_close(beyond, 0.5, 1e-15);
    must(at(table, 1, 1060, c, NULL));
    assert_close(b[F(WAIST_GIRTH)], (a[F(WAIST_GIRTH)] + c[F(WAIST_GIRTH)]) / 2, 1e-10);
    must(at(table, 1, 1060 - 1e-5, b, NULL));
    assert_close((c[F(WAIST_GIRTH)] - b[F(WAIST_GIRTH)]) / 1e-5, (a[F(WAIST_GIRTH)] - c[F(WAIST_GIRTH)]) / 60, 1e-4);
    must(at(table, 1, 880, a, &beyond));
    assert_close(beyond, -1, 1e-15);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(at(table, 1, i ? 1120.01 : 879.99, row, &beyond), TAILOR_OUT_OF_RANGE);
        assert_int_equal(fault.index, F(CHEST_GIRTH));
        assert_close(fault.low, 880, 0);
        assert_close(fault.high, 1120, 0);
    }
    /* Between two fits: where both are, mixed. A choice is that of the nearer. */
    must(tailor_size_table_range(table, 1.25, &low, &high, &least, &most));
    assert_close(low, 940, 0);
    assert_close(high, 1040, 0);
    must(at(table, 1, 1000, a, NULL));
    must(at(table, 2, 1000, b, NULL));
    must(at(table, 1.25, 1000, c, NULL));
    assert_close(c[F(STATURE)], 0.75 * a[F(STATURE)] + 0.25 * b[F(STATURE)], 1e-9);
    assert_close(c[F(LAPEL)], 1, 0);
    must(at(table, 1.75, 1000, c, NULL));
    assert_close(c[F(LAPEL)], 2, 0);
    for (int i = 0; i < 4; i++)
        assert_int_equal(at(table, (const double[]){0.99, 2.01, NAN, INFINITY}[i], 1000, c, NULL), TAILOR_BAD_ARGUMENT);
    /* Short legs, long arms: what is given stays. Output may be input. */
    tailor_fields_clear(given, TAILOR_FIELD_COUNT);
    given[F(CHEST_GIRTH)] = 1013;
    given[F(STATURE)] = 1650;
    given[F(ARM_LENGTH)] = 640;
    must(tailor_size_table_at(table, 1, given, TAILOR_FIELD_COUNT, given, TAILOR_FIELD_COUNT, NULL, &fault));
    assert_close(given[F(CHEST_GIRTH)], 1013, 0);
    assert_close(given[F(STATURE)], 1650, 0);
    assert_close(given[F(ARM_LENGTH)], 640, 0);
    assert_true(given[F(WAIST_GIRTH)] > 850 && given[F(WAIST_GIRTH)] < 912);
    /* Values that are none, and no key. */
    given[F(ARM_LENGTH)] = 64;
    assert_int_equal(tailor_size_table_at(table, 1, given, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, NULL, &fault),
                     TAILOR_WRONG_UNIT);
    tailor_fields_clear(given, TAILOR_FIELD_COUNT);
    assert_int_equal(tailor_size_table_at(table, 1, given, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, NULL, &fault),
                     TAILOR_MISSING);
    assert_int_equal(tailor_size_table_at(NULL, 1, given, 0, row, 0, NULL, &fault), TAILOR_BAD_ARGUMENT);
    tailor_size_table_free(table);
}

/* Random tables: every row met, nothing beyond two neighbours, no corner. */
static void no_table_overshoots(void **state)
{
    (void)state;
    struct dice d = {7};
    for (int round = 0; round < how_many(300, 20000); round++) {
        enum { MOST = 12 };
        double value[MOST][3];
        const int32_t fields[3] = {F(CHEST_GIRTH), F(WAIST_GIRTH), F(SHOULDER_SLOPE)};
        size_t rows = 2 + (size_t)(even(&d) * (MOST - 2));
        for (size_t i = 0; i < rows; i++) {
            value[i][0] = i ? value[i - 1][0] + between(&d, 2, 60) : between(&d, 750, 850);
            value[i][1] = i ? value[i - 1][1] + (even(&d) < 0.3 ? 0 : between(&d, 0, 70)) : 650;
            value[i][2] = i ? value[i - 1][2] - between(&d, 0, 0.5) : 25;
        }
        tailor_size_table *table = NULL;
        must(tailor_size_table_make(fields, 3, value[0], rows, 3, NULL, NULL, &table, &fault));
        for (size_t i = 0; i + 1 < rows; i++)
            for (int k = 0; k <= 8; k++) {
                double key = value[i][0] + (value[i + 1][0] - value[i][0]) * k / 8, row[TAILOR_FIELD_COUNT];
                must(at(table, 1, key, row, NULL));
                assert_true(row[F(WAIST_GIRTH)] >= value[i][1] - 1e-9 && row[F(WAIST_GIRTH)] <= value[i + 1][1] + 1e-9);
                assert_true(row[F(SHOULDER_SLOPE)] <= value[i][2] + 1e-12 &&
                            row[F(SHOULDER_SLOPE)] >= value[i + 1][2] - 1e-12);
            }
        for (size_t i = 1; i + 1 < rows; i++) { /* slopes on both sides of a row */
            double before[TAILOR_FIELD_COUNT], here[TAILOR_FIELD_COUNT], after[TAILOR_FIELD_COUNT], e = 1e-4;
            must(at(table, 1, value[i][0] - e, before, NULL));
            must(at(table, 1, value[i][0], here, NULL));
            must(at(table, 1, value[i][0] + e, after, NULL));
            double left = here[F(WAIST_GIRTH)] - before[F(WAIST_GIRTH)];
            assert_close((after[F(WAIST_GIRTH)] - here[F(WAIST_GIRTH)]) / e, left / e, 0.02);
        }
        tailor_size_table_free(table);
    }
}

/* Vincent's Systems of Cutting, djvu/39: depth of scye breast/6 + 3, half across chest breast/4 - 1, front shoulder
 * breast/4 + 3 1/2, over shoulder breast/3 + 5, in inches. His rules are linear, so a table of them gives his figures
 * at every size between, and his growth for 2 in of breast. */
static void vincent_between_his_sizes(void **state)
{
    (void)state;
    const int32_t fields[] = {F(CHEST_GIRTH), F(SCYE_DEPTH), F(CROSS_CHEST), F(FRONT_SHOULDER), F(OVER_SHOULDER)};
    double value[4][5];
    for (int i = 0; i < 4; i++) {
        double breast = 34 + 4 * i;
        double inches[5] = {breast, breast / 6 + 3, 2 * (breast / 4 - 1), breast / 4 + 3.5, breast / 3 + 5};
        for (int c = 0; c < 5; c++)
            value[i][c] = inches[c] * INCH;
    }
    tailor_size_table *table = NULL;
    must(tailor_size_table_make(fields, 5, value[0], 4, 5, NULL, NULL, &table, &fault));
    static const struct {
        double breast, scye_depth, half_chest, front_shoulder, over_shoulder;
    } printed[] = {{36, 9, 8, 12.5, 17}, {40, 9 + 2 / 3.0, 9, 13.5, 18 + 1 / 3.0}};
    for (int i = 0; i < 2; i++) {
        double row[TAILOR_FIELD_COUNT], next[TAILOR_FIELD_COUNT];
        must(at(table, 1, printed[i].breast * INCH, row, NULL));
        assert_close(row[F(SCYE_DEPTH)] / INCH, printed[i].scye_depth, 1e-9);
        assert_close(row[F(CROSS_CHEST)] / 2 / INCH, printed[i].half_chest, 1e-9);
        assert_close(row[F(FRONT_SHOULDER)] / INCH, printed[i].front_shoulder, 1e-9);
        assert_close(row[F(OVER_SHOULDER)] / INCH, printed[i].over_shoulder, 1e-9);
        must(at(table, 1, (printed[i].breast + 2) * INCH, next, NULL));
        assert_close((next[F(OVER_SHOULDER)] - row[F(OVER_SHOULDER)]) / INCH, 2 / 3.0, 1e-9);
        assert_close((next[F(SCYE_DEPTH)] - row[F(SCYE_DEPTH)]) / INCH, 1 / 3.0, 1e-9);
        assert_close((next[F(FRONT_SHOULDER)] - row[F(FRONT_SHOULDER)]) / INCH, 0.5, 1e-9);
        assert_close((next[F(CROSS_CHEST)] - row[F(CROSS_CHEST)]) / 2 / INCH, 0.5, 1e-9);
    }
    tailor_size_table_free(table);
}

static void the_nearest_size(void **state)
{
    (void)state;
    tailor_size_table *table = two_fits();
    static const struct {
        double chest, waist, stature;
        size_t row;
        int32_t decided;
    } clients[] = {
        {1001, 851, 1709, 2, F(STATURE)}, /* sizes of one girth in both fits: the stature decides */
        {1001, 851, 1799, 5, F(STATURE)},    {925, 764, 1702, 0, F(CHEST_GIRTH)},
        {985, NAN, NAN, 2, F(CHEST_GIRTH)}, /* the earlier of two alike */
        {1500, NAN, NAN, 3, F(CHEST_GIRTH)},
    };
    for (size_t i = 0; i < sizeof clients / sizeof *clients; i++) {
        double given[TAILOR_FIELD_COUNT], differences[TAILOR_FIELD_COUNT], distance;
        size_t row;
        int32_t decided;
        tailor_fields_clear(given, TAILOR_FIELD_COUNT);
        given[F(CHEST_GIRTH)] = clients[i].chest;
        given[F(WAIST_GIRTH)] = clients[i].waist;
        given[F(STATURE)] = clients[i].stature;
        given[F(ARM_LENGTH)] = 600; /* of no column: does not count */
        must(tailor_size_table_nearest(table, given, TAILOR_FIELD_COUNT, &row, &decided, &distance, differences,
                                       TAILOR_FIELD_COUNT, &fault));
        assert_int_equal(row, clients[i].row);
        if (i != 2)
            assert_int_equal(decided, clients[i].decided);
        assert_close(differences[F(CHEST_GIRTH)], clients[i].chest - sizes[row][0], 0);
        assert_true(isnan(differences[F(WAIST_GIRTH)]) == isnan(clients[i].waist));
        assert_true(isnan(differences[F(ARM_LENGTH)]));
        assert_true(distance > 0);
    }
    /* A client of a size is that size, at no distance. */
    for (size_t i = 0; i < ROWS; i++) {
        double given[TAILOR_FIELD_COUNT], distance;
        size_t row;
        must(tailor_size_table_row(table, i, given, TAILOR_FIELD_COUNT));
        must(tailor_size_table_nearest(table, given, TAILOR_FIELD_COUNT, &row, NULL, &distance, NULL, 0, &fault));
        assert_int_equal(row, i);
        assert_close(distance, 0, 0);
    }
    tailor_size_table_free(table);
}

/* ---- what is no table */

static const int32_t three[] = {F(CHEST_GIRTH), F(SEAT_GIRTH), F(LAPEL)};

static void is_refused(const double (*value)[3], size_t rows, const int32_t *fit, int status, int field,
                       const char *said)
{
    tailor_size_table *table = NULL;
    memset(&fault, 0, sizeof fault);
    assert_int_equal(tailor_size_table_make(three, 3, value[0], rows, 3, fit, NULL, &table, &fault), status);
    assert_null(table);
    assert_int_equal(fault.status, status);
    assert_int_equal(fault.index, field);
    const char *row = strstr(fault.sentence, "(row ");
    assert_int_equal(fault.place, row ? atoi(row + 5) : 0); /* nobody has to read the sentence */
    if (!strstr(fault.sentence, said))
        fail_msg("\"%s\" does not say \"%s\"", fault.sentence, said);
}

static void what_is_no_table(void **state)
{
    (void)state;
    is_refused((const double[][3]){{1000, 1000, 1}, {960, 1040, 1}}, 2, NULL, TAILOR_CONTRADICTION, F(CHEST_GIRTH),
               "sizes go backwards: chest_girth 960 mm is not more than 1000 mm of the size before (row 2");
    is_refused((const double[][3]){{1000, 1000, 1}, {1000, 1040, 1}}, 2, NULL, TAILOR_CONTRADICTION, F(CHEST_GIRTH),
               "row 2");
    is_refused((const double[][3]){{1000, 1000, 1}, {1040, 1040, 1}, {1080, 1020, 1}}, 3, NULL, TAILOR_CONTRADICTION,
               F(SEAT_GIRTH), "seat_girth turns back: 1020 mm after 1040 mm, though it rose before (row 3");
    is_refused((const double[][3]){{1000, 1000, 1}, {1040, 980, 1}, {1080, 1020, 1}}, 3, NULL, TAILOR_CONTRADICTION,
               F(SEAT_GIRTH), "though it fell before");
    is_refused((const double[][3]){{1000, 1000, 1}, {1040, NAN, 1}}, 2, NULL, TAILOR_MISSING, F(SEAT_GIRTH), "row 2");
    is_refused((const double[][3]){{NAN, 1000, 1}}, 1, NULL, TAILOR_MISSING, F(CHEST_GIRTH), "row 1");
    is_refused((const double[][3]){{1000, 1000, 1}, {1040, 1040, 2}}, 2, NULL, TAILOR_CONTRADICTION, F(LAPEL),
               "changes within a fit");
    is_refused((const double[][3]){{1000, 1000, 1.5}}, 1, NULL, TAILOR_NOT_A_CHOICE, F(LAPEL), "row 1");
    is_refused((const double[][3]){{40, 1000, 1}}, 1, NULL, TAILOR_WRONG_UNIT, F(CHEST_GIRTH), "did you mean 40 in");
    is_refused((const double[][3]){{1000, 4000, 1}}, 1, NULL, TAILOR_OUT_OF_RANGE, F(SEAT_GIRTH), "row 1");
    is_refused((const double[][3]){{1000, INFINITY, 1}}, 1, NULL, TAILOR_NOT_FINITE, F(SEAT_GIRTH), "row 1");
    is_refused((const double[][3]){{1000, 1000, 1}, {1040, 1040, 1}}, 2, (const int32_t[]){1, 3}, TAILOR_BAD_ARGUMENT,
               0, "row 2");
    is_refused((const double[][3]){{1000, 1000, 1}, {1040, 1040, 1}}, 2, (const int32_t[]){2, 2}, TAILOR_BAD_ARGUMENT,
               0, "row 1");
    tailor_size_table *table = NULL;
    const double value[] = {1000, 1000};
    const int32_t bad[][2] = {{F(CHEST_GIRTH), 0}, {F(CHEST_GIRTH), TAILOR_FIELD_COUNT}, {F(CHEST_GIRTH), -5}};
    for (int i = 0; i < 3; i++)
        assert_int_equal(tailor_size_table_make(bad[i], 2, value, 1, 2, NULL, NULL, &table, &fault),
                         TAILOR_UNKNOWN_FIELD);
    const int32_t twice[] = {F(CHEST_GIRTH), F(CHEST_GIRTH)}, choice[] = {F(LAPEL), F(CHEST_GIRTH)};
    assert_int_equal(tailor_size_table_make(twice, 2, value, 1, 2, NULL, NULL, &table, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_size_table_make(choice, 2, value, 1, 2, NULL, NULL, &table, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_size_table_make(columns, 2, value, 1, 1, NULL, NULL, &table, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_size_table_make(columns, 0, value, 1, 1, NULL, NULL, &table, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_size_table_make(columns, 1, NULL, 1, 1, NULL, NULL, &table, &fault), TAILOR_BAD_ARGUMENT);
    assert_null(table);
    tailor_size_table_free(NULL);
}

/* Vincent's scale of 1898 in the transcription has a seat of 45 in between 34 and 36: found as what it is. */
static void a_misprint_is_found(void **state)
{
    (void)state;
    const int32_t fields[] = {F(CHEST_GIRTH), F(SEAT_GIRTH)};
    const double printed[][2] = {
        {31 * INCH, 32 * INCH}, {33 * INCH, 34 * INCH}, {34 * INCH, 45 * INCH}, {35 * INCH, 36 * INCH}};
    tailor_size_table *table = NULL;
    assert_int_equal(tailor_size_table_make(fields, 2, printed[0], 4, 2, NULL, NULL, &table, &fault),
                     TAILOR_CONTRADICTION);
    assert_int_equal(fault.index, F(SEAT_GIRTH));
    assert_non_null(strstr(fault.sentence, "914.4 mm after 1143 mm"));
}

static void a_table_of_one_size(void **state)
{
    (void)state;
    tailor_size_table *table = NULL;
    double row[TAILOR_FIELD_COUNT];
    must(tailor_size_table_make(columns, 2, (const double[]){1000, 850}, 1, 2, NULL, NULL, &table, &fault));
    must(at(table, 1, 1000, row, NULL));
    assert_close(row[F(WAIST_GIRTH)], 850, 0);
    assert_int_equal(at(table, 1, 1001, row, NULL), TAILOR_OUT_OF_RANGE);
    tailor_size_table_free(table);
}

int test_sizes(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(its_rows_come_back),  cmocka_unit_test(around_the_rows),
        cmocka_unit_test(no_table_overshoots), cmocka_unit_test(vincent_between_his_sizes),
        cmocka_unit_test(the_nearest_size),    cmocka_unit_test(what_is_no_table),
        cmocka_unit_test(a_misprint_is_found), cmocka_unit_test(a_table_of_one_size),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

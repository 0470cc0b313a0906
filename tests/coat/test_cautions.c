/* Cautions: which a coat has, how much each weighs, its value and limit, its words. */
#include <stdio.h>
#include "coats.h"

#define F(name) TAILOR_FIELD_##name

/* Common practice: a coat cut for one person on fewer measures than these is tried in a toile first. Written down here
 * by itself, so that the library's own list is compared with something. */
static const struct {
    int field;
    double value;
} bespoke[] = {
    {F(CHEST_GIRTH), 1016}, {F(WAIST_GIRTH), 890}, {F(SEAT_GIRTH), 990},      {F(BACK_WAIST_LENGTH), 437},
    {F(ARM_LENGTH), 600},   {F(BACK_WIDTH), 385},  {F(SHOULDER_SLOPE), 21.5},
};
enum { MEASURES = sizeof bespoke / sizeof *bespoke, SUBSETS = 1 << MEASURES };

/* The sentence names these measures, in the order of the list, and none else. */
static void assert_names(const tailor_fault *fault, int given)
{
    const char *at = fault->sentence;
    for (int i = 0; i < MEASURES; i++) {
        const char *name = tailor_table_text(tailor_field_table(), bespoke[i].field, TAILOR_COLUMN_NAME);
        const char *found = strstr(at, name);
        if (given >> i & 1)
            assert_null(strstr(fault->sentence, name));
        else
            assert_non_null(found);
        at = found ? found : at;
    }
}

/** Of every one of the 128 sets of measures: for toile only unless all seven are the client's, or the coat is made to
 *  measure. What the house or a rule gave was not measured. */
static void toile_only(void **state)
{
    (void)state;
    static const int makings[] = {0, TAILOR_MAKING_BESPOKE, TAILOR_MAKING_MADE_TO_MEASURE};
    double all[TAILOR_FIELD_COUNT];
    tailor_house *houses[2] = {NULL, NULL};
    tailor_fields_clear(all, TAILOR_FIELD_COUNT);
    all[F(CHEST_GIRTH)] = 1016; /* the chest alone, so that a client may leave it out */
    assert_int_equal(tailor_house_new(all, TAILOR_FIELD_COUNT, NULL, 0, NULL, &houses[0], NULL), TAILOR_OK);
    for (int i = 0; i < MEASURES; i++)
        all[bespoke[i].field] = bespoke[i].value;
    assert_int_equal(tailor_house_new(all, TAILOR_FIELD_COUNT, NULL, 0, NULL, &houses[1], NULL), TAILOR_OK);
    for (int given = 0; given < SUBSETS; given++)
        for (int m = 0; m < 3; m++) {
            double client[TAILOR_FIELD_COUNT];
            tailor_fault fault;
            int missing = 0;
            tailor_fields_clear(client, TAILOR_FIELD_COUNT);
            if (makings[m])
                client[F(MAKING)] = makings[m];
            for (int i = 0; i < MEASURES; i++) {
                missing += !(given >> i & 1);
                if (given >> i & 1)
                    client[bespoke[i].field] = bespoke[i].value;
            }
            tailor_coat *coat = must_coat(houses[given % 2], client, TAILOR_EXTENT_NET);
            const int place = caution_of(coat, TAILOR_CAUTION_TOILE_ONLY, &fault);
            const int expected = missing > 0 && makings[m] != TAILOR_MAKING_MADE_TO_MEASURE;
            assert_int_equal(place, expected ? 0 : -1); /* the first of all */
            if (expected) {
                assert_int_equal(tailor_coat_caution(coat, place, NULL), TAILOR_CAUTION_CLASS_CAUTION);
                assert_int_equal(fault.status, TAILOR_OK);
                assert_int_equal(fault.table, TAILOR_TABLE_CAUTION);
                assert_close(fault.value, missing, 0);
                assert_close(fault.high, 0, 0);
                assert_int_equal(strncmp(fault.sentence, "Cut a toile only: ", 18), 0);
                assert_names(&fault, given);
            }
            tailor_coat_free(coat);
        }
    tailor_house_free(houses[0]);
    tailor_house_free(houses[1]);
}

/** A sleeve measured from the centre back is a sleeve measured; and a row without origins is the client's. */
static void what_counts_as_measured(void **state)
{
    (void)state;
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    for (int i = 0; i < MEASURES; i++)
        if (bespoke[i].field != F(ARM_LENGTH))
            client[bespoke[i].field] = bespoke[i].value;
    tailor_coat *coat = must_coat(NULL, client, TAILOR_EXTENT_NET), *again = NULL;
    assert_true(caution_of(coat, TAILOR_CAUTION_TOILE_ONLY, &fault) >= 0);
    assert_string_equal(fault.sentence, "Cut a toile only: not measured: arm_length.");
    assert_int_equal(tailor_coat_again(NULL, tailor_coat_fields(coat, NULL), NULL, TAILOR_FIELD_COUNT,
                                       TAILOR_EXTENT_NET, &again, NULL),
                     TAILOR_OK);
    assert_int_equal(caution_of(again, TAILOR_CAUTION_TOILE_ONLY, &fault), -1);
    tailor_coat_free(again);
    tailor_coat_free(coat);
    client[F(SLEEVE_FROM_CENTRE_BACK)] = 820;
    coat = must_coat(NULL, client, TAILOR_EXTENT_NET);
    assert_int_equal(caution_of(coat, TAILOR_CAUTION_TOILE_ONLY, &fault), -1);
    tailor_coat_free(coat);
    client[F(SLEEVE_FROM_CENTRE_BACK)] = client[F(SEAT_GIRTH)] = NAN;
    coat = must_coat(NULL, client, TAILOR_EXTENT_NET);
    assert_true(caution_of(coat, TAILOR_CAUTION_TOILE_ONLY, &fault) >= 0);
    assert_string_equal(fault.sentence, "Cut a toile only: not measured: seat_girth and arm_length.");
    tailor_coat_free(coat);
}

/** Told from nought on, a caution from 8 mm on (the table's bounds): by the quantity itself, over a sweep of arms. */
static void scye_deepened(void **state)
{
    (void)state;
    int seen[3] = {0, 0, 0};
    for (double arm = 300; arm <= 430; arm += 1) {
        double client[TAILOR_FIELD_COUNT];
        tailor_coat *coat = NULL;
        tailor_fault fault;
        row_from(client, ORDER({F(CHEST_GIRTH), 1016}, {F(UPPER_ARM_GIRTH), arm}));
        if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL) != TAILOR_OK) {
            tailor_coat_free(coat);
            continue;
        }
        const double by = tailor_coat_quantity(coat, TAILOR_QUANTITY_SCYE_DEEPENED);
        const int expected = by > 8 + 1e-6 ? TAILOR_CAUTION_CLASS_CAUTION : by > 1e-6 ? TAILOR_CAUTION_CLASS_TOLD : 0;
        const int place = caution_of(coat, TAILOR_CAUTION_SCYE_DEEPENED, &fault);
        assert_int_equal(place >= 0 ? tailor_coat_caution(coat, place, NULL) : 0, expected);
        seen[expected]++;
        if (expected) {
            char arm_told[32], by_told[48];
            snprintf(arm_told, sizeof arm_told, "for an arm of %g mm.", arm);
            snprintf(by_told, sizeof by_told, "The scye is %g mm deeper", round(10 * by) / 10);
            assert_close(fault.value, by, 0);
            assert_close(fault.high, expected == TAILOR_CAUTION_CLASS_CAUTION ? 8 : 0, 0);
            assert_non_null(strstr(fault.sentence, arm_told));
            assert_non_null(strstr(fault.sentence, by_told));
        }
        tailor_coat_free(coat);
    }
    print_message("# scye as measured %d times, deeper %d times, much deeper %d times\n", seen[0], seen[1], seen[2]);
    assert_true(seen[0] > 10 && seen[TAILOR_CAUTION_CLASS_TOLD] > 3 && seen[TAILOR_CAUTION_CLASS_CAUTION] > 3);
}

/** Whatever a coat has: in the order of the table, each once, with a row, a class and a sentence of its own. */
static void as_they_are_listed(void **state)
{
    (void)state;
    const tailor_table *table = tailor_caution_table();
    assert_int_equal(tailor_table_size(table), TAILOR_CAUTION_COUNT);
    assert_true(TAILOR_CAUTION_COUNT <= 129); /* their bits fit a verdict */
    tailor_coat *coat = coat_from(ORDER({F(CHEST_GIRTH), 1016}, {F(UPPER_ARM_GIRTH), 385}), TAILOR_EXTENT_NET), *again;
    assert_int_equal(tailor_coat_again(NULL, tailor_coat_fields(coat, NULL), tailor_coat_origins(coat, NULL), 47,
                                       TAILOR_EXTENT_NET, &again, NULL),
                     TAILOR_OK);
    assert_int_equal(tailor_coat_caution_count(coat), 2);
    assert_int_equal(tailor_coat_caution_count(again), 3);
    int before = 0;
    for (int place = 0; place < tailor_coat_caution_count(again); place++) {
        tailor_fault fault;
        memset(&fault, 0x5a, sizeof fault);
        const int heed = tailor_coat_caution(again, place, &fault);
        assert_true(heed == TAILOR_CAUTION_CLASS_TOLD || heed == TAILOR_CAUTION_CLASS_CAUTION);
        assert_int_equal(tailor_coat_caution(again, place, NULL), heed);
        assert_true(fault.status == TAILOR_OK && fault.table == TAILOR_TABLE_CAUTION && fault.place == 0);
        assert_true(fault.index > before && fault.index < TAILOR_CAUTION_COUNT);
        assert_string_not_equal(tailor_table_text(table, fault.index, TAILOR_COLUMN_NAME), "");
        assert_true(isfinite(fault.value) && isnan(fault.low));
        const size_t length = strlen(fault.sentence);
        assert_true(length > 20 && length < sizeof fault.sentence - 1 && fault.sentence[length - 1] == '.');
        before = fault.index;
    }
    assert_int_equal(before, TAILOR_CAUTION_FIELDS_NEWER);
    tailor_coat_free(coat);
    tailor_coat_free(again);
    for (int place = 0, number; (number = tailor_table_at(table, place)) != 0; place++) {
        assert_int_equal(tailor_table_find(table, tailor_table_text(table, number, TAILOR_COLUMN_NAME)), number);
        assert_string_not_equal(tailor_table_text(table, number, TAILOR_COLUMN_MEANING), "");
        assert_string_not_equal(tailor_table_text(table, number, TAILOR_COLUMN_PROVENANCE), "");
    }
}

int test_cautions(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(toile_only),
        cmocka_unit_test(what_counts_as_measured),
        cmocka_unit_test(scye_deepened),
        cmocka_unit_test(as_they_are_listed),
    };
    return cmocka_run_group_tests_name("cautions", tests, NULL, NULL);
}

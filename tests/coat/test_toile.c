/* The measures for want of which a coat is for a toile only. */
#include "support/close.h"

#include <tailorgeom/coat.h>

/* By field; the sleeve from the centre back stands for the arm's length. */
static const int bespoke[] = {
    TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH, TAILOR_FIELD_SEAT_GIRTH,    TAILOR_FIELD_BACK_WAIST_LENGTH,
    TAILOR_FIELD_ARM_LENGTH,  TAILOR_FIELD_BACK_WIDTH,  TAILOR_FIELD_SHOULDER_SLOPE,
};
static const double measured[] = {1016, 890, 1010, 445, 602, 400, 21};
enum { MEASURES = sizeof bespoke / sizeof bespoke[0] };

static tailor_coat *coat_of(const double *client)
{
    tailor_coat *coat = NULL;
    assert_int_equal(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL), TAILOR_OK);
    return coat;
}

static void whole(double *client)
{
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    for (int i = 0; i < MEASURES; i++)
        client[bespoke[i]] = measured[i];
}

static void test_none_missing(void **state)
{
    double client[TAILOR_FIELD_COUNT];
    size_t count = 9;
    (void)state;
    assert_null(tailor_coat_toile_fields(NULL, &count));
    assert_int_equal(count, 0);
    assert_null(tailor_coat_toile_fields(NULL, NULL));
    whole(client);
    client[TAILOR_FIELD_ARM_LENGTH] = NAN;
    client[TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK] = 840;
    tailor_coat *coat = coat_of(client);
    count = 9;
    assert_null(tailor_coat_toile_fields(coat, &count));
    assert_int_equal(count, 0);
    assert_int_equal(tailor_pattern_toile_only(tailor_coat_pattern(coat)), 0);
    tailor_coat_free(coat);
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_MAKING] = TAILOR_MAKING_MADE_TO_MEASURE;
    coat = coat_of(client);
    assert_null(tailor_coat_toile_fields(coat, NULL));
    assert_int_equal(tailor_pattern_toile_only(tailor_coat_pattern(coat)), 0);
    tailor_coat_free(coat);
}

static void test_each_alone(void **state)
{
    (void)state;
    for (int i = 1; i < MEASURES; i++) { /* the chest is always given */
        double client[TAILOR_FIELD_COUNT];
        size_t count = 0;
        tailor_fault fault;
        whole(client);
        client[bespoke[i]] = NAN;
        tailor_coat *coat = coat_of(client);
        const int32_t *missing = tailor_coat_toile_fields(coat, &count);
        assert_int_equal(count, 1);
        assert_int_equal(missing[0], bespoke[i]);
        assert_int_equal(tailor_coat_caution(coat, 0, &fault), TAILOR_CAUTION_CLASS_CAUTION);
        assert_int_equal(fault.index, TAILOR_CAUTION_TOILE_ONLY);
        assert_close(fault.value, 1, 0);
        assert_int_equal(tailor_pattern_toile_only(tailor_coat_pattern(coat)), 1);
        tailor_coat_free(coat);
    }
}

/** A pattern that is taken over is for a toile only when the order is, or when it was drafted so: measuring it as the
 *  coat of a man who is known is no new draft. */
static void test_taken_over(void **state)
{
    double known[TAILOR_FIELD_COUNT], little[TAILOR_FIELD_COUNT];
    (void)state;
    whole(known);
    tailor_fields_clear(little, TAILOR_FIELD_COUNT);
    little[TAILOR_FIELD_CHEST_GIRTH] = known[TAILOR_FIELD_CHEST_GIRTH];
    tailor_coat *const coats[] = {coat_of(known), coat_of(little)};
    for (int order = 0; order < 2; order++)
        for (int pattern = 0; pattern < 2; pattern++) {
            const tailor_pattern *const from = tailor_coat_pattern(coats[pattern]);
            tailor_coat *taken = NULL;
            const tailor_coat *const asked = coats[order];
            tailor_coat_of_pattern(NULL, tailor_coat_fields(asked, NULL), tailor_coat_origins(asked, NULL),
                                   TAILOR_FIELD_COUNT, from, &taken, NULL);
            assert_non_null(taken);
            assert_int_equal(tailor_coat_toile_fields(taken, NULL) != NULL, order);
            assert_int_equal(tailor_pattern_toile_only(tailor_coat_pattern(taken)), order || pattern);
            assert_int_equal(tailor_pattern_toile_only(from), pattern); /* the caller's stays as it is */
            tailor_coat_free(taken);
        }
    tailor_coat_free(coats[0]);
    tailor_coat_free(coats[1]);
}

int test_toile(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_none_missing), cmocka_unit_test(test_each_alone),
                                       cmocka_unit_test(test_taken_over)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

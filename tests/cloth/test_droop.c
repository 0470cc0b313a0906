/* The droop of a strip: what is refused, there and back, and that more weight hangs lower. */
#include <tailorgeom/cloth.h>
#include "base/near.h"

static double between(uint64_t *state, double low, double high) { return low * pow(high / low, next_random(state)); }

static void droop_refusals(void **state)
{
    (void)state;
    double droop[TAILOR_DROOP_COUNT] = {7, 7}, length = 7;
    tailor_fault fault;
    static const struct {
        double weight, load, rise;
        int status;
    } bad[] = {{NAN, 0, 0, TAILOR_NOT_FINITE},     {1, INFINITY, 0, TAILOR_NOT_FINITE},
               {1, 0, NAN, TAILOR_NOT_FINITE},     {-1, 2, 0, TAILOR_OUT_OF_RANGE},
               {1, -1e-9, 0, TAILOR_OUT_OF_RANGE}, {8001, 0, 0, TAILOR_OUT_OF_RANGE},
               {1, 0, 90.01, TAILOR_OUT_OF_RANGE}, {1, 0, -90, TAILOR_OUT_OF_RANGE}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_int_equal(
            tailor_cloth_elastica_hang(bad[i].weight, bad[i].load, bad[i].rise, droop, TAILOR_DROOP_COUNT, &fault),
            bad[i].status);
    assert_int_equal(tailor_cloth_droop(20, 401, 0, droop, TAILOR_DROOP_COUNT, &fault), TAILOR_OUT_OF_RANGE);
    assert_string_equal(fault.sentence, "an overhang of 401 mm is more than 20 bending lengths, 400 mm");
    assert_int_equal(tailor_cloth_droop(0, 1, 0, droop, TAILOR_DROOP_COUNT, &fault), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_cloth_droop(20, -1, 0, droop, TAILOR_DROOP_COUNT, &fault), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_cloth_droop(NAN, 1, 0, droop, TAILOR_DROOP_COUNT, &fault), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_cloth_droop(20, 30, 0, NULL, TAILOR_DROOP_COUNT, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_cloth_droop_bending_length(40, 0, &length, &fault), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_cloth_droop_bending_length(40, 90, &length, &fault), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_cloth_droop_bending_length(40, NAN, &length, &fault), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_cloth_droop_bending_length(INFINITY, 40, &length, &fault), TAILOR_NOT_FINITE);
    assert_int_equal(tailor_cloth_droop_bending_length(-40, 40, &length, &fault), TAILOR_OUT_OF_RANGE);
    assert_int_equal(tailor_cloth_droop_bending_length(40, 40, NULL, &fault), TAILOR_BAD_ARGUMENT);
    assert_near(droop[1], 7, 0);
    assert_near(length, 7, 0);
}

static void droop_there_and_back(void **state)
{
    (void)state;
    uint64_t dice = 5;
    for (int i = 0; i < 40; i++) {
        const double length = between(&dice, 5, 60), overhang = length * between(&dice, 0.3, 12);
        double droop[TAILOR_DROOP_COUNT], found;
        assert_int_equal(tailor_cloth_droop(length, overhang, 0, droop, TAILOR_DROOP_COUNT, NULL), TAILOR_OK);
        assert_near(hypot(droop[TAILOR_DROOP_REACH], droop[TAILOR_DROOP_DROP]) <= overhang, 1, 0);
        assert_int_equal(tailor_cloth_droop_bending_length(overhang, droop[TAILOR_DROOP_CHORD_ANGLE], &found, NULL),
                         TAILOR_OK);
        assert_near(found / length, 1, 1e-7);
    }
}

/* The longer the overhang, the steeper it hangs; a load does the same; straight without either. */
static void droop_is_monotone(void **state)
{
    (void)state;
    static const double rises[] = {-80, -30, 0, 30, 60, 85};
    for (size_t r = 0; r < 6; r++) {
        double before = -rises[r] - 1e-9, loaded = before, droop[TAILOR_DROOP_COUNT];
        for (double weight = 0; weight <= 6000; weight = weight * 1.5 + 0.01) {
            assert_int_equal(tailor_cloth_elastica_hang(weight, 0, rises[r], droop, TAILOR_DROOP_COUNT, NULL),
                             TAILOR_OK);
            assert_true(droop[TAILOR_DROOP_CHORD_ANGLE] > before && droop[TAILOR_DROOP_TIP_ANGLE] <= 90);
            before = droop[TAILOR_DROOP_CHORD_ANGLE];
            assert_int_equal(tailor_cloth_elastica_hang(0, weight, rises[r], droop, TAILOR_DROOP_COUNT, NULL),
                             TAILOR_OK);
            assert_true(droop[TAILOR_DROOP_CHORD_ANGLE] > loaded);
            loaded = droop[TAILOR_DROOP_CHORD_ANGLE];
        }
        assert_int_equal(tailor_cloth_elastica_hang(0, 0, rises[r], droop, TAILOR_DROOP_COUNT, NULL), TAILOR_OK);
        assert_near(droop[TAILOR_DROOP_CHORD_ANGLE], -rises[r], 1e-12);
    }
    for (double weight = 7.9; weight < 8000; weight *= 1.4) { /* upright ones fold over, ever lower */
        double droop[TAILOR_DROOP_COUNT];
        assert_int_equal(tailor_cloth_elastica_hang(weight, 0, 90, droop, TAILOR_DROOP_COUNT, NULL), TAILOR_OK);
        assert_true(droop[TAILOR_DROOP_TIP_ANGLE] > -90 && droop[TAILOR_DROOP_REACH] > 0);
    }
}

int test_droop(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(droop_refusals),
        cmocka_unit_test(droop_there_and_back),
        cmocka_unit_test(droop_is_monotone),
    };
    return cmocka_run_group_tests_name("cloth_droop", tests, NULL, NULL);
}

/* Ten thousand plausible men with styles from the middle of their ranges: nearly all of them get their coat, and no
 * single reason turns many away. */
#include "draft/population.h"

static struct tally tally;

static void plausible_men_get_their_coats(void **state)
{
    (void)state;
    struct dice d = {20260101};
    struct made m;
    const int orders = how_many(2000, 10000);
    for (int n = 0; n < orders; n++) {
        tailor_fields_clear(m.client, TAILOR_FIELD_COUNT);
        draw_body(&d, m.client);
        for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
            if (!is_measure(field))
                m.client[field] = any_value(&d, field, 0.5);
        agree_with_itself(m.client);
        make_client(&m, NULL);
        count_order(&tally, &m);
        unmake(&m);
    }
    print_tally(&tally, "plausible men");
    assert_true(100 * tally.drafted >= 99 * tally.orders);
    for (int i = 0; i < tally.reasons; i++)
        assert_true(100 * tally.reason[i].count <= tally.orders);
}

int test_plausible(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(plausible_men_get_their_coats)};
    return cmocka_run_group_tests_name("plausible", tests, NULL, NULL);
}

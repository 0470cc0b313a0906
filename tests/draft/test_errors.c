/* What drafting refuses: orders on which no coat closes. What is wrong with an order itself: tests/coat/test_errors.c.
 */
#include "draft/drafting.h"
#include "order/accepting.h"

#define F(name) TAILOR_FIELD_##name

/* Orders that are sound value by value, and on which no coat closes: why, and which field says so. */
static const struct {
    struct given order[8];
    int status, field;
} unsolved[] = {
    {{{F(CHEST_GIRTH), 1200}, {F(WAIST_GIRTH), 640}}, TAILOR_WAIST_UNSOLVED, F(WAIST_GIRTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(SEAT_GIRTH), 660}}, TAILOR_WAIST_UNSOLVED, F(SEAT_GIRTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(OVER_SHOULDER), 390}}, TAILOR_SHOULDER_UNSOLVED, F(OVER_SHOULDER)},
    {{{F(CHEST_GIRTH), 1000}, {F(FRONT_SHOULDER), 450}}, TAILOR_SHOULDER_UNSOLVED, F(FRONT_SHOULDER)},
    {{{F(CHEST_GIRTH), 1000}, {F(FRONT_WAIST_LENGTH), 660}}, TAILOR_SHOULDER_UNSOLVED, F(FRONT_WAIST_LENGTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(BACK_WIDTH), 260}, {F(NECK_GIRTH), 490}, {F(CROSS_CHEST), 360}},
     TAILOR_SHOULDER_UNSOLVED,
     F(BACK_WIDTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(UPPER_ARM_GIRTH), 490}}, TAILOR_SLEEVE_UNSOLVED, F(UPPER_ARM_GIRTH)},
    {{{F(CHEST_GIRTH), 1000}, {F(BUTTON_STAND), 13}, {F(BUTTON_DIAMETER), 21}}, TAILOR_FRONT_UNSOLVED, F(BUTTON_STAND)},
    {{{F(CHEST_GIRTH), 1000}, {F(SEAT_LEVEL), 630}, {F(COAT_LENGTH), 655}, {F(BUTTON_SPACING), 130}},
     TAILOR_FRONT_UNSOLVED,
     F(COAT_LENGTH)},
    {{{F(CHEST_GIRTH), 1000},
      {F(BACK_WAIST_LENGTH), 350},
      {F(BUTTONING), TAILOR_BUTTONING_THREE_BUTTON},
      {F(BUTTON_SPACING), 130},
      {F(WAIST_BUTTON_RISE), 40},
      {F(BREAK_RISE), 30},
      {F(GORGE_DEPTH), 85}},
     TAILOR_FRONT_UNSOLVED,
     F(BUTTON_SPACING)},
    {{{F(CHEST_GIRTH), 1000}, {F(COLLAR_FALL), 58}, {F(COLLAR_STAND), 20}, {F(CLOTH_THICKNESS), 3}},
     TAILOR_COLLAR_UNSOLVED,
     F(COLLAR_FALL)},
};

static void orders_on_which_no_coat_closes(void **state)
{
    (void)state;
    static struct made m;
    for (size_t i = 0; i < sizeof unsolved / sizeof *unsolved; i++) {
        make(&m, unsolved[i].order);
        if (m.status != unsolved[i].status)
            fail_msg("order %zu: %s, not %s: %s", i, tailor_status_name(m.status),
                     tailor_status_name(unsolved[i].status), m.fault.sentence);
        assert_null(m.coat);
        assert_int_equal(m.fault.table, TAILOR_TABLE_FIELD);
        assert_int_equal(m.fault.index, unsolved[i].field);
        assert_close(m.fault.value, m.row[unsolved[i].field], 0);
        const char *name = tailor_table_text(tailor_field_table(), unsolved[i].field, TAILOR_COLUMN_NAME);
        assert_int_equal(strncmp(m.fault.sentence, name, strlen(name)), 0);
        /* what resolving gave passes the predicate: it is the draft that refuses */
        assert_int_equal(accept_row(m.row, TAILOR_FIELD_COUNT, NULL), TAILOR_OK);
    }
}

int test_errors(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(orders_on_which_no_coat_closes),
    };
    return cmocka_run_group_tests_name("errors of drafting", tests, NULL, NULL);
}

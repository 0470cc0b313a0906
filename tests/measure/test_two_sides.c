/* A coat whose sides differ is judged by its worse side: each check has the value of that of its two sides, drafted as
 * if the figure were so all round, which has less left to its limit. */
#include "draft/drafting.h"

/** Notes of one side, and the same of both. A low shoulder is not among them: how it lies depends on the other one. */
static const struct {
    int left, both;
    double most;
} notes[] = {
    {TAILOR_FIELD_FORWARD_SHOULDER_LEFT, TAILOR_FIELD_FORWARD_SHOULDER, 8},
    {TAILOR_FIELD_LOW_HIP_LEFT, TAILOR_FIELD_LOW_HIP, 8},
};
enum { NOTES = sizeof notes / sizeof *notes };

static tailor_coat *coat_of(const double *client)
{
    tailor_coat *coat = NULL;
    if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL) == TAILOR_OK)
        return coat;
    tailor_coat_free(coat);
    return NULL;
}

static double spare(const tailor_coat *coat, int check, double *value)
{
    double limit;
    tailor_coat_check(coat, check, value, &limit);
    return tailor_check_sense(check) > 0 ? limit - *value : *value - limit;
}

/** Counts the checks that the left, or the right, decides. */
static void compare(const tailor_coat *unlike, const tailor_coat *left, const tailor_coat *right, int decided[2])
{
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
        double value, by_left, by_right;
        double of_left = spare(left, check, &by_left), of_right = spare(right, check, &by_right);
        if (isnan(of_left) || isnan(of_right) || fabs(of_left - of_right) < 1e-4)
            continue;
        spare(unlike, check, &value);
        assert_close(value, of_left < of_right ? by_left : by_right, 1e-6);
        decided[of_right < of_left]++;
    }
}

static void the_worse_side_decides(void **state)
{
    struct dice d = {2026};
    int coats = 0, decided[2] = {0, 0};
    (void)state;
    for (int i = 0; i < how_many(1500, 20000); i++) {
        double client[3][TAILOR_FIELD_COUNT];
        int which = i % NOTES, lower = i / NOTES % 2; /* the side with the note is the left, or both but the left */
        double by = between(&d, 2, notes[which].most), chest = between(&d, 900, 1150);
        for (int k = 0; k < 3; k++) {
            tailor_fields_clear(client[k], TAILOR_FIELD_COUNT);
            client[k][TAILOR_FIELD_CHEST_GIRTH] = chest;
            client[k][TAILOR_FIELD_BUTTONING] = 1 + i % 7;
        }
        client[0][notes[which].left] = lower ? 0 : by;
        client[0][notes[which].both] = lower ? by : 0;
        client[1][notes[which].both] = lower ? 0 : by;
        client[2][notes[which].both] = lower ? by : 0;
        tailor_coat *coat[3];
        for (int k = 0; k < 3; k++)
            coat[k] = coat_of(client[k]);
        if (coat[0] && coat[1] && coat[2] && tailor_coat_quantity(coat[0], TAILOR_QUANTITY_SCYE_DEEPENED) < 1e-6) {
            compare(coat[0], coat[1], coat[2], decided);
            coats++;
        }
        for (int k = 0; k < 3; k++)
            tailor_coat_free(coat[k]);
    }
    print_message("# %d coats; the left decided %d checks, the right %d\n", coats, decided[0], decided[1]);
    assert_true(coats > 500 && decided[0] > 500 && decided[1] > 500);
}

int test_two_sides(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_worse_side_decides)};
    return cmocka_run_group_tests_name("two sides", tests, NULL, NULL);
}

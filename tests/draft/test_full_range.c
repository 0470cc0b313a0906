/* Ten thousand orders drawn over the full ranges of the tables, and as many plausible bodies with styles of any kind.
 * The draft completes or refuses for a reason that can be said: never a crash, never a coat that does not close. */
#include "../../lib/base/table.h" /* for the field that a check is about: the public table does not tell it */
#include "draft/population.h"

/* The reasons that may refuse an order. Every other status is a fault of the library. */
static const int reasons[] = {
    TAILOR_OUT_OF_RANGE, /* a default, found from extreme values, leaves its range */
    TAILOR_CONTRADICTION, TAILOR_FRAME_UNSOLVED, TAILOR_WAIST_UNSOLVED,  TAILOR_SHOULDER_UNSOLVED,
    TAILOR_SCYE_UNSOLVED, TAILOR_FRONT_UNSOLVED, TAILOR_SLEEVE_UNSOLVED, TAILOR_COLLAR_UNSOLVED,
    TAILOR_CHECK_FAILED, /* a check of the group limit: the coat closes, but a cutter would not chalk it */
};

static int pinned(int status)
{
    for (size_t i = 0; i < sizeof reasons / sizeof *reasons; i++)
        if (status == reasons[i])
            return 1;
    return 0;
}

/** The fault of a refusal: a pinned reason, a field, a value, a sentence in which nothing was cut. */
static void assert_said(const struct made *m)
{
    const tailor_fault *fault = &m->fault;
    if (!pinned(m->status) || fault->status != m->status)
        fail_msg("%s: %s", tailor_status_name(m->status), fault->sentence);
    int field = fault->index;
    if (fault->table == TAILOR_TABLE_CHECK) {
        assert_int_equal(m->status, TAILOR_CHECK_FAILED);
        const tailor_in_row *check = tailor_in_table_row(tailor_check_table(), fault->index);
        assert_non_null(check);
        assert_non_null(strstr(fault->sentence, check->texts[TAILOR_COLUMN_NAME - 1]));
        field = check->field;
    } else {
        assert_int_equal(fault->table, TAILOR_TABLE_FIELD);
    }
    const char *name = tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
    assert_string_not_equal(name, "");
    if (fault->table == TAILOR_TABLE_FIELD ? strncmp(fault->sentence, name, strlen(name)) != 0
                                           : strstr(fault->sentence, name) == NULL)
        fail_msg("the sentence does not name its field, %s: %s", name, fault->sentence);
    assert_in_range(strlen(fault->sentence), 20, sizeof fault->sentence - 2);
    if (strstr(fault->sentence, "nan") || strstr(fault->sentence, "inf "))
        fail_msg("no number: %s", fault->sentence);
    assert_true(isfinite(fault->value));
}

/** Are there pieces of one side alone? */
static int has_sides(const struct made *m)
{
    for (int i = 0; i < tailor_pattern_piece_count(m->coat); i++)
        if (!tailor_piece_mirrored(m->coat, i))
            return 1;
    return 0;
}

/* Checks and quantities that do not exist for every coat, and those which then have to be there. */
static int check_may_be_missing(const struct made *m, int check)
{
    switch (check) {
    case TAILOR_CHECK_FRONT_SHOULDER_ERROR: return isnan(m->row[TAILOR_FIELD_FRONT_SHOULDER]);
    case TAILOR_CHECK_OVER_SHOULDER_ERROR: return isnan(m->row[TAILOR_FIELD_OVER_SHOULDER]);
    case TAILOR_CHECK_FRONT_WAIST_LENGTH_ERROR: return isnan(m->row[TAILOR_FIELD_FRONT_WAIST_LENGTH]);
    case TAILOR_CHECK_FRONTS_PART_LEAST: return m->row[TAILOR_FIELD_FRONT_CUT] > TAILOR_FRONT_CUT_ROUND;
    case TAILOR_CHECK_BELLY_LENGTH_LEAST: return m->q[TAILOR_QUANTITY_BELLY_ALLOWANCE] <= 0.01;
    case TAILOR_CHECK_SHOW_BUTTON_MIRROR: return m->row[TAILOR_FIELD_BUTTONING] < TAILOR_BUTTONING_DOUBLE_FOUR;
    case TAILOR_CHECK_SIDES_MEET: return !has_sides(m);
    case TAILOR_CHECK_FACING_TURN_ERROR:
    case TAILOR_CHECK_TOP_COLLAR_TURN_ERROR:
    case TAILOR_CHECK_LINING_ERROR: return 1; /* of pieces that only tailor_coat_make() draws */
    default: return 0;
    }
}

static int rolls(const struct made *m)
{
    const double buttoning = m->row[TAILOR_FIELD_BUTTONING];
    return buttoning >= TAILOR_BUTTONING_THREE_BUTTON && buttoning < TAILOR_BUTTONING_DOUBLE_FOUR;
}

static int breaks_high(const struct made *m)
{
    const double buttoning = m->row[TAILOR_FIELD_BUTTONING];
    return buttoning == TAILOR_BUTTONING_THREE_BUTTON || buttoning == TAILOR_BUTTONING_ROLL_BY_MAKE;
}

static int quantity_may_be_missing(const struct made *m, int quantity)
{
    switch (quantity) {
    case TAILOR_QUANTITY_COVERAGE_SCYE_ROLLED:
    case TAILOR_QUANTITY_COVERAGE_TOP_BUTTON_ROLLED:
        return !rolls(m);
    case TAILOR_QUANTITY_HOLE_2_FACE:
    case TAILOR_QUANTITY_HOLE_2_SHOWS: return m->q[TAILOR_QUANTITY_HOLE_COUNT] < 2;
    case TAILOR_QUANTITY_HOLE_3_FACE:
    case TAILOR_QUANTITY_HOLE_3_SHOWS: return m->q[TAILOR_QUANTITY_HOLE_COUNT] < 3;
    case TAILOR_QUANTITY_HOLE_1_SHOWS_ROLLED:
    case TAILOR_QUANTITY_HOLE_2_SHOWS_ROLLED:
    case TAILOR_QUANTITY_HOLE_3_SHOWS_ROLLED: return !rolls(m);
    case TAILOR_QUANTITY_BRIDLE_TENSION:
    case TAILOR_QUANTITY_BUTTONHOLE_RATIO: return !breaks_high(m);
    case TAILOR_QUANTITY_ROLL_CLASS:
    case TAILOR_QUANTITY_ROLL_DISTANCE:
    case TAILOR_QUANTITY_ROLL_BAND: /* outside the range of its law the estimate gives no number */
        return !breaks_high(m) || isnan(m->q[TAILOR_QUANTITY_ROLL_CLASS]);
    case TAILOR_QUANTITY_ROLL_HEIGHT:
    case TAILOR_QUANTITY_ROLL_RADIUS:
    case TAILOR_QUANTITY_LAPEL_LIES: return 1; /* a limp or a board-like cloth has no section that can be found */
    case TAILOR_QUANTITY_HOLE_BAR:
    case TAILOR_QUANTITY_HOLE_BAR_FROM_BREAK:
        return 1; /* only where a hole worked on both sides lies on the lapel that rolls through */
    default: return 0;
    }
}

/** What is wrong with a drafted coat: a check of the group closure that fails, a check or quantity that is silently
 *  missing. NULL when nothing is. */
static const char *does_not_close(const struct made *m)
{
    const tailor_table *checks = tailor_check_table(), *quantities = tailor_quantity_table();
    for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
        const int closure = strcmp(tailor_table_text(checks, check, TAILOR_COLUMN_GROUP), "closure") == 0;
        const int passes = tailor_check_passes(check, m->value[check], m->limit[check]);
        if ((closure && passes == 0) || (passes < 0 && !check_may_be_missing(m, check)))
            return tailor_table_text(checks, check, TAILOR_COLUMN_NAME);
    }
    for (int quantity = 1; quantity < TAILOR_QUANTITY_COUNT; quantity++)
        if (!isfinite(m->q[quantity]) && !quantity_may_be_missing(m, quantity))
            return tailor_table_text(quantities, quantity, TAILOR_COLUMN_NAME);
    return NULL;
}

/** Print an order so that it can be tried by hand: a card's lines. */
static void print_order(const struct made *m)
{
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
        if (!isnan(m->client[field]))
            print_error("#     %s = %.3f\n", tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME),
                        m->client[field]);
}

/** Look over what became of an order; returns 1 for a coat that does not close, and prints the first few of them. */
static int look_over(const struct made *m, int broken_before)
{
    if (m->status != TAILOR_OK)
        assert_said(m);
    if (!m->coat) {
        assert_true(m->status != TAILOR_OK && m->status != TAILOR_CHECK_FAILED);
        return 0;
    }
    const char *what = does_not_close(m);
    if (what && broken_before < 3) {
        print_error("# %s does not hold, or is missing:\n", what);
        print_order(m);
    }
    return what != NULL;
}

static void draw_order(struct dice *d, struct made *m, int plausible_body, double share, double part)
{
    tailor_fields_clear(m->client, TAILOR_FIELD_COUNT);
    m->client[TAILOR_FIELD_CHEST_GIRTH] = any_value(d, TAILOR_FIELD_CHEST_GIRTH, 1);
    if (plausible_body)
        draw_body(d, m->client);
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
        if (field != TAILOR_FIELD_CHEST_GIRTH && !(plausible_body && is_measure(field)) && even(d) < share)
            m->client[field] = any_value(d, field, part);
    agree_with_itself(m->client);
}

/** Draft many orders; print the refusals; the number of those drafted with all checks passing. */
static void draft_many(uint64_t seed, const char *what, int plausible_body, double most, double part,
                       struct tally *tally)
{
    struct dice d = {seed};
    struct made m;
    const int orders = how_many(2000, 10000);
    int broken = 0;
    memset(tally, 0, sizeof *tally);
    for (int n = 0; n < orders; n++) {
        draw_order(&d, &m, plausible_body, most < 0 ? -most * even(&d) : most, part);
        make_client(&m, NULL);
        broken += look_over(&m, broken);
        count_order(tally, &m);
        unmake(&m);
    }
    print_tally(tally, what);
    assert_int_equal(broken, 0);
}

static struct tally tally;

static void any_order(void **state)
{
    (void)state;
    draft_many(11, "any order, each field given half the time", 0, 0.5, 1, &tally);
    assert_true(tally.drafted < tally.orders); /* nearly all contradict themselves */
}

static void any_order_with_few_fields_given(void **state)
{
    (void)state;
    draft_many(12, "any order, up to a fifth of the fields given", 0, -0.2, 1, &tally);
    assert_in_range(tally.drafted, tally.orders / 20, tally.orders - tally.orders / 20); /* both sides were tried */
}

static void any_style_on_a_plausible_body(void **state)
{
    (void)state;
    draft_many(13, "a plausible body, styles of any kind", 1, 0.5, 1, &tally);
    assert_in_range(tally.drafted, tally.orders / 4, tally.orders - tally.orders / 50);
}

/** Fields at the ends of their ranges, where slips of an inequality hide. */
static void ends_of_the_ranges(void **state)
{
    (void)state;
    struct dice d = {14};
    struct made m;
    const int orders = how_many(2000, 10000);
    int broken = 0;
    memset(&tally, 0, sizeof tally);
    for (int n = 0; n < orders; n++) {
        tailor_fields_clear(m.client, TAILOR_FIELD_COUNT);
        m.client[TAILOR_FIELD_CHEST_GIRTH] = between(&d, 800, 1300);
        for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
            if (!is_measure(field) && even(&d) < 0.3)
                m.client[field] = even(&d) < 0.5 ? tailor_table_low(tailor_field_table(), field)
                                                 : tailor_table_high(tailor_field_table(), field);
        agree_with_itself(m.client);
        make_client(&m, NULL);
        broken += look_over(&m, broken);
        count_order(&tally, &m);
        unmake(&m);
    }
    print_tally(&tally, "styles at the ends of their ranges");
    assert_int_equal(broken, 0);
    assert_true(tally.drafted > tally.orders / 10);
}

int test_full_range(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_order),
        cmocka_unit_test(any_order_with_few_fields_given),
        cmocka_unit_test(any_style_on_a_plausible_body),
        cmocka_unit_test(ends_of_the_ranges),
    };
    return cmocka_run_group_tests_name("full range", tests, NULL, NULL);
}

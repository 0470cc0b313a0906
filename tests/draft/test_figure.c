/* Notes on the figure: each is monotone in what it is for, leaves alone what it is not for, and is nothing at 0. */
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name
#define QUANTITY(name) TAILOR_QUANTITY_##name

enum { STEPS = 9, MOST = 20 };

/* `grows` by `rises` (its sign counts) over the note's range; `still` stays to a hundredth of a mm. Beside a factor of
 * the recipe stands what the geometry makes of it. */
static const struct note {
    int field, grows;
    double rises;
    int still[MOST];
} notes[] = {
    {F(STOOP), QUANTITY(SCYE_DEPTH_DRAFTED), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(SUPPRESSION),
      QUANTITY(FRONT_HEM_BELOW_BACK)}},
    {F(STOOP), QUANTITY(FRONT_SHOULDER_DRAFTED), -1, {0}},
    {F(STOOP), QUANTITY(CROSS_BACK_FINISHED), 1, {0}},
    {F(STOOP), QUANTITY(CROSS_CHEST_FINISHED), -1, {0}},
    {F(NECK_LENGTH), QUANTITY(FRONT_SHOULDER_DRAFTED), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(FINISHED_LENGTH), QUANTITY(SCYE_DEPTH_DRAFTED),
      QUANTITY(SCYE_WIDTH), QUANTITY(CROSS_BACK_FINISHED), QUANTITY(TOP_BUTTON_LEVEL)}},
    {F(LOW_SHOULDER), QUANTITY(SCYE_DEPTH_DRAFTED), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(FINISHED_LENGTH),
      QUANTITY(BACK_SHOULDER_LENGTH), QUANTITY(FRONT_SHOULDER_LENGTH), QUANTITY(BACK_NECK_LENGTH),
      QUANTITY(NECK_SEAM_LENGTH), QUANTITY(COLLAR_LEAF_LENGTH), QUANTITY(TOTAL_CROOK), QUANTITY(COVERAGE_SCYE),
      QUANTITY(BREAK_LENGTH), QUANTITY(FRONT_SHOULDER_DRAFTED), QUANTITY(SCYE_WIDTH)}},
    {F(LOW_SHOULDER), QUANTITY(OVER_SHOULDER_DRAFTED), -1, {0}},
    {F(FORWARD_SHOULDER), QUANTITY(CROWN_HEIGHT), -1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(FINISHED_LENGTH), QUANTITY(BACK_SHOULDER_LENGTH),
      QUANTITY(FRONT_SHOULDER_LENGTH), QUANTITY(NECK_SEAM_LENGTH), QUANTITY(TOTAL_CROOK), QUANTITY(COVERAGE_SCYE),
      QUANTITY(SCYE_DEPTH_DRAFTED), QUANTITY(CROSS_BACK_FINISHED)}},
    {F(PROMINENT_BLADES), QUANTITY(CROSS_BACK_FINISHED), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(FINISHED_LENGTH),
      QUANTITY(CROSS_CHEST_FINISHED), QUANTITY(SCYE_DEPTH_DRAFTED), QUANTITY(HOLLOW)}},
    {F(PROMINENT_BLADES), QUANTITY(BACK_SHOULDER_LENGTH), 1, {0}},
    {F(CHEST_FULLNESS), QUANTITY(TOTAL_CROOK), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(FINISHED_LENGTH),
      QUANTITY(BACK_SHOULDER_LENGTH), QUANTITY(CROSS_BACK_FINISHED), QUANTITY(CROSS_CHEST_FINISHED),
      QUANTITY(SCYE_DEPTH_DRAFTED), QUANTITY(HOLLOW), QUANTITY(DART_WIDTH)}},
    {F(CHEST_FULLNESS), QUANTITY(FRONT_SHOULDER_DRAFTED), 1, {0}},
    {F(BELLY), QUANTITY(BELLY_ALLOWANCE), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(BACK_SHOULDER_LENGTH),
      QUANTITY(CROSS_BACK_FINISHED), QUANTITY(CROSS_CHEST_FINISHED), QUANTITY(SCYE_DEPTH_DRAFTED)}},
    {F(SWAY_BACK), QUANTITY(HOLLOW), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(CROSS_BACK_FINISHED),
      QUANTITY(CROSS_CHEST_FINISHED), QUANTITY(SCYE_DEPTH_DRAFTED), QUANTITY(SUPPRESSION), QUANTITY(DART_WIDTH)}},
    {F(SWAY_BACK), QUANTITY(FRONT_SHOULDER_DRAFTED), 1, {0}},
    {F(LOW_HIP), QUANTITY(CLOTH_AREA), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(FINISHED_LENGTH),
      QUANTITY(SCYE_LENGTH), QUANTITY(CROWN_HEIGHT), QUANTITY(NECK_SEAM_LENGTH), QUANTITY(TOTAL_CROOK),
      QUANTITY(COVERAGE_SCYE), QUANTITY(FRONT_HEM_BELOW_BACK), QUANTITY(SLEEVE_LENGTH)}},
    {F(ARM_PITCH), QUANTITY(SLEEVE_HANG), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HALF_GIRTH_WAIST), QUANTITY(HALF_GIRTH_SEAT), QUANTITY(FINISHED_LENGTH),
      QUANTITY(SCYE_LENGTH), QUANTITY(CROWN_LENGTH), QUANTITY(NECK_SEAM_LENGTH), QUANTITY(TOTAL_CROOK),
      QUANTITY(COVERAGE_SCYE), QUANTITY(SLEEVE_LENGTH), QUANTITY(SLEEVE_HALF_WIDTH)}},
    {F(SIDE_LET_OUT), QUANTITY(HALF_GIRTH_WAIST), 1,
     {QUANTITY(HALF_GIRTH_SCYE), QUANTITY(HOLLOW), QUANTITY(DART_WIDTH), QUANTITY(BACK_SHOULDER_LENGTH),
      QUANTITY(NECK_SEAM_LENGTH), QUANTITY(TOTAL_CROOK), QUANTITY(COVERAGE_SCYE), QUANTITY(FINISHED_LENGTH)}},
    {F(SIDE_LET_OUT), QUANTITY(HALF_GIRTH_SEAT), 1, {0}},
};
enum { NOTES = sizeof notes / sizeof *notes };

static const char *quantity_name(int quantity)
{
    return tailor_table_text(tailor_quantity_table(), quantity, TAILOR_COLUMN_NAME);
}

static void try_note(const struct note *note, double chest, double drop, double stature)
{
    static struct made step[STEPS];
    const double low = tailor_table_low(tailor_field_table(), note->field);
    const double high = tailor_table_high(tailor_field_table(), note->field);
    const char *name = tailor_table_text(tailor_field_table(), note->field, TAILOR_COLUMN_NAME);
    for (int i = 0; i < STEPS; i++) {
        double value = low + (high - low) * i / (STEPS - 1);
        if (note->field == F(BELLY)) /* as much as the figure may have */
            value = fmin(0.3 * (200 - drop), high) * i / (STEPS - 1);
        if (make(&step[i], ORDER({F(CHEST_GIRTH), chest}, {F(WAIST_GIRTH), chest - drop}, {F(STATURE), stature},
                                 {note->field, value})) != TAILOR_OK)
            fail_msg("chest %.0f, drop %.0f, %s %.2f: %s", chest, drop, name, value, step[i].fault.sentence);
    }
    for (int i = 1; i < STEPS; i++) {
        const double rises = step[i].q[note->grows] - step[i - 1].q[note->grows];
        if (!(rises * note->rises > 1e-6))
            fail_msg("%s %d: %s goes from %.6f to %.6f", name, i, quantity_name(note->grows),
                     step[i - 1].q[note->grows], step[i].q[note->grows]);
        for (const int *still = note->still; *still; still++)
            if (!(fabs(step[i].q[*still] - step[0].q[*still]) <= 0.01))
                fail_msg("%s moves %s from %.4f to %.4f", name, quantity_name(*still), step[0].q[*still],
                         step[i].q[*still]);
    }
    for (int i = 0; i < STEPS; i++)
        unmake(&step[i]);
}

static void each_note_does_its_own_work(void **state)
{
    (void)state;
    for (int i = 0; i < NOTES; i++) {
        try_note(&notes[i], 1000, 120, 1780);
        try_note(&notes[i], 920, 130, 1700);
        try_note(&notes[i], 1120, 125, 1880);
    }
}

/** The bottom of the scye goes with a low shoulder, so that the scye stays as long: within 2 mm (the recipe's own
 *  limit: common practice), more or less of shoulder, on any figure. */
static void a_low_shoulder_keeps_the_scye(void **state)
{
    (void)state;
    for (double chest = 880; chest <= 1240; chest += 60) {
        struct made plain, low;
        must_make(&plain, ORDER({F(CHEST_GIRTH), chest}));
        for (double note = -12; note <= 20; note += 4) {
            must_make(&low, ORDER({F(CHEST_GIRTH), chest}, {F(LOW_SHOULDER), note}));
            assert_at_most(fabs(low.q[QUANTITY(SCYE_LENGTH)] - plain.q[QUANTITY(SCYE_LENGTH)]), 2);
            unmake(&low);
        }
        unmake(&plain);
    }
}

/** Stoop is a change of balance: the back gains and the front loses, together by the whole of it. */
static void stoop_is_balance(void **state)
{
    (void)state;
    struct made plain, stooping;
    must_make(&plain, ORDER({F(CHEST_GIRTH), 1000}, {F(STATURE), 1780}));
    must_make(&stooping, ORDER({F(CHEST_GIRTH), 1000}, {F(STATURE), 1780}, {F(STOOP), 10}));
    const double back = stooping.q[QUANTITY(SCYE_DEPTH_DRAFTED)] - plain.q[QUANTITY(SCYE_DEPTH_DRAFTED)];
    const double front_before = POINT(&plain, FOREPART, NECK_POINT).y - POINT(&plain, FOREPART, SCYE_FRONT).y;
    const double front = POINT(&stooping, FOREPART, NECK_POINT).y - POINT(&stooping, FOREPART, SCYE_FRONT).y;
    assert_close(back, 6, 1e-9);
    assert_close(front_before - front, 4, 2.5); /* and what the crook, less by 5, swings it down */
    /* The ordered length stays the ordered length: the hem is level again. */
    assert_close(stooping.row[F(COAT_LENGTH)], plain.row[F(COAT_LENGTH)], 0);
    assert_close(stooping.q[QUANTITY(FINISHED_LENGTH)], plain.q[QUANTITY(FINISHED_LENGTH)], 0.5);
    unmake(&plain);
    unmake(&stooping);
}

/** Notes that stack up leave the crown its rise behind: its top stands 35 mm above the back pitch. */
static void stacked_notes_leave_a_crown(void **state)
{
    (void)state;
    struct dice d = {8};
    double least = INFINITY;
    int tried = 0;
    for (int n = 0; n < how_many(600, 6000); n++) {
        static const int stacked[] = {F(STOOP), F(PROMINENT_BLADES), F(FORWARD_SHOULDER), F(ARM_PITCH)};
        struct made m;
        tailor_fields_clear(m.client, TAILOR_FIELD_COUNT);
        m.client[F(CHEST_GIRTH)] = between(&d, 860, 1250);
        m.client[F(WAIST_GIRTH)] = m.client[F(CHEST_GIRTH)] - between(&d, 20, 150);
        m.client[F(STATURE)] = between(&d, 1600, 1950);
        for (int i = 0; i < 4; i++)
            if (even(&d) < 0.7)
                m.client[stacked[i]] = tailor_table_high(tailor_field_table(), stacked[i]) * (even(&d) < 0.5 ? 0.5 : 1);
        if (make_client(&m, NULL) == TAILOR_OK) {
            tried++;
            least = fmin(least, POINT(&m, TOPSLEEVE, CROWN_NOTCH).y - POINT(&m, TOPSLEEVE, BACK_PITCH).y);
        }
        unmake(&m);
    }
    print_message("# crown: %d drafted, %.2f mm above the back pitch at least\n", tried, least);
    assert_true(tried > 500 && least >= 35);
}

int test_figure(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_note_does_its_own_work),
        cmocka_unit_test(a_low_shoulder_keeps_the_scye),
        cmocka_unit_test(stoop_is_balance),
        cmocka_unit_test(stacked_notes_leave_a_crown),
    };
    return cmocka_run_group_tests_name("figure", tests, NULL, NULL);
}

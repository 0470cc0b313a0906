/* Finished measures follow the body: around several figures, a larger body measure never makes the coat's smaller. */
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name
#define Q(name) TAILOR_QUANTITY_##name

/* What grows with what: within `below` and `above` of the figure's own value, in steps; by at least `least` and at most
 * `most` for each unit of the field. Exact shares where the draft states them. */
static const struct growth {
    int field, quantity;
    double below, above, least, most;
} growths[] = {
    /* girths: the whole of the body's growth, since eases stay */
    {F(CHEST_GIRTH), Q(FINISHED_CHEST), 40, 40, 1 - 1e-6, 1 + 1e-6},
    {F(WAIST_GIRTH), Q(FINISHED_WAIST), 40, 40, 1 - 1e-6, 1 + 1e-6},
    {F(SEAT_GIRTH), Q(FINISHED_SEAT), 40, 40, 1 - 1e-6, 1 + 1e-6},
    {F(BACK_WIDTH), Q(CROSS_BACK_FINISHED), 20, 20, 1 - 1e-6, 1 + 1e-6},
    {F(CROSS_CHEST), Q(CROSS_CHEST_FINISHED), 20, 20, 1 - 1e-6, 1 + 1e-6},
    {F(WAIST_GIRTH), Q(BELLY_ALLOWANCE), 40, 80, 0, 1},
    {F(CHEST_GIRTH), Q(SCYE_WIDTH), 40, 40, 0.01, 0.6},
    {F(CHEST_GIRTH), Q(SCYE_LENGTH), 40, 40, 0.05, 0.9},
    {F(CHEST_GIRTH), Q(SLEEVE_HALF_WIDTH), 40, 40, 0.02, 0.4},
    {F(CHEST_GIRTH), Q(CLOTH_AREA), 40, 40, 100, 6000},
    {F(UPPER_ARM_GIRTH), Q(SLEEVE_HALF_WIDTH), 25, 25, 0, 0.5 + 1e-6},
    {F(NECK_GIRTH), Q(BACK_NECK_LENGTH), 15, 15, 0.1, 0.2},
    {F(NECK_GIRTH), Q(NECK_SEAM_LENGTH), 15, 15, 0.1, 0.4},

    /* lengths */
    {F(STATURE), Q(FINISHED_LENGTH), 40, 40, 0.3, 0.5},
    {F(STATURE), Q(SLEEVE_LENGTH), 40, 40, 0.36, 0.363},
    {F(STATURE), Q(SCYE_LENGTH), 40, 40, 0, 0.2}, /* none where a strong arm decides the scye; so below */
    {F(STATURE), Q(CLOTH_AREA), 40, 40, 100, 3000},
    {F(COAT_LENGTH), Q(FINISHED_LENGTH), 0, 40, 1 - 1e-3, 1 + 1e-3},
    {F(ARM_LENGTH), Q(SLEEVE_LENGTH), 30, 30, 1 - 1e-6, 1 + 1e-6},
    {F(SCYE_DEPTH), Q(SCYE_DEPTH_DRAFTED), 8, 8, 0, 1 + 1e-6},
    {F(SCYE_DEPTH), Q(SCYE_LENGTH), 8, 8, 0, 2.5},
    {F(SCYE_DEPTH), Q(CROWN_HEIGHT), 8, 8, 0, 1.5},
    {F(BACK_WAIST_LENGTH), Q(BREAK_LEVEL), 12, 12, 1 - 1e-6, 1 + 1e-6},
    {F(BACK_WAIST_LENGTH), Q(BREAK_LENGTH), 12, 12, 0.8, 1},
    {F(SHOULDER_SLOPE), Q(SCYE_LENGTH), 3, 3, -9, 0}, /* a sloping shoulder takes from the scye */

    /* ease and style */
    {F(CHEST_EASE), Q(FINISHED_CHEST), 8, 20, 1 - 1e-6, 1 + 1e-6},
    {F(WAIST_EASE), Q(FINISHED_WAIST), 8, 30, 1 - 1e-6, 1 + 1e-6},
    {F(SEAT_EASE), Q(FINISHED_SEAT), 30, 30, 1 - 1e-6, 1 + 1e-6},
    {F(SCYE_DROP), Q(SCYE_LENGTH), 5, 5, 0, 2.5},
    {F(CROWN_FULLNESS), Q(CROWN_FULLNESS), 6, 6, 1 - 1e-6, 1 + 1e-6},
    {F(CROWN_FULLNESS), Q(CROWN_LENGTH), 6, 6, 1 - 1e-6, 1 + 1e-6},
    {F(CROOK), Q(TOTAL_CROOK), 0, 8, 0.9, 1.1},
    {F(BUTTON_SPACING), Q(COVERAGE_TOP_BUTTON), 10, 10, -0.6, 0}, /* the level rises, and the line leans back */
    {F(LAPEL_WIDTH), Q(LAPEL_AREA), 8, 8, 50, 400},
    {F(LAPEL_WIDTH), Q(LAPEL_TIP_TO_SCYE), 8, 8, -1.2, -0.2},
    {F(COLLAR_FALL), Q(COLLAR_LAY_OVER), 4, 6, 0, 5},
    {F(COLLAR_STAND), Q(COLLAR_LAY_OVER), 4, 4, -5, 0},
    {F(GORGE_DEPTH), Q(GORGE_LENGTH), 5, 5, 0, 2},
};
enum { GROWTHS = sizeof growths / sizeof *growths, STEPS = 8 };

static const struct figure {
    const char *name;
    double chest, waist, seat, stature;
} figures[] = {
    {"regular", 1016, 884, 990, 1780}, {"slim", 930, 770, 920, 1760},    {"stout", 1110, 1120, 1110, 1760},
    {"tall", 1000, 850, 990, 1930},    {"short", 1000, 870, 1000, 1640}, {"large", 1240, 1130, 1160, 1820},
};
enum { FIGURES = sizeof figures / sizeof *figures };

static void set_figure(struct made *m, const struct figure *figure)
{
    tailor_fields_clear(m->client, TAILOR_FIELD_COUNT);
    m->client[F(CHEST_GIRTH)] = figure->chest;
    m->client[F(WAIST_GIRTH)] = figure->waist;
    m->client[F(SEAT_GIRTH)] = figure->seat;
    m->client[F(STATURE)] = figure->stature;
}

static double measured(struct made *m, const struct figure *figure, int field, double value, int quantity)
{
    set_figure(m, figure);
    m->client[field] = value;
    /* the other eases of the girths are given, so that no default follows the field in question */
    if (field != F(WAIST_EASE))
        m->client[F(WAIST_EASE)] = m->row[F(WAIST_EASE)];
    make_client(m, NULL);
    if (!m->coat)
        fail_msg("%s, %s %g: %s", figure->name, tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME),
                 value, m->fault.sentence);
    unmake(m);
    return m->q[quantity];
}

static void the_coat_follows_the_body(void **state)
{
    (void)state;
    static struct made own, m;
    int failures = 0;
    for (int f = 0; f < FIGURES; f++) {
        set_figure(&own, &figures[f]);
        if (make_client(&own, NULL) != TAILOR_OK)
            fail_msg("%s: %s", figures[f].name, own.fault.sentence);
        unmake(&own);
        for (int g = 0; g < GROWTHS; g++) {
            const struct growth *growth = &growths[g];
            const double at = own.row[growth->field], low = at - growth->below,
                         step = (growth->below + growth->above) / STEPS;
            m.row[F(WAIST_EASE)] = own.row[F(WAIST_EASE)];
            double before = measured(&m, &figures[f], growth->field, low, growth->quantity);
            for (int i = 1; i <= STEPS; i++) {
                m.row[F(WAIST_EASE)] = own.row[F(WAIST_EASE)];
                const double now = measured(&m, &figures[f], growth->field, low + i * step, growth->quantity);
                const double rate = (now - before) / step;
                if (!(rate >= growth->least - 1e-8 && rate <= growth->most + 1e-8)) { /* solved to 1e-9 */
                    print_error("# %s: %s grows by %.6f for each unit of %s at %.1f, not %.6g to %.6g\n",
                                figures[f].name,
                                tailor_table_text(tailor_quantity_table(), growth->quantity, TAILOR_COLUMN_NAME), rate,
                                tailor_table_text(tailor_field_table(), growth->field, TAILOR_COLUMN_NAME),
                                low + i * step, growth->least, growth->most);
                    failures++;
                }
                before = now;
            }
        }
    }
    assert_int_equal(failures, 0);
}

int test_monotone(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_coat_follows_the_body)};
    return cmocka_run_group_tests_name("monotone", tests, NULL, NULL);
}

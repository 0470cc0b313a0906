/* A pattern measured as the coat of an order: of the coat's own it is the same coat; of another order's the checks tell
 * how far it is; of another style it is refused. What is no coat at all: test_no_coat.c. */
#include <tailorgeom/grade.h>
#include "rebuild.h"

#define F(name) TAILOR_FIELD_##name
#define C(name) TAILOR_CHECK_##name

static tailor_coat *good;

static int set_up(void **state)
{
    (void)state;
    good = coat_from(ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}), TAILOR_EXTENT_SECTION);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    tailor_coat_free(good);
    return 0;
}

static void of_its_own_pattern(void **state)
{
    (void)state;
    struct dice d = {23};
    int tried = 0;
    for (int n = 0; n < how_many(200, 4000); n++) {
        double client[TAILOR_FIELD_COUNT];
        tailor_coat *coat = NULL, *measured = NULL, *with_section = NULL;
        const int extent = n % EXTENTS;
        tailor_fields_clear(client, TAILOR_FIELD_COUNT);
        draw_body(&d, client);
        for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
            if (!is_measure(field) && even(&d) < 0.2)
                client[field] = any_value(&d, field, 0.8);
        agree_with_itself(client);
        const tailor_status status = tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, extent, &coat, NULL);
        if (!coat)
            continue;
        tried++;
        assert_int_equal(measure_as(coat, tailor_coat_pattern(coat), &measured, NULL), status);
        /* Always with the section; with the make where the pattern has it. */
        assert_int_equal(tailor_coat_extent(measured), extent | TAILOR_EXTENT_SECTION);
        assert_int_equal(tailor_coat_drafted(measured), 0);
        assert_int_equal(tailor_coat_drafted(coat), 1);
        tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, extent | TAILOR_EXTENT_SECTION, &with_section, NULL);
        tailor_coat_free(coat); /* the pattern was copied */
        same_coat(measured, with_section);
        same_cautions(measured, with_section);
        assert_memory_equal(tailor_coat_origins(measured, NULL), tailor_coat_origins(with_section, NULL),
                            TAILOR_FIELD_COUNT * sizeof(int32_t));
        tailor_coat_free(measured);
        tailor_coat_free(with_section);
    }
    assert_true(tried > 100);
}

/** A pattern that nobody drafted but that is the same, a grade of no steps: the same quantities. */
static void of_a_grade_of_no_steps(void **state)
{
    (void)state;
    static struct made next;
    must_make(&next, ORDER({F(CHEST_GIRTH), 1050}, {F(STATURE), 1780}));
    const tailor_pattern *family[2] = {tailor_coat_pattern(good), next.coat};
    tailor_grade *grade = NULL;
    tailor_pattern *graded = NULL;
    tailor_coat *measured = NULL;
    assert_int_equal(tailor_grade_from_sizes(family, 2, (const double[]){0, 1}, 1, NULL, &grade, NULL), TAILOR_OK);
    assert_int_equal(tailor_grade_apply(grade, NULL, (const double[]){0}, 1, NULL, &graded, NULL), TAILOR_OK);
    assert_int_equal(measure_as(good, graded, &measured, NULL), TAILOR_OK);
    tailor_pattern_free(graded);
    tailor_grade_free(grade);
    for (int q = 1; q < TAILOR_QUANTITY_COUNT; q++) {
        const double is = tailor_coat_quantity(measured, q), drafted = tailor_coat_quantity(good, q);
        assert_true((isnan(is) && isnan(drafted)) || fabs(is - drafted) <= 1e-6 * (1 + fabs(drafted)));
    }
    assert_int_equal(tailor_coat_edition(measured), tailor_edition()); /* graded from drafts */
    tailor_coat_free(measured);
    unmake(&next);
}

/** A coat measured against another man's order: it is measured, and the checks say what does not agree. */
static void of_another_order(void **state)
{
    (void)state;
    static const struct {
        int field;
        double value;
        int check;
    } others[] = {
        {F(CHEST_GIRTH), 1050, C(HALF_GIRTH_SCYE_ERROR)},   {F(WAIST_GIRTH), 850, C(HALF_GIRTH_WAIST_ERROR)},
        {F(SEAT_GIRTH), 1040, C(HALF_GIRTH_SEAT_ERROR)},    {F(CHEST_EASE), 118, C(HALF_GIRTH_SCYE_ERROR)},
        {F(BACK_WIDTH), 400, C(CROSS_BACK_ERROR)},          {F(CROSS_CHEST), 400, C(CROSS_CHEST_ERROR)},
        {F(CROWN_FULLNESS), 44, C(FULLNESS_ERROR)},         {F(LAPEL_WIDTH), 92, C(LAPEL_WIDTH_ERROR)},
        {F(GORGE_SLOPE), 30, C(GORGE_SLOPE_ERROR)},         {F(UPPER_ARM_GIRTH), 400, C(ARM_EASE_LEAST)},
        {F(CLOTH_THICKNESS), 1.3, C(LEAF_CONDITION_ERROR)},
    };
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        tailor_coat *other = coat_from(
            ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {others[i].field, others[i].value}), TAILOR_EXTENT_NET);
        tailor_coat *coat = NULL;
        tailor_fault fault, again;
        double value, limit;
        assert_int_equal(measure_as(other, tailor_coat_pattern(good), &coat, &fault), TAILOR_CHECK_FAILED);
        assert_non_null(coat); /* so that all checks can be shown */
        assert_int_equal(tailor_coat_status(coat, &again), TAILOR_CHECK_FAILED);
        assert_memory_equal(&fault, &again, sizeof fault);
        assert_int_equal(fault.status, TAILOR_CHECK_FAILED);
        assert_int_equal(fault.table, TAILOR_TABLE_CHECK);
        assert_int_equal(tailor_coat_check(coat, fault.index, &value, &limit), 0);
        assert_close(fault.value, value, 0);
        assert_close(tailor_check_sense(fault.index) > 0 ? fault.high : fault.low, limit, 0);
        assert_int_equal(tailor_coat_check(coat, others[i].check, &value, &limit), 0);
        for (int check = 1; check < fault.index; check++) /* the fault tells the first in the order of the table */
            assert_int_not_equal(tailor_coat_check(coat, check, NULL, NULL), 0);
        assert_close(tailor_coat_quantity(coat, TAILOR_QUANTITY_HALF_GIRTH_SCYE),
                     tailor_coat_quantity(good, TAILOR_QUANTITY_HALF_GIRTH_SCYE), 0);
        assert_close(tailor_coat_fields(coat, NULL)[others[i].field], others[i].value, 0);
        same_pattern(tailor_coat_pattern(coat), tailor_coat_pattern(good));
        tailor_coat_free(coat);
        tailor_coat_free(other);
    }
}

/** The house's constants are those that it is measured by. */
static void by_the_house_s_constants(void **state)
{
    (void)state;
    double constants[TAILOR_CONSTANT_COUNT];
    tailor_coat *coat = NULL;
    tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
    constants[TAILOR_CONSTANT_LAPEL_SET_BAND] = 30;
    tailor_house *house = house_of(constants);
    assert_int_equal(tailor_coat_of_pattern(house, tailor_coat_fields(good, NULL), NULL, TAILOR_FIELD_COUNT,
                                            tailor_coat_pattern(good), &coat, NULL),
                     TAILOR_OK);
    tailor_house_free(house);
    assert_close(tailor_coat_constants(coat, NULL)[TAILOR_CONSTANT_LAPEL_SET_BAND], 30, 0);
    assert_true(tailor_coat_quantity(coat, TAILOR_QUANTITY_ROLL_HEIGHT) >
                tailor_coat_quantity(good, TAILOR_QUANTITY_ROLL_HEIGHT)); /* a wider crease rolls higher */
    tailor_coat_free(coat);
}

/* ---- style and edition */

/** Every other choice of each field of style that an order of this chest may have. */
static void another_style_is_refused(void **state)
{
    (void)state;
    const tailor_table *table = tailor_field_table();
    int refused = 0, fields = 0;
    for (int field = 1; field < TAILOR_FIELD_COUNT; field++) {
        const int drawn = tailor_pattern_style(tailor_coat_pattern(good), field);
        if (!tailor_choice_table(field) || !drawn)
            continue;
        fields++;
        for (int choice = 1; choice <= (int)tailor_table_high(table, field); choice++) {
            double row[TAILOR_FIELD_COUNT];
            tailor_coat *coat = POISON;
            tailor_fault fault;
            memcpy(row, tailor_coat_fields(good, NULL), sizeof row);
            row[field] = choice;
            memset(&fault, 0x5a, sizeof fault);
            const tailor_status status =
                tailor_coat_of_pattern(NULL, row, NULL, TAILOR_FIELD_COUNT, tailor_coat_pattern(good), &coat, &fault);
            if (choice == drawn) {
                assert_int_equal(status, TAILOR_OK);
                tailor_coat_free(coat);
                continue;
            }
            if (status != TAILOR_CONTRADICTION)
                fail_msg("%s %d: %s", tailor_table_text(table, field, TAILOR_COLUMN_NAME), choice,
                         tailor_status_name(status));
            assert_ptr_equal(coat, POISON);
            assert_int_equal(fault.table, TAILOR_TABLE_FIELD);
            if (fault.index != field)
                continue; /* two choices of the order itself contradict each other: that comes first */
            if (fault.value == choice)
                continue;                                             /* the same, and the fault is this field's */
            assert_close(fault.value, drawn, 0);                      /* the pattern's */
            assert_true(fault.low == choice && fault.high == choice); /* the order's */
            assert_non_null(strstr(fault.sentence, tailor_table_text(table, field, TAILOR_COLUMN_NAME)));
            refused++;
        }
    }
    print_message("# %d other choices of %d fields are refused\n", refused, fields);
    assert_true(refused > 20 && fields > 8);
}

/** A graded pattern keeps its style, and with another order's it is no coat either. */
static void a_graded_pattern_of_another_style(void **state)
{
    (void)state;
    const tailor_rule rule = {"back", "nape"};
    const tailor_point move = {0, 1};
    tailor_grade *grade = NULL;
    tailor_pattern *graded = NULL;
    tailor_coat *coat = POISON;
    tailor_fault fault = {0};
    assert_int_equal(tailor_grade_from_rules(tailor_coat_pattern(good), &rule, &move, 1, 1, NULL, &grade, NULL),
                     TAILOR_OK);
    assert_int_equal(tailor_grade_apply(grade, NULL, (const double[]){1}, 1, NULL, &graded, NULL), TAILOR_OK);
    tailor_coat *peak =
        coat_from(ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(LAPEL), TAILOR_LAPEL_PEAK}), TAILOR_EXTENT_NET);
    assert_int_equal(measure_as(peak, graded, &coat, &fault), TAILOR_CONTRADICTION);
    assert_ptr_equal(coat, POISON);
    assert_int_equal(fault.index, F(LAPEL));
    assert_true(fault.value == TAILOR_LAPEL_STEP && fault.low == TAILOR_LAPEL_PEAK);
    tailor_pattern_free(graded);
    tailor_grade_free(grade);
    tailor_coat_free(peak);
}

/** The edition is the pattern's own, and where it is another one's or nobody's, a caution says so. */
static void the_pattern_s_edition(void **state)
{
    (void)state;
    static const struct {
        int edition, style; /* style: what it is said to be of the order */
        const char *said;
    } built[] = {
        {0, 0, "no draft of this library"},
        {1, 1, NULL},
        {2, 1, "edition 2, this library drafts by edition 1"},
        {7, 0, "edition 7"},
    };
    assert_int_equal(tailor_edition(), 1);
    for (size_t i = 0; i < sizeof built / sizeof *built; i++) {
        tailor_pattern *p = rebuild(tailor_coat_pattern(good), (struct spoilt){NONE, NONE, NONE, 0}, built[i].edition,
                                    built[i].style ? tailor_coat_fields(good, NULL) : NULL);
        tailor_coat *coat = NULL;
        tailor_fault fault;
        if (measure_as(good, p, &coat, &fault) != TAILOR_OK)
            fail_msg("%s", fault.sentence);
        tailor_pattern_free(p);
        assert_int_equal(tailor_coat_edition(coat), built[i].edition);
        assert_int_equal(tailor_pattern_style(tailor_coat_pattern(coat), F(LAPEL)),
                         built[i].style ? TAILOR_LAPEL_STEP : 0);
        const int place = caution_of(coat, TAILOR_CAUTION_EDITION_OTHER, &fault);
        assert_int_equal(place >= 0, built[i].said != NULL);
        if (built[i].said) {
            assert_int_equal(tailor_coat_caution(coat, place, NULL), TAILOR_CAUTION_CLASS_CAUTION);
            assert_close(fault.value, built[i].edition, 0);
            assert_close(fault.high, tailor_edition(), 0);
            assert_non_null(strstr(fault.sentence, built[i].said));
        }
        tailor_coat_free(coat);
    }
    /* Of which no style is known, it is measured as whatever order is given. */
    tailor_pattern *p = rebuild(tailor_coat_pattern(good), (struct spoilt){NONE, NONE, NONE, 0}, 0, NULL);
    tailor_coat *peak =
        coat_from(ORDER({F(CHEST_GIRTH), 1016}, {F(STATURE), 1780}, {F(LAPEL), TAILOR_LAPEL_PEAK}), TAILOR_EXTENT_NET);
    tailor_coat *coat = NULL;
    const tailor_status status = measure_as(peak, p, &coat, NULL);
    assert_true(status == TAILOR_OK || status == TAILOR_CHECK_FAILED);
    assert_close(tailor_coat_fields(coat, NULL)[F(LAPEL)], TAILOR_LAPEL_PEAK, 0);
    tailor_coat_free(coat);
    tailor_coat_free(peak);
    tailor_pattern_free(p);
}

int test_of_pattern(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_its_own_pattern),       cmocka_unit_test(of_a_grade_of_no_steps),
        cmocka_unit_test(of_another_order),         cmocka_unit_test(by_the_house_s_constants),
        cmocka_unit_test(another_style_is_refused), cmocka_unit_test(a_graded_pattern_of_another_style),
        cmocka_unit_test(the_pattern_s_edition),
    };
    return cmocka_run_group_tests_name("of a pattern", tests, set_up, tear_down);
}

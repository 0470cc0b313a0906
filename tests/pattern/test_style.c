/* What a pattern was drafted as: the draft remembers edition and style, grading and copying carry both on, a builder
 * puts them back. */
#include <stdio.h>

#include <tailorgeom/grade.h>

#include "../../lib/pattern/build.h"
#include "draft/making.h"
#include "draft/same.h"

static tailor_fault fault;

static void must(tailor_status status)
{
    if (status != TAILOR_OK)
        fail_msg("%s: %s", tailor_status_name(status), fault.sentence);
}

static int is_choice(int field)
{
    return strcmp(tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_UNIT), "choice") == 0;
}

/** A pattern of its own, for a toile only or not. */
static tailor_pattern *as_toile(const tailor_pattern *p, int toile_only)
{
    tailor_pattern *own = tailor_in_pattern_copy(p, p->count, tailor_in_allocator(NULL));
    assert_non_null(own);
    own->toile_only = toile_only;
    return own;
}

/** The style is the row's choices and nothing else. */
static int knows(const tailor_pattern *p, const double *row)
{
    int known = 0;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        int choice = is_choice(i) && !isnan(row[i]) ? (int)row[i] : 0;
        if (tailor_pattern_style(p, i) != choice)
            fail_msg("%s: %d, not %d", tailor_table_text(tailor_field_table(), i, TAILOR_COLUMN_NAME),
                     tailor_pattern_style(p, i), choice);
        known += choice > 0;
    }
    return known;
}

static void a_draft_remembers(void **state)
{
    (void)state;
    static struct made m;
    struct dice d = {3};
    int seen[8] = {0}, drafted = 0;
    for (int i = 0; i < 200; i++) {
        draw_client(&d, m.client, (struct drawing){1, 0.3, 0.5});
        if ((i % 2 ? make_client(&m, NULL) : make_whole_client(&m, NULL)) == TAILOR_OK) {
            drafted++;
            assert_int_equal(tailor_pattern_edition(m.coat), tailor_edition());
            assert_true(knows(m.coat, m.row) > 5);
            seen[tailor_pattern_style(m.coat, TAILOR_FIELD_BUTTONING)]++;
        }
        unmake(&m);
    }
    assert_true(drafted > 120);
    for (int choice = 1; choice <= TAILOR_BUTTONING_DOUBLE_SIX; choice++)
        assert_true(seen[choice] > 0);
}

static void what_is_not_there_reads_as_nothing(void **state)
{
    (void)state;
    static struct made m;
    assert_int_equal(tailor_pattern_edition(NULL), 0);
    assert_int_equal(tailor_pattern_style(NULL, TAILOR_FIELD_BUTTONING), 0);
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}));
    static const int none[] = {-1, 0, TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_COUNT, 1 << 20};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        assert_int_equal(tailor_pattern_style(m.coat, none[i]), 0);
    unmake(&m);
}

static void grading_carries_it_on(void **state)
{
    (void)state;
    static struct made m[3];
    static const double lapels[3] = {TAILOR_LAPEL_STEP, TAILOR_LAPEL_STEP, TAILOR_LAPEL_PEAK};
    for (int i = 0; i < 3; i++)
        must_make(&m[i], ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016 + 30 * i}, {TAILOR_FIELD_LAPEL, lapels[i]}));
    const tailor_rule rule = {"back", "nape"};
    const tailor_point move = {0, 2};
    const double step = 1.5, apart[2] = {0, 1};
    tailor_grade *rules = NULL, *sizes = NULL, *mixed = NULL;
    tailor_pattern *by_rule = NULL, *again = NULL, *between = NULL, *neither = NULL;
    must(tailor_grade_from_rules(m[0].coat, &rule, &move, 1, 1, NULL, &rules, &fault));
    must(tailor_grade_apply(rules, NULL, &step, 1, NULL, &by_rule, &fault));
    must(tailor_grade_apply(rules, by_rule, &step, 1, NULL, &again, &fault));
    const tailor_pattern *alike[2] = {m[0].coat, m[1].coat}, *unlike[2] = {m[0].coat, m[2].coat};
    must(tailor_grade_from_sizes(alike, 2, apart, 1, NULL, &sizes, &fault));
    must(tailor_grade_apply(sizes, NULL, &step, 1, NULL, &between, &fault));
    const tailor_pattern *const kept[] = {by_rule, again, between, tailor_grade_base(rules), tailor_grade_base(sizes)};
    for (size_t i = 0; i < sizeof kept / sizeof *kept; i++) {
        assert_int_equal(tailor_pattern_edition(kept[i]), tailor_edition());
        knows(kept[i], m[0].row);
    }
    /* Half a step and half a peak is neither; what both sizes are, it is. */
    if (tailor_grade_from_sizes(unlike, 2, apart, 1, NULL, &mixed, &fault) == TAILOR_OK) {
        must(tailor_grade_apply(mixed, NULL, &step, 1, NULL, &neither, &fault));
        double row[TAILOR_FIELD_COUNT];
        memcpy(row, m[0].row, sizeof row);
        row[TAILOR_FIELD_LAPEL] = NAN;
        knows(neither, row);
        assert_int_equal(tailor_pattern_edition(neither), tailor_edition());
    } else
        fail_msg("%s", fault.sentence);
    tailor_pattern_free(by_rule);
    tailor_pattern_free(again);
    tailor_pattern_free(between);
    tailor_pattern_free(neither);
    tailor_grade_free(rules);
    tailor_grade_free(sizes);
    tailor_grade_free(mixed);
    for (int i = 0; i < 3; i++)
        unmake(&m[i]);
}

/** What is graded from a toile's pattern is for a toile only; of several sizes one is enough. */
static void grading_carries_the_toile_on(void **state)
{
    (void)state;
    static struct made m[2];
    for (int i = 0; i < 2; i++)
        must_make(&m[i], ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016 + 30 * i}));
    const tailor_rule rule = {"back", "nape"};
    const tailor_point move = {0, 2};
    const double step = 0.5, apart[2] = {0, 1};
    for (int which = 0; which < 4; which++) {
        tailor_pattern *own[2] = {as_toile(m[0].coat, which & 1), as_toile(m[1].coat, which >> 1)};
        const tailor_pattern *family[2] = {own[0], own[1]};
        tailor_grade *rules = NULL, *sizes = NULL;
        tailor_pattern *by_rule = NULL, *of_other = NULL, *between = NULL;
        must(tailor_grade_from_rules(own[0], &rule, &move, 1, 1, NULL, &rules, &fault));
        must(tailor_grade_apply(rules, NULL, &step, 1, NULL, &by_rule, &fault));
        must(tailor_grade_apply(rules, by_rule, &step, 1, NULL, &of_other, &fault));
        must(tailor_grade_from_sizes(family, 2, apart, 1, NULL, &sizes, &fault));
        must(tailor_grade_apply(sizes, NULL, &step, 1, NULL, &between, &fault));
        assert_int_equal(tailor_pattern_toile_only(by_rule), which & 1);
        assert_int_equal(tailor_pattern_toile_only(of_other), which & 1);
        assert_int_equal(tailor_pattern_toile_only(between), which > 0);
        tailor_pattern_free(by_rule);
        tailor_pattern_free(of_other);
        tailor_pattern_free(between);
        tailor_grade_free(rules);
        tailor_grade_free(sizes);
        for (int i = 0; i < 2; i++)
            tailor_pattern_free(own[i]);
    }
    for (int i = 0; i < 2; i++)
        unmake(&m[i]);
}

static tailor_status add_disc(tailor_builder *b, const char *name)
{
    tailor_cubic round[4];
    for (int k = 0; k < 4; k++)
        round[k] = tailor_cubic_arc((tailor_point){0, 0}, 50, 90 * k, 90 * (k + 1));
    tailor_status status = tailor_builder_add_piece(b, name, 1, 0, TAILOR_SIDE_BOTH, "cloth", &fault);
    return status ? status : tailor_builder_add_edge(b, "hem", round, 4, &fault);
}

static void a_builder_puts_it_back(void **state)
{
    (void)state;
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    double row[TAILOR_FIELD_COUNT + 4];
    must(tailor_builder_begin(NULL, &b, &fault));
    must(add_disc(b, "first"));
    must(tailor_builder_finish(b, NULL, &p, &fault));
    assert_int_equal(tailor_pattern_edition(p), 0);
    tailor_fields_clear(row, TAILOR_FIELD_COUNT + 4);
    knows(p, row);
    tailor_pattern_free(p);

    row[TAILOR_FIELD_BUTTONING] = TAILOR_BUTTONING_DOUBLE_FOUR;
    row[TAILOR_FIELD_LAPEL] = TAILOR_LAPEL_PEAK;
    row[TAILOR_FIELD_CHEST_GIRTH] = INFINITY; /* no choice: not looked at */
    must(tailor_builder_set_style(b, 7, row, TAILOR_FIELD_COUNT + 4, &fault));
    static const struct {
        int field, status;
        double value;
    } bad[] = {
        {TAILOR_FIELD_BUTTONING, TAILOR_NOT_A_CHOICE, 0},   {TAILOR_FIELD_BUTTONING, TAILOR_NOT_A_CHOICE, 1.5},
        {TAILOR_FIELD_BUTTONING, TAILOR_NOT_A_CHOICE, 99},  {TAILOR_FIELD_LAPEL, TAILOR_NOT_A_CHOICE, -1},
        {TAILOR_FIELD_LAPEL, TAILOR_NOT_FINITE, INFINITY},  {0, TAILOR_UNKNOWN_FIELD, 1},
        {TAILOR_FIELD_COUNT + 2, TAILOR_UNKNOWN_FIELD, 1},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        double other[TAILOR_FIELD_COUNT + 4];
        tailor_fields_clear(other, TAILOR_FIELD_COUNT + 4);
        other[TAILOR_FIELD_VENTS] = 1;
        other[bad[i].field] = bad[i].value;
        assert_int_equal(tailor_builder_set_style(b, 1, other, TAILOR_FIELD_COUNT + 4, &fault), bad[i].status);
        assert_int_equal(fault.status, bad[i].status);
        assert_true(strlen(fault.sentence) > 10);
    }
    assert_int_equal(tailor_builder_set_style(b, -1, row, TAILOR_FIELD_COUNT, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_builder_set_style(NULL, 1, row, TAILOR_FIELD_COUNT, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_builder_set_style(b, 1, NULL, 3, &fault), TAILOR_BAD_ARGUMENT);
    for (int i = 0; i < 40; i++) { /* the builder's block is replaced by larger ones */
        char name[16];
        snprintf(name, sizeof name, "disc_%d", i);
        must(add_disc(b, name));
    }
    must(tailor_builder_finish(b, NULL, &p, &fault));
    assert_int_equal(tailor_pattern_edition(p), 7);
    row[TAILOR_FIELD_CHEST_GIRTH] = NAN;
    assert_int_equal(knows(p, row), 2);
    tailor_pattern_free(p);
    must(tailor_builder_set_style(b, 0, row, 5, &fault)); /* replaces it all */
    must(tailor_builder_finish(b, NULL, &p, &fault));
    tailor_fields_clear(row, TAILOR_FIELD_COUNT);
    knows(p, row);
    assert_int_equal(tailor_pattern_edition(p), 0);
    tailor_pattern_free(p);
    tailor_builder_free(b);
}

static void a_builder_says_that_it_is_a_toile(void **state)
{
    (void)state;
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    assert_int_equal(tailor_pattern_toile_only(NULL), 0);
    must(tailor_builder_begin(NULL, &b, &fault));
    must(add_disc(b, "first"));
    for (int said = 0; said < 4; said++) { /* nothing; yes; no; yes, and then more pieces */
        if (said)
            must(tailor_builder_set_toile_only(b, said % 2, &fault));
        for (int i = 0; i < 40 && said == 3; i++) {
            char name[16];
            snprintf(name, sizeof name, "disc_%d", i);
            must(add_disc(b, name));
        }
        must(tailor_builder_finish(b, NULL, &p, &fault));
        assert_int_equal(tailor_pattern_toile_only(p), said % 2);
        tailor_pattern_free(p);
    }
    static const int bad[] = {-1, 2, 1 << 20};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        assert_int_equal(tailor_builder_set_toile_only(b, bad[i], &fault), TAILOR_BAD_ARGUMENT);
        assert_true(fault.value == bad[i] && fault.low == 0 && fault.high == 1);
        assert_true(strlen(fault.sentence) > 10);
    }
    assert_int_equal(tailor_builder_set_toile_only(NULL, 1, &fault), TAILOR_BAD_ARGUMENT);
    must(tailor_builder_finish(b, NULL, &p, &fault));
    assert_int_equal(tailor_pattern_toile_only(p), 1); /* as it was */
    tailor_pattern_free(p);
    tailor_builder_free(b);
}

static void a_copy_in_anothers_block(void **state)
{
    (void)state;
    static struct made m;
    must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_BUTTONING, 3}));
    const size_t bytes = tailor_in_pattern_bytes_of(m.coat);
    char *block = malloc(bytes); /* no more: a sanitizer sees whoever writes past it */
    assert_non_null(block);
    assert_null(tailor_in_pattern_copy_into(m.coat, block, bytes - 1, tailor_in_allocator(NULL)));
    tailor_pattern *copy = tailor_in_pattern_copy_into(m.coat, block, bytes, tailor_in_allocator(NULL));
    assert_ptr_equal(copy, block);
    same_pattern(copy, m.coat);
    knows(copy, m.row);
    assert_int_equal(tailor_pattern_edition(copy), tailor_edition());
    assert_int_equal(tailor_in_pattern_bytes_of(copy), bytes);
    free(block);
    unmake(&m);
}

int test_style(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_draft_remembers),
        cmocka_unit_test(what_is_not_there_reads_as_nothing),
        cmocka_unit_test(grading_carries_it_on),
        cmocka_unit_test(grading_carries_the_toile_on),
        cmocka_unit_test(a_builder_puts_it_back),
        cmocka_unit_test(a_builder_says_that_it_is_a_toile),
        cmocka_unit_test(a_copy_in_anothers_block),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Examining a pattern: the call, what refuses first; drafts, which can be cut; a grade that turns a piece over. */
#include <tailorgeom/grade.h>

#include "examining.h"

/* ---- the call */

static void what_refuses_stands_first(void **state)
{
    (void)state;
    tailor_builder *b = begin();
    add_polygon(b, "thread", 1, POLYGON({0, 0}, {500, 0}, {500, 2}, {0, 2}));
    add_polygon(b, "tie", 1, POLYGON({0, 0}, {200, 0}, {200, 100}, {240, 100}, {150, 60}, {0, 100}));
    add_polygon(b, "other_thread", 1, POLYGON({0, 0}, {500, 0}, {500, 1}, {0, 1}));
    must(tailor_builder_add_seam(b, "mouth", 3, &fault));
    must(tailor_builder_add_stretch(b, 0, "thread", "e0", 0, 400, &fault));
    must(tailor_builder_add_stretch(b, 1, "thread", "e0", 0, 400, &fault));
    tailor_pattern *p = end(b);
    static const int kinds[] = {TAILOR_FINDING_CROSSING, TAILOR_FINDING_WOUND,  TAILOR_FINDING_SEWN_TO_ITSELF,
                                TAILOR_FINDING_SLIVER,   TAILOR_FINDING_SLIVER, TAILOR_FINDING_SEAM_OFF};
    enum { ALL = sizeof kinds / sizeof *kinds };
    for (size_t room = 0; room <= ALL + 1; room++) {
        tailor_finding some[ALL + 2];
        memset(some, 0x5a, sizeof some);
        const tailor_status status = tailor_pattern_examine(p, NULL, some, room, &count, &fault);
        assert_int_equal(status, room < ALL ? TAILOR_TOO_SMALL : TAILOR_OK);
        assert_int_equal(count, ALL);
        for (size_t i = 0; i < ALL + 2; i++)
            assert_int_equal(some[i].kind, i < room && i < ALL ? kinds[i] : 0x5a5a5a5a);
    }
    must(tailor_pattern_examine(p, NULL, NULL, 0, &count, &fault));
    assert_int_equal(count, ALL);
    examine(p, NULL);
    assert_true(found[3].piece == 0 && found[4].piece == 2); /* and among themselves in the order of pieces */
    tailor_pattern_free(p);
}

static void calls_that_are_refused(void **state)
{
    (void)state;
    tailor_pattern *p = polygon(POLYGON({0, 0}, {50, 0}, {50, 50}));
    assert_int_equal(tailor_pattern_examine(NULL, NULL, found, MOST, &count, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_pattern_examine(p, NULL, NULL, 3, &count, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_pattern_examine(p, NULL, found, MOST, NULL, &fault), TAILOR_BAD_ARGUMENT);
    must(tailor_pattern_examine(p, p, found, MOST, &count, NULL));
    static const int none[] = {-1, 0, TAILOR_FINDING_COUNT, 1 << 30};
    assert_int_equal(tailor_finding_fault(NULL, &fault), TAILOR_BAD_ARGUMENT);
    for (int i = 0; i < 4; i++) {
        assert_int_equal(tailor_finding_refuses(none[i]), 0);
        assert_int_equal(tailor_finding_fault(&(tailor_finding){.kind = none[i]}, &fault), TAILOR_BAD_ARGUMENT);
    }
    assert_int_equal(sizeof(tailor_finding), 48);
    assert_int_equal(sizeof(tailor_stretch), 24);
    tailor_pattern_free(p);
}

/** A ring of thousands of curves ends soon, and a single pair of them that cross is found among them. */
static void an_outline_of_thousands(void **state)
{
    (void)state;
    enum { N = 6000 };
    static tailor_cubic ring[N];
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < N; i++) {
            tailor_point end[2];
            for (int k = 0; k < 2; k++) {
                const double angle = 2 * 3.141592653589793 * ((i + k) % N) / N, r = 500;
                end[k] = (tailor_point){r * cos(angle), r * sin(angle)};
                if (pass && (i + k) % N == N / 2)
                    end[k] = (tailor_point){-498.6, 40}; /* out through the ring, and back */
            }
            ring[i] = tailor_cubic_line(end[0], end[1]);
        }
        tailor_builder *b = begin();
        must(tailor_builder_add_piece(b, "ring", 1, 0, TAILOR_SIDE_BOTH, "cloth", &fault));
        must(tailor_builder_add_edge(b, "hem", ring, N, &fault));
        tailor_pattern *p = end(b);
        examine(p, NULL);
        assert_int_equal(has(TAILOR_FINDING_CROSSING), pass);
        assert_int_equal(has(TAILOR_FINDING_SLIVER), 0);
        tailor_pattern_free(p);
    }
}

/* ---- drafts and grades */

static void drafts_can_be_cut(void **state)
{
    (void)state;
    static struct made m;
    static const struct drawing how[] = {{1, 0.15, 0.5}, {1, 0.1, 0.9}, {0, 0.15, 0.3}};
    struct dice d = {41};
    int drafted = 0, told = 0, seen[8] = {0};
    for (int i = 0; i < how_many(420, 6000); i++) {
        double house[TAILOR_CONSTANT_COUNT];
        draw_client(&d, m.client, how[i % 3]);
        m.client[TAILOR_FIELD_BUTTONING] = 1 + i % TAILOR_BUTTONING_DOUBLE_SIX;
        agree_with_itself(m.client);
        draw_house(&d, house);
        if (make_whole_client(&m, i % 2 ? house : NULL) == TAILOR_OK) {
            drafted++;
            seen[(int)m.client[TAILOR_FIELD_BUTTONING]]++;
            examine(m.coat, NULL);
            for (size_t k = 0; k < count; k++) {
                tailor_finding_fault(&found[k], &fault);
                /* The grain of a facing that is cut away far at the hem is drawn beyond it, as measured. */
                if (found[k].kind == TAILOR_FINDING_MARK_OFF &&
                    tailor_mark_kind(m.coat, found[k].piece, found[k].part) == TAILOR_MARK_GRAIN)
                    told++;
                else
                    fail_msg("order %d: %s", i, fault.sentence);
            }
        }
        unmake(&m);
    }
    assert_true(drafted > how_many(300, 4000));
    assert_true(told * 20 < drafted);
    for (int choice = 1; choice <= TAILOR_BUTTONING_DOUBLE_SIX; choice++)
        assert_true(seen[choice] > drafted / 20);
}

static void a_rule_that_turns_a_forepart_over(void **state)
{
    (void)state;
    static struct made m;
    must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_STATURE, 1780}));
    static const char *const held[] = {"neck_point",   "shoulder_end", "hem_front",
                                       "hem.start", "front_seam.start"};
    enum { RULES = 6 };
    tailor_rule rule[RULES] = {{"forepart", "break_point"}};
    tailor_point move[RULES] = {{-260, 0}};
    for (int i = 1; i < RULES; i++)
        rule[i] = (tailor_rule){"forepart", held[i - 1]};
    tailor_grade *grade = NULL;
    must(tailor_grade_from_rules(m.coat, rule, move, RULES, 1, NULL, &grade, &fault));
    static const double steps[] = {0, 0.05, 0.95};
    for (int i = 0; i < 3; i++) {
        tailor_pattern *p = NULL;
        must(tailor_grade_apply(grade, NULL, &steps[i], 1, NULL, &p, &fault));
        examine(p, tailor_grade_base(grade));
        const int forepart = tailor_pattern_find_piece(p, "forepart");
        size_t n;
        const tailor_cubic *outline = tailor_piece_outline(p, forepart, &n);
        const double area = tailor_path_area(outline, n) / 100;
        if (i < 2)
            assert_int_equal(count, 0);
        else {
            assert_true(area > 0 && area < 700); /* it was drawn before, a third of 1845 cm2 */
            assert_int_equal(found[0].kind, TAILOR_FINDING_CROSSING);
            assert_int_equal(found[0].piece, forepart);
            assert_int_equal(tailor_finding_fault(&found[0], &fault), TAILOR_UNSOUND);
            assert_int_equal(fault.place, forepart + 1);
            assert_non_null(strstr(fault.sentence, "piece 3, edges 1 and 4: its outline crosses or touches itself"));
            assert_int_equal(has(TAILOR_FINDING_AREA_LOST), 1);
        }
        tailor_pattern_free(p);
    }
    tailor_grade_free(grade);
    unmake(&m);
}

int test_examine_all(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_refuses_stands_first),
        cmocka_unit_test(calls_that_are_refused),
        cmocka_unit_test(an_outline_of_thousands),
        cmocka_unit_test(drafts_can_be_cut),
        cmocka_unit_test(a_rule_that_turns_a_forepart_over),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* A pattern that came from elsewhere, through the builder, may lack any mark, or have it shorter than a draft's: it is
 * measured or refused, and nothing is read that is not there (the sanitizers look). */
#include "draft/drafting.h"

/** What is spoilt: the marks of all pieces, counted through. `cubics` are kept of it, none leaves it out. */
struct spoilt {
    int mark;
    size_t cubics;
};

/** The coat again, but for one mark. False when there is no such mark. */
static int rebuild(const tailor_pattern *p, struct spoilt s, tailor_pattern **again)
{
    tailor_builder *b = NULL;
    size_t count;
    int at = 0, found = 0;
    assert_int_equal(tailor_builder_begin(NULL, &b, NULL), TAILOR_OK);
    for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
        assert_int_equal(tailor_builder_add_piece(b, tailor_piece_name(p, i), tailor_piece_copies(p, i),
                                                  tailor_piece_mirrored(p, i), tailor_piece_side(p, i),
                                                  tailor_piece_cloth(p, i), NULL), TAILOR_OK);
        for (int e = 0; e < tailor_piece_edge_count(p, i); e++) {
            const tailor_cubic *path = tailor_edge_path(p, i, e, &count);
            assert_int_equal(tailor_builder_add_edge(b, tailor_edge_name(p, i, e), path, count, NULL), TAILOR_OK);
        }
        for (int e = 0; e < tailor_piece_point_count(p, i); e++)
            assert_int_equal(tailor_builder_add_point(b, tailor_point_name(p, i, e), tailor_point_place(p, i, e),
                                                      NULL), TAILOR_OK);
        for (int e = 0; e < tailor_piece_mark_count(p, i); e++, at++) {
            const tailor_cubic *path = tailor_mark_path(p, i, e, &count);
            if (at == s.mark) {
                found = 1;
                if (s.cubics >= count || !s.cubics)
                    continue;
                count = s.cubics;
            }
            assert_int_equal(tailor_builder_add_mark(b, tailor_mark_name(p, i, e), tailor_mark_kind(p, i, e), path,
                                                     count, NULL), TAILOR_OK);
        }
    }
    assert_int_equal(tailor_builder_finish(b, NULL, again, NULL), TAILOR_OK);
    tailor_builder_free(b);
    return found;
}

static void marks_may_lack(const struct given *order)
{
    struct made m;
    must_make(&m, order);
    tailor_pattern *spoilt = NULL;
    double sound = m.q[TAILOR_QUANTITY_FINISHED_CHEST];
    int refused = 0, failed = 0;
    for (struct spoilt s = {0, 0}; s.cubics < 3; s.cubics++) {
        for (s.mark = 0; rebuild(tailor_coat_pattern(m.object), s, &spoilt); s.mark++) {
            m.coat = spoilt;
            tailor_status status = measure_of(&m);
            refused += status == TAILOR_BAD_ARGUMENT;
            failed += status == TAILOR_CHECK_FAILED;
            if (status != TAILOR_BAD_ARGUMENT && m.q[TAILOR_QUANTITY_FINISHED_CHEST] != sound)
                fail_msg("mark %d: chest %g", s.mark, m.q[TAILOR_QUANTITY_FINISHED_CHEST]);
            tailor_pattern_free(spoilt);
        }
        tailor_pattern_free(spoilt); /* the last, which lacks nothing */
    }
    unmake(&m);
    assert_true(refused + failed > 0);
}

static void of_a_single_breasted_coat(void **state)
{
    (void)state;
    marks_may_lack(ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_ROLL_BY_MAKE}));
}

static void of_a_double_breasted_coat(void **state)
{
    (void)state;
    marks_may_lack(ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_DOUBLE_FOUR}));
}

static void a_hole_without_its_button_is_seen(void **state)
{
    (void)state;
    struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_BUTTONING, TAILOR_BUTTONING_DOUBLE_FOUR}));
    const tailor_pattern *whole = m.coat;
    tailor_pattern *spoilt = NULL;
    int at = 0, button = -1;
    for (int i = 0; i < tailor_pattern_piece_count(whole); i++)
        for (int e = 0; e < tailor_piece_mark_count(whole, i); e++, at++)
            if (strcmp(tailor_mark_name(whole, i, e), "button_1") == 0)
                button = at;
    assert_true(button >= 0);
    rebuild(whole, (struct spoilt){button, 0}, &spoilt);
    m.coat = spoilt;
    assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
    assert_true(isinf(m.value[TAILOR_CHECK_SHOW_BUTTON_MIRROR]));
    tailor_pattern_free(spoilt);
    unmake(&m);
}

int test_rebuilt(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_a_single_breasted_coat),
        cmocka_unit_test(of_a_double_breasted_coat),
        cmocka_unit_test(a_hole_without_its_button_is_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

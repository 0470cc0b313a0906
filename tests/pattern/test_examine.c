/* Examining a pattern: every kind of finding on a pattern that has it, and on one that only just has not. */
#include "examining.h"

/* ---- outlines */

static void an_outline_that_crosses_itself(void **state)
{
    (void)state;
    /* the fourth side comes back across the second; of the loops the larger runs the right way */
    tailor_pattern *p = polygon(POLYGON({0, 0}, {200, 0}, {200, 100}, {240, 100}, {150, 60}, {0, 100}));
    examine(p, NULL);
    const tailor_finding f = only(TAILOR_FINDING_CROSSING,
                                  "piece 2, edges 2 and 4: its outline crosses or touches itself at x 200, y 82.222");
    assert_true(f.piece == 1 && f.part == 1 && f.other == 3);
    assert_close(f.value, 0, 1e-9);
    assert_close(f.at.x, 200, 1e-9);
    assert_close(f.at.y, 60 + 40 * 50 / 90.0, 1e-9);
    only(TAILOR_FINDING_WOUND, "piece 2: its outline turns 0 times round, not once and counter-clockwise");
    tailor_pattern_free(p);
}

static void an_outline_that_touches_itself(void **state)
{
    (void)state;
    for (int apart = 0; apart < 2; apart++) { /* a tip within a thousandth of the bottom, and one that is not */
        const double y = apart ? 0.0011 : 0.0009;
        tailor_pattern *p = polygon(POLYGON({0, 0}, {200, 0}, {200, 100}, {110, 100}, {100, y}, {90, 100}, {0, 100}));
        examine(p, NULL);
        assert_int_equal(has(TAILOR_FINDING_CROSSING), !apart);
        assert_int_equal(has(TAILOR_FINDING_WOUND), 0); /* it turns once all the same */
        assert_int_equal(has(TAILOR_FINDING_SLIVER), apart);
        if (!apart)
            assert_close(found[0].value, 0.0009, 1e-6);
        tailor_pattern_free(p);
    }
}

static void an_outline_that_goes_round_wrongly(void **state)
{
    (void)state;
    /* one loop inside the other: twice round */
    tailor_pattern *p =
        polygon(POLYGON({0, 0}, {200, 0}, {200, 200}, {0, 200}, {20, 20}, {120, 20}, {120, 120}, {10, 120}));
    examine(p, NULL);
    const tailor_finding f =
        only(TAILOR_FINDING_WOUND, "piece 2: its outline turns 2 times round, not once and counter-clockwise");
    assert_close(f.value, 2, 0);
    assert_int_equal(has(TAILOR_FINDING_CROSSING), 1);
    tailor_pattern_free(p);

    /* clockwise: no reader and no builder lets it by, so it is laid into a block by hand */
    static const int room[TAILOR_IN_ARRAYS] = {1, 1, 0, 0, 0, 0, 4};
    const tailor_allocator memory = tailor_in_allocator(NULL);
    p = tailor_in_pattern_begin(memory.allocate(memory.user, tailor_in_pattern_bytes(room)), room, memory);
    tailor_cubic square[4];
    static const tailor_point corner[5] = {{0, 0}, {0, 100}, {100, 100}, {100, 0}, {0, 0}};
    for (int i = 0; i < 4; i++)
        square[i] = tailor_cubic_line(corner[i], corner[i + 1]);
    tailor_in_add_piece(p, TAILOR_PIECE_POCKET_FLAP, 1, 0, TAILOR_SIDE_BOTH, "cloth");
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, square, 4);
    examine(p, NULL);
    only(TAILOR_FINDING_WOUND, "piece 1: its outline turns -1 times round, not once and counter-clockwise");
    assert_int_equal(count, 1);
    tailor_pattern_free(p);
}

static void a_curve_that_loops(void **state)
{
    (void)state;
    tailor_builder *b = begin();
    must(tailor_builder_add_piece(b, "flap", 1, 0, TAILOR_SIDE_BOTH, "cloth", &fault));
    const tailor_cubic loop = {{{0, 0}, {300, 120}, {-200, 120}, {100, 0}}};
    const tailor_cubic back[3] = {tailor_cubic_line((tailor_point){100, 0}, (tailor_point){100, 300}),
                                  tailor_cubic_line((tailor_point){100, 300}, (tailor_point){0, 300}),
                                  tailor_cubic_line((tailor_point){0, 300}, (tailor_point){0, 0})};
    must(tailor_builder_add_edge(b, "hem", &loop, 1, &fault));
    must(tailor_builder_add_edge(b, "top", back, 3, &fault));
    tailor_pattern *p = end(b);
    examine(p, NULL);
    assert_int_equal(has(TAILOR_FINDING_CROSSING), 1);
    assert_true(found[0].part == 0 && found[0].other == 0);
    assert_close(found[0].at.x, 50, 1e-6);
    tailor_finding_fault(&found[0], &fault);
    assert_non_null(strstr(fault.sentence, "piece 1, edge 1: "));
    tailor_pattern_free(p);
}

/* ---- slivers */

static void a_neck(void **state)
{
    (void)state;
    static const double width[] = {2.9, 3.1};
    for (int i = 0; i < 2; i++) { /* two halves, joined by a neck of that width */
        const double y = width[i];
        tailor_pattern *p = polygon(POLYGON({0, 0}, {300, 0}, {300, 100}, {160, 100}, {150, y}, {140, 100}, {0, 100}));
        examine(p, NULL);
        assert_int_equal(has(TAILOR_FINDING_SLIVER), i == 0);
        if (i == 0) {
            const tailor_finding f = found[0];
            assert_close(f.value, y, 0.06);
            assert_close(f.at.x, 150, 2);
            assert_close(f.at.y, y / 2, 0.1);
            assert_true(f.part == 0 && (f.other == 3 || f.other == 4));
            tailor_finding_fault(&f, &fault);
            assert_non_null(strstr(fault.sentence, " mm wide at x "));
        }
        tailor_pattern_free(p);
    }
}

static void what_is_no_sliver(void **state)
{
    (void)state;
    static const struct {
        const char *what;
        int sliver;
        tailor_point corner[8];
        int corners;
    } shapes[] = {
        {"a tape", 0, {{0, 0}, {900, 20}, {900, 30}, {0, 10}}, 4},
        {"a thread", 1, {{0, 0}, {900, 20}, {900, 22.5}, {0, 2.5}}, 4},
        {"a corner of 14 deg", 0, {{0, 0}, {200, 0}, {200, 50}}, 3},
        {"a corner of 9 deg", 1, {{0, 0}, {200, 0}, {200, 31.7}}, 3},
        {"a slit of 1 mm, outside",
         0,
         {{0, 0}, {200, 0}, {200, 100}, {100.5, 100}, {100.4, 20}, {99.6, 20}, {99.5, 100}, {0, 100}},
         8},
        {"a little step", 0, {{0, 0}, {200, 0}, {200, 100}, {100, 100}, {100, 98}, {0, 98}}, 6},
        {"a piece of 5 mm by 5 mm", 0, {{0, 0}, {5, 0}, {5, 5}, {0, 5}}, 4},
        {"a tail of 2 mm by 20 mm", 1, {{0, 0}, {200, 0}, {200, 100}, {2, 100}, {2, 120}, {0, 120}}, 6},
        {"a tail of 2 mm by 12 mm", 0, {{0, 0}, {200, 0}, {200, 100}, {2, 100}, {2, 112}, {0, 112}}, 6},
    };
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
        tailor_pattern *p = polygon(shapes[i].corner, shapes[i].corners);
        examine(p, NULL);
        if (has(TAILOR_FINDING_SLIVER) != shapes[i].sliver || count != (size_t)shapes[i].sliver)
            fail_msg("%s: %d slivers, %zu findings", shapes[i].what, has(TAILOR_FINDING_SLIVER), count);
        tailor_pattern_free(p);
    }
}

/* ---- points and marks */

/** A back with its nape, and a point and a mark of no table, so far off the bottom edge. */
static tailor_pattern *with_points(double off, double mark_off, int kind)
{
    tailor_builder *b = begin();
    add_polygon(b, "back", 1, POLYGON({0, 0}, {200, 0}, {200, 100}, {0, 100}));
    const tailor_cubic mark = tailor_cubic_line((tailor_point){50, 20}, (tailor_point){60, -mark_off});
    must(tailor_builder_add_point(b, "scye_front", (tailor_point){50, 30}, &fault)); /* lies inside of a piece */
    must(tailor_builder_add_point(b, "nape", (tailor_point){100, off}, &fault));
    must(tailor_builder_add_point(b, "own", (tailor_point){120, off}, &fault));
    must(tailor_builder_add_mark(b, "drawn", kind, &mark, 1, &fault));
    add_polygon(b, "body_canvas", 1, POLYGON({0, 0}, {200, 0}, {200, 100}, {0, 100}));
    must(tailor_builder_add_point(b, "nape", (tailor_point){100, 10}, &fault)); /* of the make: not on its outline */
    return end(b);
}

static void a_point_off_its_outline(void **state)
{
    (void)state;
    tailor_pattern *on = with_points(0, 0, TAILOR_MARK_NOTCH), *near = with_points(0.49, 0, TAILOR_MARK_NOTCH),
                   *off = with_points(-0.6, 0, TAILOR_MARK_NOTCH);
    examine(on, NULL);
    assert_int_equal(count, 0);
    examine(near, on);
    assert_int_equal(count, 0);
    examine(off, NULL);
    const tailor_finding f = only(
        TAILOR_FINDING_POINT_OFF,
        "piece 1, point 2: it lies 0.6 mm off the outline, at x 100, y -0.6: up to 0.5 mm is allowed");
    assert_true(f.piece == 0 && f.part == 1 && f.other == -1);
    assert_int_equal(count, 1);
    examine(off, on); /* beside the base, the point of no table belongs on the outline too */
    assert_int_equal(has(TAILOR_FINDING_POINT_OFF), 2);
    assert_int_equal(found[1].part, 2);
    examine(off, off); /* there it did not lie on it */
    assert_int_equal(has(TAILOR_FINDING_POINT_OFF), 1);
    tailor_pattern_free(on);
    tailor_pattern_free(near);
    tailor_pattern_free(off);
}

static void a_mark_off_its_piece(void **state)
{
    (void)state;
    for (int kind = TAILOR_MARK_NOTCH; kind <= TAILOR_MARK_FOLD; kind++)
        for (int off = 0; off < 2; off++) {
            tailor_pattern *p = with_points(0, off ? 0.51 : 0.49, kind);
            const int may = kind == TAILOR_MARK_LINE || kind == TAILOR_MARK_FOLD;
            examine(p, NULL);
            assert_int_equal(count, off && !may);
            if (count) {
                const tailor_finding f = only(TAILOR_FINDING_MARK_OFF,
                                              "piece 1, mark 1: it lies 0.51 mm outside of the piece, at x 60, "
                                              "y -0.51: up to 0.5 mm is allowed");
                assert_true(f.piece == 0 && f.part == 0 && f.other == -1);
            }
            tailor_pattern_free(p);
        }
}

/* ---- seams */

static tailor_pattern *sewn(int copies, double ease, const char *other, const double bound[4])
{
    tailor_builder *b = begin();
    add_polygon(b, "first", copies, POLYGON({0, 0}, {100, 0}, {100, 60}, {0, 60}));
    add_polygon(b, "second", 1, POLYGON({0, 0}, {100, 0}, {100, 60}, {0, 60}));
    must(tailor_builder_add_seam(b, "sound", 0, &fault));
    must(tailor_builder_add_stretch(b, 0, "first", "e1", 0, NAN, &fault));
    must(tailor_builder_add_stretch(b, 1, "second", "e1", NAN, 0, &fault));
    must(tailor_builder_add_seam(b, "mouth", ease, &fault));
    must(tailor_builder_add_stretch(b, 0, "first", "e0", bound[0], bound[1], &fault));
    must(tailor_builder_add_stretch(b, 1, other, "e0", bound[2], bound[3], &fault));
    return end(b);
}

static void an_edge_sewn_to_itself(void **state)
{
    (void)state;
    static const struct {
        int copies;
        const char *other;
        double bound[4], itself;
    } seams[] = {
        {1, "first", {0, 100, 100, 0}, 100}, /* the whole of it */
        {1, "first", {0, 60, 100, 40}, 20},  /* folded, but beyond the middle */
        {1, "first", {0, 50, 100, 50}, 0},   /* folded in the middle */
        {1, "second", {0, 100, 100, 0}, 0},
        {2, "first", {0, 100, 0, 100}, 0}, /* one of two to the other: a centre back */
    };
    for (size_t i = 0; i < sizeof seams / sizeof *seams; i++) {
        tailor_pattern *p = sewn(seams[i].copies, 0, seams[i].other, seams[i].bound);
        examine(p, NULL);
        assert_int_equal(count, seams[i].itself > 0);
        if (count) {
            assert_int_equal(found[0].kind, TAILOR_FINDING_SEWN_TO_ITSELF);
            assert_close(found[0].value, seams[i].itself, 1e-9);
            assert_true(found[0].piece == 0 && found[0].part == 0 && found[0].other == 1);
            assert_close(found[0].at.x, 50, 1e-6);
        }
        if (i == 1)
            only(TAILOR_FINDING_SEWN_TO_ITSELF,
                 "seam 2: 20 mm of edge 1 of piece 1 would be sewn to themselves, about x 50, y 0");
        tailor_pattern_free(p);
    }
}

static void a_seam_off_its_ease(void **state)
{
    (void)state;
    static const double whole[4] = {0, 100, 95, 0};
    static const double ease[] = {5, 4.51, 5.49, 4.4, 5.6, -5};
    for (int i = 0; i < 6; i++) {
        tailor_pattern *p = sewn(1, ease[i], "second", whole);
        examine(p, NULL);
        assert_int_equal(count, i > 2);
        if (count) {
            assert_close(found[0].value, 5 - ease[i], 1e-9);
            assert_true(found[0].piece == -1 && found[0].part == 1 && found[0].other == -1);
        }
        if (i == 5)
            only(TAILOR_FINDING_SEAM_OFF,
                 "seam 2: it is 10 mm off its ease: up to 0.5 mm is allowed");
        tailor_pattern_free(p);
    }
}

/* ---- the base */

static void area_that_was_lost(void **state)
{
    (void)state;
    tailor_builder *b[3] = {begin(), begin(), begin()};
    static const double high[3] = {100, 51, 49};
    for (int i = 0; i < 3; i++) {
        if (i < 2)
            add_polygon(b[i], "gone", 1, POLYGON({0, 0}, {50, 0}, {50, 50}));
        add_polygon(b[i], "flap", 1, POLYGON({0, 0}, {100, 0}, {100, high[i]}, {0, high[i]}));
    }
    tailor_pattern *base = end(b[0]), *less = end(b[1]), *lost = end(b[2]);
    examine(less, base);
    assert_int_equal(count, 0);
    examine(lost, base);
    assert_int_equal(count, 2);
    assert_true(found[0].piece == -1 && found[0].other == 0);
    assert_close(found[0].value, 1, 0);
    must(tailor_finding_fault(&found[0], &fault));
    assert_string_equal(fault.sentence, "piece 1 of the base is not there");
    assert_true(found[1].piece == 0 && found[1].other == 1);
    assert_close(found[1].value, 0.51, 1e-12);
    must(tailor_finding_fault(&found[1], &fault));
    assert_string_equal(fault.sentence, "piece 1: 51 % of the area that it has in the base is lost");
    examine(base, lost);
    assert_int_equal(count, 0);
    tailor_pattern_free(base);
    tailor_pattern_free(less);
    tailor_pattern_free(lost);
}

int test_examine(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_outline_that_crosses_itself),
        cmocka_unit_test(an_outline_that_touches_itself),
        cmocka_unit_test(an_outline_that_goes_round_wrongly),
        cmocka_unit_test(a_curve_that_loops),
        cmocka_unit_test(a_neck),
        cmocka_unit_test(what_is_no_sliver),
        cmocka_unit_test(a_point_off_its_outline),
        cmocka_unit_test(a_mark_off_its_piece),
        cmocka_unit_test(an_edge_sewn_to_itself),
        cmocka_unit_test(a_seam_off_its_ease),
        cmocka_unit_test(area_that_was_lost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

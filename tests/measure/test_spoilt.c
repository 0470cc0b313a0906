/* Checks see what is wrong: a sound coat is spoilt by a known amount, in one place, and the check of that place tells
 * the amount. Without this a check that always says nought would pass every other test. */
#include "draft/drafting.h"

#define C(name) TAILOR_CHECK_##name
#define RADIANS (3.14159265358979324 / 180)

static struct made sound;

static int set_up(void **state)
{
    (void)state;
    return make(&sound, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_STATURE, 1780})) != TAILOR_OK;
}

static int tear_down(void **state)
{
    (void)state;
    unmake(&sound);
    return 0;
}

/** Draft the sound coat once more: this one is to be spoilt. Patterns are immutable for everybody else. */
static void draft_one(struct made *m)
{
    *m = sound;
    assert_int_equal(make_client(m, NULL), TAILOR_OK);
}

static tailor_cubic *edge_to_spoil(struct made *m, int piece, int edge, size_t *count)
{
    return (tailor_cubic *)(uintptr_t)edge_of(m->coat, piece, edge, count);
}

static tailor_cubic *mark_to_spoil(struct made *m, int piece, int mark, size_t *count)
{
    tailor_cubic *path = (tailor_cubic *)(uintptr_t)mark_of(m->coat, piece, mark, count);
    assert_non_null(path);
    return path;
}

/** Turn a handle about its own end of the curve. */
static void turn_handle(tailor_cubic *c, int at_end, double degrees)
{
    const tailor_point at = c->p[at_end ? 3 : 0];
    tailor_point *handle = &c->p[at_end ? 2 : 1];
    const double x = handle->x - at.x, y = handle->y - at.y, cosine = cos(degrees * RADIANS),
                 sine = sin(degrees * RADIANS);
    *handle = (tailor_point){at.x + cosine * x - sine * y, at.y + sine * x + cosine * y};
}

/* ---- corners: a handle turned by some degrees is a corner of so many degrees */

#define ON(piece, edge) TAILOR_PIECE_##piece, TAILOR_EDGE_##edge
static const struct corner {
    int check, piece, edge, at_end;
} corners[] = {
    {C(SCYE_RUN_ON), ON(FOREPART, SCYE), 0},
    {C(SCYE_RUN_ON), ON(FOREPART, SCYE), 1},
    {C(SCYE_RUN_ON), ON(SIDEBODY, SCYE), 0},
    {C(SCYE_RUN_ON), ON(SIDEBODY, SCYE), 1},
    {C(SCYE_RUN_ON), ON(BACK, SCYE), 0},
    {C(SCYE_RUN_ON), ON(BACK, SCYE), 1},
    {C(NECK_RUN_ON), ON(BACK, NECK), 0},
    {C(NECK_RUN_ON), ON(FOREPART, GORGE), 1},
    {C(HEM_RUN_ON), ON(BACK, HEM), 1},
    {C(HEM_RUN_ON), ON(SIDEBODY, HEM), 0},
    {C(HEM_RUN_ON), ON(SIDEBODY, HEM), 1},
    {C(HEM_RUN_ON), ON(FOREPART, HEM), 0},
    {C(HEM_SQUARE), ON(BACK, HEM), 0},
    {C(CROWN_RUN_ON), ON(TOPSLEEVE, CROWN), 0},
    {C(CROWN_RUN_ON), ON(TOPSLEEVE, CROWN), 1},
    {C(CROWN_RUN_ON), ON(UNDERSLEEVE, CROWN), 0},
    {C(CROWN_RUN_ON), ON(UNDERSLEEVE, CROWN), 1},
    {C(LAPEL_EDGE_TANGENT), ON(FOREPART, LAPEL_EDGE), 0},
    {C(LAPEL_EDGE_TANGENT), ON(FOREPART, FRONT_EDGE), 1},
};

static void a_corner_is_seen(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof corners / sizeof *corners; i++)
        for (int sign = -1; sign <= 1; sign += 2)
            for (int times = 0; times < 2; times++) {
                struct made m;
                size_t count;
                draft_one(&m);
                /* once a little more than allowed, once a little less */
                const double limit = sound.limit[corners[i].check], before = sound.value[corners[i].check];
                const double degrees = times ? 0.8 * limit : 1.2 * limit + before;
                tailor_cubic *path = edge_to_spoil(&m, corners[i].piece, corners[i].edge, &count);
                turn_handle(&path[corners[i].at_end ? count - 1 : 0], corners[i].at_end, sign * degrees);
                measure_of(&m);
                assert_close(m.value[corners[i].check], degrees, before + 1e-6);
                assert_int_equal(tailor_check_passes(corners[i].check, m.value[corners[i].check], limit),
                                 m.value[corners[i].check] <= limit);
                if (!times)
                    assert_int_equal(tailor_check_passes(corners[i].check, m.value[corners[i].check], limit), 0);
                unmake(&m);
            }
}

static void the_collar_s_corners_are_seen(void **state)
{
    (void)state;
    struct made m;
    size_t count;
    draft_one(&m);
    tailor_cubic *crease = mark_to_spoil(&m, TAILOR_PIECE_UNDER_COLLAR, TAILOR_MARKED_CREASE, &count);
    turn_handle(&crease[1], 0, 1.5);
    assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
    assert_int_equal(m.fault.index, C(CREASE_TANGENT));
    assert_close(m.value[C(CREASE_TANGENT)], 1.5, 1e-6);
    unmake(&m);

    draft_one(&m);
    crease = mark_to_spoil(&m, TAILOR_PIECE_UNDER_COLLAR, TAILOR_MARKED_CREASE, &count);
    for (int k = 0; k < 4; k++)
        crease[1].p[k].y += 0.4;
    assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
    assert_int_equal(m.fault.index, C(CREASE_MEETS));
    assert_close(m.value[C(CREASE_MEETS)], 0.4, 1e-9);
    unmake(&m);

    draft_one(&m);
    tailor_cubic *neck = edge_to_spoil(&m, TAILOR_PIECE_UNDER_COLLAR, TAILOR_EDGE_NECK, &count);
    turn_handle(&neck[0], 1, 3);
    measure_of(&m);
    assert_close(m.value[C(NECK_EDGE_TANGENT)], 3, 1e-4);
    unmake(&m);
}

/* ---- lengths */

/** An edge pulled longer by moving a handle: no longer as long as its partner. */
static void a_longer_edge_is_seen(void **state)
{
    (void)state;
    static const struct {
        int check, piece, edge;
    } edges[] = {
        {C(SEAM_ERROR), ON(BACK, BACK_SEAM)},
        {C(SEAM_ERROR), ON(SIDEBODY, BACK_SEAM)},
        {C(SEAM_ERROR), ON(SIDEBODY, FRONT_SEAM)},
        {C(SEAM_ERROR), ON(FOREPART, FRONT_SEAM)},
        {C(SEAM_ERROR), ON(BACK, SHOULDER)},
        {C(SEAM_ERROR), ON(FOREPART, SHOULDER)},
        {C(SEAM_ERROR), ON(TOPSLEEVE, FOREARM_SEAM)},
        {C(SEAM_ERROR), ON(UNDERSLEEVE, FOREARM_SEAM)},
        {C(COLLAR_NECK_ERROR), ON(UNDER_COLLAR, NECK)},
        {C(FULLNESS_ERROR), ON(TOPSLEEVE, CROWN)},
        {C(FULLNESS_ERROR), ON(UNDERSLEEVE, CROWN)},
        {C(FULLNESS_ERROR), ON(BACK, SCYE)},
        {C(COLLAR_NECK_ERROR), ON(FOREPART, GORGE)},
        {C(COLLAR_NECK_ERROR), ON(BACK, NECK)},
    };
    for (size_t i = 0; i < sizeof edges / sizeof *edges; i++) {
        struct made m;
        size_t count;
        draft_one(&m);
        tailor_cubic *path = edge_to_spoil(&m, edges[i].piece, edges[i].edge, &count);
        const double before = tailor_path_length(path, count);
        path[0].p[1].x += 40;
        path[0].p[2].y -= 25;
        const double more = fabs(tailor_path_length(path, count) - before);
        assert_true(more > 0.3);
        assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
        if (edges[i].check == C(SEAM_ERROR)) /* the stretches of the crown's seams are stated, not measured */
            assert_true(m.value[edges[i].check] > 0.9 * more);
        else
            assert_close(m.value[edges[i].check], more, 1e-6);
        unmake(&m);
    }
}

/** Notches, and the edges that they are on. */
static const struct place {
    int piece, mark, edge;
} notches[] = {
    {TAILOR_PIECE_BACK, TAILOR_MARKED_NOTCH_WAIST_BACK, TAILOR_EDGE_BACK_SEAM},
    {TAILOR_PIECE_SIDEBODY, TAILOR_MARKED_NOTCH_WAIST_BACK, TAILOR_EDGE_BACK_SEAM},
    {TAILOR_PIECE_SIDEBODY, TAILOR_MARKED_NOTCH_WAIST_FRONT, TAILOR_EDGE_FRONT_SEAM},
    {TAILOR_PIECE_FOREPART, TAILOR_MARKED_NOTCH_WAIST_FRONT, TAILOR_EDGE_FRONT_SEAM},
    {TAILOR_PIECE_FOREPART, TAILOR_MARKED_NOTCH_FRONT_PITCH, TAILOR_EDGE_SCYE},
    {TAILOR_PIECE_BACK, TAILOR_MARKED_NOTCH_BACK_PITCH, TAILOR_EDGE_SCYE},
    {TAILOR_PIECE_TOPSLEEVE, TAILOR_MARKED_NOTCH_FRONT_PITCH, TAILOR_EDGE_CROWN},
    {TAILOR_PIECE_TOPSLEEVE, TAILOR_MARKED_NOTCH_CROWN, TAILOR_EDGE_CROWN},
    {TAILOR_PIECE_TOPSLEEVE, TAILOR_MARKED_NOTCH_FORE_UPPER, TAILOR_EDGE_FOREARM_SEAM},
    {TAILOR_PIECE_UNDERSLEEVE, TAILOR_MARKED_NOTCH_FORE_LOWER, TAILOR_EDGE_FOREARM_SEAM},
    {TAILOR_PIECE_UNDERSLEEVE, TAILOR_MARKED_NOTCH_HIND_UPPER, TAILOR_EDGE_HINDARM_SEAM},
    {TAILOR_PIECE_TOPSLEEVE, TAILOR_MARKED_NOTCH_HIND_LOWER, TAILOR_EDGE_HINDARM_SEAM},
    {TAILOR_PIECE_UNDER_COLLAR, TAILOR_MARKED_NOTCH_NECK, TAILOR_EDGE_NECK},
};
enum { NOTCHES = sizeof notches / sizeof *notches };

static void a_moved_notch_is_seen(void **state)
{
    (void)state;
    for (int i = 0; i < NOTCHES; i++) {
        struct made m;
        size_t count, edge_count;
        double off;
        draft_one(&m);
        const tailor_cubic *edge = edge_of(m.coat, notches[i].piece, notches[i].edge, &edge_count);
        tailor_cubic *notch = mark_to_spoil(&m, notches[i].piece, notches[i].mark, &count);
        const double place = tailor_path_nearest(edge, edge_count, notch->p[0], &off);
        const double along = tailor_path_length_to(edge, edge_count, place), to = along + (along > 1 ? -0.3 : 0.3);
        notch->p[0] = tailor_path_point(edge, edge_count, tailor_path_at_length(edge, edge_count, to));
        assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
        assert_int_equal(m.fault.index, C(NOTCH_ERROR));
        assert_close(m.value[C(NOTCH_ERROR)], 0.3, 1e-6);
        unmake(&m);
    }
}

/** A notch beside its edge cannot be sewn to anything, and no check may call that fine. */
static void a_notch_off_its_edge_is_seen(void **state)
{
    (void)state;
    for (int i = 0; i < NOTCHES; i++) {
        struct made m;
        size_t count;
        draft_one(&m);
        tailor_cubic *notch = mark_to_spoil(&m, notches[i].piece, notches[i].mark, &count);
        notch->p[0].x += 2;
        notch->p[0].y += 2;
        if (measure_of(&m) == TAILOR_OK)
            fail_msg("a notch of %s lies beside its edge, and all checks pass",
                     tailor_table_text(tailor_piece_table(), notches[i].piece, TAILOR_COLUMN_NAME));
        unmake(&m);
    }
}

/* ---- the sleeve */

/** A crown that rises beside its notch: 0.2 mm higher is as far off as 5 mm beside. */
static void a_crown_highest_elsewhere_is_seen(void **state)
{
    (void)state;
    struct made m;
    size_t count;
    double box[4];
    draft_one(&m);
    const tailor_point notch = POINT(&m, TOPSLEEVE, CROWN_NOTCH);
    tailor_cubic *crown = edge_to_spoil(&m, ON(TOPSLEEVE, CROWN), &count);
    for (size_t i = 0; i < count; i++)
        if (apart(crown[i].p[3], notch) < 1e-6)
            crown[i].p[2].y += 20;
    tailor_path_bounds(crown, count, box);
    assert_true(box[3] > notch.y + 0.25);
    measure_of(&m);
    assert_close(m.value[C(CROWN_NOTCH_ERROR)], 5 * sqrt((box[3] - notch.y) / 0.2), 1e-6);
    assert_int_equal(tailor_check_passes(C(CROWN_NOTCH_ERROR), m.value[C(CROWN_NOTCH_ERROR)], 5), 0);
    unmake(&m);
}

/** An undersleeve that hangs away from the underscye. */
static void an_undersleeve_that_does_not_follow_is_seen(void **state)
{
    (void)state;
    for (double by = -9; by <= 9; by += 18) {
        struct made m;
        size_t count;
        draft_one(&m);
        tailor_cubic *crown = edge_to_spoil(&m, ON(UNDERSLEEVE, CROWN), &count);
        for (size_t i = 0; i < count; i++)
            for (int k = 0; k < 4; k++)
                crown[i].p[k].y += by;
        measure_of(&m);
        assert_true(m.value[C(UNDERSLEEVE_FOLLOWS)] > 4 && m.value[C(UNDERSLEEVE_FOLLOWS)] < fabs(by) + 0.01);
        unmake(&m);
    }
}

/* ---- outlines */

static void a_gap_is_seen(void **state)
{
    (void)state;
    struct made m;
    size_t count;
    draft_one(&m);
    edge_to_spoil(&m, ON(UNDERSLEEVE, CUFF), &count)->p[3].x += 1e-6;
    assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
    assert_close(m.value[C(OUTLINE_GAP)], 1e-6, 1e-9);
    assert_int_equal(tailor_check_passes(C(OUTLINE_GAP), m.value[C(OUTLINE_GAP)], m.limit[C(OUTLINE_GAP)]), 0);
    unmake(&m);
}

/** A hem with its handles crossed far over makes a loop; a piece turned over runs clockwise. */
static void loops_and_clockwise_pieces_are_seen(void **state)
{
    (void)state;
    struct made m;
    size_t count;
    draft_one(&m);
    tailor_cubic *hem = edge_to_spoil(&m, ON(SIDEBODY, HEM), &count);
    hem->p[1].x += 900;
    hem->p[2].x -= 900;
    assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
    assert_close(m.value[C(OUTLINE_CROSSINGS)], 1, 0);
    unmake(&m);

    draft_one(&m);
    const int piece = piece_of(m.coat, TAILOR_PIECE_UNDER_COLLAR);
    tailor_cubic *outline = (tailor_cubic *)(uintptr_t)tailor_piece_outline(m.coat, piece, &count);
    const double area = tailor_path_area(outline, count);
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++)
            outline[i].p[k].x *= -1;
    assert_int_equal(measure_of(&m), TAILOR_CHECK_FAILED);
    assert_close(m.value[C(OUTLINE_AREA)], -area, 1e-6);
    unmake(&m);
}

int test_spoilt(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_corner_is_seen),
        cmocka_unit_test(the_collar_s_corners_are_seen),
        cmocka_unit_test(a_longer_edge_is_seen),
        cmocka_unit_test(a_moved_notch_is_seen),
        cmocka_unit_test(a_notch_off_its_edge_is_seen),
        cmocka_unit_test(a_crown_highest_elsewhere_is_seen),
        cmocka_unit_test(an_undersleeve_that_does_not_follow_is_seen),
        cmocka_unit_test(a_gap_is_seen),
        cmocka_unit_test(loops_and_clockwise_pieces_are_seen),
    };
    return cmocka_run_group_tests_name("spoilt coats", tests, set_up, tear_down);
}

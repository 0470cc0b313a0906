/* What a pattern is made of fits together: edges are the outline, points lie where their names say, marks on their
 * pieces, seams on their edges. Over many coats. */
#include "draft/drafting.h"
#include "support/seams.h"

enum { COATS = 120 };

static struct made coats[COATS];
static int drafted;

static int draft_coats(void **state)
{
    (void)state;
    struct dice d = {77};
    for (int tries = 0; drafted < COATS && tries < 4 * COATS; tries++) {
        struct made *m = &coats[drafted];
        tailor_fields_clear(m->client, TAILOR_FIELD_COUNT);
        m->client[TAILOR_FIELD_CHEST_GIRTH] = between(&d, 860, 1300);
        m->client[TAILOR_FIELD_WAIST_GIRTH] = m->client[TAILOR_FIELD_CHEST_GIRTH] - between(&d, -60, 160);
        m->client[TAILOR_FIELD_STATURE] = between(&d, 1600, 1980);
        for (int field = 1; field < TAILOR_FIELD_COUNT; field++)
            if (!is_measure(field) && even(&d) < 0.3)
                m->client[field] = any_value(&d, field, 0.5);
        agree_with_itself(m->client);
        both_sides_alike(m->client);
        make_client(m, NULL);
        if (m->status == TAILOR_OK)
            drafted++;
        else
            unmake(m);
    }
    return drafted < COATS; /* a failure */
}

static int free_coats(void **state)
{
    (void)state;
    for (int i = 0; i < drafted; i++)
        unmake(&coats[i]);
    return 0;
}

/** Area by the shoelace formula on many points: not by the library's own. */
static double shoelace(const tailor_cubic *c, size_t count)
{
    enum { PARTS = 64 };
    double twice = 0;
    tailor_point before = tailor_cubic_point(&c[count - 1], 1);
    for (size_t i = 0; i < count; i++)
        for (int k = 1; k <= PARTS; k++) {
            const tailor_point p = tailor_cubic_point(&c[i], (double)k / PARTS);
            twice += before.x * p.y - p.x * before.y;
            before = p;
        }
    return twice / 2;
}

static void edges_together_are_the_outline(void **state)
{
    (void)state;
    for (int n = 0; n < COATS; n++)
        for (int piece = 0; piece < tailor_pattern_piece_count(coats[n].coat); piece++) {
            size_t outline_count, count, place = 0;
            const tailor_cubic *outline = tailor_piece_outline(coats[n].coat, piece, &outline_count);
            for (int edge = 0; edge < tailor_piece_edge_count(coats[n].coat, piece); edge++) {
                const tailor_cubic *path = tailor_edge_path(coats[n].coat, piece, edge, &count);
                assert_true(count > 0 && place + count <= outline_count);
                assert_memory_equal(path, outline + place, count * sizeof *path);
                place += count;
            }
            assert_int_equal(place, outline_count);
            for (size_t i = 0; i < outline_count; i++) {
                assert_close(apart(outline[i].p[3], outline[(i + 1) % outline_count].p[0]), 0, 1e-9);
                for (int k = 0; k < 4; k++)
                    assert_true(isfinite(outline[i].p[k].x) && isfinite(outline[i].p[k].y));
                assert_true(tailor_cubic_length(&outline[i]) > 1e-9);
            }
            const double area = shoelace(outline, outline_count);
            assert_true(area > 1000); /* counter-clockwise */
            assert_close(tailor_path_area(outline, outline_count), area, 1e-3 * area);
        }
}

/** Points that are said to lie on an edge. */
static void points_lie_on_their_edges(void **state)
{
    (void)state;
    static const struct {
        int piece, point, edge;
    } on[] = {
        {TAILOR_PIECE_BACK, TAILOR_POINT_NAPE, TAILOR_EDGE_CENTRE_BACK},
        {TAILOR_PIECE_BACK, TAILOR_POINT_NECK_POINT, TAILOR_EDGE_NECK},
        {TAILOR_PIECE_BACK, TAILOR_POINT_NECK_POINT, TAILOR_EDGE_SHOULDER},
        {TAILOR_PIECE_BACK, TAILOR_POINT_SHOULDER_END, TAILOR_EDGE_SCYE},
        {TAILOR_PIECE_BACK, TAILOR_POINT_CROSS_BACK, TAILOR_EDGE_SCYE},
        {TAILOR_PIECE_BACK, TAILOR_POINT_BACK_PITCH, TAILOR_EDGE_SCYE},
        {TAILOR_PIECE_BACK, TAILOR_POINT_WAIST, TAILOR_EDGE_CENTRE_BACK},
        {TAILOR_PIECE_BACK, TAILOR_POINT_SEAT, TAILOR_EDGE_CENTRE_BACK},
        {TAILOR_PIECE_SIDEBODY, TAILOR_POINT_SCYE_BOTTOM, TAILOR_EDGE_SCYE},
        {TAILOR_PIECE_SIDEBODY, TAILOR_POINT_WAIST, TAILOR_EDGE_BACK_SEAM},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_NECK_POINT, TAILOR_EDGE_GORGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_NECK_POINT, TAILOR_EDGE_SHOULDER},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_SHOULDER_END, TAILOR_EDGE_SCYE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_FRONT_PITCH, TAILOR_EDGE_SCYE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_SCYE_PLUMB, TAILOR_EDGE_SCYE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_BREAK_POINT, TAILOR_EDGE_FRONT_EDGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_BREAK_POINT, TAILOR_EDGE_LAPEL_EDGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_TIP, TAILOR_EDGE_LAPEL_EDGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_TIP, TAILOR_EDGE_LAPEL_STEP},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_COLLAR_END, TAILOR_EDGE_LAPEL_STEP},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_COLLAR_END, TAILOR_EDGE_GORGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_GORGE_CORNER, TAILOR_EDGE_GORGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_GORGE_CROSSING, TAILOR_EDGE_GORGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_HEM_FRONT, TAILOR_EDGE_HEM},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_HEM_FRONT, TAILOR_EDGE_FRONT_EDGE},
        {TAILOR_PIECE_FOREPART, TAILOR_POINT_FRONTS_PART, TAILOR_EDGE_FRONT_EDGE},
        {TAILOR_PIECE_TOPSLEEVE, TAILOR_POINT_CROWN_NOTCH, TAILOR_EDGE_CROWN},
        {TAILOR_PIECE_TOPSLEEVE, TAILOR_POINT_FRONT_PITCH, TAILOR_EDGE_CROWN},
        {TAILOR_PIECE_TOPSLEEVE, TAILOR_POINT_BACK_PITCH, TAILOR_EDGE_HINDARM_SEAM},
        {TAILOR_PIECE_UNDERSLEEVE, TAILOR_POINT_BACK_PITCH, TAILOR_EDGE_HINDARM_SEAM},
        {TAILOR_PIECE_UNDERSLEEVE, TAILOR_POINT_ELBOW, TAILOR_EDGE_HINDARM_SEAM},
        {TAILOR_PIECE_UNDER_COLLAR, TAILOR_POINT_NECK_POINT, TAILOR_EDGE_NECK},
        {TAILOR_PIECE_UNDER_COLLAR, TAILOR_POINT_CREASE_BACK, TAILOR_EDGE_CENTRE_BACK},
        {TAILOR_PIECE_UNDER_COLLAR, TAILOR_POINT_COLLAR_POINT, TAILOR_EDGE_LEAF},
        {TAILOR_PIECE_UNDER_COLLAR, TAILOR_POINT_COLLAR_POINT, TAILOR_EDGE_END},
        {TAILOR_PIECE_UNDER_COLLAR, TAILOR_POINT_COLLAR_END, TAILOR_EDGE_END},
    };
    for (int n = 0; n < COATS; n++)
        for (size_t i = 0; i < sizeof on / sizeof *on; i++) {
            size_t count;
            double off;
            const int shawl = coats[n].row[TAILOR_FIELD_LAPEL] == TAILOR_LAPEL_SHAWL;
            if (shawl && (on[i].edge == TAILOR_EDGE_LAPEL_STEP || on[i].edge == TAILOR_EDGE_END))
                continue; /* no step, and so no collar end */
            const tailor_cubic *path = edge_of(coats[n].coat, on[i].piece, on[i].edge, &count);
            tailor_path_nearest(path, count, point_of(coats[n].coat, on[i].piece, on[i].point), &off);
            if (!(off <= 1e-6))
                print_error("%s, %s\n", tailor_table_text(tailor_piece_table(), on[i].piece, TAILOR_COLUMN_NAME),
                            tailor_table_text(tailor_point_table(), on[i].point, TAILOR_COLUMN_NAME));
            assert_at_most(off, 1e-6);
        }
}

/** A notch begins on the outline and goes square into the piece; grain, buttons, holes, dart and folds stay within it.
 */
static void marks_lie_on_their_pieces(void **state)
{
    (void)state;
    for (int n = 0; n < COATS; n++) {
        const tailor_pattern *p = coats[n].coat;
        for (int piece = 0; piece < tailor_pattern_piece_count(p); piece++) {
            size_t outline_count, count;
            const tailor_cubic *outline = tailor_piece_outline(p, piece, &outline_count);
            for (int i = 0; i < tailor_piece_mark_count(p, piece); i++) {
                const tailor_cubic *path = tailor_mark_path(p, piece, i, &count);
                const int kind = tailor_mark_kind(p, piece, i);
                assert_true(count > 0);
                assert_at_most(tailor_path_gap(path, count, 0), 1e-9);
                if (kind == TAILOR_MARK_NOTCH) {
                    double off;
                    const tailor_point a = path->p[0], b = path->p[3];
                    const double place = tailor_path_nearest(outline, outline_count, a, &off);
                    assert_at_most(off, 1e-6);
                    assert_close(apart(a, b), coats[n].constants[TAILOR_CONSTANT_NOTCH_LENGTH], 1e-9);
                    const tailor_point run = tailor_path_direction(outline, outline_count, place);
                    if (place > floor(place) + 1e-3 && place < ceil(place) - 1e-3) { /* not at a corner */
                        assert_close((run.x * (b.x - a.x) + run.y * (b.y - a.y)) / apart(a, b), 0, 1e-4);
                        assert_int_equal(tailor_path_winding(outline, outline_count, b), 1);
                    }
                } else if (kind == TAILOR_MARK_GRAIN || kind == TAILOR_MARK_BUTTON || kind == TAILOR_MARK_HOLE ||
                           kind == TAILOR_MARK_DART) {
                    for (size_t k = 0; k <= 4 * count; k++) {
                        const tailor_point q = tailor_path_point(path, count, (double)k / 4);
                        if (tailor_path_winding(outline, outline_count, q) != 1)
                            fail_msg("%s leaves %s at %.1f, %.1f (chest %.1f)", tailor_mark_name(p, piece, i),
                                     tailor_piece_name(p, piece), q.x, q.y, coats[n].row[TAILOR_FIELD_CHEST_GIRTH]);
                    }
                }
            }
        }
    }
}

/** Every piece says how it lies on the cloth: its straight grain, upwards. */
static void the_grain_runs_upwards(void **state)
{
    (void)state;
    for (int n = 0; n < COATS; n++)
        for (int piece = 0; piece < tailor_pattern_piece_count(coats[n].coat); piece++) {
            size_t count;
            const int number = tailor_piece_number(coats[n].coat, piece);
            const tailor_cubic *grain = mark_of(coats[n].coat, number, TAILOR_MARKED_GRAIN, &count);
            assert_int_equal(count, 1);
            if (!(apart(grain->p[0], grain->p[3]) > 40 && grain->p[3].y > grain->p[0].y))
                fail_msg("the grain of %s does not run upwards", tailor_piece_name(coats[n].coat, piece));
        }
}

/* ---- seams */

struct side {
    int piece, edge;
    double from, to, whole;
};

static struct side side_of(const tailor_pattern *p, int seam, int which)
{
    const tailor_stretch sewn = stretch_of(p, seam, which, 0);
    size_t count;
    const tailor_cubic *path = tailor_edge_path(p, sewn.piece, sewn.edge, &count);
    assert_non_null(path);
    assert_int_equal(tailor_seam_stretch_count(p, seam, which), 1); /* so far every side of a draft's seams is one */
    return (struct side){sewn.piece, sewn.edge, sewn.from, sewn.to, tailor_path_length(path, count)};
}

static void seams_lie_on_their_edges(void **state)
{
    (void)state;
    static const char *const names[] = {"back_seam",    "front_seam",   "shoulder",    "back_neck", "gorge",
                                        "forearm_seam", "hindarm_seam", "crown_front", "crown_back"};
    for (int n = 0; n < COATS; n++) {
        const tailor_pattern *p = coats[n].coat;
        for (size_t i = 0; i < sizeof names / sizeof *names; i++)
            assert_true(tailor_pattern_find_seam(p, names[i]) >= 0);
        for (int seam = 0; seam < tailor_pattern_seam_count(p); seam++) {
            struct side s[2];
            for (int which = 0; which < 2; which++) {
                s[which] = side_of(p, seam, which);
                assert_true(s[which].from >= -1e-9 && s[which].from <= s[which].whole + 1e-9);
                assert_true(s[which].to >= -1e-9 && s[which].to <= s[which].whole + 1e-9);
            }
            assert_close(fabs(s[0].to - s[0].from) - fabs(s[1].to - s[1].from), tailor_seam_ease(p, seam), 1e-6);
            /* right sides together: outlines that both run counter-clockwise are sewn against each other */
            assert_true((s[0].to - s[0].from) * (s[1].to - s[1].from) < 0);
        }
    }
}

/** No stretch of an edge is sewn twice, and every edge of the body that has to be sewn is sewn from end to end. */
static void every_edge_is_sewn_once(void **state)
{
    (void)state;
    static const struct {
        int piece, edge;
    } whole[] = {
        {TAILOR_PIECE_BACK, TAILOR_EDGE_BACK_SEAM},
        {TAILOR_PIECE_BACK, TAILOR_EDGE_SHOULDER},
        {TAILOR_PIECE_BACK, TAILOR_EDGE_NECK},
        {TAILOR_PIECE_SIDEBODY, TAILOR_EDGE_BACK_SEAM},
        {TAILOR_PIECE_SIDEBODY, TAILOR_EDGE_FRONT_SEAM},
        {TAILOR_PIECE_FOREPART, TAILOR_EDGE_FRONT_SEAM},
        {TAILOR_PIECE_FOREPART, TAILOR_EDGE_SHOULDER},
        {TAILOR_PIECE_FOREPART, TAILOR_EDGE_GORGE},
        {TAILOR_PIECE_UNDER_COLLAR, TAILOR_EDGE_NECK},
        {TAILOR_PIECE_TOPSLEEVE, TAILOR_EDGE_FOREARM_SEAM},
        {TAILOR_PIECE_UNDERSLEEVE, TAILOR_EDGE_FOREARM_SEAM},
        {TAILOR_PIECE_TOPSLEEVE, TAILOR_EDGE_HINDARM_SEAM},
        {TAILOR_PIECE_UNDERSLEEVE, TAILOR_EDGE_HINDARM_SEAM},
    };
    for (int n = 0; n < COATS; n++) {
        const tailor_pattern *p = coats[n].coat;
        double sewn[TAILOR_PIECE_COUNT][TAILOR_EDGE_COUNT] = {{0}};
        const int seams = tailor_pattern_seam_count(p);
        for (int seam = 0; seam < seams; seam++)
            for (int which = 0; which < 2; which++) {
                const struct side s = side_of(p, seam, which);
                sewn[tailor_piece_number(p, s.piece)][tailor_edge_number(p, s.piece, s.edge)] += fabs(s.to - s.from);
                for (int other = 0; other < 2 * seams; other++) {
                    const struct side o = side_of(p, other / 2, other % 2);
                    if (other == 2 * seam + which || o.piece != s.piece || o.edge != s.edge)
                        continue;
                    const double overlap = fmin(fmax(s.from, s.to), fmax(o.from, o.to)) -
                                           fmax(fmin(s.from, s.to), fmin(o.from, o.to));
                    assert_at_most(overlap, 1e-6);
                }
            }
        for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
            assert_close(sewn[whole[i].piece][whole[i].edge], edge_length(p, whole[i].piece, whole[i].edge), 1e-6);
    }
}

/** Place of a notch along the sewn stretch of one side, from where sewing begins. */
static double notch_along(const tailor_pattern *p, const struct side *s, int mark)
{
    size_t count, mark_count;
    double off;
    const tailor_cubic *path = tailor_edge_path(p, s->piece, s->edge, &count);
    const tailor_cubic *notch = mark_of(p, tailor_piece_number(p, s->piece), mark, &mark_count);
    assert_non_null(notch);
    const double place = tailor_path_nearest(path, count, notch->p[0], &off);
    assert_at_most(off, 1e-6);
    return fabs(tailor_path_length_to(path, count, place) - s->from);
}

/** Notches meet when sewn: at equal lengths from where sewing begins, or from where it ends. */
static void notches_meet(void **state)
{
    (void)state;
    static const struct {
        const char *seam;
        int mark, from_end;
    } pairs[] = {
        {"back_seam", TAILOR_MARKED_NOTCH_WAIST_BACK, 0}, /* from the hem: the blade ease lies above */
        {"front_seam", TAILOR_MARKED_NOTCH_WAIST_FRONT, 0},  {"forearm_seam", TAILOR_MARKED_NOTCH_FORE_LOWER, 0},
        {"forearm_seam", TAILOR_MARKED_NOTCH_FORE_UPPER, 1}, {"hindarm_seam", TAILOR_MARKED_NOTCH_HIND_UPPER, 0},
        {"hindarm_seam", TAILOR_MARKED_NOTCH_HIND_LOWER, 1},
    };
    for (int n = 0; n < COATS; n++) {
        const tailor_pattern *p = coats[n].coat;
        for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
            const int seam = tailor_pattern_find_seam(p, pairs[i].seam);
            const struct side a = side_of(p, seam, 0), b = side_of(p, seam, 1);
            const double ease = pairs[i].from_end ? tailor_seam_ease(p, seam) : 0;
            assert_close(notch_along(p, &a, pairs[i].mark) - notch_along(p, &b, pairs[i].mark), ease, 1e-6);
        }
    }
}

int test_shape(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_grain_runs_upwards),
        cmocka_unit_test(edges_together_are_the_outline),
        cmocka_unit_test(points_lie_on_their_edges),
        cmocka_unit_test(marks_lie_on_their_pieces),
        cmocka_unit_test(seams_lie_on_their_edges),
        cmocka_unit_test(every_edge_is_sewn_once),
        cmocka_unit_test(notches_meet),
    };
    return cmocka_run_group_tests_name("shape of a pattern", tests, draft_coats, free_coats);
}

/* Facing and top collar: wider by the exact turn of the cloth and what the house adds, longer by what is eased in, and
 * true along every seam, for every coat that can be drafted. */
#include "draft/front_make.h"

static const double PI = 3.14159265358979323846;

/** Thickness times turned angle: cloth and canvas lie between the mid-planes, the fold turns by pi. */
static double turn_of(const struct made *m)
{
    return (m->row[TAILOR_FIELD_CLOTH_THICKNESS] + m->row[TAILOR_FIELD_CANVAS_THICKNESS] +
            m->constants[TAILOR_CONSTANT_PADDING_THICKNESS]) *
           PI;
}

static int shawl(const struct made *m) { return (int)m->row[TAILOR_FIELD_LAPEL] == TAILOR_LAPEL_SHAWL; }

/** The piece of that number for a side; -1 if there is none. */
static int piece_for(const tailor_pattern *coat, int number, int side)
{
    for (int i = 0; i < tailor_pattern_piece_count(coat); i++)
        if (tailor_piece_number(coat, i) == number &&
            (tailor_piece_mirrored(coat, i) || tailor_piece_side(coat, i) == side))
            return i;
    return -1;
}

static const tailor_cubic *path_of(const tailor_pattern *coat, int piece, int edge, size_t *count)
{
    for (int i = 0; i < tailor_piece_edge_count(coat, piece); i++)
        if (tailor_edge_number(coat, piece, i) == edge)
            return tailor_edge_path(coat, piece, i, count);
    *count = 0;
    return NULL;
}

static double length_of(const tailor_pattern *coat, int piece, int edge)
{
    size_t count;
    const tailor_cubic *path = path_of(coat, piece, edge, &count);
    return path ? tailor_path_length(path, count) : NAN;
}

static tailor_point place_of(const tailor_pattern *coat, int piece, int point)
{
    for (int i = 0; i < tailor_piece_point_count(coat, piece); i++)
        if (tailor_point_number(coat, piece, i) == point)
            return tailor_point_place(coat, piece, i);
    return (tailor_point){NAN, NAN};
}

/** How far a path reaches beyond the line from a to b, at most. */
static double widest(const tailor_cubic *path, size_t count, tailor_point a, tailor_point b)
{
    double most = -INFINITY, length = apart(a, b);
    for (int i = 0; i <= 400; i++) {
        tailor_point p = tailor_path_point(path, count, (double)count * i / 400);
        most = fmax(most, fabs((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / length);
    }
    return most;
}

#define EQUAL(m, what, is, wanted, within)                                                                             \
    do {                                                                                                               \
        double is_ = (is), wanted_ = (wanted);                                                                         \
        if (!(fabs(is_ - wanted_) <= (within)))                                                                        \
            FAIL_ORDER(m, "%s is %.6f, not %.6f", what, is_, wanted_);                                                 \
    } while (0)

static void look_at_lapel(const struct made *m, int facing, int forepart)
{
    const tailor_pattern *coat = m->coat;
    tailor_point stand = place_of(coat, forepart, TAILOR_POINT_STAND_POINT),
                 fold = place_of(coat, forepart, TAILOR_POINT_BREAK_POINT);
    size_t n, n_facing;
    const tailor_cubic *lapel = path_of(coat, forepart, TAILOR_EDGE_LAPEL_EDGE, &n);
    const tailor_cubic *over = path_of(coat, facing, TAILOR_EDGE_LAPEL_EDGE, &n_facing);
    double wider = turn_of(m) + m->constants[TAILOR_CONSTANT_FACING_EDGE_MORE];
    /* Mirrored pieces run the other way, which their widths do not show. Sampled maxima: within 0.02. A shawl is parted
     * past the lapel's end, where its width already follows the collar's. */
    EQUAL(m, "width of the facing beyond the lapel's",
          widest(over, n_facing, stand, fold) - widest(lapel, n, stand, fold), wider, 0.02);
    EQUAL(m, "length of the facing over the lapel",
          length_of(coat, facing, TAILOR_EDGE_LAPEL_EDGE) - length_of(coat, forepart, TAILOR_EDGE_LAPEL_EDGE),
          m->constants[TAILOR_CONSTANT_FACING_LAPEL_LONG], 1e-6);
    if (shawl(m))
        return;
    tailor_point tip = place_of(coat, forepart, TAILOR_POINT_TIP), out = place_of(coat, facing, TAILOR_POINT_TIP);
    double length = apart(stand, fold);
    tailor_point up = {(stand.x - fold.x) / length, (stand.y - fold.y) / length};
    EQUAL(m, "tip beyond the lapel's, square to the break line", fabs((out.x - tip.x) * up.y - (out.y - tip.y) * up.x),
          wider, 1e-9);
    tailor_point root = place_of(coat, forepart, TAILOR_POINT_COLLAR_END),
                 end = place_of(coat, facing, TAILOR_POINT_COLLAR_END);
    EQUAL(m, "collar end beyond the lapel's, square to the break line",
          fabs((end.x - root.x) * up.y - (end.y - root.y) * up.x), turn_of(m), 1e-9);
}

/** How far the facing may lie off its place inside the edge, as a part of that distance: a cubic is not quite the
 * parallel of another, least of all where an odd style bends the edge hard. */
static double off_most;

/** Below the break point the facing lies inside the edge; what turns is shorter by that much a radian, and a corner by
 *  that much in all. */
static void look_at_front(const struct made *m, int facing, int forepart)
{
    const tailor_pattern *coat = m->coat;
    size_t n, n_facing;
    const tailor_cubic *edge = path_of(coat, forepart, TAILOR_EDGE_FRONT_EDGE, &n);
    const tailor_cubic *inside = path_of(coat, facing, TAILOR_EDGE_FRONT_EDGE, &n_facing);
    double in = m->constants[TAILOR_CONSTANT_FACING_INSIDE], worst = 0;
    int left = tailor_piece_side(coat, facing) == TAILOR_SIDE_LEFT, crossing = left ? 0 : (int)n_facing - 1;
    for (int i = 0; i < (int)n_facing; i++)
        for (int j = 0; i != crossing && j <= 20; j++) {
            double away;
            tailor_path_nearest(edge, n, tailor_cubic_point(&inside[i], j / 20.0), &away);
            worst = fmax(worst, fabs(away - in));
        }
    if (worst > off_most * in + 1e-9)
        FAIL_ORDER(m, "the facing is %g off its place inside the edge", worst);
    /* As far as the edge runs inside the forepart's: about the break point both are equally long. */
    double whole = tailor_path_length(edge, n), cross = m->constants[TAILOR_CONSTANT_FACING_CROSS];
    tailor_point a = tailor_path_direction(edge, n, tailor_path_at_length(edge, n, left ? cross : 0)),
                 b = tailor_path_direction(edge, n, tailor_path_at_length(edge, n, left ? whole : whole - cross));
    double turned = atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
    double shorter = whole - length_of(coat, facing, TAILOR_EDGE_FRONT_EDGE);
    int square = (int)m->row[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_SQUARE;
    EQUAL(m, "what the facing is shorter along the front", shorter, in * (turned + square), 0.7 * off_most * in);
}

static void look_at_collar(const struct made *m, int facing, int top, int under, int back)
{
    const tailor_pattern *coat = m->coat;
    int collar = shawl(m) ? facing : top;
    EQUAL(m, "top collar wider than the under collar at the centre back",
          length_of(coat, collar, TAILOR_EDGE_CENTRE_BACK) - length_of(coat, under, TAILOR_EDGE_CENTRE_BACK),
          turn_of(m) + m->constants[TAILOR_CONSTANT_TOP_COLLAR_EDGE], 1e-6);
    EQUAL(m, "top collar longer along the leaf",
          length_of(coat, collar, TAILOR_EDGE_LEAF) - length_of(coat, under, TAILOR_EDGE_LEAF),
          m->constants[TAILOR_CONSTANT_TOP_COLLAR_LONG], 1e-6);
    double gorge = shawl(m) ? 0 : length_of(coat, facing, TAILOR_EDGE_GORGE);
    EQUAL(m, "neck edge of the top collar", length_of(coat, collar, TAILOR_EDGE_NECK),
          gorge + length_of(coat, back, TAILOR_EDGE_NECK), 1e-6);
    if (shawl(m)) {
        assert_int_equal(top, -1);
        return;
    }
    EQUAL(m, "end of the top collar beyond the under collar's",
          length_of(coat, top, TAILOR_EDGE_END) - length_of(coat, under, TAILOR_EDGE_END),
          m->constants[TAILOR_CONSTANT_TOP_COLLAR_EDGE], 0.5);
}

static void look_over(const struct made *m)
{
    static const char *const seams[] = {"facing_", "top_collar_", "lining_facing"};
    for (int side = TAILOR_SIDE_RIGHT; side <= TAILOR_SIDE_LEFT; side++) {
        int facing = piece_for(m->coat, TAILOR_PIECE_FACING, side),
            top = piece_for(m->coat, TAILOR_PIECE_TOP_COLLAR, side);
        int forepart = piece_for(m->coat, TAILOR_PIECE_FOREPART, side);
        if (facing < 0 || forepart < 0)
            FAIL_ORDER(m, "no facing for side %d", side);
        look_at_piece(m, facing);
        if (top >= 0)
            look_at_piece(m, top);
        /* A facing that serves both sides is drawn as of the right, even where the left forepart is another. */
        if (tailor_piece_side(m->coat, facing) == tailor_piece_side(m->coat, forepart)) {
            look_at_lapel(m, facing, forepart);
            look_at_front(m, facing, forepart);
        }
        look_at_collar(m, facing, top, piece_for(m->coat, TAILOR_PIECE_UNDER_COLLAR, side),
                       piece_for(m->coat, TAILOR_PIECE_BACK, side));
    }
    int seen = 0;
    for (int i = 0; i < tailor_pattern_seam_count(m->coat); i++)
        for (size_t j = 0; j < sizeof seams / sizeof *seams; j++)
            if (strncmp(tailor_seam_name(m->coat, i), seams[j], strlen(seams[j])) == 0) {
                if (!(seam_error(m->coat, i) <= 0.05))
                    FAIL_ORDER(m, "%s is out by %g", tailor_seam_name(m->coat, i), seam_error(m->coat, i));
                seen++;
            }
    if (seen < (shawl(m) ? 6 : 10))
        FAIL_ORDER(m, "only %d seams of facing and top collar", seen);
}

static void every_facing_and_top_collar(void **state)
{
    (void)state;
    off_most = 1;
    make_of_every_kind(look_over);
    off_most = 0.06;
    make_many(36, how_many(1000, 10000), (struct drawing){1, 0, 1}, 0, look_over);
}

/** The recipe's own figure: cloth of 0.66 and canvas of 0.6 turn by some 4 mm. */
static void turn_of_a_usual_cloth(void **state)
{
    (void)state;
    struct made m;
    must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_CLOTH_WEIGHT, 300}));
    assert_close(turn_of(&m), 4, 0.1);
    unmake(&m);
}

/** Heavier cloth, wider facing: the turn is computed. */
static void thicker_cloth_turns_more(void **state)
{
    (void)state;
    struct made thin, thick;
    must_make_whole(&thin, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_CLOTH_THICKNESS, 0.5}));
    must_make_whole(&thick, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_CLOTH_THICKNESS, 1.5}));
    tailor_point a = POINT(&thin, FACING, TIP), b = POINT(&thick, FACING, TIP);
    tailor_point fold = POINT(&thin, FOREPART, BREAK_POINT), stand = POINT(&thin, FOREPART, STAND_POINT);
    double length = apart(fold, stand);
    double out = ((b.x - a.x) * (stand.y - fold.y) - (b.y - a.y) * (stand.x - fold.x)) / length;
    assert_close(out, PI * 1.0, 1e-9);
    assert_close(LENGTH(&thick, TOP_COLLAR, CENTRE_BACK) - LENGTH(&thin, TOP_COLLAR, CENTRE_BACK), PI * 1.0, 1e-9);
    unmake(&thin);
    unmake(&thick);
}

/** A shawl's facing has the collar grown on, and there is no other top collar. */
static void shawl_is_one_piece(void **state)
{
    (void)state;
    struct made m;
    must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_LAPEL, TAILOR_LAPEL_SHAWL}));
    assert_int_equal(piece_for(m.coat, TAILOR_PIECE_TOP_COLLAR, TAILOR_SIDE_RIGHT), -1);
    size_t count;
    const tailor_cubic *edge = EDGE(&m, FACING, LAPEL_EDGE, &count);
    tailor_point end = tailor_path_direction(edge, count, (double)count);
    const tailor_cubic *leaf = EDGE(&m, FACING, LEAF, &count);
    tailor_point start = tailor_path_direction(leaf, count, 0);
    assert_true(end.x * start.x + end.y * start.y > 1 - 1e-9); /* the lapel's edge runs on into the collar's */
    unmake(&m);
}

int test_facing(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_facing_and_top_collar),
        cmocka_unit_test(turn_of_a_usual_cloth),
        cmocka_unit_test(thicker_cloth_turns_more),
        cmocka_unit_test(shawl_is_one_piece),
    };
    return cmocka_run_group_tests_name("facing", tests, NULL, NULL);
}

/* Stout figures: the belly rule gives the front what it needs, the waist still closes exactly, and the worn edge falls
 * plumb. */
#include "draft/drafting.h"

#define F(name) TAILOR_FIELD_##name

/** The width of a piece at a level: between its first and last meeting with it. */
static double width_at(const struct made *m, int piece_number, double level)
{
    double places[16], low = INFINITY, high = -INFINITY;
    size_t count, found;
    const tailor_cubic *outline = tailor_piece_outline(m->coat, piece_of(m->coat, piece_number), &count);
    assert_int_equal(
        tailor_path_cross_line(outline, count, (tailor_point){0, level}, (tailor_point){1, level}, places, 16, &found),
        TAILOR_OK);
    for (size_t i = 0; i < found; i++) {
        const double x = tailor_path_point(outline, count, places[i]).x;
        low = fmin(low, x);
        high = fmax(high, x);
    }
    return high - low;
}

static double dart_at(const struct made *m, double level)
{
    size_t count, found = 0;
    double places[4];
    const tailor_cubic *dart = mark_of(m->coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_DART, &count);
    if (!dart)
        return 0;
    assert_int_equal(
        tailor_path_cross_line(dart, count, (tailor_point){0, level}, (tailor_point){1, level}, places, 4, &found),
        TAILOR_OK);
    assert_int_equal(found, 2);
    return fabs(tailor_path_point(dart, count, places[0]).x - tailor_path_point(dart, count, places[1]).x);
}

/** Half the coat at the waist: the three pieces, less the button stand beyond the centre front and the dart. */
static double half_waist(const struct made *m)
{
    const double level = POINT(m, FOREPART, CENTRE_FRONT_WAIST).y;
    return width_at(m, TAILOR_PIECE_BACK, level) + width_at(m, TAILOR_PIECE_SIDEBODY, level) +
           width_at(m, TAILOR_PIECE_FOREPART, level) - m->row[F(BUTTON_STAND)] - dart_at(m, level);
}

/** The belly allowance by the rule: what suppression lacks to 18 mm, or a fifth of what the drop lacks to 100 (own
 * judgement). */
static double belly_by_rule(const struct made *m)
{
    const double *f = m->row,
                 waist = isnan(f[F(BELLY_GIRTH)]) ? f[F(WAIST_GIRTH)] : fmax(f[F(WAIST_GIRTH)], f[F(BELLY_GIRTH)]);
    const double suppression = (f[F(CHEST_GIRTH)] + f[F(CHEST_EASE)] - f[F(WAIST_GIRTH)] - f[F(WAIST_EASE)]) / 2;
    return fmax(fmax(18 - suppression, 0.2 * (100 - (f[F(CHEST_GIRTH)] - waist))), 0);
}

static double lean(tailor_point below, tailor_point above)
{
    return fabs(atan2(above.x - below.x, above.y - below.y)) * 180 / 3.14159265358979324;
}

static void look_at(const struct made *m)
{
    const double belly = belly_by_rule(m);
    assert_close(m->q[TAILOR_QUANTITY_BELLY_ALLOWANCE], belly, 1e-9);
    assert_close(half_waist(m), (m->row[F(WAIST_GIRTH)] + m->row[F(WAIST_EASE)]) / 2, 0.01);

    const tailor_point chest = POINT(m, FOREPART, CENTRE_FRONT_SCYE), waist = POINT(m, FOREPART, CENTRE_FRONT_BELLY);
    const tailor_point seat = POINT(m, FOREPART, CENTRE_FRONT_SEAT);
    assert_close(waist.x - chest.x, m->constants[TAILOR_CONSTANT_BELLY_FRONT_SHARE] * belly, 1e-9);
    if (belly <= 0) {
        assert_close(seat.x, chest.x, 1e-9);
        return;
    }
    /* From the belly down to where it begins to round, the edge falls plumb within a degree, piece by piece. */
    size_t count;
    const tailor_cubic *edge = EDGE(m, FOREPART, FRONT_EDGE, &count);
    const double start = POINT(m, FOREPART, WAIST_BUTTON).y - m->constants[TAILOR_CONSTANT_ROUND_START];
    const int square = m->row[F(FRONT_CUT)] > TAILOR_FRONT_CUT_ROUND;
    int looked = 0;
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 8; k++) {
            const tailor_point a = tailor_cubic_point(&edge[i], k / 8.0),
                               b = tailor_cubic_point(&edge[i], (k + 1) / 8.0);
            if (b.y > waist.y || (!square && a.y < start - 1e-6) || b.y - a.y < 1e-6)
                continue;
            assert_at_most(lean(a, b), 1.0);
            looked++;
        }
    assert_true(looked > 0 || start > waist.y);
    assert_at_most(lean(seat, waist), 1.0);

    /* The front is longer for the belly: what it gains at the hem and at the neck. */
    const double hem = m->row[F(COAT_LENGTH)] + POINT(m, FOREPART, HEM_FRONT).y; /* negative below the back hem */
    const double regular = m->constants[TAILOR_CONSTANT_FRONT_HEM_DROP];
    const double gain = -hem - regular;
    assert_close(gain, fmin(0.4 * belly, 40 - regular), 1e-9);
    assert_true(mark_of(m->coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_BELLY_CUT, &count) != NULL ||
                0.35 * belly <= 0.5);
    if (belly > 12) /* no dart over a belly */
        assert_null(mark_of(m->coat, TAILOR_PIECE_FOREPART, TAILOR_MARKED_DART, &count));
}

static const double chests[] = {940, 1010, 1080, 1150, 1220};
enum { CHESTS = sizeof chests / sizeof *chests };

/** From a slim waist to one well beyond the chest. */
static void every_drop(void **state)
{
    (void)state;
    int stout = 0;
    for (int c = 0; c < CHESTS; c++)
        for (int cut = 1; cut <= 2; cut++)
            for (double drop = 150; drop >= -60; drop -= 7) {
                struct made m;
                must_make(&m,
                          ORDER({F(CHEST_GIRTH), chests[c]}, {F(WAIST_GIRTH), chests[c] - drop},
                                {F(SEAT_GIRTH), chests[c] + 40 - drop / 4}, {F(STATURE), 1780}, {F(FRONT_CUT), cut}));
                look_at(&m);
                stout += m.q[TAILOR_QUANTITY_BELLY_ALLOWANCE] > 12;
                unmake(&m);
            }
    assert_true(stout > CHESTS * 20);
}

/** A belly below the waist counts as well; at its own level. */
static void a_belly_of_its_own(void **state)
{
    (void)state;
    for (int c = 0; c < CHESTS; c++)
        for (double more = 0; more <= 90; more += 15)
            for (double below = 10; below <= 70; below += 30) {
                struct made m;
                must_make(&m, ORDER({F(CHEST_GIRTH), chests[c]}, {F(WAIST_GIRTH), chests[c] - 60}, {F(STATURE), 1780},
                                    {F(BELLY_GIRTH), chests[c] - 60 + more}, {F(BELLY_LEVEL), 445 + below}));
                look_at(&m);
                assert_close(POINT(&m, FOREPART, CENTRE_FRONT_BELLY).y, -445 - below, 1e-9);
                unmake(&m);
            }
}

/** A regular figure becomes stout by and by: a millimetre of waist moves no point of any piece by more than two. */
static void stoutness_comes_gradually(void **state)
{
    (void)state;
    static struct made before, now;
    for (double waist = 880; waist <= 1080; waist += 1) {
        must_make(&now,
                  ORDER({F(CHEST_GIRTH), 1030}, {F(WAIST_GIRTH), waist}, {F(SEAT_GIRTH), 1040}, {F(STATURE), 1780}));
        if (waist > 880)
            for (int piece = 0; piece < tailor_pattern_piece_count(now.coat); piece++)
                for (int i = 0; i < tailor_piece_point_count(now.coat, piece); i++)
                    assert_at_most(
                        apart(tailor_point_place(now.coat, piece, i), tailor_point_place(before.coat, piece, i)), 2);
        unmake(&before);
        before = now;
    }
    unmake(&before);
}

int test_stout(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_drop),
        cmocka_unit_test(a_belly_of_its_own),
        cmocka_unit_test(stoutness_comes_gradually),
    };
    return cmocka_run_group_tests_name("stout", tests, NULL, NULL);
}

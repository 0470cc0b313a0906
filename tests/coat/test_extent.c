/* Extents: what a coat is taken to changes what is there, never what it is; the section is the roll floor's own. */
#include <limits.h>
#include <tailorgeom/roll.h>
#include "coats.h"

#define F(name) TAILOR_FIELD_##name

/* Orders of every fastening, lapel and side, a stout and an odd one among them. */
static const struct given orders[][6] = {
    {{F(CHEST_GIRTH), 1016}},
    {{F(CHEST_GIRTH), 1016}, {F(BUTTONING), TAILOR_BUTTONING_ONE_BUTTON}, {F(LAPEL), TAILOR_LAPEL_SHAWL}},
    {{F(CHEST_GIRTH), 960}, {F(BUTTONING), TAILOR_BUTTONING_THREE_BUTTON}, {F(STATURE), 1820}},
    {{F(CHEST_GIRTH), 1016}, {F(BUTTONING), TAILOR_BUTTONING_ROLL_BY_MAKE}, {F(CANVAS_ANGLE), 20}},
    {{F(CHEST_GIRTH), 1016}, {F(BUTTONING), TAILOR_BUTTONING_ROLL_BY_CUT}},
    {{F(CHEST_GIRTH), 1060}, {F(BUTTONING), TAILOR_BUTTONING_DOUBLE_FOUR}},
    {{F(CHEST_GIRTH), 1016}, {F(BUTTONING), TAILOR_BUTTONING_DOUBLE_SIX}, {F(VENTS), 2}},
    {{F(CHEST_GIRTH), 1016}, {F(LOW_SHOULDER_LEFT), 10}, {F(ARM_LENGTH_RIGHT), 620}},
    {{F(CHEST_GIRTH), 1130}, {F(WAIST_GIRTH), 1160}, {F(SEAT_GIRTH), 1150}},
};
enum { ORDERS = sizeof orders / sizeof *orders };

/** What a piece of one pattern has, the other's piece of that name has too, bit by bit. */
static void has_all_of(const tailor_pattern *more, const tailor_pattern *less)
{
    size_t n, as_many;
    for (int p = 0; p < tailor_pattern_piece_count(less); p++) {
        const int q = tailor_pattern_find_piece(more, tailor_piece_name(less, p));
        assert_true(q >= 0);
        const tailor_cubic *a = tailor_piece_outline(less, p, &n), *b = tailor_piece_outline(more, q, &as_many);
        assert_int_equal(n, as_many);
        assert_memory_equal(a, b, n * sizeof *a);
        assert_int_equal(tailor_piece_copies(less, p), tailor_piece_copies(more, q));
        assert_int_equal(tailor_piece_side(less, p), tailor_piece_side(more, q));
        assert_int_equal(tailor_piece_edge_count(less, p), tailor_piece_edge_count(more, q));
        for (int i = 0; i < tailor_piece_point_count(less, p); i++) {
            const int k = tailor_piece_find_point(more, q, tailor_point_name(less, p, i));
            const tailor_point x = tailor_point_place(less, p, i), y = tailor_point_place(more, q, k);
            assert_memory_equal(&x, &y, sizeof x);
        }
        for (int i = 0; i < tailor_piece_mark_count(less, p); i++) {
            const int k = tailor_piece_find_mark(more, q, tailor_mark_name(less, p, i));
            a = tailor_mark_path(less, p, i, &n);
            b = tailor_mark_path(more, q, k, &as_many);
            assert_int_equal(n, as_many);
            assert_memory_equal(a, b, n * sizeof *a);
        }
    }
}

static int has_facing(const tailor_pattern *pattern)
{
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++)
        if (tailor_piece_number(pattern, i) == TAILOR_PIECE_FACING)
            return 1;
    return 0;
}

static int is_section_s(int q)
{
    return q == TAILOR_QUANTITY_ROLL_HEIGHT || q == TAILOR_QUANTITY_ROLL_RADIUS || q == TAILOR_QUANTITY_LAPEL_LIES;
}

/* Checks of the make alone. */
static int is_make_s(int check)
{
    return check == TAILOR_CHECK_FACING_TURN_ERROR || check == TAILOR_CHECK_TOP_COLLAR_TURN_ERROR ||
           check == TAILOR_CHECK_LINING_ERROR;
}

/* Checks that tell the worst of all pieces and seams there are: more of them, and never better. */
static int is_of_all(int check)
{
    return check == TAILOR_CHECK_SEAM_ERROR || check == TAILOR_CHECK_OUTLINE_GAP ||
           check == TAILOR_CHECK_OUTLINE_AREA || check == TAILOR_CHECK_OUTLINE_CROSSINGS;
}

static void what_is_there_is_the_same(void **state)
{
    (void)state;
    for (int n = 0; n < ORDERS; n++) {
        tailor_coat *coat[EXTENTS];
        for (int extent = 0; extent < EXTENTS; extent++)
            coat[extent] = coat_from(orders[n], extent);
        for (int extent = 0; extent < EXTENTS; extent++) {
            const int made = extent & TAILOR_EXTENT_MAKE, section = extent & TAILOR_EXTENT_SECTION;
            const tailor_pattern *pattern = tailor_coat_pattern(coat[extent]);
            size_t points;
            assert_int_equal(tailor_coat_extent(coat[extent]), extent);
            same_resolved(coat[extent], coat[TAILOR_EXTENT_NET]);
            has_all_of(pattern, tailor_coat_pattern(coat[TAILOR_EXTENT_NET]));
            has_all_of(tailor_coat_pattern(coat[WHOLE]), pattern);
            assert_int_equal(has_facing(pattern), made != 0);
            assert_int_equal(tailor_pattern_piece_count(pattern) ==
                                 tailor_pattern_piece_count(tailor_coat_pattern(coat[TAILOR_EXTENT_NET])),
                             made == 0);
            assert_int_equal(tailor_coat_section(coat[extent], &points) != NULL, section != 0);
            assert_int_equal(points > 0, section != 0);
            for (int q = 1; q < TAILOR_QUANTITY_COUNT; q++) {
                const double is = tailor_coat_quantity(coat[extent], q), whole = tailor_coat_quantity(coat[WHOLE], q);
                if (is_section_s(q) && !section)
                    assert_true(isnan(is) && isfinite(whole));
                else
                    assert_memory_equal(&is, &whole, sizeof is);
            }
            for (int check = 1; check < TAILOR_CHECK_COUNT; check++) {
                double is[2], whole[2];
                const int passes = tailor_coat_check(coat[extent], check, &is[0], &is[1]);
                const int as_whole = tailor_coat_check(coat[WHOLE], check, &whole[0], &whole[1]);
                if (is_make_s(check) && !made) {
                    assert_true(passes == -1 && as_whole == 1);
                } else {
                    assert_int_equal(passes, as_whole);
                    assert_memory_equal(&is[1], &whole[1], sizeof is[1]);
                    if (is_of_all(check) && !made)
                        assert_true(tailor_check_sense(check) * is[0] <= tailor_check_sense(check) * whole[0]);
                    else
                        assert_memory_equal(&is[0], &whole[0], sizeof is[0]);
                }
            }
        }
        for (int extent = 0; extent < EXTENTS; extent++)
            tailor_coat_free(coat[extent]);
    }
}

static void unknown_extents_are_refused(void **state)
{
    (void)state;
    static const int unknown[] = {4, 5, 7, 8, 64, 1 << 30, -1, INT_MIN, INT_MAX};
    double client[TAILOR_FIELD_COUNT];
    row_from(client, orders[0]);
    tailor_coat *good = must_coat(NULL, client, TAILOR_EXTENT_NET);
    for (size_t i = 0; i < sizeof unknown / sizeof *unknown; i++)
        for (int again = 0; again < 2; again++) {
            tailor_coat *coat = POISON;
            tailor_fault fault = {0};
            tailor_status status = again ? tailor_coat_again(NULL, tailor_coat_fields(good, NULL), NULL,
                                                             TAILOR_FIELD_COUNT, unknown[i], &coat, &fault)
                                         : tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, unknown[i], &coat, &fault);
            assert_int_equal(status, TAILOR_BAD_ARGUMENT);
            assert_int_equal(fault.status, TAILOR_BAD_ARGUMENT);
            assert_ptr_equal(coat, POISON);
            assert_close(fault.value, unknown[i], 0);
            assert_true(fault.low == 0 && fault.high == WHOLE);
            assert_non_null(strstr(fault.sentence, "extent"));
        }
    tailor_coat_free(good);
}

/** The line of the section is what tailor_roll_section() writes for the coat's own numbers. */
static void the_section_is_the_roll_s(void **state)
{
    (void)state;
    static const char *const prefix[3] = {"cloth_", "canvas_", "cloth_"};
    for (int n = 0; n < ORDERS; n++) {
        tailor_coat *coat = coat_from(orders[n], TAILOR_EXTENT_SECTION);
        const double *f = tailor_coat_fields(coat, NULL), *k = tailor_coat_constants(coat, NULL);
        double sheet[3][TAILOR_CLOTH_COUNT] = {{NAN}, {NAN}, {NAN}}, layers[TAILOR_LAYERS_COUNT];
        double along[TAILOR_ALONG_COUNT], rolled[TAILOR_ROLLED_COUNT];
        for (int s = 0; s < 3; s++)
            for (int i = 1; i < TAILOR_CLOTH_COUNT; i++) {
                char name[64] = "";
                strcat(strcat(name, prefix[s]), tailor_table_text(tailor_cloth_table(), i, TAILOR_COLUMN_NAME));
                sheet[s][i] = f[tailor_table_find(tailor_field_table(), name)];
            }
        const double angles[3] = {0, f[F(CANVAS_ANGLE)], 0}, holds[3] = {1, f[F(PADDING_HOLD)], 0};
        const int joints[3] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED};
        const double break_angle = tailor_coat_quantity(coat, TAILOR_QUANTITY_BREAK_ANGLE);
        assert_int_equal(tailor_layers_join(sheet[0], 3, TAILOR_CLOTH_COUNT, angles, joints, holds, layers,
                                            TAILOR_LAYERS_COUNT, NULL),
                         TAILOR_OK);
        assert_int_equal(tailor_layers_along(layers, TAILOR_LAYERS_COUNT, break_angle, along, TAILOR_ALONG_COUNT, NULL),
                         TAILOR_OK);
        double section[TAILOR_SECTION_COUNT];
        tailor_fields_clear(section, TAILOR_SECTION_COUNT);
        section[TAILOR_SECTION_BENDING_LENGTH] = along[TAILOR_ALONG_BENDING_LENGTH_ACROSS];
        section[TAILOR_SECTION_LAPEL_WIDTH] = f[F(LAPEL_WIDTH)];
        section[TAILOR_SECTION_SET] = f[F(LAPEL_SET)];
        section[TAILOR_SECTION_SET_BAND] = k[TAILOR_CONSTANT_LAPEL_SET_BAND];
        section[TAILOR_SECTION_CURL] = f[F(LAPEL_CURL)];
        section[TAILOR_SECTION_CHEST_LEAN] = f[F(CHEST_LEAN)];
        section[TAILOR_SECTION_BREAK_ANGLE] = break_angle;
        size_t points;
        const tailor_point *line = tailor_coat_section(coat, &points);
        assert_true(points >= 21 && points <= TAILOR_ROLLED_LINE_COUNT);
        section[TAILOR_SECTION_LINKS] = (double)points - 1; /* a point more than links */
        tailor_point by_hand[TAILOR_ROLLED_LINE_COUNT];
        assert_int_equal(tailor_roll_section(section, TAILOR_SECTION_COUNT, rolled, TAILOR_ROLLED_COUNT, by_hand,
                                             TAILOR_ROLLED_LINE_COUNT, NULL),
                         TAILOR_OK);
        assert_memory_equal(line, by_hand, points * sizeof *line);
        assert_close(tailor_coat_quantity(coat, TAILOR_QUANTITY_ROLL_HEIGHT), rolled[TAILOR_ROLLED_CREST_HEIGHT], 0);
        assert_close(tailor_coat_quantity(coat, TAILOR_QUANTITY_ROLL_RADIUS), rolled[TAILOR_ROLLED_CREST_RADIUS], 0);
        assert_true(fabs(line[0].x) < 1e-12 && fabs(line[0].y) < 1e-12); /* from the held end, at the origin */
        tailor_coat_free(coat);
    }
}

int test_extent(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_there_is_the_same),
        cmocka_unit_test(unknown_extents_are_refused),
        cmocka_unit_test(the_section_is_the_roll_s),
    };
    return cmocka_run_group_tests_name("extents", tests, NULL, NULL);
}

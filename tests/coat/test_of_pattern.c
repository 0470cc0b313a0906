/* A pattern measured as the coat of an order: of the coat's own it is the same coat; of another order's the checks tell
 * how far it is; of one that is no coat, what is missing is named. */
#include <tailorgeom/grade.h>
#include "../../lib/pattern/build.h" /* to build a pattern that is no coat */
#include "coats.h"

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

/** Measure a pattern as the coat of another coat's order, with the origins of that. */
static tailor_status measure_as(const tailor_coat *order, const tailor_pattern *pattern, tailor_coat **coat,
                                tailor_fault *fault)
{
    return tailor_coat_of_pattern(NULL, tailor_coat_fields(order, NULL), tailor_coat_origins(order, NULL),
                                  TAILOR_FIELD_COUNT, pattern, coat, fault);
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

/* ---- what is no coat */

/** What is spoilt in a copy: a piece left out, an edge under a name that no table has, a mark left out or cut short. */
struct spoilt {
    int piece, edge, mark;
    size_t cubics; /* kept of the mark */
};
enum { NONE = -1 };

static tailor_pattern *rebuild(const tailor_pattern *p, struct spoilt s)
{
    tailor_builder *b = NULL;
    tailor_pattern *again = NULL;
    size_t count;
    assert_int_equal(tailor_builder_begin(NULL, &b, NULL), TAILOR_OK);
    for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
        if (i == s.piece && s.edge == NONE && s.mark == NONE)
            continue;
        assert_int_equal(tailor_builder_add_piece(b, tailor_piece_name(p, i), tailor_piece_copies(p, i),
                                                  tailor_piece_mirrored(p, i), tailor_piece_side(p, i),
                                                  tailor_piece_cloth(p, i), NULL),
                         TAILOR_OK);
        for (int e = 0; e < tailor_piece_edge_count(p, i); e++) {
            const tailor_cubic *path = tailor_edge_path(p, i, e, &count);
            const char *name = i == s.piece && e == s.edge ? "somewhere" : tailor_edge_name(p, i, e);
            assert_int_equal(tailor_builder_add_edge(b, name, path, count, NULL), TAILOR_OK);
        }
        for (int e = 0; e < tailor_piece_point_count(p, i); e++)
            assert_int_equal(tailor_builder_add_point(b, tailor_point_name(p, i, e), tailor_point_place(p, i, e), NULL),
                             TAILOR_OK);
        for (int e = 0; e < tailor_piece_mark_count(p, i); e++) {
            const tailor_cubic *path = tailor_mark_path(p, i, e, &count);
            const int cut = i == s.piece && e == s.mark && s.cubics < count;
            if (cut && s.cubics == 0)
                continue;
            assert_int_equal(tailor_builder_add_mark(b, tailor_mark_name(p, i, e), tailor_mark_kind(p, i, e), path,
                                                     cut ? s.cubics : count, NULL),
                             TAILOR_OK);
        }
    }
    assert_int_equal(tailor_builder_finish(b, NULL, &again, NULL), TAILOR_OK);
    tailor_builder_free(b);
    return again;
}

/** Measured as the coat of this order: 1 if it is refused, and then nothing is written and this row is named. */
static int is_missed(const tailor_coat *order, struct spoilt s, int table, int index, int place)
{
    tailor_pattern *p = rebuild(tailor_coat_pattern(order), s);
    tailor_coat *coat = POISON;
    tailor_fault fault;
    memset(&fault, 0x5a, sizeof fault);
    const tailor_status status = measure_as(order, p, &coat, &fault);
    tailor_pattern_free(p);
    if (status != TAILOR_BAD_ARGUMENT) {
        assert_true(status == TAILOR_OK || status == TAILOR_CHECK_FAILED);
        tailor_coat_free(coat);
        return 0;
    }
    assert_ptr_equal(coat, POISON);
    assert_int_equal(fault.status, status);
    assert_int_equal(fault.table, table);
    assert_int_equal(fault.index, index);
    assert_int_equal(fault.place, place);
    const tailor_table *named = table == TAILOR_TABLE_PIECE  ? tailor_piece_table()
                                : table == TAILOR_TABLE_EDGE ? tailor_edge_table()
                                                             : tailor_mark_table();
    assert_non_null(strstr(fault.sentence, tailor_table_text(named, index, TAILOR_COLUMN_NAME)));
    return 1;
}

/** Every piece of the net coat, in turn; of a coat whose sides differ each side's. */
static void a_missing_piece_is_named(void **state)
{
    (void)state;
    tailor_coat *uneven = coat_from(
        ORDER({F(CHEST_GIRTH), 1016}, {F(LOW_SHOULDER_LEFT), 12}, {F(ARM_LENGTH_LEFT), 610}), TAILOR_EXTENT_NET);
    const tailor_coat *coats[2] = {good, uneven};
    assert_true(tailor_pattern_piece_count(tailor_coat_pattern(uneven)) > 6);
    for (int k = 0; k < 2; k++) {
        const tailor_pattern *p = tailor_coat_pattern(coats[k]);
        for (int i = 0; i < tailor_pattern_piece_count(p); i++)
            assert_int_equal(is_missed(coats[k], (struct spoilt){i, NONE, NONE, 0}, TAILOR_TABLE_PIECE,
                                       tailor_piece_number(p, i), 0),
                             1);
    }
    tailor_coat_free(uneven);
}

/** The edges that measuring asks for: all of the net pieces but those that a shawl, say, does not have. */
static void a_missing_edge_is_named(void **state)
{
    (void)state;
    const tailor_pattern *p = tailor_coat_pattern(good);
    int missed = 0, edges = 0;
    for (int i = 0; i < tailor_pattern_piece_count(p); i++)
        for (int e = 0; e < tailor_piece_edge_count(p, i); e++, edges++)
            missed +=
                is_missed(good, (struct spoilt){i, e, NONE, 0}, TAILOR_TABLE_EDGE, tailor_edge_number(p, i, e), i + 1);
    print_message("# %d of %d edges are asked for\n", missed, edges);
    assert_true(missed >= 28 && missed < edges);
}

/** Marks: left out, and with one curve of several. */
static void a_missing_mark_is_named(void **state)
{
    (void)state;
    const tailor_pattern *p = tailor_coat_pattern(good);
    int missed[2] = {0, 0};
    for (int i = 0; i < tailor_pattern_piece_count(p); i++)
        for (int e = 0; e < tailor_piece_mark_count(p, i); e++)
            for (size_t cubics = 0; cubics < 2; cubics++)
                missed[cubics] += is_missed(good, (struct spoilt){i, NONE, e, cubics}, TAILOR_TABLE_MARK,
                                            tailor_mark_number(p, i, e), i + 1);
    print_message("# %d marks are asked for, %d of them whole\n", missed[0], missed[1]);
    assert_true(missed[0] >= 4); /* crease, turned lapel, welt, pocket */
    assert_true(missed[1] >= 4); /* crease, turned lapel, welt; a button is four quarters where there is one */
}

/** Patterns of nothing, of one piece and so on, each with a hem alone. */
static void pieces_without_their_edges(void **state)
{
    (void)state;
    static const int capacity[TAILOR_IN_ARRAYS] = {8, 8, 8, 8, 8, 8, 32};
    const tailor_allocator memory = tailor_in_allocator(NULL);
    for (int pieces = 0; pieces <= TAILOR_PIECE_UNDER_COLLAR; pieces++) {
        void *block = memory.allocate(memory.user, tailor_in_pattern_bytes(capacity));
        assert_non_null(block);
        tailor_pattern *p = tailor_in_pattern_begin(block, capacity, memory);
        for (int piece = 1; piece <= pieces; piece++) {
            const tailor_point corner[3] = {{0, 0}, {100, 0}, {0, 100}};
            tailor_in_add_piece(p, piece, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
            tailor_cubic path[3];
            for (int i = 0; i < 3; i++)
                path[i] = tailor_cubic_line(corner[i], corner[(i + 1) % 3]);
            tailor_in_add_edge(p, TAILOR_EDGE_HEM, path, 3);
        }
        assert_int_equal(tailor_in_pattern_end(p), TAILOR_OK);
        tailor_coat *coat = POISON;
        tailor_fault fault = {0};
        assert_int_equal(measure_as(good, p, &coat, &fault), TAILOR_BAD_ARGUMENT);
        assert_ptr_equal(coat, POISON);
        assert_true(strlen(fault.sentence) > 8);
        assert_int_equal(measure_as(good, p, &coat, NULL), TAILOR_BAD_ARGUMENT);
        tailor_pattern_free(p);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_its_own_pattern),       cmocka_unit_test(of_a_grade_of_no_steps),
        cmocka_unit_test(of_another_order),         cmocka_unit_test(by_the_house_s_constants),
        cmocka_unit_test(a_missing_piece_is_named), cmocka_unit_test(a_missing_edge_is_named),
        cmocka_unit_test(a_missing_mark_is_named),  cmocka_unit_test(pieces_without_their_edges),
    };
    return cmocka_run_group_tests_name("of a pattern", tests, set_up, tear_down);
}

/* Building a pattern by name: what is built reads back as it was given; what is no pattern is refused with a sentence
 * and changes nothing; memory may fail anywhere. */
#include <stdio.h>

#include "draft/drafting.h"
#include "support/seams.h"

static tailor_fault fault;

static void must(tailor_status status)
{
    if (status != TAILOR_OK)
        fail_msg("%s: %s", tailor_status_name(status), fault.sentence);
}

/** A pattern through the builder, name by name. NaN instead of a bound at an edge's end where `ends` says so. */
static tailor_status rebuild(const tailor_pattern *p, int ends, const tailor_allocator *memory, tailor_pattern **made)
{
    tailor_builder *b = NULL;
    tailor_status status = tailor_builder_begin(memory, &b, &fault);
    size_t n = 0;
    for (int i = 0; i < tailor_pattern_piece_count(p) && !status; i++) {
        status =
            tailor_builder_add_piece(b, tailor_piece_name(p, i), tailor_piece_copies(p, i), tailor_piece_mirrored(p, i),
                                     tailor_piece_side(p, i), tailor_piece_cloth(p, i), &fault);
        for (int k = 0; k < tailor_piece_edge_count(p, i) && !status; k++) {
            const tailor_cubic *path = tailor_edge_path(p, i, k, &n);
            status = tailor_builder_add_edge(b, tailor_edge_name(p, i, k), path, n, &fault);
        }
        for (int k = 0; k < tailor_piece_point_count(p, i) && !status; k++)
            status = tailor_builder_add_point(b, tailor_point_name(p, i, k), tailor_point_place(p, i, k), &fault);
        for (int k = 0; k < tailor_piece_mark_count(p, i) && !status; k++) {
            const tailor_cubic *path = tailor_mark_path(p, i, k, &n);
            status = tailor_builder_add_mark(b, tailor_mark_name(p, i, k), tailor_mark_kind(p, i, k), path, n, &fault);
        }
    }
    for (int s = 0; s < tailor_pattern_seam_count(p) && !status; s++) {
        status = tailor_builder_add_seam(b, tailor_seam_name(p, s), tailor_seam_ease(p, s), &fault);
        for (int k = 0; k < 2 && !status; k++)
            for (int i = 0; i < tailor_seam_stretch_count(p, s, k) && !status; i++) {
                const tailor_stretch sewn = stretch_of(p, s, k, i);
                const tailor_cubic *path = tailor_edge_path(p, sewn.piece, sewn.edge, &n);
                double whole = ends ? tailor_path_length(path, n) : -1;
                status = tailor_builder_add_stretch(b, k, tailor_piece_name(p, sewn.piece),
                                                    tailor_edge_name(p, sewn.piece, sewn.edge),
                                                    sewn.from == whole ? (double)NAN : sewn.from,
                                                    sewn.to == whole ? (double)NAN : sewn.to, &fault);
            }
    }
    if (!status)
        status = tailor_builder_finish(b, memory, made, &fault);
    tailor_builder_free(b);
    return status;
}

static void a_coat_reads_back(void **state)
{
    (void)state;
    static struct made m;
    for (int ends = 0; ends < 2; ends++) {
        must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016 + 40 * ends}));
        tailor_pattern *p = NULL;
        must(rebuild(m.coat, ends, NULL, &p));
        assert_int_equal(tailor_pattern_piece_count(p), tailor_pattern_piece_count(m.coat));
        for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
            assert_string_equal(tailor_piece_name(p, i), tailor_piece_name(m.coat, i));
            assert_string_equal(tailor_piece_cloth(p, i), tailor_piece_cloth(m.coat, i));
            assert_int_equal(tailor_piece_number(p, i), tailor_piece_number(m.coat, i));
            assert_int_equal(tailor_piece_edge_count(p, i), tailor_piece_edge_count(m.coat, i));
            assert_int_equal(tailor_piece_mark_count(p, i), tailor_piece_mark_count(m.coat, i));
            size_t n, as_many;
            const tailor_cubic *a = tailor_piece_outline(p, i, &n), *b = tailor_piece_outline(m.coat, i, &as_many);
            assert_int_equal(n, as_many);
            for (size_t k = 0; k < 8 * n; k++) /* joints agree to rounding in a draft, and to the bit when built */
                assert_close(((const double *)a)[k], ((const double *)b)[k], 1e-9);
            for (size_t k = 0; k < n; k++)
                assert_memory_equal(&a[k].p[3], &a[(k + 1) % n].p[0], sizeof(tailor_point));
        }
        /* Measured, it is the same coat. */
        static struct made built;
        built = m;
        built.coat = p;
        must(measure_of(&built));
        for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++)
            if (!isnan(m.q[i]))
                assert_close(built.q[i], m.q[i], 1e-7 * (1 + fabs(m.q[i])));
        tailor_pattern_free(p);
        unmake(&m);
    }
}

/* A square, counter-clockwise, an edge a side. */
static tailor_point corner(int i) { return (tailor_point){i == 1 || i == 2 ? 100 : 0, i > 1 && i < 4 ? 100 : 0}; }

static tailor_status add_square(tailor_builder *b, const char *name, double gap, int clockwise, double size)
{
    static const char *const sides[] = {"hem", "front", "top", "back"};
    tailor_status status = tailor_builder_add_piece(b, name, 1, 0, TAILOR_SIDE_BOTH, "cloth", &fault);
    for (int i = 0; i < 4 && !status; i++) {
        tailor_point from = corner(clockwise ? (4 - i) % 4 : i), to = corner(clockwise ? 3 - i : (i + 1) % 4);
        from.x = from.x * size + (i == 2 ? gap : 0);
        tailor_cubic line =
            tailor_cubic_line((tailor_point){from.x, from.y * size}, (tailor_point){to.x * size, to.y * size});
        status = tailor_builder_add_edge(b, sides[i], &line, 1, &fault);
    }
    return status;
}

static void outlines_are_looked_at(void **state)
{
    (void)state;
    static const struct {
        double gap, size;
        int clockwise, status;
        const char *said;
    } cases[] = {
        {0, 1, 0, TAILOR_OK, NULL},
        {0.0009, 1, 0, TAILOR_OK, NULL},
        {0.0011, 1, 0, TAILOR_BAD_ARGUMENT, "piece 2, edge 3: "},
        {0, 1, 1, TAILOR_BAD_ARGUMENT, "clockwise"},
        {0, 0, 0, TAILOR_DEGENERATE, "piece 2: its outline has no area"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        tailor_builder *b = NULL;
        tailor_pattern *p = NULL;
        must(tailor_builder_begin(NULL, &b, &fault));
        must(add_square(b, "first", 0, 0, 1));
        must(add_square(b, "flap", cases[i].gap, cases[i].clockwise, cases[i].size));
        assert_int_equal(tailor_builder_finish(b, NULL, &p, &fault), cases[i].status);
        if (cases[i].said) {
            assert_null(p);
            assert_int_equal(fault.status, cases[i].status);
            if (!strstr(fault.sentence, cases[i].said))
                fail_msg("\"%s\" does not say \"%s\"", fault.sentence, cases[i].said);
        } else {
            size_t n;
            assert_close(tailor_path_area(tailor_piece_outline(p, 1, &n), 4), 1e4, 0.1);
            assert_int_equal(n, 4);
            assert_int_equal(tailor_piece_number(p, 1), 0);
        }
        tailor_pattern_free(p);
        tailor_builder_free(b);
    }
}

static void a_piece_of_one_side_is_that_piece(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int side, number;
    } pieces[] = {{"back", TAILOR_SIDE_RIGHT, TAILOR_PIECE_BACK},
                  {"back_left", TAILOR_SIDE_LEFT, TAILOR_PIECE_BACK},
                  {"forepart_right", TAILOR_SIDE_RIGHT, TAILOR_PIECE_FOREPART},
                  {"sidebody_left", TAILOR_SIDE_RIGHT, 0},
                  {"sidebody_right", TAILOR_SIDE_BOTH, 0},
                  {"a_left", TAILOR_SIDE_LEFT, 0}};
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    must(tailor_builder_begin(NULL, &b, &fault));
    for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++) {
        tailor_cubic round[4];
        for (int k = 0; k < 4; k++)
            round[k] = tailor_cubic_arc((tailor_point){0, 0}, 50, 90 * k, 90 * (k + 1));
        must(tailor_builder_add_piece(b, pieces[i].name, 1, 0, pieces[i].side, "cloth", &fault));
        must(tailor_builder_add_edge(b, "hem", round, 4, &fault));
    }
    must(tailor_builder_finish(b, NULL, &p, &fault));
    for (int i = 0; i < tailor_pattern_piece_count(p); i++)
        assert_int_equal(tailor_piece_number(p, i), pieces[i].number);
    tailor_pattern_free(p);
    tailor_builder_free(b);
}

static void a_pattern_without_pieces_or_edges(void **state)
{
    (void)state;
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    must(tailor_builder_begin(NULL, &b, &fault));
    assert_int_equal(tailor_builder_finish(b, NULL, &p, &fault), TAILOR_BAD_ARGUMENT);
    must(tailor_builder_add_piece(b, "flap", 2, 1, TAILOR_SIDE_RIGHT, "cloth", &fault));
    assert_int_equal(tailor_builder_finish(b, NULL, &p, &fault), TAILOR_BAD_ARGUMENT);
    assert_non_null(strstr(fault.sentence, "no edges"));
    tailor_builder_free(b);
}

static void what_is_refused_changes_nothing(void **state)
{
    (void)state;
    static const char *const bad_names[] = {
        "",      "Flap",           "1flap",   "flap!", "f lap",
        "_flap", "taille\xc3\xa9", "a.start", NULL,    "abcdefghijklmnopqrstuvwxyzabcdef"};
    tailor_builder *b = NULL;
    tailor_pattern *before = NULL, *after = NULL;
    const tailor_cubic line = tailor_cubic_line((tailor_point){0, 0}, (tailor_point){5, 5});
    tailor_cubic bad = line;
    must(tailor_builder_begin(NULL, &b, &fault));
    assert_int_equal(tailor_builder_add_edge(b, "hem", &line, 1, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_builder_add_stretch(b, 0, "flap", "hem", 0, 1, &fault), TAILOR_BAD_ARGUMENT);
    assert_int_equal(tailor_builder_add_point(b, "tip", line.p[0], &fault), TAILOR_BAD_ARGUMENT);
    must(add_square(b, "flap", 0, 0, 1));
    must(tailor_builder_add_point(b, "tip", line.p[0], &fault));
    must(tailor_builder_add_mark(b, "grain", TAILOR_MARK_GRAIN, &line, 1, &fault));
    must(tailor_builder_add_seam(b, "mouth", 0, &fault));
    assert_int_equal(tailor_builder_finish(b, NULL, &before, &fault), TAILOR_BAD_ARGUMENT);
    assert_string_equal(fault.sentence, "seam 1, first side: it has no stretch to sew");
    must(tailor_builder_add_stretch(b, 0, "flap", "top", 0, NAN, &fault));
    assert_int_equal(tailor_builder_finish(b, NULL, &before, &fault), TAILOR_BAD_ARGUMENT);
    assert_string_equal(fault.sentence, "seam 1, second side: it has no stretch to sew");
    must(tailor_builder_add_stretch(b, 1, "flap", "hem", NAN, 0, &fault));
    must(tailor_builder_finish(b, NULL, &before, &fault));

#define REFUSED(call, wanted)                                                                                          \
    do {                                                                                                               \
        memset(&fault, 0, sizeof fault);                                                                               \
        assert_int_equal(call, wanted);                                                                                \
        assert_int_equal(fault.status, wanted);                                                                        \
        assert_true(strlen(fault.sentence) > 10);                                                                      \
    } while (0)
    for (size_t i = 0; i < sizeof bad_names / sizeof *bad_names; i++) {
        const char *name = bad_names[i];
        REFUSED(tailor_builder_add_piece(b, name, 1, 0, 0, "cloth", &fault), TAILOR_BAD_ARGUMENT);
        REFUSED(tailor_builder_add_piece(b, "lining", 1, 0, 0, name, &fault), TAILOR_BAD_ARGUMENT);
        REFUSED(tailor_builder_add_point(b, name, line.p[0], &fault), TAILOR_BAD_ARGUMENT);
        REFUSED(tailor_builder_add_mark(b, name, TAILOR_MARK_LINE, &line, 1, &fault), TAILOR_BAD_ARGUMENT);
        REFUSED(tailor_builder_add_seam(b, name, 0, &fault), TAILOR_BAD_ARGUMENT);
        REFUSED(tailor_builder_add_stretch(b, 0, "flap", name, 0, 1, &fault), TAILOR_BAD_ARGUMENT);
        REFUSED(tailor_builder_add_stretch(b, 0, name, "hem", 0, 1, &fault), TAILOR_BAD_ARGUMENT);
    }
    REFUSED(tailor_builder_add_piece(b, "flap", 1, 0, 0, "cloth", &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_piece(b, "lining", 0, 0, 0, "cloth", &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_piece(b, "lining", 1, 2, 0, "cloth", &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_piece(b, "lining", 1, 0, 3, "cloth", &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_edge(b, "side", &line, 1, &fault), TAILOR_BAD_ARGUMENT); /* after a mark */
    REFUSED(tailor_builder_add_edge(b, "hem", &line, 1, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_point(b, "tip", line.p[0], &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_mark(b, "grain", TAILOR_MARK_GRAIN, &line, 1, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_mark(b, "dart", 0, &line, 1, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_mark(b, "dart", TAILOR_MARK_FOLD + 1, &line, 1, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_mark(b, "dart", TAILOR_MARK_DART, &line, 0, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_mark(b, "dart", TAILOR_MARK_DART, NULL, 1, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_seam(b, "mouth", 0, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_seam(b, "long", NAN, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_stretch(b, 1, "flap", "top", 0, 101, &fault), TAILOR_BAD_ARGUMENT);
    assert_string_equal(fault.sentence, "seam 1, second side, stretch 2: a bound lies beyond its edge");
    REFUSED(tailor_builder_add_stretch(b, 0, "flap", "top", -1, 1, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_stretch(b, -1, "flap", "top", 0, 1, &fault), TAILOR_BAD_ARGUMENT);
    REFUSED(tailor_builder_add_stretch(b, 2, "flap", "top", 0, 1, &fault), TAILOR_BAD_ARGUMENT);
    assert_string_equal(fault.sentence, "seam 1: a side is 0 or 1");
    REFUSED(tailor_builder_add_stretch(NULL, 0, "flap", "top", 0, 1, &fault), TAILOR_BAD_ARGUMENT);
    for (int i = 0; i < 3; i++) {
        bad.p[i].y = i == 0 ? (double)NAN : i == 1 ? (double)INFINITY : 1.01e4;
        REFUSED(tailor_builder_add_mark(b, "dart", TAILOR_MARK_DART, &bad, 1, &fault), TAILOR_NOT_FINITE);
        REFUSED(tailor_builder_add_point(b, "dart", bad.p[i], &fault), TAILOR_NOT_FINITE);
    }
    assert_int_equal(tailor_builder_add_point(NULL, "tip", line.p[0], &fault), TAILOR_BAD_ARGUMENT);
    must(tailor_builder_finish(b, NULL, &after, &fault));
    size_t n, as_many;
    assert_int_equal(tailor_pattern_piece_count(after), 1);
    assert_int_equal(tailor_piece_mark_count(after, 0), 1);
    assert_int_equal(tailor_pattern_seam_count(after), 1);
    assert_int_equal(tailor_seam_stretch_count(after, 0, 0), 1);
    assert_int_equal(tailor_seam_stretch_count(after, 0, 1), 1);
    const tailor_cubic *a = tailor_piece_outline(before, 0, &n), *c = tailor_piece_outline(after, 0, &as_many);
    assert_int_equal(n, as_many);
    assert_memory_equal(a, c, n * sizeof *a);
    tailor_pattern_free(before);
    tailor_pattern_free(after);
    tailor_builder_free(b);
}

static void it_grows(void **state)
{
    (void)state;
    enum { PIECES = 300, MARKS = 20 };
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    char name[32];
    must(tailor_builder_begin(NULL, &b, &fault));
    for (int i = 0; i < PIECES; i++) {
        snprintf(name, sizeof name, "piece_%d", i);
        must(add_square(b, name, 0, 0, 1 + i / 4.0));
        for (int k = 0; k < MARKS; k++) {
            const tailor_cubic there = tailor_cubic_line((tailor_point){i, k}, (tailor_point){k, i});
            snprintf(name, sizeof name, "mark_%d", k);
            must(tailor_builder_add_mark(b, name, TAILOR_MARK_LINE, &there, 1, &fault));
            must(tailor_builder_add_point(b, name, there.p[0], &fault));
        }
    }
    for (int i = 0; i < PIECES; i++) {
        char a[32], c[32];
        snprintf(a, sizeof a, "piece_%d", i);
        snprintf(c, sizeof c, "piece_%d", PIECES - 1 - i);
        must(tailor_builder_add_seam(b, a, 0, &fault));
        must(tailor_builder_add_stretch(b, 0, a, "top", 0, NAN, &fault));
        must(tailor_builder_add_stretch(b, 1, c, "hem", NAN, 0, &fault));
    }
    must(tailor_builder_finish(b, NULL, &p, &fault));
    for (int i = 0; i < PIECES; i++) {
        size_t n;
        snprintf(name, sizeof name, "piece_%d", i);
        assert_int_equal(tailor_pattern_find_piece(p, name), i);
        assert_close(tailor_path_area(tailor_piece_outline(p, i, &n), 4), 1e4 * (1 + i / 4.0) * (1 + i / 4.0), 1e-3);
        assert_close(tailor_point_place(p, i, MARKS - 1).x, i, 0);
        const tailor_stretch sewn = stretch_of(p, i, 1, 0);
        assert_int_equal(sewn.piece, PIECES - 1 - i);
        assert_close(sewn.from, 100 * (1 + (PIECES - 1 - i) / 4.0), 1e-7);
    }
    tailor_pattern_free(p);
    tailor_builder_free(b);
}

static void a_back_in_name_only_is_not_measured(void **state)
{
    (void)state;
    static struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}));
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    must(tailor_builder_begin(NULL, &b, &fault));
    for (int i = 0; i < tailor_pattern_piece_count(m.coat); i++)
        must(add_square(b, tailor_piece_name(m.coat, i), 0, 0, 1));
    must(tailor_builder_finish(b, NULL, &p, &fault));
    m.coat = p;
    assert_int_equal(measure_of(&m), TAILOR_BAD_ARGUMENT);
    tailor_pattern_free(p);
    tailor_builder_free(b);
    unmake(&m);
}

/* ---- memory */

struct memory {
    int calls, fail_at, alive;
};

static void *give(void *user, size_t bytes)
{
    struct memory *m = user;
    if (++m->calls == m->fail_at)
        return NULL;
    m->alive++;
    return malloc(bytes);
}

static void take(void *user, void *block)
{
    ((struct memory *)user)->alive -= block != NULL;
    free(block);
}

static void every_allocation_fails_in_turn(void **state)
{
    (void)state;
    static struct made m;
    must_make(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}));
    int failed = 0;
    for (int k = 1;; k++) {
        struct memory memory = {0, k, 0};
        const tailor_allocator allocator = {give, take, &memory};
        tailor_pattern *p = NULL;
        tailor_status status = rebuild(m.coat, 0, &allocator, &p);
        tailor_pattern_free(p);
        assert_int_equal(memory.alive, 0);
        if (status == TAILOR_OK)
            break;
        assert_int_equal(status, TAILOR_NO_MEMORY);
        assert_int_equal(fault.status, TAILOR_NO_MEMORY);
        failed++;
    }
    assert_true(failed >= 3);
    unmake(&m);
}

int test_builder(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_coat_reads_back),
        cmocka_unit_test(outlines_are_looked_at),
        cmocka_unit_test(a_piece_of_one_side_is_that_piece),
        cmocka_unit_test(a_pattern_without_pieces_or_edges),
        cmocka_unit_test(what_is_refused_changes_nothing),
        cmocka_unit_test(it_grows),
        cmocka_unit_test(a_back_in_name_only_is_not_measured),
        cmocka_unit_test(every_allocation_fails_in_turn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

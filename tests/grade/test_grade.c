/* Grades of coats: at rest, at the sizes they were made from, between them, up and down; seams and joints. */
#include "grading.h"

#include "draft/population.h"

static void at_rest_nothing_moves(void **state)
{
    (void)state;
    static struct rules r;
    tailor_grade *grades[2] = {family((const int[]){3, 0, 6}, 3, (const double[]){0, 0, -2, 0, 0, 2}, 2), workroom(&r)};
    for (int g = 0; g < 2; g++) {
        tailor_pattern *p = graded(grades[g], NULL, (const double[]){0, 0});
        const tailor_pattern *base = tailor_grade_base(grades[g]);
        for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
            size_t n, m;
            const tailor_cubic *a = tailor_piece_outline(p, i, &n), *b = tailor_piece_outline(base, i, &m);
            assert_int_equal(n, m);
            assert_memory_equal(a, b, n * sizeof *a);
        }
        assert_close(inside_apart(p, base), 0, 0);
        /* and the base is the pattern that it was made of, however it was cut */
        assert_at_most(apart_most(p, size[BASE].coat), 1e-8);
        assert_at_most(seams_off(p), 1e-9);
        tailor_pattern_free(p);
        tailor_grade_free(grades[g]);
    }
}

/* Rules found from sizes give those sizes back: 0.01 mm is wanted. Measured as coats, they pass their checks. */
static void graded_is_redrafted_at_its_own_sizes(void **state)
{
    (void)state;
    static const struct {
        int which[3], count, axes;
        double steps[6];
    } families[] = {
        {{3, 4}, 2, 1, {0, 1}},
        {{3, 0}, 2, 1, {0, -2}},
        {{0, 6}, 2, 1, {0, 4}},
        {{3, 0, 6}, 3, 2, {0, 0, -2, 0, 0, 2}},
        {{3, 2, 4}, 3, 2, {0, 0, -1, 0, 0, 1}},
    };
    for (size_t f = 0; f < sizeof families / sizeof *families; f++) {
        tailor_grade *grade = family(families[f].which, families[f].count, families[f].steps, families[f].axes);
        for (int k = 0; k < families[f].count; k++) {
            const double *steps = families[f].steps + k * families[f].axes;
            struct made *own = &size[families[f].which[k]];
            tailor_pattern *p = graded(grade, NULL, steps);
            assert_at_most(apart_most(p, own->coat), 1e-5);
            assert_at_most(inside_apart(own->coat, p), 1e-5);
            assert_at_most(seams_off(p), 1e-7);
            static struct made meant;
            meant = *own;
            meant.coat = p;
            if (measure_of(&meant) != TAILOR_OK)
                fail_msg("%s", meant.fault.sentence);
            tailor_pattern_free(p);
        }
        tailor_grade_free(grade);
    }
}

static void between_sizes_it_stays_near_the_draft(void **state)
{
    (void)state;
    tailor_grade *grade = family((const int[]){3, 0, 6}, 3, (const double[]){0, 0, -2, 0, 0, 2}, 2);
    static const double step[SIZES] = {-2, -1.5, -1, 0, 1, 1.5, 2};
    for (int i = 0; i < SIZES; i++) {
        tailor_pattern *p = graded(grade, NULL, (const double[]){fmin(step[i], 0), fmax(step[i], 0)});
        assert_at_most(apart_most(p, size[i].coat), 0.25); /* what a straight rule misses over 2 in */
        assert_at_most(seams_off(p), 1e-7);
        assert_at_most(new_corner(tailor_grade_base(grade), p), 0.02);
        tailor_pattern_free(p);
    }
    tailor_grade_free(grade);
}

static void rules_keep_seams_and_joints(void **state)
{
    (void)state;
    static struct rules r;
    tailor_grade *grade = workroom(&r);
    for (int k = -12; k <= 12; k++) {
        double step = k / 4.0;
        tailor_pattern *p = graded(grade, NULL, &step);
        assert_at_most(seams_off(p), 1e-7);
        assert_at_most(new_corner(tailor_grade_base(grade), p), 1e-4);
        for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
            size_t n;
            int crosses;
            const tailor_cubic *c = tailor_piece_outline(p, i, &n);
            assert_at_most(tailor_path_gap(c, n, 1), 1e-12);
            assert_at_most(1000, tailor_path_area(c, n));
            must(tailor_path_crosses_itself(c, n, 1e-6, &crosses, NULL));
            assert_int_equal(crosses, 0);
        }
        tailor_pattern_free(p);
    }
    /* A point goes as its rule says, but for the mend of the seams. */
    double one = 1;
    tailor_pattern *p = graded(grade, NULL, &one);
    const tailor_pattern *base = tailor_grade_base(grade);
    for (size_t i = 0; i < r.count; i++) {
        int piece = tailor_pattern_find_piece(base, r.rule[i].piece),
            point = tailor_piece_find_point(base, piece, r.rule[i].point);
        if (point < 0)
            continue;
        tailor_point from = tailor_point_place(base, piece, point), to = tailor_point_place(p, piece, point);
        assert_close(to.x - from.x, r.move[i].x, 0.25);
        assert_close(to.y - from.y, r.move[i].y, 0.25);
    }
    tailor_pattern_free(p);
    tailor_grade_free(grade);
}

static void up_then_down_returns(void **state)
{
    (void)state;
    static struct rules r;
    tailor_grade *grades[2] = {family((const int[]){3, 4}, 2, (const double[]){0, 1}, 1), workroom(&r)};
    for (int g = 0; g < 2; g++)
        for (int k = -4; k <= 4; k++) {
            double up = k / 2.0, down = -up;
            tailor_pattern *there = graded(grades[g], NULL, &up), *back = graded(grades[g], there, &down);
            assert_at_most(apart_most(back, tailor_grade_base(grades[g])), 0.01);
            assert_at_most(inside_apart(back, tailor_grade_base(grades[g])), 0.3);
            assert_at_most(seams_off(back), 1e-7);
            tailor_pattern_free(there);
            tailor_pattern_free(back);
        }
    for (int g = 0; g < 2; g++)
        tailor_grade_free(grades[g]);
}

/* Wild rules, every seam still closes. */
static void any_rules_close(void **state)
{
    (void)state;
    static struct rules r;
    struct dice d = {11};
    tailor_grade_free(workroom(&r));
    for (int round = 0; round < how_many(60, 3000); round++) {
        size_t kept = 0;
        struct rules some = {.count = 0};
        for (size_t i = 0; i < r.count; i++) {
            if (even(&d) < 0.5)
                continue;
            some.rule[kept] = r.rule[i];
            /* the same place has one rule: what comes from a place gives it */
            const tailor_pattern *p = size[BASE].coat;
            int piece = tailor_pattern_find_piece(p, r.rule[i].piece);
            int point = tailor_piece_find_point(p, piece, r.rule[i].point);
            if (point >= 0)
                continue;
            some.move[kept] = (tailor_point){normal(&d, 2) * 4, normal(&d, 2) * 4};
            kept++;
        }
        some.count = kept;
        tailor_grade *grade = by_rules(size[BASE].coat, &some);
        for (int k = 0; k < 3; k++) {
            double step = between(&d, -1, 1);
            tailor_pattern *p = graded(grade, NULL, &step);
            assert_at_most(seams_off(p), 1e-7);
            assert_at_most(new_corner(tailor_grade_base(grade), p), 1e-3);
            tailor_pattern_free(p);
        }
        tailor_grade_free(grade);
    }
}

/* The inverse: a family that follows a rule gives that rule, and says so; one that does not, says by how much. */
static void the_rule_of_a_family(void **state)
{
    (void)state;
    static struct rules r, found;
    tailor_grade *grade = workroom(&r);
    const double steps[] = {0, -1, 0.5, 2};
    tailor_pattern *made[4];
    for (int i = 0; i < 4; i++)
        made[i] = graded(grade, NULL, &steps[i]);
    tailor_grade *back = NULL;
    must(tailor_grade_from_sizes((const tailor_pattern *const *)made, 4, steps, 1, NULL, &back, &fault));
    read_rules(back, &found);
    assert_int_equal(found.count, r.count);
    for (size_t i = 0; i < r.count; i++) {
        tailor_point move;
        double residual;
        must(tailor_grade_rule(back, r.rule[i].piece, r.rule[i].point, 0, &move, &residual));
        assert_close(move.x, r.move[i].x, 0.25);
        assert_close(move.y, r.move[i].y, 0.25);
        assert_at_most(residual, 0.02); /* only the mend of the seams is not linear */
    }
    tailor_grade_free(back);
    for (int i = 0; i < 4; i++)
        tailor_pattern_free(made[i]);
    tailor_grade_free(grade);
    /* The draft's own family over 8 in is no straight rule: the least squares say how far off. */
    double worst = 0;
    back = family((const int[]){3, 0, 2, 4, 6}, 5, (const double[]){0, -2, -1, 1, 2}, 1);
    read_rules(back, &found);
    for (size_t i = 0; i < found.count; i++) {
        tailor_point move;
        double residual;
        must(tailor_grade_rule(back, found.rule[i].piece, found.rule[i].point, 0, &move, &residual));
        worst = fmax(worst, residual);
    }
    assert_true(worst > 0.01 && worst < 2);
    tailor_grade_free(back);
}

/* Any two men in coats of one style are a family: each is met exactly, and halfway all seams close. */
static void any_two_men(void **state)
{
    (void)state;
    static struct made two[2];
    struct dice d = {5};
    int pairs = 0;
    for (int round = 0; round < how_many(40, 3000); round++) {
        for (int k = 0; k < 2; k++) {
            tailor_fields_clear(two[k].client, TAILOR_FIELD_COUNT);
            draw_body(&d, two[k].client);
            for (int f = 1; f < TAILOR_FIELD_COUNT; f++)
                if (!is_measure(f))
                    two[k].client[f] = k ? two[0].client[f] : even(&d) < 0.3 ? any_value(&d, f, 0.5) : (double)NAN;
            agree_with_itself(two[k].client);
            both_sides_alike(two[k].client); /* or they may be of other pieces, and no family */
        }
        int drafted = make_client(&two[0], NULL) == TAILOR_OK;
        drafted &= make_client(&two[1], NULL) == TAILOR_OK;
        if (drafted) {
            tailor_grade *grade = NULL;
            must(tailor_grade_from_sizes((const tailor_pattern *const[]){two[0].coat, two[1].coat}, 2,
                                         (const double[]){0, 1}, 1, NULL, &grade, &fault));
            tailor_pattern *one = graded(grade, NULL, (const double[]){1});
            tailor_pattern *half = graded(grade, NULL, (const double[]){0.5});
            assert_at_most(apart_most(one, two[1].coat), 1e-4);
            assert_at_most(fmax(seams_off(one), seams_off(half)), 1e-6);
            tailor_pattern_free(one);
            tailor_pattern_free(half);
            tailor_grade_free(grade);
            pairs++;
        }
        for (int k = 0; k < 2; k++)
            unmake(&two[k]);
    }
    assert_true(pairs > 10);
}

/* A family may be large: 60 chests, on one axis. */
static void a_large_family(void **state)
{
    (void)state;
    enum { MANY = 60 };
    static struct made made[MANY];
    const tailor_pattern *patterns[MANY];
    double steps[MANY];
    for (int i = 0; i < MANY; i++) {
        steps[i] = i % 2 ? -(i + 1) / 30.0 : i / 30.0; /* 0, -1/15, 1/15, ... up to 2 sizes either way */
        must_make(&made[i], ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016 + 50.8 * steps[i]}));
        patterns[i] = made[i].coat;
    }
    tailor_grade *grade = NULL;
    must(tailor_grade_from_sizes(patterns, MANY, steps, 1, NULL, &grade, &fault));
    for (int i = 0; i < MANY; i += 7) {
        tailor_pattern *p = graded(grade, NULL, &steps[i]);
        assert_at_most(seams_off(p), 1e-7);
        assert_at_most(apart_most(p, made[i].coat), 2);
        tailor_pattern_free(p);
    }
    tailor_grade_free(grade);
    for (int i = 0; i < MANY; i++)
        unmake(&made[i]);
}

int test_grade(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(at_rest_nothing_moves),
        cmocka_unit_test(graded_is_redrafted_at_its_own_sizes),
        cmocka_unit_test(between_sizes_it_stays_near_the_draft),
        cmocka_unit_test(rules_keep_seams_and_joints),
        cmocka_unit_test(up_then_down_returns),
        cmocka_unit_test(any_rules_close),
        cmocka_unit_test(the_rule_of_a_family),
        cmocka_unit_test(any_two_men),
        cmocka_unit_test(a_large_family),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}

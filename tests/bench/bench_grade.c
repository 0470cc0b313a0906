/* How many graded coats a second on one core: orders between the sizes of a table, resolved and drafted; and a pattern
 * graded by rules, by a workroom's (71 named points) and by those of a family (every control point). Allocations are
 * counted.
 *
 *     bench_grade [rounds]
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <tailorgeom/coat.h>
#include <tailorgeom/grade.h>

enum { SIZES = 6, STEPS = 256, RULES = 200 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static long allocations;

static void *counted(void *user, size_t bytes)
{
    (void)user;
    allocations++;
    return malloc(bytes);
}

static void release(void *user, void *memory)
{
    (void)user;
    free(memory);
}

static const tailor_allocator allocator = {counted, release, NULL};

static tailor_house *house;

static tailor_coat *draft(const tailor_size_table *table, double chest, double spent[2])
{
    double row[TAILOR_FIELD_COUNT], begin = now();
    tailor_coat *coat = NULL;
    tailor_fields_clear(row, TAILOR_FIELD_COUNT);
    row[TAILOR_FIELD_CHEST_GIRTH] = chest;
    if (tailor_size_table_at(table, 1, row, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, NULL, NULL) != TAILOR_OK)
        return NULL;
    double found = now();
    tailor_coat_new(house, row, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, NULL);
    spent[0] += found - begin;
    spent[1] += now() - found;
    return coat;
}

/** Rules for every end of an edge and every named point, read off a family of two. */
static tailor_grade *workroom(const tailor_pattern *base, const tailor_grade *family)
{
    static char name[RULES][64];
    tailor_rule rule[RULES];
    tailor_point move[RULES];
    tailor_grade *grade = NULL;
    size_t n = 0;
    for (int i = 0; i < tailor_pattern_piece_count(base); i++)
        for (int k = 0, edges = tailor_piece_edge_count(base, i); k < edges + tailor_piece_point_count(base, i); k++) {
            if (k < edges)
                snprintf(name[n], 64, "%s.start", tailor_edge_name(base, i, k));
            else
                snprintf(name[n], 64, "%s", tailor_point_name(base, i, k - edges));
            rule[n] = (tailor_rule){tailor_piece_name(base, i), name[n]};
            n += n + 1 < RULES &&
                 tailor_grade_rule(family, rule[n].piece, rule[n].point, 0, &move[n], NULL) == TAILOR_OK;
        }
    tailor_grade_from_rules(base, rule, move, n, 1, NULL, &grade, NULL);
    return grade;
}

static void grade_by(const char *how, const tailor_grade *grade, int rounds)
{
    double best = 1e300;
    allocations = 0;
    for (int round = 0; round < rounds; round++) {
        double begin = now();
        for (int i = 0; i < STEPS; i++) {
            double step = -1.5 + 3.0 * (i + 0.5) / STEPS;
            tailor_pattern *p = NULL;
            if (tailor_grade_apply(grade, NULL, &step, 1, &allocator, &p, NULL) != TAILOR_OK)
                fprintf(stderr, "%s: step %g is refused\n", how, step);
            tailor_pattern_free(p);
        }
        double spent = (now() - begin) / STEPS;
        best = spent < best ? spent : best;
    }
    printf("  %-34s %6.2f us: %7.0f a second (%.2f allocations)\n", how, best, 1e6 / best,
           (double)allocations / STEPS / rounds);
}

int main(int argc, char **argv)
{
    /* the demo house's regular fit, its grade break included */
    static const double sizes[SIZES][3] = {{914, 788, 1765},  {965, 838, 1770},   {1016, 890, 1775},
                                           {1067, 945, 1780}, {1118, 1003, 1785}, {1168, 1064, 1790}};
    static const int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH, TAILOR_FIELD_STATURE};
    int rounds = argc > 1 ? atoi(argv[1]) : 40;
    tailor_size_table *table = NULL;
    tailor_fault fault;
    if (tailor_size_table_make(columns, 3, sizes[0], SIZES, 3, NULL, NULL, &table, &fault) != TAILOR_OK)
        return fprintf(stderr, "%s\n", fault.sentence), 1;
    if (tailor_house_new(NULL, 0, NULL, 0, &allocator, &house, &fault) != TAILOR_OK)
        return fprintf(stderr, "%s\n", fault.sentence), 1;
    double best[2] = {1e300, 1e300};
    allocations = 0;
    for (int round = 0; round < rounds; round++) {
        double spent[2] = {0, 0};
        for (int i = 0; i < STEPS; i++) {
            tailor_coat *coat = draft(table, 890 + 300.0 * i / STEPS, spent);
            if (!coat)
                fprintf(stderr, "size %d is not drafted\n", i);
            tailor_coat_free(coat);
        }
        for (int k = 0; k < 2; k++)
            best[k] = spent[k] / STEPS < best[k] ? spent[k] / STEPS : best[k];
    }
    printf("graded coats on one core, best of %d rounds of %d\n", rounds, STEPS);
    printf("  %-34s %6.2f us\n", "size table at a chest", best[0]);
    printf("  %-34s %6.2f us: %7.0f a second (%.2f allocations)\n", "that, and its coat, measured", best[0] + best[1],
           1e6 / (best[0] + best[1]), (double)allocations / STEPS / rounds);

    double unused[2];
    tailor_coat *coats[2] = {draft(table, 1016, unused), draft(table, 1067, unused)};
    const tailor_pattern *two[2] = {tailor_coat_pattern(coats[0]), tailor_coat_pattern(coats[1])};
    tailor_grade *family = NULL, *rules;
    double begin = now();
    if (tailor_grade_from_sizes(two, 2, (const double[]){0, 1}, 1, NULL, &family, &fault) != TAILOR_OK)
        return fprintf(stderr, "%s\n", fault.sentence), 1;
    double made = now();
    rules = workroom(two[0], family);
    printf("  %-34s %6.0f us, from rules %.0f us\n", "making a grade from two sizes", made - begin, now() - made);
    grade_by("graded by a workroom's rules", rules, rounds);
    grade_by("graded by a family's", family, rounds);
    tailor_grade_free(rules);
    tailor_grade_free(family);
    for (int i = 0; i < 2; i++)
        tailor_coat_free(coats[i]);
    tailor_house_free(house);
    tailor_size_table_free(table);
    return 0;
}

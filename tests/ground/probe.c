/* Prints results of the whole core with %a, a number a line: builds that compute the same print the same.
 * Whatever is printed is printed for refused orders too, as the status alone. */
#include <math.h>
#include <stdio.h>
#include <tailorgeom/geom.h>
#include <tailorgeom/grade.h>
#include <tailorgeom/roll.h>
#include <tailorgeom/rows.h>
#include "orders.h"

enum { CURVES = 40, ORDERS = 60, ROOM = 4000 };

static void number(const char *what, double value) { printf("%s %a\n", what, value); }

static void point(const char *what, tailor_point p) { printf("%s %a %a\n", what, p.x, p.y); }

static void path(const char *what, const tailor_cubic *c, size_t count)
{
    printf("%s %zu cubics\n", what, count);
    for (size_t i = 0; i < count; i++)
        for (int j = 0; j < 4; j++)
            point(what, c[i].p[j]);
}

static tailor_cubic any_cubic(dice *d)
{
    tailor_cubic c;
    for (int i = 0; i < 4; i++)
        c.p[i] = (tailor_point){1000 * dice_even(d) - 300, 1000 * dice_even(d) - 500};
    return c;
}

static void one_curve(const tailor_cubic *c, const tailor_cubic *other)
{
    double box[4], distance, places[64], others[64];
    size_t found = 0;
    tailor_cubic half[2];
    for (int i = 0; i <= 8; i++) {
        double t = i / 8.0;
        point("point", tailor_cubic_point(c, t));
        point("direction", tailor_cubic_direction(c, t));
        number("curvature", tailor_cubic_curvature(c, t));
        number("length_to", tailor_cubic_length_to(c, t));
    }
    number("length", tailor_cubic_length(c));
    number("at_length", tailor_cubic_at_length(c, 0.4 * tailor_cubic_length(c)));
    number("nearest", tailor_cubic_nearest(c, other->p[1], &distance));
    number("distance", distance);
    tailor_cubic_bounds(c, box);
    for (int i = 0; i < 4; i++)
        number("box", box[i]);
    tailor_cubic_split(c, 0.3, &half[0], &half[1]);
    path("split", half, 2);
    printf("cross_line %d\n", tailor_path_cross_line(half, 2, other->p[0], other->p[3], places, 64, &found));
    for (size_t i = 0; i < found && i < 64; i++)
        number("place", places[i]);
    found = 0;
    printf("cross_path %d\n", tailor_path_cross_path(half, 2, other, 1, 1e-9, places, others, 64, &found));
    for (size_t i = 0; i < found && i < 64; i++) {
        number("place", places[i]);
        number("place", others[i]);
    }
}

static void geometry(void)
{
    static tailor_cubic made[ROOM];
    static tailor_point flat[ROOM];
    dice d = {7};
    size_t needed = 0;
    for (int i = 0; i < CURVES; i++) {
        tailor_cubic c = any_cubic(&d), other = any_cubic(&d);
        one_curve(&c, &other);
        tailor_point points[6];
        for (int j = 0; j < 6; j++)
            points[j] = (tailor_point){300 * dice_even(&d), 100.0 * j + 80 * dice_even(&d)};
        if (tailor_path_smooth(points, 6, made) == TAILOR_OK)
            path("smooth", made, 5);
        number("area", tailor_path_area(made, 5));
        if (tailor_path_monotone(points, 6, made) == TAILOR_OK)
            path("monotone", made, 5);
        tailor_cubic seam[5];
        for (int j = 0; j < 5; j++)
            seam[j] = made[j];
        printf("offset %d\n", tailor_path_offset(seam, 5, 10, 0.01, made, ROOM, &needed));
        path("offset", made, needed < ROOM ? needed : 0);
        if (tailor_path_flatten(seam, 5, 0.01, flat, ROOM, &needed) == TAILOR_OK)
            for (size_t j = 0; j < needed; j++)
                point("flat", flat[j]);
    }
}

static void pattern(const tailor_pattern *coat)
{
    for (int p = 0; p < tailor_pattern_piece_count(coat); p++) {
        size_t count = 0;
        const tailor_cubic *outline = tailor_piece_outline(coat, p, &count);
        path(tailor_piece_name(coat, p), outline, count);
        number("area", tailor_path_area(outline, count));
        for (int i = 0; i < tailor_piece_point_count(coat, p); i++)
            point(tailor_point_name(coat, p, i), tailor_point_place(coat, p, i));
        for (int i = 0; i < tailor_piece_mark_count(coat, p); i++) {
            const tailor_cubic *mark = tailor_mark_path(coat, p, i, &count);
            path(tailor_mark_name(coat, p, i), mark, count);
        }
    }
}

static void coat_of(const tailor_coat *coat)
{
    size_t count = 0;
    pattern(tailor_coat_pattern(coat));
    for (int i = 1; i < TAILOR_QUANTITY_COUNT; i++)
        number("quantity", tailor_coat_quantity(coat, i));
    for (int i = 1; i < TAILOR_CHECK_COUNT; i++) {
        double value, limit;
        printf("check %d\n", tailor_coat_check(coat, i, &value, &limit));
        number("check", value);
        number("limit", limit);
    }
    const tailor_point *line = tailor_coat_section(coat, &count);
    for (size_t i = 0; i < count; i++)
        point("section", line[i]);
    tailor_fault caution;
    for (int i = 0, heed; (heed = tailor_coat_caution(coat, i, &caution)) != 0; i++) {
        printf("caution %d %s\n", heed, caution.sentence);
        number("caution", caution.value);
    }
}

/* Every extent comes now and then; and the row again, and its pattern. */
static void order(int which)
{
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL, *again = NULL;
    order_make(which, client, TAILOR_FIELD_COUNT);
    int status = tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, row, NULL, TAILOR_FIELD_COUNT, NULL);
    printf("resolve %s\n", tailor_status_name(status));
    if (status != TAILOR_OK)
        return;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        number("field", row[i]);
    const int extent = which % 2 ? TAILOR_EXTENT_SECTION : which % 4 ? TAILOR_EXTENT_MAKE : TAILOR_EXTENT_NET;
    status = tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, extent, &coat, NULL);
    printf("new %s\n", tailor_status_name(status));
    if (coat)
        coat_of(coat);
    if (which % 4 == 0) {
        status = tailor_coat_again(NULL, row, NULL, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &again, NULL);
        printf("again %s\n", tailor_status_name(status));
        tailor_coat_free(again);
        again = NULL;
    }
    if (which % 4 == 1 && coat) {
        status = tailor_coat_of_pattern(NULL, row, NULL, TAILOR_FIELD_COUNT, tailor_coat_pattern(coat), &again, NULL);
        printf("of_pattern %s\n", tailor_status_name(status));
        coat_of(again);
        tailor_coat_free(again);
    }
    tailor_coat_free(coat);
}

/* The same orders as rows; chest, waist and stature alone are given. */
static void many(void)
{
    static const int32_t columns[] = {TAILOR_FIELD_STATURE, TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH};
    static const int32_t wanted[] = {TAILOR_QUANTITY_COVERAGE_SCYE, TAILOR_QUANTITY_ROLL_HEIGHT};
    static double orders[ORDERS][3], quantities[ORDERS][2];
    static tailor_verdict verdicts[ORDERS];
    tailor_rows *rows = NULL;
    tailor_rows_worker *worker = NULL;
    for (int i = 0; i < ORDERS; i++) {
        double client[TAILOR_FIELD_COUNT];
        order_make(i, client, TAILOR_FIELD_COUNT);
        for (int j = 0; j < 3; j++)
            orders[i][j] = client[columns[j]] * (i % 9 ? 1 : 0.7 + 0.01 * i);
    }
    printf("rows %d\n", tailor_rows_new(NULL, columns, 3, wanted, 2, &rows, NULL));
    printf("worker %d\n", tailor_rows_worker_new(rows, 0, 0, &worker, NULL));
    printf("run %d\n", tailor_rows_run(worker, orders[0], ORDERS, quantities[0], verdicts, NULL));
    for (int i = 0; i < ORDERS; i++) {
        const tailor_verdict *v = &verdicts[i];
        tailor_fault fault;
        tailor_verdict_fault(v, &fault);
        printf("row %d %d %d %d %u %s\n", v->status, v->table, v->index, v->origin, (unsigned)v->cautions[0],
               fault.sentence);
        number("value", v->value);
        number("limit", v->limit);
        number("quantity", quantities[i][0]);
        number("quantity", quantities[i][1]);
    }
    tailor_rows_worker_free(worker);
    tailor_rows_free(rows);
}

static void numbers(const char *what, const double *row, int count)
{
    for (int i = 1; i < count; i++)
        number(what, row[i]);
}

static void cloths(void)
{
    dice d = {11};
    for (int i = 0; i < CURVES; i++) {
        double cloth[2][TAILOR_CLOTH_COUNT], layers[TAILOR_LAYERS_COUNT], row[TAILOR_LAYERS_COUNT];
        double angle = 0, stiff = 0;
        double angles[2] = {0, 180 * dice_even(&d) - 90};
        double holds[2] = {1, dice_even(&d)};
        int joints[2] = {1, 1 + i % 2};
        for (int k = 0; k < 2; k++)
            for (int p = 1; p < TAILOR_CLOTH_COUNT; p++) {
                double low = tailor_table_low(tailor_cloth_table(), p);
                cloth[k][p] = (low > 0 ? 10 * low : 0.01) * (1 + 20 * dice_even(&d));
            }
        printf("join %d\n", tailor_layers_join(cloth[0], 2, TAILOR_CLOTH_COUNT, angles, joints, holds, layers,
                                               TAILOR_LAYERS_COUNT, NULL));
        numbers("layers", layers, TAILOR_LAYERS_COUNT);
        if (tailor_layers_along(layers, TAILOR_LAYERS_COUNT, 13, row, TAILOR_ALONG_COUNT, NULL) == TAILOR_OK)
            numbers("along", row, TAILOR_ALONG_COUNT);
        (void)tailor_layers_greatest_stretch(layers, TAILOR_LAYERS_COUNT, &angle, &stiff, NULL);
        number("greatest", angle);
        number("greatest", stiff);
        double roll[6]; /* one by one: the order of arguments is the compiler's */
        for (int k = 0; k < 6; k++)
            roll[k] = dice_even(&d);
        if (tailor_cloth_elastica_hang(20 * roll[0], i % 3, 170 * roll[1] - 80, row, TAILOR_DROOP_COUNT, NULL) ==
            TAILOR_OK)
            numbers("hang", row, TAILOR_DROOP_COUNT);
        double section[] = {NAN, 10 + 25 * roll[2], 60 + 50 * roll[3], 100 + 80 * roll[4]};
        tailor_point line[TAILOR_ROLLED_LINE_COUNT];
        if (tailor_roll_section(section, 4, row, TAILOR_ROLLED_COUNT, line, TAILOR_ROLLED_LINE_COUNT, NULL) ==
            TAILOR_OK) {
            numbers("rolled", row, TAILOR_ROLLED_COUNT);
            point("edge", line[TAILOR_ROLLED_LINE_COUNT - 1]);
        }
        double making[] = {NAN, 60 + 50 * roll[3], 105, 115, 330, 13, 600 * roll[4], 8 * roll[5], 1e-6};
        if (tailor_roll_estimate(making, 9, layers, TAILOR_LAYERS_COUNT, row, TAILOR_ROLL_COUNT, NULL) == TAILOR_OK)
            numbers("roll", row, TAILOR_ROLL_COUNT);
    }
}

/* Orders between the sizes of a table; what a family of three of them follows, applied. */
static void sizes(void)
{
    static const double rows[4][2] = {{900, 760}, {960, 820}, {1040, 915}, {1100, 1000}};
    static const int32_t columns[2] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH};
    tailor_size_table *table = NULL;
    tailor_grade *grade = NULL;
    tailor_coat *coat[3] = {NULL, NULL, NULL};
    const tailor_pattern *base[3];
    tailor_pattern *graded = NULL;
    printf("table %d\n", tailor_size_table_make(columns, 2, rows[0], 4, 2, NULL, NULL, &table, NULL));
    for (int i = 0; i < 3; i++) {
        double row[TAILOR_FIELD_COUNT];
        tailor_fields_clear(row, TAILOR_FIELD_COUNT);
        row[TAILOR_FIELD_CHEST_GIRTH] = (const double[]){1013, 933, 1087}[i];
        tailor_size_table_at(table, 1, row, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, NULL, NULL);
        number("waist", row[TAILOR_FIELD_WAIST_GIRTH]);
        tailor_coat_new(NULL, row, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat[i], NULL);
        base[i] = tailor_coat_pattern(coat[i]);
    }
    printf("grade %d\n", tailor_grade_from_sizes(base, 3, (const double[]){0, 0, -2, 0, 0, 2}, 2, NULL, &grade,
                                                 NULL));
    for (int i = -3; i <= 3; i++) {
        double steps[2] = {i < 0 ? i / 1.5 : 0, i > 0 ? i / 1.5 : 0};
        if (tailor_grade_apply(grade, NULL, steps, 2, NULL, &graded, NULL) != TAILOR_OK)
            continue;
        pattern(graded);
        tailor_pattern_free(graded);
    }
    const tailor_rule two[] = {{"back", "shoulder_end"}, {"forepart", "shoulder.end"}};
    tailor_grade *rules = NULL;
    const tailor_point moves[] = {{3, 1}, {-2, 1}};
    printf("rules %d\n", tailor_grade_from_rules(base[0], two, moves, 2, 1, NULL, &rules, NULL));
    if (tailor_grade_apply(rules, NULL, (const double[]){1.25}, 1, NULL, &graded, NULL) == TAILOR_OK) {
        pattern(graded);
        tailor_pattern_free(graded);
    }
    tailor_grade_free(rules);
    tailor_grade_free(grade);
    for (int i = 0; i < 3; i++)
        tailor_coat_free(coat[i]);
    tailor_size_table_free(table);
}

int main(void)
{
    geometry();
    cloths();
    sizes();
    many();
    for (int i = 0; i < ORDERS; i++)
        order(i);
    return 0;
}

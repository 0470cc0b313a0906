/* Patterns built of anything, tables of anything, rules of anything: what is refused says why and writes nothing, what
 * is accepted reads back, closes its seams and can be measured or refused. */
#include <tailorgeom/grade.h>
#include <tailorgeom/coat.h>
#include "bytes.h"

static const char *const names[] = {"back",  "forepart", "hem",   "scye",  "shoulder",   "neck",       "a", "b2",
                                    "Upper", "",         "c_c_c", "grain", "neck_point", "front_seam", "d", NULL};

static const char *some_name(bytes *b) { return names[bytes_small(b) % 16]; }

static void said(int status, const tailor_fault *fault)
{
    check(status == TAILOR_OK || (fault->status == status && fault->sentence[0]));
}

/* A polygon, so that some pieces close; now and then a path of anything. */
static void add_outline(tailor_builder *b, bytes *in)
{
    tailor_point corner[6];
    tailor_cubic path[4];
    tailor_fault fault;
    int n = 3 + (int)(bytes_small(in) % 4);
    for (int i = 0; i < n; i++) {
        double angle = 6.283185307179586 * i / n, radius = 20 + bytes_small(in);
        corner[i] = (tailor_point){radius * cos(angle), radius * sin(angle)};
    }
    for (int i = 0; i < n; i++) {
        tailor_point from = corner[i], to = corner[(i + 1) % n];
        double bend = (double)bytes_small(in) - 128;
        path[0] = tailor_cubic_line(from, to);
        path[0].p[1].x += bend > 0 ? bend / 4 : 0;
        size_t count = 1;
        if (bend < -120)
            count = bytes_path(in, path, 4);
        static const char *const edges[6] = {"hem", "scye", "shoulder", "neck", "front_seam", "a"};
        said(tailor_builder_add_edge(b, bend < -126 ? some_name(in) : edges[i], path, count, &fault), &fault);
    }
}

static tailor_pattern *some_pattern(bytes *in)
{
    tailor_builder *b = NULL;
    tailor_pattern *p = NULL;
    tailor_fault fault;
    tailor_cubic path[4];
    check(tailor_builder_begin(NULL, &b, &fault) == TAILOR_OK);
    for (unsigned pieces = 1 + bytes_small(in) % 3; pieces > 0; pieces--) {
        said(tailor_builder_add_piece(b, some_name(in), (int)bytes_small(in) % 4, (int)bytes_small(in) % 3,
                                      (int)bytes_small(in) % 4, "cloth", &fault),
             &fault);
        add_outline(b, in);
        for (unsigned more = bytes_small(in) % 4; more > 0; more--) {
            said(tailor_builder_add_point(b, some_name(in), bytes_point(in), &fault), &fault);
            size_t count = bytes_path(in, path, 4);
            said(tailor_builder_add_mark(b, some_name(in), (int)bytes_small(in) % 9, path, count, &fault), &fault);
        }
    }
    for (unsigned seams = bytes_small(in) % 4; seams > 0; seams--) {
        said(tailor_builder_add_seam(b, some_name(in), bytes_number(in) / 1e4, &fault), &fault);
        for (unsigned more = 2 + bytes_small(in) % 4; more > 0; more--) {
            const char *piece = some_name(in), *edge = some_name(in);
            const double from = bytes_small(in) % 2 ? bytes_number(in) : 0;
            const double to = more % 2 ? (double)NAN : bytes_number(in);
            said(tailor_builder_add_stretch(b, (int)bytes_small(in) % 2, piece, edge, from, to, &fault), &fault);
        }
    }
    double row[TAILOR_FIELD_COUNT];
    tailor_fields_clear(row, TAILOR_FIELD_COUNT);
    row[TAILOR_FIELD_BUTTONING] = (double)(bytes_small(in) % 16) / 2;
    tailor_status style = tailor_builder_set_style(b, (int)bytes_small(in) - 9, row, TAILOR_FIELD_COUNT, &fault);
    said(style, &fault);
    const int toile = (int)bytes_small(in) % 4 - 1; /* no such thing, no, yes, no such thing */
    tailor_status told = tailor_builder_set_toile_only(b, toile, &fault);
    said(told, &fault);
    check((told == TAILOR_OK) == (toile == 0 || toile == 1));
    tailor_status status = tailor_builder_finish(b, NULL, &p, &fault);
    said(status, &fault);
    check((p != NULL) == (status == TAILOR_OK));
    check(!p || tailor_pattern_style(p, TAILOR_FIELD_BUTTONING) ==
                    (style == TAILOR_OK ? (int)row[TAILOR_FIELD_BUTTONING] : 0));
    check(!p || tailor_pattern_toile_only(p) == (toile == 1));
    tailor_builder_free(b);
    return p;
}

static void look_at(const tailor_pattern *p)
{
    for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
        size_t n;
        const tailor_cubic *c = tailor_piece_outline(p, i, &n);
        check(n > 0 && tailor_path_area(c, n) > 0 && tailor_path_gap(c, n, 1) == 0);
        check(tailor_piece_edge_count(p, i) > 0);
    }
}

/* Findings are of parts that there are, those that refuse first, in words; a crossing is one. */
static void examine(const tailor_pattern *p, const tailor_pattern *base)
{
    tailor_finding found[64];
    tailor_fault fault;
    size_t needed = 0, crossing = 0, n;
    tailor_status status = tailor_pattern_examine(p, base, found, 64, &needed, &fault);
    said(status, &fault);
    if (status == TAILOR_NOT_CONVERGED)
        return;
    check(status == (needed > 64 ? TAILOR_TOO_SMALL : TAILOR_OK));
    for (size_t i = 0; i < needed && i < 64; i++) {
        status = tailor_finding_fault(&found[i], &fault);
        check(status == (tailor_finding_refuses(found[i].kind) ? TAILOR_UNSOUND : TAILOR_OK) && fault.sentence[0]);
        check(fault.table == TAILOR_TABLE_FINDING && fault.index < tailor_table_size(tailor_finding_table()));
        check(i == 0 || tailor_finding_refuses(found[i].kind) <= tailor_finding_refuses(found[i - 1].kind));
        check(found[i].piece >= -1 && found[i].piece < tailor_pattern_piece_count(p) && found[i].part >= -1);
        crossing += found[i].kind == TAILOR_FINDING_CROSSING;
    }
    for (int i = 0; i < tailor_pattern_piece_count(p) && needed <= 64; i++) {
        int crosses = 0;
        const tailor_cubic *c = tailor_piece_outline(p, i, &n);
        if (tailor_path_crosses_itself(c, n, 1e-3, &crosses, NULL) == TAILOR_OK && crosses)
            crossing--;
    }
    check(needed > 64 || crossing == 0);
}

/* Sides of a seam by what they say themselves. */
static double gap_of(const tailor_pattern *p, int seam)
{
    double length[2] = {0, 0};
    for (int k = 0; k < 2; k++)
        for (int i = 0; i < tailor_seam_stretch_count(p, seam, k); i++) {
            tailor_stretch sewn;
            check(tailor_seam_stretch(p, seam, k, i, &sewn) == TAILOR_OK);
            length[k] += fabs(sewn.to - sewn.from);
        }
    return length[0] - length[1];
}

static void grade_it(bytes *in, const tailor_pattern *p)
{
    enum { RULES = 6 };
    static const char *const ends[] = {"hem.start",  "scye.end", "shoulder.start", "neck.end", "a.start",
                                       "neck_point", "d",        "hem.",           ".start",   "x.start"};
    tailor_rule rule[RULES];
    tailor_point move[RULES * 2];
    tailor_grade *grade = NULL;
    tailor_fault fault;
    size_t count = bytes_small(in) % (RULES + 1);
    int axes = 1 + (int)bytes_small(in) % 2;
    for (size_t i = 0; i < count; i++) {
        rule[i].piece =
            bytes_small(in) % 8 ? tailor_piece_name(p, (int)i % tailor_pattern_piece_count(p)) : some_name(in);
        rule[i].point = ends[bytes_small(in) % 10];
        for (int k = 0; k < axes; k++) {
            tailor_point by = bytes_point(in);
            move[i * (size_t)axes + (size_t)k] = bytes_small(in) % 16 ? (tailor_point){by.x / 4096, by.y / 4096} : by;
        }
    }
    tailor_status status = tailor_grade_from_rules(p, rule, move, count, axes, NULL, &grade, &fault);
    said(status, &fault);
    check((grade != NULL) == (status == TAILOR_OK));
    if (!grade)
        return;
    check(tailor_grade_axis_count(grade) == axes);
    look_at(tailor_grade_base(grade));
    double steps[2] = {((double)bytes_small(in) - 128) / 64, bytes_number(in) / 1e4}, residual;
    tailor_pattern *q = NULL, *family[3];
    status = tailor_grade_apply(grade, NULL, steps, axes, NULL, &q, &fault);
    said(status, &fault);
    check((q != NULL) == (status == TAILOR_OK));
    tailor_point by;
    tailor_grade_rule(grade, some_name(in), ends[bytes_small(in) % 10], (int)bytes_small(in) % 4 - 1, &by, &residual);
    if (q) {
        look_at(q);
        examine(q, tailor_grade_base(grade));
        examine(q, p);
        for (int s = 0; s < tailor_pattern_seam_count(q); s++)
            check(fabs(gap_of(q, s) - gap_of(tailor_grade_base(grade), s)) < 1e-5);
        tailor_pattern *back = NULL;
        steps[0] = -steps[0];
        steps[1] = -steps[1];
        said(tailor_grade_apply(grade, q, steps, axes, NULL, &back, &fault), &fault);
        tailor_pattern_free(back);
        /* the pattern and what was graded from it are a family */
        tailor_grade *own = NULL;
        family[0] = (tailor_pattern *)(uintptr_t)tailor_grade_base(grade);
        family[1] = q;
        const double apart[2] = {0, bytes_small(in) % 8 ? 1 : bytes_number(in)};
        status = tailor_grade_from_sizes((const tailor_pattern *const *)family, 2, apart, 1, NULL, &own, &fault);
        said(status, &fault);
        if (own) {
            tailor_pattern *again = NULL;
            said(tailor_grade_apply(own, NULL, &apart[1], 1, NULL, &again, &fault), &fault);
            tailor_pattern_free(again);
        }
        tailor_grade_free(own);
    }
    tailor_pattern_free(q);
    tailor_grade_free(grade);
}

/* A pattern of any kind is measured as a coat, or refused in words. */
static void measure_it(const tailor_pattern *p)
{
    double row[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    tailor_fault fault;
    tailor_fields_clear(row, TAILOR_FIELD_COUNT);
    row[TAILOR_FIELD_CHEST_GIRTH] = 1000;
    check(tailor_order_resolve(NULL, row, TAILOR_FIELD_COUNT, row, NULL, TAILOR_FIELD_COUNT, NULL) == TAILOR_OK);
    tailor_status status = tailor_coat_of_pattern(NULL, row, NULL, TAILOR_FIELD_COUNT, p, &coat, &fault);
    check(!coat && fault.status == status && fault.sentence[0]);
    check(status == TAILOR_BAD_ARGUMENT || status == TAILOR_CONTRADICTION);
    check(fault.place <= tailor_pattern_piece_count(p));
}

static void tables(bytes *in)
{
    enum { ROWS = 5, COLUMNS = 3 };
    int32_t columns[COLUMNS] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH, TAILOR_FIELD_LAPEL}, fits[ROWS];
    double value[ROWS * COLUMNS], given[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT], beyond = 0, bound[4];
    tailor_size_table *table = NULL;
    tailor_fault fault;
    size_t rows = 1 + bytes_small(in) % ROWS, at = 0;
    if (bytes_small(in) > 240)
        columns[1] = (int)bytes_small(in) - 5;
    double chest = 700 + bytes_small(in);
    for (size_t i = 0; i < rows; i++) {
        fits[i] = i ? fits[i - 1] + (bytes_small(in) > 200) : 1;
        chest = i && fits[i] == fits[i - 1] ? chest + bytes_small(in) : 700 + bytes_small(in);
        value[i * COLUMNS] = chest;
        value[i * COLUMNS + 1] = bytes_small(in) > 200 ? bytes_number(in) : 0.5 * chest + 200;
        value[i * COLUMNS + 2] = bytes_small(in) > 240 ? (double)bytes_small(in) : 1;
    }
    tailor_status status = tailor_size_table_make(columns, 1 + bytes_small(in) % COLUMNS, value, rows, COLUMNS, fits,
                                                  NULL, &table, &fault);
    said(status, &fault);
    check((table != NULL) == (status == TAILOR_OK));
    if (!table)
        return;
    check(tailor_size_table_row_count(table) == rows && tailor_size_table_fit_count(table) == fits[rows - 1]);
    double fit = 1 + bytes_small(in) / 64.0;
    tailor_fields_clear(given, TAILOR_FIELD_COUNT);
    given[TAILOR_FIELD_CHEST_GIRTH] = 650 + 3 * bytes_small(in);
    if (bytes_small(in) > 200)
        given[bytes_small(in) % TAILOR_FIELD_COUNT] = bytes_number(in);
    status = tailor_size_table_at(table, fit, given, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, &beyond, &fault);
    said(status, &fault);
    int there = tailor_size_table_range(table, fit, &bound[0], &bound[1], &bound[2], &bound[3]) == TAILOR_OK;
    check(status != TAILOR_OK || (there && given[columns[0]] >= bound[2] && given[columns[0]] <= bound[3]));
    status = tailor_size_table_nearest(table, given, TAILOR_FIELD_COUNT, &at, &columns[1], &beyond, row,
                                       TAILOR_FIELD_COUNT, &fault);
    said(status, &fault);
    check(at < rows);
    check(tailor_size_table_row(table, at, row, TAILOR_FIELD_COUNT) == TAILOR_OK);
    tailor_size_table_free(table);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes in = {data, size};
    tables(&in);
    tailor_pattern *p = some_pattern(&in);
    if (p) {
        look_at(p);
        examine(p, NULL);
        measure_it(p);
        grade_it(&in, p);
    }
    tailor_pattern_free(p);
    return 0;
}

/* tailorgeom grade PATTERN.json --rules RULES.csv: a pattern file, whoever made it, graded by a workroom's rules.
 *
 * A rules file has the columns piece, point, dx, dy (mm a step), and axis, counted from 1, where there are several.
 * Sizes are steps from the base: -1, 0.5; with several axes a colon between them: 1:0. */
#include "grade.h"

#include "complain.h"
#include "examined.h"
#include "csv.h"
#include "json_read_pattern.h"
#include "output.h"
#include "table_out.h"
#include "text_in.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { RULES_MOST = 4096, NAME = 48, AXES_MOST = 8, RULE_COLUMNS = 5, CELLS_MOST = 16 };
enum { PIECE, POINT, DX, DY, AXIS };
static const char *const column_names[RULE_COLUMNS] = {"piece", "point", "dx", "dy", "axis"};

typedef struct rules {
    const char *source;
    char (*piece)[NAME], (*point)[NAME];
    int *line;
    tailor_point *moves; /* of each rule, AXES_MOST apart while they are read */
    bool (*known)[AXES_MOST];
    size_t count;
    int axes;
} rules;

/* A plain number, with a point. */
static bool plain(const char *text, double *value)
{
    char *stop = NULL;
    if (!text[0] || text[strspn(text, "+-.0123456789eE")])
        return false;
    *value = strtod(text, &stop);
    return !*stop && isfinite(*value);
}

static size_t rule_of(rules *r, const char *piece, const char *point, int line)
{
    size_t i = 0;
    while (i < r->count && (strcmp(r->piece[i], piece) != 0 || strcmp(r->point[i], point) != 0))
        i++;
    if (i < r->count || i == RULES_MOST)
        return i;
    snprintf(r->piece[i], NAME, "%.*s", NAME - 1, piece);
    snprintf(r->point[i], NAME, "%.*s", NAME - 1, point);
    r->line[i] = line;
    r->count++;
    return i;
}

static bool take_rule(rules *r, char text[RULE_COLUMNS][NAME], int line)
{
    double axis = 1;
    tailor_point move;
    if (!plain(text[DX], &move.x) || !plain(text[DY], &move.y)) {
        complain_at(r->source, line, "dx and dy are numbers, mm a step (typed: %s and %s)", text[DX], text[DY]);
        return false;
    }
    if (text[AXIS][0] && (!plain(text[AXIS], &axis) || !(axis >= 1 && axis <= AXES_MOST && axis == floor(axis)))) {
        complain_at(r->source, line, "axis is a whole number from 1 to %d (typed: %s)", AXES_MOST, text[AXIS]);
        return false;
    }
    size_t i = rule_of(r, text[PIECE], text[POINT], line);
    int at = (int)axis - 1;
    if (i == RULES_MOST || r->known[i][at]) {
        complain_at(r->source, line, i == RULES_MOST ? "more than 4096 rules" : "%s of %s has a rule already",
                    text[POINT], text[PIECE]);
        return false;
    }
    r->known[i][at] = true;
    r->moves[i * AXES_MOST + (size_t)at] = move;
    r->axes = at + 1 > r->axes ? at + 1 : r->axes;
    return true;
}

static bool read_lines(rules *r, const char *text, size_t bytes)
{
    csv_cell cells[CELLS_MOST];
    csv_found found;
    int column[RULE_COLUMNS] = {-1, -1, -1, -1, -1}, line = 1;
    size_t width = 0, at = bytes >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    for (; at < bytes; at += found.used, line++) {
        char said[RULE_COLUMNS][NAME] = {""};
        if (csv_record(text + at, bytes - at, true, cells, CELLS_MOST, &found) != CSV_RECORD) {
            complain_at(r->source, line, "%s", found.trouble);
            return false;
        }
        if (found.length == 0)
            continue;
        if (found.cells > CELLS_MOST || (width && found.cells != width)) {
            complain_at(r->source, line, "%zu cells where the header has %zu", found.cells, width);
            return false;
        }
        for (size_t i = 0; i < found.cells; i++) {
            char cell[NAME];
            if (cells[i].length >= NAME) {
                complain_at(r->source, line, "a cell has %zu bytes: names have 31 at most", cells[i].length);
                return false;
            }
            csv_say(cells[i], cell);
            for (int k = 0; k < RULE_COLUMNS; k++) {
                if (!width && strcmp(cell, column_names[k]) == 0)
                    column[k] = (int)i;
                if (width && column[k] == (int)i)
                    snprintf(said[k], NAME, "%s", cell);
            }
        }
        for (int k = 0; !width && k < AXIS; k++)
            if (column[k] < 0) {
                complain_at(r->source, line, "there is no column %s: rules have piece, point, dx, dy, and axis where "
                            "there are several", column_names[k]);
                return false;
            }
        if (width && !take_rule(r, said, line))
            return false;
        width = found.cells;
    }
    if (!r->count)
        complain_at(r->source, 0, "there are no rules in it");
    return r->count > 0;
}

/* Where the library names a rule by its place, its line goes before. */
static tailor_grade *make_grade(const rules *r, const tailor_pattern *base)
{
    tailor_grade *grade = NULL;
    tailor_fault fault;
    tailor_rule *named = malloc(r->count * sizeof *named);
    tailor_point *moves = malloc(r->count * (size_t)r->axes * sizeof *moves);
    for (size_t i = 0; named && moves && i < r->count; i++) {
        named[i] = (tailor_rule){r->piece[i], r->point[i]};
        for (int k = 0; k < r->axes; k++)
            moves[i * (size_t)r->axes + (size_t)k] = r->moves[i * AXES_MOST + (size_t)k];
    }
    if (!named || !moves)
        complain("out of memory");
    else if (tailor_grade_from_rules(base, named, moves, r->count, r->axes, NULL, &grade, &fault) !=
             TAILOR_OK) {
        size_t rule = fault.place > 0 ? (size_t)fault.place : 0;
        bool known = rule >= 1 && rule <= r->count;
        complain_at(r->source, known ? r->line[rule - 1] : 0, "%s%s%s%s%s%s", fault.sentence, known ? " (" : "",
                    known ? r->point[rule - 1] : "", known ? " of " : "", known ? r->piece[rule - 1] : "",
                    known ? ")" : "");
    }
    free(named);
    free(moves);
    return grade;
}

static tailor_grade *read_rules(const char *path, const tailor_pattern *base)
{
    rules r = {.source = text_source(path)};
    size_t length = 0;
    char *text = text_read(path, &length);
    r.piece = malloc(RULES_MOST * sizeof *r.piece);
    r.point = malloc(RULES_MOST * sizeof *r.point);
    r.line = malloc(RULES_MOST * sizeof *r.line);
    r.moves = calloc(RULES_MOST * AXES_MOST, sizeof *r.moves);
    r.known = calloc(RULES_MOST, sizeof *r.known);
    bool memory = r.piece && r.point && r.line && r.moves && r.known;
    if (text && !memory)
        complain("out of memory");
    tailor_grade *grade = text && memory && read_lines(&r, text, length) ? make_grade(&r, base) : NULL;
    free(text);
    free(r.piece);
    free(r.point);
    free(r.line);
    free(r.moves);
    free(r.known);
    return grade;
}

/* ---- the steps */

static bool take_steps(graded *g, const tailor_grade *grade, char *text)
{
    double steps[AXES_MOST] = {0};
    int axes = tailor_grade_axis_count(grade), given = 0;
    tailor_fault fault;
    snprintf(g->label, sizeof g->label, "%s", text);
    for (char *at = text, *next; at; at = next, given++) {
        next = strchr(at, ':');
        if (next)
            *next++ = '\0';
        if (given >= axes || !plain(at, &steps[given])) {
            complain("--sizes: %s is not %s", g->label,
                     axes == 1 ? "a number of steps, as -1 or 0.5" : "a number of steps for each axis, as 1:0");
            return false;
        }
    }
    if (given != axes) {
        complain("--sizes: %s has steps for %d of %d axes", g->label, given, axes);
        return false;
    }
    if (tailor_grade_apply(grade, NULL, steps, axes, NULL, &g->by_rules, &fault) != TAILOR_OK) {
        complain("step %s: %s", g->label, fault.sentence);
        return false;
    }
    g->good = examined(NULL, g->label, g->by_rules, tailor_grade_base(grade));
    return g->good;
}

static bool ask_steps(graded_list *all, const tailor_grade *grade, const char *wanted)
{
    char text[SIZE_TEXT];
    *all = (graded_list){.list = calloc(GRADED_MOST, sizeof *all->list)};
    if (!all->list)
        complain("out of memory");
    for (; all->list; wanted++) {
        size_t length = strcspn(wanted, ",");
        if (!length || length >= sizeof text || all->count == GRADED_MOST) {
            complain("--sizes takes up to %d steps from the base, as -1,0,1, with commas between", GRADED_MOST);
            return false;
        }
        memcpy(text, wanted, length);
        text[length] = '\0';
        if (!take_steps(&all->list[all->count++], grade, text))
            return false;
        all->good++;
        wanted += length;
        if (!*wanted)
            return true;
    }
    return false;
}

/* ---- what comes of it */

static int print_pieces(const graded_list *all)
{
    table_out out;
    const tailor_pattern *base = all->list[0].by_rules;
    bool good = table_begin(&out, 2 + all->count, 2) && table_row(&out);
    for (size_t k = 0; good && k < all->count; k++)
        table_cell(&out, 2 + k, all->list[k].label);
    for (int i = 0; good && i < tailor_pattern_piece_count(base); i++) {
        good = table_row(&out);
        for (size_t k = 0; good && k < all->count; k++) {
            char text[40];
            size_t count;
            const tailor_cubic *path = tailor_piece_outline(all->list[k].by_rules, i, &count);
            snprintf(text, sizeof text, "%.1f", tailor_path_area(path, count) / 100);
            table_cell(&out, 0, tailor_piece_name(base, i));
            table_cell(&out, 1, "cm2");
            table_cell(&out, 2 + k, text);
        }
    }
    table_end(&out);
    if (!good)
        complain("out of memory");
    return good ? EXIT_DONE : EXIT_REFUSED;
}

static int print_json(const graded_list *all)
{
    json_t *document = json_document("grades"), *list = json_array();
    bool good = document && list;
    for (size_t k = 0; good && k < all->count; k++) {
        json_t *one = json_object();
        good = json_put(one, "step", json_string(all->list[k].label)) &&
               json_put(one, "edition", json_integer(tailor_pattern_edition(all->list[k].by_rules))) &&
               json_put(one, "style", json_style(all->list[k].by_rules)) &&
               json_put(one, "for_toile", json_boolean(tailor_pattern_toile_only(all->list[k].by_rules))) &&
               json_put(one, "pieces", json_pieces(all->list[k].by_rules)) &&
               json_put(one, "seams", json_seams(all->list[k].by_rules));
        good = json_add(list, json_whole(one, good));
    }
    good = json_put(document, "sizes", json_whole(list, good)) && good;
    return json_print(json_whole(document, good));
}

/* The pattern of a file; NULL when it is none, or cannot be cut. */
static tailor_pattern *read_base(const char *path)
{
    size_t length = 0;
    char why[JSON_WHY];
    char *text = text_read_pattern(path, &length);
    tailor_pattern *base = text ? json_read_pattern(text, length, why) : NULL;
    if (text && !base)
        complain_at(text_source(path), 0, "%s", why);
    free(text);
    if (base && !examined(text_source(path), NULL, base, NULL)) {
        tailor_pattern_free(base);
        base = NULL;
    }
    return base;
}

int grade_by_rules(const settings *s)
{
    static sizes none; /* a table of no sizes: its source heads the sheets */
    graded_list all = {.list = NULL};
    tailor_pattern *base = read_base(s->operand);
    tailor_grade *grade = base ? read_rules(s->rules, base) : NULL;
    int status = EXIT_REFUSED;
    none.source = text_source(s->operand);
    if (grade && ask_steps(&all, grade, s->sizes ? s->sizes : "0")) {
        status = s->json ? print_json(&all) : print_pieces(&all);
        if (status == EXIT_DONE && (s->output || s->nest) && !grade_write(&all, &none, s, s->json))
            status = EXIT_REFUSED;
    }
    graded_free(&all);
    tailor_grade_free(grade);
    tailor_pattern_free(base);
    return status;
}

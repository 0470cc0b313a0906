#include "json_read_pattern.h"

#include "json_out.h"

#include <limits.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jansson.h>
#include <tailorgeom/order.h>

/** Reading in work. Places are told as they stand in the file, counted from 0 as JSON counts. */
typedef struct reading {
    tailor_builder *builder;
    char *why;
} reading;

static bool refuse(const reading *r, const char *where, const char *what)
{
    snprintf(r->why, JSON_WHY, "%s: %s", where, what);
    return false;
}

static bool done(const reading *r, const char *where, tailor_status status, const tailor_fault *fault)
{
    return status == TAILOR_OK || refuse(r, where, fault->sentence);
}

/** Index of a word, -1 if it is none of them. */
static int word(const char *text, const char *const *words, int count)
{
    for (int i = 0; text && i < count; i++)
        if (!strcmp(text, words[i]))
            return i;
    return -1;
}

static bool read_cubics(const reading *r, const char *where, const json_t *array, tailor_cubic **cubics, size_t *count)
{
    *cubics = NULL;
    *count = json_array_size(array);
    if (!*count)
        return refuse(r, where, "a path is an array of cubics, at least one");
    tailor_cubic *made = malloc(*count * sizeof *made);
    if (!made)
        return refuse(r, where, "no memory");
    for (size_t i = 0; i < *count; i++)
        for (size_t k = 0; k < 4; k++) {
            const json_t *cubic = json_array_get(array, i), *point = json_array_get(cubic, k);
            const json_t *x = json_array_get(point, 0), *y = json_array_get(point, 1);
            if (json_array_size(cubic) != 4 || json_array_size(point) != 2 || !json_is_number(x) ||
                !json_is_number(y)) {
                free(made);
                return refuse(r, where, "a cubic is four points, each [x, y]");
            }
            made[i].p[k] = (tailor_point){json_number_value(x), json_number_value(y)};
        }
    *cubics = made;
    return true;
}

/** Edges as runs of the outline, in order, together the whole of it. */
static bool read_edges(const reading *r, const char *where, const json_t *piece)
{
    const json_t *edges = json_object_get(piece, "edges");
    tailor_cubic *outline;
    size_t count, next = 0;
    if (!read_cubics(r, where, json_object_get(piece, "outline"), &outline, &count))
        return false;
    bool good = true;
    for (size_t i = 0; i < json_array_size(edges) && good; i++) {
        const json_t *edge = json_array_get(edges, i);
        const json_t *first = json_object_get(edge, "first"), *of = json_object_get(edge, "count");
        json_int_t from = json_integer_value(first), cubics = json_integer_value(of);
        char here[80];
        tailor_fault fault;
        snprintf(here, sizeof here, "%s.edges[%zu]", where, i);
        if (!json_is_integer(first) || !json_is_integer(of) || from < 0 || (size_t)from != next || cubics < 1 ||
            (size_t)cubics > count - next)
            good = refuse(r, here, "\"first\" and \"count\" do not go on where the edge before it ends");
        else
            good = done(r, here,
                        tailor_builder_add_edge(r->builder, json_string_value(json_object_get(edge, "name")),
                                                outline + next, (size_t)cubics, &fault),
                        &fault);
        next += good ? (size_t)cubics : 0;
    }
    free(outline);
    if (good && next != count)
        return refuse(r, where, "the edges are not the whole outline");
    return good;
}

static bool read_points(const reading *r, const char *where, const json_t *points)
{
    for (size_t i = 0; i < json_array_size(points); i++) {
        const json_t *point = json_array_get(points, i), *x = json_object_get(point, "x"),
                     *y = json_object_get(point, "y");
        char here[80];
        tailor_fault fault;
        snprintf(here, sizeof here, "%s.points[%zu]", where, i);
        if (!json_is_number(x) || !json_is_number(y))
            return refuse(r, here, "a point has the numbers \"x\" and \"y\"");
        tailor_point place = {json_number_value(x), json_number_value(y)};
        if (!done(
                r, here,
                tailor_builder_add_point(r->builder, json_string_value(json_object_get(point, "name")), place, &fault),
                &fault))
            return false;
    }
    return true;
}

static bool read_marks(const reading *r, const char *where, const json_t *marks)
{
    static const char *const kinds[] = {"", "notch", "grain", "button", "hole", "dart", "line", "fold"};
    for (size_t i = 0; i < json_array_size(marks); i++) {
        const json_t *mark = json_array_get(marks, i);
        char here[80];
        tailor_fault fault;
        tailor_cubic *path;
        size_t count;
        snprintf(here, sizeof here, "%s.marks[%zu]", where, i);
        int kind = word(json_string_value(json_object_get(mark, "kind")), kinds, TAILOR_MARK_FOLD + 1);
        if (kind < TAILOR_MARK_NOTCH)
            return refuse(r, here, "\"kind\" is notch, grain, button, hole, dart, line or fold");
        if (!read_cubics(r, here, json_object_get(mark, "path"), &path, &count))
            return false;
        tailor_status status = tailor_builder_add_mark(r->builder, json_string_value(json_object_get(mark, "name")),
                                                       kind, path, count, &fault);
        free(path);
        if (!done(r, here, status, &fault))
            return false;
    }
    return true;
}

static bool read_piece(const reading *r, const json_t *piece, size_t index)
{
    static const char *const sides[] = {"both", "right", "left"};
    const json_t *cut = json_object_get(piece, "cut"), *mirrored = json_object_get(piece, "mirrored"),
                 *side = json_object_get(piece, "side"), *cloth = json_object_get(piece, "cloth");
    char where[40];
    tailor_fault fault;
    snprintf(where, sizeof where, "pieces[%zu]", index);
    int drawn_for = side ? word(json_string_value(side), sides, 3) : TAILOR_SIDE_BOTH;
    if (drawn_for < 0)
        return refuse(r, where, "\"side\" is both, right or left");
    if ((cut && !json_is_integer(cut)) || (mirrored && !json_is_boolean(mirrored)))
        return refuse(r, where, "\"cut\" is a whole number, \"mirrored\" true or false");
    json_int_t pieces = cut ? json_integer_value(cut) : 1;
    tailor_status status = tailor_builder_add_piece(
        r->builder, json_string_value(json_object_get(piece, "name")), pieces < 0 || pieces > 1000 ? 0 : (int)pieces,
        json_is_true(mirrored), drawn_for, cloth ? json_string_value(cloth) : "cloth", &fault);
    return done(r, where, status, &fault) && read_edges(r, where, piece) &&
           read_points(r, where, json_object_get(piece, "points")) &&
           read_marks(r, where, json_object_get(piece, "marks"));
}

/** A bound of a stretch: a number; NaN, the edge's end, for what is null or not there. */
static bool read_bound(const json_t *stretch, const char *name, double *bound)
{
    const json_t *value = json_object_get(stretch, name);
    *bound = value && !json_is_null(value) ? json_number_value(value) : NAN;
    return !value || json_is_null(value) || json_is_number(value);
}

static bool read_side(const reading *r, const char *where, const json_t *stretches, int side)
{
    char here[80];
    if (!json_array_size(stretches)) {
        snprintf(here, sizeof here, "%s.%c", where, "ab"[side]);
        return refuse(r, here, "a side of a seam is an array of stretches, at least one");
    }
    for (size_t i = 0; i < json_array_size(stretches); i++) {
        const json_t *stretch = json_array_get(stretches, i);
        double from, to;
        tailor_fault fault;
        snprintf(here, sizeof here, "%s.%c[%zu]", where, "ab"[side], i);
        if (!read_bound(stretch, "from", &from) || !read_bound(stretch, "to", &to))
            return refuse(r, here, "\"from\" and \"to\" are numbers");
        if (!done(r, here,
                  tailor_builder_add_stretch(r->builder, side, json_string_value(json_object_get(stretch, "piece")),
                                             json_string_value(json_object_get(stretch, "edge")), from, to, &fault),
                  &fault))
            return false;
    }
    return true;
}

static bool read_seam(const reading *r, const json_t *seam, size_t index)
{
    const json_t *ease = json_object_get(seam, "ease");
    char where[40];
    tailor_fault fault;
    snprintf(where, sizeof where, "seams[%zu]", index);
    if (ease && !json_is_number(ease))
        return refuse(r, where, "\"ease\" is a number");
    return done(r, where,
                tailor_builder_add_seam(r->builder, json_string_value(json_object_get(seam, "name")),
                                        ease ? json_number_value(ease) : 0, &fault),
                &fault) &&
           read_side(r, where, json_object_get(seam, "a"), 0) && read_side(r, where, json_object_get(seam, "b"), 1);
}

/** One choice of the style, by names. */
static bool read_choice(const reading *r, const char *name, const json_t *value, double *fields)
{
    const tailor_table *table = tailor_field_table();
    int field = tailor_table_find(table, name);
    char where[80];
    tailor_fault fault;
    snprintf(where, sizeof where, "style.%.60s", name);
    if (!field || field >= TAILOR_FIELD_COUNT || !tailor_choice_table(field))
        return refuse(r, where, "there is no choice of that name");
    if (!json_is_string(value))
        return refuse(r, where, "a choice is told by its name");
    tailor_status status = tailor_value_read(table, field, json_string_value(value), &fields[field], &fault);
    return done(r, where, status, &fault);
}

/** What the pattern was drafted as; none of it is required. */
static bool read_style(const reading *r, const json_t *document)
{
    const json_t *edition = json_object_get(document, "edition");
    json_t *style = json_object_get(document, "style"), *value;
    json_int_t number = edition ? json_integer_value(edition) : 0;
    double fields[TAILOR_FIELD_COUNT];
    const char *name;
    tailor_fault fault;
    if ((edition && !json_is_integer(edition)) || number < 0 || number > INT_MAX)
        return refuse(r, "edition", "an edition is a whole number from 0");
    if (style && !json_is_object(style))
        return refuse(r, "style", "a style is an object of choices by name");
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    json_object_foreach(style, name, value)
        if (!read_choice(r, name, value, fields))
            return false;
    return done(r, "style",
                tailor_builder_set_style(r->builder, (int)number, fields, TAILOR_FIELD_COUNT, &fault), &fault);
}

static bool read_toile(const reading *r, const json_t *document)
{
    const json_t *toile = json_object_get(document, "for_toile");
    tailor_fault fault;
    if (toile && !json_is_boolean(toile))
        return refuse(r, "for_toile", "a pattern is for a toile only, true, or not, false");
    return done(r, "for_toile", tailor_builder_set_toile_only(r->builder, json_is_true(toile), &fault), &fault);
}

static bool read_document(const reading *r, const json_t *document)
{
    const char *format = json_string_value(json_object_get(document, "format"));
    const json_t *version = json_object_get(document, "format_version"), *pieces = json_object_get(document, "pieces"),
                 *seams = json_object_get(document, "seams");
    if (!format || strcmp(format, "tailorgeom-pattern"))
        return refuse(r, "format", "this is no \"tailorgeom-pattern\"");
    if (!json_is_integer(version) || json_integer_value(version) != PATTERN_VERSION)
        return refuse(r, "format_version",
                      json_is_integer(version) && json_integer_value(version) < PATTERN_VERSION
                          ? "only version 2 can be read here: draft, grade or import the pattern again"
                          : "only version 2 can be read here: a later tailorgeom wrote this");
    if (!json_array_size(pieces))
        return refuse(r, "pieces", "a pattern has at least one piece");
    if (!read_style(r, document) || !read_toile(r, document))
        return false;
    for (size_t i = 0; i < json_array_size(pieces); i++)
        if (!read_piece(r, json_array_get(pieces, i), i))
            return false;
    for (size_t i = 0; i < json_array_size(seams); i++)
        if (!read_seam(r, json_array_get(seams, i), i))
            return false;
    return true;
}

tailor_pattern *json_read_pattern(const char *text, size_t bytes, char why[JSON_WHY])
{
    json_error_t error;
    tailor_fault fault;
    tailor_pattern *pattern = NULL;
    reading r = {NULL, why};
    json_t *document = json_loadb(text, bytes, JSON_REJECT_DUPLICATES, &error);
    if (!document) {
        snprintf(why, JSON_WHY, "line %d, column %d: %s", error.line, error.column, error.text);
        return NULL;
    }
    if (done(&r, "pattern", tailor_builder_begin(NULL, &r.builder, &fault), &fault) && read_document(&r, document))
        done(&r, "pattern", tailor_builder_finish(r.builder, NULL, &pattern, &fault), &fault);
    tailor_builder_free(r.builder);
    json_decref(document);
    return pattern;
}

/* Patterns of straight lines to be examined, and what was found in them. */
#ifndef TESTS_PATTERN_EXAMINING_H
#define TESTS_PATTERN_EXAMINING_H

#include <stdio.h>
#include <tailorgeom/pattern.h>

#include "../../lib/pattern/build.h"
#include "draft/making.h"

enum { MOST = 64 };
static tailor_fault fault;
static tailor_finding found[MOST];
static size_t count;

static inline void must(tailor_status status)
{
    if (status != TAILOR_OK)
        fail_msg("%s: %s", tailor_status_name(status), fault.sentence);
}

/* ---- patterns of straight lines */

/** A polygon as a piece, an edge a side: "e0", "e1", ... */
static inline void add_polygon(tailor_builder *b, const char *name, int copies, const tailor_point *corner, int corners)
{
    must(tailor_builder_add_piece(b, name, copies, 0, TAILOR_SIDE_BOTH, "cloth", &fault));
    for (int i = 0; i < corners; i++) {
        char edge[16];
        const tailor_cubic line = tailor_cubic_line(corner[i], corner[(i + 1) % corners]);
        snprintf(edge, sizeof edge, "e%d", i);
        must(tailor_builder_add_edge(b, edge, &line, 1, &fault));
    }
}

#define POLYGON(...)                                                                                                   \
    (const tailor_point[]){__VA_ARGS__}, (int)(sizeof((tailor_point[]){__VA_ARGS__}) / sizeof(tailor_point))

static inline tailor_builder *begin(void)
{
    tailor_builder *b = NULL;
    must(tailor_builder_begin(NULL, &b, &fault));
    return b;
}

static inline tailor_pattern *end(tailor_builder *b)
{
    tailor_pattern *p = NULL;
    must(tailor_builder_finish(b, NULL, &p, &fault));
    tailor_builder_free(b);
    return p;
}

static inline void examine(const tailor_pattern *p, const tailor_pattern *base)
{
    must(tailor_pattern_examine(p, base, found, MOST, &count, &fault));
    for (size_t i = 0; i < count; i++)
        assert_close(found[i].limit,
                     fmax(fmax(tailor_table_low(tailor_finding_table(), found[i].kind), -1),
                          tailor_table_high(tailor_finding_table(), found[i].kind)),
                     0);
}

static inline int has(int kind)
{
    int n = 0;
    for (size_t i = 0; i < count; i++)
        n += found[i].kind == kind;
    return n;
}

/** The finding of a kind, which is there once; its sentence is this. */
static inline tailor_finding only(int kind, const char *sentence)
{
    assert_int_equal(has(kind), 1);
    size_t i = 0;
    while (found[i].kind != kind)
        i++;
    const tailor_status status = tailor_finding_fault(&found[i], &fault);
    assert_int_equal(status, tailor_finding_refuses(kind) ? TAILOR_UNSOUND : TAILOR_OK);
    assert_int_equal(fault.status, status);
    assert_int_equal(fault.table, TAILOR_TABLE_FINDING);
    assert_int_equal(fault.index, kind);
    assert_int_equal(fault.place, found[i].piece + 1);
    assert_string_equal(fault.sentence, sentence);
    assert_int_equal(tailor_finding_fault(&found[i], NULL), status);
    return found[i];
}

static inline tailor_pattern *polygon(const tailor_point *corner, int corners)
{
    tailor_builder *b = begin();
    add_polygon(b, "first", 1, POLYGON({0, 0}, {50, 0}, {50, 50}, {0, 50}));
    add_polygon(b, "flap", 1, corner, corners);
    return end(b);
}

#endif

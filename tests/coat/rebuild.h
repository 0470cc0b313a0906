/* A pattern once more, by the builder: spoilt in one place, or as a draft of another edition and style. */
#ifndef TESTS_COAT_REBUILD_H
#define TESTS_COAT_REBUILD_H

#include "coats.h"

/** What is spoilt in a copy: a piece left out, an edge under a name that no table has, a mark left out or cut short. */
struct spoilt {
    int piece, edge, mark;
    size_t cubics; /* kept of the mark */
};
enum { NONE = -1 };

/** The pattern once more by the builder, with its seams if nothing is spoilt, as a draft of this edition and style
 * (NULL: not known). */
static inline tailor_pattern *rebuild(const tailor_pattern *p, struct spoilt s, int edition, const double *style)
{
    tailor_builder *b = NULL;
    tailor_pattern *again = NULL;
    size_t count;
    assert_int_equal(tailor_builder_begin(NULL, &b, NULL), TAILOR_OK);
    assert_int_equal(tailor_builder_set_style(b, edition, style, style ? TAILOR_FIELD_COUNT : 0, NULL), TAILOR_OK);
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
    for (int seam = 0; seam < tailor_pattern_seam_count(p) && s.piece == NONE; seam++) {
        assert_int_equal(tailor_builder_add_seam(b, tailor_seam_name(p, seam), tailor_seam_ease(p, seam), NULL),
                         TAILOR_OK);
        for (int side = 0; side < 2; side++)
            for (int i = 0; i < tailor_seam_stretch_count(p, seam, side); i++) {
                tailor_stretch sewn;
                assert_int_equal(tailor_seam_stretch(p, seam, side, i, &sewn), TAILOR_OK);
                assert_int_equal(tailor_builder_add_stretch(b, side, tailor_piece_name(p, sewn.piece),
                                                            tailor_edge_name(p, sewn.piece, sewn.edge), sewn.from,
                                                            sewn.to, NULL),
                                 TAILOR_OK);
            }
    }
    assert_int_equal(tailor_builder_finish(b, NULL, &again, NULL), TAILOR_OK);
    tailor_builder_free(b);
    return again;
}

/** Measure a pattern as the coat of another coat's order, with the origins of that. */
static inline tailor_status measure_as(const tailor_coat *order, const tailor_pattern *pattern, tailor_coat **coat,
                                       tailor_fault *fault)
{
    return tailor_coat_of_pattern(NULL, tailor_coat_fields(order, NULL), tailor_coat_origins(order, NULL),
                                  TAILOR_FIELD_COUNT, pattern, coat, fault);
}

#endif

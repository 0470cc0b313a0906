/* Are two patterns the same, bit by bit? */
#ifndef TESTS_COAT_SAME_H
#define TESTS_COAT_SAME_H

#include "draft/drafting.h"

/** Everything that can be read of two patterns is the same, bit by bit. */
static inline void same_pattern(const tailor_pattern *a, const tailor_pattern *b)
{
    assert_int_equal(tailor_pattern_piece_count(a), tailor_pattern_piece_count(b));
    for (int piece = 0; piece < tailor_pattern_piece_count(a); piece++) {
        size_t na, nb;
        const tailor_cubic *pa = tailor_piece_outline(a, piece, &na), *pb = tailor_piece_outline(b, piece, &nb);
        assert_string_equal(tailor_piece_name(a, piece), tailor_piece_name(b, piece));
        assert_int_equal(na, nb);
        assert_memory_equal(pa, pb, na * sizeof *pa);
        assert_int_equal(tailor_piece_point_count(a, piece), tailor_piece_point_count(b, piece));
        for (int i = 0; i < tailor_piece_point_count(a, piece); i++) {
            const tailor_point x = tailor_point_place(a, piece, i), y = tailor_point_place(b, piece, i);
            assert_memory_equal(&x, &y, sizeof x);
        }
        assert_int_equal(tailor_piece_mark_count(a, piece), tailor_piece_mark_count(b, piece));
        for (int i = 0; i < tailor_piece_mark_count(a, piece); i++) {
            pa = tailor_mark_path(a, piece, i, &na);
            pb = tailor_mark_path(b, piece, i, &nb);
            assert_string_equal(tailor_mark_name(a, piece, i), tailor_mark_name(b, piece, i));
            assert_int_equal(na, nb);
            assert_memory_equal(pa, pb, na * sizeof *pa);
        }
    }
    assert_int_equal(tailor_pattern_seam_count(a), tailor_pattern_seam_count(b));
    for (int seam = 0; seam < tailor_pattern_seam_count(a); seam++) {
        const double x = tailor_seam_ease(a, seam), y = tailor_seam_ease(b, seam);
        assert_memory_equal(&x, &y, sizeof x);
    }
}

#endif

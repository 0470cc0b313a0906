/* libtailorgeom: pattern -- what a draft is: pieces, their edges, points, marks, and the seams that join them.
 *
 * A tailor_pattern is one block of memory, immutable and without pointers out of it, so it may be read from
 * any number of threads. Pieces are counted from 0 inside a pattern, and so are a piece's edges, points and
 * marks; names are unique within their piece. Outlines are closed, counter-clockwise and net (no seam
 * allowance), in mm: x from the centre back toward the centre front, y up, nape at the origin; the wearer's
 * right half with the face of the cloth toward you. Sleeves and collar state their own origin.
 *
 *     int forepart = tailor_pattern_find_piece(pattern, "forepart");
 *     size_t count;
 *     const tailor_cubic *outline = tailor_piece_outline(pattern, forepart, &count);
 */
#ifndef TAILORGEOM_PATTERN_H
#define TAILORGEOM_PATTERN_H

#include <tailorgeom/geom.h>
#include <tailorgeom/pattern_tables.h>

#ifdef __cplusplus
extern "C" {
#endif

TAILOR_API const tailor_table *tailor_piece_table(void);
TAILOR_API const tailor_table *tailor_edge_table(void);
TAILOR_API const tailor_table *tailor_point_table(void);
TAILOR_API const tailor_table *tailor_mark_table(void);
TAILOR_API const tailor_table *tailor_check_table(void);

/** A drafted coat, or any other pattern. Opaque. */
typedef struct tailor_pattern tailor_pattern;
/** Give a pattern back to the allocator it came from. NULL is allowed. */
TAILOR_API void tailor_pattern_free(tailor_pattern *pattern);

/* ---- pieces. Indices from 0; an index that is out of range reads as NULL, 0 or NaN. */
TAILOR_API int tailor_pattern_piece_count(const tailor_pattern *pattern);
TAILOR_API int tailor_pattern_find_piece(const tailor_pattern *pattern, const char *name); /* -1 if none */
TAILOR_API const char *tailor_piece_name(const tailor_pattern *pattern, int piece);
TAILOR_API int tailor_piece_number(const tailor_pattern *pattern, int piece);     /* row of the piece table, 0 if none */
TAILOR_API int tailor_piece_cut(const tailor_pattern *pattern, int piece);        /* how many to cut */
TAILOR_API int tailor_piece_mirrored(const tailor_pattern *pattern, int piece);   /* 1: half of them as mirror images */
/** The wearer's side the outline is drawn for. */
enum { TAILOR_SIDE_BOTH = 0, TAILOR_SIDE_RIGHT = 1, TAILOR_SIDE_LEFT = 2 };
TAILOR_API int tailor_piece_side(const tailor_pattern *pattern, int piece);
TAILOR_API const char *tailor_piece_cloth(const tailor_pattern *pattern, int piece); /* "cloth", "melton", ... */
TAILOR_API const tailor_cubic *tailor_piece_outline(const tailor_pattern *pattern, int piece, size_t *count);

/* ---- edges: runs of the outline, in outline order, together the whole of it */
TAILOR_API int tailor_piece_edge_count(const tailor_pattern *pattern, int piece);
TAILOR_API int tailor_piece_find_edge(const tailor_pattern *pattern, int piece, const char *name);
TAILOR_API const char *tailor_edge_name(const tailor_pattern *pattern, int piece, int edge);
TAILOR_API int tailor_edge_number(const tailor_pattern *pattern, int piece, int edge);
TAILOR_API const tailor_cubic *tailor_edge_path(const tailor_pattern *pattern, int piece, int edge, size_t *count);

/* ---- named points */
TAILOR_API int tailor_piece_point_count(const tailor_pattern *pattern, int piece);
TAILOR_API int tailor_piece_find_point(const tailor_pattern *pattern, int piece, const char *name);
TAILOR_API const char *tailor_point_name(const tailor_pattern *pattern, int piece, int point);
TAILOR_API int tailor_point_number(const tailor_pattern *pattern, int piece, int point);
TAILOR_API tailor_point tailor_point_place(const tailor_pattern *pattern, int piece, int point);

/* ---- marks: notches, lines, buttons and holes drawn inside or on a piece. A mark is a path; the path of a notch
 *      is a short line square into the piece from the edge; a button is its circle; a hole is its slit. */
enum {
    TAILOR_MARK_NOTCH = 1, TAILOR_MARK_GRAIN = 2, TAILOR_MARK_BUTTON = 3, TAILOR_MARK_HOLE = 4,
    TAILOR_MARK_DART = 5,   /**< cut or sewn away */
    TAILOR_MARK_LINE = 6,   /**< pocket, welt, level lines */
    TAILOR_MARK_FOLD = 7    /**< break line, crease, turn-up */
};
TAILOR_API int tailor_piece_mark_count(const tailor_pattern *pattern, int piece);
TAILOR_API int tailor_piece_find_mark(const tailor_pattern *pattern, int piece, const char *name);
TAILOR_API const char *tailor_mark_name(const tailor_pattern *pattern, int piece, int mark);
TAILOR_API int tailor_mark_number(const tailor_pattern *pattern, int piece, int mark);
TAILOR_API int tailor_mark_kind(const tailor_pattern *pattern, int piece, int mark);
TAILOR_API const tailor_cubic *tailor_mark_path(const tailor_pattern *pattern, int piece, int mark, size_t *count);

/* ---- seams: edge a of one piece is sewn to edge b of another, both from their `_from` ends; the length of a
 *      between from and to (places in mm along the edge in outline direction) is that of b plus ease. */
TAILOR_API int tailor_pattern_seam_count(const tailor_pattern *pattern);
TAILOR_API int tailor_pattern_find_seam(const tailor_pattern *pattern, const char *name);
TAILOR_API const char *tailor_seam_name(const tailor_pattern *pattern, int seam);
/** The first (side 0) or second (side 1) edge of a seam: piece and edge index, and the stretch of the edge that the
 *  seam takes (mm along the edge in outline direction; sewn from `from` toward `to`, which may be the smaller). */
TAILOR_API tailor_status tailor_seam_edge(const tailor_pattern *pattern, int seam, int side, int *piece, int *edge, double *from, double *to);
/** Length of the first edge minus length of the second, as the draft intends it (mm). */
TAILOR_API double tailor_seam_ease(const tailor_pattern *pattern, int seam);

#ifdef __cplusplus
}
#endif
#endif

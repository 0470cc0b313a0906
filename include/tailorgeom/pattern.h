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

/** The tables that name what is in a pattern, and the checks of a coat. Row numbers are the enums of pattern_tables.h.
 *  Static; cost: none. @since 0.1.0 */
TAILOR_API const tailor_table *tailor_piece_table(void);
TAILOR_API const tailor_table *tailor_edge_table(void);
TAILOR_API const tailor_table *tailor_point_table(void);
TAILOR_API const tailor_table *tailor_mark_table(void);
TAILOR_API const tailor_table *tailor_check_table(void);

/** What a check demands of its value: +1 at most the limit, -1 at least the limit, 0 no such check. @since 0.1.0 */
TAILOR_API int tailor_check_sense(int check);
/** Whether a check holds: 1 it does, 0 it does not, -1 it does not exist for this coat (NaN) or at all. @since 0.1.0 */
TAILOR_API int tailor_check_passes(int check, double value, double limit);

/** A drafted coat, or any other pattern. Opaque, immutable; many threads may read it at once. @since 0.1.0 */
typedef struct tailor_pattern tailor_pattern;

/** Give a pattern back to the allocator it came from. NULL is allowed. Every string and path got from it dies with it.
 *  @since 0.1.0 */
TAILOR_API void tailor_pattern_free(tailor_pattern *pattern);

/** The edition of rules and recipe that a pattern was drafted by (tailor_edition()). Grading and copying carry it on. 0
 *  for what is no draft: imported or built without tailor_builder_set_style(); and for NULL. @since 0.3.0 */
TAILOR_API int tailor_pattern_edition(const tailor_pattern *pattern);
/** What a pattern was drafted as: the choice, from 1, of a field whose unit is "choice" (TAILOR_FIELD_BUTTONING reads
 *  TAILOR_BUTTONING_THREE_BUTTON). Carried on as the edition is; a grade that is found from several sizes knows only
 *  what they agree in. 0 where nothing is known, where the coat has no such choice, for any other field and for NULL.
 *  Cost: none. @since 0.3.0 */
TAILOR_API int tailor_pattern_style(const tailor_pattern *pattern, int field);
/** 1 for a pattern that is for a toile only, 0 for any other and for NULL. The pattern of a coat with
 *  TAILOR_CAUTION_TOILE_ONLY is, and so is what is copied or graded from one, alone or with others, until it is drafted
 *  anew; every sheet that such a pattern is drawn on says "for toile only" (sheet.h). @since 0.3.0 */
TAILOR_API int tailor_pattern_toile_only(const tailor_pattern *pattern);

/* ---- pieces
 * Every function below bears any pattern (NULL too) and any index: what is not there reads as NULL, 0, -1 or NaN.
 * Strings and paths belong to the pattern. Finding is a walk over the names; all else is a few instructions. */

/** How many pieces there are. @since 0.1.0 */
TAILOR_API int tailor_pattern_piece_count(const tailor_pattern *pattern);
/** Index of the piece of that name ("forepart"), -1 if there is none. @since 0.1.0 */
TAILOR_API int tailor_pattern_find_piece(const tailor_pattern *pattern, const char *name);
/** Name of a piece. @since 0.1.0 */
TAILOR_API const char *tailor_piece_name(const tailor_pattern *pattern, int piece);
/** Its row of the piece table (TAILOR_PIECE_FOREPART), 0 if the table does not have it. @since 0.1.0 */
TAILOR_API int tailor_piece_number(const tailor_pattern *pattern, int piece);
/** How many to cut for one coat. @since 0.1.0 */
TAILOR_API int tailor_piece_copies(const tailor_pattern *pattern, int piece);
/** 1 when half of them are cut as mirror images. @since 0.1.0 */
TAILOR_API int tailor_piece_mirrored(const tailor_pattern *pattern, int piece);

/** The wearer's side that an outline is drawn for. @since 0.1.0 */
enum { TAILOR_SIDE_BOTH = 0, TAILOR_SIDE_RIGHT = 1, TAILOR_SIDE_LEFT = 2 };
/** The wearer's side the piece is drawn for, face of the cloth toward you: a TAILOR_SIDE_. @since 0.1.0 */
TAILOR_API int tailor_piece_side(const tailor_pattern *pattern, int piece);
/** What it is cut from: "cloth", "melton". @since 0.1.0 */
TAILOR_API const char *tailor_piece_cloth(const tailor_pattern *pattern, int piece);
/** The net outline: `count` cubics (may be NULL), closed, counter-clockwise, mm. @since 0.1.0 */
TAILOR_API const tailor_cubic *tailor_piece_outline(const tailor_pattern *pattern, int piece, size_t *count);

/* ---- edges: runs of the outline, in outline order, together the whole of it */

/** How many edges a piece has. @since 0.1.0 */
TAILOR_API int tailor_piece_edge_count(const tailor_pattern *pattern, int piece);
/** Index of the edge of that name ("scye"), -1 if there is none. @since 0.1.0 */
TAILOR_API int tailor_piece_find_edge(const tailor_pattern *pattern, int piece, const char *name);
/** Name of an edge. @since 0.1.0 */
TAILOR_API const char *tailor_edge_name(const tailor_pattern *pattern, int piece, int edge);
/** Its row of the edge table (TAILOR_EDGE_SCYE), 0 if the table does not have it. @since 0.1.0 */
TAILOR_API int tailor_edge_number(const tailor_pattern *pattern, int piece, int edge);
/** Its path, in outline direction, mm. @since 0.1.0 */
TAILOR_API const tailor_cubic *tailor_edge_path(const tailor_pattern *pattern, int piece, int edge, size_t *count);

/* ---- named points */

/** How many named points a piece has. @since 0.1.0 */
TAILOR_API int tailor_piece_point_count(const tailor_pattern *pattern, int piece);
/** Index of the point of that name ("break_point"), -1 if there is none. @since 0.1.0 */
TAILOR_API int tailor_piece_find_point(const tailor_pattern *pattern, int piece, const char *name);
/** Name of a point. @since 0.1.0 */
TAILOR_API const char *tailor_point_name(const tailor_pattern *pattern, int piece, int point);
/** Its row of the point table (TAILOR_POINT_BREAK_POINT), 0 if the table does not have it. @since 0.1.0 */
TAILOR_API int tailor_point_number(const tailor_pattern *pattern, int piece, int point);
/** Where it lies, mm; NaN, NaN if there is none. @since 0.1.0 */
TAILOR_API tailor_point tailor_point_place(const tailor_pattern *pattern, int piece, int point);

/* ---- marks: what is drawn on a piece besides its outline. A mark is a path: a notch a short line from the edge square
 *      into the piece, a button its circle, a hole its slit from the eye inwards. */

/** Kinds of marks. @since 0.1.0 */
enum {
    TAILOR_MARK_NOTCH = 1,  /**< balance mark on an edge */
    TAILOR_MARK_GRAIN = 2,  /**< straight grain of the cloth, upwards */
    TAILOR_MARK_BUTTON = 3, /**< a button's rim */
    TAILOR_MARK_HOLE = 4,   /**< a buttonhole */
    TAILOR_MARK_DART = 5,   /**< cut or sewn away */
    TAILOR_MARK_LINE = 6,   /**< pocket, welt, levels, what lies on the chest */
    TAILOR_MARK_FOLD = 7    /**< break line, crease, fold of the sleeve */
};
/** How many marks a piece has. @since 0.1.0 */
TAILOR_API int tailor_piece_mark_count(const tailor_pattern *pattern, int piece);
/** Index of the mark of that name ("break_line"), -1 if there is none. @since 0.1.0 */
TAILOR_API int tailor_piece_find_mark(const tailor_pattern *pattern, int piece, const char *name);
/** Name of a mark. @since 0.1.0 */
TAILOR_API const char *tailor_mark_name(const tailor_pattern *pattern, int piece, int mark);
/** Its row of the mark table (TAILOR_MARKED_BREAK_LINE), 0 if the table does not have it. @since 0.1.0 */
TAILOR_API int tailor_mark_number(const tailor_pattern *pattern, int piece, int mark);
/** Its kind: a TAILOR_MARK_, 0 if there is no such mark. @since 0.1.0 */
TAILOR_API int tailor_mark_kind(const tailor_pattern *pattern, int piece, int mark);
/** Its path, mm. @since 0.1.0 */
TAILOR_API const tailor_cubic *tailor_mark_path(const tailor_pattern *pattern, int piece, int mark, size_t *count);

/* ---- seams: two sides sewn together, each of one stretch of an edge or several on end. A crown is sewn round a scye
 * that goes over three pieces; such a seam is one, with one ease, because that is how it is eased in. */

/** A stretch of an edge that is sewn: piece and edge index, and lengths along the edge in outline direction, mm,
 *  between 0 and its length. It is sewn from `from` to `to`, which may be the smaller. Final, 24 bytes. @since 0.3.0 */
typedef struct tailor_stretch {
    int32_t piece; /**< index of the piece */
    int32_t edge;  /**< index of the edge in its piece */
    double from;   /**< where sewing begins, mm along the edge */
    double to;     /**< where it ends */
} tailor_stretch;

/** How many seams there are. @since 0.1.0 */
TAILOR_API int tailor_pattern_seam_count(const tailor_pattern *pattern);
/** Index of the seam of that name ("shoulder"), -1 if there is none. @since 0.1.0 */
TAILOR_API int tailor_pattern_find_seam(const tailor_pattern *pattern, const char *name);
/** Name of a seam. @since 0.1.0 */
TAILOR_API const char *tailor_seam_name(const tailor_pattern *pattern, int seam);
/** How many stretches one side of a seam has (side 0 the first, 1 the second), at least one; 0 for what is not there.
 *  @since 0.3.0 */
TAILOR_API int tailor_seam_stretch_count(const tailor_pattern *pattern, int seam, int side);
/** A stretch of one side of a seam, by its place in the order of sewing, from 0. Both sides begin at the same end of
 *  the seam. A side's length is the sum of its stretches'. TAILOR_BAD_ARGUMENT for a seam, side or place that is not
 *  there, or NULL; then nothing is written. Cost: the edge's length where it is sewn to its end. @since 0.3.0 */
TAILOR_API tailor_status tailor_seam_stretch(const tailor_pattern *pattern, int seam, int side, int place,
                                             tailor_stretch *stretch);
/** How much longer the first side is than the second, as the draft intends it, mm: eased in when positive, stretched
 *  when negative. NaN if there is no such seam. @since 0.1.0 */
TAILOR_API double tailor_seam_ease(const tailor_pattern *pattern, int seam);

/* ---- examining: whether a pattern, wherever it came from, can be cut and sewn
 *
 *     tailor_finding found[64];
 *     size_t count;
 *     tailor_pattern_examine(pattern, NULL, found, 64, &count, &fault);
 *     for (size_t i = 0; i < count && i < 64; i++)
 *         if (tailor_finding_fault(&found[i], &fault) == TAILOR_UNSOUND)
 *             puts(fault.sentence);
 *
 * A draft whose checks hold has nothing that refuses it. What is graded, altered, read from a file or built may: a rule
 * that moves one point too far turns a piece over itself, and it would still be drawn. */

/** The table of findings, indexed by the TAILOR_FINDING_ numbers: what each is, its unit and its limit
 *  (tailor_table_low() or _high()). Static. @since 0.3.0 */
TAILOR_API const tailor_table *tailor_finding_table(void);
/** 1 for a kind of finding that a pattern is to be refused for, 0 for one to be told, and for no kind. @since 0.3.0 */
TAILOR_API int tailor_finding_refuses(int kind);

/** Something that was found. `piece`, `part` and `other` are indices, counted from 0, -1 for none:
 *
 *      kind             piece       part     other               value
 *      CROSSING         the piece   an edge  the other edge      how near the two come, mm; 0: they cross
 *      WOUND            the piece   -1       -1                  turns of its outline
 *      SEWN_TO_ITSELF   the piece   an edge  the seam            length that is, mm
 *      SLIVER           the piece   an edge  the edge across     how wide it is, mm
 *      POINT_OFF        the piece   a point  -1                  distance from the outline, mm
 *      MARK_OFF         the piece   a mark   -1                  how far it lies outside, mm
 *      SEAM_OFF         -1          a seam   -1                  difference of its sides less its ease, mm
 *      AREA_LOST        the piece   -1       piece of the base   share of its area; piece -1, value 1: it is not there
 *
 *  Final, 48 bytes. @since 0.3.0 */
typedef struct tailor_finding {
    int32_t kind;    /**< a TAILOR_FINDING_ number */
    int32_t piece;   /**< index of the piece */
    int32_t part;    /**< what in it: an edge, a point, a mark; or a seam */
    int32_t other;   /**< a second edge, a seam, a piece of the base */
    double value;    /**< what was found, in the unit of the table */
    double limit;    /**< what would have been right: the table's */
    tailor_point at; /**< where, mm, in the piece's own directions */
} tailor_finding;

/** Look at all outlines, points, marks and seams of a pattern.
 *
 *  `base` (NULL: none) is what it was graded or altered from: named points that lay on the outline there must lie on it
 *  here, and pieces of the same name must not have lost more than half of their area. At most one crossing and one
 *  sliver are told of a piece, the first crossing along its outline and its narrowest part; a piece that crosses itself
 *  is not asked for more. A sliver is a part narrower than 3 mm between two places that are 30 mm apart or more along
 *  the outline either way, so that a corner is none unless it is sharper than some 11 deg. Lines and folds may go on
 *  beyond their piece. Of a seam that sews an edge to itself, a piece that is cut twice is not told: one is sewn to the
 *  other.
 *
 *  Findings that refuse the pattern stand first, so that an array of one tells whether there are any; then the others;
 *  both in the order of pieces, seams, pieces of the base. `findings` takes the first `capacity`, `*needed` becomes how
 *  many there are; NULL with capacity 0 asks for that alone. TAILOR_TOO_SMALL if there are more than there is room for:
 *  the array and the count are written. That something was found is no failure. Other errors: TAILOR_BAD_ARGUMENT;
 *  TAILOR_NOT_CONVERGED for an outline that is so wild that it cannot be told whether it crosses itself; then the array
 *  may be filled in part. No allocation. Cost: some 0.2 ms for a coat with all that its make needs. @since 0.3.0 */
TAILOR_API tailor_status tailor_pattern_examine(const tailor_pattern *pattern, const tailor_pattern *base,
                                                tailor_finding *findings, size_t capacity, size_t *needed,
                                                tailor_fault *fault);
/** A finding in words: `fault` (may be NULL) gets table TAILOR_TABLE_FINDING, the kind, `place` (the piece, counted
 *  from 1; 0: none), value, limit, and a sentence that counts pieces, edges and the rest from 1. Returns its status:
 *  TAILOR_UNSOUND if it refuses the pattern, TAILOR_OK if not, TAILOR_BAD_ARGUMENT for NULL and for no kind that there
 *  is. @since 0.3.0 */
TAILOR_API tailor_status tailor_finding_fault(const tailor_finding *finding, tailor_fault *fault);

/* ---- building: a pattern of the caller's own, by name, from a file or another program's outlines
 *
 *     tailor_builder *builder;
 *     tailor_builder_begin(NULL, &builder, &fault);
 *     tailor_builder_add_piece(builder, "flap", 2, 1, TAILOR_SIDE_RIGHT, "cloth", &fault);
 *     tailor_builder_add_edge(builder, "mouth", path, count, &fault);
 *     ...
 *     tailor_builder_finish(builder, NULL, &pattern, &fault);
 *     tailor_builder_free(builder);
 *
 * A piece's edges, points and marks are added after it and before the next piece, its edges before its marks; a seam's
 * stretches after it and before the next seam, once their edges are there. Names have 1 to 31 bytes, small letters,
 * digits and _, a letter first, and are unique where they are looked for: pieces and seams in the pattern; edges,
 * points and marks each in their piece. A name that the tables have gets its number there, "back_left" of the wearer's
 * left side that of "back". Coordinates are mm, at most 10 m from the origin.
 *
 * An add that is refused changes nothing, so the caller may mend and go on. Its sentence counts pieces, edges and the
 * rest from 1 in the order of adding, because names are the client's text. Errors: TAILOR_BAD_ARGUMENT for a name, a
 * number or an order of calls that is not allowed, TAILOR_NOT_FINITE for coordinates, TAILOR_NO_MEMORY. A builder
 * serves one thread. */

/** A pattern in the making. Opaque. @since 0.2.0 */
typedef struct tailor_builder tailor_builder;

/** An empty one. `allocator` (NULL: malloc) gives its memory and must live as long as it. On success `*builder` is the
 *  caller's, to be given back with tailor_builder_free(). @since 0.2.0 */
TAILOR_API tailor_status tailor_builder_begin(const tailor_allocator *allocator, tailor_builder **builder,
                                              tailor_fault *fault);
/** Give a builder back. NULL is allowed; a pattern that it finished lives on. @since 0.2.0 */
TAILOR_API void tailor_builder_free(tailor_builder *builder);
/** Begin a piece: how many are cut (1 to 99), whether half of them are mirror images (0 or 1), the wearer's side that
 *  the outline is drawn for (a TAILOR_SIDE_), and what it is cut from, a name too. @since 0.2.0 */
TAILOR_API tailor_status tailor_builder_add_piece(tailor_builder *builder, const char *name, int cut, int mirrored,
                                                  int side, const char *cloth, tailor_fault *fault);
/** The next edge of the last piece: `count` cubics, copied. Edges are given in outline order, counter-clockwise; each
 *  begins where the one before it ends, the first where the last ends, which tailor_builder_finish() looks at. Cost:
 *  the copy. @since 0.2.0 */
TAILOR_API tailor_status tailor_builder_add_edge(tailor_builder *builder, const char *name, const tailor_cubic *path,
                                                 size_t count, tailor_fault *fault);
/** A named point of the last piece, on its outline or anywhere. @since 0.2.0 */
TAILOR_API tailor_status tailor_builder_add_point(tailor_builder *builder, const char *name, tailor_point place,
                                                  tailor_fault *fault);
/** A mark of the last piece: a TAILOR_MARK_ kind and `count` cubics, copied, which need not hang together.
 *  @since 0.2.0 */
TAILOR_API tailor_status tailor_builder_add_mark(tailor_builder *builder, const char *name, int kind,
                                                 const tailor_cubic *path, size_t count, tailor_fault *fault);
/** Begin a seam. `ease`: how much longer its first side is meant to be than its second, mm; that the lengths agree with
 *  it is not asked. Then add the stretches of both sides, before the next seam. @since 0.3.0 */
TAILOR_API tailor_status tailor_builder_add_seam(tailor_builder *builder, const char *name, double ease,
                                                 tailor_fault *fault);
/** The next stretch of one side (0 or 1) of the last seam, by the names of its piece and edge. `from` and `to` are
 *  lengths along the edge in outline direction, mm, as tailor_seam_stretch() returns them; NaN stands for the edge's
 *  end, and so does a length within 0.001 of it. Refused are a piece, edge or side that is not there, and a bound
 *  beyond its edge. Cost: the edge's length. @since 0.3.0 */
TAILOR_API tailor_status tailor_builder_add_stretch(tailor_builder *builder, int side, const char *piece,
                                                    const char *edge, double from, double to, tailor_fault *fault);
/** Say what the pattern is a draft of, as a file that was written from one tells it: tailor_pattern_edition() (0: no
 *  draft) and tailor_pattern_style(). `fields` is a row of fields in which only the choices count; NaN: not known. Each
 *  call replaces all that the one before said. The pattern's pieces are not compared with it.
 *
 *  Errors: TAILOR_NOT_A_CHOICE for a value that is none, TAILOR_UNKNOWN_FIELD, TAILOR_BAD_ARGUMENT for an edition below
 *  0; then what was said before holds. @since 0.3.0 */
TAILOR_API tailor_status tailor_builder_set_style(tailor_builder *builder, int edition, const double *fields,
                                                  size_t field_count, tailor_fault *fault);
/** Say whether the pattern is for a toile only, 1 or 0, as a file that was written from one tells it:
 *  tailor_pattern_toile_only(). What is not said is 0. TAILOR_BAD_ARGUMENT for another value. @since 0.3.0 */
TAILOR_API tailor_status tailor_builder_set_toile_only(tailor_builder *builder, int toile_only, tailor_fault *fault);
/** The pattern so far, in one block of its own from `allocator` (NULL: malloc); the builder stays as it is, and may go
 *  on. Refused are a pattern without pieces, a piece without edges, a seam with nothing to sew on a side, an outline
 *  that is not closed (a gap of up to 0.001 mm is closed: the later curve then begins where the earlier ends) or that
 *  runs clockwise (the sentence says the mend; all TAILOR_BAD_ARGUMENT), and one that has no area (TAILOR_DEGENERATE).
 *  That an outline does not cross itself is not asked: tailor_pattern_examine() tells. On failure nothing is
 *  written but the fault. @since 0.2.0 */
TAILOR_API tailor_status tailor_builder_finish(const tailor_builder *builder, const tailor_allocator *allocator,
                                               tailor_pattern **pattern, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif

/* libtailorgeom: canvas -- the canvas pieces of a coat, laid on canvas of a given width at their angle to the warp.
 *
 *     double choices[TAILOR_CANVAS_CHOICE_COUNT];
 *     tailor_fields_clear(choices, TAILOR_CANVAS_CHOICE_COUNT);
 *     choices[TAILOR_CANVAS_CHOICE_ANGLE] = 20;
 *     choices[TAILOR_CANVAS_CHOICE_WIDTH] = 750;
 *     status = tailor_canvas_begin(coat, "canvas", choices, TAILOR_CANVAS_CHOICE_COUNT, 1, NULL, &canvas, &fault);
 *     while (patience)
 *         tailor_canvas_step(canvas, 50);                        // never worse
 *     tailor_canvas_result(canvas, TAILOR_CANVAS_RESULT_EXTRA);         // what the angle costs, mm of canvas
 *     tailor_canvas_free(canvas);
 *
 * The pattern is one made by tailor_coat_new() with TAILOR_EXTENT_MAKE, or any other whose pieces say what they are cut
 * from and bear a grain mark. A coat has two such cloths, "canvas" (body canvas, collar canvas) and "haircloth" (chest
 * piece, shoulder piece): each is a strip of its own, hence a call of its own.
 *
 * How a piece lies. The strip's warp runs along its length (x). A grain mark lies along the warp; on haircloth it tells
 * how the hair lies, and the hair is the weft (common practice: "hair level" is across the strip). The body canvas is
 * turned further: its warp leans from its grain mark by the angle, toward the break line where the angle is positive.
 * Canvas and haircloth have no nap, so every piece may lie end for end.
 *
 * The two sides. As mirrored pairs (the rule) the warp leans toward the break line on both sides of the coat. Both
 * alike, it runs as it does on the right side, as if both were cut with the same side of the cloth up: the left front
 * then leans away from its break line.
 *
 * Beside the lay that was asked for stands one with the body canvas on the straight grain and all else the same, for
 * comparison; both are searched with the same number of iterations. Every lay is proved free of overlap
 * (tailor_lay_overlap_free); a straight and a slanting lay are each the best found, not the best there is, and so is
 * the difference of their lengths.
 *
 * Lengths in mm, angles in degrees. One thread at a time; stepping and asking allocate nothing. NULL for the canvas:
 * the calls answer TAILOR_BAD_ARGUMENT, NULL, 0 or NaN.
 */
#ifndef TAILORGEOM_CANVAS_H
#define TAILORGEOM_CANVAS_H

#include <tailorgeom/lay.h>
#include <tailorgeom/pattern.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A canvas lay and its straight comparison. Opaque. @since 0.2.0 */
typedef struct tailor_canvas tailor_canvas;

/** What can be chosen: the entries of the row of choices. NaN, and an entry past the row's end, leave the rule.
 *  @since 0.2.0 */
enum {
    /** Angle of the body canvas's warp from its straight grain, deg, -90 to 90; positive toward the break line. Rule:
     *  0. It is the field canvas_angle of an order. */
    TAILOR_CANVAS_CHOICE_ANGLE = 1,
    /** Width of the cloth between its selvedges, whole, mm, 100 to 5000. Rule: 750 for canvas, 500 for haircloth. Own
     *  judgement: canvas is sold narrow and about twice as wide; haircloth is as wide as the hair is long. */
    TAILOR_CANVAS_CHOICE_WIDTH = 2,
    /** How the cloth lies: a TAILOR_PLIES_. Rule: single. */
    TAILOR_CANVAS_CHOICE_PLIES = 3,
    /** How the two sides go together: a TAILOR_SIDES_. Rule: mirrored pairs. */
    TAILOR_CANVAS_CHOICE_SIDES = 4,
    /** Least distance between pieces, mm, 0 to 100. Rule: 5, own judgement: room for chalk and shears. */
    TAILOR_CANVAS_CHOICE_GAP = 5,
    /** Joins: by how much two parts of a piece overlap, mm, 5 to 60; 0 for no joins. Rule: 0. A piece too wide for the
     *  strip is then parted in two along the warp, where the join is shortest; the parts lap over one another and are
     *  stitched down (common practice). A piece that needs more than one join is refused, and so is one that no line
     *  parts in exactly two. */
    TAILOR_CANVAS_CHOICE_OVERLAP = 6
};
/** Length of a row of choices that this header knows; entry 0 is unused. @since 0.2.0 */
#define TAILOR_CANVAS_CHOICE_COUNT 7

/** How the cloth lies on the table. @since 0.2.0 */
enum {
    TAILOR_PLIES_SINGLE = 1, /**< one ply, open */
    TAILOR_PLIES_FOLDED = 2, /**< folded lengthwise: half as wide, each place cuts a pair; the fold is at y = 0 */
    TAILOR_PLIES_LAYERS = 3  /**< two lengths face to face at full width: each place cuts a pair */
};
/** How left and right go together. @since 0.2.0 */
enum {
    TAILOR_SIDES_MIRRORED = 1, /**< the warp leans alike seen from each side's break line */
    TAILOR_SIDES_ALIKE = 2     /**< the warp runs alike seen from the front; single ply only */
};

/** Lay the pieces of one cloth a first time.
 *  @param pattern must live as long as the canvas. @param cloth as tailor_piece_cloth() tells: "canvas", "haircloth".
 *  @param choices choice_count of them, as above; NULL with 0: all by rule. Entries past what the library knows must be
 *  NaN. @param seed of the search, as tailor_lay_begin. @param allocator NULL for malloc.
 *  @param canvas to be freed with tailor_canvas_free.
 *  @return TAILOR_BAD_ARGUMENT: no pattern, no such cloth in it, an unknown choice, pairs wanted that the pattern does
 *  not have (doubled cloth when the sides are cut apart, both alike on doubled cloth); TAILOR_NOT_FINITE,
 *  TAILOR_OUT_OF_RANGE: a choice out of its range, or a piece too wide for the strip (the fault's table and index are
 *  the piece's, its value the width needed, its high the width there is); those of tailor_lay_begin(). Nothing is
 *  written then. Cost: up to some tenths of a second, one block and those of two lays. @since 0.2.0 */
TAILOR_API tailor_status tailor_canvas_begin(const tailor_pattern *pattern, const char *cloth, const double *choices,
                                             size_t choice_count, uint64_t seed, const tailor_allocator *allocator,
                                             tailor_canvas **canvas, tailor_fault *fault);

/** Free it; NULL is allowed. @since 0.2.0 */
TAILOR_API void tailor_canvas_free(tailor_canvas *canvas);

/** Search on, both lays by so many iterations; as tailor_lay_step. @since 0.2.0 */
TAILOR_API tailor_status tailor_canvas_step(tailor_canvas *canvas, int64_t iterations);

/* ---- the best so far ---------------------------------------------------------------------------- */

/** The pattern, and the cloth's name in it. @since 0.2.0 */
TAILOR_API const tailor_pattern *tailor_canvas_pattern(const tailor_canvas *canvas);
TAILOR_API const char *tailor_canvas_cloth(const tailor_canvas *canvas);

/** A choice as it is in use; NaN for an unknown one. @since 0.2.0 */
TAILOR_API double tailor_canvas_choice(const tailor_canvas *canvas, int choice);

/** Width of the strip on the table: that of the cloth, half of it when folded. @since 0.2.0 */
TAILOR_API double tailor_canvas_strip_width(const tailor_canvas *canvas);

/** The lay itself, for all that lay.h can ask: the one wanted, or (straight not 0) the one on the straight grain. Where
 *  the angle is 0, or no body canvas is cut from this cloth, both are one. NULL for the straight one when a piece does
 *  not fit the strip that way. @since 0.2.0 */
TAILOR_API const tailor_lay *tailor_canvas_lay(const tailor_canvas *canvas, int straight);

/** What lies at a place of a lay. Any result may be NULL.
 *  @param piece index in the pattern. @param side the wearer's: a TAILOR_SIDE_; on doubled cloth the side of the ply
 *  that is seen. @param part 0 for a whole piece, 1 or 2 for the parts of a joined one.
 *  @param warp direction of the warp in the pattern's drawing, deg counter-clockwise from x, seen on the piece's own
 *  drawing (for a mirrored copy: before it was mirrored). @return TAILOR_BAD_ARGUMENT for no such place.
 *  @since 0.2.0 */
TAILOR_API tailor_status tailor_canvas_place(const tailor_canvas *canvas, int straight, int place, int *piece,
                                             int *side, int *part, double *warp);

/** The true outline at a place, on the strip, counter-clockwise. NULL with capacity 0 asks.
 *  @return TAILOR_BAD_ARGUMENT for no such place, TAILOR_TOO_SMALL. @since 0.2.0 */
TAILOR_API tailor_status tailor_canvas_outline(const tailor_canvas *canvas, int straight, int place,
                                               tailor_cubic *outline, size_t capacity, size_t *needed);

/** The map from the pattern's drawing of the piece to its place on the strip, for marks and points, as
 *  tailor_path_affine takes it. @return TAILOR_BAD_ARGUMENT for no such place. @since 0.2.0 */
TAILOR_API tailor_status tailor_canvas_matrix(const tailor_canvas *canvas, int straight, int place, double matrix[6]);

/** What a canvas lay is measured by. @since 0.2.0 */
enum {
    TAILOR_CANVAS_RESULT_LENGTH = 1,          /**< of strip used, mm */
    TAILOR_CANVAS_RESULT_CLOTH_LENGTH = 2,    /**< of cloth to be cut off for it, mm: twice that for two lengths */
    TAILOR_CANVAS_RESULT_YIELD = 3,           /**< ratio of the pieces' area to that of the strip used */
    TAILOR_CANVAS_RESULT_WASTE = 4,           /**< area cut away, of all plies, mm2 */
    TAILOR_CANVAS_RESULT_STRAIGHT_LENGTH = 5, /**< cloth to be cut off with the body canvas straight, mm, or NaN */
    TAILOR_CANVAS_RESULT_STRAIGHT_YIELD = 6,  /**< its yield */
    TAILOR_CANVAS_RESULT_EXTRA = 7,           /**< cloth the angle costs over straight, mm; below 0: saves */
    TAILOR_CANVAS_RESULT_JOINS = 8,           /**< pieces that are joined, count for one coat */
    TAILOR_CANVAS_RESULT_BOUND = 9            /**< length of strip that no lay of these can be shorter than, mm */
};
/** Length of a row of results, entry 0 unused. @since 0.2.0 */
#define TAILOR_CANVAS_RESULT_COUNT 10
/** One of them, of the best so far; NaN for an unknown one. @since 0.2.0 */
TAILOR_API double tailor_canvas_result(const tailor_canvas *canvas, int result);

#ifdef __cplusplus
}
#endif
#endif

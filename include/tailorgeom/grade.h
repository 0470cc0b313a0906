/* libtailorgeom: grade -- from one size to the others.
 *
 * There are two ways, and they meet. A *size table* holds rows of fields; between its rows, and around them, it gives
 * an order, which is resolved and drafted: so every seam closes at every size, because each size is a draft of its own.
 * A *grade* moves the points of a pattern that is there already, drafted here or built by the caller, by so much a
 * step: the rules of a workroom, or those that a family of sizes turns out to follow.
 *
 *     int32_t columns[] = {TAILOR_FIELD_CHEST_GIRTH, TAILOR_FIELD_WAIST_GIRTH};
 *     double sizes[3][2] = {{960, 820}, {1000, 860}, {1040, 908}}, given[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
 *     tailor_size_table_make(columns, 2, sizes[0], 3, 2, NULL, NULL, &table, &fault);
 *     tailor_fields_clear(given, TAILOR_FIELD_COUNT);
 *     given[TAILOR_FIELD_CHEST_GIRTH] = 1013;
 *     tailor_size_table_at(table, 1, given, TAILOR_FIELD_COUNT, row, TAILOR_FIELD_COUNT, NULL, &fault);
 *     tailor_coat_new(house, row, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, &fault);
 *
 *     tailor_grade_from_sizes(coats, 2, steps, 1, NULL, &grade, &fault);
 *     tailor_grade_apply(grade, NULL, &half_a_step, 1, NULL, &pattern, &fault);
 *
 * Tables and grades are immutable once made; many threads may read one at a time. Reading a file is the caller's part.
 */
#ifndef TAILORGEOM_GRADE_H
#define TAILORGEOM_GRADE_H

#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- size tables */

/** Sizes, each a row of fields, in one or more fits (short, regular, long; slim, stout). Opaque. @since 0.2.0 */
typedef struct tailor_size_table tailor_size_table;

/** Take over a table of sizes and look at it.
 *
 *  `columns`: the field (a TAILOR_FIELD_ number) of each column, none twice. The first is the *key*, the measure that
 *  sizes go by: chest_girth in most tables. `values`: `row_count` rows of `column_count` values in the units of the
 *  field table, `stride` doubles apart; NaN where the table says nothing. `fits`: the fit of each row, numbered from 1,
 *  a fit's rows together and in order; NULL when there is one fit only. All are copied.
 *
 *  Refused, with a sentence that names field, value and row: what is no field (TAILOR_UNKNOWN_FIELD); a value outside
 *  the field's range or no choice (as tailor_order_resolve() refuses it); a key that does not rise from row to row of a
 *  fit, a measure that turns back within a fit, rising and then falling or the other way round (where there is a slip
 *  of the pen in a printed table, this finds it), a choice that changes within a fit (all TAILOR_CONTRADICTION); a
 *  measure that some rows of a fit have and others not (TAILOR_MISSING); TAILOR_BAD_ARGUMENT, TAILOR_NO_MEMORY.
 *  That two fits have the same keys is not asked. One allocation from `allocator` (NULL: malloc). @since 0.2.0 */
TAILOR_API tailor_status tailor_size_table_make(const int32_t *columns, size_t column_count, const double *values,
                                                size_t row_count, size_t stride, const int32_t *fits,
                                                const tailor_allocator *allocator, tailor_size_table **table,
                                                tailor_fault *fault);
/** Give a table back. NULL is allowed. @since 0.2.0 */
TAILOR_API void tailor_size_table_free(tailor_size_table *table);
/** How many rows, how many fits there are; 0 for NULL. @since 0.2.0 */
TAILOR_API size_t tailor_size_table_row_count(const tailor_size_table *table);
TAILOR_API int tailor_size_table_fit_count(const tailor_size_table *table);
/** One row, from 0, as a row of fields: NaN for what the table has no column or no value for. TAILOR_BAD_ARGUMENT if
 *  there is no such row. @since 0.2.0 */
TAILOR_API tailor_status tailor_size_table_row(const tailor_size_table *table, size_t row, double *fields,
                                               size_t field_count);
/** The keys of a fit: `low` to `high` its sizes, `least` to `most` what tailor_size_table_at() takes: one step beyond
 *  either end, as long as the step there. Between two fits (1.5): where both are. All outputs are required;
 *  TAILOR_BAD_ARGUMENT if one is NULL or there is no such fit. @since 0.2.0 */
TAILOR_API tailor_status tailor_size_table_range(const tailor_size_table *table, double fit, double *low, double *high,
                                                 double *least, double *most);

/** An order at any place between the rows, or around them.
 *
 *  `given` is a row of fields that must hold the key (chest 1013). Each measure of the table is found at that key by
 *  the monotone cubic of Fritsch and Carlson (SIAM J. Numer. Anal. 17, 1980; inner slopes by Fritsch and Butland, SIAM
 *  J. Sci. Stat. Comput. 5, 1984; ends by the three-point rule held monotone): it goes through every row, never beyond
 *  two neighbouring rows, and has no corner. Whatever else `given` holds stays as it is, whether the table has it or
 *  not: short legs, long arms. `fit` is the number of a fit, or lies between two of them (1.25 is a quarter of the way
 *  from the first to the second), which is sensible where neighbours differ in one thing, as short, regular and long
 *  do; then both are found at the key and mixed in that proportion, and of a choice the nearer one is taken.
 *
 *  Beyond the first and last row the tangent goes on, for one step at most; `*beyond` (may be NULL) tells how far: 0
 *  within the table, 0.5 for half a step above the largest size, negative below the smallest. Who shows sizes should
 *  show that too: nobody has measured there.
 *
 *  `fields` becomes a row for tailor_order_resolve(): what neither table nor `given` has is NaN, found by rule there.
 *  It may be `given` itself. A measure that is given does not change the others of the table: the row may be one that
 *  tailor_order_resolve() refuses as contradictory.
 *
 *  Errors: TAILOR_MISSING without the key; TAILOR_OUT_OF_RANGE more than a step beyond, `low` and `high` of the fault
 *  tell the limits; values in `given` as tailor_order_resolve() refuses them; TAILOR_BAD_ARGUMENT for a fit that is not
 *  there. Nothing is written then. Cost: under a microsecond; no allocation. @since 0.2.0 */
TAILOR_API tailor_status tailor_size_table_at(const tailor_size_table *table, double fit, const double *given,
                                              size_t given_count, double *fields, size_t field_count, double *beyond,
                                              tailor_fault *fault);

/** The row nearest to a client, to cut from and to change.
 *
 *  `given`: the client's measures; the key is required, and what the table has no column for does not count. Each
 *  measure is off by so many of the table's own steps: a step is the largest change from one size to the next, or from
 *  one fit's mean to the next fit's, so that the stature counts in a table of shorts and longs and hardly in a table of
 *  chests. The nearest row has the least sum of squares over the measures; of two alike, the earlier. Own judgement.
 *
 *  `*row`: its index, from 0. `*decided_by` (may be NULL): the reason, the field in which this row gains most on the
 *  second best; the key when there is one row only. `*distance` (may be NULL): the root of the sum, in steps.
 *  `differences` (may be NULL with count 0): client minus row for every measure that both have, else NaN: what has to
 *  be changed on the base. Fails as tailor_size_table_at() does, but for its range: any client has a nearest row.
 *  Cost: some nanoseconds a cell. @since 0.2.0 */
TAILOR_API tailor_status tailor_size_table_nearest(const tailor_size_table *table, const double *given,
                                                   size_t given_count, size_t *row, int32_t *decided_by,
                                                   double *distance, double *differences, size_t difference_count,
                                                   tailor_fault *fault);

/* ---- grades
 *
 * A grade says how each point of a base pattern moves on one step of an axis; it may have several axes (chest,
 * stature, drop). A pattern at any steps, whole or not, is the base moved by their sum, so grades are linear: what goes
 * up by two steps and down by two is what it was, but for the last item of these:
 *
 *  - Points that a rule names move as it says. Along the outline between them the move changes with the length of arc
 *    as a monotone cubic (the one of the size tables), with one slope on both sides where the outline has no corner,
 *    and linearly between corners: ends and handles of every curve move by it, a handle by the slope times its own
 *    length. So a curve stays one curve, joints without a corner stay without one, and straight lines stay straight.
 *  - Where a rule names a point within a curve, the curve is cut there first; the shape is the same.
 *  - Points and marks on the outline stay on it, at the same place of the same curve; what lies inside or beside it
 *    moves by mean value coordinates over the outline's joints and middles (Floater, Comput. Aided Geom. Des. 20, 2003;
 *    Hormann and Floater, ACM Trans. Graph. 25, 2006), which carry turns, shears and stretches exactly. Buttons, holes
 *    and grain move as a whole; a notch turns with its edge.
 *  - Then seams are made equal again: for each, how much longer the first side is stays as it was on the base (or
 *    changes as it does in the family that the grade was found from). Joints of both sides give way along their seams,
 *    handles with them, by the least sum of squares that mends all seams together, hardly across a straight line that
 *    runs on into a curve; so named points may lie off their rule by about half of what two rules disagree in. What
 *    lies inside does not follow this mend, which is small if the rules are sound, and going up and down comes back but
 *    for its square.
 *
 * Moves are mm in the directions of the piece (x toward the front, y up). Points are named as in the pattern, or
 * "shoulder.start" and "shoulder.end" for the ends of an edge in outline direction. */

/** A grade with its base. Opaque. @since 0.2.0 */
typedef struct tailor_grade tailor_grade;

/** Which point of which piece a rule moves; both are read during the call only. @since 0.3.0 */
typedef struct tailor_rule {
    const char *piece; /**< name of a piece of the base */
    const char *point; /**< a named point of it, or "shoulder.start" and "shoulder.end" for the ends of an edge */
} tailor_rule;

/** A grade from rules. Rule i moves the point of `rules[i]` by `moves[i * axis_count + axis]` on a step of that
 *  axis; what no rule names is carried along: so a piece with one rule moves as a whole, and what is to stay in a piece
 *  with rules needs a rule of 0, 0. A piece without rules stays as it is. A point that does not lie on its outline
 *  (0.001 mm) moves alone, with the ends of marks that lie on it. 1 to 8 axes.
 *
 *  The base is copied. Errors, the fault's `place` being the rule's, from 1, because names are the client's text: a
 *  piece, point or edge that is not there (TAILOR_BAD_ARGUMENT); two rules that move one place differently
 *  (TAILOR_CONTRADICTION); TAILOR_NOT_FINITE; TAILOR_NO_MEMORY. Cost: some 0.2 ms for a coat. @since 0.2.0 */
TAILOR_API tailor_status tailor_grade_from_rules(const tailor_pattern *base, const tailor_rule *rules,
                                                 const tailor_point *moves, size_t rule_count, int axis_count,
                                                 const tailor_allocator *allocator, tailor_grade **grade,
                                                 tailor_fault *fault);

/** The grade that a family of patterns follows: 2 to 64 sizes of one pattern, `steps[i * axis_count + axis]` telling
 *  how far size i lies from the first, whose steps are all 0. For every control point of every curve, every point,
 *  mark and seam the moves are found that miss the sizes by the least sum of squares, through the first. With one size
 *  more than axes nothing is missed, and the graded pattern is the size itself at every size that was given. Three
 *  sizes on one axis mostly follow no straight rule: give smaller and larger an axis of their own, {0, 0}, {-1, 0},
 *  {0, 1}, and grade with {min(s, 0), max(s, 0)}: the workroom's grade that breaks at the base.
 *
 *  Pieces, edges and seams are matched by name, and along an edge the bounds of seams, named points and notches; where
 *  edges have more curves in one size than in another, joints are made at the same share of the length between those.
 *  A mark or point that not all sizes have is carried along. tailor_grade_rule() then tells the rule of each named
 *  point, and by how much it is missed.
 *
 *  Errors: patterns that are not of one make (TAILOR_CONTRADICTION: the sentence counts pieces and edges from 1); steps
 *  that do not tell the axes apart (TAILOR_DEGENERATE); TAILOR_BAD_ARGUMENT, TAILOR_NOT_FINITE, TAILOR_NO_MEMORY.
 *  Cost: some 0.2 ms a coat. @since 0.2.0 */
TAILOR_API tailor_status tailor_grade_from_sizes(const tailor_pattern *const *patterns, size_t count,
                                                 const double *steps, int axis_count,
                                                 const tailor_allocator *allocator, tailor_grade **grade,
                                                 tailor_fault *fault);

/** Give a grade back. NULL is allowed; patterns that it gave live on. @since 0.2.0 */
TAILOR_API void tailor_grade_free(tailor_grade *grade);
/** How many axes it has; 0 for NULL. @since 0.2.0 */
TAILOR_API int tailor_grade_axis_count(const tailor_grade *grade);
/** The grade's base: the pattern it was made of, with more joints where it needs them. Lives as long as the grade. NULL
 *  for NULL. @since 0.2.0 */
TAILOR_API const tailor_pattern *tailor_grade_base(const tailor_grade *grade);
/** How a named point, or end of an edge, moves on one step of an axis (from 0), mm. `*residual` (may be NULL): how far
 *  the sizes lie off their rule there, the largest, mm; 0 for a grade from rules. TAILOR_BAD_ARGUMENT if there is no
 *  such piece, point or axis; then nothing is written. @since 0.2.0 */
TAILOR_API tailor_status tailor_grade_rule(const tailor_grade *grade, const char *piece, const char *point, int axis,
                                           tailor_point *move, double *residual);

/** A pattern at so many steps of each axis, any real numbers. `pattern` is what to start from: NULL for the grade's
 *  base, else a pattern that this grade gave before (or one that agrees with its base piece for piece and curve for
 *  curve). The graded pattern keeps its edition and style. At steps of 0 the answer is that pattern, to the bit.
 *  Quantities and checks of a coat graded so are tailor_coat_of_pattern()'s, with the fields that it is meant to be: it
 *  is no draft, and checks will tell.
 *
 *  On success `*graded` is the caller's. Errors: TAILOR_NOT_CONVERGED when a seam's sides cannot be made equal,
 *  TAILOR_DEGENERATE when a piece is turned inside out, TAILOR_OUT_OF_RANGE when anything comes to lie more than 10 m
 *  from the origin; TAILOR_BAD_ARGUMENT, TAILOR_NOT_FINITE, TAILOR_NO_MEMORY.
 *  Outlines may cross themselves if the rules or steps make them: tailor_pattern_examine() tells, and a size is best
 *  shown to it, beside the base, before it is cut. Cost: 10 to 20 us for a coat, two allocations.
 *  @since 0.2.0 */
TAILOR_API tailor_status tailor_grade_apply(const tailor_grade *grade, const tailor_pattern *pattern,
                                            const double *steps, int axis_count, const tailor_allocator *allocator,
                                            tailor_pattern **graded, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif

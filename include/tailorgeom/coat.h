/* libtailorgeom: coat -- the draft: from a resolved order to a pattern; and the fold of any forepart.
 *
 *     tailor_pattern *coat = NULL;
 *     status = tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, &fault);
 *     ...
 *     tailor_pattern_free(coat);
 *
 * The fold functions at the end are pure functions on the caller's own points and paths: whoever has another
 * forepart can ask for its break line, its lapel turned over, and how much of the chest it covers.
 */
#ifndef TAILORGEOM_COAT_H
#define TAILORGEOM_COAT_H

#include <tailorgeom/pattern.h>
#include <tailorgeom/order.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Draft a coat: back, sidebody, forepart, topsleeve, undersleeve and under collar, net, with edges, points, marks and
 *  seams. Where the figure's sides differ, a piece that is not alike on both is there twice, "back_right" and
 *  "back_left", each to be cut once.
 *
 *  `fields` and `constants` are the full rows that tailor_order_resolve() writes; they are validated again. `allocator`
 *  gives the one block that the pattern is (NULL: malloc), and must live as long as the pattern. On success `*pattern`
 *  is the caller's, to be given back with tailor_pattern_free().
 *
 *  Errors, each with a sentence that names the field and what would do: those of tailor_order_validate(); a status of
 *  the 300 class when no coat closes on a row whose values are each sound; TAILOR_NO_MEMORY. Nothing is written then. A
 *  coat that could be drafted still wants its checks looked at: tailor_coat_measure().
 *
 *  The same row gives the same coat within an edition (tailor_edition()), in any thread. The recipe is common practice
 *  where the tables of fields and constants do not name another source. Cost: some 10 to 30 us, twice that where the
 *  sides differ; about 100 KB of stack, one allocation. @since 0.1.0 */
TAILOR_API tailor_status tailor_coat_draft(const double *fields, size_t field_count, const double *constants,
                                           size_t constant_count, const tailor_allocator *allocator,
                                           tailor_pattern **pattern, tailor_fault *fault);

/** Draft a coat and all that its make needs: the pieces of tailor_coat_draft(), and facing, top collar, linings, pocket
 *  pieces, canvases, bridle and edge tape, each saying what it is cut from, how often, and whether half of them are
 *  mirrored. The draft's own pieces are the same, bit for bit; whatever tailor_coat_draft() drafts can be made. Where
 *  the figure's sides differ, a piece that is not alike on both is there twice, "forepart_right" and "forepart_left".
 *
 *  Arguments, errors and ownership as in tailor_coat_draft(). Cost: some two and a half times as much. @since 0.2.0 */
TAILOR_API tailor_status tailor_coat_make(const double *fields, size_t field_count, const double *constants,
                                          size_t constant_count, const tailor_allocator *allocator,
                                          tailor_pattern **pattern, tailor_fault *fault);

/** Measure a coat: all quantities, and every check with its value and limit, read off the finished pieces.
 *
 *  `fields` and `constants` are the full rows that the coat was drafted from. `quantities` is indexed by
 *  TAILOR_QUANTITY_, `check_values` and `check_limits` by TAILOR_CHECK_; of each the first min(count, known) entries
 *  are written and the rest set to NaN; each may be NULL with count 0. NaN: not in this coat.
 *
 *  Returns TAILOR_CHECK_FAILED when a check does not hold: the outputs are written nonetheless, and the fault tells the
 *  first failing check in the order of the table, its value and its limit; its table row names the field to look at.
 *  Other errors: those of tailor_order_validate(), and TAILOR_BAD_ARGUMENT for a NULL or a pattern that lacks a piece
 *  of the coat; then nothing is written. Cost: some 15 us, twice that where the sides differ, and some 40 us
 *  more where quantity_count takes in TAILOR_QUANTITY_ROLL_HEIGHT, for the section of the roll; about 100 KB of stack,
 *  no allocation. @since 0.1.0 */
TAILOR_API tailor_status tailor_coat_measure(const tailor_pattern *pattern, const double *fields, size_t field_count,
                                             const double *constants, size_t constant_count, double *quantities,
                                             size_t quantity_count, double *check_values, double *check_limits,
                                             size_t check_count, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif

/* Building a pattern: begin in a block, add piece after piece, end. A piece is added whole (its edges, then its points
 * and marks) before the next begins. Names come from the tables, by number. */
#ifndef TAILOR_IN_PATTERN_BUILD_H
#define TAILOR_IN_PATTERN_BUILD_H

#include "block.h"
#include "../base/memory.h"

/** What does not come from a draft stays within this of the origin, mm: no garment is larger, and a sheet that was
 * would never be finished. */
#define TAILOR_IN_FARTHEST 1e4

/** Bytes of one record of each array. */
extern const size_t tailor_in_record_bytes[TAILOR_IN_ARRAYS];
/** Bytes of a block with these capacities (indexed by TAILOR_IN_PIECES ...). */
size_t tailor_in_pattern_bytes(const int capacity[TAILOR_IN_ARRAYS]);
/** Lay an empty pattern into a block of that size; the allocator is the one that the block came from. */
tailor_pattern *tailor_in_pattern_begin(void *block, const int capacity[TAILOR_IN_ARRAYS], tailor_allocator allocator);

void tailor_in_add_piece(tailor_pattern *p, int number, int cut, int mirrored, int side, const char *cloth);
void tailor_in_add_edge(tailor_pattern *p, int number, const tailor_cubic *path, size_t count);
void tailor_in_add_point(tailor_pattern *p, int number, tailor_point at);
/** Numbers of marks are those of the mark table. */
void tailor_in_add_mark(tailor_pattern *p, int number, int kind, const tailor_cubic *path, size_t count);
/** A seam, named by a name and what follows it; then the stretches of either side, each side's in the order of sewing.
 * A bound below 0 stands for the edge's whole length; an edge of -1 for one that is not there: the building fails. */
void tailor_in_add_seam(tailor_pattern *p, const char *name, const char *suffix, double ease);
void tailor_in_add_stretch(tailor_pattern *p, int side, tailor_stretch stretch);

/** "_right" or "_left": what follows the name of a piece or seam of one side alone. */
const char *tailor_in_side_suffix(int side);
/** The piece again as of the other side: what was drawn for the right turns into its mirror image, with its path
 *  reversed, and the piece is one of that side alone. */
void tailor_in_piece_set_side(tailor_pattern *p, int piece, int side);
/** Are two pieces the same, bit for bit? */
int tailor_in_piece_same(const tailor_pattern *p, int a, int b);

/** TAILOR_OK, or TAILOR_INTERNAL when something had no room. */
tailor_status tailor_in_pattern_end(tailor_pattern *p);

/** What the pattern was drafted as: the edition, and the choices of an accepted row of all fields. */
void tailor_in_pattern_remember(tailor_pattern *p, int edition, const double *fields);
/** Forget in `p` what `other` was not drafted as too, and be for a toile only if `other` is: for a pattern that is made
 * of several. */
void tailor_in_pattern_agree(tailor_pattern *p, const tailor_pattern *other);

/** A copy with these capacities, each at least what the pattern has; NULL when there is no memory. */
tailor_pattern *tailor_in_pattern_copy(const tailor_pattern *from, const int capacity[TAILOR_IN_ARRAYS],
                                       tailor_allocator allocator);
/** Bytes of a copy without room to spare. */
size_t tailor_in_pattern_bytes_of(const tailor_pattern *from);
/** That copy in a block of the caller's, aligned for any object: a pattern inside of another object, whose own
 * allocation holds it. `allocator` is what tailor_pattern_free() would give it back to. NULL if `bytes` are too few. */
tailor_pattern *tailor_in_pattern_copy_into(const tailor_pattern *from, void *block, size_t bytes,
                                            tailor_allocator allocator);

#endif

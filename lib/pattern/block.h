/* The inside of a pattern: one block, arrays found by offsets so that the block can be copied as it is. */
#ifndef TAILOR_IN_PATTERN_BLOCK_H
#define TAILOR_IN_PATTERN_BLOCK_H

#include <tailorgeom/order_tables.h>
#include <tailorgeom/pattern.h>

enum { TAILOR_IN_NAME = 32 };

struct tailor_in_piece {
    char name[TAILOR_IN_NAME], cloth[TAILOR_IN_NAME];
    int number, cut, mirrored, side;
    int first_cubic, cubic_count, first_edge, edge_count, first_point, point_count, first_mark, mark_count;
};

struct tailor_in_edge {
    char name[TAILOR_IN_NAME];
    int number, first_cubic, cubic_count;
};

struct tailor_in_named_point {
    char name[TAILOR_IN_NAME];
    int number;
    tailor_point at;
};

struct tailor_in_mark {
    char name[TAILOR_IN_NAME];
    int number, kind, first_cubic, cubic_count;
};

/* The stretches of a seam: those of its first side, then those of its second, seam after seam. In a block a bound below
 * 0 stands for the edge's whole length, so that what is sewn to its end stays so whatever the edge becomes. */
struct tailor_in_seam {
    char name[TAILOR_IN_NAME];
    double ease;
    int first[2], count[2];
};

/** The arrays of a block, in their order there. */
enum {
    TAILOR_IN_PIECES,
    TAILOR_IN_EDGES,
    TAILOR_IN_POINTS,
    TAILOR_IN_MARKS,
    TAILOR_IN_SEAMS,
    TAILOR_IN_STRETCHES,
    TAILOR_IN_CUBICS,
    TAILOR_IN_ARRAYS
};

struct tailor_pattern {
    tailor_allocator allocator;
    int full; /* set when an array had no room: building goes on harmlessly and fails at the end */
    int edition, toile_only;
    unsigned char style[TAILOR_FIELD_COUNT]; /* choices by field number, 0: not known, and for fields that are none */
    int capacity[TAILOR_IN_ARRAYS], count[TAILOR_IN_ARRAYS];
    size_t offset[TAILOR_IN_ARRAYS];
};

/* Typed access by array. The casts go through void so that the block's own alignment is trusted. */
#define TAILOR_IN_AT(pattern, type, array) ((type *)(void *)((char *)(pattern) + (pattern)->offset[array]))
#define TAILOR_IN_SEE(pattern, type, array)                                                                            \
    ((const type *)(const void *)((const char *)(pattern) + (pattern)->offset[array]))

#endif

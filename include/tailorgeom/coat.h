/* libtailorgeom: coat -- one coat: its order resolved, drafted, measured and checked, in one object.
 *
 *     double client[TAILOR_FIELD_COUNT];
 *     tailor_coat *coat = NULL;
 *     tailor_fields_clear(client, TAILOR_FIELD_COUNT);
 *     client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
 *     status = tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, &fault);
 *     printf("%.1f mm of chest covered\n", tailor_coat_quantity(coat, TAILOR_QUANTITY_COVERAGE_SCYE));
 *     tailor_coat_free(coat);
 *
 * A coat is one block of memory, immutable, without pointers out of it: everything is computed when it is made, so any
 * number of threads may read it, and the house that it was made with may be given back before it. The same order gives
 * the same coat within an edition (tailor_edition()), in any thread. The recipe is common practice where the tables of
 * fields and constants do not name another source.
 *
 * Every function that reads a coat accepts NULL and any number: what is not there reads as NULL, 0 or NaN.
 */
#ifndef TAILORGEOM_COAT_H
#define TAILORGEOM_COAT_H

#include <tailorgeom/coat_tables.h>
#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A finished coat. Opaque. @since 0.3.0 */
typedef struct tailor_coat tailor_coat;

/** How far a coat is taken, bits to be added up. Quantities and pieces that an extent leaves out read as NaN or are not
 *  there; what is there has the same bits whatever the extent. Pinned. @since 0.3.0 */
enum {
    TAILOR_EXTENT_NET = 0,    /**< back, sidebody, forepart, topsleeve, undersleeve and under collar, net */
    TAILOR_EXTENT_MAKE = 1,   /**< also facing, top collar, linings, pocket pieces, canvases, bridle and edge tape */
    TAILOR_EXTENT_SECTION = 2 /**< also the section of the lapel's roll, and the quantities read off it */
};

/** Resolve an order, draft it, measure it and check it.
 *
 *  `house` may be NULL; `client` is a row as tailor_order_resolve() takes it; `extent` is a sum of TAILOR_EXTENT_ bits.
 *  Where the figure's sides differ, a piece that is not alike on both is there twice, "back_right" and "back_left",
 *  each to be cut once. On success `*coat` is the caller's, to be given back with tailor_coat_free(); its memory comes
 *  from the house's allocator.
 *
 *  Errors, each with a sentence that names the field and what would do:
 *  - those of tailor_order_resolve();
 *  - a status of the 300 class when no coat closes on an order whose values are each sound;
 *  - TAILOR_CHECK_FAILED when the coat is drafted and one of its checks does not hold: this is the one failure that
 *    gives the coat nonetheless, so that all checks can be shown. It must be freed, and nothing should be cut from it.
 *    The fault names the first check in the order of their table, its value and limit;
 *  - TAILOR_BAD_ARGUMENT for an unknown extent or a NULL; TAILOR_NO_MEMORY.
 *  In all other failures nothing is written but the fault.
 *
 *  Cost: some 40 us net, twice that where the sides differ; 40 us more for the make, 50 us for the section; about 100
 *  KB of stack; one allocation of 80 to 190 KB. @since 0.3.0 */
TAILOR_API tailor_status tailor_coat_new(const tailor_house *house, const double *client, size_t client_count,
                                         int extent, tailor_coat **coat, tailor_fault *fault);

/** The coat of a row that was resolved before, as it stands: tailor_coat_fields() of an earlier coat, or what
 *  tailor_order_resolve() wrote. No rule fills anything within it; a NaN where there is a rule is TAILOR_MISSING. A row
 *  shorter than this library knows comes from an earlier version: the fields that came since are found as in any other
 *  order, and the coat has a caution that says so.
 *
 *  `origins` (a TAILOR_ORIGIN_ for each of the `count` fields) may be NULL: every value then counts as the client's.
 *  Constants are the house's of today. Otherwise as tailor_coat_new(). @since 0.3.0 */
TAILOR_API tailor_status tailor_coat_again(const tailor_house *house, const double *fields, const int32_t *origins,
                                           size_t count, int extent, tailor_coat **coat, tailor_fault *fault);

/** A pattern that was graded, altered, read from a file or built, measured and checked as the coat of this order.
 *  `fields`, `origins` and `count` as in tailor_coat_again(). The pattern is copied; nothing is drafted.
 *
 *  The extent follows from the pattern: with the make where it has a facing, always with the section of the roll.
 *
 *  Errors: those of the order; TAILOR_CONTRADICTION when the pattern was drafted with another style: the fault's index
 *  names the choice, its value is the pattern's, low and high are the order's; TAILOR_BAD_ARGUMENT when a piece, an
 *  edge or a mark of the coat is missing: the fault's table and index name it, `place` the pattern's piece, from 1 (0:
 *  the piece itself is missing). TAILOR_CHECK_FAILED gives the coat, as in tailor_coat_new(): checks report how far a
 *  pattern is from a draft. A pattern of which no style is known is measured as the order says. Cost: some 70 us; one
 *  allocation. @since 0.3.0 */
TAILOR_API tailor_status tailor_coat_of_pattern(const tailor_house *house, const double *fields,
                                                const int32_t *origins, size_t count, const tailor_pattern *pattern,
                                                tailor_coat **coat, tailor_fault *fault);

/** Give a coat back, and with it its pattern and rows. NULL is allowed. @since 0.3.0 */
TAILOR_API void tailor_coat_free(tailor_coat *coat);

/** What making the coat returned: TAILOR_OK or TAILOR_CHECK_FAILED, with its fault again (NULL is allowed).
 *  TAILOR_BAD_ARGUMENT for NULL. @since 0.3.0 */
TAILOR_API tailor_status tailor_coat_status(const tailor_coat *coat, tailor_fault *fault);
/** The TAILOR_EXTENT_ bits that the coat was made with. @since 0.3.0 */
TAILOR_API int tailor_coat_extent(const tailor_coat *coat);
/** The edition that the pattern was drafted by: tailor_edition() for a draft; the pattern's own, 0 where it is unknown,
 *  for tailor_coat_of_pattern(). @since 0.3.0 */
TAILOR_API int tailor_coat_edition(const tailor_coat *coat);
/** 1 when the pattern was drafted from the order, 0 when it was measured by tailor_coat_of_pattern(). @since 0.3.0 */
TAILOR_API int tailor_coat_drafted(const tailor_coat *coat);

/** The coat's pieces; for a toile only (tailor_pattern_toile_only()) where the coat has that caution, or the pattern
 *  was so when tailor_coat_of_pattern() took it over. Lives as long as the coat and must not be freed.
 *  @since 0.3.0 */
TAILOR_API const tailor_pattern *tailor_coat_pattern(const tailor_coat *coat);
/** The line of the lapel's section, mm, as tailor_roll_section() writes it; NULL with *count 0 where the extent has no
 *  section or the lapel has none. `count` may be NULL. Lives as long as the coat. @since 0.3.0 */
TAILOR_API const tailor_point *tailor_coat_section(const tailor_coat *coat, size_t *count);

/** Whole rows, for binders and for further calls: resolved fields, the origin of each (a TAILOR_ORIGIN_), the house's
 *  constants, quantities. Indexed by the tables' numbers, entry 0 unused; `*count` (may be NULL) becomes the length.
 *  They live as long as the coat. @since 0.3.0 */
TAILOR_API const double *tailor_coat_fields(const tailor_coat *coat, size_t *count);
TAILOR_API const int32_t *tailor_coat_origins(const tailor_coat *coat, size_t *count);
TAILOR_API const double *tailor_coat_constants(const tailor_coat *coat, size_t *count);
TAILOR_API const double *tailor_coat_quantities(const tailor_coat *coat, size_t *count);
/** One quantity, in its table's unit; NaN: not in this coat or this extent, or no such number. @since 0.3.0 */
TAILOR_API double tailor_coat_quantity(const tailor_coat *coat, int quantity);
/** One check (a TAILOR_CHECK_ number): 1 when it holds, 0 when it does not, -1 when it is not in this coat or does not
 *  exist. `*value` and `*limit` (each may be NULL) become its value and limit, NaN for -1. @since 0.3.0 */
TAILOR_API int tailor_coat_check(const tailor_coat *coat, int check, double *value, double *limit);

/* ---- cautions: what a cutter should know of a coat that is drafted and passes its checks */

/** The table of cautions, indexed by the TAILOR_CAUTION_ numbers. @since 0.3.0 */
TAILOR_API const tailor_table *tailor_caution_table(void);

/** How much a caution weighs. @since 0.3.0 */
enum {
    TAILOR_CAUTION_CLASS_TOLD = 1,   /**< worth knowing */
    TAILOR_CAUTION_CLASS_CAUTION = 2 /**< look before you cut */
};
/** How many cautions a coat has. @since 0.3.0 */
TAILOR_API int tailor_coat_caution_count(const tailor_coat *coat);
/** One caution, from place 0, in the order of their table. Returns its TAILOR_CAUTION_CLASS_, 0 when there is none at
 *  that place. `fault` (may be NULL) is filled with status TAILOR_OK, table TAILOR_TABLE_CAUTION, the caution's number,
 *  its value and limit, and a sentence. @since 0.3.0 */
TAILOR_API int tailor_coat_caution(const tailor_coat *coat, int place, tailor_fault *fault);
/** The measures for want of which the coat has TAILOR_CAUTION_TOILE_ONLY: TAILOR_FIELD_ numbers of those that a bespoke
 *  coat stands on (common practice) and the client did not give, in the order in which the caution names them. NULL
 *  with *count 0 when none is missing, and for an order made to measure. `count` may be NULL. The array lives as long
 *  as the coat. @since 0.3.0 */
TAILOR_API const int32_t *tailor_coat_toile_fields(const tailor_coat *coat, size_t *count);

/** The table of a kind, a TAILOR_TABLE_ number: what the index of a fault or verdict points into. NULL for
 *  TAILOR_TABLE_NONE and for a number that is none. Lives as long as the program. @since 0.3.0 */
TAILOR_API const tailor_table *tailor_table_of(int kind);

#ifdef __cplusplus
}
#endif
#endif

/* libtailorgeom: base -- what every floor stands on: status, fault, allocator, writer, line, tables, version.
 *
 * A call that can fail returns a tailor_status and takes an optional tailor_fault, which then says
 * in one sentence what was wrong, where, and what would have been right. Nothing else is written on
 * failure. There is no errno, no callback, no global and no thread-local state anywhere in the library.
 *
 *     tailor_fault fault;
 *     if (tailor_length_read("40 3/8 in", &mm, &fault) != TAILOR_OK)
 *         fprintf(stderr, "%s: %s\n", tailor_status_name(fault.status), fault.sentence);
 *
 * Every function here may be called from any number of threads; none allocates; texts are static and in English.
 */
#ifndef TAILORGEOM_BASE_H
#define TAILORGEOM_BASE_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define TAILOR_API __attribute__((visibility("default")))
#else
#define TAILOR_API
#endif

/** Version of these headers; tailor_version() tells the version of the library that runs. */
#define TAILOR_VERSION_MAJOR 0
#define TAILOR_VERSION_MINOR 3
#define TAILOR_VERSION_PATCH 0

/** Outcome of a call: one of the TAILOR_ codes below, 0 when done. Numbers are pinned and never reused;
 *  they lie in classes of a hundred, with gaps for later ones. */
typedef int tailor_status;

enum {
    TAILOR_OK = 0,

    /* 100: the call itself */
    TAILOR_BAD_ARGUMENT = 100,      /**< a NULL, a count or a number that the call does not take */
    TAILOR_UNKNOWN_FIELD = 101,     /**< a value given for a number that this library does not know */
    TAILOR_TOO_SMALL = 102,         /**< the caller's array is too small; the needed count is told */
    TAILOR_NO_MEMORY = 110,         /**< the allocator returned NULL */
    TAILOR_WRITE_FAILED = 120,      /**< the caller's writer returned non-zero */

    /* 200: a value of the order */
    TAILOR_MISSING = 200,           /**< a required field is not given */
    TAILOR_NOT_FINITE = 201,        /**< infinite, or NaN where a number is needed */
    TAILOR_OUT_OF_RANGE = 202,      /**< outside the table's range */
    TAILOR_NOT_A_CHOICE = 203,      /**< not one of the choices */
    TAILOR_WRONG_UNIT = 204,        /**< a chest of 40: inches without their unit */
    TAILOR_CONTRADICTION = 205,     /**< two values that cannot both be true of one coat */
    TAILOR_BAD_LENGTH = 206,        /**< text that is not a length */

    /* 300: the order is sound in each value, but no coat closes on it */
    TAILOR_FRAME_UNSOLVED = 300,    /**< no room left for back, scye or chest */
    TAILOR_WAIST_UNSOLVED = 301,    /**< the suppression asked for does not fit the seams */
    TAILOR_SHOULDER_UNSOLVED = 302, /**< shoulder seam or neck point cannot be placed */
    TAILOR_SCYE_UNSOLVED = 303,     /**< the scye cannot be drawn */
    TAILOR_FRONT_UNSOLVED = 304,    /**< break line, lapel or front edge cannot be drawn */
    TAILOR_SLEEVE_UNSOLVED = 305,   /**< no sleeve fits the scye */
    TAILOR_COLLAR_UNSOLVED = 306,   /**< no collar fits the neck seam */
    TAILOR_CHECK_FAILED = 350,      /**< drafted, but a check in the table of checks does not hold */

    /* 400: geometry */
    TAILOR_DEGENERATE = 400,        /**< no direction, no length or no area where one is needed */
    TAILOR_NO_SOLUTION = 401,       /**< nothing meets, nothing is left, no root in the range */
    TAILOR_OVERLAP = 402,           /**< two curves share a stretch, so they have no isolated crossings */
    TAILOR_NOT_CONVERGED = 403,     /**< a bounded iteration ended before its tolerance */
    TAILOR_UNSOUND = 404,           /**< a pattern that cannot be cut or sewn; since 0.3.0 */

    TAILOR_INTERNAL = 900           /**< a promise of the library was broken: please report it */
};

/** Name of a status ("TAILOR_OUT_OF_RANGE"), or "TAILOR_UNKNOWN_STATUS" for a number that has none. For messages and
 *  for binders; never NULL. Static string. @since 0.1.0 */
TAILOR_API const char *tailor_status_name(int status);

/** What a status means, a short phrase in English without capital and full stop ("a value lies outside its range").
 *  The sentence of a fault says more. Never NULL. Static string. @since 0.1.0 */
TAILOR_API const char *tailor_status_text(int status);

/** Tables a fault can point into: `table` of a tailor_fault. Pinned. */
enum {
    TAILOR_TABLE_NONE = 0,
    TAILOR_TABLE_FIELD = 1,
    TAILOR_TABLE_CONSTANT = 2,
    TAILOR_TABLE_QUANTITY = 3,
    TAILOR_TABLE_PIECE = 4,
    TAILOR_TABLE_EDGE = 5,
    TAILOR_TABLE_POINT = 6,
    TAILOR_TABLE_MARK = 7,
    TAILOR_TABLE_CHECK = 8,
    TAILOR_TABLE_CLOTH = 9,    /**< properties of a sheet, cloth.h; since 0.2.0 */
    TAILOR_TABLE_FINDING = 10, /**< findings of tailor_pattern_examine(), pattern.h; since 0.3.0 */
    TAILOR_TABLE_CAUTION = 11  /**< cautions of a coat, coat.h; since 0.3.0 */
};

/** What was wrong. Owned by the caller, 256 bytes, layout fixed for ever. Filled when a call fails, then as a
 *  whole (and with status 0 where a function tells of a finding or caution); NULL may be passed instead wherever a call
 *  takes one. `table` and `index` name the row at fault (a TAILOR_TABLE_ number and the row's number; 0, 0 when no
 *  table applies); `value` is what was found, `low` and `high` what is allowed, in the row's unit (NaN where there is
 *  none); `place` counts what was given several at a time (which row, rule, shape, size or piece; 0 where that does not
 *  apply), so nobody reads numbers out of a sentence; `sentence` is UTF-8, zero-terminated, names field, value and
 *  range with a decimal point in every locale, and never holds text from the client. @since 0.1.0 */
typedef struct tailor_fault {
    int32_t status;     /**< what the call returned */
    int32_t table;      /**< a TAILOR_TABLE_ number */
    int32_t index;      /**< number of the row in that table */
    int32_t place;      /**< of what was given in a row, from 1: row, rule, shape, size, piece; 0 none */
    double value;       /**< what was found */
    double low;         /**< least that is allowed */
    double high;        /**< most that is allowed */
    char sentence[216]; /**< all of it in words */
} tailor_fault;

/** Where memory comes from. `allocate` returns memory aligned for any object, or NULL; `release` takes what
 *  `allocate` gave, from the same `user`, which is handed to both and not looked at. Pass NULL instead of a
 *  tailor_allocator for malloc and free. What is made keeps a copy of the struct, so it need not live on; `user` must.
 *  @since 0.1.0 */
typedef struct tailor_allocator {
    void *(*allocate)(void *user, size_t bytes);
    void (*release)(void *user, void *memory);
    void *user;
} tailor_allocator;

/** The caller's writer: where a file goes that the library makes. It gets the file from beginning to end, some
 *  thousands of bytes a call, in memory that is valid only during the call, and returns 0 when it took all of them.
 *  Anything else ends the work: the call that writes returns TAILOR_WRITE_FAILED, and the writer is not called again.
 *  `user` is passed on and never looked at. @since 0.3.0 */
typedef int (*tailor_writer)(void *user, const void *data, size_t bytes);

/** Kinds of lines. Pinned. @since 0.3.0 */
enum {
    TAILOR_LINE_HEADING = 1, /**< a label alone; begins a section */
    TAILOR_LINE_ROW = 2,     /**< a label, and a value beside it */
    TAILOR_LINE_GROUP = 3,   /**< a label, and a value beside it, at the head of rows that belong together */
    TAILOR_LINE_TEXT = 4,    /**< one text: its label, or its value if it has no label */
    TAILOR_LINE_CAUTION = 5  /**< one text that nobody may miss */
};

/** A line of a ticket or a report: what is told, apart from how it is set. The texts are UTF-8 and the caller's; each
 *  may be NULL, which reads as "". The layout is fixed for ever; a line that is set to zero and then filled in stays
 *  good. @since 0.3.0 */
typedef struct tailor_line {
    int32_t kind;      /**< a TAILOR_LINE_ */
    int32_t rank;      /**< how deep it stands, 0 to 8: 1 for a line that belongs to the line of rank 0 above it, ... */
    const char *label; /**< what it is about: "chest" */
    const char *value; /**< what is told: "1126 mm" */
    const char *basis; /**< what the value rests on: "measured", "assumed: waist + 114"; nothing where it is "" */
} tailor_line;

/** Write a number as the shortest decimal that reads back as the same double, and of the shortest the nearest:
 *  "1025.5", "-0.003", "0". Plain figures from 0.00001 up to 1e15, and above that as long as every figure counts; else
 *  with an exponent of two digits or more, "1.5e+300". Always a decimal point, whatever the locale. For JSON, CSV and
 *  whatever a program reads; tailor_value_write() writes what people read, with its unit.
 *
 *  TAILOR_NOT_FINITE for NaN and infinity. `text` receives the zero-terminated result; NULL with capacity 0 only asks.
 *  *needed (may be NULL when text is not) becomes the length without the terminating zero, also when TAILOR_TOO_SMALL
 *  says that `capacity` bytes do not hold it; `text` is left alone then. 32 bytes are always enough. Cost: some 50 ns
 *  for usual sizes. @since 0.3.0 */
TAILOR_API tailor_status tailor_number_write(double value, char *text, size_t capacity, size_t *needed);

/** Version of the running library, "0.3.0"; TAILOR_VERSION_MAJOR and its kin tell that of the headers. Static string.
 *  @since 0.1.0 */
TAILOR_API const char *tailor_version(void);

/** Edition of default rules, default constants and recipe together, from 1: within an edition the same order gives the
 *  same coat. Printed in JSON, on tickets and sheets. @since 0.1.0 */
TAILOR_API int tailor_edition(void);

/* ---- Tables -------------------------------------------------------------------------------------
 * Fields, constants, quantities, pieces, edges, points, marks and checks are each one table, read-only
 * and fixed at build time; so are the choices of each field that is chosen, not measured. Row numbers start
 * at 1 and are never reused, so a number may have no row. The order of numbers means nothing: people see the
 * order of places, and one choice is not more than another. The tables themselves are got with
 * tailor_field_table() and its kin in order.h and pattern.h.
 *
 *     for (int place = 0; (number = tailor_table_at(table, place)) != 0; place++)
 *         printf("%s: %s\n", tailor_table_text(table, number, TAILOR_COLUMN_NAME),
 *                tailor_table_text(table, number, TAILOR_COLUMN_MEANING));
 */

/** A read-only table. Opaque. */
typedef struct tailor_table tailor_table;

/** Text columns. A column that a table lacks reads "". */
enum {
    TAILOR_COLUMN_NAME = 1,       /**< lower case, underscores; of a choice, hyphens */
    TAILOR_COLUMN_GROUP = 2,      /**< what it belongs to: measures, ease, style, ... */
    TAILOR_COLUMN_TERM = 3,       /**< the trade's or ISO 8559's words */
    TAILOR_COLUMN_UNIT = 4,       /**< mm, mm2, deg, ratio, count, choice, ... */
    TAILOR_COLUMN_RULE = 5,       /**< how a default is found, or what a check demands */
    TAILOR_COLUMN_PROVENANCE = 6, /**< where the rule comes from */
    TAILOR_COLUMN_MEANING = 7,    /**< a sentence */
    TAILOR_COLUMN_SINCE = 8,      /**< version that brought it */
    TAILOR_COLUMN_SYNONYMS = 9    /**< choices: other words that are read for it, with spaces between; since 0.3.0 */
};

/** Length of an array indexed by the table's numbers: row numbers lie in 1 .. tailor_table_size(table) - 1, entry 0 is
 *  unused. 0 for a NULL table. @since 0.1.0 */
TAILOR_API int tailor_table_size(const tailor_table *table);

/** Number of the row at a place in reading order (by group, and by rank within it), from 0. 0 past the end, for a
 *  negative place and for a NULL table. @since 0.1.0 */
TAILOR_API int tailor_table_at(const tailor_table *table, int place);

/** Number of the row of exactly that name, 0 if there is none or either is NULL. Cost: the rows are compared one by
 *  one. @since 0.1.0 */
TAILOR_API int tailor_table_find(const tailor_table *table, const char *name);

/** Number of the row whose name is nearest to a misspelt one, 0 if none is near: at most a third of its letters
 *  wrong, missing, added or swapped; capitals, spaces and hyphens are forgiven. Else a row whose name goes on where the
 *  given one ends ("chest"), or the other way round. @since 0.1.0 */
TAILOR_API int tailor_table_suggest(const tailor_table *table, const char *name);

/** A text of a row (`column` is a TAILOR_COLUMN_); "" for no such table, row or column, never NULL. Static string.
 *  @since 0.1.0 */
TAILOR_API const char *tailor_table_text(const tailor_table *table, int number, int column);

/** The table of the choices that a row takes, a table like any other: their numbers are the row's values. NULL for a
 *  row that takes a number, for no such row and for a NULL table. Lives as long as the program. @since 0.3.0 */
TAILOR_API const tailor_table *tailor_table_choices(const tailor_table *table, int number);

/** Lowest value allowed, in the row's unit; NaN where there is none, or no such row. 1 for a choice. @since 0.1.0 */
TAILOR_API double tailor_table_low(const tailor_table *table, int number);

/** Highest value allowed, in the row's unit; NaN where there is none, or no such row. For a choice, the highest number
 *  that is one. @since 0.1.0 */
TAILOR_API double tailor_table_high(const tailor_table *table, int number);

#ifdef __cplusplus
}
#endif
#endif

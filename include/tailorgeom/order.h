/* libtailorgeom: order -- fields, constants and quantities; resolving an order; lengths as people type them.
 *
 * A field is one number of an order (a body measure, a note on the figure, a choice of style); a constant is
 * one number of the cutter's own way of drafting; a quantity is one number measured off a finished coat.
 * Rows of them are plain double arrays indexed by the enums in order_tables.h: `row[TAILOR_FIELD_CHEST_GIRTH]`.
 * Entry 0 is unused. NaN means "not given". Choices are whole numbers from 1 (TAILOR_BUTTONING_TWO_BUTTON), so
 * that a zeroed array is never taken for an order. Only chest_girth has to be given. What the cutter himself always
 * does is a house, made once.
 *
 *     double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
 *     tailor_fields_clear(client, TAILOR_FIELD_COUNT);
 *     client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
 *     status = tailor_order_resolve(NULL, client, TAILOR_FIELD_COUNT, row, NULL, TAILOR_FIELD_COUNT, &fault);
 *
 * Every array travels with its length. Going in, entries past that length are not given, and entries past what the
 * library knows must be NaN. Coming out, entries past what the library knows are set to NaN. So a program built
 * against one version runs with a later one. Only tailor_house_new() allocates; nothing reads the locale or keeps
 * state: any number of threads may call every function.
 */
#ifndef TAILORGEOM_ORDER_H
#define TAILORGEOM_ORDER_H

#include <tailorgeom/base.h>
#include <tailorgeom/order_tables.h>

#ifdef __cplusplus
extern "C" {
#endif

/** The table of fields: names, units, ranges, how each default is found and where that comes from. Indexed by the
 *  TAILOR_FIELD_ numbers. Lives as long as the program. @since 0.1.0 */
TAILOR_API const tailor_table *tailor_field_table(void);

/** The table of house constants, indexed by the TAILOR_CONSTANT_ numbers; its rule column holds each default. Lives as
 *  long as the program. @since 0.1.0 */
TAILOR_API const tailor_table *tailor_constant_table(void);

/** The table of quantities, indexed by the TAILOR_QUANTITY_ numbers; its rule column says which coats have the
 *  quantity, where not all do. Lives as long as the program. @since 0.1.0 */
TAILOR_API const tailor_table *tailor_quantity_table(void);

/** The choices of one field, indexed by the numbers that the field takes (TAILOR_BUTTONING_TWO_BUTTON): names, terms,
 *  meanings, and the synonyms that are read too. NULL for a field that takes a number. The choices of a quantity, such
 *  as roll_class, are tailor_table_choices(tailor_quantity_table(), quantity). Lives as long as the program.
 *
 *     const tailor_table *buttonings = tailor_choice_table(TAILOR_FIELD_BUTTONING);
 *     for (int place = 0; (number = tailor_table_at(buttonings, place)) != 0; place++)
 *         puts(tailor_table_text(buttonings, number, TAILOR_COLUMN_NAME));
 *
 *  @since 0.3.0 */
TAILOR_API const tailor_table *tailor_choice_table(int field);

/* ---- Resolving ---------------------------------------------------------------------------------- */

/** Fill a row of `count` entries with NaN: nothing given. For fields and constants alike. A NULL row is ignored.
 *  @since 0.1.0 */
TAILOR_API void tailor_fields_clear(double *row, size_t count);

/** Where a resolved value came from: nobody (it stays NaN), the client's row, the house's row, the table's rule. */
enum { TAILOR_ORIGIN_NONE = 0, TAILOR_ORIGIN_CLIENT = 1, TAILOR_ORIGIN_HOUSE = 2, TAILOR_ORIGIN_RULE = 3 };

/** A house: the cutter's own values of fields and his constants, checked once. Opaque, immutable; many threads may use
 *  one at the same time. What is made from a house comes from its allocator. Wherever a function takes a house, NULL
 *  stands for one that gives nothing: the library's defaults, malloc and free. @since 0.3.0 */
typedef struct tailor_house tailor_house;

/** Make a house from a row of fields (what he orders unless the client says otherwise) and a row of constants (how he
 *  drafts). In the units of the tables, NaN for what the house does not give; each row may be NULL with count 0. They
 *  are copied; constants that are not given take their default.
 *
 *  `allocator` (NULL: malloc and free) is copied, and its `user` must outlive the house and all that is made from it.
 *  On success `*house` is the caller's, to be given back with tailor_house_free(); what was made from it may outlive
 *  it.
 *
 *  Fails, with nothing written but the fault, as tailor_order_resolve() does for a value by itself; the sentence says
 *  that it is the house's. TAILOR_NO_MEMORY. Cost: some microseconds, one allocation of some 3 KB. @since 0.3.0 */
TAILOR_API tailor_status tailor_house_new(const double *fields, size_t field_count, const double *constants,
                                          size_t constant_count, const tailor_allocator *allocator,
                                          tailor_house **house, tailor_fault *fault);
/** Give a house back. NULL is allowed. @since 0.3.0 */
TAILOR_API void tailor_house_free(tailor_house *house);
/** The house's fields, NaN where it gives none. `*count` (may be NULL) becomes the length. NULL and 0 for NULL. The row
 *  lives as long as the house. @since 0.3.0 */
TAILOR_API const double *tailor_house_fields(const tailor_house *house, size_t *count);
/** The house's constants, its own or the defaults; otherwise the same. @since 0.3.0 */
TAILOR_API const double *tailor_house_constants(const tailor_house *house, size_t *count);

/** Make a full order out of what was given. For each field the client's value wins over the house's, and either over
 *  the rule in the field table (a linear form over other fields, or a function named there). A field that has no rule
 *  (front_shoulder and the other direct measures) stays NaN, with origin NONE, when nobody gives it.
 *
 *  In: the house (may be NULL) and the client's row in the units of the table (mm, deg, g/m2; choices whole numbers),
 *  which may be NULL with count 0. Out: `fields` and `origins` (a TAILOR_ORIGIN_ each), `count` entries each; either
 *  may be NULL, and `fields` may be the array `client`.
 *
 *  Fails, with nothing written but the fault, when
 *  - a number is given that the library has no row for, entry 0 included (TAILOR_UNKNOWN_FIELD);
 *  - a value is infinite (TAILOR_NOT_FINITE), outside the range of its row (TAILOR_OUT_OF_RANGE), not a choice
 *    (TAILOR_NOT_A_CHOICE), or too small by the factor of another unit: a chest of 40 (TAILOR_WRONG_UNIT; the sentence
 *    asks "did you mean 40 in (1016 mm)?");
 *  - chest_girth is not given (TAILOR_MISSING);
 *  - a default, found from extreme values, leaves its own range: the sentence asks for the measure itself
 *    (TAILOR_OUT_OF_RANGE);
 *  - two fields cannot be true of one coat (TAILOR_CONTRADICTION). The sentence names the fields, their values, which
 *    of them are assumed, and what is allowed; `low` and `high` of the fault are the limits for its field.
 *  The fault's table and index name the field. The client's row is looked at first, then the defaults, then
 *  contradictions.
 *
 *  Cost: some microseconds at most; no allocation. @since 0.3.0 */
TAILOR_API tailor_status tailor_order_resolve(const tailor_house *house, const double *client, size_t client_count,
                                              double *fields, int32_t *origins, size_t count, tailor_fault *fault);

/* ---- Altering after a fitting -------------------------------------------------------------------- */

/** Alter an order by what a fitting found: `deltas` holds, at a field's number, how much is added to the value in use
 *  (negative: taken away), in the field's unit; NaN where nothing changes. Out comes a new client's row in which each
 *  altered field is its resolved value (the client's, the house's or the rule's) plus its delta, whatever the rule
 *  would have said, and everything else is as it was given, or not given: a value that is left to a rule still follows
 *  the fields that its rule names.
 *
 *     deltas[TAILOR_FIELD_SIDE_LET_OUT] = 6;
 *     deltas[TAILOR_FIELD_ARM_LENGTH_LEFT] = -10;
 *
 *  Sides: where X_left is not given, its value in use is that of X, so a delta of X_left alone gives the left side a
 *  value of its own and leaves the right one. A delta of X speaks of both sides: it is added to X_left and X_right too
 *  where they have values of their own; of X and X_left together, the left side gets both.
 *
 *  In: the house (may be NULL), the client's row as tailor_order_resolve() takes it, and the deltas, `count` entries
 *  each; either may be NULL: nothing given, nothing changed. Out: `altered`, `count` entries; it may be the array
 *  `client`.
 *
 *  Fails, with nothing written but the fault, when the order does not resolve, before or after (as
 *  tailor_order_resolve); and for a delta
 *  - of a choice, to which nothing can be added (TAILOR_NOT_A_CHOICE), or that is infinite (TAILOR_NOT_FINITE);
 *  - of a number that the library has no row for (TAILOR_UNKNOWN_FIELD);
 *  - of a field that is neither given nor assumed, like front_shoulder (TAILOR_MISSING);
 *  - that leads out of the field's range (TAILOR_OUT_OF_RANGE): the sentence gives the value before, the delta, the
 *    outcome and what is allowed; the fault's value is the outcome;
 *  - of arm_length where sleeve_from_centre_back is given and stands in its place, or of that where one arm has a
 *    length of its own that would stay (TAILOR_CONTRADICTION).
 *  That the altered order makes a coat is for the draft and its checks to say.
 *
 *  Cost: some ten microseconds; no allocation. @since 0.3.0 */
TAILOR_API tailor_status tailor_order_alter(const tailor_house *house, const double *client, const double *deltas,
                                            double *altered, size_t count, tailor_fault *fault);

/* ---- Lengths as people type and read them ------------------------------------------------------- */

/** Read a typed length into mm: "102.5 cm", "1025 mm", "1025" (mm), "40 3/8 in", "40 3/8\"", "-1/2 in".
 *
 *  An optional sign, digits with at most one point and digits on either side of it, or digits and a fraction less
 *  than one ("3/8"), or such a fraction alone; then mm, cm, in or an inch mark (", and the typographic marks U+2033,
 *  U+201C, U+201D); spaces between and around. Nothing means mm, but a fraction needs its unit. Anything else is
 *  TAILOR_BAD_LENGTH, with the mend in the sentence: a comma, an exponent, hexadecimal, "nan", a second number, more
 *  than 17 figures or 30 decimals. The range is not looked at: that is tailor_order_resolve's matter.
 *
 *  The result is the double nearest to the length as written (1 in = 25.4 mm), whatever the locale; so 17 figures
 *  of a double are read back as the same double. TAILOR_BAD_ARGUMENT when text or mm is NULL. *mm is left alone on
 *  failure. @since 0.1.0 */
TAILOR_API tailor_status tailor_length_read(const char *text, double *mm, tailor_fault *fault);

/** How to print a length: in millimetres to the tenth, or with as many decimals as read back as the same double; in
 *  inches to the eighth or sixteenth. */
enum { TAILOR_PRINT_MM = 1, TAILOR_PRINT_EXACT = 2, TAILOR_PRINT_INCH_8 = 8, TAILOR_PRINT_INCH_16 = 16 };

/** Write a length without its unit: "1025", "20.3"; "40 3/8", "5/8", "-1/4", "0". Rounded to the nearest (halves away
 *  from zero) except with TAILOR_PRINT_EXACT, fractions in lowest terms, never "39 8/8", and "-0" for nothing but the
 *  exact -0.
 *
 *  `mm` from -1e6 to 1e6, else TAILOR_OUT_OF_RANGE; TAILOR_NOT_FINITE for NaN and infinity. `print` is a TAILOR_PRINT_.
 *  `text` takes the zero-terminated result; NULL with capacity 0 only asks. *needed (may be NULL when text is not)
 *  becomes the length without the terminating zero, as snprintf returns it, also when TAILOR_TOO_SMALL says that
 *  `capacity` bytes do not hold it; `text` is left alone then. 16 bytes are always enough, 48 for
 *  TAILOR_PRINT_EXACT.
 *  @since 0.1.0 */
TAILOR_API tailor_status tailor_length_write(double mm, int print, char *text, size_t capacity, size_t *needed);

/** Read a typed value of one row of a table: fields, constants, quantities or properties of cloth. Where the row's unit
 *  is mm, what tailor_length_read() reads; where it is another, a number, bare or with that unit ("21 deg", "300 g/m2",
 *  "5 %"); for a choice its name or one of its synonyms ("roll-by-cut", "notch"; capitals do not matter), giving its
 *  number.
 *
 *  The fault names the row and its range. TAILOR_BAD_LENGTH for text that is no such number, TAILOR_NOT_A_CHOICE
 *  (the sentence lists the choices), TAILOR_UNKNOWN_FIELD for a number without a row, TAILOR_BAD_ARGUMENT for NULL and
 *  for a row that has no unit. *value is left alone on failure. The range is not checked: tailor_order_resolve() does
 *  that. @since 0.3.0 */
TAILOR_API tailor_status tailor_value_read(const tailor_table *table, int number, const char *text, double *value,
                                           tailor_fault *fault);

/** Write a value of one row of a table so that tailor_value_read() reads it: "1016.3 mm", "40 3/8 in", "21.5 deg",
 *  "0.35" (a ratio or count has no unit), "roll-by-cut".
 *
 *  A choice is written by its name. Where the row's unit is mm, `print` (a TAILOR_PRINT_) says how, as in
 *  tailor_length_write(); any other number is written in as few decimals as read back as the same double, whatever
 *  `print` is, and so is a length with TAILOR_PRINT_EXACT. What reads back:
 *  - a choice, as its number;
 *  - a number written exactly, as the same double, from 1e-14 in size up to 1e15; a smaller one has 30 decimals and
 *    reads back within 1e-30;
 *  - a length in mm or inches as what is printed, rounded; written again it is the same text.
 *
 *  TAILOR_NOT_FINITE for NaN and infinity (what was not given has no text), TAILOR_NOT_A_CHOICE, TAILOR_OUT_OF_RANGE
 *  from 1e15 on (1e6 for a length that is rounded), TAILOR_BAD_ARGUMENT for a number without a row, a row without a
 *  unit, or no such print. `text`, `capacity` and `needed` as in tailor_length_write(); 64 bytes are always enough.
 *  The range is not checked. @since 0.3.0 */
TAILOR_API tailor_status tailor_value_write(const tailor_table *table, int number, double value, int print, char *text,
                                            size_t capacity, size_t *needed);

#ifdef __cplusplus
}
#endif
#endif

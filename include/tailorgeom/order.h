/* libtailorgeom: order -- fields, constants and quantities; resolving an order; lengths as people type them.
 *
 * A field is one number of an order (a body measure, a note on the figure, a choice of style); a constant is
 * one number of the cutter's own way of drafting; a quantity is one number measured off a finished coat.
 * Rows of them are plain double arrays indexed by the enums in order_tables.h: `row[TAILOR_FIELD_CHEST_GIRTH]`.
 * Entry 0 is unused. NaN means "not given". Choices are whole numbers from 1 (TAILOR_BUTTONING_TWO_BUTTON), so
 * that a zeroed array is never taken for an order. Only chest_girth has to be given.
 *
 *     double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
 *     tailor_fields_clear(client, TAILOR_FIELD_COUNT);
 *     client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
 *     status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0,
 *                                   row, TAILOR_FIELD_COUNT, NULL, 0, constants, TAILOR_CONSTANT_COUNT, &fault);
 *
 * Every array travels with its length. Going in, entries past that length are not given, and entries past what the
 * library knows must be NaN. Coming out, entries past what the library knows are set to NaN. So a program built
 * against one version runs with a later one. Nothing here allocates, reads the locale or keeps state: every function
 * may be called from any number of threads.
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

/** Fill a row of `count` entries with NaN: nothing given. For fields and constants alike. A NULL row is let be.
 *  @since 0.1.0 */
TAILOR_API void tailor_fields_clear(double *row, size_t count);

/** Where a resolved value came from: nobody (it stays NaN), the client's row, the house's row, the table's rule. */
enum { TAILOR_ORIGIN_NONE = 0, TAILOR_ORIGIN_CLIENT = 1, TAILOR_ORIGIN_HOUSE = 2, TAILOR_ORIGIN_RULE = 3 };

/** Make a full order out of what was given. For each field the client's value wins over the house's, and either over
 *  the rule in the field table (a linear form over other fields, or a function named there). A field that has no rule
 *  (front_shoulder and the other direct measures) stays NaN, with origin NONE, when nobody gives it. House constants
 *  that are not given take their default.
 *
 *  In: three rows in the units of the tables (mm, deg, g/m2; choices whole numbers), each of which may be NULL with
 *  count 0. Out: `fields`, `origins` (a TAILOR_ORIGIN_ each) and `constants`, in the caller's memory; each may be NULL
 *  with count 0, and an output may be the same array as an input.
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
 *  The fault's table and index name the field or constant; a fault in the house's rows says so.
 *  The client's row is looked at first, then the house's, then the defaults, then contradictions.
 *
 *  Cost: some microseconds at most; no allocation. @since 0.1.0 */
TAILOR_API tailor_status tailor_order_resolve(const double *client, size_t client_count,
                                              const double *house, size_t house_count,
                                              const double *house_constants, size_t house_constant_count,
                                              double *fields, size_t field_count,
                                              int32_t *origins, size_t origin_count,
                                              double *constants, size_t constant_count,
                                              tailor_fault *fault);

/** The predicate that resolving ends with and that drafting begins with: every value of a *resolved* row in its
 *  range, every choice a choice, no contradiction between fields. Whatever tailor_order_resolve gave passes.
 *  A NaN in a field that has a rule means that the row was not resolved: TAILOR_MISSING. Rows shorter than the library
 *  knows come from a program built against an earlier version: what came since takes its default.
 *  Fails as tailor_order_resolve does. Cost: about a microsecond; no allocation. @since 0.1.0 */
TAILOR_API tailor_status tailor_order_validate(const double *fields, size_t field_count,
                                               const double *constants, size_t constant_count, tailor_fault *fault);

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
 *  In: the client's and the house's fields as tailor_order_resolve takes them (house constants do not matter here), and
 *  the deltas; each may be NULL with count 0. Out: `altered`, in the caller's memory; it may be the array `client`.
 *
 *  Fails, with nothing written but the fault, when the order does not resolve, before or after (as
 *  tailor_order_resolve); and for a delta
 *  - of a choice, to which nothing can be added (TAILOR_NOT_A_CHOICE), or that is infinite (TAILOR_NOT_FINITE);
 *  - of a number that the library has no row for (TAILOR_UNKNOWN_FIELD);
 *  - of a field that is neither given nor assumed, like front_shoulder (TAILOR_MISSING);
 *  - that leads out of the field's range (TAILOR_OUT_OF_RANGE): the sentence tells the value before, the delta, the
 *    outcome and what is allowed; the fault's value is the outcome;
 *  - of arm_length where sleeve_from_centre_back is given and stands in its place, or of that where one arm has a
 *    length of its own that would stay (TAILOR_CONTRADICTION).
 *  That the altered order makes a coat is for the draft and its checks to say.
 *
 *  Cost: some ten microseconds; no allocation. @since 0.2.0 */
TAILOR_API tailor_status tailor_order_alter(const double *client, size_t client_count,
                                            const double *house, size_t house_count,
                                            const double *deltas, size_t delta_count,
                                            double *altered, size_t altered_count, tailor_fault *fault);

/* ---- Lengths as people type and read them ------------------------------------------------------- */

/** Read a typed length into mm: "102.5 cm", "1025 mm", "1025" (mm), "40 3/8 in", "40 3/8\"", "-1/2 in".
 *
 *  An optional sign, digits with at most one point and digits on either side of it, or digits and a fraction less
 *  than one ("3/8"), or such a fraction alone; then mm, cm, in or an inch mark (", and the typographic marks U+2033,
 *  U+201C, U+201D); spaces between and around. Nothing means mm, but a fraction needs its unit. Anything else is
 *  TAILOR_BAD_LENGTH, with the mend in the sentence: a comma, an exponent, hexadecimal, "nan", a second number, more
 *  than 17 figures or 18 decimals. The range is not looked at: that is tailor_order_resolve's matter.
 *
 *  The result is the double nearest to the length as written (1 in = 25.4 mm), whatever the locale; so 17 figures
 *  of a double are read back as the same double. TAILOR_BAD_ARGUMENT when text or mm is NULL. *mm is left alone on
 *  failure. @since 0.1.0 */
TAILOR_API tailor_status tailor_length_read(const char *text, double *mm, tailor_fault *fault);

/** How to print a length: in millimetres to the tenth, or in inches to the eighth or sixteenth. */
enum { TAILOR_PRINT_MM = 1, TAILOR_PRINT_INCH_8 = 8, TAILOR_PRINT_INCH_16 = 16 };

/** Write a length without its unit: "1025", "20.3"; "40 3/8", "5/8", "-1/4", "0". Rounded to the nearest (halves away
 *  from zero), fractions in lowest terms, never "-0" and never "39 8/8".
 *
 *  `mm` from -1e6 to 1e6, else TAILOR_OUT_OF_RANGE; TAILOR_NOT_FINITE for NaN and infinity. `print` is a TAILOR_PRINT_.
 *  `text` takes the zero-terminated result; NULL with capacity 0 only asks. *needed (may be NULL when text is not)
 *  becomes the length without the terminating zero, as snprintf returns it, also when TAILOR_TOO_SMALL says that
 *  `capacity` bytes do not hold it; `text` is left alone then. 16 bytes are always enough.
 *  @since 0.1.0 */
TAILOR_API tailor_status tailor_length_write(double mm, int print, char *text, size_t capacity, size_t *needed);

/** Read the typed value of one field (a TAILOR_FIELD_ number): for a field in mm what tailor_length_read reads; for
 *  one in deg, g/m2 or another unit a number, bare or with that unit ("21 deg", "300 g/m2"); for a choice its name
 *  ("roll-by-cut", capitals are no matter), giving its number.
 *
 *  The fault names the field and its range. TAILOR_BAD_LENGTH for text that is no such number, TAILOR_NOT_A_CHOICE
 *  (the sentence lists the choices), TAILOR_UNKNOWN_FIELD for a number without a row, TAILOR_BAD_ARGUMENT for NULL.
 *  *value is left alone on failure. The range is not looked at. @since 0.1.0 */
TAILOR_API tailor_status tailor_field_read(int field, const char *text, double *value, tailor_fault *fault);

/** The same for one house constant (a TAILOR_CONSTANT_ number). @since 0.1.0 */
TAILOR_API tailor_status tailor_constant_read(int constant, const char *text, double *value, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif

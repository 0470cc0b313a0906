/* json_out: rows and patterns as JSON.
 *
 * Members stand in the order of the tables; numbers are written so that they read back as the same double; a value
 * that does not exist is null. Every document begins with "format", "format_version" and "edition". */
#ifndef CLI_JSON_OUT_H
#define CLI_JSON_OUT_H

#include "buffer.h"
#include "drafted.h"

#include <jansson.h>

/** The form that patterns are written and read in. 1 (0.2.0) had one stretch a side of a seam. */
enum { PATTERN_VERSION = 2 };
/** The form of a ticket. 1 (0.2.0) had cautions that were texts. */
enum { TICKET_VERSION = 2 };

/** A document begun: {"format": "tailorgeom-KIND", "format_version": 1, "edition": ...}; kinds that hold patterns are
 * of PATTERN_VERSION, a ticket of TICKET_VERSION. */
json_t *json_document(const char *kind);

/** Add a member. False, also for a NULL value, when memory has run out; the value is taken over either way. */
bool json_put(json_t *object, const char *name, json_t *value);
/** Add to an array, likewise. */
bool json_add(json_t *array, json_t *value);

/** What was made, if it is good; when memory ran out in the making it is given back, and NULL stands for it. */
json_t *json_whole(json_t *made, bool good);

/** A number, or null for what is not finite. */
json_t *json_number(double value);
/** A field's value: a choice by its name, else a number. */
json_t *json_field_value(int field, double value);

/** {name: value} of a row; {name: {"value", "origin"}} of the fields. */
json_t *json_quantities(const drafted *d);
json_t *json_constants(const drafted *d);
json_t *json_fields(const drafted *d);
/** [{"name", "value", "limit", "sense", "unit", "pass"}]; "pass" is null for a check that this coat does not have. */
json_t *json_checks(const drafted *d);
/** [names] of the measures for want of which the coat is for a toile only. */
json_t *json_toile(const drafted *d);
/** [{"caution", "class", "value", "sentence"}], what a cutter should know of the coat; "class": "caution" or "told". */
json_t *json_cautions(const drafted *d);
/** One of them, of a TAILOR_CAUTION_CLASS_; a name of NULL is null. */
json_t *json_caution(const char *name, int weight, double value, const char *sentence);

/** A document of the kind "pattern" begun: its edition is the pattern's, 0 for no draft; its style follows, and whether
 * it is for a toile only. */
json_t *json_pattern_document(const tailor_pattern *pattern);
/** {name: choice} of what a pattern was drafted as. */
json_t *json_style(const tailor_pattern *pattern);
/** A path: [[[x, y] four times] for each cubic]. Pieces and seams of a pattern. json_pattern.c. */
json_t *json_path(const tailor_cubic *path, size_t count);
json_t *json_pieces(const tailor_pattern *pattern);
json_t *json_seams(const tailor_pattern *pattern);

/** All of a coat: fields, constants, quantities, checks, pieces, seams. */
json_t *json_coat(const drafted *d);

/** json_text.c: the document as a line of text, numbers to the last bit; it is given back. False when memory ran out,
 *  which a NULL document means already. */
bool json_text(json_t *document, buffer *text);

/** Print the document on standard output and give it back. An exit status; NULL means that memory ran out. */
int json_print(json_t *document);

#endif

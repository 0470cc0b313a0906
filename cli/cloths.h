/* cloths: cloths and canvases by name. The project's own, shared/cloths.csv, are compiled in; a file of the user's lies
 * over them. A name on a card, in a table or in --by stands for the nine fields that its numbers fill; the library
 * knows no name. */
#ifndef CLI_CLOTHS_H
#define CLI_CLOTHS_H

#include <stdbool.h>
#include <tailorgeom/cloth.h>
#include <tailorgeom/order.h>

struct buffer;

typedef struct cloth_row {
    const char *name, *use, *source; /* use and source may be "" in a file of the user's */
    double properties[TAILOR_CLOTH_COUNT];
} cloth_row;

/** The project's: written by generate_cloths.py. */
extern const cloth_row cloth_rows[];
extern const size_t cloth_row_count;

/** What a name is given for: fields that begin with it hold the properties. */
enum { CLOTH_PLACE, CANVAS_PLACE, CLOTH_PLACES };
extern const char *const cloth_places[CLOTH_PLACES];

/** The place that a key or column names, CLOTH_PLACES for none. */
int cloth_place_of(const char *key);
/** The field that a property of the cloth in a place fills. */
int cloth_field(int place, int property);
/** The place that a field's value may come from by name, CLOTH_PLACES for a field that is no property of a cloth. */
int cloth_place_of_field(int field);

/** Lay a file of the user's over the project's. False when it was refused; said. Once, before anything is looked up. */
bool cloths_read(const char *path);
/** The file read so, as messages call it; NULL for none. */
const char *cloths_file(void);
/** How many there are: those of the file first, then the project's that the file does not name. */
size_t cloths_count(void);
const cloth_row *cloths_at(size_t place);
/** True for one of the file's. */
bool cloths_from_file(const cloth_row *row);
/** The cloth of that name, NULL for none. */
const cloth_row *cloths_find(const char *name);
/** Why there is no such cloth: a sentence with the nearest name. */
enum { CLOTH_SENTENCE = 216 };
void cloths_unknown(const char *name, char sentence[CLOTH_SENTENCE]);

/** The bytes by which the file's rows differ from those of another file; nothing without one. */
void cloths_bytes(struct buffer *bytes);

#endif

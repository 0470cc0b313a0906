/* phrases: what a cutter writes after a fitting, and which field it changes. The table is shared/fitting_notes.csv,
 * compiled in. */
#ifndef CLI_PHRASES_H
#define CLI_PHRASES_H

#include <stdbool.h>
#include <stddef.h>

typedef struct phrase_row {
    const char *phrase; /* words in small letters; rows with the same words add up */
    int field;          /* a TAILOR_FIELD_ in mm */
    double factor;      /* of the amount */
    int instead;        /* the field that changes in its place where that is given, 0 for none */
    const char *meaning, *provenance;
} phrase_row;

extern const phrase_row phrase_table[];
extern const size_t phrase_count;

enum { PHRASE_TEXT = 64 };

/** The words of a note as they are compared: an s at their end does not count. */
void phrase_key(const char *words, char key[PHRASE_TEXT]);
/** The first row of the phrase that these words are, or phrase_count. Its other rows follow. */
size_t phrase_find(const char *words);
/** True when both rows are of one phrase. */
bool phrase_same(size_t a, size_t b);
/** The phrase that misspelt words come nearest to, NULL when none is near. */
const char *phrase_nearest(const char *words);

/** The table for people, or as JSON: an exit status. */
int phrases_list(bool json);

#endif

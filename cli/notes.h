/* notes: a file of what was found at a fitting, a line each, as a cutter writes it.
 *
 *     date = 2026-11-25
 *     let out side seam 6 mm each
 *     shorten sleeve left 10
 *     break_rise = -2 mm
 *
 * A note is a phrase of phrases.h with an amount in mm, or with a unit, and left or right where its field has sides; or
 * a field, an equals sign and a signed amount. Lines that begin with # or ; are comments. */
#ifndef CLI_NOTES_H
#define CLI_NOTES_H

#include "card.h"

enum { NOTES_MOST = 100, NOTE_CHANGES_MOST = 4 };

typedef struct note {
    card_place place;
    char text[CARD_LINE_BYTES_MOST + 1]; /* the line, without the blanks around it */
    int change_count;
    struct {
        int field;
        double delta;
    } changes[NOTE_CHANGES_MOST];
} note;

typedef struct notes {
    const char *source;
    char date[DATE_TEXT]; /* "" when the file tells none */
    size_t count;
    note list[NOTES_MOST];
} notes;

/** Read a file of notes for a card: where a field of the card stands in for another, the note means that. False when a
 *  line was refused, or notes contradict one another; said. */
bool notes_read(notes *n, const card *c, const char *path);

#endif

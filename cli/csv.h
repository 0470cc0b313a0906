/* csv: comma-separated records, read strictly and written so that they read back.
 *
 * A record is cells with commas between, and ends with a line feed, alone or after a carriage return; the last may end
 * with the text. A cell that begins with a quote ends with one; within, commas and line ends are part of it, and a
 * quote stands twice. Everything else that holds a quote, a carriage return or a NUL is refused: it is the way in which
 * broken tables look, and a guess would move cells from one column to another without a word. (RFC 4180.) */
#ifndef CLI_CSV_H
#define CLI_CSV_H

#include "buffer.h"

/** A cell as it stands in the text, quotes included. */
typedef struct csv_cell {
    const char *text;
    size_t length;
} csv_cell;

enum { CSV_RECORD, CSV_MORE, CSV_MALFORMED };

typedef struct csv_found {
    size_t length;       /* of the record without its line end */
    size_t used;         /* with it */
    size_t cells;        /* how many it has, be there room for them or not */
    const char *trouble; /* what is malformed: a sentence */
    size_t trouble_at;   /* and where, in bytes from the beginning */
} csv_found;

/** Find the record that a text begins with, and its first `room` cells. CSV_MORE when it does not end within the text;
 *  `at_end` tells that no more text follows. */
int csv_record(const char *text, size_t bytes, bool at_end, csv_cell *cells, size_t room, csv_found *found);

/** What a cell says, without its quotes and the blanks around it, into `text` (cell.length + 1 bytes). Returns its
 * length. */
size_t csv_say(csv_cell cell, char *text);

/** Add a text as a cell, in quotes if it needs them. */
void csv_add(buffer *b, const char *text);

#endif

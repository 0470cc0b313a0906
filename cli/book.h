/* book: an order book drafted into folders, one an order.
 *
 *     DIR/0077/pattern.json, pattern.svg, ...   everything of order 0077
 *     DIR/summary.csv                           a line an order: its cells, its folder, quantities, status, message
 *     DIR/manifest.sha256                       a hash for each file, as sha256sum -c takes it
 *     DIR/book.json                             what the book was made from
 *
 * A folder is written under a name of its own and renamed when it is whole. summary.csv.part and its state (rows_out.h)
 * tell how far a run is: a line stands there after its folder does. manifest.sha256.part is never behind it. */
#ifndef CLI_BOOK_H
#define CLI_BOOK_H

#include "book_names.h"
#include "drafted.h"
#include "rows_plan.h"
#include "rows_ring.h"
#include "sizes.h"

enum { BOOK_FILES_MOST = 8, BOOK_CHUNK_ROWS = 4, BOOK_TICKET = -1 };

/** What a worker of the book reads; nobody writes it while they work. */
typedef struct book {
    rows_plan plan;
    book_names names;
    sizes sizes; /* without a table where --sizes was not given */
    int sheets[BOOK_FILES_MOST]; /* TAILOR_SHEET_ or BOOK_TICKET, in the order of the files */
    size_t sheet_count;
    bool anonymous;
    int root; /* DIR, open */
} book;

enum { ROLE_ORDER, ROLE_NAME, ROLE_SIZE, ROLE_FIT };

/** A file of an order. */
typedef struct book_file {
    const char *name;
    buffer bytes;
} book_file;

/* ---- book_files.c */

/** --sheets; the names with commas between. False when one is unknown or twice; said. */
bool book_take_sheets(book *b, const char *names);
/** The name of a sheet's file by its format. */
const char *book_sheet_name(int format);
/** Begin the next file of a folder: its bytes, empty. */
buffer *book_next_file(book_file *files, size_t *count, const char *name);
/** All files of a coat, `files` having room for BOOK_FILES_MOST whose buffers are used again. Zero, or a status with
 *  its fault. */
tailor_status book_make_files(const book *b, const card *c, const drafted *d, book_file *files, size_t *count,
                              tailor_fault *fault);

/* ---- book_folder.c */

/** Write an order's folder under the name of the thread's own and put it in its place; one that is there is whole and
 *  stays. Zero, or an errno; then nothing of it is left, and `path` (as messages tell it) is what could not be
 *  written. */
int book_write_folder(int root, int thread, const char *folder, const book_file *files, size_t count, buffer *path);
/** Remove what a run that was broken off has left unfinished. */
void book_remove_unfinished(int root);
/** Whether there is nothing in it. */
bool book_is_empty(int root);

/* ---- book_work.c */

/** The trade of the ring; its plan is a book. `beside` are the manifest's lines. */
extern const rows_trade book_drafting;

#endif

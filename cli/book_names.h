/* book_names: which order goes into which folder, known before the first is drafted.
 *
 * An order's number names its folder. What a file system somewhere cannot bear becomes a hyphen: / \ : * ? " < > |,
 * what is no letter or sign at all, bytes that are no UTF-8, a dot at the beginning or the end. Two names are one
 * folder when they differ only in capitals; then both orders are refused, since nobody knows which of them is meant. */
#ifndef CLI_BOOK_NAMES_H
#define CLI_BOOK_NAMES_H

#include "csv.h"

#include <stdint.h>

enum { FOLDER_BYTES_MOST = 100 };

typedef struct book_order {
    int line;       /* of the table */
    int other;      /* line of another order of the same folder, 0 when there is none */
    size_t folder;  /* its name begins there in `text`; "" when the order has no number */
} book_order;

typedef struct book_names {
    book_order *orders;
    size_t count, room;
    buffer text;
    uint32_t *slots; /* 1 + an order with a folder, found by its name's hash; 0 where free */
    size_t slot_count;
    bool failed;     /* memory ran out */
} book_names;

/** Add the next order of the table. */
void book_names_add(book_names *n, int line, csv_cell number);
void book_names_free(book_names *n);

const char *book_folder_name(const book_names *n, size_t order);
/** Why an order gets no folder, "" when it gets one. */
void book_name_trouble(const book_names *n, size_t order, char *text, size_t capacity);

#endif

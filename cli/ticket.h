/* ticket: what the workroom is told of a coat, as a list of lines that can be printed, set on a page or written as
 * JSON.
 *
 * Every number on it is taken from a row of a table, by name, and remembered with its line. A name that the library
 * does not have, or a value that this coat does not have, leaves its line out:
 *
 *     ticket_heading(t, "Finished measures");
 *     ticket_row(t, "collar");
 *     ticket_put_in(t, "stand ", TICKET_FIELDS, "collar_stand", "");
 *     ticket_put_in(t, ", fall ", TICKET_FIELDS, "collar_fall", "");
 *     ticket_end(t);
 */
#ifndef CLI_TICKET_H
#define CLI_TICKET_H

#include "buffer.h"
#include "complain.h"
#include "drafted.h"

#include <jansson.h>
#include <tailorgeom/sheet.h>

/** The kinds of its lines are the TAILOR_LINE_ of base.h. */
enum { TICKET_LINES_MOST = 300, TICKET_VALUES_MOST = 300, TICKET_LABEL = 64 };

/** A blank at which no line ends: between a number and its unit. In print and JSON it is a blank like any other. */
#define TICKET_BLANK "\xC2\xA0"

enum { TICKET_FIELDS, TICKET_CONSTANTS, TICKET_QUANTITIES, TICKET_TABLES };

typedef struct ticket_value {
    int table, number; /* a TICKET_ of the tables, and its row */
} ticket_value;

typedef struct ticket_line {
    int kind;
    bool of_page; /* on the page, the page's coat tells it */
    char label[TICKET_LABEL];
    size_t text;                     /* where its text begins in `texts`, zero-terminated */
    size_t first_value, value_count; /* what its text was written from */
} ticket_line;

typedef struct ticket {
    const card *c;
    const drafted *d;
    int print;      /* a TAILOR_PRINT_ */
    buffer texts;
    const char *heading; /* of the next line, NULL once it stands */
    bool open;           /* a line is being written: the last */
    bool full;           /* a line or value was lost for want of room */
    ticket_line lines[TICKET_LINES_MOST];
    size_t count;
    ticket_value values[TICKET_VALUES_MOST];
    size_t value_count;
} ticket;

/* ---- ticket.c: the whole of it; c, d and print are set */

/** All lines, in the order in which a maker asks for them. NULL, or what went wrong; nothing is said. */
const char *ticket_fill(ticket *t);
/** Its page; as tailor_sheet_draw_ticket() does. */
tailor_status ticket_draw(const ticket *t, const tailor_page *page, tailor_writer write, void *user,
                          tailor_fault *fault);

/* ---- ticket_lines.c: lines, one after another */

/** Lines from here on stand under a heading; it is not there if none follows. The string must outlive the ticket. */
void ticket_heading(ticket *t, const char *heading);
/** Begin a line; what is said and put goes into it until ticket_end, which drops it when nothing did. */
void ticket_begin(ticket *t, int kind, const char *label);
void ticket_row(ticket *t, const char *label);
void ticket_end(ticket *t);
void ticket_say(ticket *t, const char *format, ...) CLI_FORMAT(2, 3);
/** A value as people read it, with its unit. False when it does not exist; then nothing was said. */
bool ticket_put(ticket *t, int table, const char *name);
/** The same between two texts, which are said only with it. */
bool ticket_put_in(ticket *t, const char *before, int table, const char *name, const char *after);
/** A length between two texts, without its sign: they tell the way. */
bool ticket_put_size(ticket *t, const char *before, int table, const char *name, const char *after);
/** One value for both sides of the wearer, or "left .., right .." where they are not written alike. */
bool ticket_put_sides(ticket *t, int table, const char *left, const char *right);
/** Diameter of a button in mm and in ligne. */
bool ticket_put_button(ticket *t, int table, const char *name);

const tailor_table *ticket_table(int table);
const char *ticket_table_name(int table);
/** A row's value, NaN when there is no such row or value. */
double ticket_value_of(const ticket *t, int table, const char *name);
double ticket_value_at(const ticket *t, ticket_value at);
/** A choice in use, 0 for none. */
int ticket_choice(const ticket *t, const char *field);
/** Index of the front with the holes: one forepart for both sides, or that of the side on top. */
int ticket_front(const ticket *t);

/* ---- what stands on it, in the order of the work */

void ticket_tell_head(ticket *t);     /* ticket_order.c */
void ticket_tell_style(ticket *t);    /* ticket_order.c */
void ticket_tell_measures(ticket *t); /* ticket_order.c */
void ticket_tell_figure(ticket *t);   /* ticket_order.c */
void ticket_tell_assumed(ticket *t);  /* ticket_order.c */
void ticket_tell_cautions(ticket *t); /* ticket_cautions.c */
void ticket_tell_pieces(ticket *t);   /* ticket_pieces.c */
void ticket_tell_buttons(ticket *t);  /* ticket_buttons.c */
void ticket_tell_making(ticket *t);   /* ticket_making.c: canvas, roll, pads, ease and iron, inlays */

enum { TICKET_HOLES_MOST = 6 };
typedef struct ticket_hole {
    int number;             /* from the top */
    int face;               /* 1 out, 2 in, 3 both, 0 when the library does not tell */
    bool given;             /* by the order, not by buttoning */
    double length, to_edge; /* slit, and its eye from the edge, level; mm, NaN when unknown */
    int shows, shows_rolled; /* 1 its worked face, 2 its reverse, 0 when that does not exist */
} ticket_hole;
/** The holes of the front that has them. Returns how many. */
size_t ticket_holes(const ticket *t, ticket_hole holes[TICKET_HOLES_MOST]);

/* ---- ticket_out.c */

void ticket_print(const ticket *t, const char *title);
json_t *ticket_json(const ticket *t, const char *title);

#endif

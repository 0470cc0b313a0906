/* ticket_pieces: what is cut, of which cloth and how often. */
#include "ticket.h"

#include <stdio.h>
#include <string.h>
#include <tailorgeom/sheet.h>

static const char *cloth_of(const tailor_pattern *p, int piece)
{
    const char *cloth = tailor_piece_cloth(p, piece);
    return cloth ? cloth : "";
}

/* What the trade calls a piece; of one that the table does not have, its name. */
static void name_of(const tailor_pattern *p, int piece, char name[TICKET_LABEL])
{
    int number = tailor_piece_number(p, piece);
    const char *term = number ? tailor_table_text(tailor_piece_table(), number, TAILOR_COLUMN_TERM) : "";
    snprintf(name, TICKET_LABEL, "%s", term && term[0] ? term : tailor_piece_name(p, piece));
    for (char *at = name; *at; at++)
        if (*at == '_')
            *at = ' ';
}

/* True for a piece that stands right after its fellow of the other side. */
static bool is_other_side(const tailor_pattern *p, int piece)
{
    return piece > 0 && tailor_piece_number(p, piece) && !tailor_piece_mirrored(p, piece) &&
           tailor_piece_number(p, piece) == tailor_piece_number(p, piece - 1) &&
           tailor_piece_side(p, piece) != tailor_piece_side(p, piece - 1);
}

static const char *side_of(const tailor_pattern *p, int piece)
{
    int side = tailor_piece_side(p, piece);
    return side == TAILOR_SIDE_LEFT ? " left" : side == TAILOR_SIDE_RIGHT ? " right" : "";
}

static void tell_piece(ticket *t, int piece)
{
    const tailor_pattern *p = t->d->pattern;
    char name[TICKET_LABEL];
    int cut = tailor_piece_copies(p, piece), mirrored = tailor_piece_mirrored(p, piece);
    name_of(p, piece, name);
    ticket_row(t, name);
    if (is_other_side(p, piece + 1))
        ticket_say(t, "%d%s, %d%s: not alike", cut, side_of(p, piece), tailor_piece_copies(p, piece + 1),
                   side_of(p, piece + 1));
    else if (mirrored)
        ticket_say(t, cut == 1 ? "1, on the fold" : cut == 2 ? "2, mirrored" : "%d, half of them mirrored", cut);
    else
        ticket_say(t, "%d%s", cut, side_of(p, piece));
    ticket_end(t);
}

static void tell_cloth(ticket *t, const char *cloth)
{
    const tailor_pattern *p = t->d->pattern;
    int pieces = 0, count = tailor_pattern_piece_count(p);
    char words[TICKET_LABEL];
    snprintf(words, sizeof words, "%s", cloth);
    for (char *at = words; *at; at++)
        if (*at == '_')
            *at = ' ';
    for (int i = 0; i < count; i++)
        pieces += strcmp(cloth_of(p, i), cloth) == 0 ? tailor_piece_copies(p, i) : 0;
    ticket_begin(t, TAILOR_LINE_GROUP, words);
    ticket_say(t, "%d in all", pieces);
    ticket_end(t);
    for (int i = 0; i < count; i++)
        if (strcmp(cloth_of(p, i), cloth) == 0 && !is_other_side(p, i))
            tell_piece(t, i);
}

void ticket_tell_pieces(ticket *t)
{
    const tailor_pattern *p = t->d->pattern;
    ticket_heading(t, "Pieces");
    for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
        bool new = true;
        for (int k = 0; k < i; k++)
            new = new && strcmp(cloth_of(p, k), cloth_of(p, i)) != 0;
        if (new)
            tell_cloth(t, cloth_of(p, i));
    }
}

/* Is it a coat? Who builds a pattern may call a piece "back" and give it whatever edges and marks; measuring asks for
 * these, with at least so many curves. A shawl has neither lapel step nor collar end. */
#include "../pattern/fastening.h"
#include "view.h"

#include "../base/fault.h"

#define E(piece, name, least)                                                                                          \
    {                                                                                                                  \
        TAILOR_PIECE_##piece, 0, TAILOR_EDGE_##name, least                                                             \
    }
#define M(piece, name, least)                                                                                          \
    {                                                                                                                  \
        TAILOR_PIECE_##piece, 1, TAILOR_MARKED_##name, least                                                           \
    }

static const struct part {
    int piece, is_mark, number;
    size_t least;
} needed[] = {
    E(BACK, CENTRE_BACK, 1),
    E(BACK, HEM, 1),
    E(BACK, BACK_SEAM, 1),
    E(BACK, SCYE, 1),
    E(BACK, SHOULDER, 1),
    E(BACK, NECK, 1),
    E(SIDEBODY, BACK_SEAM, 1),
    E(SIDEBODY, HEM, 1),
    E(SIDEBODY, FRONT_SEAM, 1),
    E(SIDEBODY, SCYE, 1),
    E(FOREPART, FRONT_SEAM, 1),
    E(FOREPART, HEM, 1),
    E(FOREPART, FRONT_EDGE, 1),
    E(FOREPART, LAPEL_EDGE, 1),
    E(FOREPART, GORGE, 1),
    E(FOREPART, SHOULDER, 1),
    E(FOREPART, SCYE, 1),
    E(TOPSLEEVE, HINDARM_SEAM, 1),
    E(TOPSLEEVE, CUFF, 1),
    E(TOPSLEEVE, FOREARM_SEAM, 1),
    E(TOPSLEEVE, CROWN, 1),
    E(UNDERSLEEVE, HINDARM_SEAM, 1),
    E(UNDERSLEEVE, CUFF, 1),
    E(UNDERSLEEVE, FOREARM_SEAM, 1),
    E(UNDERSLEEVE, CROWN, 1),
    E(UNDER_COLLAR, CENTRE_BACK, 1),
    E(UNDER_COLLAR, NECK, 2),
    E(UNDER_COLLAR, LEAF, 1),
    M(UNDER_COLLAR, CREASE, 2),
    M(FOREPART, LAPEL_TURNED, 3),
    M(FOREPART, BREAST_WELT, 4),
    M(FOREPART, HIP_POCKET, 1),
};

static tailor_status lacks_piece(int number, tailor_fault *fault)
{
    return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, tailor_piece_table(), number, NAN, NAN, NAN,
                           "the pattern is no coat: it has no piece %n for one of the sides");
}

static tailor_status lacks_part(const struct tailor_in_view *v, const struct part *part, size_t count,
                                tailor_fault *fault)
{
    const tailor_table *table = part->is_mark ? tailor_mark_table() : tailor_edge_table();
    tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, table, part->number, (double)count, (double)part->least, NAN,
                    part->is_mark ? "the pattern is no coat: the mark %n has %v curves, at least %l are needed, on "
                                  : "the pattern is no coat: the edge %n has %v curves, at least %l are needed, on ");
    tailor_in_fault_say(fault, tailor_table_text(tailor_piece_table(), part->piece, TAILOR_COLUMN_NAME));
    return tailor_in_fault_at(fault, TAILOR_BAD_ARGUMENT, (size_t)v->piece[tailor_in_net_piece[part->piece]]);
}

tailor_status tailor_in_view_whole(const struct tailor_in_view *v, tailor_fault *fault)
{
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        const struct part *part = &needed[i];
        int piece = tailor_in_net_piece[part->piece];
        if (v->piece[piece] < 0)
            return lacks_piece(part->piece, fault);
        size_t count = part->is_mark ? v->mark[piece][part->number].count
                                     : v->edge[piece][tailor_in_net_edge[part->number]].count;
        if (count < part->least)
            return lacks_part(v, part, count, fault);
    }
    for (int i = 0; i < TAILOR_IN_FASTENINGS; i++) { /* a button is a circle of four quarters */
        const struct part button = {TAILOR_PIECE_FOREPART, 1, tailor_in_button_marks[i], 4};
        size_t count = v->mark[TAILOR_IN_NET_PIECE_FOREPART][button.number].count;
        if (count && count < button.least)
            return lacks_part(v, &button, count, fault);
    }
    return TAILOR_OK;
}

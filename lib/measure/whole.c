/* Is it a coat? Who builds a pattern may call a piece "back" and give it whatever edges and marks; measuring asks for
 * these, with at least so many curves. A shawl has neither lapel step nor collar end. */
#include "../pattern/fastening.h"
#include "view.h"

#define E(piece, name, least)                                                                                          \
    {                                                                                                                  \
        TAILOR_IN_NET_PIECE_##piece, 0, TAILOR_IN_NET_EDGE_##name, least                                               \
    }
#define M(piece, name, least)                                                                                          \
    {                                                                                                                  \
        TAILOR_IN_NET_PIECE_##piece, 1, TAILOR_MARKED_##name, least                                                    \
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

int tailor_in_view_whole(const struct tailor_in_view *v)
{
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        const struct part *part = &needed[i];
        if (v->piece[part->piece] < 0)
            return 0;
        size_t count =
            part->is_mark ? v->mark[part->piece][part->number].count : v->edge[part->piece][part->number].count;
        if (count < part->least)
            return 0;
    }
    for (int i = 0; i < TAILOR_IN_FASTENINGS; i++) { /* a button is a circle of four quarters */
        size_t count = v->mark[TAILOR_IN_NET_PIECE_FOREPART][tailor_in_button_marks[i]].count;
        if (count && count < 4)
            return 0;
    }
    return 1;
}

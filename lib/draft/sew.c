/* The seams of the draft's pieces, and how a seam is put into a pattern that may have pieces of both sides. */
#include "assemble.h"

/** Index of the piece of that number that serves a side; -1 if there is none. */
static int serving(const tailor_pattern *p, int number, int side)
{
    const struct tailor_in_piece *pieces = TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES);
    for (int i = 0; i < p->count[TAILOR_IN_PIECES]; i++)
        if (pieces[i].number == number && (pieces[i].mirrored || pieces[i].side == side))
            return i;
    return -1;
}

/** A stretch in the pattern's own terms. A left piece is a mirror image: its edges run the other way. */
static tailor_stretch stretch_of(const tailor_pattern *p, int index, tailor_in_sewn sewn)
{
    const struct tailor_in_piece *piece = TAILOR_IN_SEE(p, struct tailor_in_piece, TAILOR_IN_PIECES) + index;
    const struct tailor_in_edge *edges = TAILOR_IN_SEE(p, struct tailor_in_edge, TAILOR_IN_EDGES) + piece->first_edge;
    for (int i = 0; i < piece->edge_count; i++)
        if (edges[i].number == sewn.edge) {
            tailor_stretch stretch = {index, i, sewn.from, sewn.to};
            if (piece->side == TAILOR_SIDE_LEFT && !piece->mirrored) {
                const tailor_cubic *c = TAILOR_IN_SEE(p, tailor_cubic, TAILOR_IN_CUBICS) + edges[i].first_cubic;
                double whole = tailor_path_length(c, (size_t)edges[i].cubic_count);
                stretch.from = sewn.from < 0 ? 0 : sewn.from > 0 ? whole - sewn.from : -1;
                stretch.to = sewn.to < 0 ? 0 : sewn.to > 0 ? whole - sewn.to : -1;
            }
            return stretch;
        }
    return (tailor_stretch){-1, -1, 0, 0};
}

void tailor_in_sew_sides(const tailor_in_sewing *s, const char *name, double ease, const tailor_in_sewn *sewn,
                         const int count[2])
{
    int both = 1;
    for (int i = 0; i < count[0] + count[1]; i++) {
        int piece = serving(s->pattern, sewn[i].piece, s->side);
        if (piece < 0)
            return; /* a piece that this coat does not have */
        both &= TAILOR_IN_SEE(s->pattern, struct tailor_in_piece, TAILOR_IN_PIECES)[piece].mirrored;
    }
    if (both && s->side == TAILOR_SIDE_LEFT)
        return; /* put in with the right side */
    tailor_in_add_seam(s->pattern, name, both ? "" : tailor_in_side_suffix(s->side), ease);
    for (int i = 0; i < count[0] + count[1]; i++)
        tailor_in_add_stretch(s->pattern, i >= count[0],
                              stretch_of(s->pattern, serving(s->pattern, sewn[i].piece, s->side), sewn[i]));
}

void tailor_in_sew(const tailor_in_sewing *s, const char *name, double ease, tailor_in_sewn a, tailor_in_sewn b)
{
    const tailor_in_sewn sewn[2] = {a, b};
    static const int one_each[2] = {1, 1};
    tailor_in_sew_sides(s, name, ease, sewn, one_each);
}

#define SEWN(piece, edge, from, to) (tailor_in_sewn){TAILOR_PIECE_##piece, TAILOR_EDGE_##edge, from, to}

void tailor_in_sew_body(const tailor_in_sewing *s)
{
    const tailor_in_draft *d = s->draft;
    const double *f = d->f, *k = d->k, end = -1;
    tailor_in_sew(s, "back_seam", k[TAILOR_CONSTANT_BLADE_EASE], SEWN(BACK, BACK_SEAM, 0, end),
                  SEWN(SIDEBODY, BACK_SEAM, end, 0));
    tailor_in_sew(s, "front_seam", 0, SEWN(SIDEBODY, FRONT_SEAM, 0, end), SEWN(FOREPART, FRONT_SEAM, end, 0));
    tailor_in_sew(s, "shoulder", f[TAILOR_FIELD_SHOULDER_EASE], SEWN(BACK, SHOULDER, 0, end),
                  SEWN(FOREPART, SHOULDER, end, 0));
    double back_neck = tailor_cubic_length(&d->back_neck);
    tailor_in_sew(s, "back_neck", 0, SEWN(UNDER_COLLAR, NECK, 0, back_neck), SEWN(BACK, NECK, end, 0));
    tailor_in_sew(s, "gorge", 0, SEWN(UNDER_COLLAR, NECK, back_neck, end), SEWN(FOREPART, GORGE, end, 0));
    tailor_in_sew(s, "forearm_seam", -k[TAILOR_CONSTANT_FOREARM_STRETCH], SEWN(TOPSLEEVE, FOREARM_SEAM, 0, end),
                  SEWN(UNDERSLEEVE, FOREARM_SEAM, end, 0));
    tailor_in_sew(s, "hindarm_seam", tailor_in_length(&d->hind_top) - tailor_in_length(&d->hind_under),
                  SEWN(TOPSLEEVE, HINDARM_SEAM, 0, end), SEWN(UNDERSLEEVE, HINDARM_SEAM, end, 0));
    double fullness = f[TAILOR_FIELD_CROWN_FULLNESS] - k[TAILOR_CONSTANT_UNDER_FULLNESS];
    double in_front = k[TAILOR_CONSTANT_FRONT_FULLNESS_SHARE] * fullness;
    double pitch = tailor_in_length(&d->crown_tail), top = pitch + d->scye_upper_front + in_front;
    double back_scye = tailor_in_length(&d->scye_back);
    tailor_in_sew(s, "crown_front", in_front, SEWN(TOPSLEEVE, CROWN, pitch, top),
                  SEWN(FOREPART, SCYE, d->scye_upper_front, 0));
    tailor_in_sew(s, "crown_back", fullness - in_front, SEWN(TOPSLEEVE, CROWN, top, end),
                  SEWN(BACK, SCYE, back_scye, back_scye - d->scye_upper_back));
}

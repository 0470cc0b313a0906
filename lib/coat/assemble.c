#include "assemble.h"

enum { PIECES = 8, EDGES = 48, POINTS = 64, MARKS = 96, SEAMS = 16, CUBICS = 400 };

static const int capacity[TAILOR_IN_ARRAYS] = {PIECES, EDGES, POINTS, MARKS, SEAMS, CUBICS};

size_t tailor_in_coat_bytes(void) { return tailor_in_pattern_bytes(capacity); }

/** The seams of the body and collar, and those of the crown that join one edge to one edge. */
static void add_seams(tailor_pattern *p, const tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    const double end = -1;
    tailor_in_add_seam(p, "back_seam", k[TAILOR_CONSTANT_BLADE_EASE], TAILOR_PIECE_BACK, TAILOR_EDGE_BACK_SEAM, 0, end,
                       TAILOR_PIECE_SIDEBODY, TAILOR_EDGE_BACK_SEAM, end, 0);
    tailor_in_add_seam(p, "front_seam", 0, TAILOR_PIECE_SIDEBODY, TAILOR_EDGE_FRONT_SEAM, 0, end, TAILOR_PIECE_FOREPART,
                       TAILOR_EDGE_FRONT_SEAM, end, 0);
    tailor_in_add_seam(p, "shoulder", f[TAILOR_FIELD_SHOULDER_EASE], TAILOR_PIECE_BACK, TAILOR_EDGE_SHOULDER, 0, end,
                       TAILOR_PIECE_FOREPART, TAILOR_EDGE_SHOULDER, end, 0);
    double back_neck = tailor_cubic_length(&d->back_neck);
    tailor_in_add_seam(p, "back_neck", 0, TAILOR_PIECE_UNDER_COLLAR, TAILOR_EDGE_NECK, 0, back_neck, TAILOR_PIECE_BACK,
                       TAILOR_EDGE_NECK, end, 0);
    tailor_in_add_seam(p, "gorge", 0, TAILOR_PIECE_UNDER_COLLAR, TAILOR_EDGE_NECK, back_neck, end,
                       TAILOR_PIECE_FOREPART, TAILOR_EDGE_GORGE, end, 0);
    tailor_in_add_seam(p, "forearm_seam", -k[TAILOR_CONSTANT_FOREARM_STRETCH], TAILOR_PIECE_TOPSLEEVE,
                       TAILOR_EDGE_FOREARM_SEAM, 0, end, TAILOR_PIECE_UNDERSLEEVE, TAILOR_EDGE_FOREARM_SEAM, end, 0);
    tailor_in_add_seam(p, "hindarm_seam", tailor_in_length(&d->hind_top) - tailor_in_length(&d->hind_under),
                       TAILOR_PIECE_TOPSLEEVE, TAILOR_EDGE_HINDARM_SEAM, 0, end, TAILOR_PIECE_UNDERSLEEVE,
                       TAILOR_EDGE_HINDARM_SEAM, end, 0);
    double fullness = f[TAILOR_FIELD_CROWN_FULLNESS] - k[TAILOR_CONSTANT_UNDER_FULLNESS];
    double in_front = k[TAILOR_CONSTANT_FRONT_FULLNESS_SHARE] * fullness;
    double pitch = tailor_in_length(&d->crown_tail), top = pitch + d->scye_upper_front + in_front;
    double back_scye = tailor_in_length(&d->scye_back);
    tailor_in_add_seam(p, "crown_front", in_front, TAILOR_PIECE_TOPSLEEVE, TAILOR_EDGE_CROWN, pitch, top,
                       TAILOR_PIECE_FOREPART, TAILOR_EDGE_SCYE, d->scye_upper_front, 0);
    tailor_in_add_seam(p, "crown_back", fullness - in_front, TAILOR_PIECE_TOPSLEEVE, TAILOR_EDGE_CROWN, top, end,
                       TAILOR_PIECE_BACK, TAILOR_EDGE_SCYE, back_scye, back_scye - d->scye_upper_back);
}

tailor_pattern *tailor_in_coat_assemble(const tailor_in_draft *d, void *block, tailor_allocator allocator)
{
    tailor_pattern *p = tailor_in_pattern_begin(block, capacity, allocator);
    tailor_in_add_back(p, d);
    tailor_in_add_sidebody(p, d);
    tailor_in_add_forepart(p, d);
    tailor_in_add_sleeves(p, d);
    tailor_in_add_under_collar(p, d);
    add_seams(p, d);
    return tailor_in_pattern_end(p) == TAILOR_OK ? p : NULL;
}

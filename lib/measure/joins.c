/* Checks of what is sewn together: lengths, notches, and lines that run on across a seam. */
#include "../pattern/block.h"
#include "view.h"

#define EDGE(piece, name) TAILOR_IN_NET_PIECE_##piece, TAILOR_IN_NET_EDGE_##name

static double largest(double a, double b) { return b > a || isnan(b) ? b : a; }

/** How far two pieces are from running on across a seam: the corner, in deg, that the line along them makes at the
 * seam's end. Each piece gives its seam's direction away from that end and the line's direction away from it; both lie
 * on opposite sides of the seam. */
static double corner(tailor_point seam_a, tailor_point line_a, tailor_point seam_b, tailor_point line_b)
{
    return fabs(tailor_in_angle(seam_a, line_a) + tailor_in_angle(seam_b, line_b) - 180);
}

static tailor_point back_of(tailor_point d) { return (tailor_point){-d.x, -d.y}; }

/* Directions away from the place where an edge starts or ends. */
static tailor_point from_start(const struct tailor_in_view *v, int piece, int edge)
{
    return tailor_in_edge_start(v, piece, edge);
}
static tailor_point from_end(const struct tailor_in_view *v, int piece, int edge)
{
    return back_of(tailor_in_edge_end(v, piece, edge));
}

/** Length of a stretch of a seam; its bounds must lie on the edge. */
static double sewn_length(const struct tailor_in_view *v, const tailor_stretch *sewn)
{
    int piece = tailor_in_net_piece[tailor_piece_number(v->pattern, sewn->piece)];
    int edge = tailor_in_net_edge[tailor_edge_number(v->pattern, sewn->piece, sewn->edge)];
    double whole = NAN;
    if (piece >= 0 && edge >= 0)
        whole = v->length[piece][edge];
    else if (sewn->from < 0 || sewn->to < 0) { /* of a piece for the make: what is sewn in part lies on it anyway */
        size_t count;
        const tailor_cubic *path = tailor_edge_path(v->pattern, sewn->piece, sewn->edge, &count);
        whole = tailor_path_length(path, count);
    }
    double from = sewn->from < 0 ? whole : sewn->from, to = sewn->to < 0 ? whole : sewn->to;
    return from > whole + 1e-6 || to > whole + 1e-6 ? INFINITY : fabs(to - from);
}

/** How far the sewn lengths of a seam are from its ease; 0 if a piece of it serves the other side alone. */
static double off_ease(const struct tailor_in_view *v, const struct tailor_in_seam *seam)
{
    const tailor_stretch *stretches = TAILOR_IN_SEE(v->pattern, tailor_stretch, TAILOR_IN_STRETCHES);
    double length[2] = {0, 0};
    for (int side = 0; side < 2; side++)
        for (int i = seam->first[side]; i < seam->first[side] + seam->count[side]; i++)
            if (!tailor_in_serves(v, stretches[i].piece))
                return 0;
    for (int side = 0; side < 2; side++)
        for (int i = seam->first[side]; i < seam->first[side] + seam->count[side]; i++)
            length[side] += sewn_length(v, &stretches[i]);
    return fabs(length[0] - length[1] - seam->ease);
}

/** Sewn lengths of all seams against their stated ease. */
static double seam_error(const struct tailor_in_view *v)
{
    const struct tailor_in_seam *seams = TAILOR_IN_SEE(v->pattern, struct tailor_in_seam, TAILOR_IN_SEAMS);
    double worst = 0;
    for (int i = 0; i < tailor_pattern_seam_count(v->pattern); i++)
        worst = largest(worst, off_ease(v, &seams[i]));
    return worst;
}

/** Place of a point that lies on a path, NaN if it does not. Most notches lie at a joint, or on a seam whose level is
 * linear in the parameter; the others are searched for. */
static double place_of(struct tailor_in_run path, tailor_point p)
{
    for (size_t i = 0; i < path.count; i++) {
        tailor_point from = path.c[i].p[0], to = path.c[i].p[3];
        double t = (p.y - from.y) / (to.y - from.y);
        if (tailor_in_distance(p, from) < 1e-9)
            return (double)i;
        if (t > 0 && t <= 1 && tailor_in_distance(tailor_in_point(&path.c[i], t), p) < 1e-9)
            return (double)i + t;
    }
    double off, place = tailor_path_nearest(path.c, path.count, p, &off);
    return off < 1e-6 ? place : NAN;
}

/** Length along an edge, from its start, of a notch of that piece; NaN if it has none. */
static double notch(const struct tailor_in_view *v, int piece, int edge, int mark)
{
    struct tailor_in_run run = v->mark[piece][mark], path = v->edge[piece][edge];
    double place = run.count ? place_of(path, run.c[0].p[0]) : NAN;
    return isnan(place) ? NAN : tailor_path_length_to(path.c, path.count, place);
}

/** Notch on edge a, from its start, and on edge b, from its end: the edges of a seam run against each other. */
static double notch_pair(const struct tailor_in_view *v, int piece_a, int edge_a, int piece_b, int edge_b, int mark,
                         int from_starts_end)
{
    double a = notch(v, piece_a, edge_a, mark), b = notch(v, piece_b, edge_b, mark);
    double whole_a = v->length[piece_a][edge_a], whole_b = v->length[piece_b][edge_b];
    return from_starts_end ? fabs(a - (whole_b - b)) : fabs((whole_a - a) - b);
}

/** Ease of the seam between a topsleeve's crown and a piece of this side. */
static double crown_ease(const struct tailor_in_view *v, int other)
{
    const struct tailor_in_seam *seams = TAILOR_IN_SEE(v->pattern, struct tailor_in_seam, TAILOR_IN_SEAMS);
    const tailor_stretch *stretches = TAILOR_IN_SEE(v->pattern, tailor_stretch, TAILOR_IN_STRETCHES);
    for (int i = 0; i < tailor_pattern_seam_count(v->pattern); i++)
        if (seams[i].count[0] == 1 && seams[i].count[1] == 1 &&
            stretches[seams[i].first[0]].piece == v->piece[TAILOR_IN_NET_PIECE_TOPSLEEVE] &&
            stretches[seams[i].first[1]].piece == v->piece[other])
            return seams[i].ease;
    return NAN;
}

static double notch_error(const struct tailor_in_view *v)
{
    double e = 0;
    /* Waist notches as far from the hem; elbow notches as far from the nearer end. */
    e = largest(e, notch_pair(v, EDGE(BACK, BACK_SEAM), EDGE(SIDEBODY, BACK_SEAM), TAILOR_MARKED_NOTCH_WAIST_BACK, 1));
    e = largest(
        e, notch_pair(v, EDGE(SIDEBODY, FRONT_SEAM), EDGE(FOREPART, FRONT_SEAM), TAILOR_MARKED_NOTCH_WAIST_FRONT, 1));
    e = largest(e, notch_pair(v, EDGE(TOPSLEEVE, FOREARM_SEAM), EDGE(UNDERSLEEVE, FOREARM_SEAM),
                              TAILOR_MARKED_NOTCH_FORE_LOWER, 1));
    e = largest(e, notch_pair(v, EDGE(TOPSLEEVE, FOREARM_SEAM), EDGE(UNDERSLEEVE, FOREARM_SEAM),
                              TAILOR_MARKED_NOTCH_FORE_UPPER, 0));
    e = largest(e, notch_pair(v, EDGE(TOPSLEEVE, HINDARM_SEAM), EDGE(UNDERSLEEVE, HINDARM_SEAM),
                              TAILOR_MARKED_NOTCH_HIND_UPPER, 1));
    e = largest(e, notch_pair(v, EDGE(TOPSLEEVE, HINDARM_SEAM), EDGE(UNDERSLEEVE, HINDARM_SEAM),
                              TAILOR_MARKED_NOTCH_HIND_LOWER, 0));
    /* The collar's notch meets the shoulder; the crown's parts are as long as the scye's parts with their fullness. */
    e = largest(e, fabs(notch(v, EDGE(UNDER_COLLAR, NECK), TAILOR_MARKED_NOTCH_NECK) -
                        v->length[TAILOR_IN_NET_PIECE_BACK][TAILOR_IN_NET_EDGE_NECK]));
    e = largest(e, notch_pair(v, EDGE(UNDER_COLLAR, NECK), EDGE(FOREPART, GORGE), TAILOR_MARKED_NOTCH_GORGE, 0));
    double pitch = notch(v, EDGE(TOPSLEEVE, CROWN), TAILOR_MARKED_NOTCH_FRONT_PITCH);
    double top = notch(v, EDGE(TOPSLEEVE, CROWN), TAILOR_MARKED_NOTCH_CROWN);
    double scye = notch(v, EDGE(FOREPART, SCYE), TAILOR_MARKED_NOTCH_FRONT_PITCH);
    double ease = crown_ease(v, TAILOR_IN_NET_PIECE_FOREPART);
    e = largest(e, fabs(top - pitch - scye - ease));
    double back = v->length[TAILOR_IN_NET_PIECE_BACK][TAILOR_IN_NET_EDGE_SCYE] -
                  notch(v, EDGE(BACK, SCYE), TAILOR_MARKED_NOTCH_BACK_PITCH);
    double back_ease = crown_ease(v, TAILOR_IN_NET_PIECE_BACK);
    return largest(e,
                   fabs(v->length[TAILOR_IN_NET_PIECE_TOPSLEEVE][TAILOR_IN_NET_EDGE_CROWN] - top - back - back_ease));
}

void tailor_in_measure_joins(const struct tailor_in_view *v, double *value)
{
    value[TAILOR_CHECK_SEAM_ERROR] = seam_error(v);
    value[TAILOR_CHECK_NOTCH_ERROR] = notch_error(v);

    double scye = corner(from_start(v, EDGE(BACK, SHOULDER)), from_end(v, EDGE(BACK, SCYE)),
                         from_end(v, EDGE(FOREPART, SHOULDER)), from_start(v, EDGE(FOREPART, SCYE)));
    scye = largest(scye, corner(from_end(v, EDGE(BACK, BACK_SEAM)), from_start(v, EDGE(BACK, SCYE)),
                                from_start(v, EDGE(SIDEBODY, BACK_SEAM)), from_end(v, EDGE(SIDEBODY, SCYE))));
    scye = largest(scye, corner(from_end(v, EDGE(SIDEBODY, FRONT_SEAM)), from_start(v, EDGE(SIDEBODY, SCYE)),
                                from_start(v, EDGE(FOREPART, FRONT_SEAM)), from_end(v, EDGE(FOREPART, SCYE))));
    value[TAILOR_CHECK_SCYE_RUN_ON] = scye;

    value[TAILOR_CHECK_NECK_RUN_ON] =
        corner(from_end(v, EDGE(BACK, SHOULDER)), from_start(v, EDGE(BACK, NECK)),
               from_start(v, EDGE(FOREPART, SHOULDER)), from_end(v, EDGE(FOREPART, GORGE)));

    double hem = corner(from_start(v, EDGE(BACK, BACK_SEAM)), from_end(v, EDGE(BACK, HEM)),
                        from_end(v, EDGE(SIDEBODY, BACK_SEAM)), from_start(v, EDGE(SIDEBODY, HEM)));
    value[TAILOR_CHECK_HEM_RUN_ON] =
        largest(hem, corner(from_start(v, EDGE(SIDEBODY, FRONT_SEAM)), from_end(v, EDGE(SIDEBODY, HEM)),
                            from_end(v, EDGE(FOREPART, FRONT_SEAM)), from_start(v, EDGE(FOREPART, HEM))));
    value[TAILOR_CHECK_HEM_SQUARE] =
        fabs(tailor_in_angle(from_end(v, EDGE(BACK, CENTRE_BACK)), from_start(v, EDGE(BACK, HEM))) - 90);

    double crown = corner(from_start(v, EDGE(TOPSLEEVE, HINDARM_SEAM)), from_end(v, EDGE(TOPSLEEVE, CROWN)),
                          from_end(v, EDGE(UNDERSLEEVE, HINDARM_SEAM)), from_start(v, EDGE(UNDERSLEEVE, CROWN)));
    value[TAILOR_CHECK_CROWN_RUN_ON] =
        largest(crown, corner(from_end(v, EDGE(TOPSLEEVE, FOREARM_SEAM)), from_start(v, EDGE(TOPSLEEVE, CROWN)),
                              from_start(v, EDGE(UNDERSLEEVE, FOREARM_SEAM)), from_end(v, EDGE(UNDERSLEEVE, CROWN))));
}

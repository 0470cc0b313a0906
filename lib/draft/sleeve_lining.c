/* Lining of the sleeves: their cloth pieces, higher under the arm where they go over the seam with the body's lining,
 * longer over the elbow, and shorter at the cuff. The iron cannot stretch lining: its forearm seams are equally long.
 */
#include "assemble.h"
#include "lining.h"
#include "put.h"

struct sleeves {
    tailor_in_path fore_top, fore_under, hind_top, hind_under, crown_tail, crown_under;
};

/** A seam as long as `length`, led up by `raise` and made longer over the elbow by `more`. */
static tailor_in_path seam(const tailor_in_draft *d, const tailor_in_path *cloth, double raise, double more,
                           double length)
{
    tailor_in_path path = tailor_in_stretched(cloth, d->elbow_level + 50, d->elbow_level - 50, more);
    path = tailor_in_led_in(&path, raise);
    return tailor_in_cut_to(&path, length);
}

/** The sleeve's underscye with the rise of the body's: from nothing at the front pitch to all of it at the front seam,
 * and from the back seam to nothing at the hindarm. `rise` is what it is at the forearm seam, which is led up by as
 * much. */
struct raised {
    tailor_in_path tail, under;
    double rise;
};

static void raise_path(tailor_in_path *path, double from, double raise, double fore)
{
    double so_far = from;
    for (size_t i = 0; i < path->count; i++) {
        double next = so_far + tailor_cubic_length(&path->c[i]);
        path->c[i] = tailor_in_shifted(path->c[i], at(0, tailor_in_drawn(raise * fmin(so_far / fore, 1))),
                                       at(0, tailor_in_drawn(raise * fmin(next / fore, 1))));
        so_far = next;
    }
}

static struct raised raise_crown(const tailor_in_draft *d)
{
    double raise = tailor_in_lining_raise(d), fore = tailor_in_length(&d->scye_fore) - d->scye_upper_front;
    struct raised r = {d->crown_tail, d->crown_under, 0};
    double tail = tailor_in_length(&r.tail);
    tailor_point end = tailor_in_path_end(&d->crown_under);
    raise_path(&r.tail, 0, raise, fore);
    r.rise = tailor_in_path_end(&r.tail).y - tailor_in_path_end(&d->crown_tail).y;
    raise_path(&r.under, tail, raise, fore);
    tailor_cubic *last = &r.under.c[r.under.count - 1];
    *last = tailor_in_shifted(*last, at(0, 0), sub(end, last->p[3]));
    return r;
}

static struct sleeves draw(const tailor_in_draft *d)
{
    double more = d->k[TAILOR_CONSTANT_LINING_SEAM_EASE];
    double shorter = tailor_in_lining_above(d, TAILOR_CONSTANT_CUFF_TURN_UP) - more;
    struct raised crown = raise_crown(d);
    struct sleeves s = {.crown_tail = crown.tail, .crown_under = crown.under};
    double fore = tailor_in_length(&d->fore_under) + crown.rise - shorter;
    s.fore_under = seam(d, &d->fore_under, crown.rise, more, fore);
    s.fore_top = seam(d, &d->fore_top, crown.rise, more + d->k[TAILOR_CONSTANT_FOREARM_STRETCH], fore);
    s.hind_under = seam(d, &d->hind_under, 0, more, tailor_in_length(&d->hind_under) - shorter);
    s.hind_top = seam(d, &d->hind_top, 0, more, tailor_in_length(&d->hind_top) - shorter);
    /* One point, to the last bit, where crown and forearm seam meet. */
    s.crown_tail.c[s.crown_tail.count - 1].p[3] = tailor_in_path_start(&s.fore_top);
    s.crown_under.c[0].p[0] = tailor_in_path_start(&s.fore_under);
    return s;
}

static tailor_in_path turned(const tailor_in_path *path) { return tailor_in_reflected(path, at(0, 0), at(0, 1)); }

static void add_topsleeve(tailor_pattern *p, const tailor_in_draft *d, const struct sleeves *s,
                          const struct tailor_in_elbow *hindarm, const struct tailor_in_elbow *forearm)
{
    tailor_in_path hind = turned(&s->hind_top), fore = turned(&s->fore_top), crown = d->crown;
    for (size_t i = 0; i < s->crown_tail.count; i++)
        tailor_in_append(&crown, s->crown_tail.c[i]);
    crown = turned(&crown);
    tailor_cubic cuff = tailor_in_line(tailor_in_path_end(&hind), tailor_in_path_end(&fore));
    tailor_in_add_piece(p, TAILOR_PIECE_LINING_TOPSLEEVE, 2, 1, TAILOR_SIDE_RIGHT, "sleeve_lining");
    tailor_in_add_path(p, TAILOR_EDGE_HINDARM_SEAM, &hind);
    tailor_in_add_edge(p, TAILOR_EDGE_CUFF, &cuff, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_FOREARM_SEAM, &fore);
    tailor_in_add_backwards(p, TAILOR_EDGE_CROWN, &crown);

    double x = -d->crown_top.x;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->crown_top.y - d->sleeve_length + 110),
                       at(x, d->crown_top.y - 60));
    double tail = (double)s->crown_tail.count;
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_UPPER, TAILOR_EDGE_HINDARM_SEAM, hindarm->top_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_LOWER, TAILOR_EDGE_HINDARM_SEAM, hindarm->top_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_LOWER, TAILOR_EDGE_FOREARM_SEAM,
                        (double)fore.count - forearm->top_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_UPPER, TAILOR_EDGE_FOREARM_SEAM,
                        (double)fore.count - forearm->top_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FRONT_PITCH, TAILOR_EDGE_CROWN, tail);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_CROWN, TAILOR_EDGE_CROWN, tail + (double)d->crown.count - 1);
}

static void add_undersleeve(tailor_pattern *p, const tailor_in_draft *d, const struct sleeves *s,
                            const struct tailor_in_elbow *hindarm, const struct tailor_in_elbow *forearm)
{
    tailor_cubic cuff = tailor_in_line(tailor_in_path_end(&s->fore_under), tailor_in_path_end(&s->hind_under));
    tailor_in_add_piece(p, TAILOR_PIECE_LINING_UNDERSLEEVE, 2, 1, TAILOR_SIDE_RIGHT, "sleeve_lining");
    tailor_in_add_path(p, TAILOR_EDGE_FOREARM_SEAM, &s->fore_under);
    tailor_in_add_edge(p, TAILOR_EDGE_CUFF, &cuff, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_HINDARM_SEAM, &s->hind_under);
    tailor_in_add_backwards(p, TAILOR_EDGE_CROWN, &s->crown_under);

    /* Grain as on the cloth: midway between what of the seams comes nearest to one another. */
    double fore = fmax(d->fore_under.c[0].p[3].x, fmax(d->fore_under.c[0].p[0].x, d->fore_under.c[1].p[3].x));
    double hind = fmin(d->hind_under.c[0].p[3].x, fmin(d->hind_under.c[0].p[0].x, d->hind_under.c[1].p[3].x));
    double x = (fore + hind) / 2;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->crown_top.y - d->sleeve_length + 110),
                       at(x, -40));
    double whole = (double)s->hind_under.count;
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_UPPER, TAILOR_EDGE_FOREARM_SEAM, forearm->under_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_LOWER, TAILOR_EDGE_FOREARM_SEAM, forearm->under_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_LOWER, TAILOR_EDGE_HINDARM_SEAM, whole - hindarm->under_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_UPPER, TAILOR_EDGE_HINDARM_SEAM, whole - hindarm->under_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_UNDERSCYE, TAILOR_EDGE_CROWN, 1);
}

void tailor_in_add_sleeve_lining(tailor_pattern *p, const tailor_in_draft *d)
{
    struct sleeves s = draw(d);
    double more = d->k[TAILOR_CONSTANT_LINING_SEAM_EASE];
    struct tailor_in_elbow hindarm = tailor_in_elbow_notches(d, &s.hind_under, &s.hind_top, more);
    struct tailor_in_elbow forearm = tailor_in_elbow_notches(d, &s.fore_under, &s.fore_top, more);
    add_topsleeve(p, d, &s, &hindarm, &forearm);
    add_undersleeve(p, d, &s, &hindarm, &forearm);
}

#define SEWN(piece, edge, from, to)                                                                                    \
    (tailor_in_sewn) { TAILOR_PIECE_##piece, TAILOR_EDGE_##edge, from, to }

void tailor_in_sew_sleeve_lining(const tailor_in_sewing *sewing)
{
    const tailor_in_draft *d = sewing->draft;
    const double *k = d->k, end = -1;
    tailor_in_sew(sewing, "lining_forearm_seam", 0, SEWN(LINING_TOPSLEEVE, FOREARM_SEAM, 0, end),
                  SEWN(LINING_UNDERSLEEVE, FOREARM_SEAM, end, 0));
    tailor_in_sew(sewing, "lining_hindarm_seam", tailor_in_length(&d->hind_top) - tailor_in_length(&d->hind_under),
                  SEWN(LINING_TOPSLEEVE, HINDARM_SEAM, 0, end), SEWN(LINING_UNDERSLEEVE, HINDARM_SEAM, end, 0));
    /* The crown is as full as the cloth's. */
    double fullness = d->f[TAILOR_FIELD_CROWN_FULLNESS] - k[TAILOR_CONSTANT_UNDER_FULLNESS];
    double in_front = k[TAILOR_CONSTANT_FRONT_FULLNESS_SHARE] * fullness;
    struct raised crown = raise_crown(d);
    double pitch = tailor_in_length(&crown.tail), top = pitch + d->scye_upper_front + in_front;
    tailor_in_sew(sewing, "lining_crown_front", in_front, SEWN(LINING_TOPSLEEVE, CROWN, pitch, top),
                  SEWN(LINING_FOREPART, SCYE, d->scye_upper_front, 0));
    /* The scye of the back's lining is counted from its lower end, which is not the cloth's. */
    double back = tailor_in_lining_scye_back(d);
    tailor_in_sew(sewing, "lining_crown_back", fullness - in_front, SEWN(LINING_TOPSLEEVE, CROWN, top, end),
                  SEWN(LINING_BACK, SCYE, back, back - d->scye_upper_back));
}

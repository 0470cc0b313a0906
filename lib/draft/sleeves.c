/* Both sleeves. The draft has x from the forearm to the hindarm and the undersleeve lying under the topsleeve. The
 * right topsleeve, face up, has its forearm to the right: it is turned over; the undersleeve, seen from below, lies as
 * drawn. */
#include "assemble.h"
#include "lining.h"
#include "make_marks.h"
#include "put.h"

static tailor_in_path turned(const tailor_in_path *path) { return tailor_in_reflected(path, at(0, 0), at(0, 1)); }

static tailor_point over(tailor_point a) { return at(-a.x, a.y); }

struct tailor_in_elbow tailor_in_elbow_notches(const tailor_in_draft *d, const tailor_in_path *under,
                                               const tailor_in_path *top, double more)
{
    struct tailor_in_elbow e = {tailor_in_place_on_seam(under, d->elbow_level + 50),
                                tailor_in_place_on_seam(under, d->elbow_level - 50 - more), 0, 0};
    double upper = tailor_path_length_to(under->c, under->count, e.under_upper);
    tailor_in_path lower = tailor_in_part(under, e.under_lower, (double)under->count),
                   reversed = tailor_in_reversed(top);
    e.top_upper = tailor_path_at_length(top->c, top->count, upper);
    e.top_lower = (double)top->count - tailor_path_at_length(reversed.c, reversed.count, tailor_in_length(&lower));
    return e;
}

static void add_topsleeve(tailor_pattern *p, const tailor_in_draft *d, const struct tailor_in_elbow *hindarm,
                          const struct tailor_in_elbow *forearm)
{
    const double *k = d->k;
    tailor_in_path hind = turned(&d->hind_top), fore = turned(&d->fore_top), crown = d->crown;
    for (size_t i = 0; i < d->crown_tail.count; i++)
        tailor_in_append(&crown, d->crown_tail.c[i]);
    crown = turned(&crown);
    tailor_cubic cuff = tailor_in_line(tailor_in_path_end(&hind), tailor_in_path_end(&fore));
    tailor_in_add_piece(p, TAILOR_PIECE_TOPSLEEVE, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_path(p, TAILOR_EDGE_HINDARM_SEAM, &hind);
    tailor_in_add_edge(p, TAILOR_EDGE_CUFF, &cuff, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_FOREARM_SEAM, &fore);
    tailor_in_add_backwards(p, TAILOR_EDGE_CROWN, &crown);

    tailor_in_add_point(p, TAILOR_POINT_CROWN_NOTCH, over(d->crown_top));
    tailor_in_add_point(p, TAILOR_POINT_FRONT_PITCH, at(0, k[TAILOR_CONSTANT_FRONT_PITCH]));
    tailor_in_add_point(p, TAILOR_POINT_BACK_PITCH, tailor_in_path_start(&hind));
    double width = d->f[TAILOR_FIELD_CUFF_WIDTH];
    tailor_in_add_point(p, TAILOR_POINT_CUFF_MIDDLE, at(-(d->cuff_x + width / 2), d->crown_top.y - d->sleeve_length));
    tailor_in_add_point(p, TAILOR_POINT_ELBOW, over(d->fold_hind.c[0].p[3]));

    tailor_in_path fold_hind = turned(&d->fold_hind), fold_fore = turned(&d->fold_fore);
    double x = -d->crown_top.x;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->crown_top.y - d->sleeve_length + 90),
                       at(x, d->crown_top.y - 60));
    tailor_in_add_mark(p, TAILOR_MARKED_FOREARM_FOLD, TAILOR_MARK_FOLD, fold_fore.c, fold_fore.count);
    tailor_in_add_mark(p, TAILOR_MARKED_HINDARM_FOLD, TAILOR_MARK_FOLD, fold_hind.c, fold_hind.count);
    tailor_in_add_line(p, TAILOR_MARKED_SLEEVE_DEPTH_LEVEL, TAILOR_MARK_LINE, at(tailor_in_x_at(&hind, 0), 0),
                       at(tailor_in_x_at(&fore, 0), 0));
    tailor_in_add_line(p, TAILOR_MARKED_ELBOW_LEVEL, TAILOR_MARK_LINE, hind.c[0].p[3], fore.c[0].p[3]);

    tailor_point up = times(tailor_in_direction_end(&hind), -1), cuff_end = tailor_in_path_end(&hind);
    tailor_point first = along(along(cuff_end, up, k[TAILOR_CONSTANT_CUFF_BUTTON_FIRST]), right_of(up),
                               k[TAILOR_CONSTANT_CUFF_BUTTON_INSET]);
    int buttons = tailor_in_cuff_buttons(d->f);
    for (int i = 0; i < buttons && i < TAILOR_IN_CUFF_BUTTONS; i++)
        tailor_in_add_circle(p, tailor_in_cuff_button_marks[i], TAILOR_MARK_BUTTON,
                             along(first, up, i * k[TAILOR_CONSTANT_CUFF_BUTTON_SPACING]),
                             k[TAILOR_CONSTANT_CUFF_BUTTON_DIAMETER] / 2);

    double tail = (double)d->crown_tail.count;
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_UPPER, TAILOR_EDGE_HINDARM_SEAM, hindarm->top_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_LOWER, TAILOR_EDGE_HINDARM_SEAM, hindarm->top_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_LOWER, TAILOR_EDGE_FOREARM_SEAM,
                        (double)fore.count - forearm->top_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_UPPER, TAILOR_EDGE_FOREARM_SEAM,
                        (double)fore.count - forearm->top_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FRONT_PITCH, TAILOR_EDGE_CROWN, tail);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_CROWN, TAILOR_EDGE_CROWN, tail + (double)d->crown.count - 1);
    tailor_in_add_cuff_turn_up(p, d, &hind, &fore);
    tailor_in_add_sleeve_vent(p, d, &hind, -1);
}

static void add_undersleeve(tailor_pattern *p, const tailor_in_draft *d, const struct tailor_in_elbow *hindarm,
                            const struct tailor_in_elbow *forearm)
{
    tailor_cubic cuff = tailor_in_line(tailor_in_path_end(&d->fore_under), tailor_in_path_end(&d->hind_under));
    tailor_in_add_piece(p, TAILOR_PIECE_UNDERSLEEVE, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_path(p, TAILOR_EDGE_FOREARM_SEAM, &d->fore_under);
    tailor_in_add_edge(p, TAILOR_EDGE_CUFF, &cuff, 1);
    tailor_in_add_backwards(p, TAILOR_EDGE_HINDARM_SEAM, &d->hind_under);
    tailor_in_add_backwards(p, TAILOR_EDGE_CROWN, &d->crown_under);

    tailor_in_add_point(p, TAILOR_POINT_BACK_PITCH, tailor_in_path_start(&d->hind_under));
    tailor_in_add_point(p, TAILOR_POINT_ELBOW, d->hind_under.c[0].p[3]);
    /* Grain midway between what of the seams comes nearest to one another. */
    tailor_point fore[3] = {tailor_in_path_start(&d->fore_under), d->fore_under.c[0].p[3],
                            tailor_in_path_end(&d->fore_under)};
    tailor_point hind[3] = {tailor_in_path_start(&d->hind_under), d->hind_under.c[0].p[3],
                            tailor_in_path_end(&d->hind_under)};
    double x = (fmax(fmax(fore[0].x, fore[1].x), fore[2].x) + fmin(fmin(hind[0].x, hind[1].x), hind[2].x)) / 2;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->crown_top.y - d->sleeve_length + 90),
                       at(x, -40));
    tailor_in_add_line(p, TAILOR_MARKED_ELBOW_LEVEL, TAILOR_MARK_LINE, d->fore_under.c[0].p[3],
                       d->hind_under.c[0].p[3]);

    double whole = (double)d->hind_under.count;
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_UPPER, TAILOR_EDGE_FOREARM_SEAM, forearm->under_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FORE_LOWER, TAILOR_EDGE_FOREARM_SEAM, forearm->under_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_LOWER, TAILOR_EDGE_HINDARM_SEAM, whole - hindarm->under_lower);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HIND_UPPER, TAILOR_EDGE_HINDARM_SEAM, whole - hindarm->under_upper);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_UNDERSCYE, TAILOR_EDGE_CROWN, 1); /* the end of its last piece */
    tailor_in_add_cuff_turn_up(p, d, &d->fore_under, &d->hind_under);
    tailor_in_add_sleeve_vent(p, d, &d->hind_under, +1);
}

void tailor_in_add_sleeves(tailor_pattern *p, const tailor_in_draft *d)
{
    struct tailor_in_elbow hindarm = tailor_in_elbow_notches(d, &d->hind_under, &d->hind_top, 0);
    struct tailor_in_elbow forearm = tailor_in_elbow_notches(d, &d->fore_under, &d->fore_top, 0);
    add_topsleeve(p, d, &hindarm, &forearm);
    add_undersleeve(p, d, &hindarm, &forearm);
}

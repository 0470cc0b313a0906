/* What the seams take between scye line and waist, how they spring over the seat, and the belly rule. */
#include "draft.h"

/** Belly allowance: what the front must gain where a stout figure leaves nothing to take away. The waist counts as the
 *  greater of waist and belly girth. */
static double belly_allowance(const double *f, const double *k, double suppression)
{
    double waist = f[TAILOR_FIELD_WAIST_GIRTH], belly = f[TAILOR_FIELD_BELLY_GIRTH];
    if (belly > waist)
        waist = belly;
    double lacks_suppression = k[TAILOR_CONSTANT_SUPPRESSION_LEAST] - suppression;
    double lacks_drop = k[TAILOR_CONSTANT_BELLY_DROP] - (f[TAILOR_FIELD_CHEST_GIRTH] - waist);
    return fmax(fmax(lacks_suppression, k[TAILOR_CONSTANT_BELLY_DROP_SHARE] * lacks_drop), 0) + f[TAILOR_FIELD_BELLY];
}

/** The line of the belly: nothing at the scye line, all at the belly, less at seat and hem, but never so much less that
 *  the front edge leans more than belly_lean. */
static void draw_belly_line(tailor_in_draft *d)
{
    const double *k = d->k;
    double out = k[TAILOR_CONSTANT_BELLY_FRONT_SHARE] * d->belly;
    double top = fmin(d->belly_level, d->scye_line - 60);
    double seat = fmin(d->seat, top - 20), hem = fmin(d->front_hem, seat - 10);
    double back_in = tan(k[TAILOR_CONSTANT_BELLY_LEAN] * TAILOR_IN_RADIANS);
    double at_seat = fmax(k[TAILOR_CONSTANT_BELLY_AT_SEAT] * out, out - back_in * (top - seat));
    double at_hem = fmax(k[TAILOR_CONSTANT_BELLY_AT_HEM] * out, at_seat - back_in * (seat - hem));
    tailor_point points[4] = {{0, d->scye_line}, {out, top}, {at_seat, seat}, {fmin(at_hem, at_seat), hem}};
    d->belly_line.count = 3;
    tailor_path_monotone(points, 4, d->belly_line.c);
}

double tailor_in_belly_at(const tailor_in_draft *d, double level)
{
    if (d->belly <= 0 || level >= d->scye_line)
        return 0;
    return tailor_in_x_at(&d->belly_line, fmax(level, d->belly_line.c[2].p[3].y));
}

tailor_status tailor_in_draft_suppression(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    double half_scye = (f[TAILOR_FIELD_CHEST_GIRTH] + f[TAILOR_FIELD_CHEST_EASE]) / 2;
    double half_waist = (f[TAILOR_FIELD_WAIST_GIRTH] + f[TAILOR_FIELD_WAIST_EASE]) / 2;
    double half_seat = (f[TAILOR_FIELD_SEAT_GIRTH] + f[TAILOR_FIELD_SEAT_EASE]) / 2;
    double at_scye = k[TAILOR_CONSTANT_CENTRE_BACK_AT_SCYE];

    d->suppression = half_scye - half_waist;
    d->belly = belly_allowance(f, k, d->suppression);
    d->front_hem =
        d->back_hem - fmin(k[TAILOR_CONSTANT_FRONT_HEM_DROP] + k[TAILOR_CONSTANT_BELLY_HEM_SHARE] * d->belly, 40);
    draw_belly_line(d);

    /* Shares go over from the regular figure's to the stout one's as the belly grows. */
    double stout = fmin(d->belly / k[TAILOR_CONSTANT_BELLY_FULL], 1), need = d->suppression + d->belly;
    double hollow_share = k[TAILOR_CONSTANT_HOLLOW_SHARE] * (1 - stout) + k[TAILOR_CONSTANT_STOUT_HOLLOW_SHARE] * stout;
    double back_share =
        k[TAILOR_CONSTANT_BACK_SEAM_SHARE] * (1 - stout) + k[TAILOR_CONSTANT_STOUT_BACK_SEAM_SHARE] * stout;
    double dart_share = (1 - k[TAILOR_CONSTANT_HOLLOW_SHARE] - k[TAILOR_CONSTANT_BACK_SEAM_SHARE] -
                         k[TAILOR_CONSTANT_FRONT_SEAM_SHARE]) *
                        (1 - stout);
    double hollow_most = k[TAILOR_CONSTANT_HOLLOW_LIMIT] - at_scye;
    /* A sway back takes more in the centre back, and as much less in the back seam. */
    double sway = 0.5 * f[TAILOR_FIELD_SWAY_BACK], wanted_hollow = hollow_share * need + sway;
    double hollow = fmin(wanted_hollow, hollow_most);
    double back = back_share * need - sway + (wanted_hollow - hollow);
    double back_most = 2 * k[TAILOR_CONSTANT_BACK_SEAM_LIMIT];
    back = fmin(back, back_most);
    int room = d->scye_line - k[TAILOR_CONSTANT_DART_BELOW_SCYE] - d->waist > 30; /* a shorter dart would poke */
    d->dart = room ? clamp(dart_share * need, 0, k[TAILOR_CONSTANT_DART_LIMIT]) : 0;
    d->hollow = at_scye + hollow;
    d->back_gap_waist = back / 2;
    /* The front seam closes the girth exactly. */
    d->front_gap_waist = (d->suppression + tailor_in_belly_at(d, d->waist) - hollow - back - d->dart) / 2;
    if (d->front_gap_waist > k[TAILOR_CONSTANT_FRONT_SEAM_LIMIT]) {
        double more = fmin(2 * (d->front_gap_waist - k[TAILOR_CONSTANT_FRONT_SEAM_LIMIT]), 8);
        d->back_gap_waist += more / 2;
        d->front_gap_waist -= more / 2;
    }
    if (d->front_gap_waist > k[TAILOR_CONSTANT_FRONT_SEAM_LIMIT] + 1e-9)
        return tailor_in_refuse(d, TAILOR_WAIST_UNSOLVED, TAILOR_FIELD_WAIST_GIRTH,
                                "%n %v%u is so much smaller than the chest that the seams cannot take the difference: "
                                "give more waist_ease or less chest_ease");

    /* A sidebody that would be too narrow at the waist gets its front seam farther forward. */
    double sidebody = (d->front_seam_axis - d->front_gap_waist) - (d->back_seam_axis + d->back_gap_waist);
    double least = k[TAILOR_CONSTANT_SIDEBODY_LEAST] * fmin(f[TAILOR_FIELD_CHEST_GIRTH] / 900, 1); /* less for a boy */
    double wanted = d->front_seam_axis + fmax(least - sidebody, 0);
    if (wanted > d->scye_front - 10)
        return tailor_in_refuse(d, TAILOR_WAIST_UNSOLVED, TAILOR_FIELD_WAIST_GIRTH,
                                "%n %v%u leaves the sidebody too narrow at the waist: give more waist_ease, or less "
                                "back_width or cross_chest");
    d->front_seam_axis = wanted;

    double centre_back = d->hollow - 0.7 * k[TAILOR_CONSTANT_HOLLOW_RELEASE];
    double gap = d->centre_front + tailor_in_belly_at(d, d->seat) - centre_back - half_seat;
    d->back_gap_seat = k[TAILOR_CONSTANT_SEAT_SHARE] * gap / 2;
    d->front_gap_seat = (1 - k[TAILOR_CONSTANT_SEAT_SHARE]) * gap / 2;
    /* Let out after all else has closed, at the waist and below. */
    d->back_gap_waist -= f[TAILOR_FIELD_SIDE_LET_OUT];
    d->back_gap_seat -= f[TAILOR_FIELD_SIDE_LET_OUT];
    if (fabs(gap) > 150)
        return tailor_in_refuse(d, TAILOR_WAIST_UNSOLVED, TAILOR_FIELD_SEAT_GIRTH,
                                "%n %v%u differs so much from the chest that the side seams cannot spring to it");
    return TAILOR_OK;
}

/* Centre back, and the two pairs of side seams. The edges of a pair are mirror images about a vertical axis, so they
 * are equally long by construction; the back gets its blade ease at the top. */
#include "draft.h"

/** Gap at the hem: the seam runs on from waist through seat, but not as fast. */
static double hem_gap(const tailor_in_draft *d, double at_waist, double at_seat, double hem)
{
    double below = fmax(d->seat - hem, 0), above = d->waist - d->seat;
    return at_seat + clamp((at_seat - at_waist) * below / above * d->k[TAILOR_CONSTANT_HEM_RUN_ON], -30, 30);
}

/** A seam whose edge lies `gap` from its axis at each level, as the edge on the `side` (-1 behind, +1 in front). */
static tailor_in_path seam(const double gap[], const double level[], size_t count, double axis, double side)
{
    tailor_point points[8];
    for (size_t i = 0; i < count; i++)
        points[i] = at(axis + side * gap[i], level[i]);
    tailor_in_path path = {count - 1, {{{{0, 0}}}}};
    tailor_path_monotone(points, count, path.c);
    return path;
}

/** Keep the uppermost part of a seam, and its direction below, of the one with these gaps. */
static void keep_upper(tailor_in_path *path, const double gap[], const double level[], double axis, double side)
{
    tailor_in_path other = seam(gap, level, path->count + 1, axis, side);
    path->c[0] = other.c[0];
    path->c[1].p[1] = other.c[1].p[1];
}

/** Where the hem meets a seam: a little higher where the seam springs, since the hem meets it square. */
static double hem_end(double level, double spring_per_mm) { return level + clamp(-spring_per_mm * 22, -4, 4); }

tailor_status tailor_in_draft_seams(tailor_in_draft *d)
{
    const double *k = d->k;
    double release = k[TAILOR_CONSTANT_HOLLOW_RELEASE];
    tailor_point centre[6] = {{0, 0},
                              {k[TAILOR_CONSTANT_CENTRE_BACK_AT_BLADES], 0.55 * d->scye_line},
                              {k[TAILOR_CONSTANT_CENTRE_BACK_AT_SCYE], d->scye_line},
                              {d->hollow, d->waist},
                              {d->hollow - 0.7 * release, d->seat},
                              {d->hollow - release, d->back_hem}};
    d->centre_back.count = 5;
    tailor_path_monotone(centre, 6, d->centre_back.c);

    double blade = k[TAILOR_CONSTANT_BLADE_EASE], low_hip = d->f[TAILOR_FIELD_LOW_HIP];
    double back_top = d->scye_low + k[TAILOR_CONSTANT_BACK_SEAM_RISE] + blade;
    double back_gap_hem = hem_gap(d, d->back_gap_waist, d->back_gap_seat, d->back_hem);
    double back_hem = hem_end(d->back_hem, (back_gap_hem - d->back_gap_seat) / (d->seat - d->back_hem)) - low_hip;
    double back_gap[5] = {1.5, 0, d->back_gap_waist, d->back_gap_seat, back_gap_hem};
    double back_level[5] = {back_top, d->scye_line, d->waist, d->seat, back_hem};
    /* What is let out begins at the scye line: down to it, and with its direction there, the seam is as it was. */
    double as_was[5] = {1.5, 0, d->back_gap_waist + d->f[TAILOR_FIELD_SIDE_LET_OUT], d->back_gap_seat, back_gap_hem};
    d->back_seam_back = seam(back_gap, back_level, 5, d->back_seam_axis, -1);
    tailor_in_path whole = seam(back_gap, back_level, 5, d->back_seam_axis, +1);
    keep_upper(&d->back_seam_back, as_was, back_level, d->back_seam_axis, -1);
    keep_upper(&whole, as_was, back_level, d->back_seam_axis, +1);
    double from = tailor_path_at_length(whole.c, whole.count, blade);
    d->back_seam_side = tailor_in_part(&whole, from, (double)whole.count);

    /* The front seam begins a little in front of the lowest place of the scye, and by so much higher. */
    double width = d->scye_front - d->back_width_line;
    d->scye_low_x = d->back_width_line + k[TAILOR_CONSTANT_SCYE_LOW_SHARE] * width;
    if (d->scye_low_x > d->front_seam_axis - 6) {
        d->scye_low_x = fmax(d->front_seam_axis - 6, d->back_width_line + 0.58 * width);
        d->front_seam_axis = fmax(d->front_seam_axis, d->scye_low_x + 6);
    }
    double before_low = d->front_seam_axis - d->scye_low_x;
    d->front_seam_top = d->scye_low + 0.0032 * before_low * before_low;

    double front_hem = d->back_hem - k[TAILOR_CONSTANT_FRONT_SEAM_HEM_SHARE] * (d->back_hem - d->front_hem);
    double front_gap_hem = hem_gap(d, d->front_gap_waist, d->front_gap_seat, front_hem);
    front_hem = hem_end(front_hem, (front_gap_hem - d->front_gap_seat) / (d->seat - front_hem)) - low_hip;
    double front_gap[4] = {0, d->front_gap_waist, d->front_gap_seat, front_gap_hem};
    double front_level[4] = {d->front_seam_top, d->waist, d->seat, front_hem};
    d->front_seam_side = seam(front_gap, front_level, 4, d->front_seam_axis, -1);
    d->front_seam_fore = seam(front_gap, front_level, 4, d->front_seam_axis, +1);
    /* It leaves the scye plumb, so that the gap opens below the scye line and the girth there is what it should be. */
    d->front_seam_side.c[0].p[1].x = d->front_seam_side.c[0].p[0].x;
    d->front_seam_fore.c[0].p[1].x = d->front_seam_fore.c[0].p[0].x;
    return TAILOR_OK;
}

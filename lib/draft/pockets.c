/* Front dart, hip pocket, breast welt, and the belly cut of a stout figure: lines on the pieces. */
#include "draft.h"

static void polygon(tailor_in_path *path, const tailor_point *corner, size_t count)
{
    path->count = 0;
    for (size_t i = 0; i < count; i++)
        tailor_in_append(path, tailor_in_line(corner[i], corner[(i + 1) % count]));
}

/** Breast welt: a parallelogram rising to the sleeve. A wide lapel that would cover more of it than it may pushes it
 *  nearer the sleeve, and then makes it shorter. */
static void draw_welt(tailor_in_draft *d)
{
    const double *k = d->k;
    double scale = fmin(d->f[TAILOR_FIELD_CHEST_GIRTH] / 900, 1); /* smaller on a boy's front */
    double length = scale * k[TAILOR_CONSTANT_WELT_LENGTH], height = k[TAILOR_CONSTANT_WELT_HEIGHT],
           rise = k[TAILOR_CONSTANT_WELT_RISE];
    double low = d->scye_line_measured + k[TAILOR_CONSTANT_WELT_ABOVE_SCYE],
           from_scye = scale * k[TAILOR_CONSTANT_WELT_FROM_SCYE];
    double front = d->scye_front + from_scye + length;
    tailor_in_path lapel = {1, {d->worn_edge}};
    double edge = tailor_in_place_at_level(&lapel, low + height);
    if (edge >= 0) {
        double excess = front - tailor_in_point(&d->worn_edge, edge).x - k[TAILOR_CONSTANT_WELT_COVERED];
        double nearer = clamp(excess, 0, 0.26 * from_scye), shorter = clamp(excess - nearer, 0, 0.46 * length);
        from_scye -= nearer;
        length -= shorter;
    }
    double rear = d->scye_front + from_scye, run = sqrt(length * length - rise * rise);
    tailor_point welt[4] = {
        {rear, low + rise}, {rear + run, low}, {rear + run, low + height}, {rear, low + rise + height}};
    polygon(&d->welt, welt, 4);
}

tailor_status tailor_in_draft_pockets(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    double mouth = d->waist - k[TAILOR_CONSTANT_POCKET_DROP_SHARE] * f[TAILOR_FIELD_STATURE];
    mouth = fmax(mouth, d->seat + 15); /* above the seat on every figure */
    double last = d->button[d->row_count - 1].y;
    if (fabs(mouth - last) < 8)
        mouth = last; /* the eye takes a small difference for a mistake */

    /* Behind the inner buttons of a double-breasted front, too (12 mm: own judgement). */
    double behind_centre = k[TAILOR_CONSTANT_POCKET_FRONT];
    if (tailor_in_double_breasted(f))
        behind_centre = fmax(behind_centre, f[TAILOR_FIELD_WRAP] - f[TAILOR_FIELD_BUTTON_STAND] +
                                                f[TAILOR_FIELD_BUTTON_DIAMETER] / 2 + 12);
    double front = d->centre_front - behind_centre;
    double length =
        k[TAILOR_CONSTANT_POCKET_LENGTH_SHARE] * f[TAILOR_FIELD_CHEST_GIRTH] + k[TAILOR_CONSTANT_POCKET_LENGTH_LEAST];
    /* A slanting mouth falls evenly from its front end to its rear. */
    double slant = f[TAILOR_FIELD_POCKET_SLANT], run = sqrt(length * length - slant * slant), fall = slant / run;
    double seam = tailor_in_x_at(&d->front_seam_fore, mouth);
    for (int i = 0; i < 4 && fall > 0; i++) /* the seam where the mouth meets it */
        seam = tailor_in_x_at(&d->front_seam_fore, mouth - fall * (front - seam));
    d->pocket_crosses = seam > front - run + 1;
    double on_fore = d->pocket_crosses ? front - seam : run, at_seam = mouth - fall * on_fore;
    d->pocket_fore = tailor_in_line(at(front, mouth), at(front - on_fore, at_seam));
    if (d->pocket_crosses) {
        double rear = mouth - fall * run, side = tailor_in_x_at(&d->front_seam_side, at_seam);
        double behind = tailor_in_x_at(&d->back_seam_side, rear) + k[TAILOR_CONSTANT_POCKET_FROM_SIDE];
        d->pocket_side = tailor_in_line(at(side, at_seam), at(fmax(side - (run - on_fore), behind), rear));
    }

    /* Dart: plumb, a spindle from below the scye line to the pocket. */
    double x = front - k[TAILOR_CONSTANT_DART_BEHIND_POCKET_FRONT];
    double top = d->scye_line - k[TAILOR_CONSTANT_DART_BELOW_SCYE], half = d->dart / 2;
    double below = fmin(k[TAILOR_CONSTANT_DART_AT_POCKET], d->dart) / 2;
    double dart_end = mouth - fall * (front - x);
    d->dart_shape.count = 0;
    if (d->dart > 0) {
        tailor_point spindle[3] = {{x, top}, {x - half, d->waist}, {x - below, dart_end}};
        tailor_cubic left[2];
        tailor_path_monotone(spindle, 3, left);
        tailor_in_append(&d->dart_shape, left[0]);
        tailor_in_append(&d->dart_shape, left[1]);
        tailor_in_path right = tailor_in_reflected(&d->dart_shape, at(x, 0), at(x, 1));
        right = tailor_in_reversed(&right);
        tailor_in_append(&d->dart_shape, tailor_in_line(at(x - below, dart_end), at(x + below, dart_end)));
        tailor_in_append(&d->dart_shape, right.c[0]);
        tailor_in_append(&d->dart_shape, right.c[1]);
    }

    draw_welt(d);

    /* Belly cut: along the pocket from under the dart to 12 mm from the seam; its lower edge opens at the front. */
    d->belly_cut.count = 0;
    double opening = k[TAILOR_CONSTANT_BELLY_CUT_SHARE] * d->belly;
    if (opening > 0.5) {
        double to = fmax(seam, front - run) + 12;
        tailor_point side = at(to, mouth - fall * (front - to));
        tailor_in_append(&d->belly_cut, tailor_in_line(at(x, dart_end), side));
        tailor_in_append(&d->belly_cut, tailor_in_line(side, at(x, dart_end - opening)));
    }
    return TAILOR_OK;
}

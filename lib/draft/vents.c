/* Vents: what the edges of a seam have beyond it from the top of the vent to the hem. Both edges have the whole
 * overlap: the one is turned in as its facing, the other lies under. */
#include "make_marks.h"

/* Own judgement: the top of a vent falls by this share of its width; no vent is shorter than this. */
static const double TOP_SLANT = 0.5, SHORTEST = 60;

struct vent {
    int mark;
    double side;      /* -1 where the seam is the piece's left edge, +1 where it is its right */
    double top;       /* its level */
    double overlap;   /* beyond the seam */
    double spring;    /* more at the hem */
    tailor_point hem; /* direction of the piece's bottom edge at the seam, from left to right */
};

/** Part of a seam from a level down. */
static tailor_in_path below(const tailor_in_path *seam, double level)
{
    return tailor_in_part(seam, clamp(tailor_in_place_on_seam(seam, level), 0, (double)seam->count - 0.01),
                          (double)seam->count);
}

static void add_vent(tailor_pattern *p, const tailor_in_path *seam, struct vent v)
{
    double bottom_level = tailor_in_path_end(seam).y;
    if (v.top - bottom_level < SHORTEST || v.overlap <= 0)
        return;
    tailor_in_path net = below(seam, v.top), outer = below(seam, v.top - fmin(TOP_SLANT * v.overlap, SHORTEST / 2));
    /* Square to the seam at the top, along the hem at the bottom. */
    tailor_point start = tailor_in_path_start(&outer);
    tailor_point across = times(left_of(tailor_in_direction_start(&outer)), v.side * v.overlap);
    tailor_point more = sub(times(v.hem, v.side * (v.overlap + v.spring)), across);
    for (size_t i = 0; i < outer.count; i++)
        for (int j = 0; j < 4; j++) {
            double share = (start.y - outer.c[i].p[j].y) / (start.y - bottom_level);
            outer.c[i].p[j] = add(outer.c[i].p[j], add(across, times(more, share)));
        }
    /* Counter-clockwise from the top of the net edge: down the left, up the right. */
    tailor_in_path down = v.side > 0 ? net : outer, rising = tailor_in_reversed(v.side > 0 ? &outer : &net);
    tailor_cubic path[2 * TAILOR_IN_PATH + 2];
    tailor_cubic bottom = tailor_in_line(tailor_in_path_end(&down), tailor_in_path_start(&rising));
    tailor_cubic slant = tailor_in_line(tailor_in_path_end(&rising), tailor_in_path_start(&down));
    size_t n = 0;
    if (v.side < 0)
        path[n++] = slant;
    for (size_t i = 0; i < down.count; i++)
        path[n++] = down.c[i];
    path[n++] = bottom;
    for (size_t i = 0; i < rising.count; i++)
        path[n++] = rising.c[i];
    if (v.side > 0)
        path[n++] = slant;
    tailor_in_add_mark(p, v.mark, TAILOR_MARK_LINE, path, n);
}

static struct vent side_vent(const tailor_in_draft *d, double side, tailor_point hem)
{
    const double *k = d->k;
    double top = d->waist - k[TAILOR_CONSTANT_SIDE_VENT_SHARE] * d->f[TAILOR_FIELD_STATURE];
    return (struct vent){
        TAILOR_MARKED_VENT, side, top, k[TAILOR_CONSTANT_SIDE_VENT_OVERLAP], k[TAILOR_CONSTANT_SIDE_VENT_SPRING], hem};
}

void tailor_in_add_back_vent(tailor_pattern *p, const tailor_in_draft *d)
{
    const double *k = d->k;
    int kind = (int)d->f[TAILOR_FIELD_VENTS];
    if (kind == TAILOR_VENTS_CENTRE) {
        double top = d->waist - k[TAILOR_CONSTANT_CENTRE_VENT_BELOW];
        struct vent v = {TAILOR_MARKED_VENT,
                         -1,
                         top,
                         k[TAILOR_CONSTANT_CENTRE_VENT_OVERLAP],
                         0,
                         tailor_cubic_direction(&d->hem_back, 0)};
        add_vent(p, &d->centre_back, v);
    }
    if (kind == TAILOR_VENTS_SIDE)
        add_vent(p, &d->back_seam_back, side_vent(d, +1, tailor_cubic_direction(&d->hem_back, 1)));
}

void tailor_in_add_sidebody_vent(tailor_pattern *p, const tailor_in_draft *d)
{
    if ((int)d->f[TAILOR_FIELD_VENTS] == TAILOR_VENTS_SIDE)
        add_vent(p, &d->back_seam_side, side_vent(d, -1, tailor_cubic_direction(&d->hem_side, 0)));
}

void tailor_in_add_sleeve_vent(tailor_pattern *p, const tailor_in_draft *d, const tailor_in_path *hindarm, double side)
{
    const double *f = d->f, *k = d->k;
    if ((int)f[TAILOR_FIELD_SLEEVE_VENT] == TAILOR_SLEEVE_VENT_PLAIN)
        return;
    /* Long enough for all its buttons. */
    double buttons = k[TAILOR_CONSTANT_CUFF_BUTTON_FIRST] + k[TAILOR_CONSTANT_CUFF_BUTTON_DIAMETER] +
                     (tailor_in_cuff_buttons(f) - 1) * k[TAILOR_CONSTANT_CUFF_BUTTON_SPACING];
    double length = fmax(k[TAILOR_CONSTANT_SLEEVE_VENT_LENGTH], buttons);
    struct vent v = {TAILOR_MARKED_SLEEVE_VENT,
                     side,
                     tailor_in_path_end(hindarm).y + length,
                     k[TAILOR_CONSTANT_SLEEVE_VENT_OVERLAP],
                     0,
                     left_of(tailor_in_direction_end(hindarm))};
    add_vent(p, hindarm, v);
}

/* The lapel as it lies on the chest: gorge, step or peak, edge; or a shawl's one swelling line. */
#include "draft.h"

/** The lapel edge as worn: leaves the break point so that, unfolded, it runs on from the front edge (`down`, unit), and
 *  lies `belly` outside its chord, most at `place` of the chord from the tip. */
static tailor_cubic lapel_edge(tailor_point tip, tailor_point break_point, tailor_point up, tailor_point inward,
                               tailor_point down, double belly, double place)
{
    tailor_point chord = sub(break_point, tip);
    double length = norm(chord);
    tailor_point u = times(chord, 1 / length), out = right_of(u);
    if (dot(out, inward) < 0)
        out = times(out, -1);
    tailor_point mirrored =
        sub(times(up, 2 * dot(down, up)), down); /* the front edge's direction, turned over the fold */
    double handle = 0.24 * length;
    double end_along = length - handle * dot(mirrored, u), end_out = -handle * dot(mirrored, out);

    /* Height over the chord: 3(1-t)^2 t a + 3(1-t) t^2 b with b = end_out; find a for the belly at the parameter t
     * where it is greatest, then the handle's place along the chord that puts t at the wanted place. */
    double a = belly / 0.42, t = 0.4;
    for (int i = 0; i < 40; i++) {
        /* greatest where (1-t)(1-3t) a + t(2-3t) b = 0: the smaller root */
        double qa = 3 * a - 3 * end_out, qb = -4 * a + 2 * end_out, qc = a;
        double root = fabs(qa) < 1e-12 * (fabs(a) + fabs(end_out))
                          ? -qc / qb
                          : (-qb - sqrt(fmax(qb * qb - 4 * qa * qc, 0))) / (2 * qa);
        t = clamp(root, 0.2, 0.7);
        double next = (belly - 3 * (1 - t) * t * t * end_out) / (3 * (1 - t) * (1 - t) * t);
        if (fabs(next - a) < 1e-12 * length) {
            a = next;
            break;
        }
        a = next;
    }
    double before = 3 * (1 - t) * (1 - t) * t;
    double along_chord = (place * length - 3 * (1 - t) * t * t * end_along - t * t * t * length) / before;
    along_chord = clamp(along_chord, 0.08 * length, 0.6 * length);
    return (tailor_cubic){
        {tip, along(along(tip, u, along_chord), out, a), along(along(tip, u, end_along), out, end_out), break_point}};
}

/** Width of a shawl where the gorge ends, as a part of its greatest. */
static const double SHAWL_AT_GORGE = 0.93;

struct shawl_goal {
    double at_gorge, at_handle, width; /* distances from the break line */
};

/** By how much the shawl's greatest width misses the width ordered, its upper handle lying so far from the break line.
 */
static double shawl_missed(const void *with, double out)
{
    const struct shawl_goal *goal = with;
    /* The distance from the break line is a cubic of the parameter, 0 at the break point: greatest where its
     * derivative's quadratic has its first root. */
    double a = goal->at_gorge, b = out, c = goal->at_handle;
    double qa = -a + 3 * b - 3 * c, qb = 2 * (a - 2 * b + c), qc = b - a;
    double t = (-qb - sqrt(fmax(qb * qb - 4 * qa * qc, 0))) / (2 * qa);
    if (fabs(qa) < 1e-9)
        t = -qc / qb;
    t = clamp(t, 0, 1);
    double u = 1 - t;
    return u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c - goal->width;
}

/** A shawl's edge as worn: one swelling line from the end of the gorge to the break point, as wide as ordered where it
 *  is widest, and running on into the front edge. */
static tailor_cubic shawl_edge(const tailor_in_draft *d, tailor_point down)
{
    tailor_point tip = d->worn_tip, mirrored = sub(times(d->up, 2 * dot(down, d->up)), down);
    double high = dot(sub(tip, d->break_point), d->up), wide = dot(sub(tip, d->break_point), d->inward);
    tailor_point handle = along(d->break_point, mirrored, -0.34 * high);
    struct shawl_goal goal = {wide, dot(sub(handle, d->break_point), d->inward), d->f[TAILOR_FIELD_LAPEL_WIDTH]};
    double out = tailor_in_root(shawl_missed, &goal, wide, 2 * goal.width, 1e-11);
    double place = (1 - d->k[TAILOR_CONSTANT_SHAWL_WIDTH_PLACE] * 0.74) * high;
    return (tailor_cubic){{tip, along(along(d->break_point, d->up, place), d->inward, out), handle, d->break_point}};
}

/** Direction of the front edge at the break point, downwards. */
static tailor_point front_edge_down(const tailor_in_draft *d)
{
    if (d->belly <= 0)
        return at(0, -1);
    return unit(sub(at(d->break_point.x - tailor_in_belly_at(d, d->break_y) + tailor_in_belly_at(d, d->break_y - 1e-3),
                       d->break_y - 1e-3),
                    d->break_point));
}

/** The lapel whose tip stands `peak` above the gorge line. How sharp its tip is: the sine of the angle between edge and
 *  step, negative where the edge leaves below the step; NaN when the gorge has no room beside the step. */
static double draw_worn_lapel(tailor_in_draft *d, double peak)
{
    const double *f = d->f, *k = d->k;
    int shawl = tailor_in_shawl(f);
    double slope = f[TAILOR_FIELD_GORGE_SLOPE] * TAILOR_IN_RADIANS, width = f[TAILOR_FIELD_LAPEL_WIDTH];
    tailor_point along_gorge = at(-cos(slope), -sin(slope)), above = at(along_gorge.y, -along_gorge.x);
    double across = dot(along_gorge, d->inward);
    double step = shawl ? 0 : k[TAILOR_CONSTANT_STEP_SHARE] * width;
    double at_gorge = shawl ? SHAWL_AT_GORGE * width : width; /* how wide the lapel is where the gorge ends */
    double reach = (at_gorge - peak * dot(above, d->inward)) / across;
    if (across < 0.5 || reach < step + 12)
        return NAN;
    d->worn_tip = along(along(d->gorge_crossing, along_gorge, reach), above, peak);
    d->worn_root = along(d->gorge_crossing, along_gorge, reach - step);
    d->tip = tailor_point_reflect(d->worn_tip, d->stand_point, d->break_point);
    d->root = tailor_point_reflect(d->worn_root, d->stand_point, d->break_point);
    if (shawl) {
        d->worn_edge = shawl_edge(d, front_edge_down(d));
        return -1;
    }
    double belly = d->breaks_high ? k[TAILOR_CONSTANT_LAPEL_BELLY_HIGH] : k[TAILOR_CONSTANT_LAPEL_BELLY];
    d->worn_edge = lapel_edge(d->worn_tip, d->break_point, d->up, d->inward, front_edge_down(d), belly,
                              k[TAILOR_CONSTANT_LAPEL_BELLY_PLACE]);
    tailor_point step_back = unit(sub(d->worn_root, d->worn_tip)), leaves = tailor_cubic_direction(&d->worn_edge, 0);
    return cross(step_back, leaves);
}

tailor_status tailor_in_draft_lapel(tailor_in_draft *d)
{
    /* The edge must leave the tip well below the step, or the lapel has no tip. A peak over a line that leans much, as
     * a wide wrap makes it, stands lower, so that it is no sharper than cloth can be turned out. */
    static const double sharpest = -0.3;
    int peaked = (int)d->f[TAILOR_FIELD_LAPEL] == TAILOR_LAPEL_PEAK;
    double peak = peaked ? d->k[TAILOR_CONSTANT_PEAK_RISE] : 0, sharp = draw_worn_lapel(d, peak);
    for (int i = 0; i < 10 && peaked && sharp > sharpest && peak > 10; i++) {
        peak -= 2;
        sharp = draw_worn_lapel(d, peak);
    }
    if (isnan(sharp))
        return tailor_in_refuse(d, TAILOR_FRONT_UNSOLVED, TAILOR_FIELD_LAPEL_WIDTH,
                                "%n %v%u leaves no gorge between break line and step");
    if (sharp > sharpest)
        return tailor_in_refuse(d, TAILOR_FRONT_UNSOLVED, TAILOR_FIELD_BUTTON_SPACING,
                                "%n %v%u makes the break line so short that the lapel has no tip: give a smaller "
                                "button_spacing, button_stand or crook");
    return TAILOR_OK;
}

#include "lining.h"

/* Middle of the 15 to 20 mm that the fold of the lining lies above the finished edge (common practice), and what the
 * felling keeps from the edge of the turn-up. */
static const double FOLD_ABOVE = 17.5, FROM_TURN_UP = 5;

double tailor_in_lining_above(const tailor_in_draft *d, int turn_up)
{
    double longer = d->k[TAILOR_CONSTANT_LINING_LONG];
    return fmax(fmin(FOLD_ABOVE + longer / 2, d->k[turn_up] - FROM_TURN_UP) - longer, 0);
}

double tailor_in_lining_raise(const tailor_in_draft *d)
{
    double behind = d->back_pitch.y - tailor_in_path_end(&d->scye_back).y;
    double before = d->front_pitch.y - tailor_in_path_end(&d->scye_fore).y;
    double raise = fmin(d->k[TAILOR_CONSTANT_LINING_SCYE_MORE], fmin(0.5 * behind, 0.6 * before));
    return tailor_in_drawn(raise);
}

/** A place at a joint where it is nearly there: no cutter could sew the sliver that would be left. */
static double joint_near(double place)
{
    double joint = nearbyint(place);
    return fabs(place - joint) < 1e-4 ? joint : place;
}

static void append_part(tailor_in_path *to, const tailor_in_path *from, double start, double end)
{
    if (end - start < 1e-9)
        return;
    tailor_in_path part = tailor_in_part(from, start, end);
    for (size_t i = 0; i < part.count; i++)
        tailor_in_append(to, part.c[i]);
}

tailor_in_path tailor_in_stretched(const tailor_in_path *path, double from, double to, double more)
{
    tailor_in_path cut = {0, {{{{0, 0}}}}};
    double whole = (double)path->count, start = joint_near(clamp(tailor_in_place_on_seam(path, from), 0, whole)),
           end = joint_near(clamp(tailor_in_place_on_seam(path, to), start, whole));
    append_part(&cut, path, 0, start);
    append_part(&cut, path, start, end);
    append_part(&cut, path, end, whole);
    for (size_t i = 0; i < cut.count; i++)
        for (int j = 0; j < 4; j++)
            cut.c[i].p[j].y -= more * clamp((from - cut.c[i].p[j].y) / (from - to), 0, 1);
    return cut;
}

tailor_in_path tailor_in_led_in(const tailor_in_path *path, double length)
{
    tailor_in_path led = {0, {{{{0, 0}}}}};
    tailor_point start = tailor_in_path_start(path);
    if (length > 0)
        tailor_in_append(&led, tailor_in_line(along(start, tailor_in_direction_start(path), -length), start));
    append_part(&led, path, 0, (double)path->count);
    return led;
}

tailor_in_path tailor_in_cut_to(const tailor_in_path *path, double length)
{
    double more = length - tailor_in_length(path);
    if (more <= 0)
        return tailor_in_part(path, 0, joint_near(tailor_path_at_length(path->c, path->count, length)));
    tailor_in_path longer = *path;
    if (tailor_in_drawn(more) == 0)
        return longer;
    tailor_point end = tailor_in_path_end(path);
    tailor_in_append(&longer, tailor_in_line(end, along(end, tailor_in_direction_end(path), more)));
    return longer;
}

tailor_cubic tailor_in_shifted(tailor_cubic c, tailor_point start, tailor_point end)
{
    for (int i = 0; i < 4; i++)
        c.p[i] = add(c.p[i], i < 2 ? start : end);
    return c;
}

#include "trail.h"

#include <math.h>

int tailor_in_chords(const tailor_cubic *c)
{
    /* a chord of a share h of a cubic lies at most h * h / 8 of its second derivative off it */
    static const double tolerance = 0.1;
    double bend = 0;
    for (int k = 0; k < 2; k++) {
        const double x = c->p[k].x - 2 * c->p[k + 1].x + c->p[k + 2].x;
        const double y = c->p[k].y - 2 * c->p[k + 1].y + c->p[k + 2].y;
        const double here = x * x + y * y;
        bend = here > bend ? here : bend;
    }
    const double chords = ceil(sqrt(6 * sqrt(bend) / (8 * tolerance)));
    return chords > 64 ? 64 : chords > 1 ? (int)chords : 1;
}

static void step(struct tailor_in_trail *t, tailor_point p)
{
    const int i = t->count++;
    const double x = i ? p.x - t->at[i - 1].x : 0, y = i ? p.y - t->at[i - 1].y : 0;
    t->at[i] = p;
    t->length[i] = i ? t->length[i - 1] + sqrt(x * x + y * y) : 0;
}

/** More cubics than the trail has room for: points at even parameters. */
static void walk_coarsely(struct tailor_in_trail *t, const double place[6], const tailor_cubic *path, size_t count)
{
    for (int i = 0; i < TAILOR_IN_TRAIL; i++) {
        const tailor_point p = tailor_path_point(path, count, (double)count * i / (TAILOR_IN_TRAIL - 1));
        step(t, (tailor_point){place[0] * p.x + place[2] * p.y + place[4], place[1] * p.x + place[3] * p.y + place[5]});
    }
}

void tailor_in_trail_walk(struct tailor_in_trail *t, const double place[6], const tailor_cubic *path, size_t count)
{
    t->count = 0;
    if (count >= TAILOR_IN_TRAIL) {
        walk_coarsely(t, place, path, count);
        return;
    }
    for (size_t i = 0; i < count; i++) {
        tailor_cubic c;
        tailor_path_affine(&path[i], 1, place, &c);
        const int room = TAILOR_IN_TRAIL - t->count - (int)(count - i), chords = tailor_in_chords(&c);
        const int steps = chords < room ? chords : room; /* at least one is left for each cubic that follows */
        if (i == 0)
            step(t, c.p[0]);
        for (int k = 1; k < steps; k++)
            step(t, tailor_cubic_point(&c, (double)k / steps));
        step(t, c.p[3]);
    }
}

double tailor_in_trail_length(const struct tailor_in_trail *t) { return t->count ? t->length[t->count - 1] : 0; }

int tailor_in_trail_after(const struct tailor_in_trail *t, double length)
{
    int low = 1, high = t->count - 1;
    while (low < high) {
        const int middle = (low + high) / 2;
        if (t->length[middle] < length)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

tailor_point tailor_in_trail_point(const struct tailor_in_trail *t, double length)
{
    const int i = tailor_in_trail_after(t, length);
    const double step = t->length[i] - t->length[i - 1], share = step > 0 ? (length - t->length[i - 1]) / step : 0;
    const tailor_point a = t->at[i - 1], b = t->at[i];
    return (tailor_point){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

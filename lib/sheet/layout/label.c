#include "label.h"

#include "bits.h"
#include "lettering.h"
#include "trail.h"

#include <math.h>
#include <stdio.h>

static void write_in_box(struct tailor_in_drawing *d, struct tailor_in_box box, const char *text, double size)
{
    const double turn = box.angle * acos(-1) / 180;
    const double down = 0.27 * size; /* from the middle of small letters to their base line */
    tailor_in_drawing_text_on_page(d, (tailor_point){box.middle.x - down * sin(turn), box.middle.y + down * cos(turn)},
                                   (struct tailor_in_lettering){size, 0.5, box.angle, 0}, text);
}

/** A stretch of a trail that a text may stand along: its chord, and how far the trail comes to either side of it. */
struct stretch {
    struct tailor_in_shape shape; /* of the text's box */
    tailor_point middle;
    double x, y, bulge[2]; /* direction of the chord; to its right and to its left */
};

/** The stretch about `length` for a text of some width and size. */
static struct stretch stretch_of(const struct tailor_in_trail *t, double length, double width, double size)
{
    const double whole = tailor_in_trail_length(t), from = fmax(0, length - width / 2);
    const double to = fmin(whole, length + width / 2);
    const tailor_point a = tailor_in_trail_point(t, from), b = tailor_in_trail_point(t, to);
    const double across = b.x - a.x, down = b.y - a.y, chord = sqrt(across * across + down * down);
    /* The left is (y, -x), for y goes down. A chord without length, as in a closed path that is shorter than the text,
     * makes a place that is no number and never free. */
    struct stretch s = {.middle = {(a.x + b.x) / 2, (a.y + b.y) / 2}, .x = across / chord, .y = down / chord};
    for (int i = tailor_in_trail_after(t, from); i < t->count && t->length[i] < to; i++) {
        const double left = s.y * (t->at[i].x - a.x) - s.x * (t->at[i].y - a.y);
        s.bulge[left > 0] = fmax(s.bulge[left > 0], fabs(left));
    }
    s.shape = tailor_in_shape_along(s.x, s.y, width, size);
    return s;
}

/** The middle of a text on one side of a stretch (+1 left, -1 right), `gap` off. */
static tailor_point middle_along(const struct stretch *s, double size, double gap, int side)
{
    const double off = side * (s->bulge[side > 0] + gap + size / 2);
    return (tailor_point){s->middle.x + off * s->y, s->middle.y - off * s->x};
}

/** The angle of a text along a direction, so that it can be read. */
static double angle_along(double x, double y)
{
    const double angle = atan2(y, x) * 180 / acos(-1);
    return angle > 90.001 ? angle - 180 : angle < -90.001 ? angle + 180 : angle;
}

/* What is tried, one after the other: how large, and whether beside the piece instead of in it. */
static const double shrinks[] = {1, 0.85, 0.7};
enum { SIZES = sizeof shrinks / sizeof *shrinks };
static const struct {
    int size, where;
} attempts[] = {{0, TAILOR_IN_INSIDE},
                {1, TAILOR_IN_INSIDE},
                {0, TAILOR_IN_OUTSIDE},
                {2, TAILOR_IN_INSIDE},
                {1, TAILOR_IN_OUTSIDE}};
enum { ATTEMPTS = sizeof attempts / sizeof *attempts };

/** A text in one of its sizes, and the stretches of a trail that have been looked at for it so far. */
enum { STEPS = 40 };
struct along {
    double letters, width;
    int known; /* stretches */
    struct stretch stretches[STEPS];
};

/** Where on a trail a step from the preferred place leads: outward, both ways; less than 0 for nowhere. */
static double share_of(double prefer, int step)
{
    const double share = prefer + (step % 2 ? -1 : 1) * ((step + 1) / 2) * 0.05;
    return share < 0.05 || share > 0.95 ? -1 : share;
}

/** The free box on one side of a stretch or the other, at one of two gaps. 0 when there is none. */
static int find_beside(const struct tailor_in_ground *g, const struct along *a, const struct stretch *s,
                       const double gaps[2], int sides, int where, struct tailor_in_box *box)
{
    for (int k = 0; k < 2; k++) {
        for (int side = 1; side >= -1; side -= 2) {
            const tailor_point middle = middle_along(s, a->letters, gaps[k], side);
            if (!(sides & (side > 0 ? TAILOR_IN_LEFT : TAILOR_IN_RIGHT)) ||
                !tailor_in_shape_is_free(g, &s->shape, middle, where))
                continue;
            *box = (struct tailor_in_box){middle, a->width, a->letters, angle_along(s->x, s->y)};
            return 1;
        }
    }
    return 0;
}

/** The free box close to a trail that is nearest to the preferred place, or else a little further off. 0 when there is
 *  none. */
static int find_along(const struct tailor_in_ground *g, const struct tailor_in_trail *t, struct along *a, double prefer,
                      int sides, int where, struct tailor_in_box *box)
{
    static const double gaps[][2] = {{2.5, 5}, {9, 14}};
    for (int off = 0; off < 2; off++) {
        for (int step = 0; step < STEPS; step++) {
            const double share = share_of(prefer, step);
            if (share < 0)
                continue;
            if (step > 0 && a->width >= 1.9 * tailor_in_trail_length(t))
                break; /* longer than the trail: everywhere the same */
            if (step >= a->known) {
                a->stretches[step] = stretch_of(t, share * tailor_in_trail_length(t), a->width, a->letters);
                a->known = step + 1;
            }
            if (find_beside(g, a, &a->stretches[step], gaps[off], sides, where, box))
                return 1;
        }
    }
    return 0;
}

int tailor_in_label_along(struct tailor_in_drawing *d, struct tailor_in_ground *g, const tailor_cubic *path,
                          size_t count, const char *text, double size, double prefer, int sides)
{
    struct tailor_in_trail t;
    struct along sizes[SIZES];
    const double wide = tailor_in_text_width(text, 1, 0);
    tailor_in_trail_walk(&t, d->place, path, count);
    for (int i = 0; i < SIZES; i++) {
        sizes[i].letters = size * shrinks[i];
        sizes[i].width = (wide + 1) * sizes[i].letters;
        sizes[i].known = 0;
    }
    for (int i = 0; i < ATTEMPTS && tailor_in_trail_length(&t) > 0; i++) {
        const int where = attempts[i].where, both = TAILOR_IN_LEFT | TAILOR_IN_RIGHT;
        struct along *a = &sizes[attempts[i].size];
        struct tailor_in_box box;
        if (!find_along(g, &t, a, prefer, where == TAILOR_IN_OUTSIDE ? both ^ sides : sides, where, &box))
            continue;
        tailor_in_ground_take_box(g, box);
        write_in_box(d, box, text, a->letters);
        return 1;
    }
    return 0;
}

int tailor_in_label_near(struct tailor_in_drawing *d, struct tailor_in_ground *g, tailor_point at, const char *text,
                         double size, double reach)
{
    const double wide = tailor_in_text_width(text, 1, 0);
    for (int i = 0; i < ATTEMPTS; i++) {
        const double letters = size * shrinks[attempts[i].size];
        struct tailor_in_box box = {tailor_in_drawing_on_page(d, at), (wide + 0.5) * letters, letters, 0};
        if (!tailor_in_ground_near(g, &box, reach, attempts[i].where))
            continue;
        tailor_in_ground_take_box(g, box);
        write_in_box(d, box, text, letters);
        return 1;
    }
    return 0;
}

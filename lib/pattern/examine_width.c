/* The narrowest part of a piece: two places of its outline that face each other across the inside, near to one another
 * and yet a long way apart along the outline, whichever way one goes. A corner is near to itself on both of its edges
 * and is no sliver, unless it is as thin as that for a good length.
 *
 * Curves are halved. A pair of parts is dropped when their boxes lie farther apart than the narrowest that was found,
 * when the way between them is too short, or when together they run on in one direction, more or less: then the way
 * between two places of them is no longer than so many times their distance. */
#include "examine.h"

#include "../geom/kernel.h"

/** The shortest way along the outline between the two sides of a sliver, mm: ten times the narrowest that a part may
 * be. Own judgement: a corner of less than 11 deg is one, and a tape or a bridle is none. */
static const double LEAST_WAY = 30;
/** Parts smaller than this, mm, are places. A sliver is told to about this much. */
static const double SMALL = 0.05;
/** What is measured across a piece is not measured along its edge: sine of the least angle between the two. */
static const double LEAST_SINE = 0.2;
/** Most pairs that are looked at in a piece, so that a web of slivers ends too. */
enum { MOST_PAIRS = 20000, DEEPEST = 48 };

/** A part of the outline, and the ways along the outline to its ends. The length of a curve is taken as the mean of its
 *  chord and its handles' polygon: it is only compared with LEAST_WAY. */
struct part {
    tailor_cubic c;
    double from, to;
};

struct width {
    const tailor_cubic *outline;
    size_t count;
    double whole, best; /* length of the outline; the narrowest so far */
    tailor_point at[2];
    double place[2]; /* cubic's index of either side */
    int found, left;
    size_t run; /* of how many curves are the boxes and lengths */
    tailor_in_box boxes[TAILOR_IN_RUNS];
    double lengths[TAILOR_IN_RUNS];
};

static double about_length(const tailor_cubic *c)
{
    const double legs = tailor_in_distance(c->p[0], c->p[1]) + tailor_in_distance(c->p[1], c->p[2]) +
                        tailor_in_distance(c->p[2], c->p[3]);
    return (legs + tailor_in_distance(c->p[0], c->p[3])) / 2;
}

/** Is every distance between places of a and b, which follow one another, at least such a share of their way that it
 *  cannot be a sliver's? It is if no handle runs against the direction from a's start to b's end, or nearly square to
 *  it. */
static bool run_on(const struct width *w, const tailor_cubic *a, const tailor_cubic *b)
{
    const tailor_point chord = tailor_in_sub(b->p[3], a->p[0]);
    const double least = w->best / LEAST_WAY * tailor_in_norm(chord);
    if (!(least > 0))
        return false;
    for (int i = 0; i < 3; i++) {
        const tailor_point u = tailor_in_sub(a->p[i + 1], a->p[i]), v = tailor_in_sub(b->p[i + 1], b->p[i]);
        if (tailor_in_dot(u, chord) < least * tailor_in_norm(u) || tailor_in_dot(v, chord) < least * tailor_in_norm(v))
            return false;
    }
    return true;
}

/** Does b lie on the outer side, the right, of all of a? Then what is between them is no part of the piece: a slit, a
 * dart that is cut out. */
static bool outside(const tailor_cubic *a, const tailor_cubic *b)
{
    for (int leg = 0; leg < 3; leg++) { /* a's directions lie between those of its legs, its places in its hull */
        const tailor_point u = tailor_in_sub(a->p[leg + 1], a->p[leg]);
        double nearest = INFINITY, farthest = -INFINITY;
        for (int k = 0; k < 4; k++) {
            nearest = tailor_in_min(nearest, tailor_in_cross(u, a->p[k]));
            farthest = tailor_in_max(farthest, tailor_in_cross(u, b->p[k]));
        }
        if (farthest > nearest)
            return false;
    }
    return true;
}

/** Sine of the angle by which a direction lies to the left of a curve in its middle. */
static double leftward(const tailor_cubic *c, tailor_point direction)
{
    const tailor_point way = tailor_in_derivative(c, 0.5);
    return tailor_in_cross(way, direction) / (tailor_in_norm(way) * tailor_in_norm(direction));
}

/** The middles of two parts as the two sides of a sliver: narrower than any so far, far along the outline, each on the
 *  inner side, the left, of the other, and the piece between them. */
static void try_middles(struct width *w, const struct part *a, const struct part *b, size_t i, size_t j)
{
    const tailor_point p = tailor_in_point(&a->c, 0.5), q = tailor_in_point(&b->c, 0.5), across = tailor_in_sub(q, p);
    const double way = (b->from + b->to - a->from - a->to) / 2, distance = tailor_in_norm(across);
    if (!(distance < w->best) || way < LEAST_WAY || w->whole - way < LEAST_WAY ||
        !(leftward(&a->c, across) > LEAST_SINE) || !(leftward(&b->c, across) < -LEAST_SINE) ||
        tailor_path_winding(w->outline, w->count, tailor_in_mix(p, q, 0.5)) <= 0)
        return;
    w->best = distance;
    w->at[0] = p;
    w->at[1] = q;
    w->place[0] = (double)i;
    w->place[1] = (double)j;
    w->found = 1;
}

static void halve(const struct part *whole, struct part half[2])
{
    tailor_cubic_split(&whole->c, 0.5, &half[0].c, &half[1].c);
    const double one = about_length(&half[0].c), two = about_length(&half[1].c);
    const double share = one + two > 0 ? one / (one + two) : 0.5;
    half[0].from = whole->from;
    half[0].to = half[1].from = whole->from + share * (whole->to - whole->from);
    half[1].to = whole->to;
}

static void look(struct width *w, const struct part *a, const struct part *b, size_t i, size_t j, int depth)
{
    const tailor_in_box box = tailor_in_hull_box(&a->c), other = tailor_in_hull_box(&b->c);
    /* the nearest and the longest way that two places of them can have */
    if (w->left-- <= 0 || tailor_in_boxes_apart(&box, &other, w->best) || b->to - a->from < LEAST_WAY ||
        w->whole - (b->from - a->to) < LEAST_WAY || outside(&a->c, &b->c) || outside(&b->c, &a->c))
        return;
    try_middles(w, a, b, i, j);
    const double size = tailor_in_size(&a->c), more = tailor_in_size(&b->c);
    if ((size <= SMALL && more <= SMALL) || depth == DEEPEST)
        return;
    struct part half[2];
    halve(size > more ? a : b, half);
    for (int k = 0; k < 2; k++)
        look(w, size > more ? &half[k] : a, size > more ? b : &half[k], i, j, depth + 1);
}

/** A cubic against itself: its halves against each other, and each by itself. */
static void look_alone(struct width *w, const struct part *a, size_t i, int depth)
{
    if (run_on(w, &a->c, &a->c) || a->to - a->from < LEAST_WAY || depth == DEEPEST)
        return;
    struct part half[2];
    halve(a, half);
    look(w, &half[0], &half[1], i, i, 0);
    look_alone(w, &half[0], i, depth + 1);
    look_alone(w, &half[1], i, depth + 1);
}

/** One curve against all that come after it. */
static void look_onward(struct width *w, const struct part *a, size_t i)
{
    const tailor_in_box box = tailor_in_hull_box(&a->c);
    struct part b = *a;
    look_alone(w, a, i, 0);
    for (size_t j = i + 1; j < w->count; j++) {
        if (j % w->run == 0 && tailor_in_boxes_apart(&box, &w->boxes[j / w->run], w->best)) {
            b.to += w->lengths[j / w->run];
            j += w->run - 1;
            continue;
        }
        b = (struct part){w->outline[j], b.to, b.to + about_length(&w->outline[j])};
        const tailor_in_box other = tailor_in_hull_box(&b.c);
        if (!tailor_in_boxes_apart(&box, &other, w->best) && !(j == i + 1 && run_on(w, &a->c, &b.c)) &&
            !(i == 0 && j == w->count - 1 && run_on(w, &b.c, &a->c)))
            look(w, a, &b, i, j, 0);
    }
}

void tailor_in_examine_width(struct tailor_in_examining *x, int piece)
{
    size_t count;
    const tailor_cubic *outline = tailor_piece_outline(x->pattern, piece, &count);
    struct width w = {.outline = outline, .count = count, .left = MOST_PAIRS};
    w.best = tailor_in_finding_limit(TAILOR_FINDING_SLIVER);
    w.run = tailor_in_run_boxes(outline, count, w.boxes);
    for (size_t i = 0; i < count; i++)
        w.lengths[i / w.run] += about_length(&outline[i]);
    for (size_t k = 0; k < TAILOR_IN_RUNS; k++)
        w.whole += w.lengths[k];
    struct part a = {.to = 0};
    for (size_t i = 0; i < count; i++) {
        a = (struct part){outline[i], a.to, a.to + about_length(&outline[i])};
        look_onward(&w, &a, i);
    }
    if (w.found)
        tailor_in_find(x, (tailor_finding){.kind = TAILOR_FINDING_SLIVER,
                                           .piece = piece,
                                           .part = tailor_in_edge_at(x->pattern, piece, w.place[0]),
                                           .other = tailor_in_edge_at(x->pattern, piece, w.place[1]),
                                           .value = w.best,
                                           .at = tailor_in_mix(w.at[0], w.at[1], 0.5)});
}

/* Which curve of an edge answers to which in another size of it, and what has to be cut so that each does.
 *
 * What has a name is what corresponds: the bounds of seams, named points and notches on the edge. They part the edge
 * into stretches. Within a stretch joints answer to one another in their order, where all sizes have as many and the
 * curves between them take about the same share; else where they lie at nearly the same share; else each is made in all
 * the others at its very share. So no curve is a sliver in one size and not in the next: it would vanish, and turn
 * back, a size further. */
#include "match.h"

static const double SAME_PLACE = 1e-7, SAME_SHARE = 1e-9, NEAR = 0.02, PROPORTION = 1.5;
enum { MOST_JOINTS = 1024, MOST_NAMED = 64 };

struct joint {
    double share; /* of the stretch's length */
    double place; /* on its own edge */
    int pattern;
};

struct stretch { /* of one edge in one pattern */
    const tailor_cubic *path;
    size_t count;
    double from, to; /* places */
    double start, length;
};

/* ---- what has a name */

struct named {
    double place[TAILOR_IN_MOST_PATTERNS];
};

/** Put a named place among the others if it lies inside the edge, and in the same order, in every pattern. */
static void add_named(struct named *named, int *count, const struct named *one, size_t patterns, const double *ends)
{
    int at = *count;
    while (at > 0 && named[at - 1].place[0] > one->place[0])
        at--;
    for (size_t k = 0; k < patterns; k++) {
        double before = at > 0 ? named[at - 1].place[k] : 0, after = at < *count ? named[at].place[k] : ends[k];
        if (!(one->place[k] > before + SAME_PLACE && one->place[k] < after - SAME_PLACE))
            return;
    }
    if (*count == MOST_NAMED)
        return;
    for (int i = (*count)++; i > at; i--)
        named[i] = named[i - 1];
    named[at] = *one;
}

/** Places on the edge of a named point, or of a notch's foot (the other is -1); 0 where it lies elsewhere in some. */
static int find_on_edge(const struct tailor_in_match *m, int point, int notch, struct named *one)
{
    for (size_t k = 0; k < m->count; k++) {
        const tailor_pattern *p = m->patterns[k];
        const struct tailor_in_edge *edge = TAILOR_IN_EDGE(p, m->edge);
        tailor_point at = point >= 0 ? TAILOR_IN_POINT(p, point)->at
                                     : TAILOR_IN_CUBIC(p, TAILOR_IN_MARK(p, notch)->first_cubic)->p[0];
        double off;
        one->place[k] = tailor_path_nearest(TAILOR_IN_CUBIC(p, edge->first_cubic), (size_t)edge->cubic_count, at, &off);
        if (!(off <= 1e-6)) /* NaN is not */
            return 0;
    }
    return 1;
}

static int find_named(const struct tailor_in_match *m, struct named *named)
{
    const tailor_pattern *base = m->patterns[0];
    const struct tailor_in_piece *piece = TAILOR_IN_PIECE(base, m->piece);
    double ends[TAILOR_IN_MOST_PATTERNS], bound[2];
    struct named one;
    int count = 0;
    for (size_t k = 0; k < m->count; k++)
        ends[k] = TAILOR_IN_EDGE(m->patterns[k], m->edge)->cubic_count;
    for (int i = 0; i < base->count[TAILOR_IN_STRETCHES]; i++)
        for (int b = 0; b < 2; b++) {
            const tailor_stretch *sewn = TAILOR_IN_STRETCH(base, i);
            if (sewn->piece != m->piece || piece->first_edge + sewn->edge != m->edge)
                continue;
            for (size_t k = 0; k < m->count; k++) {
                tailor_in_bounds_of(m->patterns[k], i, bound);
                one.place[k] = bound[b];
            }
            add_named(named, &count, &one, m->count, ends);
        }
    for (int i = piece->first_point; i < piece->first_point + piece->point_count; i++)
        if (find_on_edge(m, i, -1, &one))
            add_named(named, &count, &one, m->count, ends);
    for (int i = piece->first_mark; i < piece->first_mark + piece->mark_count; i++)
        if (TAILOR_IN_MARK(base, i)->kind == TAILOR_MARK_NOTCH && find_on_edge(m, -1, i, &one))
            add_named(named, &count, &one, m->count, ends);
    return count;
}

/* ---- within a stretch */

static void begin_stretch(struct stretch *s, const tailor_pattern *p, int edge, double from, double to)
{
    s->path = TAILOR_IN_CUBIC(p, TAILOR_IN_EDGE(p, edge)->first_cubic);
    s->count = (size_t)TAILOR_IN_EDGE(p, edge)->cubic_count;
    s->from = from;
    s->to = to;
    s->start = tailor_path_length_to(s->path, s->count, from);
    s->length = tailor_path_length_to(s->path, s->count, to) - s->start;
}

/** The inner joints of a stretch in all patterns, in the order of their shares; -1 when there are too many. */
static int joints_of(const struct stretch *stretch, size_t patterns, struct joint *joint)
{
    int n = 0;
    for (size_t k = 0; k < patterns; k++) {
        const struct stretch *s = &stretch[k];
        for (size_t i = 1; i < s->count; i++) {
            double place = (double)i;
            if (!(place > s->from + SAME_PLACE && place < s->to - SAME_PLACE))
                continue;
            double along = tailor_path_length_to(s->path, s->count, place) - s->start;
            struct joint made = {s->length > 0 ? along / s->length : (place - s->from) / (s->to - s->from), place,
                                 (int)k};
            int at = n++;
            if (n > MOST_JOINTS)
                return -1;
            for (; at > 0 && joint[at - 1].share > made.share; at--)
                joint[at] = joint[at - 1];
            joint[at] = made;
        }
    }
    return n;
}

/** Joints of different patterns that lie within `near` of one another are one group. */
static void group_near(const struct joint *joint, int n, double near, int *group)
{
    int groups = 0, first = 0;
    for (int i = 0; i < n; i++) {
        int same = i > first && joint[i].share - joint[first].share <= near;
        for (int k = first; same && k < i; k++)
            same = joint[k].pattern != joint[i].pattern;
        if (!same) {
            first = i;
            groups++;
        }
        group[i] = groups - 1;
    }
}

/** The i-th joint of every pattern is one group; 0 where they have not all as many. */
static int group_in_order(const struct joint *joint, int n, size_t patterns, int *group)
{
    int seen[TAILOR_IN_MOST_PATTERNS] = {0};
    for (int i = 0; i < n; i++)
        group[i] = seen[joint[i].pattern]++;
    for (size_t k = 1; k < patterns; k++)
        if (seen[k] != seen[0])
            return 0;
    return 1;
}

/** Shares at which one pattern's stretch is parted: its own joint in each group, or the group's mean. Returns how many
 * groups there are; places are those of own joints, -1 where it has none. */
static int parts_of(const struct joint *joint, const int *group, int n, int pattern, double *share, double *place)
{
    int groups = 0, members[MOST_JOINTS] = {0};
    for (int i = 0; i < n; i++) {
        int g = group[i];
        groups = g + 1 > groups ? g + 1 : groups;
        if (!members[g]) {
            share[g] = 0;
            place[g] = -1;
        }
        if (place[g] < 0)
            share[g] = (share[g] * members[g] + joint[i].share) / (members[g] + 1);
        if (joint[i].pattern == pattern) {
            share[g] = joint[i].share;
            place[g] = joint[i].place;
        }
        members[g]++;
    }
    return groups;
}

/** Do answering curves take about the same share of the stretch in all patterns? */
static int proportionate(const struct joint *joint, const int *group, int n, size_t patterns)
{
    double base[MOST_JOINTS], own[MOST_JOINTS], place[MOST_JOINTS];
    int groups = parts_of(joint, group, n, 0, base, place);
    for (size_t k = 0; k < patterns; k++) {
        parts_of(joint, group, n, (int)k, own, place);
        for (int i = 0; i <= groups; i++) {
            double a = (i < groups ? base[i] : 1) - (i ? base[i - 1] : 0),
                   b = (i < groups ? own[i] : 1) - (i ? own[i - 1] : 0);
            if (!(a > 0 && b > 0 && a <= PROPORTION * b && b <= PROPORTION * a))
                return 0;
        }
    }
    return 1;
}

static int match_stretch(const struct tailor_in_match *m, const struct stretch *stretch)
{
    struct joint joint[MOST_JOINTS];
    int group[MOST_JOINTS], n = joints_of(stretch, m->count, joint);
    if (n <= 0)
        return n == 0;
    if (!group_in_order(joint, n, m->count, group) || !proportionate(joint, group, n, m->count)) {
        group_near(joint, n, NEAR, group);
        if (!proportionate(joint, group, n, m->count))
            group_near(joint, n, SAME_SHARE, group);
    }
    for (size_t k = 0; k < m->count; k++) {
        double share[MOST_JOINTS], place[MOST_JOINTS];
        int groups = parts_of(joint, group, n, (int)k, share, place);
        for (int i = 0; i < groups; i++)
            if (place[i] < 0)
                m->cuts[(size_t)m->stride * k + (size_t)m->made[k]++] = (struct tailor_in_cut){
                    m->edge, tailor_path_at_length(stretch[k].path, stretch[k].count,
                                                   stretch[k].start + share[i] * stretch[k].length)};
    }
    return 1;
}

int tailor_in_match_edge(const struct tailor_in_match *m)
{
    struct named named[MOST_NAMED];
    struct stretch stretch[TAILOR_IN_MOST_PATTERNS];
    int count = find_named(m, named);
    for (int i = 0; i <= count; i++) {
        for (size_t k = 0; k < m->count; k++) {
            double whole = TAILOR_IN_EDGE(m->patterns[k], m->edge)->cubic_count;
            begin_stretch(&stretch[k], m->patterns[k], m->edge, i ? named[i - 1].place[k] : 0,
                          i < count ? named[i].place[k] : whole);
        }
        if (!match_stretch(m, stretch))
            return 0;
        for (size_t k = 0; k < m->count && i < count; k++)
            if (fabs(named[i].place[k] - round(named[i].place[k])) > SAME_PLACE)
                m->cuts[(size_t)m->stride * k + (size_t)m->made[k]++] =
                    (struct tailor_in_cut){m->edge, named[i].place[k]};
    }
    return 1;
}

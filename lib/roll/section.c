/* The section of a folded lapel: a chain of links on a floor, at the least energy that it slides into from the closed
 * fold.
 *
 * Link i leans by t[i]; joint i, before it, bends by t[i] - t[i - 1] against its rest; the first joint is held level.
 * Over bending rigidity, the energy is
 *
 *     sum (bend - rest)^2 / 2 step  +  weight off the chest * heights + weight along it * places  +  floor,
 *
 * the floor being a spring under nodes that sink, made stiffer in three rounds. Newton's step is found by dynamic
 * programming: bent or sunk, the rest of the chain answers to two numbers only, the turn of the link before it and how
 * far that one's end has moved up. So the step costs a few operations a link and shows, link by link, whether the
 * energy curves upward; where it does not, every joint is stiffened until it does. */
#include "given.h"

#include "../base/fault.h"
#include "../geom/kernel.h"

enum { MOST_LINKS = TAILOR_ROLLED_LINE_COUNT - 1, MOST_STEPS = 400, ROUNDS = 3, MOST_LENGTHS = 16 };

typedef struct chain {
    int links;
    double step;             /* length of a link, mm */
    double down, back;       /* weight off the chest and along it, over bending rigidity, 1/mm3 */
    double floor;            /* spring under a sunk node, 1/mm4 */
    double rest[MOST_LINKS]; /* curvature that joint i likes, 1/mm */
} chain;

/** A shape of the chain, and what the search needs to know of it. */
typedef struct shape {
    double t[MOST_LINKS];                                            /* lean of link i, rad */
    double sine[MOST_LINKS], cosine[MOST_LINKS], height[MOST_LINKS]; /* height: of the node at the link's end */
    double slope[MOST_LINKS], stiff[MOST_LINKS]; /* of the energy with t[i]; stiff without the sunk nodes' springs */
    double energy, steepest;
} shape;

/** Weight that hangs on link i, its own half included, times the step. */
static double hung(const chain *c, int i) { return c->step * c->step * (c->links - i - 0.5); }

/** Fill in a shape whose leans are set. */
static void look(const chain *c, shape *at)
{
    const double h = c->step;
    double height = 0, pushed = 0;
    at->energy = at->steepest = 0;
    for (int i = 0; i < c->links; i++) {
        at->sine[i] = sin(at->t[i]);
        at->cosine[i] = cos(at->t[i]);
        at->height[i] = height += h * at->sine[i];
    }
    double after = 0; /* how much the joint after the link is bent against its rest, 1/mm */
    for (int i = c->links - 1; i >= 0; i--) {
        const double s = at->sine[i], k = at->cosine[i],
                     half = i ? 1 : 2; /* the held joint has half a link to bend over */
        const double before = half * ((at->t[i] - (i ? at->t[i - 1] : 0)) / h - c->rest[i]);
        const double across = c->down * k - c->back * s, along = c->down * s + c->back * k;
        at->energy += before * before * h / (2 * half) + hung(c, i) * along;
        if (at->height[i] < 0) {
            pushed += c->floor * h * at->height[i];
            at->energy += 0.5 * c->floor * h * at->height[i] * at->height[i];
        }
        at->slope[i] = before - after + hung(c, i) * across + pushed * h * k;
        at->stiff[i] = (half + (i + 1 < c->links)) / h - hung(c, i) * along - pushed * h * s;
        at->steepest = tailor_in_max(at->steepest, fabs(at->slope[i]));
        after = before;
    }
}

/** Newton's step with every joint stiffened by `more`: false when the energy does not curve upward everywhere. */
static bool newton(const chain *c, const shape *at, double more, double *turn)
{
    /* What the chain from link i on costs, as a quadratic of (turn u of the link before, rise v of its end):
     * uu u^2 / 2 + uv u v + vv v^2 / 2 + ul u + vl v. Each link's best turn is -(by_u u + by_v v + by_0). */
    double uu = 0, uv = 0, vv = 0, ul = 0, vl = 0, by_u[MOST_LINKS], by_v[MOST_LINKS], by_0[MOST_LINKS];
    for (int i = c->links - 1; i >= 0; i--) {
        const double a = c->step * at->cosine[i], joint = i ? -1 / c->step : 0;
        if (at->height[i] < 0)
            vv += c->floor * c->step;
        const double curved = at->stiff[i] + more + uu + a * (2 * uv + a * vv);
        if (!(curved > 1e-12))
            return false;
        const double with_v = uv + a * vv, alone = at->slope[i] + ul + a * vl;
        by_u[i] = joint / curved;
        by_v[i] = with_v / curved;
        by_0[i] = alone / curved;
        uu = -joint * by_u[i];
        uv = -joint * by_v[i];
        vv -= with_v * by_v[i];
        ul = -joint * by_0[i];
        vl -= with_v * by_0[i];
    }
    double u = 0, v = 0;
    for (int i = 0; i < c->links; i++) {
        u = turn[i] = -(by_u[i] * u + by_v[i] * v + by_0[i]);
        v += c->step * at->cosine[i] * u;
    }
    return true;
}

/** The part of a step that a shape takes before its energy is lower as it should be, tried from the whole on; false if
 * none does. */
static bool take(const chain *c, const shape *from, const double *turn, shape *to)
{
    double slope = 0, most = 0, part = 1;
    for (int i = 0; i < c->links; i++) {
        slope += turn[i] * from->slope[i];
        most = tailor_in_max(most, fabs(turn[i]));
    }
    if (most > 0.5)
        part = 0.5 / most;
    for (int halves = 0; halves < 20; halves++, part *= 0.5) {
        for (int i = 0; i < c->links; i++)
            to->t[i] = from->t[i] + part * turn[i];
        look(c, to);
        if (to->energy <= from->energy + 1e-4 * part * slope + 1e-13 * fabs(from->energy))
            return true;
    }
    return false;
}

/** Down the energy to rest; of the two shapes the first is where it is, and the other is room. Returns the steps taken,
 * or more than MOST_STEPS if it does not come to rest. */
static int settle(const chain *c, shape *shapes[2], int steps)
{
    const double flat = 1e-9; /* of a slope whose parts are curvatures of some 0.1 / mm */
    double turn[MOST_LINKS], more = 0;
    look(c, shapes[0]);
    for (; steps <= MOST_STEPS && shapes[0]->steepest > flat; steps++) {
        int tries = 0;
        while (!(newton(c, shapes[0], more, turn) && take(c, shapes[0], turn, shapes[1]))) {
            more = more > 0 ? 4 * more : 1e-3 / c->step;
            if (++tries == 60)
                return MOST_STEPS + 1;
        }
        shape *taken = shapes[1];
        shapes[1] = shapes[0];
        shapes[0] = taken;
        more = more > 1e-6 / c->step ? more / 4 : 0;
    }
    return steps;
}

/** The chain as it is closed by hand: half a turn over the band of the set. */
static void close_by_hand(chain *c, const double *f, double *t)
{
    const double band = f[TAILOR_SECTION_SET_BAND], begin = f[TAILOR_SECTION_FREE], end = begin + band;
    const double set = f[TAILOR_SECTION_SET] * TAILOR_IN_DEGREE / band, curl = f[TAILOR_SECTION_CURL] * 1e-3;
    c->links = (int)f[TAILOR_SECTION_LINKS];
    c->step = (begin + band / 2 + f[TAILOR_SECTION_LAPEL_WIDTH]) / c->links;
    double lean = 0;
    for (int i = 0; i < c->links; i++) { /* each joint has the half links beside it */
        const double from = (i - 0.5) * c->step, to = from + c->step;
        const double in_band = tailor_in_max(0, tailor_in_min(to, end) - tailor_in_max(from, begin));
        const double in_lapel = tailor_in_max(0, to - tailor_in_max(from, end));
        c->rest[i] = (in_band * set + in_lapel * curl) / c->step;
        t[i] = lean += in_band * TAILOR_IN_PI / band;
    }
    const double length = f[TAILOR_SECTION_BENDING_LENGTH], cubed = length * length * length;
    const double chest = f[TAILOR_SECTION_CHEST_LEAN] * TAILOR_IN_DEGREE;
    c->down = sin(chest) / cubed;
    c->back = sin(f[TAILOR_SECTION_BREAK_ANGLE] * TAILOR_IN_DEGREE) * cos(chest) / cubed;
}

static void read_off(const chain *c, const double *t, const double *f, int steps, double *row, tailor_point *line)
{
    tailor_point at = {0, 0};
    double crest = 0, sharpest = 0, far = 0;
    if (line)
        line[0] = at;
    for (int i = 0; i < c->links; i++) {
        at.x += c->step * cos(t[i]);
        at.y += c->step * sin(t[i]);
        crest = tailor_in_max(crest, at.y);
        far = tailor_in_max(far, at.x);
        if (i > 0)
            sharpest = tailor_in_max(sharpest, (t[i] - t[i - 1]) / c->step);
        if (line)
            line[i + 1] = at;
    }
    const double edge = tailor_in_max(at.y, 0);
    row[TAILOR_ROLLED_CREST_HEIGHT] = crest;
    row[TAILOR_ROLLED_CREST_RADIUS] = sharpest > 1e-6 ? 1 / sharpest : NAN;
    row[TAILOR_ROLLED_LIES] = edge < 0.2;
    row[TAILOR_ROLLED_EDGE_HEIGHT] = edge;
    row[TAILOR_ROLLED_OVERHANG] = far - f[TAILOR_SECTION_FREE];
    row[TAILOR_ROLLED_STEPS] = steps;
}

static const tailor_in_given inputs[TAILOR_SECTION_COUNT] = {
    [TAILOR_SECTION_BENDING_LENGTH] = {"the bending length of a section", "mm", 8, 80, NAN},
    [TAILOR_SECTION_LAPEL_WIDTH] = {"the lapel width of a section", "mm", 15, 250, NAN},
    [TAILOR_SECTION_SET] = {"the set of a section", "deg", 0, 180, 165},
    [TAILOR_SECTION_SET_BAND] = {"the set band of a section", "mm", 4, 40, 20},
    [TAILOR_SECTION_CURL] = {"the curl of a section", "1/m", -10, 10, 4},
    [TAILOR_SECTION_CHEST_LEAN] = {"the chest lean of a section", "deg", 0, 90, 20},
    [TAILOR_SECTION_BREAK_ANGLE] = {"the break angle of a section", "deg", -45, 45, 0},
    [TAILOR_SECTION_FREE] = {"the free forepart of a section", "mm", 0, 200, 30},
    [TAILOR_SECTION_LINKS] = {"the number of links of a section", "count", 20, MOST_LINKS, MOST_LINKS},
};

tailor_status tailor_roll_section(const double *section, size_t section_count, double *rolled, size_t rolled_count,
                                  tailor_point *line, size_t line_room, tailor_fault *fault)
{
    double f[TAILOR_SECTION_COUNT], row[TAILOR_ROLLED_COUNT] = {0};
    const tailor_status status = tailor_in_given_read(inputs, TAILOR_SECTION_COUNT, section, section_count, f, fault);
    if (status != TAILOR_OK)
        return status;
    if (!rolled && rolled_count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is nowhere to write to");
    if (f[TAILOR_SECTION_LINKS] != floor(f[TAILOR_SECTION_LINKS]))
        return tailor_in_fault_plain(fault, TAILOR_OUT_OF_RANGE, "a section has a whole number of links");
    if (line && (double)line_room < f[TAILOR_SECTION_LINKS] + 1)
        return tailor_in_fault(fault, TAILOR_TOO_SMALL, NULL, 0, (double)line_room, f[TAILOR_SECTION_LINKS] + 1, NAN,
                               "room for %v points of the section: %l are needed");
    const double loose = f[TAILOR_SECTION_FREE] + f[TAILOR_SECTION_LAPEL_WIDTH];
    if (loose > MOST_LENGTHS * f[TAILOR_SECTION_BENDING_LENGTH])
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, loose, 0,
                               MOST_LENGTHS * f[TAILOR_SECTION_BENDING_LENGTH],
                               "lapel and free forepart of a section are %v mm: %h mm, 16 bending lengths, is most");
    chain c;
    shape room[2], *shapes[2] = {&room[0], &room[1]};
    close_by_hand(&c, f, room[0].t);
    const double length = c.step * c.links, whole = c.down + fabs(c.back) + 10 / (length * length * length);
    int steps = 0;
    for (int round = 0; round < ROUNDS && steps <= MOST_STEPS; round++) {
        static const double floors[ROUNDS] = {0.1, 10, 1000};
        c.floor = floors[round] * whole;
        steps = settle(&c, shapes, steps);
    }
    if (steps > MOST_STEPS)
        return tailor_in_fault_plain(fault, TAILOR_NOT_CONVERGED, "the section did not come to rest");
    read_off(&c, shapes[0]->t, f, steps, row, line);
    tailor_in_row_out(row, TAILOR_ROLLED_COUNT, rolled, rolled_count);
    return TAILOR_OK;
}

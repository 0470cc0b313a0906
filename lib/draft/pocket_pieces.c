/* Pieces of the pockets. Each has its origin at the front end of its mouth, which runs toward negative x as on the
 * coat's right side, falling to its rear end where the pocket slants; upwards is the coat's grain. */
#include "assemble.h"
#include "make_marks.h"
#include "put.h"

/* Own judgement, mm: rounding of flap and patch; how much smaller their linings are; turn-in of a patch and how much
 * wider it is at the bottom; bags beyond the mouth, and the depth of the breast pocket's; what is left above the hem.
 */
static const double FLAP_ROUND = 20, PATCH_ROUND = 32, BAG_ROUND = 25, SMALLER = 1.5, TURN_IN = 30, PATCH_WIDER = 5;
static const double BAG_BEYOND = 15, BREAST_BAG_DEPTH = 130, INSIDE_BAG_DEPTH = 170, ABOVE_HEM = 15,
                    PATCH_ABOVE_HEM = 40;

struct mouth {
    tailor_point along; /* unit, from the front end to the rear end */
    double length, above_hem;
};

static struct mouth hip_mouth(const tailor_in_draft *d)
{
    const tailor_cubic *fore = &d->pocket_fore;
    double length = distance(fore->p[0], fore->p[3]), rear = fore->p[3].y;
    struct mouth m = {unit(sub(fore->p[3], fore->p[0])), length, 0};
    if (d->pocket_crosses) { /* the front seam closed: both parts are one line */
        m.length += distance(d->pocket_side.p[0], d->pocket_side.p[3]);
        rear = fmin(rear, d->pocket_side.p[3].y);
    }
    m.above_hem = rear - d->front_hem;
    return m;
}

/** A pocket piece below its mouth. */
struct sack {
    tailor_point front, rear;               /* ends of the mouth */
    tailor_point front_bottom, rear_bottom; /* corners before rounding */
    double front_round, rear_round;
};

/** Its outline without the mouth: rear end, bottom with its rounded corners, front end. */
struct sack_path {
    tailor_cubic c[5];
    size_t rear, bottom, front; /* how many of them */
};

/** A corner between two lines of an outline, as a quarter of a turn. */
static tailor_cubic corner(tailor_point before, tailor_point at_corner, tailor_point after, double round)
{
    static const double handle = 0.55228474983079339840; /* of a quarter of a circle, as a part of its radius */
    tailor_point in = unit(sub(at_corner, before)), out = unit(sub(after, at_corner));
    return tailor_in_hermite(along(at_corner, in, -round), times(in, handle * round), along(at_corner, out, round),
                             times(out, handle * round));
}

static struct sack_path path_of(const struct sack *s)
{
    struct sack_path path = {{{{{0, 0}}}}, 1, 0, 1};
    tailor_cubic behind = corner(s->rear, s->rear_bottom, s->front_bottom, s->rear_round);
    tailor_cubic before = corner(s->rear_bottom, s->front_bottom, s->front, s->front_round);
    size_t n = 0;
    path.c[n++] = tailor_in_line(s->rear, behind.p[0]);
    if (s->rear_round > 0)
        path.c[n++] = behind;
    path.c[n++] = tailor_in_line(behind.p[3], before.p[0]);
    if (s->front_round > 0)
        path.c[n++] = before;
    path.c[n++] = tailor_in_line(before.p[3], s->front);
    path.bottom = n - 2;
    return path;
}

/** Edges below a mouth; what a turn-in has of its ends goes before and after them. */
static void add_sack(tailor_pattern *p, const struct sack *s, const tailor_cubic *rear_top,
                     const tailor_cubic *front_top)
{
    struct sack_path path = path_of(s);
    tailor_cubic rear[2], front[2] = {path.c[path.rear + path.bottom]};
    size_t rear_count = 0, front_count = 1;
    if (rear_top)
        rear[rear_count++] = *rear_top;
    rear[rear_count++] = path.c[0];
    if (front_top)
        front[front_count++] = *front_top;
    tailor_in_add_edge(p, TAILOR_EDGE_REAR_END, rear, rear_count);
    tailor_in_add_edge(p, TAILOR_EDGE_BOTTOM, path.c + path.rear, path.bottom);
    tailor_in_add_edge(p, TAILOR_EDGE_FRONT_END, front, front_count);
}

static void add_grain(tailor_pattern *p, tailor_point middle, tailor_point direction, double length)
{
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, along(middle, direction, -length / 2),
                       along(middle, direction, length / 2));
}

/** A sack with a straight mouth, cut for both sides. */
static void add_plain_sack(tailor_pattern *p, int piece, int cut, const char *cloth, const struct sack *s)
{
    tailor_cubic mouth = tailor_in_line(s->front, s->rear);
    tailor_in_add_piece(p, piece, cut, 1, TAILOR_SIDE_RIGHT, cloth);
    tailor_in_add_edge(p, TAILOR_EDGE_MOUTH, &mouth, 1);
    add_sack(p, s, NULL, NULL);
    tailor_point top = times(add(s->front, s->rear), 0.5), bottom = times(add(s->front_bottom, s->rear_bottom), 0.5);
    add_grain(p, times(add(top, bottom), 0.5), at(0, 1), 0.6 * (top.y - bottom.y));
}

/** A flap: its ends run with the grain, its front corner is rounded. `less` is what its lining is smaller. */
static struct sack flap_of(const tailor_in_draft *d, struct mouth m, double less)
{
    double height = fmin(d->k[TAILOR_CONSTANT_FLAP_HEIGHT], fmax(m.above_hem - ABOVE_HEM, 25)) - less;
    double round = fmin(FLAP_ROUND, 0.4 * fmin(height, m.length - 2 * less));
    struct sack s = {times(m.along, less), times(m.along, m.length - less), {0, 0}, {0, 0}, round, 0};
    s.front_bottom = along(s.front, at(0, -1), height);
    s.rear_bottom = along(s.rear, at(0, -1), height);
    return s;
}

/** Its lower corners, plumb below the mouth or a little outside. The bottom is level, as the hem is, as long as that
 * leaves enough of the rear end. */
static void hang(struct sack *s, double height, double wider)
{
    double rise = fmin(s->front.y - s->rear.y, 0.4 * height);
    s->front_bottom = add(s->front, at(wider, -height));
    s->rear_bottom = add(s->rear, at(-wider, rise - height));
}

/** A patch: as high as it may be in front, its corners rounded. */
static struct sack patch_of(const tailor_in_draft *d, struct mouth m, double less)
{
    double height = fmin(d->k[TAILOR_CONSTANT_PATCH_HEIGHT], fmax(m.above_hem - PATCH_ABOVE_HEM, 40)) - less;
    double round = fmin(PATCH_ROUND, 0.24 * fmin(height, m.length));
    struct sack s = {times(m.along, less), times(m.along, m.length - less), {0, 0}, {0, 0}, round, round};
    hang(&s, height, PATCH_WIDER);
    return s;
}

static tailor_point mirrored_in_mouth(tailor_point a, tailor_point mouth)
{
    return sub(times(mouth, 2 * dot(a, mouth)), a);
}

/** Patch with its turn-in, which mirrors the sides so that it lies on them when it is folded in. */
static void add_patch(tailor_pattern *p, const tailor_in_draft *d, struct mouth m)
{
    struct sack s = patch_of(d, m, 0);
    tailor_point front = unit(sub(s.front_bottom, s.front)), rear = unit(sub(s.rear_bottom, s.rear));
    double turn_in = fmin(TURN_IN, 0.3 * (s.front.y - s.front_bottom.y));
    tailor_point front_top = along(s.front, mirrored_in_mouth(front, m.along), turn_in);
    tailor_point rear_top = along(s.rear, mirrored_in_mouth(rear, m.along), turn_in);
    tailor_cubic edge = tailor_in_line(front_top, rear_top), rear_side = tailor_in_line(rear_top, s.rear),
                 front_side = tailor_in_line(s.front, front_top);
    tailor_in_add_piece(p, TAILOR_PIECE_PATCH_POCKET, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_edge(p, TAILOR_EDGE_MOUTH, &edge, 1);
    add_sack(p, &s, &rear_side, &front_side);
    tailor_in_add_line(p, TAILOR_MARKED_FOLD_LINE, TAILOR_MARK_FOLD, s.front, s.rear);
    add_grain(p, times(add(s.front_bottom, s.rear), 0.5), at(0, 1), 0.5 * (s.front.y - s.front_bottom.y));

    /* Its lining is sewn to the turn-in: it begins where that ends. */
    struct sack lining = patch_of(d, m, SMALLER);
    front = unit(sub(lining.front_bottom, lining.front));
    rear = unit(sub(lining.rear_bottom, lining.rear));
    lining.front = along(lining.front, front, turn_in);
    lining.rear = along(lining.rear, rear, turn_in);
    lining.front_round = lining.rear_round = fmin(lining.front_round, 0.4 * (lining.rear.y - lining.rear_bottom.y));
    add_plain_sack(p, TAILOR_PIECE_PATCH_LINING, 2, "lining", &lining);
}

/** A jetting folded double along its mouth, its grain along it. */
static void add_jetting(tailor_pattern *p, const tailor_in_draft *d, int piece, int cut, const char *cloth,
                        struct mouth m)
{
    double height = 2 * d->k[TAILOR_CONSTANT_JETTING_HEIGHT];
    struct sack s = {at(0, 0), times(m.along, m.length), {0, 0}, {0, 0}, 0, 0};
    tailor_point down = left_of(m.along);
    s.front_bottom = along(s.front, down, height);
    s.rear_bottom = along(s.rear, down, height);
    tailor_cubic mouth = tailor_in_line(s.front, s.rear);
    tailor_in_add_piece(p, piece, cut, 1, TAILOR_SIDE_RIGHT, cloth);
    tailor_in_add_edge(p, TAILOR_EDGE_MOUTH, &mouth, 1);
    add_sack(p, &s, NULL, NULL);
    tailor_point middle = times(down, height / 2);
    tailor_in_add_line(p, TAILOR_MARKED_FOLD_LINE, TAILOR_MARK_FOLD, add(s.front, middle), add(s.rear, middle));
    add_grain(p, along(along(s.front, m.along, m.length / 2), down, 0.75 * height), times(m.along, -1), 0.5 * m.length);
}

/** A bag: its mouth a little longer than the pocket's, its corners rounded. */
static void add_bag(tailor_pattern *p, int piece, int cut, struct mouth m, double depth)
{
    double round = fmin(BAG_ROUND, 0.24 * fmin(depth, m.length));
    struct sack s = {times(m.along, -BAG_BEYOND), times(m.along, m.length + BAG_BEYOND), {0, 0}, {0, 0}, round, round};
    hang(&s, depth, 0);
    add_plain_sack(p, piece, cut, "silesia", &s);
}

static void add_hip_pocket(tailor_pattern *p, const tailor_in_draft *d)
{
    int kind = (int)d->f[TAILOR_FIELD_HIP_POCKETS];
    struct mouth m = hip_mouth(d);
    if (kind == TAILOR_HIP_POCKETS_FLAPPED) {
        struct sack flap = flap_of(d, m, 0), lining = flap_of(d, m, SMALLER);
        /* The lining is as high as the flap at the mouth, where both are caught. */
        add_plain_sack(p, TAILOR_PIECE_POCKET_FLAP, 2, "cloth", &flap);
        add_plain_sack(p, TAILOR_PIECE_FLAP_LINING, 2, "lining", &lining);
    }
    if (kind == TAILOR_HIP_POCKETS_FLAPPED || kind == TAILOR_HIP_POCKETS_JETTED) {
        double depth = fmin(d->k[TAILOR_CONSTANT_POCKET_BAG_DEPTH], fmax(m.above_hem - ABOVE_HEM, 40));
        add_jetting(p, d, TAILOR_PIECE_POCKET_JETTING, 4, "cloth", m);
        add_bag(p, TAILOR_PIECE_POCKET_BAG, 4, m, depth);
    }
    if (kind == TAILOR_HIP_POCKETS_PATCH)
        add_patch(p, d, m);
}

/** The breast welt, on the left front alone: the welt and, over the fold of its top edge, its inner half. */
static void add_breast_welt(tailor_pattern *p, const tailor_in_draft *d)
{
    /* Corners as of the left side, from the front end's top: there the front end is at the left. */
    tailor_point place[4];
    for (int i = 0; i < 4; i++) {
        place[i] = sub(d->welt.c[i].p[0], d->welt.c[2].p[0]);
        place[i].x = -place[i].x;
    }
    tailor_point rear = place[0], front = place[1], front_top = place[2], rear_top = place[3];
    tailor_point front_in = tailor_point_reflect(front, front_top, rear_top),
                 rear_in = tailor_point_reflect(rear, front_top, rear_top);
    tailor_cubic bottom = tailor_in_line(front, rear), mouth = tailor_in_line(rear_in, front_in);
    tailor_cubic rear_end[2] = {tailor_in_line(rear, rear_top), tailor_in_line(rear_top, rear_in)};
    tailor_cubic front_end[2] = {tailor_in_line(front_in, front_top), tailor_in_line(front_top, front)};
    tailor_in_add_piece(p, TAILOR_PIECE_BREAST_WELT, 1, 0, TAILOR_SIDE_LEFT, "cloth");
    tailor_in_add_edge(p, TAILOR_EDGE_BOTTOM, &bottom, 1);
    tailor_in_add_edge(p, TAILOR_EDGE_REAR_END, rear_end, 2);
    tailor_in_add_edge(p, TAILOR_EDGE_MOUTH, &mouth, 1);
    tailor_in_add_edge(p, TAILOR_EDGE_FRONT_END, front_end, 2);
    tailor_in_add_line(p, TAILOR_MARKED_FOLD_LINE, TAILOR_MARK_FOLD, front_top, rear_top);
    add_grain(p, times(add(front, rear_top), 0.5), at(0, 1), 0.7 * (front_top.y - front.y));
}

static void add_breast_bag(tailor_pattern *p, const tailor_in_draft *d)
{
    /* Level, for it hangs plumb from the slanting welt; as long as the welt may be, whatever the lapel leaves of it. */
    double length = fmin(d->f[TAILOR_FIELD_CHEST_GIRTH] / 900, 1) * d->k[TAILOR_CONSTANT_WELT_LENGTH];
    add_bag(p, TAILOR_PIECE_BREAST_BAG, 2, (struct mouth){at(-1, 0), length, 0}, BREAST_BAG_DEPTH);
}

static void add_inside_pocket(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_cubic line = tailor_in_inside_pocket(d);
    struct mouth m = {at(-1, 0), distance(line.p[0], line.p[3]), 0};
    add_jetting(p, d, TAILOR_PIECE_INSIDE_POCKET_JETTING, 4, "lining", m);
    add_bag(p, TAILOR_PIECE_INSIDE_POCKET_BAG, 4, m, INSIDE_BAG_DEPTH);
}

void tailor_in_add_pocket_pieces(tailor_pattern *p, const tailor_in_draft *d)
{
    add_breast_welt(p, d);
    add_breast_bag(p, d);
    add_hip_pocket(p, d);
    add_inside_pocket(p, d);
}

void tailor_in_add_pocket_mark(tailor_pattern *p, const tailor_in_draft *d)
{
    int kind = (int)d->f[TAILOR_FIELD_HIP_POCKETS];
    if (kind != TAILOR_HIP_POCKETS_FLAPPED && kind != TAILOR_HIP_POCKETS_PATCH)
        return;
    struct mouth m = hip_mouth(d);
    struct sack s = kind == TAILOR_HIP_POCKETS_PATCH ? patch_of(d, m, 0) : flap_of(d, m, 0);
    struct sack_path path = path_of(&s);
    tailor_cubic outline[6] = {tailor_in_line(s.front, s.rear)};
    size_t n = 1;
    for (size_t i = 0; i < path.rear + path.bottom + path.front; i++)
        outline[n++] = path.c[i];
    double shift[6] = {1, 0, 0, 1, d->pocket_fore.p[0].x, d->pocket_fore.p[0].y};
    tailor_path_affine(outline, n, shift, outline);
    tailor_in_add_mark(p, TAILOR_MARKED_FLAP, TAILOR_MARK_LINE, outline, n);
}

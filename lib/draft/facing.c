/* Facing, in its place on the forepart. Over the lapel it is wider by its turn and by what rolls under at the edge, and
 * longer, eased in; about the break point it crosses over to inside the edge, where the forepart rolls under. A shawl's
 * facing has the top collar grown on and its seam at the centre back. */
#include "facing.h"
#include "aside.h"
#include "assemble.h"
#include "put.h"

typedef struct shape {
    const tailor_in_draft *draft;
    double above, below;        /* where it crosses over, mm along the forepart's edge from the break point */
    double wider;               /* over the lapel, square to the break line */
    tailor_in_path front, edge; /* hem to where it crosses over; from the break point to the end of lapel or collar */
    tailor_cubic lapel;         /* forepart's lapel edge above that place */
    tailor_cubic crossing;
    tailor_point tip;    /* end of the lapel, which a shawl runs on from */
    tailor_in_path neck; /* of a shawl: neck point to centre back */
    tailor_in_path leaf; /* of a shawl: rest of the outer edge, to the centre back */
} shape;

/** Out over the break line, and up in proportion to the height above the break point: widths square to the break line
 *  grow alike everywhere. */
static void map_lapel(const shape *s, double longer, tailor_cubic *c)
{
    const tailor_in_draft *d = s->draft;
    double per_height = longer / dot(sub(d->tip, d->break_point), d->up);
    for (int i = 0; i < 4; i++) {
        double height = dot(sub(c->p[i], d->break_point), d->up);
        c->p[i] = along(along(c->p[i], d->inward, -s->wider), d->up, per_height * height);
    }
}

/** The edge from where it leaves the front edge's parallel, with the lapel that much longer. */
static void draw_lapel(shape *s, double longer)
{
    tailor_cubic lapel = s->lapel;
    map_lapel(s, longer, &lapel);
    tailor_point low = tailor_in_path_end(&s->front), leave = tailor_in_direction_end(&s->front);
    double third = distance(low, lapel.p[0]) / 3;
    s->crossing =
        tailor_in_hermite(low, times(leave, third), lapel.p[0], times(tailor_cubic_direction(&lapel, 0), third));
    s->edge.count = 0;
    tailor_in_append(&s->edge, s->crossing);
    tailor_in_append(&s->edge, lapel);
    s->tip = lapel.p[3];
}

/** How much longer than wanted the facing is along the lapel edge, the break point being where the length below it is
 *  the forepart's. */
static double lapel_lacks(const void *with, double longer)
{
    shape trial = *(const shape *)with;
    draw_lapel(&trial, longer);
    const tailor_in_draft *d = trial.draft;
    return tailor_in_length(&trial.edge) - trial.below - tailor_cubic_length(&d->worn_edge) -
           d->k[TAILOR_CONSTANT_FACING_LAPEL_LONG];
}

/** The edge is cut at the break point: what is below it belongs to the front edge. */
static void cut_at_break(shape *s)
{
    double place = tailor_cubic_at_length(&s->crossing, s->below);
    tailor_cubic lower;
    tailor_cubic_split(&s->crossing, place, &lower, &s->edge.c[0]);
    tailor_in_append(&s->front, lower);
}

/** A shawl: the lapel is moved out, the collar grown on, and the whole outer edge is as much longer as lapel and collar
 *  together; it is parted where the lapel's own length ends. */
static void grow_collar(shape *s)
{
    const tailor_in_draft *d = s->draft;
    double lapel = tailor_cubic_length(&d->worn_edge) + d->k[TAILOR_CONSTANT_FACING_LAPEL_LONG];
    double leaf = tailor_in_length(&d->collar_leaf) + d->k[TAILOR_CONSTANT_TOP_COLLAR_LONG];
    draw_lapel(s, 0);
    cut_at_break(s);
    tailor_in_top_collar collar = tailor_in_bend_top_collar(
        d, tailor_in_path_end(&s->edge), tailor_in_direction_end(&s->edge), lapel + leaf - tailor_in_length(&s->edge));
    s->neck = collar.neck;
    for (size_t i = 0; i < collar.leaf.count; i++)
        tailor_in_append(&s->edge, collar.leaf.c[i]);
    double place = tailor_path_at_length(s->edge.c, s->edge.count, lapel);
    s->leaf = tailor_in_part(&s->edge, place, (double)s->edge.count);
    s->edge = tailor_in_part(&s->edge, 0, place);
}

/** The front edge inside the forepart's, from the hem to where the edge crosses over. */
static void draw_front(shape *s)
{
    const tailor_in_draft *d = s->draft;
    double inside = d->k[TAILOR_CONSTANT_FACING_INSIDE], whole = tailor_in_length(&d->front_edge);
    double place = tailor_path_at_length(d->front_edge.c, d->front_edge.count, whole - s->below);
    tailor_in_path lower = tailor_in_part(&d->front_edge, 0, place);
    s->front = tailor_in_aside(&lower, -inside);
    tailor_point corner = tailor_in_corner_aside(d->hem_front, tailor_cubic_direction(&d->hem_fore, 1),
                                                 tailor_in_direction_start(&d->front_edge), -inside);
    s->front.c[0] = tailor_in_between(&s->front.c[0], corner, s->front.c[0].p[3]);
}

static shape draw(const tailor_in_draft *d)
{
    shape s = {.draft = d,
               .above = d->k[TAILOR_CONSTANT_FACING_CROSS],
               .below = d->k[TAILOR_CONSTANT_FACING_CROSS],
               .wider = tailor_in_turn(d) + d->k[TAILOR_CONSTANT_FACING_EDGE_MORE]};
    tailor_cubic lapel = d->worn_edge;
    tailor_path_reflect(&lapel, 1, d->stand_point, d->break_point, &lapel);
    lapel = tailor_cubic_reverse(&lapel);
    s.lapel = tailor_cubic_part(&lapel, tailor_cubic_at_length(&lapel, s.above), 1);
    draw_front(&s);
    if (tailor_in_shawl(d->f)) {
        grow_collar(&s);
        return s;
    }
    double longer = tailor_in_root(lapel_lacks, &s, -30, 60, 1e-10);
    draw_lapel(&s, isnan(longer) ? 0 : longer);
    cut_at_break(&s);
    return s;
}

/** The collar end is moved by the turn alone, and up with the tip. */
static tailor_point collar_end(const shape *s)
{
    const tailor_in_draft *d = s->draft;
    return along(add(s->tip, sub(d->root, d->tip)), d->inward, d->k[TAILOR_CONSTANT_FACING_EDGE_MORE]);
}

/** Step and gorge, or the collar of a shawl. */
static void add_top(tailor_pattern *p, const shape *s)
{
    const tailor_in_draft *d = s->draft;
    if (tailor_in_shawl(d->f)) {
        tailor_cubic centre = tailor_in_line(tailor_in_path_end(&s->leaf), tailor_in_path_end(&s->neck));
        tailor_in_add_path(p, TAILOR_EDGE_LEAF, &s->leaf);
        tailor_in_add_edge(p, TAILOR_EDGE_CENTRE_BACK, &centre, 1);
        tailor_in_add_backwards(p, TAILOR_EDGE_NECK, &s->neck);
        return;
    }
    tailor_point root = collar_end(s);
    tailor_cubic step = tailor_in_line(s->tip, root), gorge[2] = {tailor_in_line(root, d->gorge_corner), d->gorge.c[1]};
    tailor_in_add_edge(p, TAILOR_EDGE_LAPEL_STEP, &step, 1);
    tailor_in_add_edge(p, TAILOR_EDGE_GORGE, gorge, 2);
}

void tailor_in_add_facing(tailor_pattern *p, const tailor_in_draft *d)
{
    shape s = draw(d);
    tailor_in_path inner = tailor_in_facing_line(d);
    tailor_point top = tailor_in_path_start(&inner), low = tailor_in_path_end(&inner);
    tailor_cubic shoulder =
        tailor_cubic_part(&d->front_shoulder, 0, tailor_cubic_nearest(&d->front_shoulder, top, NULL));
    tailor_cubic hem = tailor_cubic_part(&d->hem_fore, tailor_cubic_nearest(&d->hem_fore, low, NULL), 1);
    shoulder = tailor_in_between(&shoulder, shoulder.p[0], top);
    hem = tailor_in_between(&hem, low, tailor_in_path_start(&s.front));

    tailor_in_add_piece(p, TAILOR_PIECE_FACING, 2, 1, TAILOR_SIDE_RIGHT, "cloth");
    tailor_in_add_path(p, TAILOR_EDGE_FRONT_EDGE, &s.front);
    tailor_in_add_path(p, TAILOR_EDGE_LAPEL_EDGE, &s.edge);
    add_top(p, &s);
    tailor_in_add_edge(p, TAILOR_EDGE_SHOULDER, &shoulder, 1);
    tailor_in_add_path(p, TAILOR_EDGE_INNER_EDGE, &inner);
    tailor_in_add_edge(p, TAILOR_EDGE_HEM, &hem, 1);

    tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, d->neck_point);
    tailor_in_add_point(p, TAILOR_POINT_BREAK_POINT, tailor_in_path_end(&s.front));
    tailor_in_add_point(p, TAILOR_POINT_HEM_FRONT, tailor_in_path_start(&s.front));
    tailor_in_add_point(p, TAILOR_POINT_TIP, s.tip);
    if (!tailor_in_shawl(d->f)) {
        tailor_in_add_point(p, TAILOR_POINT_COLLAR_END, collar_end(&s));
        tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_GORGE, TAILOR_EDGE_GORGE, 1);
    }
    double x = d->centre_front - 25, below = d->break_y - d->front_hem, half_turn = tailor_in_turn(d) / 2;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->break_y - 0.6 * below),
                       at(x, d->break_y - 0.1 * below));
    /* The fold runs in the middle of what the turn takes. */
    tailor_in_add_line(p, TAILOR_MARKED_BREAK_LINE, TAILOR_MARK_FOLD, along(d->break_point, d->inward, -half_turn),
                       along(d->gorge_crossing, d->inward, -half_turn));
    tailor_cubic pocket = tailor_in_inside_pocket(d);
    tailor_in_add_line(p, TAILOR_MARKED_INSIDE_POCKET, TAILOR_MARK_LINE, pocket.p[0],
                       at(tailor_in_x_at(&inner, pocket.p[0].y), pocket.p[0].y));
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_FACING, TAILOR_EDGE_FRONT_EDGE, (double)s.front.count);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_LINING, TAILOR_EDGE_INNER_EDGE,
                        tailor_in_place_on_seam(&inner, d->waist));
}

#define SEWN(piece, edge, from, to)                                                                                    \
    (tailor_in_sewn) { TAILOR_PIECE_##piece, TAILOR_EDGE_##edge, from, to }

void tailor_in_sew_facing(const tailor_in_sewing *s)
{
    const tailor_in_draft *d = s->draft;
    const double end = -1;
    tailor_in_sewn shoulder = SEWN(FACING, SHOULDER, 0, end), fore = SEWN(FOREPART, SHOULDER, 0, 0);
    fore.to = tailor_in_edge_length(s->pattern, TAILOR_PIECE_FACING, TAILOR_EDGE_SHOULDER, s->side);
    /* Drawn tight round the bottom: by as much as its edge inside the forepart's is shorter. */
    double front = tailor_in_edge_length(s->pattern, TAILOR_PIECE_FACING, TAILOR_EDGE_FRONT_EDGE, s->side) -
                   tailor_in_length(&d->front_edge);
    tailor_in_sew(s, "facing_front", front, SEWN(FACING, FRONT_EDGE, 0, end), SEWN(FOREPART, FRONT_EDGE, 0, end));
    tailor_in_sew(s, "facing_lapel", d->k[TAILOR_CONSTANT_FACING_LAPEL_LONG], SEWN(FACING, LAPEL_EDGE, 0, end),
                  SEWN(FOREPART, LAPEL_EDGE, 0, end));
    tailor_in_sew(s, "facing_shoulder", 0, shoulder, fore);
    if (tailor_in_shawl(d->f))
        return;
    double step = tailor_in_edge_length(s->pattern, TAILOR_PIECE_FACING, TAILOR_EDGE_LAPEL_STEP, s->side) -
                  distance(d->tip, d->root);
    double gorge = tailor_in_edge_length(s->pattern, TAILOR_PIECE_FACING, TAILOR_EDGE_GORGE, s->side) -
                   tailor_in_length(&d->gorge);
    tailor_in_sew(s, "facing_step", step, SEWN(FACING, LAPEL_STEP, 0, end), SEWN(FOREPART, LAPEL_STEP, 0, end));
    tailor_in_sew(s, "facing_gorge", gorge, SEWN(FACING, GORGE, 0, end), SEWN(FOREPART, GORGE, 0, end));
}

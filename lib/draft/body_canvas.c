/* Body canvas: beyond the forepart on all its edges, since it is trimmed when the coat is basted; over the chest to the
 * side, then along the front to the hem. The breast dart, on its bottom edge below the chest, is cut out and butted;
 * the slit in the middle of the shoulder is spread, its outer half swung out about the slit's end. */
#include "aside.h"
#include "canvas.h"
#include "put.h"

/* Own judgement: where the dart stands on the bottom edge, how near slit and dart may come to one another between
 * shoulder and scye line, and what the canvas is wide at least between side and front. */
static const double DART_PLACE = 0.3, SLIT_DEEPEST = 0.55, DART_HIGHEST = 0.3, LEAST = 80;
/* Own judgement: how far the canvas lies behind the buttons, and behind the end of a round cut at the hem. */
static const double BEHIND_BUTTONS = 25, PAST_ROUND = 20;

typedef struct canvas {
    tailor_in_path bottom, dart, inner, hem, front, lapel, gorge, shoulder, slit, outer, scye, side;
} canvas;

static tailor_point turned(tailor_point p, tailor_point about, double angle)
{
    tailor_point arm = sub(p, about);
    return add(about, add(times(arm, cos(angle)), times(left_of(arm), sin(angle))));
}

/** Front edge, lapel and gorge. An acute tip is cut off square. */
static void draw_front(const tailor_in_draft *d, canvas *c)
{
    double out = d->k[TAILOR_CONSTANT_CANVAS_BEYOND_FRONT];
    tailor_cubic lapel = d->worn_edge;
    tailor_path_reflect(&lapel, 1, d->stand_point, d->break_point, &lapel);
    lapel = tailor_cubic_reverse(&lapel);
    tailor_in_path edge = {1, {lapel}};
    c->front = tailor_in_aside(&d->front_edge, out);
    c->lapel = tailor_in_aside(&edge, out);
    tailor_point corner = tailor_in_corner_aside(d->hem_front, tailor_cubic_direction(&d->hem_fore, 1),
                                                 tailor_in_direction_start(&d->front_edge), out);
    c->front.c[0] = tailor_in_between(&c->front.c[0], corner, c->front.c[0].p[3]);
    c->lapel.c[0] = tailor_in_between(&c->lapel.c[0], tailor_in_path_end(&c->front), c->lapel.c[0].p[3]);

    tailor_point arrive = tailor_cubic_direction(&lapel, 1), leave = unit(sub(d->gorge_corner, d->tip));
    tailor_point after = tailor_in_corner_aside(d->tip, arrive, leave, out), from = tailor_in_path_end(&c->lapel);
    int acute = dot(arrive, leave) < 0;
    if (acute)
        after = along(from, arrive, out);
    if (distance(from, after) > 1e-6)
        tailor_in_append(&c->lapel, tailor_in_line(from, after));
    else
        after = from;
    c->gorge.count = 0;
    if (acute) {
        tailor_point past = along(along(d->tip, right_of(leave), out), leave, -out);
        tailor_in_append(&c->gorge, tailor_in_line(after, past));
        after = past;
    }
    const tailor_cubic *rise = &d->gorge.c[1];
    double neck = fmin(d->k[TAILOR_CONSTANT_CANVAS_BEYOND], 0.3 * distance(rise->p[0], rise->p[3]));
    tailor_point inside = tailor_in_corner_aside(d->gorge_corner, tailor_cubic_direction(&d->gorge.c[0], 1),
                                                 tailor_cubic_direction(rise, 0), neck);
    tailor_point neck_point =
        tailor_in_corner_aside(d->neck_point, tailor_cubic_direction(rise, 1),
                               tailor_cubic_direction(&d->front_shoulder, 0), d->k[TAILOR_CONSTANT_CANVAS_BEYOND]);
    tailor_in_append(&c->gorge, tailor_in_line(after, inside));
    tailor_in_append(&c->gorge, tailor_in_between(rise, inside, neck_point));
}

/** Lower end of the side, on the front seam. */
static tailor_point side_end(const tailor_in_draft *d)
{
    double level = fmax(d->scye_line - d->k[TAILOR_CONSTANT_CANVAS_BELOW_SCYE], (d->scye_line + d->front_hem) / 2);
    return at(tailor_in_x_at(&d->front_seam_fore, level), level);
}

/** How deep the slit may be: clear of the breast dart, and of the scye where an odd shoulder leans over it. */
static double slit_room(const tailor_in_draft *d, tailor_point mouth, tailor_point into)
{
    double room = SLIT_DEEPEST * (mouth.y - d->scye_line) / fmax(-into.y, 0.1), places[8];
    size_t found = 0;
    if (tailor_path_cross_line(d->scye_fore.c, d->scye_fore.count, mouth, add(mouth, into), places, 8, &found) ==
        TAILOR_OK)
        for (size_t i = 0; i < found; i++) {
            tailor_point scye = tailor_path_point(d->scye_fore.c, d->scye_fore.count, places[i]);
            double away = dot(sub(scye, mouth), into);
            room = away > 0 ? fmin(room, 0.5 * away) : room;
        }
    return room;
}

/** Shoulder with its slit, scye, side. */
static void draw_shoulder(const tailor_in_draft *d, canvas *c)
{
    const double *k = d->k;
    double beyond = k[TAILOR_CONSTANT_CANVAS_BEYOND], spread = k[TAILOR_CONSTANT_CANVAS_SLIT_SPREAD];
    const tailor_cubic *upper = &d->scye_fore.c[0], *lower = &d->scye_fore.c[1];
    tailor_point leave = tailor_cubic_direction(upper, 0);
    tailor_point end =
        tailor_in_corner_aside(d->front_shoulder_end, tailor_cubic_direction(&d->front_shoulder, 1), leave, beyond);
    tailor_cubic whole = tailor_in_between(&d->front_shoulder, tailor_in_path_end(&c->gorge), end), inner, outer;
    tailor_cubic_split(&whole, 0.5, &inner, &outer);
    c->shoulder.count = c->slit.count = c->outer.count = c->scye.count = c->side.count = 0;
    tailor_in_append(&c->shoulder, inner);
    if (spread > 0.5) {
        tailor_point mouth = outer.p[0], into = left_of(tailor_cubic_direction(&outer, 0));
        double depth = fmin(k[TAILOR_CONSTANT_CANVAS_SLIT], slit_room(d, mouth, into));
        double angle = 2 * asin(fmin(spread / (2 * depth), 0.3));
        tailor_point deepest = along(mouth, into, depth);
        for (int i = 0; i < 4; i++)
            outer.p[i] = turned(outer.p[i], deepest, angle);
        leave = turned(leave, at(0, 0), angle);
        tailor_in_append(&c->slit, tailor_in_line(mouth, deepest));
        tailor_in_append(&c->slit, tailor_in_line(deepest, outer.p[0]));
        tailor_in_append(&c->outer, outer);
    } else
        tailor_in_append(&c->shoulder, outer);
    end = outer.p[3];

    /* Under the arm the scye bends too tightly to go far beyond it. */
    double under = fmin(beyond, 0.45 * fmin(lower->p[0].x - lower->p[3].x, lower->p[0].y - lower->p[3].y));
    tailor_point plumb = along(lower->p[0], at(-1, 0), under);
    tailor_point low = along(lower->p[3], right_of(tailor_cubic_direction(lower, 1)), under);
    double height = distance(end, plumb);
    tailor_in_append(&c->scye, tailor_in_hermite(end, times(leave, 0.40 * height), plumb, at(0, -0.42 * height)));
    tailor_in_append(&c->scye, tailor_in_between(lower, plumb, low));
    tailor_in_append(&c->side, tailor_in_line(low, side_end(d)));
}

/** Where the canvas ends behind along the front: from the waist plumb to the last button, and on the hem. */
static void place_inner(const tailor_in_draft *d, tailor_point side, tailor_point inner[3])
{
    double width = d->k[TAILOR_CONSTANT_CANVAS_HEM],
           level = fmax(fmin(d->waist, side.y - 40), 0.4 * side.y + 0.6 * d->front_hem);
    double edge = d->centre_front + d->edge_out + tailor_in_belly_at(d, level);
    double x = edge - width, low = edge - tailor_in_belly_at(d, level) + tailor_in_belly_at(d, d->front_hem) - width;
    for (int i = 0; i < d->row_count; i++)
        x = fmin(x, d->button[i].x - BEHIND_BUTTONS);
    x = fmax(x, side.x + LEAST);
    double last = fmax(fmin(d->button[d->row_count - 1].y, level - 20), (level + d->front_hem) / 2);
    if ((int)d->f[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_ROUND)
        low = fmin(low, d->hem_front.x - PAST_ROUND);
    double behind = tailor_in_path_end(&d->front_seam_fore).x, places[4];
    low = clamp(low, behind + 0.2 * (d->hem_front.x - behind), d->hem_front.x - 0.1 * (d->hem_front.x - behind));
    size_t found = 0;
    tailor_path_cross_line(&d->hem_fore, 1, at(low, 0), at(low, 1), places, 4, &found);
    inner[0] = at(x, level);
    inner[1] = at(x, last);
    inner[2] = tailor_in_point(&d->hem_fore, found ? places[0] : 0.5);
}

tailor_in_path tailor_in_canvas_line(const tailor_in_draft *d)
{
    tailor_point side = side_end(d), inner[3];
    place_inner(d, side, inner);
    double across = inner[0].x - side.x, down = side.y - inner[0].y;
    tailor_in_path line = {3, {tailor_in_hermite(side, at(0.8 * across, 0), inner[0], at(0, -0.5 * down))}};
    tailor_path_monotone(inner, 3, line.c + 1);
    return line;
}

/** Bottom edge with the breast dart, edge along the front, hem. */
static void draw_inside(const tailor_in_draft *d, canvas *c)
{
    const double *k = d->k;
    tailor_in_path line = tailor_in_canvas_line(d);
    tailor_point low = tailor_in_path_end(&line);
    tailor_cubic bottom = line.c[0],
                 hem = tailor_cubic_part(&d->hem_fore, tailor_cubic_nearest(&d->hem_fore, low, NULL), 1);
    low = along(low, right_of(tailor_cubic_direction(&hem, 0)), k[TAILOR_CONSTANT_CANVAS_BEYOND_FRONT]);
    line.c[2] = tailor_in_between(&line.c[2], line.c[2].p[0], low);
    double across = bottom.p[3].x - bottom.p[0].x;
    c->bottom.count = c->dart.count = c->inner.count = c->hem.count = 0;
    tailor_in_append(&c->hem, tailor_in_between(&hem, low, tailor_in_path_start(&c->front)));

    double mouth = fmin(k[TAILOR_CONSTANT_CANVAS_DART], 0.15 * across);
    if (mouth > 0.5) {
        double middle = tailor_cubic_length_to(&bottom, DART_PLACE);
        tailor_cubic before = tailor_cubic_part(&bottom, 0, tailor_cubic_at_length(&bottom, middle - mouth / 2));
        tailor_cubic after = tailor_cubic_part(&bottom, tailor_cubic_at_length(&bottom, middle + mouth / 2), 1);
        tailor_point chord = sub(after.p[0], before.p[3]), into = unit(left_of(chord));
        tailor_point between = along(before.p[3], chord, 0.5);
        double shoulder = tailor_in_path_end(&c->shoulder).y;
        double highest = d->scye_line + DART_HIGHEST * (shoulder - d->scye_line) - between.y;
        tailor_point top = along(between, into, fmin(k[TAILOR_CONSTANT_CANVAS_DART_LENGTH], highest / into.y));
        tailor_in_append(&c->bottom, before);
        tailor_in_append(&c->dart, tailor_in_line(before.p[3], top));
        tailor_in_append(&c->dart, tailor_in_line(top, after.p[0]));
        tailor_in_append(&c->inner, after);
    } else
        tailor_in_append(&c->bottom, bottom);
    tailor_in_append(&c->inner, line.c[1]);
    tailor_in_append(&c->inner, line.c[2]);
}

void tailor_in_add_body_canvas(tailor_pattern *p, const tailor_in_draft *d)
{
    canvas c;
    draw_front(d, &c);
    draw_shoulder(d, &c);
    draw_inside(d, &c);
    const struct {
        int edge;
        const tailor_in_path *path;
    } edges[] = {{TAILOR_EDGE_SIDE, &c.side},
                 {TAILOR_EDGE_BOTTOM, &c.bottom},
                 {TAILOR_EDGE_DART_EDGE, &c.dart},
                 {TAILOR_EDGE_INNER_EDGE, &c.inner},
                 {TAILOR_EDGE_HEM, &c.hem},
                 {TAILOR_EDGE_FRONT_EDGE, &c.front},
                 {TAILOR_EDGE_LAPEL_EDGE, &c.lapel},
                 {TAILOR_EDGE_GORGE, &c.gorge},
                 {TAILOR_EDGE_SHOULDER, &c.shoulder},
                 {TAILOR_EDGE_SLIT_EDGE, &c.slit},
                 {TAILOR_EDGE_OUTER_SHOULDER, &c.outer},
                 {TAILOR_EDGE_SCYE, &c.scye}};
    tailor_in_add_piece(p, TAILOR_PIECE_BODY_CANVAS, 2, 1, TAILOR_SIDE_RIGHT, "canvas");
    for (size_t i = 0; i < sizeof edges / sizeof *edges; i++)
        if (edges[i].path->count)
            tailor_in_add_path(p, edges[i].edge, edges[i].path);

    tailor_in_add_point(p, TAILOR_POINT_BREAK_POINT, d->break_point);
    tailor_in_add_point(p, TAILOR_POINT_NECK_POINT, d->neck_point);
    double x = d->centre_front - 20, below = d->break_y - d->front_hem;
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(x, d->break_y - 0.6 * below),
                       at(x, d->break_y - 0.1 * below));
    tailor_in_add_line(p, TAILOR_MARKED_BREAK_LINE, TAILOR_MARK_FOLD, d->break_point, d->gorge_crossing);
    tailor_cubic bridle = tailor_in_line(d->bridle[0], d->bridle[1]);
    tailor_in_add_mark(p, TAILOR_MARKED_BRIDLE_LINE, TAILOR_MARK_LINE, &bridle, 1);
}
